//! The figures that README gives, measured on the release build in a real Chromium: `cargo xtask bench`. A machine is slower or
//! busier than another, so what counts are ratios within one run, taken in turns. Refuses to judge: a missed aim is printed and is
//! no failure; a figure that couldn't be measured is one.
//!
//! | module     | owns                                                               |
//! |------------|--------------------------------------------------------------------|
//! | `season`   | 200,000 contacts, made natively and put into the app's database    |
//! | `download` | what the first start fetches, after brotli                         |
//! | `boards`   | the cost of a tap on every board, against the first                |
//! | `taps`     | the cost of a tap: the bare page, an empty season, a full one      |
//! | `start`    | the time from a cold start without a server to a key that answers  |
//! | `pages`    | all pages' numbers over a season of twenty children               |
//! | `soak`     | what a day of 20,000 taps leaves in the page's memory              |
//! | `import`   | 200,000 contacts taken in while the board is tapped on             |
//! | `codes`    | a practice from one phone's screen to another's camera             |
//! | `grouping` | 20 children into 4 even groups, to the folding of a practice       |
//! | `table`    | numbers in order, ratios, aims, lines                              |

mod boards;
mod codes;
mod download;
mod grouping;
mod import;
mod pages;
mod season;
mod soak;
mod start;
mod table;
mod taps;

use browser_tests::{Error, Phone, PhoneKind, Result, Site};
use season::Season;
use serde_json::{Value, json};
use std::path::PathBuf;
use std::process::ExitCode;
use std::time::Duration;

/// How many times slower the processor is made: a cheap phone.
const SLOWER: f64 = 4.0;

#[tokio::main]
async fn main() -> ExitCode {
    match measure().await {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("bench: {error}");
            ExitCode::FAILURE
        }
    }
}

async fn measure() -> Result<()> {
    // `cargo run … --bin bench -- pages`: what a change of one of them needs.
    match std::env::args().nth(1).as_deref() {
        Some("pages") => pages().await?.print(),
        Some("import") => imported().await?.print(),
        Some("codes") => codes::measure().await?.print(),
        // Some minutes, so it is part of no other measuring.
        Some("soak") => soak::measure().await?,
        only => all(only).await?,
    }
    Ok(())
}

/// `only`: "boards" or "start".
async fn all(only: Option<&str>) -> Result<()> {
    let full = Season::full();
    let empty = full.without_practices();
    eprintln!("{} contacts in {} practices are made", full.n_contacts, full.practices.len());

    let bare_site = Site::start(PathBuf::from(concat!(env!("CARGO_MANIFEST_DIR"), "/bench_page")))?;
    let mut empty_site = Site::of_the_app()?;
    let mut full_site = Site::of_the_app()?;
    let kind = PhoneKind { watch_requests: false, ..PhoneKind::default() };
    let mut phone = Phone::start_as(&empty_site.base(), kind).await?;
    phone.limit(Duration::from_secs(90));
    let version = phone.cdp("Browser.getVersion", json!({})).await?;

    eprintln!("the first start is watched, the seasons are put in");
    phone.open("").await?;
    phone.wait_for("[data-screen=today]").await?;
    let download = download::Download::of(&empty_site.requests())?;
    empty.put_into(&phone, &empty_site).await?;
    full.put_into(&phone, &full_site).await?;

    phone.slow_cpu(SLOWER).await?;
    // What a change of one board needs, or of the start.
    if only == Some("start") {
        return started(phone, &mut empty_site, &mut full_site).await;
    }
    if only == Some("boards") {
        boards::measure(&mut phone, &empty_site, 1, true).await?.print();
        download.print();
        return Ok(());
    }
    println!(
        "Measured in {} at 390 x 844, its main thread slowed {SLOWER} times, on the release build.\nSeasons: none, and {} \
         contacts in {} practices; the squad and the drills are the same in both.\n",
        version["product"].as_str().unwrap_or("a Chromium that doesn't say which"),
        full.n_contacts,
        full.practices.len(),
    );
    // Each is printed as soon as it is there: what comes after may fail.
    let taps = taps::measure(&mut phone, &bare_site, &empty_site, &full_site).await?;
    taps.print();
    boards::measure(&mut phone, &empty_site, taps.empty_tab(), false).await?.print();
    started(phone, &mut empty_site, &mut full_site).await?;
    pages().await?.print();
    imported().await?.print();
    codes::measure().await?.print();
    grouping::measure()?.print();
    download.print();
    Ok(())
}

/// The floor board is on in both, and the servers are gone.
async fn started(mut phone: Phone, empty: &mut Site, full: &mut Site) -> Result<()> {
    for site in [&*empty, &*full] {
        go(&phone, &format!("{}#today", site.base())).await?;
        phone.tap("[data-key='drill.0']").await?;
        phone.wait_for("[data-screen=run] [data-key='pass.1.3']").await?;
    }
    empty.stop();
    full.stop();
    start::measure(&mut phone, &empty.base(), &full.base()).await?.print();
    Ok(())
}

/// In a browser of its own, so that no other page's worker is at it.
async fn pages() -> Result<pages::Pages> {
    let twenty = Season::of_twenty();
    eprintln!("{} contacts of twenty children are made", twenty.n_contacts);
    let site = Site::of_the_app()?;
    let kind = PhoneKind { watch_requests: false, ..PhoneKind::default() };
    let mut phone = Phone::start_as(&site.base(), kind).await?;
    phone.limit(Duration::from_secs(90));
    phone.open("").await?;
    phone.wait_for("[data-screen=today]").await?;
    twenty.put_into(&phone, &site).await?;
    phone.slow_cpu(SLOWER).await?;
    pages::measure(&mut phone, &site, &twenty).await
}

/// In a browser of its own too.
async fn imported() -> Result<import::Import> {
    let full = Season::full();
    let site = Site::of_the_app()?;
    let kind = PhoneKind { watch_requests: false, ..PhoneKind::default() };
    let mut phone = Phone::start_as(&site.base(), kind).await?;
    phone.limit(Duration::from_secs(180));
    phone.open("").await?;
    phone.wait_for("[data-screen=today]").await?;
    full.without_practices().put_into(&phone, &site).await?;
    phone.slow_cpu(SLOWER).await?;
    import::measure(&mut phone, &site, &full).await
}

/// Goes to any address, which may be of another site than the phone's own.
async fn go(phone: &Phone, url: &str) -> Result<()> {
    let answer = phone.cdp("Page.navigate", json!({ "url": url })).await?;
    match answer["errorText"].as_str() {
        Some(why) => Err(Error::Missing { what: format!("The browser could not open {url}: {why}.") }),
        None => phone
            .wait_until(&format!("{url} to be there"), &format!("location.href.startsWith({})", json!(url)))
            .await
            .map(drop),
    }
}

/// A number that a script answered with.
fn number(value: &Value) -> Result<f64> {
    value.as_f64().ok_or_else(|| Error::Missing { what: format!("The page answered {value} instead of a number.") })
}
