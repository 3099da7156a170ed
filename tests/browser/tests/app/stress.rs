//! What real browsers do to an app in the gym, as far as `survive`, `troubles`, `worker` and `keeps` haven't it: killed in a job, a database of a
//! newer app, a transaction aborted, ten tabs, another time zone.

use crate::with_squad;
use browser_tests::{PhoneKind, Result, Screen, Site, Stage, faults, needs};
use peppertally::domain::entry::Fact;
use peppertally::wire::file::{self, Limits};
use serde_json::json;
use std::time::Duration;

/// The browser is killed so many milliseconds after the key was tapped, and comes back.
async fn killed_after(stage: &mut Stage, tap: &str, ms: u64) -> Result<()> {
    let killer = stage.phone.killer()?;
    let killing = std::thread::spawn(move || {
        std::thread::sleep(Duration::from_millis(ms));
        killer.fire();
    });
    // The tap may be cut off with everything else.
    let cut = stage.check("a tap", tap).await;
    killing.join().expect("the killing thread");
    if let Err(cut) = cut {
        println!("{ms} ms: {cut}");
    }
    stage.phone.kill()?;
    stage.phone.reopen().await
}

/// How many contacts a copy of everything holds.
async fn contacts_of_a_copy(stage: &mut Stage) -> Result<usize> {
    stage
        .check(
            "a copy",
            "open #/share | screen share | seek copy-download | see The copy was given to the browser to save",
        )
        .await?;
    let path = stage.phone.wait_download("a copy", |name| name.ends_with(".json")).await?;
    let copy = file::read(&std::fs::read(&path).expect("the copy"), &Limits::default()).expect("a copy of ours");
    // Named by the minute: the next one may lie beside it.
    std::fs::remove_file(path).expect("the copy is put away");
    Ok(copy.entries.iter().filter(|e| matches!(e.fact, Fact::ContactNoted { .. })).count())
}

/// All summaries are those of an older app.
const OLD: &str =
    "new Promise((done, no) => { const r = indexedDB.open('peppertally'); r.onerror = no; r.onsuccess = () => {
    const tx = r.result.transaction('summaries', 'readwrite'), of = tx.objectStore('summaries'), q = of.getAllKeys();
    q.onsuccess = () => q.result.forEach(key => of.put('{\"fold\":1}', key));
    tx.oncomplete = () => { r.result.close(); done(q.result.length); };
}; })";

