//! What a key does when it is pressed. Boxed, so that a key is compiled once and not once for everything it may do.

use std::rc::Rc;

use leptos::ev::MouseEvent;

#[derive(Clone)]
pub struct Press(Rc<dyn Fn()>);

impl Press {
    pub fn call(&self) {
        (self.0)();
    }
}

impl<F: Fn() + 'static> From<F> for Press {
    fn from(press: F) -> Self {
        Press(Rc::new(press))
    }
}

/// The same for what has two ways: on or off, more or less.
#[derive(Clone)]
pub struct Turn(Rc<dyn Fn(bool)>);

impl Turn {
    pub fn call(&self, way: bool) {
        (self.0)(way);
    }
}

impl<F: Fn(bool) + 'static> From<F> for Turn {
    fn from(turn: F) -> Self {
        Turn(Rc::new(turn))
    }
}

/// The same for a plain button, which answers to a click.
pub type Clicked = Box<dyn FnMut(MouseEvent)>;

pub fn clicked(f: impl FnMut(MouseEvent) + 'static) -> Clicked {
    Box::new(f)
}
