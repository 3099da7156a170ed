//! Owns what is noticed beside the page: errors in the console, addresses asked for, barriers for people who can't see or
//! press well, transactions of the database. Refuses to judge: it returns lists, empty when all is well.

use crate::engine::Can;
use crate::error::{Error, Result};
use crate::phone::Phone;
use serde_json::{Value, json};
use std::collections::BTreeSet;

impl Phone {
    /// The errors in the browser's console since this was last asked: thrown, rejected, refused by the content security policy,
    /// failed to load, or written by `console.error`.
    pub async fn console_errors(&self) -> Result<Vec<String>> {
        if let Some(front) = &self.front {
            let mut seen = self.seen();
            seen.errors.extend(front.take_told());
            return Ok(std::mem::take(&mut seen.errors));
        }
        let log = self.web()?.browser_log().await.map_err(Error::driver("reading the console"))?;
        let errors = log.into_iter().filter(|entry| entry.level == "SEVERE");
        let mut seen = self.seen();
        seen.errors.extend(errors.map(|entry| entry.message));
        Ok(std::mem::take(&mut seen.errors))
    }

    /// Every address that pages asked for so far, in order. Those of workers are in [`crate::Site::requests`], and those of
    /// other hosts, whoever asked, in [`Phone::requests_elsewhere`]. What a kill interrupts is lost.
    pub async fn request_urls(&self) -> Result<Vec<String>> {
        self.engine.must(Can::RequestLog)?;
        let log = self.web()?.get_log("performance").await.map_err(Error::driver("reading the request log"))?;
        let urls = log.iter().filter_map(|entry| {
            let entry: Value = serde_json::from_str(&entry.message).ok()?;
            let message = &entry["message"];
            let asks = matches!(message["method"].as_str()?, "Network.requestWillBeSent" | "Network.webSocketCreated");
            let url = message["params"]["request"]["url"].as_str().or(message["params"]["url"].as_str())?;
            asks.then(|| url.to_string())
        });
        let mut seen = self.seen();
        seen.urls.extend(urls);
        Ok(seen.urls.clone())
    }

    /// The hosts, with port, of every request that pages made.
    pub async fn request_hosts(&self) -> Result<BTreeSet<String>> {
        let urls = self.request_urls().await?;
        Ok(urls.iter().filter_map(|url| Some(url.split_once("://")?.1.split('/').next()?.to_string())).collect())
    }

    /// What left the app's own origin, or tried to: by a page, a worker or the browser itself. Nothing gets through.
    /// A test of the app wants this empty.
    pub async fn requests_elsewhere(&self) -> Result<Vec<String>> {
        let own = format!("{}/", self.origin());
        let logged = self.kind.watch_requests && self.engine.can(Can::RequestLog);
        let mut list = if logged { self.request_urls().await? } else { Vec::new() };
        // Made in the page or the browser itself: these reach no network.
        let local = ["data:", "blob:", "about:", "chrome:", "chrome-error:"];
        list.retain(|url| !url.starts_with(&own) && !local.iter().any(|scheme| url.starts_with(scheme)));
        list.extend(self.gate.attempts().into_iter().filter(|attempt| !is_browsers_own(attempt)));
        Ok(list)
    }

    /// Runs axe-core, which `PEPPERTALLY_AXE` names (`…/axe.min.js`), over the page and returns what it finds, a line each.
    pub async fn axe(&self) -> Result<Vec<String>> {
        if self.eval("typeof axe").await? != json!("object") {
            self.run(&axe_source()?).await?;
        }
        // The animations of a screen that comes in would be judged half-transparent.
        self.wait_until("the animations to end", "document.getAnimations().every(a => a.playState !== 'running')")
            .await?;
        let found = self.eval(RUN_AXE).await?;
        Ok(found.as_array().into_iter().flatten().filter_map(Value::as_str).map(str::to_string).collect())
    }

    /// The transactions since the page was loaded, when [`crate::faults::RECORD_TRANSACTIONS`] was injected.
    pub async fn transactions(&self) -> Result<Vec<Transaction>> {
        let list = self.eval("globalThis.__transactions ?? null").await?;
        let Some(list) = list.as_array() else {
            return Err(Error::Missing {
                what: "Transactions are recorded only after faults::RECORD_TRANSACTIONS.".to_string(),
            });
        };
        let text = |value: &Value| value.as_str().unwrap_or_default().to_string();
        let read = |entry: &Value| Transaction {
            mode: text(&entry["mode"]),
            durability: text(&entry["durability"]),
            n_writes: entry["writes"].as_u64().unwrap_or(0),
            committed_at_once: entry["commit"] == json!(true),
            end: text(&entry["end"]),
        };
        Ok(list.iter().map(read).collect())
    }
}

/// One transaction of the database.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Transaction {
    /// `readonly`, `readwrite`.
    pub mode: String,
    /// `default`, `relaxed`, `strict`.
    pub durability: String,
    pub n_writes: u64,
    /// Whether the page called `commit()`.
    pub committed_at_once: bool,
    /// `complete`, `abort`, or empty while it is open.
    pub end: String,
}

/// Chromium fetches a spelling dictionary by itself when somebody types, and after a kill the start page that its packager
/// chose; Firefox its makers' settings. A page that asked there would still be in the request log, or break its own policy.
fn is_browsers_own(attempt: &str) -> bool {
    const HOSTS: [&str; 3] = ["redirector.gvt1.com", "start.duckduckgo.com", "firefox.settings.services.mozilla.com"];
    HOSTS.iter().any(|host| attempt.strip_prefix("CONNECT ").and_then(|rest| rest.strip_suffix(":443")) == Some(host))
}

fn axe_source() -> Result<String> {
    let missing = "PEPPERTALLY_AXE does not name axe.min.js. `cargo xtask test` fetches it and sets it.".to_string();
    let path = std::env::var_os("PEPPERTALLY_AXE").ok_or(Error::Missing { what: missing })?;
    std::fs::read_to_string(&path).map_err(Error::io(format!("reading {}", path.display())))
}

const RUN_AXE: &str = r"axe.run(document, { resultTypes: ['violations'] }).then(found => found.violations.flatMap(v =>
    v.nodes.map(n => `${v.impact} ${v.id}: ${v.help}, at ${n.target.join(' ')}: ${(n.any[0] ?? n.all[0] ?? n.none[0])?.message ?? ''}`)))";
