//! Owns what a hand does: thumbs, keys of a keyboard, typing, choosing a file. Touches go through the browser's own input,
//! so they are hit-tested like real ones. Refuses to tap what a thumb could not reach: it waits until it can, or says why not.

use crate::error::{Error, Result};
use crate::look::Look;
use crate::phone::Phone;
use serde_json::{Value, json};
use std::cell::Cell;
use std::path::Path;

impl Phone {
    /// A tap with one thumb at the centre of what a selector names.
    pub async fn tap(&self, css: &str) -> Result<()> {
        self.thumb_down(css).await?;
        self.thumbs_up().await
    }

    /// Two thumbs: the second comes down while the first is still there, and both go up together.
    pub async fn two_thumbs(&self, css_a: &str, css_b: &str) -> Result<()> {
        let a = touch(0, self.wait_spot(css_a).await?);
        let b = touch(1, self.wait_spot(css_b).await?);
        self.touch_event("touchStart", json!([a])).await?;
        self.touch_event("touchStart", json!([a, b])).await?;
        self.thumbs_up().await
    }

    /// Puts a thumb down and leaves it there: a held press, until [`Phone::thumbs_up`].
    pub async fn thumb_down(&self, css: &str) -> Result<()> {
        let spot = self.wait_spot(css).await?;
        self.touch_event("touchStart", json!([touch(0, spot)])).await
    }

    pub async fn thumbs_up(&self) -> Result<()> {
        self.touch_event("touchEnd", json!([])).await
    }

    /// A thumb down on one thing, slid to another in a few steps, at rest there, and up again. Lifted while it moves it would be a
    /// flick, and the browser takes the next tap for the end of that.
    pub async fn drag(&self, css_from: &str, css_to: &str) -> Result<()> {
        const STEPS: i32 = 8;
        let (from, to) = (self.wait_spot(css_from).await?, self.wait_spot(css_to).await?);
        self.touch_event("touchStart", json!([touch(0, from)])).await?;
        for step in 1..=STEPS {
            let part = f64::from(step) / f64::from(STEPS);
            let spot = (from.0 + (to.0 - from.0) * part, from.1 + (to.1 - from.1) * part);
            self.touch_event("touchMove", json!([touch(0, spot)])).await?;
        }
        for nudge in [0.5, 0.0] {
            tokio::time::sleep(Self::REST).await;
            self.touch_event("touchMove", json!([touch(0, (to.0, to.1 + nudge))])).await?;
        }
        self.thumbs_up().await
    }

    /// How long a thumb rests before it is lifted.
    const REST: std::time::Duration = std::time::Duration::from_millis(200);

    /// A tap at a place of the view, in CSS pixels, whatever is there: a pocket does that.
    pub async fn tap_at(&self, x: f64, y: f64) -> Result<()> {
        self.touch_event("touchStart", json!([touch(0, (x, y))])).await?;
        self.thumbs_up().await
    }

    /// Scrolls until what a selector names is in the middle of the view, as a finger would; or where nothing lies over it.
    pub async fn scroll_to(&self, css: &str) -> Result<()> {
        self.wait_for(css).await?;
        let bring = format!(
            "(() => {{ const e = document.querySelector({}); if (!e) return null; ({BRING})(e); return e.getBoundingClientRect().top; }})()",
            json!(css)
        );
        // Until it stays where it was brought: a screen that has just come goes to its own top once it is drawn.
        let before = Cell::new(None);
        self.wait(&format!("{css} to stay in view"), async |phone| {
            let top = phone.eval(&bring).await?.as_f64();
            let stays = top.is_some() && before.replace(top) == top;
            Ok(if stays { Look::Done(()) } else { Look::NotYet("moving".to_owned()) })
        })
        .await
    }

    /// Taps a field and replaces what is in it. A choice, a date or a slider is set to the value.
    pub async fn type_into(&self, css: &str, text: &str) -> Result<()> {
        self.wait_for(css).await?;
        let field = format!("document.querySelector({})", json!(css));
        if self.eval(&format!("({IS_SET})({field})")).await? == json!(true) {
            return self.eval(&format!("({SET})({field}, {})", json!(text))).await.map(drop);
        }
        self.tap(css).await?;
        self.wait_until(&format!("{css} to have the keyboard"), &format!("document.activeElement === {field}")).await?;
        self.eval(&format!("({SELECT})({field})")).await?;
        match text {
            "" => self.key("Delete").await,
            text => self.cdp("Input.insertText", json!({ "text": text })).await.map(drop),
        }
    }

