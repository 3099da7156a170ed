//! Groups at once, the clock, and the other rules by touch.

use crate::{DEALT, HOME, with_squad};
use browser_tests::{Result, Screen, needs};

/// Twelve children in three groups; two thumbs at once, an undo of each, the first who has it, and a kill in between.
#[tokio::test]
async fn three_groups_at_once() -> Result<()> {
    needs!(Fingers);
    let mut stage = with_squad(Screen::SMALL).await?;
    stage.check("who is with whom", DEALT).await?;
    stage.check("lanes", "seek drill.10 | screen run | fig call = Tap each good one | fig goal = first to 10").await?;
    for n in 1..=6 {
        let script = format!("both lane.0 lane.2 | fig lane.0 = {n} | fig lane.2 = {n} | fig good = {}", 2 * n);
        stage.check("two thumbs", &script).await?;
    }
    // One thumb rests on a group's key while the other goes on.
    stage.check("a resting thumb", "hold lane.1 | fig lane.1 = 1 | let-go | fig lane.1 = 1").await?;
    let own_undo =
        "tap lane.1 x 3 | fig lane.1 = 4 | tap lane-undo.0 | fig lane.0 = 5 | fig lane.1 = 4 | fig lane.2 = 6
        tap lane-undo.0 | fig lane.0 = 4 | tap undo | fig lane.1 = 3 | tap lane-undo.2 | fig lane.2 = 5";
    stage.check("an undo of its own", own_undo).await?;
    let step =
        "tap lane-step.1 | there step.255 | tap step.255 | gone step.255 | see Group 2: another ball | unseen one easier | tap undo | gone step.255
        tap lane-step.1 | tap step.1 | gone step.1 | fig saved = saved";
    stage.check("another ball for one group", step).await?;
    stage
        .check("killed", "kill | open | screen run | fig lane.0 = 4 | fig lane.1 = 3 | fig lane.2 = 5 | tap lane-step.1 | count [data-key=\"step.1\"][aria-pressed=\"true\"] = 1 | tap lane-step.1 | gone step.1")
        .await?;
    let over = "tap lane.2 x 4 | fig lane.2 = 9 | both lane.0 lane.2 | fig lane.2 = 10 | see Group 3 (Odile, Lasse, Runa, Wren) has it, with 10 good ones.
        there again | there play-on | light | axe | dark | axe | light | tap undo | gone again";
    stage.check("the first who has it", over).await?;
    let report = "tap lane.2 | see has it, with 10 good ones | there over-finish";
    stage.check("once more", report).await?;
    let rest = "tap over-finish | screen run-report | see has it, with 10 good ones. | see counts only, no rate | light | axe | dark | axe | light";
    stage.check("the report", rest).await
}

/// A clock of a minute on two boards: the keys rest until it goes; it stands in a pause, goes on after a reload, and ends the run.
#[tokio::test]
async fn the_clock() -> Result<()> {
    let mut stage = with_squad(Screen::SMALL).await?;
    let form = "seek drill-new | screen drill | seek skill.own | type skill-name = Setting | seek board.lanes | gone played.row | gone played.tens
        seek played.time | fig seconds = 2:00 | scroll seconds-less | tap seconds-less x 4 | fig seconds = 1:00 | seek groups-less | fig groups = 2
        light | axe | dark | axe | light | seek drill-keep | screen today | seek drill.14 | screen run";
    stage.check("its form", form).await?;
    let start = "fig call = Start the clock when they are ready. | fig clock = 1:00 | disabled lane.0 | tap clock | enabled lane.0
        tap lane.0 x 2 | tap lane.1 | fig lane.0 = 2 | fig good = 3 | light | axe | dark | axe | light";
    stage.check("it goes", start).await?;
    stage.phone.wait_until("the time to run", "document.querySelector('[data-fig=clock]').innerText < '0:59'").await?;
    stage.check("a pause", "tap clock | see Go on | fig saved = saved").await?;
    let stood = stage.phone.eval("document.querySelector('[data-fig=clock]').innerText").await?;
    let stood = stood.as_str().unwrap_or_default().to_owned();
    assert!(stood.starts_with("0:5"), "{stood}");
    let reload =
        format!("reload | screen run | fig clock = {stood} | fig lane.0 = 2 | see Go on | tap clock | see Pause");
    stage.check("a reload in the pause", &reload).await?;
    stage
        .check(
            "a reload while it goes",
            "fig saved = saved | reload | screen run | see Pause | tap lane.1 | fig lane.1 = 2",
        )
        .await?;
    // From its first ball on the new page goes by its own reading: a wall clock put forward ends nothing. A minute later the time is up.
    let over = "clock 1h | tap lane.0 | fig lane.0 = 3 | gone again | tap undo | fig lane.0 = 2
        later 70s | hold uncover | gone uncover | let-go | see Level, with 2 good ones each | disabled no-chance | there again | gone play-on | tap again
        screen run | fig lane.0 = 0 | fig clock = 1:00";
    stage.check("time", over).await
}

/// The other rules, each with its figures.
#[tokio::test]
async fn other_rules() -> Result<()> {
    let mut stage = with_squad(Screen::SMALL).await?;
    stage.check("who is with whom", DEALT).await?;
    let row = format!(
        "seek drill.8 | screen run | tap pass-3 x 7 | fig good = 7 | tap pass-0 | fig good = 5 | fig goal = best 7, goal 10
        fig undo = gone 0, just now | light | axe | dark | axe | light | tap undo | fig good = 7 | {HOME}"
    );
    stage.check("a row that falls to the last five", &row).await?;
    let tens = format!(
        "seek drill.9 | screen run | tap serve-in x 7 | tap serve-net x 3 | fig call = Mira: 7 of 10. Now Tove. | fig current = Tove | fig good = 0 | fig of = of 0, 10 to come
        tap name.0 | fig current = Mira | fig of = of 10, done | fig good = 7 | tap serve-in | fig good = 1 | fig of = of 1, 9 to come | fig goal = last ten 7, best 7 | light | axe | dark | axe | light | {HOME}"
    );
    stage.check("out of ten", &tens).await?;
    let propped = "seek drill.11 | screen run | fig current = Mira | tap good x 30 | tap not-good x 9 | fig good = 30
        light | axe | dark | axe | light | tap good | see All balls are played: 31 good together. It is your first of its kind.
        tap again | screen run | fig goal = your best is 31 | tap good | fig good = 1";
    stage.check("together, propped up", propped).await?;
    let own = format!(
        "{HOME} | seek drill-change.8 | screen drill | seek played.first | fig groups = 2 | seek groups-more | seek by-two
        light | axe | dark | axe | light | seek drill-keep | screen today | seek drill.8 | screen run | tap pass-3
        fig group.0 = 1 | fig group.1 = 0 | fig group.2 = 0 | fig current = Tove | light | axe | dark | axe | light"
    );
    stage.check("a race on a line", &own).await
}
