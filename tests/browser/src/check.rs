//! Owns running a test script: it starts the server and a fresh phone, carries out step by step, and at the end wants an empty
//! console and no request elsewhere. On failure it keeps a picture and names it. Refuses to go on after a failed step.

use crate::engine::{Can, tell};
use crate::error::{Error, Result};
use crate::phone::{Phone, PhoneKind};
use crate::pose::Screen;
use crate::script::{Step, parse};
use crate::site::Site;
use serde_json::json;
use std::path::{Path, PathBuf};

/// Runs a script against the release build on a fresh phone of the usual size.
pub async fn check(name: &str, script: &str) -> Result<()> {
    let mut stage = Stage::start().await?;
    stage.check(name, script).await
}

/// Starts another script in place of the app's worker.
const FAULTY_WORKER: &str = "{
    const Real = Worker;
    globalThis.Worker = class extends Real {
        constructor(address) { super(address === 'worker-start.js' ? 'faulty-worker.js' : address); }
    };
}";

/// A server and a phone, for a test that does more than its script.
pub struct Stage {
    // The phone goes first.
    pub phone: Phone,
    pub site: Site,
    expected_errors: Vec<String>,
}

impl Stage {
    /// The release build and a fresh phone of the usual kind.
    pub async fn start() -> Result<Self> {
        Self::of(Site::of_the_app()?, PhoneKind::default()).await
    }

    pub async fn of(site: Site, kind: PhoneKind) -> Result<Self> {
        let phone = Phone::start_as(&site.base(), kind).await?;
        Ok(Self { phone, site, expected_errors: Vec::new() })
    }

    /// Runs a script on from where the phone is.
    pub async fn check(&mut self, name: &str, script: &str) -> Result<()> {
        let steps = parse(script)?;
        let n_steps = steps.len();
        for (index, (written, step)) in steps.into_iter().enumerate() {
            if let Err(error) = self.step(name, &step).await {
                return Err(self.failed(name, written, index + 1, error).await);
            }
        }
        match self.nothing_wrong().await {
            Ok(()) => Ok(()),
            Err(error) => Err(self.failed(name, "(the end)".to_string(), n_steps + 1, error).await),
        }
    }

    /// Runs `script` in the app's worker from its next start on, before the worker's own. Its file is served beside the app's,
    /// which the offline worker keeps as they are.
    pub async fn inject_worker(&mut self, script: &str) -> Result<()> {
        self.site.change("faulty-worker.js", format!("{script}\nimportScripts('worker-start.js');"));
        self.phone.inject(FAULTY_WORKER).await
    }

    /// The worker is well again, from its next start on.
    pub fn heal_worker(&self) {
        self.site.change("faulty-worker.js", "importScripts('worker-start.js');");
    }

    /// No unexpected console error since this was last asked, and no request elsewhere at all.
    pub async fn nothing_wrong(&self) -> Result<()> {
        let mut errors = self.phone.console_errors().await?;
        errors.retain(|error| !self.expected_errors.iter().any(|known| error.contains(known)));
        if !errors.is_empty() {
            return Err(Error::Found { what: "The console has errors".to_string(), list: errors });
        }
        let elsewhere = self.phone.requests_elsewhere().await?;
        if elsewhere.is_empty() {
            return Ok(());
        }
        Err(Error::Found { what: "Requests left the app's own origin".to_string(), list: elsewhere })
    }

    /// From here on console errors that hold this text are expected.
    pub fn expect_errors(&mut self, text: &str) {
        self.expected_errors.push(text.to_string());
    }

