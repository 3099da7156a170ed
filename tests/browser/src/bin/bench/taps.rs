//! Owns the cost of a tap, for three pages in turn: the bare page in `bench_page`, the floor board with no season, the floor board
//! with the full one. Each round goes to each page, so that whatever else the machine does meets all three.
//!
//! - *Painted frame*: from the touch (the browser's own time stamp of the pointerdown) to the end of the frame that shows the new
//!   figure: a message sent from that frame's animation callback, which arrives when the page has done its part of painting.
//!   It holds the wait for the display's next frame, up to 17 ms, which is the same for all.
//! - *Main thread*: the browser's own `TaskDuration` over the tap: touch, handlers, frame, database answers, what is shown then,
//!   everything in [`SETTLE_MS`] and until the tap is saved; less the median of the same without a tap, which is mostly
//!   the cost of asking.
//! - *Saved*: from the touch to the database's `complete`, synced to the disk. It depends on the disk.

use super::table::{Line, Times};
use super::{go, number};
use browser_tests::{Error, Phone, Result, Site};
use serde_json::{Value, json};
use std::time::Duration;

const N_ROUNDS: usize = 22;
const N_TAPS: usize = 10;
/// In each round, unmeasured.
const N_WARM: usize = 1;
const N_BLANKS: usize = 2;
/// Unmeasured before the first round, so that the code is compiled for speed everywhere.
const N_WARM_AT_FIRST: usize = 40;
/// Longer than anything that a tap sets off, but for the quiet of five seconds.
const SETTLE_MS: u32 = 420;
/// Of the same board with another season, or of any board against the bare page.
const AIM: f64 = 1.5;
const AIM_SAME: f64 = 1.1;

/// A page with a board, and what was measured of its taps.
pub struct Taps {
    pages: [Page; 3],
}

pub(super) struct Page {
    pub name: String,
    /// The keys that are tapped in turn.
    keys: &'static str,
    /// The tab, counted from 1.
    tab: usize,
    n_done: u64,
    pub painted: Times,
    main_thread: Times,
    /// Of that, what ran code; and what found styles and places.
    script: Times,
    layout: Times,
    blank: Times,
    saved: Times,
}

pub async fn measure(phone: &mut Phone, bare: &Site, empty: &Site, full: &Site) -> Result<Taps> {
    phone.inject(PROBE).await?;
    let mut pages = ["bare page", "no contacts", "200,000"].map(|name| Page::new(name.to_owned(), PASSES));
    for (page, site) in pages.iter_mut().zip([bare, empty, full]) {
        page.tab = if phone.n_tabs() == 1 && page.name == "bare page" { 1 } else { phone.second_tab().await? };
        go(phone, &site.base()).await?;
        if page.name == "bare page" {
            phone.wait_for("[data-ready] [data-key='pass.1.3']").await?;
        } else {
            phone.tap("[data-key='drill.0']").await?;
            phone.wait_for("[data-screen=run]").await?;
        }
        page.warm_up(phone).await?;
    }
    for round in 0..N_ROUNDS {
        eprintln!("taps: round {} of {N_ROUNDS}", round + 1);
        for page in &mut pages {
            page.round(phone, round).await?;
        }
    }
    Ok(Taps { pages })
}

impl Page {
    /// `keys`: a selector of the keys to tap.
    pub fn new(name: String, keys: &'static str) -> Self {
        let none = Times::default;
        Self {
            name,
            keys,
            tab: 0,
            n_done: 0,
            painted: none(),
            main_thread: none(),
            script: none(),
            layout: none(),
            blank: none(),
            saved: none(),
        }
    }

    /// Unmeasured, so that the code is compiled for speed.
    pub async fn warm_up(&mut self, phone: &Phone) -> Result<()> {
        phone.cdp("Performance.enable", json!({})).await?;
        let spots = self.spots(phone).await?;
        self.n_done = n_touches(phone).await?;
        for i in 0..N_WARM_AT_FIRST {
            self.play_on(phone).await?;
            self.tap(phone, spots[i % spots.len()], 30).await?;
        }
        Ok(())
    }

    async fn round(&mut self, phone: &mut Phone, round: usize) -> Result<()> {
        phone.to_tab(self.tab).await?;
        phone.wait_until("the tab to be visible", "document.visibilityState === 'visible'").await?;
        self.taps(phone, round).await
    }

    /// Touches so far are no taps of this board.
    pub async fn met(&mut self, phone: &Phone) -> Result<()> {
        self.n_done = n_touches(phone).await?;
        Ok(())
    }