/// Killed while it packs, then while it makes summaries of an older app again: no ball is lost, none is there twice.
#[tokio::test]
async fn killed_while_it_packs_and_migrates() -> Result<()> {
    needs!(Restart);
    let mut stage = with_squad(Screen::SMALL).await?;
    for (round, ms) in [0, 30, 90, 250].into_iter().enumerate() {
        stage
            .check("a practice", "open #/ | screen today | seek drill.0 | screen run | tap pass.0.3 x 3 | fig saved = saved | tap finish | screen run-report
                tap tab.after | screen after | tap practice.0 | screen practice-report | scroll practice-end")
            .await?;
        killed_after(&mut stage, "tap practice-end", ms).await?;
        assert_eq!(contacts_of_a_copy(&mut stage).await?, 3 * (round + 1), "killed {ms} ms after the end");
    }
    for ms in [20, 120, 400] {
        stage.check("at rest", "open #/after | screen after | there practice.0").await?;
        stage.phone.eval(OLD).await?;
        killed_after(&mut stage, "reload", ms).await?;
        stage.check("again", "open #/after | screen after | there practice.0 | see 3 contacts").await?;
        assert_eq!(contacts_of_a_copy(&mut stage).await?, 12, "killed {ms} ms after the start");
    }
    stage.check("all is sound", "open #/health | screen health | seek check | see All is well").await
}

/// Killed while a file is taken in: all of it is there or nothing, and taken in again it is all there.
#[tokio::test]
async fn killed_while_it_takes_in() -> Result<()> {
    needs!(Restart);
    let mut first = with_squad(Screen::SMALL).await?;
    first.check("a practice", "seek drill.0 | screen run | tap pass.0.3 x 6 | fig saved = saved | tap finish | screen run-report | tap tab.share | screen share
        seek copy-download | see The copy was given to the browser to save").await?;
    let path = first.phone.wait_download("a copy", |name| name.ends_with(".json")).await?;
    let path = path.display();
    for ms in [0, 60, 200] {
        let kind = PhoneKind { screen: Screen::SMALL, ..PhoneKind::default() };
        let mut second = Stage::of(Site::of_the_app()?, kind).await?;
        second.check("a second phone", &format!("open | screen today | tap roster | screen roster | type roster = 1 Ana | tap roster-take | screen today | fig saved = saved
            tap tab.share | screen share | file file = {path} | there parcel-accept")).await?;
        killed_after(&mut second, "tap parcel-accept", ms).await?;
        second.check("after it", "open #/squad | screen squad | there child.0").await?;
        let n = second.phone.eval("document.querySelectorAll('.row-key').length").await?;
        assert!(n == 1 || n == 13, "{n} children {ms} ms after the tap");
        if n == 1 {
            second
                .check(
                    "once more",
                    &format!("tap tab.share | screen share | file file = {path} | tap parcel-accept | see Taken in."),
                )
                .await?;
        }
        second
            .check(
                "all there",
                "open #/squad | screen squad | count .row-key = 13 | tap tab.after | screen after | see 6 contacts",
            )
            .await?;
    }
    Ok(())
}

/// A newer app was here (its database has a higher version): told as that, nothing is touched, a copy leaves; with the newer app all is there.
#[tokio::test]
async fn a_database_of_a_newer_app() -> Result<()> {
    let mut stage = with_squad(Screen::SMALL).await?;
    stage.phone.inject(faults::NEWER_APP).await?;
    stage.check("today", "seek drill.0 | screen run | tap pass.0.3 x 4 | fig saved = saved").await?;
    stage.phone.eval("sessionStorage.setItem('newer', 1), 0").await?;
    stage
        .check(
            "the newer app",
            "reload | screen run | fig of = good of 4 | tap pass.0.3 | fig of = good of 5 | fig saved = saved",
        )
        .await?;
    stage.phone.eval("sessionStorage.removeItem('newer'), 0").await?;
    stage.check("the older one", "open #/ | reload | screen today | see app is older than its data | open #/phone | screen phone | see written by a newer version of the app. Nothing was changed. | axe").await?;
    stage.phone.eval("sessionStorage.setItem('newer', 1), 0").await?;
    stage.check("the newer app again", "open #/ | reload | screen run | fig of = good of 5").await
}

/// A transaction is aborted for no reason told: the same notes are written again by themselves.
#[tokio::test]
async fn a_transaction_is_aborted() -> Result<()> {
    let mut stage = with_squad(Screen::SMALL).await?;
    stage.phone.inject(faults::ABORTED).await?;
    stage
        .check("well", "reload | screen today | seek drill.0 | screen run | tap pass.0.3 x 3 | fig saved = saved")
        .await?;
    stage.phone.eval("globalThis.__abort = 2, 0").await?;
    stage.check("aborted twice", "tap pass.1.3 x 2 | fig of = good of 5 | see not saved: trying again | fig saved = saved | kill | screen run | fig of = good of 5").await
}

/// Ten tabs, one after another going on with the run: each has what all before counted, and only one counts.
#[tokio::test]
async fn ten_tabs() -> Result<()> {
    let mut stage = with_squad(Screen::SMALL).await?;
    stage.phone.limit(Duration::from_secs(40));
    stage.check("tab 1", "seek drill.0 | screen run | tap pass.0.3 | fig of = good of 1 | fig saved = saved").await?;
    for n in 2..=10 {
        let before = n - 1;
        stage
            .check(
                &format!("tab {n}"),
                &format!(
                    "tab {n} | open | screen run | fig of = good of {before} | tap take-over | gone take-over
            tap pass.1.3 | fig of = good of {n} | fig saved = saved"
                ),
            )
            .await?;
    }
    for n in [1, 5, 9] {
        stage.check("the others follow", &format!("tab {n} | fig of = good of 10 | there take-over")).await?;
    }
    stage.check("killed", "tab 3 | tap take-over | gone take-over | tap pass.2.0 | fig of = good of 11 | fig saved = saved | kill | open | screen run | fig of = good of 11").await
}

/// The phone is set to another zone in mid-run, as on the way to a tournament abroad: the run goes on, also on a new page.
#[tokio::test]
async fn another_time_zone() -> Result<()> {
    needs!(Protocol);
    let mut stage = with_squad(Screen::SMALL).await?;
    stage.check("here", "seek drill.0 | screen run | tap pass.0.3 x 2 | fig saved = saved").await?;
    for (n, zone) in [(3, "Europe/Helsinki"), (4, "Atlantic/Azores"), (5, "Asia/Kolkata")] {
        stage.phone.cdp("Emulation.setTimezoneOverride", json!({ "timezoneId": zone })).await?;
        stage.check(zone, &format!("tap pass.0.3 | fig of = good of {n} | see just now | fig saved = saved | reload | screen run | fig of = good of {n}")).await?;
    }
    Ok(())
}
