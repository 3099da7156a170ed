//! The library of drills in a gym without a signal: found, read, taken, started and tallied; and what is said where it can't be had.

use crate::{BOTH, with_squad};
use browser_tests::{Error, Result, Screen, Stage};
use serde_json::json;

const KEPT: &str = "count html[data-offline=\"ready\"] = 1";

#[tokio::test]
async fn a_drill_is_taken_and_tallied_without_a_signal() -> Result<()> {
    let mut stage = with_squad(Screen::SMALL).await?;
    stage
        .check(
            "found",
            &format!(
                "{KEPT} | stop-server | reload | screen today | seek library | screen library | fig found = 30 drills
                 type search = toss | fig found = 2 of 30 drills | type search =  | fig found = 30 drills
                 seek pick.serving | fig found = 11 of 30 drills | seek seek-more | seek pick.net.without | seek pick.children.12
                 fig have = 12 children, no net | seek pick.balls.2 | fig found = 0 of 30 drills | see Nothing fits all of that
                 seek nothing-clear | fig found = 30 drills | seek pick.serving | seek library.6 | screen library-drill | see Six servers as they stand"
            ),
        )
        .await?;
    stage
        .check(
            "taken and tallied",
            "seek take | see In your drills | gone take | there change-mine | seek start | screen run
             tap serve-in | tap serve-in | fig of = good of 2 | fig saved = saved
             kill | screen run | fig of = good of 2 | tap finish | screen run-report | tap tab.today | screen today
             seek drill-change.14 | screen drill | value drill-name = Down the row | seek page | screen library-drill
             tap back | screen library",
        )
        .await?;
    // In a practice that is on, one tap on a page is the board of its drill.
    stage
        .check(
            "at once",
            "open #/library/26 | screen library-drill | seek start | screen run | tap good | fig of = good of 1",
        )
        .await
}

/// Copied, put away, brought back; changed by the form that was there before.
#[tokio::test]
async fn own_drills_are_kept_in_order() -> Result<()> {
    let mut stage = with_squad(Screen::SMALL).await?;
    stage
        .check(
            "in order",
            "seek library | screen library | tap list.mine | screen my-drills | fig found = 14 drills
             seek copy.0 | screen drill | value drill-name = Three passers, another | seek drill-keep | screen today | there drill.14
             open #/drills | screen my-drills | fig found = 15 drills | seek put-away.1 | fig found = 14 drills | there bring-back.0
             seek bring-back.0 | gone bring-back.0 | fig found = 15 drills
             scroll list.mine | type search = passers | fig found = 2 of 15 drills | seek change.1 | screen drill | value drill-name = Three passers, another
             seek drill-archive | screen today | gone drill.14 | open #/drills | screen my-drills | there bring-back.0",
        )
        .await
}

/// The file can't be had, and is another time; own drills are there all the same.
#[tokio::test]
async fn a_library_that_cant_be_had_says_so() -> Result<()> {
    let mut stage = with_squad(Screen::SMALL).await?;
    stage
        .phone
        .inject(
            "{ const real = fetch; globalThis.fetch = (what, how) =>
                String(what).endsWith('library.json') && !sessionStorage.getItem('well') ? Promise.reject(new TypeError('no signal')) : real(what, how); }",
        )
        .await?;
    for place in ["#/library", "#/library/4"] {
        stage.check("none", &format!("open {place} | reload | see there is no signal to fetch it | there read-again | light | axe | dark | axe | light")).await?;
    }
    stage.check("own ones", "open #/drills | screen my-drills | fig found = 14 drills | open #/library/4").await?;
    stage.phone.eval("sessionStorage.setItem('well', 1); 0").await?;
    stage.check("again", "seek read-again | screen library-drill | see Three lines race | open #/library/999 | see There is no such drill").await
}

/// What is wider than the view, cut off, or too small to tap.
const FITS: &str = r"(() => {
    const wrong = [];
    const page = document.scrollingElement;
    if (page.scrollWidth > innerWidth) wrong.push(`the page is ${page.scrollWidth} wide`);
    for (const e of document.querySelectorAll('main button, main input')) {
        const b = e.getBoundingClientRect();
        if (b.height < 47.9 || b.width < 47.9) wrong.push(`${e.dataset.key ?? e.dataset.field} is ${b.width} by ${b.height}`);
    }
    for (const e of document.querySelectorAll('main p, main li, main span, main h1, main h2, main dd')) {
        if (!e.closest('.visually-hidden') && e.scrollWidth > e.clientWidth + 1 && getComputedStyle(e).display !== 'inline') wrong.push(`cut off: ${e.textContent.slice(0, 40)}`);
    }
    for (const e of document.querySelectorAll('svg.drawn-floor text')) {
        const box = e.getBBox();
        if (box.x < 0 || box.y < 0 || box.x + box.width > 2400 || box.y + box.height > 1300) wrong.push(`outside the drawing: ${e.textContent}`);
    }
    return wrong;
})()";

async fn fits(stage: &Stage, what: String) -> Result<()> {
    let found = stage.phone.eval(FITS).await?;
    if found == json!([]) { Ok(()) } else { Err(Error::Found { what, list: vec![found.to_string()] }) }
}

/// Every page of it on both screens: nothing is cut off and every key can be tapped.
#[tokio::test]
async fn every_page_fits() -> Result<()> {
    for screen in BOTH {
        let mut stage = with_squad(screen).await?;
        let at = format!("{} × {}", screen.width, screen.height);
        stage.check("list", "open #/library | screen library | seek seek-more | there pick.net.with").await?;
        fits(&stage, format!("the list at {at}")).await?;
        for no in 1..=30 {
            stage.check("page", &format!("open #/library/{no} | screen library-drill | there start")).await?;
            fits(&stage, format!("page {no} at {at}")).await?;
        }
        stage.check("own", "open #/drills | screen my-drills | there copy.13").await?;
        fits(&stage, format!("own drills at {at}")).await?;
    }
    Ok(())
}