    async fn step(&mut self, name: &str, step: &Step) -> Result<()> {
        let phone = &mut self.phone;
        match step {
            Step::Open(path) => phone.open(path).await,
            Step::Screen(screen) => phone.wait_for(&format!("main[data-screen={}]", json!(screen))).await,
            Step::Tap(of, n) => {
                for _ in 0..*n {
                    phone.tap(&key(of)).await?;
                }
                Ok(())
            }
            Step::Both(a, b) => phone.two_thumbs(&key(a), &key(b)).await,
            Step::Hold(of) => phone.thumb_down(&key(of)).await,
            Step::LetGo => phone.thumbs_up().await,
            Step::Scroll(of) => phone.scroll_to(&key(of)).await,
            Step::Seek(of) => {
                phone.scroll_to(&key(of)).await?;
                phone.tap(&key(of)).await
            }
            Step::There(of) => phone.wait_for(&key(of)).await,
            Step::Gone(of) => phone.wait_gone(&key(of)).await,
            Step::Enabled(of) => usable(phone, of, true).await,
            Step::Disabled(of) => usable(phone, of, false).await,
            Step::See(text) => says(phone, text, true).await,
            Step::Unseen(text) => says(phone, text, false).await,
            Step::Fig(of, is) => {
                phone.wait_text(&attribute("data-fig", of), &format!("\"{is}\""), |text| text == is).await.map(drop)
            }
            Step::Type(of, text) => phone.type_into(&field(of), text).await,
            Step::Value(of, text) => {
                let script = format!("document.querySelector({})?.value === {}", json!(field(of)), json!(text));
                phone.wait_until(&format!("the field {of} to hold \"{text}\""), &script).await.map(drop)
            }
            Step::File(of, path) => phone.choose_file(&format!("{}, {}", field(of), key(of)), Path::new(path)).await,
            Step::Key(key, n) => {
                for _ in 0..*n {
                    phone.key(key).await?;
                }
                Ok(())
            }
            Step::Count(css, n) => {
                let script = format!("document.querySelectorAll({}).length === {n}", json!(css));
                phone.wait_until(&format!("{n} of {css}"), &script).await.map(drop)
            }
            Step::Reload => phone.reload().await,
            Step::Kill if !phone.engine.can(Can::Restart) => {
                tell(&format!(
                    "left out on {}: a kill in \"{name}\", whose page is loaded again instead",
                    phone.engine
                ))?;
                phone.close_others().await?;
                phone.reload().await
            }
            Step::Kill => kill_and_return(phone).await,
            Step::StopServer => {
                self.site.stop();
                Ok(())
            }
            Step::StartServer => self.site.start_again(),
            // How it looks is no engine's own: the others are looked at.
            Step::Dark(_) if !phone.engine.can(Can::Scheme) => {
                tell(&format!("left out on {}: a step of \"{name}\" needs {}", phone.engine, Can::Scheme))
            }
            Step::Dark(dark) => phone.dark(*dark).await,
            Step::Size(width, height) => phone.screen(Screen { width: *width, height: *height }).await,
            Step::Tab(number) => match phone.n_tabs() {
                n if *number == n + 1 => phone.second_tab().await.map(drop),
                _ => phone.to_tab(*number).await,
            },
            Step::Clock(offset_ms) => phone.clock(*offset_ms).await,
            Step::Later(ms) => phone.later(*ms).await,
            Step::Axe => match phone.axe().await? {
                found if found.is_empty() => Ok(()),
                list => Err(Error::Found { what: "axe-core found barriers".to_string(), list }),
            },
            Step::Shot(shot) => phone.screenshot(&picture(name, shot)).await,
            Step::ErrorsOk(text) => {
                self.expect_errors(text);
                Ok(())
            }
        }
    }

    async fn failed(&self, name: &str, step: String, number: usize, error: Error) -> Error {
        let path = picture(name, "failed");
        let picture = match self.phone.screenshot(&path).await {
            Ok(()) => format!("A picture of it: {}", path.display()),
            Err(error) => format!("There is no picture of it. {error}"),
        };
        Error::Step { check: name.to_string(), step, number, picture, source: Box::new(error) }
    }
}

fn key(of: &str) -> String {
    attribute("data-key", of)
}

fn field(of: &str) -> String {
    attribute("data-field", of)
}

fn attribute(name: &str, value: &str) -> String {
    // A JSON string is a CSS string too, for all that a key is made of.
    format!("[{name}={}]", json!(value))
}

async fn usable(phone: &Phone, of: &str, wished: bool) -> Result<()> {
    let disabled = "':disabled, [aria-disabled=\"true\"], [inert]'";
    let script =
        format!("(e => e && !!e.closest({disabled}) !== {wished})(document.querySelector({}))", json!(key(of)));
    let what = format!("{of} to be {}", if wished { "enabled" } else { "disabled" });
    phone.wait_until(&what, &script).await.map(drop)
}

async fn says(phone: &Phone, text: &str, wished: bool) -> Result<()> {
    let said = format!(r"(document.body?.innerText ?? '').replace(/\s+/g, ' ').includes({})", json!(text));
    let what = format!("the page {} \"{text}\"", if wished { "to say" } else { "not to say" });
    phone.wait_until(&what, &format!("{said} === {wished}")).await.map(drop)
}

async fn kill_and_return(phone: &mut Phone) -> Result<()> {
    phone.engine.must(Can::Restart)?;
    let url = phone.url().await?;
    let path = url.strip_prefix(phone.base()).unwrap_or_default().to_string();
    // What the logs know would die with the driver.
    let errors = phone.console_errors().await?;
    phone.seen().errors.extend(errors);
    if phone.kind.watch_requests && phone.engine.can(Can::RequestLog) {
        phone.request_urls().await?;
    }
    phone.kill()?;
    phone.reopen().await?;
    phone.open(&path).await
}

/// Where pictures are kept: in `PEPPERTALLY_SHOTS`, or in a folder among the temporary files.
fn picture(check: &str, shot: &str) -> PathBuf {
    let folder = std::env::var_os("PEPPERTALLY_SHOTS")
        .map_or_else(|| std::env::temp_dir().join("peppertally-shots"), PathBuf::from);
    let plain = |text: &str| text.chars().map(|c| if c.is_alphanumeric() { c } else { '-' }).collect::<String>();
    folder.join(plain(check)).join(format!("{}.png", plain(shot)))
}
