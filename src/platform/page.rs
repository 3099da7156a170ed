//! What happens to the page as a whole: shown, hidden, left, come back to; a key pressed anywhere; reload. Every listener
//! lives as long as the page and may touch only what belongs to the whole app. Never asks whether the phone is online:
//! nothing here depends on it.

use super::js::{self, Fault};
use wasm_bindgen::JsCast;
use web_sys::{Event, HtmlElement, KeyboardEvent, PageTransitionEvent, VisibilityState};

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

/// A key that went down.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct KeyPress {
    /// What it means, "a" or "Enter".
    pub key: String,
    /// Which key it is on the board, "KeyA": a remote control may have no meaning but this.
    pub code: String,
    /// The key is held and repeats by itself.
    pub repeats: bool,
    /// With Ctrl, Alt or Meta: that belongs to the browser.
    pub with_modifier: bool,
    /// The focus is where text is typed.
    pub in_text: bool,
}

/// What to do with a key after it was heard.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum KeyUse {
    /// It was ours; the browser does nothing more with it.
    Used,
    /// Not ours.
    Passed,
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

/// Hears every key that goes down anywhere on the page.
pub fn on_key(mut heard: impl FnMut(&KeyPress) -> KeyUse + 'static) -> Result<(), Fault> {
    js::listen_for_good(js::window()?.as_ref(), "keydown", move |event: KeyboardEvent| {
        let press = KeyPress {
            key: event.key(),
            code: event.code(),
            repeats: event.repeat(),
            with_modifier: event.ctrl_key() || event.alt_key() || event.meta_key(),
            in_text: takes_text(&event),
        };
        if heard(&press) == KeyUse::Used {
            event.prevent_default();
        }
    })
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

fn takes_text(event: &KeyboardEvent) -> bool {
    let Some(target) = event.target() else { return false };
    let Ok(element) = target.dyn_into::<HtmlElement>() else { return false };
    match element.tag_name().as_str() {
        "TEXTAREA" | "SELECT" => true,
        "INPUT" => match element.get_attribute("type") {
            Some(kind) => {
                !matches!(kind.as_str(), "button" | "checkbox" | "file" | "radio" | "range" | "reset" | "submit")
            }
            None => true,
        },
        _ => element.is_content_editable(),
    }
}
