//! Owns what a large file does to a phone that goes on counting: 200,000 contacts are looked at and taken in by the worker while the floor board is
//! tapped on. Told: how long each takes, how far the page was told to be, the page's longest task meanwhile, and the taps answered meanwhile
//! against those before it. The browser slows the page's main thread and not its workers.

use super::season::Season;
use super::table::{Line, Times};
use super::taps::{self, Page};
use super::{go, number};
use browser_tests::{Error, Phone, Result, Site};
use serde_json::Value;

const N_ROUNDS: usize = 6;
/// Without a file, each time: about as many as there are while it is looked at.
const N_BEFORE: usize = 3;
/// Shorter than on a quiet page: as many taps as there is time for.
const SETTLE_MS: u32 = 60;
/// Of the taps without a file.
const AIM: f64 = 1.5;
/// A display's frame and what the browser needs to hand the touch on.
const AIM_TASK_MS: f64 = 50.0;

pub struct Import {
    n_contacts: usize,
    n_bytes: usize,
    before: Times,
    looked: Part,
    taken: Part,
}

/// One of the two jobs.
#[derive(Default)]
struct Part {
    took_ms: Times,
    /// How often the page was told how far it is.
    n_told: f64,
    longest_ms: Times,
    taps: Times,
}

pub async fn measure(phone: &mut Phone, site: &Site, season: &Season) -> Result<Import> {
    let file = std::env::temp_dir().join(format!("peppertally-import-{}.json", std::process::id()));
    let copy = season.copy();
    let n_bytes = copy.len();
    std::fs::write(&file, copy).map_err(|error| Error::Missing { what: format!("The file: {error}.") })?;
    phone.inject(taps::PROBE).await?;
    phone.inject(PROBE).await?;
    go(phone, "about:blank").await?;
    go(phone, &site.base()).await?;
    let mut page = Page::new("floor board".to_owned(), taps::PASSES);
    to_board(phone).await?;
    page.warm_up(phone).await?;
    let spots = page.spots(phone).await?;
    let board = phone.eval("location.hash").await?;
    // The same ways and the same taps without a file.
    let mut before = Times::default();
    for _ in 0..2 * N_ROUNDS {
        to_share(phone).await?;
        phone.eval(&format!("location.hash = {board}")).await?;
        phone.wait_for(taps::PASSES).await?;
        page.met(phone).await?;
        for spot in spots.iter().take(N_BEFORE) {
            before.push(painted(&mut page, phone, *spot).await?);
        }
    }
    let [mut looked, mut taken] = [Part::default(), Part::default()];
    for round in 0..N_ROUNDS {
        eprintln!("import: {} of {N_ROUNDS}", round + 1);
        to_share(phone).await?;
        phone.eval("__import.next()").await?;
        phone.choose_file("[data-key=file]", &file).await?;
        meanwhile(&mut page, phone, &board, &mut looked).await?;
        to_share(phone).await?;
        // Once it was taken in nothing of it is new: it is taken back, and put back.
        let key = if round == 0 { "[data-key=parcel-accept]" } else { "[data-key='parcel-back.0']" };
        if round > 0 {
            phone.tap("[data-key=parcel-decline]").await?;
            phone.wait_gone("[data-key=parcel-decline]").await?;
        }
        phone.wait_for(key).await?;
        // What goes with it is told first.
        let key = if round % 2 == 1 {
            phone.tap(key).await?;
            phone.wait_for("[data-key='parcel-sure.0']").await?;
            "[data-key='parcel-sure.0']"
        } else {
            key
        };
        phone.eval("__import.next()").await?;
        phone.tap(key).await?;
        meanwhile(&mut page, phone, &board, &mut taken).await?;
    }
    std::fs::remove_file(&file).map_err(|error| Error::Missing { what: format!("The file: {error}.") })?;
    Ok(Import { n_contacts: season.n_contacts, n_bytes, before, looked, taken })
}

async fn to_board(phone: &Phone) -> Result<()> {
    phone.tap("[data-key='drill.0']").await?;
    phone.wait_for("[data-screen=run] .run-court").await.map(drop)
}

