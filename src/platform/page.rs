//! What happens to the page as a whole: shown, hidden, left, come back to; its address; reload. Every listener
//! lives as long as the page and may touch only what belongs to the whole app. Never asks whether the phone is online:
//! nothing here depends on it.

use super::js::{self, Fault};
use web_sys::{Event, PageTransitionEvent, VisibilityState};

/// A turn in the page's life.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Turn {
    Shown,
    /// The last one that a phone is sure to tell: it may end a hidden page without another word.
    Hidden,
    /// The page is being left or closed.
    Left,
    /// Come back to as it was, out of the browser's cache of pages: timers stood still, the database may be gone.
    Restored,
}

pub fn on_turn(heard: impl Fn(Turn) + 'static) -> Result<(), Fault> {
    let (window, document) = (js::window()?, js::document()?);
    let heard = std::rc::Rc::new(heard);
    let (seen, left, back) = (heard.clone(), heard.clone(), heard);
    let looked_at = document.clone();
    js::listen_for_good(&document, "visibilitychange", move |_: Event| match looked_at.visibility_state() {
        VisibilityState::Visible => seen(Turn::Shown),
        _ => seen(Turn::Hidden),
    })?;
    js::listen_for_good(&window, "pagehide", move |_: PageTransitionEvent| left(Turn::Left))?;
    js::listen_for_good(&window, "pageshow", move |shown: PageTransitionEvent| {
        // The first showing of every page comes without `persisted`.
        if shown.persisted() {
            back(Turn::Restored);
        }
    })
}

pub fn is_visible() -> Result<bool, Fault> {
    Ok(js::document()?.visibility_state() == VisibilityState::Visible)
}

/// The address after `#`.
pub fn address() -> Result<String, Fault> {
    Ok(js::window()?.location().hash()?)
}

/// Shows another address after `#`; the page's history grows by it.
pub fn set_address(to: &str) -> Result<(), Fault> {
    Ok(js::window()?.location().set_hash(to)?)
}

/// Hears changes of the address for as long as the page lives, the app's own included.
pub fn on_address(heard: impl Fn() + 'static) -> Result<(), Fault> {
    js::listen_for_good(js::window()?.as_ref(), "hashchange", move |_event: Event| heard())
}

/// The part of the address after `?`, with it.
pub fn search() -> Result<String, Fault> {
    Ok(js::window()?.location().search()?)
}

/// Loads the app anew from its own folder, with this search and no address after `#`.
pub fn load(search: &str) -> Result<(), Fault> {
    let location = js::window()?.location();
    Ok(location.set_href(&format!("{}{search}", location.pathname()?))?)
}

/// Prints what the page shows, by the browser's own dialogue.
pub fn print() -> Result<(), Fault> {
    js::call(js::window()?.as_ref(), "print", &[]).map(|_| ())
}

/// Takes an element of the page away, if it is there.
pub fn remove(id: &str) -> Result<(), Fault> {
    if let Some(element) = js::document()?.get_element_by_id(id) {
        element.remove();
    }
    Ok(())
}

/// Loads the page again.
pub fn reload() -> Result<(), Fault> {
    Ok(js::window()?.location().reload()?)
}
