//! One view model with many readers. It is compared once a change, and each reader is told only when its own part differs. A memo
//! for every part did the same and cost more at every tap: each one is marked, asked and compared whatever has changed.

use leptos::prelude::*;

use crate::ui::part::{Part, watch};

/// Tells one reader of its part, if that differs.
type Reader<V> = Box<dyn Fn(&V)>;

/// A view model whose parts are read. A copy is a handful of indexes; it goes with the screen that made it.
pub struct Watched<V: Send + Sync + 'static> {
    view: Part<Option<V>>,
    /// What it was when the screen was drawn: read only if the model has nothing any more, which the screen doesn't outlive.
    first: StoredValue<V>,
    readers: StoredValue<Readers<V>, LocalStorage>,
}

struct Readers<V> {
    next: u32,
    list: Vec<(u32, Reader<V>)>,
}

impl<V: Send + Sync> Clone for Watched<V> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<V: Send + Sync> Copy for Watched<V> {}

impl<V: Send + Sync + 'static> Watched<V> {
    /// Watches `view`; while it has nothing (the screen is on its way out) all parts stay as they are.
    pub fn new(view: Part<Option<V>>, first: V) -> Self {
        let watched = Self {
            view,
            first: StoredValue::new(first),
            readers: StoredValue::new_local(Readers { next: 0, list: Vec::new() }),
        };
        watch(move || {
            watched.view.with(|now| {
                if let Some(now) = now {
                    watched.readers.with_value(|readers| readers.list.iter().for_each(|(_, tell)| tell(now)));
                }
            });
        });
        watched
    }

    /// A part of it, until the owner that asks for it goes.
    pub fn part<T: PartialEq + Send + Sync + 'static>(self, f: impl Fn(&V) -> T + 'static) -> Part<T> {
        let part = Part::told(self.now(&f));
        self.read(Box::new(move |view| part.tell(f(view))));
        part
    }

    fn read(self, tell: Reader<V>) {
        let mut id = 0;
        self.readers.update_value(|readers| {
            id = readers.next;
            readers.next += 1;
            readers.list.push((id, tell));
        });
        on_cleanup(move || {
            // `None`: the whole of it has gone already.
            self.readers.try_update_value(|readers| readers.list.retain(|(other, _)| *other != id));
        });
    }

    /// As it is now, read once.
    pub fn now<R>(self, f: impl Fn(&V) -> R) -> R {
        let now = self.view.with_untracked(|view| view.as_ref().map(&f));
        now.unwrap_or_else(|| self.first.with_value(f))
    }
}
