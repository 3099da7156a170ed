//! Nothing is lost: the browser is killed, the tab closed, the page loaded again, the clock turned, a second tab opened.

use crate::{HOME, with_squad};
use browser_tests::{Engine, Home, Phone, Result, Screen, Site, Window, faults, n_kills, needs, tell};
use std::time::{Duration, Instant};

/// Told as it goes, once every contact that was shown as saved was found.
fn said_of_kills(n_kills: u64, saved: u32, there: u32) -> Result<()> {
    let engine = Engine::chosen()?;
    tell(&format!("{engine}: {n_kills} kills, {saved} contacts shown as saved by the last, {there} there, none lost"))
}

/// How many contacts the board shows, and whether it says that all are saved.
async fn shown(phone: &Phone) -> Result<(u32, bool)> {
    let read = "[document.querySelector('[data-fig=of]')?.innerText ?? '', document.querySelector('[data-fig=saved]')?.innerText ?? '']";
    let seen = phone.eval(read).await?;
    let n = seen[0].as_str().and_then(|of| of.rsplit(' ').next()?.parse().ok()).unwrap_or(0);
    Ok((n, seen[1] == "saved"))
}

/// Taps so many times in one task and answers when the page says that so many are saved.
const QUICK: &str = r#"(n, all) => new Promise(done => {
    const said = what => document.querySelector(`[data-fig=${what}]`).innerText;
    const look = () => { if (said('of') === `good of ${all}` && said('saved') === 'saved') { watch.disconnect(); done(1); } };
    const watch = new MutationObserver(look);
    watch.observe(document.body, { subtree: true, childList: true, characterData: true });
    const key = document.querySelector('[data-key="pass.0.3"]');
    for (let i = 0; i < n; i += 1) key.dispatchEvent(new PointerEvent('pointerdown', { bubbles: true, button: 0, pointerType: 'touch' }));
})"#;

/// The whole browser is killed while a thumb taps, twenty times or as often as is wished: at random moments, and as soon as it says "saved".
#[tokio::test]
async fn what_was_shown_as_saved_outlives_kills() -> Result<()> {
    needs!(Restart);
    let n_kills = n_kills()?;
    let mut stage = with_squad(Screen::SMALL).await?;
    stage.check("board", "seek drill.0 | screen run | tap pass.0.3 | fig saved = saved").await?;
    let mut before = 1;
    for round in 0..n_kills {
        let spot = "(b => [b.x + b.width / 2, b.y + b.height / 2])(document.querySelector('[data-key=\"pass.1.2\"]').getBoundingClientRect())";
        let spot = stage.phone.eval(spot).await?;
        let (x, y) = (spot[0].as_f64().unwrap_or(0.0), spot[1].as_f64().unwrap_or(0.0));
        let killer = stage.phone.killer()?;
        let (mut tapped, mut saved) = (before, before);
        if round % 2 == 0 {
            // Scattered over a second, the same in every run of the test.
            let moment = Duration::from_millis(30 + round * 7919 % 971);
            let killing = std::thread::spawn(move || {
                std::thread::sleep(moment);
                killer.fire();
            });
            loop {
                tapped += 1;
                if stage.phone.tap_at(x, y).await.is_err() {
                    break;
                }
                match shown(&stage.phone).await {
                    Ok((n, true)) => saved = saved.max(n),
                    Ok(_) => {}
                    Err(_) => break,
                }
            }
            killing.join().expect("the killing thread");
        } else {
            // In the very moment when the page first says that the last of a few quick taps is saved.
            let n = u32::try_from(round % 5).unwrap_or(0) + 1;
            tapped += n;
            stage.phone.eval(&format!("({QUICK})({n}, {tapped})")).await?;
            killer.fire();
            saved = tapped;
        }
        stage.phone.kill()?;
        stage.phone.reopen().await?;
        stage.phone.open("").await?;
        let text = stage.phone.wait_text("[data-fig=of]", "a figure", |text| text.starts_with("good of ")).await?;
        let kept = text.rsplit(' ').next().and_then(|n| n.parse::<u32>().ok()).unwrap_or(0);
        assert!(saved <= kept && kept <= tapped, "round {round}: {saved} shown as saved, {kept} kept, {tapped} tapped");
        before = kept;
        if (round + 1) % 10 == 0 || round + 1 == n_kills {
            said_of_kills(round + 1, saved, kept)?;
        }
        // The run is this page's again, and its keys answer.
        stage.check("on", "enabled pass.1.2").await?;
    }
    assert!(u64::from(before) > 2 * n_kills, "only {before} contacts were tapped: the test tests nothing");
    stage.check("on", "screen run | tap pass.1.2 | fig saved = saved").await
}

