//! Owns the phone: a driver, a browser with a profile of its own, and the tabs in it. It starts, opens pages, dies by
//! SIGKILL and comes back with the same profile. Refuses to touch a profile or a process that it did not make.

use crate::driver::Driver;
use crate::engine::{Can, Engine};
use crate::error::{Error, Result};
use crate::folder::Folder;
use crate::front::Front;
use crate::gate::Gate;
use crate::pose::{Pose, Screen};
use crate::process::Killer;
use crate::touch::Hand;
use serde_json::{Value, json};
use std::path::PathBuf;
use std::sync::{Mutex, MutexGuard, PoisonError};
use std::time::Duration;
use thirtyfour::{WebDriver, WindowHandle};

/// How long a condition may take to come true, unless the phone is told otherwise.
const LIMIT: Duration = Duration::from_secs(15);
/// In an engine that compiles the app for longer, and shares the machine with a display.
const LIMIT_ELSEWHERE: Duration = Duration::from_secs(40);
/// How long the driver may take for one answer.
const PATIENCE: Duration = Duration::from_secs(60);

/// What kind of phone it is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PhoneKind {
    pub screen: Screen,
    /// A private window: what is stored is gone with the browser.
    pub private: bool,
    /// What the browser says it is; `None` is what it really is.
    pub user_agent: Option<String>,
    /// What its camera sees: a film that begins anew at its end. `None`: it has no camera.
    pub camera: Option<PathBuf>,
    /// Writes down every address that pages ask for, which costs time: a benchmark does without.
    pub watch_requests: bool,
}

impl Default for PhoneKind {
    fn default() -> Self {
        Self { screen: Screen::TALL, private: false, user_agent: None, camera: None, watch_requests: true }
    }
}

/// A phone. Dropping it ends its browser and driver and removes its profile.
pub struct Phone {
    // In this order: the browser has to be gone before its folder and its gate.
    running: Option<Running>,
    pub(crate) engine: Engine,
    pub(crate) kind: PhoneKind,
    pub(crate) pose: Pose,
    pub(crate) limit: Duration,
    base: String,
    seen: Mutex<Seen>,
    pub(crate) hand: Mutex<Hand>,
    /// Before the site, where the driver can't run scripts before a document.
    pub(crate) front: Option<Front>,
    pub(crate) gate: Gate,
    pub(crate) folder: Folder,
}

/// What the browser's logs said so far, since reading a log empties it.
#[derive(Debug, Default)]
pub(crate) struct Seen {
    pub(crate) errors: Vec<String>,
    pub(crate) urls: Vec<String>,
}

struct Running {
    web: Option<WebDriver>,
    driver: Driver,
    /// In the order in which they were opened.
    tabs: Vec<WindowHandle>,
}

impl Phone {
    /// A fresh phone of the usual kind for the app at `base` (see [`crate::Site::base`]).
    pub async fn start(base: &str) -> Result<Self> {
        Self::start_as(base, PhoneKind::default()).await
    }

    pub async fn start_as(base: &str, kind: PhoneKind) -> Result<Self> {
        let engine = Engine::chosen()?;
        for (wanted, what) in [(kind.user_agent.is_some(), Can::Protocol), (kind.camera.is_some(), Can::Camera)] {
            if wanted {
                engine.must(what)?;
            }
        }
        let front = if engine == Engine::Chromium { None } else { Some(Front::start(base)?) };
        let mut phone = Self {
            running: None,
            engine,
            pose: Pose::new(kind.screen),
            kind,
            limit: if engine == Engine::Chromium { LIMIT } else { LIMIT_ELSEWHERE },
            base: front.as_ref().map_or_else(|| base.to_string(), Front::base),
            seen: Mutex::default(),
            hand: Mutex::default(),
            front,
            gate: Gate::start()?,
            folder: Folder::fresh(engine)?,
        };
        phone.reopen().await?;
        Ok(phone)
    }

    /// How long a condition may take to come true.
    pub fn limit(&mut self, limit: Duration) {
        self.limit = limit;
    }