    /// One round of measured taps on the page that is shown.
    pub async fn taps(&mut self, phone: &mut Phone, round: usize) -> Result<()> {
        let spots = self.spots(phone).await?;
        // A board that was left alone covers itself, perhaps only now that its tab is back. A tap that counts keeps it open.
        loop {
            phone.tap_at(spots[0].0, spots[0].1).await?;
            tokio::time::sleep(Duration::from_millis(SETTLE_MS.into())).await;
            if phone.count("[data-key=uncover]").await? == 0 {
                break;
            }
            phone.thumb_down("[data-key=uncover]").await?;
            phone.wait_gone("[data-key=uncover]").await?;
            phone.thumbs_up().await?;
        }
        self.n_done = n_touches(phone).await?;
        for i in 0..N_WARM {
            self.play_on(phone).await?;
            self.tap(phone, spots[i % spots.len()], SETTLE_MS).await?;
        }
        for i in 0..N_TAPS {
            if i % (N_TAPS / N_BLANKS) == 0 {
                let before = Work::so_far(phone).await?;
                self.settled(phone, SETTLE_MS).await?;
                self.blank.push(Work::so_far(phone).await?.task - before.task);
            }
            self.play_on(phone).await?;
            let before = Work::so_far(phone).await?;
            let tap = self.tap(phone, spots[(round * N_TAPS + i) % spots.len()], SETTLE_MS).await?;
            let after = Work::so_far(phone).await?;
            self.main_thread.push(after.task - before.task);
            self.script.push(after.script - before.script);
            self.layout.push(after.layout - before.layout);
            self.painted.push(number(&tap["painted"])?);
            self.saved.push(number(&tap["saved"])?);
        }
        Ok(())
    }

    /// A rule that has ended its run covers the keys until the coach plays on.
    async fn play_on(&mut self, phone: &Phone) -> Result<()> {
        if phone.count("[data-key=play-on]").await? > 0 {
            phone.wait_until("the cover to answer", COVER_ANSWERS).await?;
            phone.tap("[data-key=play-on]").await?;
            phone.wait_gone("[data-key=play-on]").await?;
            self.settled(phone, SETTLE_MS).await?;
            self.n_done = n_touches(phone).await?;
        }
        Ok(())
    }

    /// One tap, and what the page noted of it. An answer that wasn't seen in the tap's own frame is an error: there would be
    /// nothing to measure.
    pub async fn tap(&mut self, phone: &Phone, (x, y): (f64, f64), settle_ms: u32) -> Result<Value> {
        phone.tap_at(x, y).await?;
        self.n_done += 1;
        let tap = self.settled(phone, settle_ms).await?;
        if tap["n"] != json!(self.n_done) || tap["changed"] != json!(true) {
            let what = format!("{}: tap {} was not answered in its frame: {tap}.", self.name, self.n_done);
            return Err(Error::Missing { what });
        }
        Ok(tap)
    }

    async fn settled(&self, phone: &Phone, settle_ms: u32) -> Result<Value> {
        phone.eval(&format!("__probe.settled({settle_ms}, {})", self.n_done)).await
    }

    /// The middles of the keys that count.
    pub async fn spots(&self, phone: &Phone) -> Result<Vec<(f64, f64)>> {
        phone.wait_for(self.keys).await?;
        let found = phone.eval(&format!("({SPOTS})({})", json!(self.keys))).await?;
        let spots: Vec<(f64, f64)> = found
            .as_array()
            .into_iter()
            .flatten()
            .filter_map(|spot| Some((spot[0].as_f64()?, spot[1].as_f64()?)))
            .collect();
        match spots.is_empty() {
            true => Err(Error::Missing { what: format!("{}: there is no key to tap.", self.name) }),
            false => Ok(spots),
        }
    }

    /// Without what is there without a tap.
    pub fn main_thread(&self) -> Times {
        self.main_thread.less(self.blank.median())
    }
}

impl Taps {
    /// The tab with the empty season.
    pub fn empty_tab(&self) -> usize {
        self.pages[1].tab
    }

