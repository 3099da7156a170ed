//! What every screen is given: the model to look at, and the ways to act. Lives as long as the page, so a handler that outlives
//! its screen still finds it. Decides nothing.

use std::sync::Arc;

use leptos::prelude::*;
use web_sys::File;

use crate::app::action::Action;
use crate::app::model::Model;
use crate::app::words;
use crate::ui::part::Part;
use crate::ui::widgets::{Clicked, Press, clicked};

/// Given by context and as an argument; a copy is a handful of indexes.
#[derive(Clone, Copy)]
pub struct Shell {
    model: RwSignal<Model>,
    send: StoredValue<Arc<dyn Fn(Action)>, LocalStorage>,
    open_file: StoredValue<Arc<dyn Fn(File)>, LocalStorage>,
    said: RwSignal<String>,
}

impl Shell {
    /// To be made at the app's root, outside every screen: what is made inside one goes with it.
    pub fn new(model: RwSignal<Model>, send: Arc<dyn Fn(Action)>, open_file: Arc<dyn Fn(File)>) -> Self {
        Self {
            model,
            send: StoredValue::new_local(send),
            open_file: StoredValue::new_local(open_file),
            said: RwSignal::new(String::new()),
        }
    }

    /// The one way in for whatever was tapped.
    pub fn send(self, action: Action) {
        let send = self.send.get_value();
        send(action);
    }

    /// What sends this action on a click: one type for every action.
    pub fn sends(self, action: Action) -> Clicked {
        clicked(move |_| self.send(action.clone()))
    }

    /// What sends this action when a key is pressed.
    pub fn press(self, action: Action) -> Press {
        Press::from(move || self.send(action.clone()))
    }

    /// A file that was chosen.
    pub fn open_file(self, file: File) {
        let open_file = self.open_file.get_value();
        open_file(file);
    }

    /// A part of the model that tells its readers only when it differs.
    pub fn view<V: PartialEq + Send + Sync + 'static>(
        self,
        f: impl Fn(&Model) -> V + Send + Sync + 'static,
    ) -> Part<V> {
        let model = self.model;
        Part::new(move || model.with(&f))
    }

    /// Said by a screen reader, once what it says now has ended.
    pub fn say(self, text: String) {
        self.said.update(|said| *said = words::said_anew(said, text));
    }

    /// What the live region holds.
    pub fn said(self) -> Signal<String> {
        self.said.into()
    }
}
