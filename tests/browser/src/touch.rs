//! Owns what a hand does: thumbs, typing, choosing a file. Touches go through the browser's own input (Chromium's by its protocol, so
//! that the bench measures nothing of its driver; elsewhere by the drivers' actions), so they are hit-tested like real ones. Refuses to
//! tap what a thumb could not reach: it waits until it can, or says why not.

use crate::engine::{Can, Engine};
use crate::error::{Error, Result};
use crate::look::Look;
use crate::phone::Phone;
use serde_json::{Value, json};
use std::cell::Cell;
use std::path::Path;
use std::time::{Duration, Instant};
use thirtyfour::By;
use thirtyfour::common::command::{Actions, Command};

/// A place of the view, in CSS pixels.
type Spot = (f64, f64);

/// Where the thumbs are that are down.
#[derive(Debug, Default)]
pub(crate) struct Hand(Vec<Spot>);

impl Hand {
    /// A browser that starts knows of no thumb.
    pub(crate) fn forget(&mut self) {
        self.0.clear();
    }
}

impl Phone {
    /// A tap with one thumb at the centre of what a selector names.
    pub async fn tap(&self, css: &str) -> Result<()> {
        let spot = self.wait_spot(css).await?;
        self.touch(spot).await
    }

    /// Two thumbs: the second comes down while the first is still there, and both go up together.
    pub async fn two_thumbs(&self, css_a: &str, css_b: &str) -> Result<()> {
        self.engine.must(Can::Fingers)?;
        let (a, b) = (self.wait_spot(css_a).await?, self.wait_spot(css_b).await?);
        self.down(a).await?;
        self.down(b).await?;
        self.thumbs_up().await
    }

    /// Puts a thumb down and leaves it there: a held press, until [`Phone::thumbs_up`].
    pub async fn thumb_down(&self, css: &str) -> Result<()> {
        let spot = self.wait_spot(css).await?;
        self.down(spot).await
    }

    pub async fn thumbs_up(&self) -> Result<()> {
        let down = std::mem::take(&mut self.hand().0);
        if self.engine == Engine::Chromium {
            return self.touch_event("touchEnd", &[]).await;
        }
        self.act(down.iter().map(|_| vec![json!({ "type": "pointerUp", "button": 0 })]).collect()).await
    }

    /// A thumb down on one thing, slid to another in a few steps, at rest there, and up again. Lifted while it moves it would be a
    /// flick, and the browser takes the next tap for the end of that.
    pub async fn drag(&self, css_from: &str, css_to: &str) -> Result<()> {
        const STEPS: i32 = 8;
        let (from, to) = (self.wait_spot(css_from).await?, self.wait_spot(css_to).await?);
        self.down(from).await?;
        for step in 1..=STEPS {
            let part = f64::from(step) / f64::from(STEPS);
            self.slide((from.0 + (to.0 - from.0) * part, from.1 + (to.1 - from.1) * part)).await?;
        }
        for nudge in [0.5, 0.0] {
            tokio::time::sleep(Self::REST).await;
            self.slide((to.0, to.1 + nudge)).await?;
        }
        self.thumbs_up().await
    }

    /// After how long a field that hasn't the keyboard is tapped again.
    const AGAIN: Duration = Duration::from_secs(4);

    /// How long a thumb rests before it is lifted.
    const REST: Duration = Duration::from_millis(200);

    /// A tap at a place of the view, in CSS pixels, whatever is there: a pocket does that.
    pub async fn tap_at(&self, x: f64, y: f64) -> Result<()> {
        self.touch((x, y)).await
    }