    pub fn print(&self) {
        let [bare, empty, full] = &self.pages;
        println!("A tap on the floor board ({} on each page, {N_TAPS} a round in turn)", bare.painted.len());
        println!(
            "  {:<28}{:>11}{:>13}{:>11}{:>12}{:>12}{:>15}",
            "ms", &bare.name, &empty.name, &full.name, "none/bare", "full/bare", "full/none"
        );
        type Part = fn(&Page) -> Times;
        type Of = fn(&Times) -> f64;
        let parts: [(&str, Part); 2] =
            [("to the painted frame", |page| page.painted.clone()), ("main thread", Page::main_thread)];
        let of: [(&str, Of); 2] = [("median", Times::median), ("p99", Times::p99)];
        for (name, part) in parts {
            for (which, of) in of {
                row(&format!("{name}, {which}"), [bare, empty, full].map(|page| of(&part(page))));
            }
        }
        row("  of which code, median", [bare, empty, full].map(|page| page.script.median()));
        row("  styles and layout, median", [bare, empty, full].map(|page| page.layout.median()));
        row("saved, median", [bare, empty, full].map(|page| page.saved.median()));
        row("without a tap, median", [bare, empty, full].map(|page| page.blank.median()));
        for (name, part) in parts {
            for (which, of) in of {
                let [bare, empty, full] = [bare, empty, full].map(|page| of(&part(page)));
                Line::aim(&format!("{name}, {which}, 200,000 to the bare page"), full / bare, AIM);
                Line::aim(&format!("{name}, {which}, 200,000 to none"), full / empty, AIM_SAME);
            }
        }
        println!();
    }
}

fn row(name: &str, [bare, empty, full]: [f64; 3]) {
    println!(
        "  {name:<28}{bare:>11.1}{empty:>13.1}{full:>11.1}{:>12.2}{:>12.2}{:>15.2}",
        empty / bare,
        full / bare,
        full / empty
    );
}

/// How often the page was touched so far, wherever.
async fn n_touches(phone: &Phone) -> Result<u64> {
    let n = phone.eval("__probe.n()").await?;
    n.as_u64().ok_or_else(|| Error::Missing { what: format!("The page answered {n} instead of a count.") })
}

/// How long the page's main thread has worked so far, in ms.
struct Work {
    task: f64,
    script: f64,
    layout: f64,
}

impl Work {
    async fn so_far(phone: &Phone) -> Result<Self> {
        let answer = phone.cdp("Performance.getMetrics", json!({})).await?;
        let ms = |name: &str| {
            let mut metrics = answer["metrics"].as_array().into_iter().flatten();
            let metric = metrics.find(|metric| metric["name"] == name);
            number(&metric.map_or(Value::Null, |metric| metric["value"].clone())).map(|seconds| seconds * 1000.0)
        };
        Ok(Self {
            task: ms("TaskDuration")?,
            script: ms("ScriptDuration")?,
            layout: ms("RecalcStyleDuration")? + ms("LayoutDuration")?,
        })
    }
}

/// It comes under thumbs that are tapping, so it rests a moment first.
const COVER_ANSWERS: &str = "getComputedStyle(document.querySelector('[data-key=play-on]')).pointerEvents !== 'none'";

pub(super) const PASSES: &str = "[data-key^='pass.']";

const SPOTS: &str = r#"keys => [...document.querySelectorAll(keys)].map(key => {
    const r = key.getBoundingClientRect();
    return [r.left + r.width / 2, r.top + r.height / 2];
})"#;

/// Notes of each tap when its frame was painted and when it was saved. Small, and the same on all pages. A page whose boards have
/// other figures says so in `__figures`.
pub(super) const PROBE: &str = r#"(() => {
    const channel = new MessageChannel();
    const figure = () => document.querySelector(globalThis.__figures ?? '[data-fig="of"]')?.textContent ?? '';
    let tap = { n: 0 }, shown = '', open = 0;
    channel.port1.onmessage = () => {
        const now = performance.now(), is = figure();
        tap.painted = now - tap.at;
        tap.changed = is !== shown;
        shown = is;
    };
    addEventListener('pointerdown', e => {
        if (tap.n === 0) shown = figure();
        tap = { n: tap.n + 1, at: e.timeStamp };
        requestAnimationFrame(() => channel.port2.postMessage(null));
    }, true);
    const real = IDBDatabase.prototype.transaction;
    IDBDatabase.prototype.transaction = function (...a) {
        const transaction = real.apply(this, a), of = tap;
        if (transaction.mode === 'readwrite') {
            open += 1;
            transaction.addEventListener('abort', () => { open -= 1; });
            transaction.addEventListener('complete', () => { open -= 1; of.saved = performance.now() - of.at; });
        }
        return transaction;
    };
    const wait = ms => new Promise(done => setTimeout(done, ms));
    globalThis.__probe = { n: () => tap.n, settled: async (ms, n) => {
        await wait(ms);
        for (let i = 0; i < 400 && (tap.n < n || open > 0 || (n > 0 && (!tap.painted || !tap.saved))); i += 1) await wait(25);
        return { ...tap };
    } };
})()"#;