/// The same in WebKit, whose window keeps nothing under a driver: here it has none, and a page of the harness taps.
#[tokio::test]
async fn what_was_shown_as_saved_outlives_kills_without_a_driver() -> Result<()> {
    if Engine::chosen()? != Engine::WebKit {
        return Ok(());
    }
    let site = Site::of_the_app()?;
    site.change("kills.html", include_str!("../../kills_page/kills.html"));
    site.change("kills.js", include_str!("../../kills_page/kills.js"));
    let (home, n_kills) = (Home::fresh()?, n_kills()?);
    let (mut saved, mut there) = (0, 0);
    for round in 0..n_kills {
        let window = opened(&site, &home).await?;
        there = told(&site, "there", |_| true).await?;
        assert!(saved <= there, "round {round}: {saved} shown as saved, {there} there");
        if round > 0 && round % 10 == 0 {
            said_of_kills(round, saved, there)?;
        }
        if round % 2 == 0 {
            // Scattered over a second, the same in every run of the test.
            tokio::time::sleep(Duration::from_millis(30 + round * 7919 % 971)).await;
        } else {
            // In the moment when the page says that the last of a few taps is saved.
            let more = there + u32::try_from(round % 5).unwrap_or(0) + 1;
            told(&site, "saved", |n| n >= more).await?;
        }
        window.killer().fire();
        drop(window);
        // What was on its way when the window died counts as shown.
        saved = all_told(&site, "saved").into_iter().max().unwrap_or(0).max(saved);
    }
    let _last = opened(&site, &home).await?;
    there = told(&site, "there", |_| true).await?.max(there);
    assert!(saved <= there, "{saved} shown as saved, {there} there");
    said_of_kills(n_kills, saved, there)?;
    assert!(u64::from(there) > 2 * n_kills, "only {there} contacts were tapped: the test tests nothing");
    assert_eq!(home.attempts(), Vec::<String>::new());
    Ok(())
}

/// A window that has asked for its page. One that asks for nothing, on a machine with too much to do, is started once more, and that is told.
async fn opened(site: &Site, home: &Home) -> Result<Window> {
    for attempt in 1.. {
        site.forget_requests();
        let window = home.open(&format!("{}kills.html", site.base()))?;
        let limit = Instant::now() + Duration::from_secs(45);
        while Instant::now() < limit {
            if site.count("kills.js") > 0 {
                return Ok(window);
            }
            tokio::time::sleep(Duration::from_millis(5)).await;
        }
        assert!(attempt < 3, "a window that was started three times asked for no page");
        tell("WebKit: a window that asked for no page was started once more")?;
    }
    unreachable!("attempts end above")
}

/// All numbers that the page told under this name.
fn all_told(site: &Site, name: &str) -> Vec<u32> {
    let start = format!("/told?{name}=");
    site.requests().iter().filter_map(|request| request.target.strip_prefix(&start)?.parse().ok()).collect()
}

/// The first of them that is as wished.
async fn told(site: &Site, name: &str, is: impl Fn(u32) -> bool) -> Result<u32> {
    let limit = Instant::now() + Duration::from_secs(60);
    loop {
        if let Some(number) = all_told(site, name).into_iter().find(|number| is(*number)) {
            return Ok(number);
        }
        let asked: Vec<String> = site.requests().into_iter().map(|request| request.target).collect();
        assert!(Instant::now() < limit, "the page told nothing of {name}; it asked for {asked:?}");
        tokio::time::sleep(Duration::from_millis(2)).await;
    }
}

/// Every write is strict, and committed at once.
#[tokio::test]
async fn every_transaction_is_strict() -> Result<()> {
    let mut stage = with_squad(Screen::SMALL).await?;
    stage.phone.inject(faults::RECORD_TRANSACTIONS).await?;
    let script = "reload | screen today | seek drill.0 | screen run | tap pass.0.3 x 5 | tap swap | tap effort | tap undo | fig saved = saved";
    stage
        .check(
            "a run",
            &format!("{script} | {HOME} | seek practice-end | screen practice-report | tap tab.after | screen after"),
        )
        .await?;
    stage.phone.wait_until("the practice to be packed", "new Promise((done, no) => { const r = indexedDB.open('peppertally');
        r.onerror = no; r.onsuccess = () => { const q = r.result.transaction('blocks').objectStore('blocks').count(); q.onsuccess = () => { r.result.close(); done(q.result); }; }; })").await?;
    let writes: Vec<_> = stage.phone.transactions().await?.into_iter().filter(|t| t.mode == "readwrite").collect();
    assert!(writes.len() >= 4, "{writes:?}");
    for write in &writes {
        assert!(
            write.durability == "strict" && write.n_writes > 0 && write.committed_at_once && write.end == "complete",
            "{write:?}"
        );
    }
    Ok(())
}