    /// Opens a page of the app, relative to its base: `""`, `"#/squad"`, `"?x=1"`. Only another fragment is no new load.
    pub async fn open(&self, path: &str) -> Result<()> {
        let url = format!("{}{path}", self.base);
        self.web()?.goto(&url).await.map_err(Error::driver(format!("opening {url}")))?;
        // WebKit's driver says nothing of a page that never came.
        match self.engine == Engine::WebKit && self.eval("location.protocol === 'about:'").await? == json!(true) {
            true => Err(Error::NoPage { url }),
            false => Ok(()),
        }
    }

    /// Loads the page again. Without a server, and without a service worker that has it, that is [`Error::NoPage`].
    pub async fn reload(&self) -> Result<()> {
        if self.engine == Engine::Firefox {
            // Its driver passes by the offline worker when it reloads, as nobody does with a thumb.
            self.eval("(globalThis.__left = true, setTimeout(() => location.reload()), null)").await?;
            let back = "!globalThis.__left && (document.readyState === 'complete' || document.documentURI.startsWith('about:'))";
            self.wait_until("the page to be loaded again", back).await?;
        } else {
            self.web()?.refresh().await.map_err(Error::driver("reloading the page"))?;
        }
        // The browser's own error page is a success to the driver.
        let is_own = "location.protocol === 'chrome-error:' || document.documentURI.startsWith('about:')";
        match self.eval(is_own).await? == json!(true) {
            true => Err(Error::NoPage { url: self.url().await? }),
            false => Ok(()),
        }
    }

    /// The address of the page at hand.
    pub async fn url(&self) -> Result<String> {
        let url = self.web()?.current_url().await.map_err(Error::driver("asking for the page's address"))?;
        Ok(url.to_string())
    }

    /// Kills the whole browser by SIGKILL, as a phone does that runs out of memory. The profile stays.
    pub fn kill(&mut self) -> Result<()> {
        let running = self.running.take().ok_or(Error::NotRunning)?;
        drop(running);
        Ok(())
    }

    /// What kills the browser from another thread, in the middle of something. Afterwards call [`Phone::kill`] all the same.
    pub fn killer(&self) -> Result<Killer> {
        Ok(self.running.as_ref().ok_or(Error::NotRunning)?.driver.killer())
    }

    /// Closes the browser in an orderly way. The profile stays.
    pub async fn close(&mut self) -> Result<()> {
        let mut running = self.running.take().ok_or(Error::NotRunning)?;
        match running.web.take() {
            Some(web) => web.quit().await.map_err(Error::driver("closing the browser")),
            None => Ok(()),
        }
    }

    /// Starts the browser again, with the same profile and everything that was put on the phone, on an empty page.
    pub async fn reopen(&mut self) -> Result<()> {
        if self.running.is_some() {
            return Ok(());
        }
        let driver = Driver::start(self.engine, &self.folder)?;
        let capabilities = self.capabilities()?;
        let starting = WebDriver::builder(driver.address(), capabilities).request_timeout(PATIENCE).connect();
        let web = starting.await.map_err(Error::driver("starting the browser"))?;
        let tab = web.window().await.map_err(Error::driver("asking for the tab"));
        let mut running = Running { web: Some(web), driver, tabs: Vec::new() };
        running.tabs.push(tab?);
        self.running = Some(running);
        self.hand().forget();
        if self.engine == Engine::Chromium {
            let downloads = json!({ "behavior": "allow", "downloadPath": self.folder.downloads() });
            self.cdp("Browser.setDownloadBehavior", downloads).await?;
        }
        self.put_on_everything().await
    }

    /// Opens a tab beside the others, goes to it and says which it is, counted from 1. The others are hidden by it.
    pub async fn second_tab(&mut self) -> Result<usize> {
        if self.engine == Engine::WebKit {
            // Its tabs take of the view's height, and its driver brings none to the front.
            return self.second_window().await;
        }
        let tab = self.web()?.new_tab().await.map_err(Error::driver("opening a tab"))?;
        self.enter(tab).await
    }

    /// Opens a window beside the others, which all stay visible, goes to it and says which tab it is, counted from 1.
    pub async fn second_window(&mut self) -> Result<usize> {
        let window = self.web()?.new_window().await.map_err(Error::driver("opening a window"))?;
        self.enter(window).await
    }

