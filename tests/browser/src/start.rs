//! Owns how each engine is started: its programs, and what the driver is told about the browser. Refuses errands of the browser's own, so
//! that whatever leaves it comes from the page.

use crate::engine::Engine;
use crate::error::{Error, Result};
use crate::phone::Phone;
use serde_json::{Value, json};
use std::path::PathBuf;
use thirtyfour::Capabilities;

/// A browser without a screen and without errands of its own, so that whatever leaves it comes from the page.
const SWITCHES: [&str; 22] = [
    "--headless=new",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--no-default-browser-check",
    "--disable-background-networking",
    "--disable-client-side-phishing-detection",
    "--disable-component-extensions-with-background-pages",
    "--disable-component-update",
    "--disable-default-apps",
    "--disable-dev-shm-usage",
    "--disable-domain-reliability",
    "--disable-extensions",
    "--disable-field-trial-config",
    "--disable-search-engine-choice-screen",
    "--disable-sync",
    "--metrics-recording-only",
    "--no-pings",
    // Errands that no switch stops go to a port where nobody listens.
    "--component-updater=url-source=http://127.0.0.1:1/",
    "--gaia-url=http://127.0.0.1:1/",
    "--disable-features=AutofillServerCommunication,MediaRouter,NetworkTimeServiceQuerying,OptimizationHints,Translate",
];

const MINI_BROWSER: [&str; 2] =
    ["/usr/lib/x86_64-linux-gnu/webkit2gtk-4.1/MiniBrowser", "/usr/lib/aarch64-linux-gnu/webkit2gtk-4.1/MiniBrowser"];

impl Engine {
    /// The driver: what `CHROMEDRIVER`, `GECKODRIVER` or `WEBKITDRIVER` names, or the usual one.
    pub(crate) fn driver(self) -> Result<PathBuf> {
        match self {
            Self::Chromium => program("CHROMEDRIVER", &["/usr/bin/chromedriver"]),
            Self::Firefox => program("GECKODRIVER", &["/usr/bin/geckodriver"]),
            Self::WebKit => program("WEBKITDRIVER", &["/usr/bin/WebKitWebDriver"]),
        }
    }

    /// The browser: what `CHROME`, `FIREFOX` or `MINIBROWSER` names, or the usual one.
    pub(crate) fn browser(self) -> Result<PathBuf> {
        match self {
            Self::Chromium => program("CHROME", &["/usr/bin/chromium"]),
            Self::Firefox => program("FIREFOX", &["/usr/bin/firefox-esr", "/usr/bin/firefox"]),
            Self::WebKit => program("MINIBROWSER", &MINI_BROWSER),
        }
    }
}

/// The program that a variable names, or the first of the usual ones.
pub(crate) fn program(variable: &str, usual: &[&str]) -> Result<PathBuf> {
    let named = std::env::var_os(variable).map(PathBuf::from);
    let found = named.into_iter().chain(usual.iter().map(PathBuf::from)).find(|path| path.is_file());
    found.ok_or_else(|| Error::Missing {
        what: format!("There is no {}: `cargo xtask test` installs what is missing, or set {variable}.", usual[0]),
    })
}

impl Phone {
    /// What the driver is told.
    pub(crate) fn capabilities(&self) -> Result<Capabilities> {
        let told = match self.engine {
            Engine::Chromium => self.chromium()?,
            Engine::Firefox => self.firefox()?,
            Engine::WebKit => self.webkit()?,
        };
        match told {
            Value::Object(told) => Ok(Capabilities::from(told)),
            _ => unreachable!("what a driver is told is an object"),
        }
    }