    /// Presses a key of a keyboard and lets it go: `"a"`, `"1"`, `" "`, `"Enter"`, `"ArrowLeft"` …
    pub async fn key(&self, key: &str) -> Result<()> {
        self.key_held(key, 0).await
    }

    /// Holds a key so long that it comes again so many times by itself.
    pub async fn key_held(&self, key: &str, n_repeats: u32) -> Result<()> {
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

    /// Chooses a file for the file field that a selector names; the field itself need not be shown.
    pub async fn choose_file(&self, css: &str, file: &Path) -> Result<()> {
        let script = format!("document.querySelector({})", json!(css));
        let object = self
            .wait(&format!("{css} to be there"), async |phone| {
                let answer = phone.cdp("Runtime.evaluate", json!({ "expression": script })).await?;
                let id = answer["result"]["objectId"].as_str();
                Ok(id.map_or_else(|| Look::NotYet("not there".to_string()), |id| Look::Done(id.to_string())))
            })
            .await?;
        self.cdp("DOM.setFileInputFiles", json!({ "files": [file], "objectId": object })).await.map(drop)
    }

    async fn touch_event(&self, kind: &str, points: Value) -> Result<()> {
        self.cdp("Input.dispatchTouchEvent", json!({ "type": kind, "touchPoints": points })).await.map(drop)
    }
}

fn touch(id: u8, (x, y): (f64, f64)) -> Value {
    json!({ "x": x, "y": y, "id": id, "radiusX": 8, "radiusY": 8, "force": 1 })
}

fn key_event(key: &str) -> Result<Value> {
    let one = key.chars().next().filter(|_| key.chars().count() == 1);
    let (code, number, text) = match (key, one) {
        ("Enter", _) => ("Enter".to_string(), 13, "\r"),
        (" ", _) => ("Space".to_string(), 32, " "),
        ("Tab", _) => ("Tab".to_string(), 9, ""),
        ("Escape", _) => ("Escape".to_string(), 27, ""),
        ("Backspace", _) => ("Backspace".to_string(), 8, ""),
        ("Delete", _) => ("Delete".to_string(), 46, ""),
        ("PageUp", _) => ("PageUp".to_string(), 33, ""),
        ("PageDown", _) => ("PageDown".to_string(), 34, ""),
        ("End", _) => ("End".to_string(), 35, ""),
        ("Home", _) => ("Home".to_string(), 36, ""),
        ("ArrowLeft", _) => ("ArrowLeft".to_string(), 37, ""),
        ("ArrowUp", _) => ("ArrowUp".to_string(), 38, ""),
        ("ArrowRight", _) => ("ArrowRight".to_string(), 39, ""),
        ("ArrowDown", _) => ("ArrowDown".to_string(), 40, ""),
        (_, Some(c)) if c.is_ascii_digit() => (format!("Digit{c}"), u32::from(c), key),
        (_, Some(c)) if c.is_ascii_alphabetic() => {
            (format!("Key{}", c.to_ascii_uppercase()), u32::from(c.to_ascii_uppercase()), key)
        }
        (_, Some(_)) => (String::new(), 0, key),
        _ => return Err(Error::Script { step: format!("key {key}"), why: "no such key is known".to_string() }),
    };
    let mut event =
        json!({ "key": key, "code": code, "windowsVirtualKeyCode": number, "nativeVirtualKeyCode": number });
    if !text.is_empty() {
        event["text"] = json!(text);
    }
    Ok(event)
}

const BRING: &str = r"e => ['center', 'start', 'end', 'center'].find(block => {
    e.scrollIntoView({ block, inline: 'center', behavior: 'instant' });
    const b = e.getBoundingClientRect(), hit = document.elementFromPoint(b.x + b.width / 2, b.y + b.height / 2);
    return hit && (e.contains(hit) || hit.contains(e));
})";

/// Fields that a phone fills by a picker, not by typing.
const IS_SET: &str =
    "e => e.matches('select, input:is([type=date], [type=time], [type=datetime-local], [type=range], [type=color])')";

/// Through the prototype's setter, so that a framework that watches the property sees it as it sees a person's choice.
const SET: &str = r"(e, value) => {
    Object.getOwnPropertyDescriptor(Object.getPrototypeOf(e), 'value').set.call(e, value);
    for (const kind of ['input', 'change']) e.dispatchEvent(new Event(kind, { bubbles: true }));
}";

const SELECT: &str = "e => e.select ? e.select() : getSelection().selectAllChildren(e)";
