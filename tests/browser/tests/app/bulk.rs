//! The first screen stands before the bulk of the app is here; what is asked meanwhile is done when it comes, once, in order; where it
//! does not come, the screen says so.

use crate::{SQUAD, with_squad};
use browser_tests::{PhoneKind, Result, Screen, Site, Stage};

/// The bulk is on its way until `__arrive()`.
const HELD: &str = "{
    const real = globalThis.fetch;
    const go = new Promise(done => { globalThis.__arrive = done; });
    globalThis.fetch = (what, ...rest) => String(what.url ?? what).includes('split_bulk') ? go.then(() => real(what, ...rest)) : real(what, ...rest);
}";

/// A new phone on which the bulk is held.
async fn held(screen: Screen) -> Result<Stage> {
    let mut stage = Stage::of(Site::of_the_app()?, PhoneKind { screen, ..PhoneKind::default() }).await?;
    stage.phone.inject(HELD).await?;
    Ok(stage)
}

async fn arrive(stage: &Stage) -> Result<()> {
    stage.phone.eval("__arrive()").await.map(drop)
}

#[tokio::test]
async fn the_first_screen_waits_for_nothing() -> Result<()> {
    for screen in [Screen::TALL, Screen::SMALL] {
        let mut stage = held(screen).await?;
        stage.check("first", "open | screen today | see First, who plays? | there roster | there tab.squad | fig saved = saved | axe | shot first").await?;
        // A tap is answered at once by the ground of the screen that comes.
        stage.check("a tap", "tap roster | screen coming | see The rest of the app is on its way. | axe | shot coming | tap tab.today | screen today | tap roster | screen coming").await?;
        arrive(&stage).await?;
        stage
            .check(
                "it has come",
                &format!("screen roster | type roster = {SQUAD} | tap roster-take | screen today | fig here = All 12 are here | fig saved = saved"),
            )
            .await?;
        let address = stage.phone.eval("location.hash").await?;
        assert_eq!(address, "#today");
    }
    Ok(())
}

/// It is the same screen before and after: nothing moves where the bulk draws it.
#[tokio::test]
async fn the_first_screen_stays_as_it_is() -> Result<()> {
    let mut stage = held(Screen::SMALL).await?;
    stage.check("first", "open | screen today | there roster").await?;
    let laid_out =
        "JSON.stringify([...document.querySelectorAll('main *')].filter(e => e.getClientRects().length).map(e => {
        const r = e.getBoundingClientRect(); return [e.tagName, r.x, r.y, r.width, r.height].join(' ');
    }))";
    let before = stage.phone.eval(laid_out).await?;
    arrive(&stage).await?;
    stage
        .check("drawn by the bulk", "tap tab.squad | screen squad | tap tab.today | screen today | there roster")
        .await?;
    assert_eq!(stage.phone.eval(laid_out).await?, before);
    Ok(())
}

/// A phone that is in use: until the bulk is here it says that the storage is opened, and taps wait in their order.
#[tokio::test]
async fn what_is_stored_waits_for_the_bulk() -> Result<()> {
    let mut stage = with_squad(Screen::SMALL).await?;
    stage.check("a run", "seek drill.0 | screen run | tap pass.0.3 x 2 | fig saved = saved").await?;
    stage.phone.inject(HELD).await?;
    stage.check("in a run", "reload | screen coming | axe").await?;
    arrive(&stage).await?;
    stage
        .check("it goes on", "screen run | fig of = good of 2 | tap pass.0.3 | fig of = good of 3 | fig saved = saved")
        .await?;
    stage.check("elsewhere", "open #/squad | reload | screen opening | tap tab.after | tap tab.share").await?;
    arrive(&stage).await?;
    stage.check("in order", "screen share | tap tab.squad | screen squad | see Mira").await
}

/// How often the page asks for its bulk. (WebKit's list of resources has none that failed.)
const COUNTED: &str = r"globalThis.__asked = 0;
{
    const real = fetch;
    globalThis.fetch = (what, ...more) => {
        if (String(what.url ?? what).includes('split_bulk')) globalThis.__asked += 1;
        return real(what, ...more);
    };
}";

/// A new phone on which the bulk is not to be had, on the way to the list.
async fn without_bulk() -> Result<Stage> {
    let mut stage = Stage::of(Site::of_the_app()?, PhoneKind { screen: Screen::SMALL, ..PhoneKind::default() }).await?;
    stage.site.take_away(&stage.site.in_program("split_bulk.wasm")?);
    stage.phone.inject(COUNTED).await?;
    stage
        .check(
            "told",
            "errors-ok split_bulk | errors-ok 404 | open | screen today | tap roster | screen not-arrived
             see Nothing recorded on this phone is lost | axe | shot not-arrived",
        )
        .await?;
    Ok(stage)
}

#[tokio::test]
async fn a_bulk_that_does_not_come_is_told_and_fetched_again() -> Result<()> {
    let mut stage = without_bulk().await?;
    stage.site.change_back();
    stage.check("again", &format!("tap fetch-again | screen roster | type roster = {SQUAD} | tap roster-take | screen today | fig here = All 12 are here | fig saved = saved")).await?;
    // Once the whole app is kept, the bulk needs no signal.
    stage
        .check(
            "kept",
            "reload | screen today | count html[data-offline=\"ready\"] = 1 | stop-server | reload | screen today
             fig here = All 12 are here | seek drill.0 | screen run | tap pass.0.3 | fig of = good of 1",
        )
        .await
}

/// The host may have another version by now, in which this bulk is no more: the page begins anew.
#[tokio::test]
async fn a_bulk_that_fails_twice_begins_the_page_anew() -> Result<()> {
    let mut stage = without_bulk().await?;
    stage.check("once more", "tap fetch-again").await?;
    stage.phone.wait_until("the bulk to be asked for again", "globalThis.__asked === 2").await?;
    stage.check("in vain", "screen not-arrived").await?;
    stage.site.change_back();
    stage.check("anew", "tap fetch-again | screen today | tap roster | screen roster").await
}