    fn chromium(&self) -> Result<Value> {
        let mut switches: Vec<String> = SWITCHES.iter().map(ToString::to_string).collect();
        switches.push(format!("--user-data-dir={}", self.folder.profile().display()));
        switches.push(format!("--proxy-server=http://{}", self.gate.address()));
        if self.kind.private {
            switches.push("--incognito".to_string());
        }
        if let Some(film) = &self.kind.camera {
            switches.push("--use-fake-device-for-media-stream".to_string());
            switches.push("--use-fake-ui-for-media-stream".to_string());
            switches.push(format!("--use-file-for-fake-video-capture={}", film.display()));
        }
        let mut logs = json!({ "browser": "ALL" });
        if self.kind.watch_requests {
            logs["performance"] = json!("ALL");
        }
        let mut options = json!({ "binary": Engine::Chromium.browser()?, "args": switches });
        if self.kind.watch_requests {
            options["perfLoggingPrefs"] = json!({ "enableNetwork": true, "enablePage": false });
        }
        Ok(json!({ "browserName": "chrome", "goog:chromeOptions": options, "goog:loggingPrefs": logs }))
    }

    fn firefox(&self) -> Result<Value> {
        let gate = self.gate.address();
        let preferences = json!({
            "toolkit.legacyUserProfileCustomizations.stylesheets": true,
            "dom.w3c_touch_events.enabled": 1,
            "browser.privatebrowsing.autostart": self.kind.private,
            // A thumb that rests presses a key of ours, and asks for no menu.
            "ui.click_hold_context_menus.delay": 600_000,
            // Every host but the own machine is asked through the gate.
            "network.proxy.type": 1,
            "network.proxy.http": gate.ip().to_string(),
            "network.proxy.http_port": gate.port(),
            "network.proxy.ssl": gate.ip().to_string(),
            "network.proxy.ssl_port": gate.port(),
            "network.proxy.allow_hijacking_localhost": false,
            "browser.download.folderList": 2,
            "browser.download.dir": self.folder.downloads(),
            "browser.download.alwaysOpenPanel": false,
            "browser.helperApps.neverAsk.saveToDisk": DOWNLOADED,
            // Nobody is there to answer whether storage may be kept.
            "dom.storageManager.prompt.testing": true,
            "dom.storageManager.prompt.testing.allow": true,
            // A browser that was killed twenty times starts as ever.
            "toolkit.startup.max_resumed_crashes": -1,
            "browser.sessionstore.resume_from_crash": false,
            // Errands of its own.
            "network.connectivity-service.enabled": false,
            "network.captive-portal-service.enabled": false,
            "services.settings.server": "data:,#remote-settings-dummy/v1",
            "app.normandy.enabled": false,
            "toolkit.telemetry.enabled": false,
            "datareporting.policy.dataSubmissionEnabled": false,
            "browser.safebrowsing.update.enabled": false,
            "extensions.update.enabled": false,
            "extensions.systemAddon.update.enabled": false,
            "extensions.getAddons.cache.enabled": false,
            "media.gmp-manager.updateEnabled": false,
            "network.trr.mode": 5,
            "dom.push.connection.enabled": false,
            "browser.region.update.enabled": false,
            "browser.search.update": false,
            "browser.newtabpage.enabled": false,
        });
        let args = json!(["-headless", "-profile", self.folder.profile()]);
        let options = json!({ "binary": Engine::Firefox.browser()?, "args": args, "prefs": preferences });
        Ok(json!({ "browserName": "firefox", "moz:firefoxOptions": options, "timeouts": { "script": 30_000 } }))
    }

    fn webkit(&self) -> Result<Value> {
        let gate = self.gate.address().to_string();
        let options = json!({ "binary": Engine::WebKit.browser()?, "args": ["--automation"] });
        let proxy = json!({ "proxyType": "manual", "httpProxy": gate, "sslProxy": gate, "noProxy": ["127.0.0.1"] });
        Ok(json!({ "browserName": "MiniBrowser", "webkitgtk:browserOptions": options, "proxy": proxy }))
    }
}

const DOWNLOADED: &str =
    "application/json,text/csv,text/calendar,text/html,text/plain,image/png,application/octet-stream";
