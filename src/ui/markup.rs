//! Markup whose type is erased at once. What holds it (a list, a choice, a closure) is then compiled once, and not once for every
//! shape that may stand in it.

use std::sync::{Arc, Mutex};

use leptos::either::Either;
use leptos::prelude::*;
use leptos::tachys::reactive_graph::SharedReactiveFunction;

use crate::ui::part::Part;

/// Leptos' `view!`, erased.
macro_rules! erased {
    ($($markup:tt)*) => {
        ::leptos::prelude::IntoAny::into_any(::leptos::prelude::view! { $($markup)* })
    };
}
pub(crate) use erased as view;

/// What is drawn anew when what it reads has changed. Leptos does the same to a closure that is written inside markup.
pub fn live<V: 'static>(f: impl FnMut() -> V + Send + 'static) -> SharedReactiveFunction<V> {
    Arc::new(Mutex::new(f))
}

/// Boxed, so that `Show` is compiled once.
pub struct When(Box<dyn Fn() -> bool + Send + Sync>);

impl<F: Fn() -> bool + Send + Sync + 'static> From<F> for When {
    fn from(when: F) -> Self {
        Self(Box::new(when))
    }
}

/// Its children while something holds, else what stands there instead: as Leptos' own.
#[component]
pub fn Show(#[prop(into)] when: When, #[prop(optional, into)] fallback: ViewFn, children: ChildrenFn) -> impl IntoView {
    let on = Part::new(move || (when.0)());
    live(move || if on.get() { Either::Left(children()) } else { Either::Right(fallback.run()) })
}
