//! The app itself is kept: without a server, over restarts; a new build waits for consent and never comes in a run.

use crate::{HOME, squad, with_squad};
use browser_tests::{PhoneKind, Result, Screen, Site, Stage, needs};

const READY: &str = "count html[data-offline=\"ready\"] = 1";

#[tokio::test]
async fn the_app_opens_without_a_server() -> Result<()> {
    let mut stage = with_squad(Screen::SMALL).await?;
    stage.check("kept", &format!("{READY} | seek drill.0 | screen run | tap pass.0.3 x 2 | fig saved = saved | stop-server | reload | screen run | fig of = good of 2
        tap pass.1.3 | fig of = good of 3 | fig saved = saved | kill | screen run | fig of = good of 3 | {READY}
        tab 2 | open | screen run | there take-over | tab 1 | {HOME}")).await?;
    for place in [
        "#/squad",
        "#/after",
        "#/share",
        "#/phone",
        "#/install",
        "#/drill/new",
        "#/library",
        "#/library/7",
        "#/drills",
        "#/nowhere",
    ] {
        stage.check(place, &format!("open {place} | reload | there tab.today")).await?;
    }
    // An orderly end, and the phone is off for the night.
    needs!(Restart);
    stage.phone.close().await?;
    stage.phone.reopen().await?;
    stage.check("the next day", "open | screen today | seek run.0 | screen run-report | fig everyone = 3 good of 3, too few balls to say more").await?;
    // What a worker does it does without a server too: the practice is packed, a copy is written.
    stage
        .check(
            "a copy",
            "tap tab.after | screen after | tap practice.0 | screen practice-report | seek practice-end | there practice-reopen
             tap tab.share | screen share | seek copy-download | see The copy was given to the browser to save | kill | screen share
             tap tab.after | screen after | see 1 drill, 3 contacts",
        )
        .await
}

/// As a project's page on a static host: nothing of the app, its worker or what is kept for offline may ask above its path.
#[tokio::test]
async fn the_app_works_under_a_path() -> Result<()> {
    let mut stage = Stage::of(Site::of_the_app_under("club/tally")?, PhoneKind::default()).await?;
    stage.check("a squad", &squad()).await?;
    stage
        .check(
            "kept",
            &format!(
                "{READY} | seek drill.0 | screen run | tap pass.0.3 x 2 | fig saved = saved | stop-server | reload | screen run
                 fig of = good of 2 | tap finish | screen run-report | tap tab.share | screen share | seek copy-download
                 see The copy was given to the browser to save | open #/today | reload | screen today"
            ),
        )
        .await?;
    let scope = "navigator.serviceWorker.getRegistration().then(r => new URL(r.scope).pathname)";
    assert_eq!(stage.phone.eval(scope).await?, "/club/tally/");
    Ok(())
}

#[tokio::test]
async fn a_new_build_waits_for_consent() -> Result<()> {
    let mut stage = with_squad(Screen::SMALL).await?;
    stage.check("kept", READY).await?;
    let worker = stage.phone.eval("fetch('sw.js', { cache: 'no-store' }).then(r => r.text())").await?;
    let worker = worker.as_str().unwrap_or_default();
    let build =
        worker.split("const BUILD = \"").nth(1).and_then(|rest| rest.split('"').next()).unwrap_or_default().to_string();
    assert!(build.len() > 3, "no build in {worker}");
    stage.site.change("sw.js", worker.replace(&build, "0123456789abcdef"));
    stage.phone.eval("navigator.serviceWorker.getRegistration().then(r => r.update()).then(() => 0)").await?;
    let kept = "caches.keys().then(all => all.filter(name => name.startsWith('peppertally-')).map(name => name.split('/')[0]).sort().join())";
    // It waits, also over a reload, and says so in words.
    stage.check("it waits", "see A newer version of the app is ready. | reload | screen today | see A newer version of the app is ready.").await?;
    assert!(stage.phone.eval("navigator.serviceWorker.getRegistration().then(r => !!r.waiting)").await? == true);
    // A run is on in another tab: consent here is not enough.
    stage.check("a run elsewhere", "tab 2 | open | screen today | seek drill.0 | screen run | tap pass.0.3 | fig saved = saved | unseen A newer version
        tab 1 | see is open in another window | see A newer version of the app is ready. | unseen a run is on in another window of the app
        tap notice.1 | see a run is on in another window of the app").await?;
    assert!(
        stage.phone.eval("navigator.serviceWorker.getRegistration().then(r => !!r.waiting)").await? == true,
        "it came in a run"
    );
    stage
        .check(
            "the run goes on",
            "tab 2 | screen run | fig of = good of 1 | tap pass.0.3 | fig of = good of 2 | fig saved = saved",
        )
        .await?;
    stage.check("after the run", &format!("{HOME} | tab 1 | tap notice.0")).await?;
    stage
        .phone
        .wait_until(
            "the new build to be on",
            "navigator.serviceWorker.getRegistration().then(r => !r.waiting && !r.installing)",
        )
        .await?;
    stage
        .check("on", "screen today | unseen A newer version of the app is ready. | fig here = All 12 are here")
        .await?;
    // The other tab only has to begin again, and is told so.
    stage
        .check(
            "in the other tab",
            "tab 2 | screen today | see A newer version of the app is ready. | tap notice.0
            unseen A newer version of the app is ready. | fig here = All 12 are here | tab 1",
        )
        .await?;
    let names = stage.phone.eval(kept).await?;
    assert!(names.as_str().is_some_and(|names| names.contains("peppertally-0123456789abcdef")), "{names}");
    stage.check("without a server", "stop-server | reload | screen today | fig here = All 12 are here").await
}
