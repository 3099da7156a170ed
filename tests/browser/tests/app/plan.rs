//! The plan by touch: ninety minutes with twelve children on a clock that is put forward, a latecomer, an overrun, a kill; planned against
//! done afterwards. No barrier in either scheme.

use crate::with_squad;
use browser_tests::{Result, Screen, Stage};

const BOTH_SCHEMES: &str = "axe | dark | axe | light";

/// Puts the wall clock so many minutes after ten in the morning: no test runs over midnight.
async fn at(stage: &mut Stage, ten_ms: i64, min: i64) -> Result<()> {
    stage.check("the clock", &format!("clock {}ms", ten_ms + min * 60_000)).await
}

/// The same on a new page, which has the wall clock alone: one that goes by its own reading isn't moved by it. With a run on it opens there.
async fn killed_at(stage: &mut Stage, ten_ms: i64, min: i64, run_on: bool) -> Result<()> {
    at(stage, ten_ms, min).await?;
    let back = if run_on { "kill | screen run | tap contacts | screen contacts | tap tab.today" } else { "kill" };
    stage.check("another page", &format!("{back} | screen today | there strip-balls-more")).await
}

/// The figure, once it begins so: seconds go on while the test looks.
async fn begins(stage: &Stage, fig: &str, with: &str) -> Result<()> {
    stage.phone.wait_text(&format!("[data-fig={fig}]"), with, |text| text.starts_with(with)).await.map(drop)
}

#[tokio::test]
async fn ninety_minutes() -> Result<()> {
    let mut stage = with_squad(Screen::SMALL).await?;
    let ten = stage.phone.eval("new Date().setHours(10, 0, 0, 0) - Date.now()").await?;
    let ten = ten.as_f64().map_or(0, |ms| ms as i64);
    at(&mut stage, ten, 0).await?;
    let evening = [
        ("no plan", format!("fig plan = none yet | seek plan | screen plan | see No plan yet | {BOTH_SCHEMES} | shot plan-empty")),
        ("a proposal", "tap plan-propose | there part.0 | see Whoever is here plays | seek plan-throw | there plan-propose | tap plan-make | fig plan-total = 0 of 90 min".to_owned()),
        ("arrival", "tap plan-add | there add.arrival | axe | seek add.arrival | fig part.0 = Arrival game | tap part-close | gone part-close".to_owned()),
        ("passing", "tap plan-add | seek add.0 | fig part.1 = Three passers | seek minutes-more | fig minutes = 20 | see at a common pace | tap part-close".to_owned()),
        ("water", "tap plan-add | seek add.break | fig part.2 = Break | tap part-close".to_owned()),
        ("serving", "tap plan-add | seek add.4 | fig part.3 = Six servers | tap part-close".to_owned()),
        ("games", format!("tap plan-add | seek add.12 | fig part.4 = Winners stay | scroll minutes-more | tap minutes-more x 6 | fig minutes = 45 | {BOTH_SCHEMES} | shot plan-part | tap part-close")),
        ("over the gym's time", "fig plan-total = 91 of 90 min | fig trouble.0 = 1 minute more than the gym is yours. | seek plan-way.0 | fig plan-total = 90 of 90 min | gone plan-way.0".to_owned()),
    ];
    for (name, steps) in evening {
        stage.check(name, &steps).await?;
    }
    // By a thumb to the top, by keys back again.
    stage.check("to be dragged", "scroll part-move.4").await?;
    stage.phone.drag("[data-key=\"part-move.4\"]", "[data-key=\"part.2\"]").await?;
    stage.check("dragged", "fig part.2 = Winners stay | seek part.2 | scroll part-down | tap part-down x 2 | fig part.4 = Winners stay | tap part-close").await?;
    stage.check("kept", &format!("fig part.3 = Six servers | reload | screen plan | kill | screen plan | fig part.4 = Winners stay | {BOTH_SCHEMES} | shot plan | dark | shot plan-dark | light")).await?;

    stage.check("one is away", "tap tab.today | screen today | fig plan = 5 parts, 90 of 90 min | seek presence | seek presence.11 | fig here = 11 of 12 are here").await?;
    stage.check("begun", "tap next-part | fig part-on = Arrival game | fig late = on time").await?;
    killed_at(&mut stage, ten, 5, false).await?;
    begins(&stage, "part-left", "2:5").await?;
    stage
        .check(
            "a latecomer",
            &format!("seek presence | seek presence.11 | fig here = All 12 are here | {BOTH_SCHEMES} | shot plan-on"),
        )
        .await?;
    killed_at(&mut stage, ten, 8, false).await?;
    stage.check("the next", "tap next-part | fig part-on = Three passers | seek part-board | screen run | fig part-left = 20 min | tap pass.0.3 x 6 | fig saved = saved | tap contacts | screen contacts | tap tab.today | screen today | there go-on").await?;
    // Twenty are planned, it takes 28; 62 - 8 are left for 3 + 15 + 44.
    killed_at(&mut stage, ten, 36, true).await?;
    begins(&stage, "part-left", "+8:0").await?;
    stage
        .check("late", &format!("fig late = 8 min late | see What is left needs | {BOTH_SCHEMES} | shot plan-asked"))
        .await?;
    stage.check("killed", "kill | screen run | tap contacts | screen contacts | tap tab.today | screen today | fig part-on = Three passers | fig late = 8 min late | seek refit-shorten | gone refit-shorten").await?;
    let fitted = "seek plan | screen plan | fig plan-total = 81 of 90 min";
    stage.check("fitted", &format!("{fitted} | axe | shot plan-fitted | tap tab.today | screen today")).await?;
    stage.check("taken back", "tap next-part | fig part-on = Break | seek not-begun | fig part-on = Three passers | tap next-part | fig part-on = Break").await?;
    killed_at(&mut stage, ten, 39, true).await?;
    stage.check("serving", "tap next-part | fig part-on = Six servers").await?;
    killed_at(&mut stage, ten, 52, true).await?;
    stage.check("games", "tap next-part | fig part-on = Winners stay | gone next-part").await?;
    killed_at(&mut stage, ten, 90, true).await?;
    stage.check("over", "seek practice-end | screen practice-report").await?;
    let after = "fig done.0 = 8 min planned, 8 min done | fig done.1 = 20 min planned, 28 min done | fig done.2 = 3 min planned, 3 min done
        fig done.3 = 15 min planned, 13 min done | see 6 contacts";
    stage.check("afterwards", &format!("{after} | {BOTH_SCHEMES} | shot plan-after")).await?;
    stage.check("for next time", "tap tab.today | screen today | fig plan = none yet | seek plan | there plan-copy.0 | seek plan-copy.0 | fig part.4 = Winners stay | fig plan-total = 90 of 90 min").await
}

/// Without a plan: it grows as drills are started.
#[tokio::test]
async fn as_it_goes() -> Result<()> {
    let mut stage = with_squad(Screen::TALL).await?;
    let steps = "seek plan | screen plan | tap plan-as-it-goes | screen today | fig part-on = Arrival game | seek drill.0 | screen run | tap pass.0.3 | tap contacts | screen contacts | tap tab.today | screen today
        fig part-on = Three passers | there go-on | shot plan-grows | seek plan | screen plan | fig part.1 = Three passers";
    stage.check("grows", steps).await
}