    /// Scrolls until what a selector names is in the middle of the view, as a finger would; or where nothing lies over it.
    pub async fn scroll_to(&self, css: &str) -> Result<()> {
        self.wait_for(css).await?;
        let element = format!("document.querySelector({})", json!(css));
        // Until it stays where it was brought: a screen that has just come goes to its own top once it is drawn.
        let before = Cell::new(None::<f64>);
        self.wait(&format!("{css} to stay in view"), async |phone| {
            // Brought once, and again only where it can't be reached: in a box that scrolls too, the same order need not end at the same place.
            let always = before.get().is_none();
            let bring = format!("(e => {{ if (!e) return null; if ({always} || !({REACHED})(e)) ({BRING})(e); return e.getBoundingClientRect().top; }})({element})");
            let top = phone.eval(&phone.between_frames(&bring)).await?.as_f64();
            let stays = top.zip(before.replace(top)).is_some_and(|(now, before)| (now - before).abs() < 1.0);
            Ok(if stays { Look::Done(()) } else { Look::NotYet(format!("moving, at {top:?}")) })
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
        let (has, tapped) = (format!("document.activeElement === {field}"), Cell::new(Instant::now()));
        self.wait(&format!("{css} to have the keyboard"), async |phone| {
            if phone.eval(&has).await? == json!(true) {
                return Ok(Look::Done(()));
            }
            // On a machine with too much to do a driver's tap now and then comes to nothing; a person taps again too.
            if tapped.get().elapsed() > Self::AGAIN {
                phone.tap(css).await?;
                tapped.set(Instant::now());
            }
            Ok(Look::NotYet("without it".to_owned()))
        })
        .await?;
        self.eval(&format!("({SELECT})({field})")).await?;
        match text {
            "" => self.key("Delete").await,
            text if self.engine == Engine::Chromium => {
                self.cdp("Input.insertText", json!({ "text": text })).await.map(drop)
            }
            text => {
                let put = format!("document.execCommand('insertText', false, {})", json!(text));
                self.wait_until(&format!("{css} to take what is typed"), &put).await.map(drop)
            }
        }
    }

    /// Chooses a file for the file field that a selector names; the field itself need not be shown.
    pub async fn choose_file(&self, css: &str, file: &Path) -> Result<()> {
        self.wait_until(&format!("{css} to be there"), &format!("!!document.querySelector({})", json!(css))).await?;
        let field = self.web()?.find(By::Css(css)).await.map_err(Error::driver(format!("finding {css}")))?;
        let path = file.display().to_string();
        field.send_keys(path.clone()).await.map_err(Error::driver(format!("choosing {path}")))
    }

    /// Down and up. In one order where a driver is told: between two the browser might take it for a long press.
    async fn touch(&self, spot: Spot) -> Result<()> {
        if self.engine == Engine::Chromium {
            self.down(spot).await?;
            return self.thumbs_up().await;
        }
        let button = |kind: &str| json!({ "type": kind, "button": 0 });
        self.act(vec![vec![go(spot), button("pointerDown"), button("pointerUp")]]).await
    }

    /// One thumb more.
    async fn down(&self, spot: Spot) -> Result<()> {
        let down = {
            let mut hand = self.hand();
            hand.0.push(spot);
            hand.0.clone()
        };
        if self.engine == Engine::Chromium {
            return self.touch_event("touchStart", &down).await;
        }
        let mut fingers = vec![Vec::new(); down.len() - 1];
        fingers.push(vec![go(spot), json!({ "type": "pointerDown", "button": 0 })]);
        self.act(fingers).await
    }

    /// The only thumb that is down, to another place.
    async fn slide(&self, spot: Spot) -> Result<()> {
        self.hand().0 = vec![spot];
        match self.engine {
            Engine::Chromium => self.touch_event("touchMove", &[spot]).await,
            Engine::Firefox | Engine::WebKit => self.act(vec![vec![go(spot)]]).await,
        }
    }

    async fn touch_event(&self, kind: &str, down: &[Spot]) -> Result<()> {
        let points: Vec<Value> = down
            .iter()
            .enumerate()
            .map(|(id, (x, y))| json!({ "x": x, "y": y, "id": id, "radiusX": 8, "radiusY": 8, "force": 1 }))
            .collect();
        self.cdp("Input.dispatchTouchEvent", json!({ "type": kind, "touchPoints": points })).await.map(drop)
    }

    /// What each finger does, by the driver.
    async fn act(&self, fingers: Vec<Vec<Value>>) -> Result<()> {
        let sources = fingers.into_iter().enumerate().map(|(number, acts)| {
            json!({ "type": "pointer", "id": format!("finger {number}"), "parameters": { "pointerType": "touch" }, "actions": acts })
        });
        self.perform(sources.collect()).await
    }

    pub(crate) async fn perform(&self, sources: Vec<Value>) -> Result<()> {
        let acting = self.web()?.handle().cmd(Command::PerformActions(Actions::from(Value::Array(sources)))).await;
        acting.map_err(Error::driver("moving a hand")).map(drop)
    }
}

/// The drivers take whole pixels.
fn go((x, y): Spot) -> Value {
    json!({ "type": "pointerMove", "duration": 0, "origin": "viewport", "x": x.round(), "y": y.round() })
}

/// Whether a thumb at its centre would touch it.
const REACHED: &str = r"e => {
    const b = e.getBoundingClientRect(), hit = document.elementFromPoint(b.x + b.width / 2, b.y + b.height / 2);
    return hit && (e.contains(hit) || hit.contains(e));
}";

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
