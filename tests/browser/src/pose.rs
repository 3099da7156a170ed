//! Owns what is put on the phone and stays on it over reloads, new tabs and restarts: screen size, touch, colour scheme,
//! processor speed, clock, free space, and scripts that run before each document. Refuses to act on the page itself.

use crate::engine::{Can, Engine};
use crate::error::{Error, Result};
use crate::look::Look;
use crate::phone::Phone;
use serde_json::json;
use std::cell::Cell;

/// A screen's size in CSS pixels.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Screen {
    pub width: u32,
    pub height: u32,
}

impl Screen {
    /// A common phone of these years.
    pub const TALL: Self = Self { width: 390, height: 844 };
    /// A small one, still in use.
    pub const SMALL: Self = Self { width: 360, height: 640 };
}

/// What is on at present, so that it can be put on a new tab as well.
#[derive(Debug, Clone)]
pub(crate) struct Pose {
    pub(crate) screen: Screen,
    dark: Option<bool>,
    slower: f64,
    quota_bytes: Option<u64>,
    clock_ms: i64,
    scripts: Vec<String>,
}

impl Pose {
    pub(crate) fn new(screen: Screen) -> Self {
        Self {
            screen,
            dark: None,
            slower: 1.0,
            quota_bytes: None,
            clock_ms: 0,
            scripts: vec![WATCHER.to_string(), LATER.to_string(), CLOCK.to_string()],
        }
    }

    /// All that runs before a document, in order.
    fn all_scripts(&self) -> Vec<String> {
        let clock = (self.clock_ms != 0).then(|| clock(self.clock_ms));
        self.scripts.iter().cloned().chain(clock).collect()
    }
}

impl Phone {
    /// Another screen size: turned on its side, or narrow.
    pub async fn screen(&mut self, screen: Screen) -> Result<()> {
        self.pose.screen = screen;
        self.put_on_screen().await
    }

    /// The phone's own choice of a dark or a light scheme.
    pub async fn dark(&mut self, dark: bool) -> Result<()> {
        self.pose.dark = Some(dark);
        self.put_on_scheme().await
    }

    /// The processor takes so many times as long: 4.0 is a cheap phone, 1.0 is this machine.
    pub async fn slow_cpu(&mut self, times: f64) -> Result<()> {
        self.pose.slower = times;
        self.put_on_speed().await
    }

    /// How many bytes the app's origin may keep; `None` is the browser's own limit. Below what is in use it means that the
    /// phone is full, and storage fails as it really does.
    pub async fn quota(&mut self, bytes: Option<u64>) -> Result<()> {
        self.pose.quota_bytes = bytes;
        self.put_on_quota().await
    }

    /// Runs `script` before every document of every tab from now on, and before any script of the page. It is not run in
    /// workers, and not in the document that is open already.
    pub async fn inject(&mut self, script: &str) -> Result<()> {
        self.pose.scripts.push(script.to_string());
        if let Some(front) = &self.front {
            front.put_on(&self.pose.all_scripts());
            return Ok(());
        }
        self.in_every_tab(async |phone| phone.add_script(script).await).await
    }

    /// Sets the wall clock of all pages so many milliseconds off the real one, in the open document too. The monotonic clock
    /// goes on as it is.
    pub async fn clock(&mut self, offset_ms: i64) -> Result<()> {
        self.pose.clock_ms = offset_ms;
        if let Some(front) = &self.front {
            front.put_on(&self.pose.all_scripts());
        }
        let script = clock(offset_ms);
        self.in_every_tab(async |phone| {
            if phone.front.is_none() {
                phone.add_script(&script).await?;
            }
            // An empty page has none of our scripts.
            phone.eval(&format!("globalThis.__clock?.({offset_ms}), null")).await.map(drop)
        })
        .await
    }

    /// Lets so many milliseconds of the monotonic clock pass in the document at hand, at once: what an app does after a while
    /// without a tap it does now. The wall clock stays.
    pub async fn later(&self, ms: i64) -> Result<()> {
        self.eval(&format!("globalThis.__later += {ms}")).await.map(drop)
    }

    /// Puts everything on the tab at hand, which is new.
    pub(crate) async fn put_on_everything(&self) -> Result<()> {
        self.put_on_screen().await?;
        match &self.front {
            Some(front) => front.put_on(&self.pose.all_scripts()),
            None => {
                for script in self.pose.all_scripts() {
                    self.add_script(&script).await?;
                }
            }
        }
        if self.pose.dark.is_some() {
            self.put_on_scheme().await?;
        }
        if self.pose.slower > 1.0 {
            self.put_on_speed().await?;
        }
        if self.pose.quota_bytes.is_some() {
            self.put_on_quota().await?;
        }
        Ok(())
    }

