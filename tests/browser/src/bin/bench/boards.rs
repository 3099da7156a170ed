//! Owns the cost of a tap on every board, each against the floor board's in the same run, in turn: no board may cost what the first
//! doesn't. On the empty season; the answer is looked for in the whole text of the board, which every tap changes.

use super::go;
use super::table::{Line, Times};
use super::taps::{PROBE, Page};
use browser_tests::{Error, Phone, Result, Site};
use serde_json::json;

const N_ROUNDS: usize = 3;
const AIM: f64 = 1.5;

/// A key that counts on each kind of board; not where counts are told, since a count told again changes nothing.
const KEYS: [(&str, &str); 6] = [
    (".run-floor", "[data-key^='pass.']"),
    (".run-line", "[data-key^='pass-'], [data-key=good], [data-key=not-good]"),
    (".run-serve", "[data-key^='serve-']"),
    (".run-group", "[data-key=good], [data-key=not-good]"),
    (".run-lanes", "[data-key^='lane.']"),
    (".run-game", "[data-key^='side.']"),
];

pub struct Boards {
    pages: Vec<Page>,
}

/// In the tab that has the empty season open already: another one would only be told that the run goes on there.
/// `probe`: nothing was measured in this browser before.
pub async fn measure(phone: &mut Phone, site: &Site, tab: usize, probe: bool) -> Result<Boards> {
    if probe {
        phone.inject(PROBE).await?;
    }
    phone.inject("globalThis.__figures = 'main'").await?;
    phone.to_tab(tab).await?;
    // Begun anew, it opens the run that is on: the taps before leave one.
    go(phone, &site.base()).await?;
    phone.wait_for(if probe { "[data-key='drill.0']" } else { "[data-screen=run] .run-court" }).await?;
    go(phone, &format!("{}#today", site.base())).await?;
    phone.wait_for("[data-key='drill.0']").await?;
    let n_drills = phone.count("[data-key^='drill.']").await?;
    let mut pages: Vec<Option<Page>> = (0..n_drills).map(|_| None).collect();
    for round in 0..N_ROUNDS {
        eprintln!("boards: round {} of {N_ROUNDS}", round + 1);
        for (at, page) in pages.iter_mut().enumerate() {
            go(phone, &format!("{}#today", site.base())).await?;
            let tile = format!("[data-key='drill.{at}']");
            phone
                .eval(&format!("document.querySelector({}).scrollIntoView({{ block: 'center' }})", json!(tile)))
                .await?;
            phone.tap(&tile).await?;
            phone.wait_for("[data-screen=run] .run-court").await?;
            if page.is_none() {
                let name = phone.eval("document.querySelector('main h1').textContent").await?;
                let Some(keys) = keys_of(phone).await? else { continue };
                let new = page.insert(Page::new(name.as_str().unwrap_or_default().to_owned(), keys));
                new.warm_up(phone).await?;
            }
            if let Some(page) = page {
                page.taps(phone, round).await?;
            }
        }
    }
    let pages: Vec<Page> = pages.into_iter().flatten().collect();
    if pages.len() < 2 {
        return Err(Error::Missing { what: "No board was found to tap on.".to_owned() });
    }
    Ok(Boards { pages })
}

async fn keys_of(phone: &Phone) -> Result<Option<&'static str>> {
    for (board, keys) in KEYS {
        if phone.eval(&format!("document.querySelector({}) !== null", json!(board))).await? == json!(true) {
            return Ok(Some(keys));
        }
    }
    Ok(None)
}

impl Boards {
    pub fn print(&self) {
        let Some(floor) = self.pages.first() else { return };
        println!("A tap on every ready drill's board, against the first ({} on each, in turn)", floor.painted.len());
        println!("  {:<34}{:>14}{:>14}{:>12}", "ms, median", "painted", "main thread", "to first");
        let main = |page: &Page| Times::median(&page.main_thread());
        for page in &self.pages {
            let (painted, thread) = (page.painted.median(), main(page));
            println!("  {:<34}{painted:>14.1}{thread:>14.1}{:>12.2}", page.name, thread / main(floor));
        }
        let most = self.pages.iter().map(main).fold(0.0, f64::max);
        Line::aim("main thread of the dearest board to the first", most / main(floor), AIM);
        println!();
    }
}