/// The page is loaded again, the tab is closed, the clock goes back an hour: the run goes on.
#[tokio::test]
async fn the_run_goes_on() -> Result<()> {
    let mut stage = with_squad(Screen::TALL).await?;
    stage.check("reload", "seek drill.0 | screen run | tap pass.0.3 x 7 | reload | screen run | fig of = good of 7 | fig saved = saved").await?;
    stage.check("a tab beside", "tab 2 | tab 1 | tap pass.1.1 x 3").await?;
    stage.phone.close_tab().await?;
    stage
        .check(
            "opened in another",
            "open | screen run | fig of = good of 10 | fig saved = saved | tap pass.2.0 | fig of = good of 11",
        )
        .await?;
    stage.check("the clock goes back", "clock -1h | tap pass.0.3 | fig of = good of 12 | fig undo = Mira, stood 3, just now | fig saved = saved
        reload | screen run | fig of = good of 12 | tap pass.1.3 | fig of = good of 13 | tap undo x 2 | fig of = good of 11 | fig undo = Odile, gone 0
        clock 0h | tap contacts | screen contacts | count [data-key^=\"contact.\"] = 11 | tap go-on | screen run | fig of = good of 11").await?;
    stage.check("forward", "clock 1h | tap pass.0.3 | fig of = good of 12 | kill | screen run | fig of = good of 12 | fig saved = saved").await
}

/// Two tabs tally at once in two runs; then the same run in both.
#[tokio::test]
async fn two_tabs() -> Result<()> {
    let mut stage = with_squad(Screen::TALL).await?;
    let two_runs = "seek drill.0 | screen run | tap pass.0.3 x 2 | fig saved = saved
        tab 2 | open | screen run | see This run goes on in another window | tap leave | screen today | see is open in another window
        seek drill.2 | screen run | tap pass-3 x 3 | tab 1 | tap pass.1.0 x 2 | tab 2 | tap pass-0 | tab 1 | tap pass.2.3
        fig of = good of 5 | fig saved = saved | tab 2 | fig of = good of 4 | fig saved = saved
        reload | screen run | fig of = good of 4 | tab 1 | reload | screen run | fig of = good of 5";
    stage.check("two runs", two_runs).await?;
    let one_run = "tab 2 | tap take-over | gone take-over | tap finish | screen run-report | tab 1 | tap pass.0.3 | fig of = good of 6 | fig saved = saved | tab 3 | open | screen run | fig of = good of 6
        tap take-over | gone take-over | tap pass.1.3 | fig of = good of 7 | fig saved = saved
        tab 1 | there take-over | fig of = good of 7 | tap take-over | gone take-over | tap pass.0.0 | fig of = good of 8
        tab 3 | there take-over | fig of = good of 8 | tab 1 | tap finish | screen run-report | fig everyone = 5 good of 8, about 3 to 9 in 10";
    stage.check("one run", one_run).await
}

/// Should two tabs that don't hear each other both go on, both parts are kept, side by side.
#[tokio::test]
async fn both_parts_are_kept() -> Result<()> {
    let mut stage = with_squad(Screen::TALL).await?;
    stage.phone.inject("BroadcastChannel.prototype.postMessage = () => {};").await?;
    let script = "reload | screen today | seek drill.0 | screen run | tap pass.0.3 x 2 | fig saved = saved
        tab 2 | open | screen run | tap take-over | gone take-over | tap pass.1.3 x 3 | fig of = good of 5 | fig saved = saved
        tab 1 | tap pass.2.0 x 4 | fig of = good of 6 | fig saved = saved | tab 2 | tap pass.1.2 | fig of = good of 6 | fig saved = saved
        reload | screen run | tab 1 | reload | screen run | tap take-over | gone take-over | tap finish | screen run-report | see Counted at the same time on another phone or window";
    stage.check("apart", script).await
}

/// The app breaks: a plain page lies over it and takes no more taps; loaded again, all is there.
#[tokio::test]
async fn a_panic_is_covered() -> Result<()> {
    let mut stage = with_squad(Screen::TALL).await?;
    stage.check("board", "seek drill.0 | screen run | tap pass.0.3 x 3 | fig saved = saved").await?;
    // The next element that the app makes can't be made, once.
    stage.phone.eval("{ const real = Node.prototype.cloneNode, make = Document.prototype.createElement, back = () => { Node.prototype.cloneNode = real; Document.prototype.createElement = make; };
        const once = function () { back(); throw new Error('provoked'); }; Node.prototype.cloneNode = once; Document.prototype.createElement = once; } 0").await?;
    stage.expect_errors("panicked");
    stage.expect_errors("unreachable");
    stage.expect_errors("Unreachable");
    stage
        .check("broken", "tap finish | see Something in the app broke | see Everything shown as saved is stored | axe")
        .await?;
    stage.phone.tap_at(195.0, 700.0).await?;
    stage.phone.tap("#panic button").await?;
    stage.check("again", "see Three passers | kill | open | see Three passers").await
}
