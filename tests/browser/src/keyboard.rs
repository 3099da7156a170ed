//! Owns the keys of a keyboard, or of a remote: pressed, and held so long that they come again. Refuses a key that it has no name for.

use crate::engine::{Can, Engine};
use crate::error::{Error, Result};
use crate::phone::Phone;
use serde_json::{Value, json};

impl Phone {
    /// Presses a key of a keyboard and lets it go: `"a"`, `"1"`, `" "`, `"Enter"`, `"ArrowLeft"` …
    pub async fn key(&self, key: &str) -> Result<()> {
        self.key_held(key, 0).await
    }

    /// Holds a key so long that it comes again so many times by itself.
    pub async fn key_held(&self, key: &str, n_repeats: u32) -> Result<()> {
        if n_repeats > 0 {
            self.engine.must(Can::HeldKeys)?;
        }
        if self.engine != Engine::Chromium {
            let sign = sign(key)?;
            let mut acts: Vec<Value> = (0..=n_repeats).map(|_| json!({ "type": "keyDown", "value": sign })).collect();
            acts.push(json!({ "type": "keyUp", "value": sign }));
            return self.perform(vec![json!({ "type": "key", "id": "keyboard", "actions": acts })]).await;
        }
        let mut event = key_event(key)?;
        event["type"] = json!("keyDown");
        self.cdp("Input.dispatchKeyEvent", event.clone()).await?;
        event["autoRepeat"] = json!(true);
        for _ in 0..n_repeats {
            self.cdp("Input.dispatchKeyEvent", event.clone()).await?;
        }
        event["type"] = json!("keyUp");
        event["autoRepeat"] = json!(false);
        if let Some(event) = event.as_object_mut() {
            event.remove("text");
        }
        self.cdp("Input.dispatchKeyEvent", event).await.map(drop)
    }
}

/// Keys with a name: code, number, what they type, and the sign for them (W3C WebDriver 17.4.2, keyboard actions).
const NAMED: [(&str, &str, u32, &str, char); 14] = [
    ("Enter", "Enter", 13, "\r", '\u{e006}'),
    (" ", "Space", 32, " ", ' '),
    ("Tab", "Tab", 9, "", '\u{e004}'),
    ("Escape", "Escape", 27, "", '\u{e00c}'),
    ("Backspace", "Backspace", 8, "", '\u{e003}'),
    ("Delete", "Delete", 46, "", '\u{e017}'),
    ("PageUp", "PageUp", 33, "", '\u{e00e}'),
    ("PageDown", "PageDown", 34, "", '\u{e00f}'),
    ("End", "End", 35, "", '\u{e010}'),
    ("Home", "Home", 36, "", '\u{e011}'),
    ("ArrowLeft", "ArrowLeft", 37, "", '\u{e012}'),
    ("ArrowUp", "ArrowUp", 38, "", '\u{e013}'),
    ("ArrowRight", "ArrowRight", 39, "", '\u{e014}'),
    ("ArrowDown", "ArrowDown", 40, "", '\u{e015}'),
];

/// A key as the drivers' actions name it.
fn sign(key: &str) -> Result<char> {
    let named = NAMED.iter().find(|named| named.0 == key).map(|named| named.4);
    named.or(only(key)).ok_or_else(|| unknown(key))
}

fn only(key: &str) -> Option<char> {
    key.chars().next().filter(|_| key.chars().count() == 1)
}

fn unknown(key: &str) -> Error {
    Error::Script { step: format!("key {key}"), why: "no such key is known".to_string() }
}

/// A key as Chromium's protocol has it.
fn key_event(key: &str) -> Result<Value> {
    let named = NAMED.iter().find(|named| named.0 == key);
    let (code, number, text) = match (named, only(key)) {
        (Some((_, code, number, text, _)), _) => ((*code).to_string(), *number, *text),
        (_, Some(c)) if c.is_ascii_digit() => (format!("Digit{c}"), u32::from(c), key),
        (_, Some(c)) if c.is_ascii_alphabetic() => {
            (format!("Key{}", c.to_ascii_uppercase()), u32::from(c.to_ascii_uppercase()), key)
        }
        (_, Some(_)) => (String::new(), 0, key),
        _ => return Err(unknown(key)),
    };
    let mut event =
        json!({ "key": key, "code": code, "windowsVirtualKeyCode": number, "nativeVirtualKeyCode": number });
    if !text.is_empty() {
        event["text"] = json!(text);
    }
    Ok(event)
}