async fn to_share(phone: &Phone) -> Result<()> {
    phone.eval("location.hash = '#share'").await?;
    phone.wait_for("[data-screen=share]").await.map(drop)
}

/// Back to the board, and tapped on until the job has its answer.
async fn meanwhile(page: &mut Page, phone: &Phone, board: &Value, part: &mut Part) -> Result<()> {
    phone.eval(&format!("location.hash = {board}")).await?;
    let spots = page.spots(phone).await?;
    page.met(phone).await?;
    phone.eval("__import.begin()").await?;
    while phone.eval("__import.goes()").await? == Value::Bool(true) {
        let i = part.taps.len();
        part.taps.push(painted(page, phone, spots[i % spots.len()]).await?);
    }
    let done = phone.wait_until("the job's answer", "__import.done()").await?;
    part.took_ms.push(number(&done["took"])?);
    part.n_told += number(&done["told"])?;
    part.longest_ms.push(number(&done["longest"])?);
    Ok(())
}

async fn painted(page: &mut Page, phone: &Phone, spot: (f64, f64)) -> Result<f64> {
    number(&page.tap(phone, spot, SETTLE_MS).await?["painted"])
}

impl Import {
    pub fn print(&self) {
        let mb = self.n_bytes as f64 / 1e6;
        println!("A file of {} contacts, {mb:.1} MB, while the floor board is tapped on", self.n_contacts);
        println!(
            "  without: {} taps, to the painted frame {:.1} ms (median), {:.1} ms (slowest)",
            self.before.len(),
            self.before.median(),
            self.before.p99()
        );
        for (name, part) in [("looked at", &self.looked), ("taken in", &self.taken)] {
            println!(
                "  {name} {N_ROUNDS} times: {:.1} s in the worker, told {:.0} times how far; meanwhile {} taps, {:.1} ms (median), {:.1} ms (slowest); the \
                 page's longest task {:.0} ms",
                part.took_ms.median() / 1000.0,
                part.n_told / N_ROUNDS as f64,
                part.taps.len(),
                part.taps.median(),
                part.taps.p99(),
                part.longest_ms.median()
            );
            if part.taps.len() > 0 {
                Line::aim(
                    &format!("{name}, to the painted frame, median, to without"),
                    part.taps.median() / self.before.median(),
                    AIM,
                );
            }
            Line::aim(&format!("{name}, the page's longest task, ms"), part.longest_ms.median(), AIM_TASK_MS);
        }
        println!();
    }
}

/// Notes when a job of a file is given to the worker, what the worker tells of it, when it is answered, and the page's tasks meanwhile. A task counts from
/// the first tap on: before that the bench itself changes the screen.
const PROBE: &str = r#"(() => {
    const tasks = [];
    let job = { given: 0, answered: 0, told: 0 };
    const post = Worker.prototype.postMessage;
    Worker.prototype.postMessage = function (...a) {
        if (Array.from(a[0] ?? []).some(text => /^\{"(Look|Parcel)"/.test(String(text)))) {
            const mine = job;
            mine.given = performance.now();
            this.addEventListener('message', e => {
                if (mine.answered) return;
                if (e.data[0] === 'looking') mine.told += 1;
                if (e.data[0] === 'answer') mine.answered = performance.now();
            });
        }
        return post.apply(this, a);
    };
    new PerformanceObserver(list => { for (const one of list.getEntries()) tasks.push([one.startTime, one.duration]); })
        .observe({ entryTypes: ['longtask'] });
    globalThis.__import = {
        next: () => { job = { given: 0, answered: 0, told: 0 }; return null; },
        begin: () => { job.begun = performance.now(); return null; },
        goes: () => job.given > 0 && !job.answered,
        done: () => job.answered > 0 && performance.now() > job.answered + 1500 ? {
            took: job.answered - job.given,
            told: job.told,
            longest: Math.max(0, ...tasks.filter(([at]) => at >= job.begun && at < job.answered + 1500).map(([, ms]) => ms)),
        } : null,
    };
})()"#;
