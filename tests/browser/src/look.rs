//! Owns reading the page and waiting for it. Each wait is for a condition, asked every few milliseconds, with the phone's
//! limit and an error that says what was awaited and what the page shows. Refuses to wait for a time, and to act.

use crate::engine::Engine;
use crate::error::{Error, Result};
use crate::phone::Phone;
use serde_json::{Value, json};
use std::cell::Cell;
use std::path::Path;
use std::time::{Duration, Instant};

/// How long between two looks at the page.
const PAUSE: Duration = Duration::from_millis(10);
/// How much of the page's text an error quotes, in characters.
const QUOTE: usize = 1500;

/// What a look at the page found.
pub(crate) enum Look<T> {
    Done(T),
    /// Not yet, and how it is at present.
    NotYet(String),
}

impl Phone {
    /// Waits until an expression is neither null, false, 0 nor empty, and returns its value.
    pub async fn wait_until(&self, what: &str, script: &str) -> Result<Value> {
        self.wait(what, async |phone| {
            let value = phone.eval(script).await?;
            let empty = matches!(&value, Value::Null | Value::Bool(false)) || value == json!(0) || value == json!("");
            Ok(if empty { Look::NotYet(value.to_string()) } else { Look::Done(value) })
        })
        .await
    }

    /// Waits until something is shown that a selector names.
    pub async fn wait_for(&self, css: &str) -> Result<()> {
        self.wait_until(&format!("{css} to be shown"), &shown(css)).await.map(drop)
    }

    /// Waits until nothing is shown that a selector names.
    pub async fn wait_gone(&self, css: &str) -> Result<()> {
        self.wait_until(&format!("{css} to be gone"), &format!("!{}", shown(css))).await.map(drop)
    }

    /// Waits until the text of what a selector names is as wished, and returns it. `wish` says so in words.
    pub async fn wait_text(&self, css: &str, wish: &str, is: impl Fn(&str) -> bool) -> Result<String> {
        self.wait(&format!("the text of {css} to be {wish}"), async |phone| {
            Ok(match phone.eval(&text_of(css)).await?.as_str() {
                Some(text) if is(text) => Look::Done(text.to_string()),
                Some(text) => Look::NotYet(format!("\"{text}\"")),
                None => Look::NotYet("nothing there".to_string()),
            })
        })
        .await
    }

    /// The text of what a selector names, as it is shown, with single spaces; waits until it is there.
    pub async fn text(&self, css: &str) -> Result<String> {
        self.wait_text(css, "anything", |_| true).await
    }

    /// The whole text of the page, line by line.
    pub async fn page_text(&self) -> Result<String> {
        let text = self.eval("document.body?.innerText ?? ''").await?;
        Ok(text.as_str().unwrap_or_default().to_string())
    }

    /// How many elements a selector names at this moment, shown or not.
    pub async fn count(&self, css: &str) -> Result<usize> {
        let n = self.eval(&format!("document.querySelectorAll({}).length", json!(css))).await?;
        Ok(n.as_u64().and_then(|n| usize::try_from(n).ok()).unwrap_or(0))
    }

    /// An attribute of what a selector names, or `None` when it has none; waits until the element is there.
    pub async fn attr(&self, css: &str, name: &str) -> Result<Option<String>> {
        let script = format!("document.querySelector({})", json!(css));
        self.wait_until(&format!("{css} to be there"), &format!("!!{script}")).await?;
        let value = self.eval(&format!("{script}?.getAttribute({})", json!(name))).await?;
        Ok(value.as_str().map(str::to_string))
    }

    /// Waits until an element can be tapped (there, shown, in view, enabled, not covered), and says where its centre is.
    pub(crate) async fn wait_spot(&self, css: &str) -> Result<(f64, f64)> {
        let script = self.between_frames(&format!("({SPOT})({})", json!(css)));
        // Twice at the same spot: what opened a moment ago may still bring itself into view.
        let before = Cell::new(None);
        self.wait(&format!("{css} to be tappable"), async |phone| {
            let found = phone.eval(&script).await?;
            let spot = found["x"].as_f64().zip(found["y"].as_f64());
            Ok(match spot {
                Some(spot) if before.replace(Some(spot)) == Some(spot) => Look::Done(spot),
                Some(_) => Look::NotYet("moving".to_owned()),
                None => Look::NotYet(found.as_str().unwrap_or("unknown").to_string()),
            })
        })
        .await
    }

    /// Elsewhere than in Chromium, whose own protocol is quick, a frame goes by before a look: what a page that was drawn a moment ago
    /// still does to its place it does before the next.
    pub(crate) fn between_frames(&self, expression: &str) -> String {
        match self.engine {
            Engine::Chromium => expression.to_owned(),
            Engine::Firefox | Engine::WebKit => format!(
                "new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done))).then(() => {expression})"
            ),
        }
    }