    async fn put_on_screen(&self) -> Result<()> {
        let Screen { width, height } = self.pose.screen;
        if self.engine != Engine::Chromium {
            return self.put_on_window().await;
        }
        let portrait = height >= width;
        let metrics = json!({
            "width": width, "height": height, "screenWidth": width, "screenHeight": height,
            "deviceScaleFactor": 2, "mobile": true,
            "screenOrientation": {
                "type": if portrait { "portraitPrimary" } else { "landscapePrimary" }, "angle": if portrait { 0 } else { 90 },
            },
        });
        self.cdp("Emulation.setDeviceMetricsOverride", metrics).await?;
        self.cdp("Emulation.setTouchEmulationEnabled", json!({ "enabled": true, "maxTouchPoints": 5 })).await?;
        if let Some(user_agent) = &self.kind.user_agent {
            self.cdp("Emulation.setUserAgentOverride", json!({ "userAgent": user_agent })).await?;
        }
        Ok(())
    }

    /// The window is made as large as the view has to be, which holds a tool bar in WebKit.
    async fn put_on_window(&self) -> Result<()> {
        let Screen { width, height } = self.pose.screen;
        let bar = Cell::new(0);
        self.wait(&format!("a view of {width} x {height}"), async |phone| {
            let seen = phone.eval("[innerWidth, innerHeight, outerHeight]").await?;
            let [w, h, outer] = [0, 1, 2].map(|i| seen[i].as_u64().and_then(|n| u32::try_from(n).ok()).unwrap_or(0));
            if (w, h) == (width, height) {
                return Ok(Look::Done(()));
            }
            // Known once the window has its size, which it is given again until then.
            if outer == height + bar.get() && w == width {
                bar.set(bar.get() + height.saturating_sub(h));
            }
            let sizing = phone.web()?.set_window_rect(0, 0, width, height + bar.get()).await;
            sizing.map_err(Error::driver("sizing the window"))?;
            Ok(Look::NotYet(format!("{w} x {h}, the window {outer} high")))
        })
        .await?;
        match self.engine {
            Engine::Firefox => self.in_firefox(FINGERS).await,
            Engine::Chromium | Engine::WebKit => Ok(()),
        }
    }

    async fn put_on_scheme(&self) -> Result<()> {
        self.engine.must(Can::Scheme)?;
        let value = if self.pose.dark == Some(true) { "dark" } else { "light" };
        if self.engine == Engine::Firefox {
            let script = format!("gBrowser.selectedBrowser.browsingContext.top.prefersColorSchemeOverride = '{value}'");
            return self.in_firefox(&script).await;
        }
        let features = json!({ "features": [{ "name": "prefers-color-scheme", "value": value }] });
        self.cdp("Emulation.setEmulatedMedia", features).await.map(drop)
    }

    async fn put_on_speed(&self) -> Result<()> {
        self.cdp("Emulation.setCPUThrottlingRate", json!({ "rate": self.pose.slower })).await.map(drop)
    }

    async fn put_on_quota(&self) -> Result<()> {
        let mut quota = json!({ "origin": self.origin() });
        if let Some(bytes) = self.pose.quota_bytes {
            quota["quotaSize"] = json!(bytes);
        }
        self.cdp("Storage.overrideQuotaForOrigin", quota).await.map(drop)
    }

    async fn add_script(&self, script: &str) -> Result<()> {
        self.cdp("Page.addScriptToEvaluateOnNewDocument", json!({ "source": script })).await.map(drop)
    }
}

/// Tells the browser's log what a page would otherwise keep to itself. The log outlives the document.
const WATCHER: &str = r#"(() => {
    const tell = (kind, what) => console.error(`page ${kind}: ${what}`);
    addEventListener("error", e => tell("error", e.message || `${e.target?.tagName} ${e.target?.src ?? e.target?.href ?? ""}`), true);
    addEventListener("unhandledrejection", e => tell("unhandled rejection", e.reason));
    addEventListener("securitypolicyviolation", e => tell("policy violation", `${e.effectiveDirective} ${e.blockedURI} ${e.sample}`));
})()"#;

/// Makes the monotonic clock of a document one that can be put forward.
const LATER: &str = r#"(() => {
    const real = performance.now.bind(performance);
    globalThis.__later = 0;
    performance.now = () => real() + globalThis.__later;
})()"#;

/// `__clock(ms)` puts a shifted Date in place of the real one.
const CLOCK: &str = r"globalThis.__clock = ms => {
    const Real = globalThis.__realDate ??= Date;
    globalThis.Date = class Date extends Real {
        constructor(...a) { a.length ? super(...a) : super(Real.now() + ms); }
        static now() { return Real.now() + ms; }
    };
};";

fn clock(offset_ms: i64) -> String {
    format!("__clock({offset_ms});")
}

/// Firefox's tab as a phone's: fingers instead of a mouse, two dots a pixel.
const FINGERS: &str = "const tab = gBrowser.selectedBrowser.browsingContext.top;
    tab.inRDMPane = true; tab.touchEventsOverride = 'enabled'; tab.overrideDPPX = 2;";
