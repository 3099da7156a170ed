//! What a screen reads of a model: it tells its readers only when it differs. The values lie erased, so that memos, signals and
//! what belongs to them are compiled for one type and not once for every type that is shown.

use std::any::Any;
use std::marker::PhantomData;
use std::sync::Arc;

use leptos::prelude::*;

/// A value of a part. A copy is a count.
#[derive(Clone)]
struct Held(Arc<dyn Value>);

/// What can be shown and compared.
trait Value: Any + Send + Sync {
    fn is(&self, other: &dyn Any) -> bool;
}

impl<T: PartialEq + Send + Sync + 'static> Value for T {
    fn is(&self, other: &dyn Any) -> bool {
        other.downcast_ref::<T>() == Some(self)
    }
}

impl PartialEq for Held {
    fn eq(&self, other: &Self) -> bool {
        Value::is(&*self.0, &*other.0)
    }
}

impl Held {
    fn new<T: PartialEq + Send + Sync + 'static>(value: T) -> Self {
        Self(Arc::new(value))
    }

    fn of<T: 'static>(&self) -> &T {
        let value: &dyn Any = &*self.0;
        // A part is made with values of its own type and given none of another.
        value.downcast_ref().expect("a part holds its own type")
    }
}

#[derive(Clone, Copy)]
enum Source {
    /// Worked out when what it reads has changed.
    Worked(Memo<Held>),
    /// Told by another.
    Told(RwSignal<Held>),
}

impl Source {
    fn get(self) -> Held {
        match self {
            Self::Worked(memo) => memo.get(),
            Self::Told(signal) => signal.get(),
        }
    }

    fn try_get_untracked(self) -> Option<Held> {
        match self {
            Self::Worked(memo) => memo.try_get_untracked(),
            Self::Told(signal) => signal.try_get_untracked(),
        }
    }
}

/// A copy is an index.
pub struct Part<T> {
    source: Source,
    holds: PhantomData<fn() -> T>,
}

impl<T> Clone for Part<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> Copy for Part<T> {}

impl<T: PartialEq + Send + Sync + 'static> Part<T> {
    /// Worked out anew whenever what `f` reads has changed, and not before somebody asks.
    ///
    /// Nothing that draws reads first a part that follows from another and then that other one: Leptos (reactive_graph 0.2) asks in
    /// the order of reading, learns that the first is as it was, has by then worked the other out, and no longer sees it change.
    pub fn new(f: impl Fn() -> T + Send + Sync + 'static) -> Self {
        Self::from_source(worked(Box::new(move || Held::new(f()))))
    }

    /// Changed by `tell` alone.
    pub fn told(first: T) -> Self {
        Self::from_source(Source::Told(RwSignal::new(Held::new(first))))
    }

    const fn from_source(source: Source) -> Self {
        Self { source, holds: PhantomData }
    }

    /// The value of a part made by `told` from now on.
    pub fn tell(self, now: T) {
        let Source::Told(signal) = self.source else { return };
        // `None`: its screen has gone, and nobody is left to be told.
        if signal.try_get_untracked().is_some_and(|before| *before.of::<T>() != now) {
            signal.set(Held::new(now));
        }
    }
}

impl<T: 'static> Part<T> {
    pub fn with<R>(self, f: impl FnOnce(&T) -> R) -> R {
        f(self.source.get().of())
    }

    /// Panics once its screen has gone, as a signal of Leptos does: for what runs while the screen stands.
    pub fn with_untracked<R>(self, f: impl FnOnce(&T) -> R) -> R {
        f(self.source.try_get_untracked().expect("read while it lives").of())
    }

    pub fn track(self) {
        self.source.get();
    }
}

impl<T: Clone + 'static> Part<T> {
    pub fn get(self) -> T {
        self.with(T::clone)
    }

    pub fn get_untracked(self) -> T {
        self.with_untracked(T::clone)
    }

    /// `None`: its screen has gone.
    pub fn try_get_untracked(self) -> Option<T> {
        self.source.try_get_untracked().map(|held| held.of::<T>().clone())
    }
}

impl<T: Clone + Send + Sync + 'static> From<Part<T>> for Signal<T> {
    fn from(part: Part<T>) -> Self {
        Signal::derive(move || part.get())
    }
}

fn worked(f: Box<dyn Fn() -> Held + Send + Sync>) -> Source {
    Source::Worked(Memo::new(move |_| f()))
}

/// Does it once the screen is drawn, and again whenever what it reads has changed. Boxed: Leptos' effect is compiled once.
pub fn watch(f: impl FnMut() + 'static) {
    watch_boxed(Box::new(f));
}

fn watch_boxed(f: Box<dyn FnMut()>) {
    Effect::new(f);
}
