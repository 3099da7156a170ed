//! Every screen, light and dark: no barrier, nothing typed is ever markup, the demo is marked and leaves no trace.

use crate::with_squad;
use browser_tests::{PhoneKind, Result, Screen, Site, Stage, check};
use serde_json::json;

const HOSTILE: &str = "<img src=x onerror=document.title=1>";
const SCRIPT: &str = "</textarea><script>document.title=2</script>";

/// Nothing that was typed became an element.
const TEXT: &str = "count img = 0 | count script:not([src]) = 0 | count [onerror] = 0";

/// Barriers are looked for in both schemes.
fn both_schemes(text: &str) -> String {
    format!("light | axe | dark | axe | light | {text}")
}

/// Walks over every screen there is, with hostile names everywhere.
#[tokio::test]
async fn every_screen_is_text_without_barriers() -> Result<()> {
    let mut stage = Stage::of(Site::of_the_app()?, PhoneKind { screen: Screen::SMALL, ..PhoneKind::default() }).await?;
    let walk = [
        ("welcome", "open | screen today".to_string()),
        ("empty squad", "tap tab.squad | screen squad".to_string()),
        ("nothing after", "tap tab.after | screen after".to_string()),
        ("nothing to share", "tap tab.share | screen share".to_string()),
        ("list", format!("tap tab.squad | screen squad | tap roster | screen roster | type roster = 1 {HOSTILE}\\n2 {SCRIPT}\\n42\\n3 &lt;b&gt;\\n4 Odile | see {HOSTILE} | see {SCRIPT}")),
        ("squad", "tap roster-take | screen roster | type roster = | tap tab.squad | screen squad".to_string()),
        ("child", format!("tap child.0 | screen child | value child-name = {HOSTILE} | scroll style.1 | tap style.1 | seek child-keep | screen squad | tap child.0 | screen child")),
        ("new drill", "tap tab.today | screen today | seek drill-new | screen drill".to_string()),
        ("a drill", format!("type drill-name = {HOSTILE} | seek skill.own | type skill-name = {SCRIPT} | seek drill-keep | screen today | seek drill-change.14 | screen drill | value drill-name = {HOSTILE}")),
        ("library", "tap tab.today | screen today | seek library | screen library | there library.1".to_string()),
        ("what the coach has", "seek seek-more | seek pick.net.without | seek pick.serving".to_string()),
        ("nothing found", format!("scroll list.library | type search = {HOSTILE} | there nothing-clear")),
        ("a page", "seek nothing-clear | seek library.15 | screen library-drill | there start".to_string()),
        ("own drills", "tap back | screen library | seek list.mine | screen my-drills | fig found = 15 drills | seek put-away.0 | there bring-back.0".to_string()),
        ("brought back", "seek bring-back.0 | gone bring-back.0".to_string()),
        ("a duel's rule", "tap tab.today | screen today | seek drill-change.1 | screen drill".to_string()),
        ("a game's rule", "tap tab.today | screen today | seek drill-change.12 | screen drill | seek off-on | seek second-on".to_string()),
        ("a match's rule", "seek game.match | seek cap-on".to_string()),
        ("phone", format!("tap tab.share | screen share | seek phone | screen phone | scroll device-name-none | type device-name = {SCRIPT}").replace("scroll device-name-none", "scroll install")),
        ("kinds", format!("scroll kind-add | type kind = {HOSTILE} | seek kind-add | see {HOSTILE}")),
        ("erase asked", "seek erase | there erase-sure".to_string()),
        ("install", "reload | screen phone | tap tab.share | screen share | seek phone | screen phone | seek install | screen install".to_string()),
        ("today", "tap tab.today | screen today | seek presence | scroll presence.3 | tap presence.3".to_string()),
        ("no plan", "tap tab.today | screen today | seek plan | screen plan".to_string()),
        ("a plan", format!("tap plan-propose | there part.0 | seek part.0 | scroll part-title-none | type part-title = {HOSTILE} | seek part-close | see {HOSTILE}").replace("scroll part-title-none | ", "")),
        ("thrown away", "seek plan-throw | there plan-make | tap tab.today | screen today".to_string()),
        ("floor", "seek drill.0 | screen run | tap pass.0.3 | tap pass.1.0".to_string()),
        ("effort", format!("tap effort | see {HOSTILE} | seek effort-kind.4")),
        ("calm", "tap effort-close | later 6s | see Everyone".to_string()),
        ("covered", "later 46s | there uncover".to_string()),
        ("contacts", "hold uncover | gone uncover | let-go | tap contacts | screen contacts".to_string()),
        ("the sheet", "tap contact.0 | there fix-done".to_string()),
        ("report", "seek fix-done | gone fix-done | tap go-on | screen run | tap finish | screen run-report".to_string()),
        ("finished", "seek contacts | screen contacts | seek go-on | screen run | there report".to_string()),
        ("own board", "tap leave | screen today | seek drill.14 | screen run | tap good".to_string()),
        ("duel", "tap finish | screen run-report | tap tab.today | screen today | seek drill.1 | screen run | tap pass.0.3 x 4".to_string()),
        ("duel, challenge over", "tap pass.0.3 x 3".to_string()),
        ("told", "tap finish | screen run-report | tap tab.today | screen today | seek drill.5 | screen run | tap told.0.3".to_string()),
        ("six", "tap finish | screen run-report | tap tab.today | screen today | seek drill.4 | screen run | tap serve-in".to_string()),
        ("serve line", "tap finish | screen run-report | tap tab.today | screen today | seek drill.3 | screen run | tap serve-net".to_string()),
        ("group", "tap finish | screen run-report | tap tab.today | screen today | seek drill.7 | screen run | tap good".to_string()),
        ("winners stay", "tap finish | screen run-report | tap tab.today | screen today | seek drill.12 | screen run | tap side.top | tap second-serve".to_string()),
        ("two change places", "tap swap-two | there choice-close".to_string()),
        ("rallies", "tap choice-close | gone choice-close | tap contacts | screen contacts | there rally.0.near".to_string()),
        ("match", "tap go-on | screen run | tap finish | screen run-report | tap tab.today | screen today | seek drill.13 | screen run | tap side.bottom".to_string()),
        ("a practice on", "tap finish | screen run-report | tap tab.today | screen today".to_string()),
        ("practice", "seek practice-end | screen practice-report".to_string()),
        ("after", "tap tab.after | screen after".to_string()),
        ("share", "tap tab.share | screen share".to_string()),
        ("health", "seek phone | screen phone | seek health | screen health | seek check | see All is well".to_string()),
        ("tables", "tap tab.share | screen share | seek parts-out | seek table-contacts | see Given to the browser | there table-children".to_string()),
        ("copy", "reload | screen share | seek copy-download | see was given to the browser to save | scroll copy-there | there copy-there".to_string()),
        ("no such run", "open #/run/0000000000000001.00000000 | screen run".to_string()),
    ];
    let mut list = Vec::new();
    for (name, steps) in walk {
        stage.check(name, &steps).await?;
        if let Err(error) = stage.check(name, &both_schemes(TEXT)).await {
            list.push(format!("{name}: {error}"));
        }
    }
    assert!(list.is_empty(), "{}", list.join("\n"));
    let table = stage.phone.wait_download("a table", |name| name.ends_with(".csv")).await?;
    let text = std::fs::read_to_string(table).expect("a table");
    assert!(text.starts_with("\u{feff}id,corrected,stands,") && text.contains(HOSTILE), "{text}");
    // The same names within a file on another phone.
    let copy = stage.phone.wait_download("a copy", |name| name.ends_with(".json")).await?;
    let named = copy.with_file_name("<img src=x onerror=alert(1)>.json".replace('/', "-"));
    std::fs::copy(&copy, &named).expect("a copy with another name");
    let script = format!("open | screen today | tap tab.share | screen share | file file = {} | there parcel-accept | see </textarea><script>doc | {TEXT}
        tap parcel-accept | see Taken in. | {TEXT} | tap tab.squad | screen squad | see {HOSTILE} | see {SCRIPT} | {TEXT}
        tap tab.after | screen after | tap practice.0 | screen practice-report | {TEXT} | seek run.0 | screen run-report | see {HOSTILE} | {TEXT}", named.display());
    check("hostile file", &script).await
}

#[tokio::test]
async fn the_demo_leaves_no_trace() -> Result<()> {
    let mut stage = with_squad(Screen::SMALL).await?;
    let traces = "(async () => [(await indexedDB.databases()).map(d => d.name).sort(), Object.keys(localStorage).sort(), Object.entries(localStorage).sort().join()])()";
    stage.check("own", "seek drill.0 | screen run | tap pass.0.3 x 2 | fig saved = saved | tap finish | screen run-report | tap tab.share | seek phone | screen phone").await?;
    let before = stage.phone.eval(traces).await?;
    assert_eq!(before[0], json!(["peppertally"]));
    let band = "see Demo: an invented squad";
    stage
        .check(
            "entered",
            &format!("seek demo | screen today | {band} | fig here = All 12 are here | axe | fig saved = saved"),
        )
        .await?;
    let walk = [
        "seek drill.0 | screen run",
        "tap pass.0.3 x 3 | fig of = good of 3",
        "tap contacts | screen contacts",
        "tap contact.0 | there fix-done",
        "seek fix-done | gone fix-done | tap go-on | screen run | tap finish | screen run-report",
        "tap tab.squad | screen squad",
        "seek child.0 | screen child",
        "tap tab.squad | screen squad | seek roster | screen roster",
        "tap tab.after | screen after",
        "seek practice.3 | screen practice-report",
        "seek run.0 | screen run-report",
        "tap tab.today | screen today | seek drill-new | screen drill",
        "tap tab.share | screen share",
        "seek phone | screen phone",
        "seek install | screen install",
        "reload | screen install",
    ];
    let mut unmarked = Vec::new();
    for steps in walk {
        stage.check("demo", steps).await?;
        if stage.phone.eval("document.body.innerText.toLowerCase().includes('demo')").await? != json!(true) {
            unmarked.push(steps);
        }
    }
    assert_eq!(unmarked, Vec::<&str>::new(), "not marked as demo");
    stage.check("left", "tap tab.squad | screen squad | tap demo-out | screen today | unseen an invented squad | fig here = All 12 are here").await?;
    assert_eq!(stage.phone.eval(traces).await?, before);
    // As it was found: the own squad alone, and the demo new when it is entered again.
    stage.check("own again", "tap tab.after | screen after | count [data-key^=\"practice.\"] = 1").await?;
    Ok(())
}

/// Erased in every tab: every store is empty.
#[tokio::test]
async fn erased_is_empty() -> Result<()> {
    let mut stage = with_squad(Screen::SMALL).await?;
    stage.check("erased", "seek drill.0 | screen run | tap pass.0.3 x 2 | fig saved = saved | tap finish | screen run-report | tab 2 | open | screen today
        tab 1 | tap tab.share | seek phone | screen phone | seek erase | there erase-sure | seek erase-no | gone erase-sure | seek erase | seek erase-sure
        screen today | there roster | tab 2 | screen today | there roster").await?;
    let left = stage.phone.eval("new Promise(done => { const r = indexedDB.open('peppertally'); r.onsuccess = () => { const q = r.result.transaction('entries').objectStore('entries').count(); q.onsuccess = () => { r.result.close(); done([q.result, Object.keys(localStorage)]); }; }; })").await?;
    assert_eq!(left, json!([0, []]));
    stage.check("stays so", "kill | screen today | there roster").await
}