    /// Goes to a tab, counted from 1 in the order of opening, and brings it to the front.
    pub async fn to_tab(&self, number: usize) -> Result<()> {
        let tab = number.checked_sub(1).and_then(|index| self.running.as_ref()?.tabs.get(index).cloned());
        let tab = tab.ok_or_else(|| Error::Missing { what: format!("There is no tab {number}.") })?;
        self.switch(tab).await?;
        match self.engine {
            Engine::Chromium => self.cdp("Page.bringToFront", json!({})).await.map(drop),
            // Firefox's driver has brought it there; in WebKit each is a window.
            Engine::Firefox | Engine::WebKit => Ok(()),
        }
    }

    /// Closes the tab at hand, in the middle of whatever it does, and goes to the one opened last among the others.
    pub async fn close_tab(&mut self) -> Result<()> {
        let web = self.web()?;
        let closing = web.window().await.map_err(Error::driver("asking for the tab"))?;
        web.close_window().await.map_err(Error::driver("closing the tab"))?;
        let running = self.running.as_mut().ok_or(Error::NotRunning)?;
        running.tabs.retain(|tab| *tab != closing);
        let last = running.tabs.len();
        self.to_tab(last).await
    }

    /// Closes all tabs but the one at hand.
    pub(crate) async fn close_others(&mut self) -> Result<()> {
        let here = self.web()?.window().await.map_err(Error::driver("asking for the tab"))?;
        let tabs = self.running.as_ref().ok_or(Error::NotRunning)?.tabs.clone();
        for tab in tabs.into_iter().filter(|tab| *tab != here) {
            self.switch(tab).await?;
            self.web()?.close_window().await.map_err(Error::driver("closing a tab"))?;
        }
        self.running.as_mut().ok_or(Error::NotRunning)?.tabs = vec![here.clone()];
        self.switch(here).await
    }

    pub fn n_tabs(&self) -> usize {
        self.running.as_ref().map_or(0, |running| running.tabs.len())
    }

    /// Sends one command of Chromium's own protocol to the tab at hand.
    pub async fn cdp(&self, method: &str, params: Value) -> Result<Value> {
        self.engine.must(Can::Protocol)?;
        self.web()?.cdp().send_raw(method, params).await.map_err(Error::driver(method))
    }

    pub(crate) fn web(&self) -> Result<&WebDriver> {
        self.running.as_ref().and_then(|running| running.web.as_ref()).ok_or(Error::NotRunning)
    }

    pub(crate) fn base(&self) -> &str {
        &self.base
    }

    /// The base without its path: `http://127.0.0.1:43123`.
    pub(crate) fn origin(&self) -> String {
        self.base.splitn(4, '/').take(3).collect::<Vec<_>>().join("/")
    }

    pub(crate) fn hand(&self) -> MutexGuard<'_, Hand> {
        self.hand.lock().unwrap_or_else(PoisonError::into_inner)
    }

    pub(crate) fn seen(&self) -> MutexGuard<'_, Seen> {
        self.seen.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Does the same in every tab, and ends in the one where it began.
    pub(crate) async fn in_every_tab(&self, act: impl AsyncFn(&Self) -> Result<()>) -> Result<()> {
        let tabs = self.running.as_ref().ok_or(Error::NotRunning)?.tabs.clone();
        if tabs.len() == 1 {
            return act(self).await;
        }
        let here = self.web()?.window().await.map_err(Error::driver("asking for the tab"))?;
        for tab in tabs {
            self.switch(tab).await?;
            act(self).await?;
        }
        self.switch(here).await
    }

    async fn enter(&mut self, tab: WindowHandle) -> Result<usize> {
        self.switch(tab.clone()).await?;
        let running = self.running.as_mut().ok_or(Error::NotRunning)?;
        running.tabs.push(tab);
        let number = running.tabs.len();
        self.put_on_everything().await?;
        Ok(number)
    }

    async fn switch(&self, tab: WindowHandle) -> Result<()> {
        self.web()?.switch_to_window(tab).await.map_err(Error::driver("going to another tab"))
    }
}

impl Drop for Running {
    fn drop(&mut self) {
        // Without this the client would ask a browser to close that the driver's drop kills right after.
        if let Some(web) = self.web.take() {
            web.leak().unwrap_or(());
        }
    }
}