    /// Writes a picture of what is in view.
    pub async fn screenshot(&self, path: &Path) -> Result<()> {
        if let Some(folder) = path.parent() {
            std::fs::create_dir_all(folder).map_err(Error::io(format!("making {}", folder.display())))?;
        }
        let web = self.web()?;
        web.screenshot(path).await.map_err(Error::driver(format!("taking the picture {}", path.display())))
    }

    /// Waits until a file was downloaded whole whose name is as wished, and returns where it is.
    pub async fn wait_download(&self, wish: &str, is: impl Fn(&str) -> bool) -> Result<std::path::PathBuf> {
        let folder = self.folder.downloads();
        self.wait(&format!("a downloaded file that is {wish}"), async |_| {
            let entries = std::fs::read_dir(&folder).map_err(Error::io("reading the downloads"))?;
            let names: Vec<String> =
                entries.flatten().filter_map(|entry| entry.file_name().into_string().ok()).collect();
            // The browser takes the name with an empty file before it puts the content there.
            let filled = |name: &str| std::fs::metadata(folder.join(name)).is_ok_and(|file| file.len() > 0);
            let ours = |name: &str| {
                ![".crdownload", ".part", ".wkdownload"].iter().any(|half| name.ends_with(half))
                    && !name.starts_with('.')
                    && is(name)
            };
            let whole = names.iter().find(|name| ours(name) && filled(name));
            Ok(whole.map_or_else(|| Look::NotYet(format!("{names:?}")), |name| Look::Done(folder.join(name))))
        })
        .await
    }

    /// Asks again and again until the answer is there or the limit is over.
    pub(crate) async fn wait<T>(&self, what: &str, look: impl AsyncFn(&Self) -> Result<Look<T>>) -> Result<T> {
        let limit = Instant::now() + self.limit;
        loop {
            let last = match look(self).await {
                Ok(Look::Done(found)) => return Ok(found),
                Ok(Look::NotYet(last)) => last,
                Err(error) if is_between_pages(&error) => "the page was changing".to_string(),
                Err(error) => return Err(error),
            };
            if Instant::now() > limit {
                let page = self.page_text().await.unwrap_or_else(|error| format!("(no text: {error})"));
                return Err(Error::Awaited { what: what.to_string(), last, page: shorten(&page, QUOTE) });
            }
            tokio::time::sleep(PAUSE).await;
        }
    }
}

/// How the drivers say so.
const BETWEEN_PAGES: [&str; 8] = [
    "navigated or closed",
    "Cannot find context",
    "context was destroyed",
    "Cannot find default execution context",
    "Document was unloaded",
    "context has been discarded",
    "before the unload event",
    "page navigated",
];

/// A script that was under way when the page was left has no answer, which is no fault.
fn is_between_pages(error: &Error) -> bool {
    let Error::Driver { source, .. } = error else { return false };
    let text = source.to_string();
    BETWEEN_PAGES.iter().any(|known| text.contains(known))
}

fn shown(css: &str) -> String {
    format!(
        "[...document.querySelectorAll({})].some(e => e.checkVisibility({{ visibilityProperty: true }}) && e.getClientRects().length > 0)",
        json!(css)
    )
}

fn text_of(css: &str) -> String {
    format!(
        r"(e => e && (e.innerText ?? e.textContent).replace(/\s+/g, ' ').trim())(document.querySelector({}))",
        json!(css)
    )
}

pub(crate) fn shorten(text: &str, n_characters: usize) -> String {
    match text.char_indices().nth(n_characters) {
        Some((end, _)) => format!("{} …", &text[..end]),
        None => text.to_string(),
    }
}

/// Where a thumb would land, or in words why it can't.
const SPOT: &str = r#"css => {
    const e = document.querySelector(css);
    if (!e) return "not there";
    if (!e.checkVisibility({ visibilityProperty: true })) return "there, but not shown";
    if (e.closest(':disabled, [aria-disabled="true"], [inert]')) return "there, but disabled";
    const r = e.getBoundingClientRect();
    const x = r.left + r.width / 2, y = r.top + r.height / 2;
    if (r.width < 1 || r.height < 1) return "there, but without a size";
    if (x < 0 || y < 0 || x >= innerWidth || y >= innerHeight)
        return `outside the view: its centre is at ${Math.round(x)}, ${Math.round(y)} and the view is ${innerWidth} x ${innerHeight}`;
    const top = document.elementFromPoint(x, y);
    if (top && (top === e || e.contains(top))) return { x, y };
    return `covered by ${top ? top.cloneNode(false).outerHTML : "nothing that can be touched"}`;
}"#;
