//! Children score themselves: they tap, tap twice, undo their own, try every way out; the coach's hold alone leads back.

use crate::{BOTH, with_squad};
use browser_tests::{Result, Screen};
use serde_json::json;

/// Two touches in one task, quicker than any script could be.
const TWICE: &str = r#"(key => { const e = document.querySelector(`[data-key="${key}"]`);
    for (let i = 0; i < 2; i += 1) e.dispatchEvent(new PointerEvent('pointerdown', { bubbles: true, button: 0, pointerType: 'touch' }));
    return 1; })('good')"#;

/// The drill without grades, handed to everyone.
const OPENED: &str = "seek drill.6 | screen run | tap good | fig of = good of 1 | tap children | there station.0
    see Hold the coach's key | tap station.0 | fig station = Your turn | fig turn = Tove | fig played = your first ball
    gone finish | gone contacts | gone tab.today | disabled undo";

#[tokio::test]
async fn children_score_themselves() -> Result<()> {
    let mut stage = with_squad(Screen::SMALL).await?;
    stage.check("opened", OPENED).await?;
    stage.check("a ball each", "tap good | fig turn = Odile | later 1s | tap not-good | fig turn = Bram").await?;
    // A double tap is one.
    stage.check("a while", "later 1s").await?;
    stage.phone.eval(TWICE).await?;
    stage.check("once", "fig turn = Iva | fig saved = saved | enabled undo").await?;
    // The last tap alone: Bram's ball, and no further.
    stage.check("undo", "tap undo | fig turn = Bram | disabled undo | tap name.0 | fig turn = Mira | fig played = 1 ball played | disabled undo").await?;
    stage.check("by name", "later 1s | tap good | tap name.0 | fig played = 2 balls played").await?;
    // No way out by address, by the browser's way back, by a tap on the coach's key.
    for way in ["location.hash = '#today'; 1", "location.hash = '#squad'; 1", "history.back(); 1"] {
        stage.phone.eval(way).await?;
        stage.phone.wait_until("the station's address", "location.hash.startsWith('#run/')").await?;
        stage.check(way, "screen run | fig turn = Mira").await?;
    }
    stage
        .check("a tap doesn't leave", "tap station-leave | later 1s | tap good | fig turn = Tove | there station-leave")
        .await?;
    // Killed and loaded again, it is the station again.
    stage.check("killed", "fig saved = saved | kill | screen run | fig turn = Tove | there station-leave").await?;
    stage.check("today", "open #/today | screen run | fig turn = Tove").await?;
    // The hold leads back, and the totals are the coach's to see: 1 + 2 before the double tap, 2 of Mira's after.
    stage.check("held", "hold station-leave | there finish | let-go | fig of = good of 5 | fig good = 4").await?;
    stage.check("told apart", "tap contacts | screen contacts | count .row-feed = 4 | see self-scored | tap go-on | screen run
        tap finish | screen run-report | fig self-scored = 4 of these balls were scored by the children themselves. | see 2 of 2 self-scored").await
}

/// The coach judges ten balls beside: the child's key first, then hers, the same keys in the same places; and a page says what came of it.
#[tokio::test]
async fn the_coach_checks_beside() -> Result<()> {
    for screen in BOTH {
        let mut stage = with_squad(screen).await?;
        stage
            .check(
                "opened",
                "seek drill.6 | screen run | tap children | there station-check | axe | tap station-check
            fig station = Your turn | fig played = your first ball; 0 of 10 checked | disabled not-seen | axe",
            )
            .await?;
        assert_eq!(stage.phone.eval(MEASURE).await?, json!([]), "the child's turn");
        let places = "JSON.stringify([...document.querySelectorAll('.station-keys [data-key], .station-foot [data-key]')].map(e => { const b = e.getBoundingClientRect(); return [e.dataset.key, b.x, b.y, b.width, b.height]; }))";
        let before = stage.phone.eval(places).await?;
        stage.check("the coach's turn", "tap good | fig station = Coach: what was it? | fig turn = Mira | fig played = 0 of 10 checked | enabled not-seen
            light | axe | shot check-light | dark | axe | shot check-dark | light").await?;
        assert_eq!(stage.phone.eval(places).await?, before, "no key has moved");
        stage.check("killed", "fig saved = saved | kill | screen run | fig station = Coach: what was it?").await?;
        stage.check("both", "tap not-good | fig turn = Tove | fig played = your first ball; 1 of 10 checked | later 1s | tap good | later 1s | tap not-seen
            fig played = your first ball; 1 of 10 checked").await?;
        stage.check("told", "hold station-leave | there finish | let-go | fig of = good of 2 | see your look at a ball | tap finish | screen run-report
            seek tab.after | screen after | seek trust | screen trust | see You checked 1 of their balls | light | axe | dark | axe | shot trust-dark | light | shot trust-light
            seek how | see Twenty balls worth a half | seek back | screen after | seek weeks | screen weeks | seek trust | screen trust").await?;
    }
    Ok(())
}

/// Anyone uncovers it, and it lets nothing be read into it that a child couldn't.
#[tokio::test]
async fn covered_and_without_barriers() -> Result<()> {
    let mut stage = with_squad(Screen::SMALL).await?;
    stage.check("opened", OPENED).await?;
    stage.check("looks", "light | axe | shot station-light | dark | axe | shot station-dark | light").await?;
    stage
        .check(
            "covered",
            "later 46s | there uncover | axe | hold uncover | gone uncover | let-go | tap good | fig turn = Odile",
        )
        .await?;
    stage
        .check(
            "the choice",
            "hold station-leave | there finish | let-go | tap children | there station.0 | axe | tap choice-close",
        )
        .await
}

/// Every key large, apart, and in view, on each board that children can score on.
#[tokio::test]
async fn keys_are_large_at_both_sizes() -> Result<()> {
    let boards = [(2, "pass-3"), (3, "serve-in"), (4, "serve-in"), (6, "good"), (7, "good")];
    for screen in BOTH {
        let mut stage = with_squad(screen).await?;
        for (drill, key) in boards {
            stage
                .check(
                    "board",
                    &format!(
                        "seek drill.{drill} | screen run | tap children | tap station.0 | tap {key} | enabled undo"
                    ),
                )
                .await?;
            let wrong = stage.phone.eval(MEASURE).await?;
            assert_eq!(wrong, json!([]), "board {drill} at {} × {}", screen.width, screen.height);
            stage.check("back", "hold station-leave | there finish | let-go | tap finish | screen run-report | tap tab.today | screen today").await?;
        }
    }
    Ok(())
}

/// Keys that are too small, too near each other or out of view.
const MEASURE: &str = r#"(() => {
    const wrong = [];
    const frame = document.querySelector('.station-names')?.getBoundingClientRect();
    const boxes = [...document.querySelectorAll('.station [data-key]')].filter(e => e.dataset.key !== 'saved')
        .map(e => [e, e.getBoundingClientRect()])
        .filter(([e, b]) => !e.matches('.name-key') || (b.top >= frame.top - 0.1 && b.bottom <= frame.bottom + 0.1));
    for (const [e, b] of boxes) {
        const least = e.matches('.name-key') ? 48 : e.matches('.grade') ? 72 : 64;
        if (b.height < least - 0.1) wrong.push(`${e.dataset.key} is only ${b.height} high`);
        if (b.bottom > innerHeight + 0.1 || b.left < 0 || b.right > innerWidth + 0.1) wrong.push(`${e.dataset.key} is out of view`);
        for (const [f, c] of boxes) {
            if (e.dataset.key >= f.dataset.key) continue;
            const apart = Math.max(c.left - b.right, b.left - c.right, c.top - b.bottom, b.top - c.bottom);
            if (apart < 7.9) wrong.push(`${e.dataset.key} and ${f.dataset.key} are ${apart} apart`);
        }
    }
    const page = document.scrollingElement;
    if (page.scrollHeight > innerHeight || page.scrollWidth > innerWidth) wrong.push('the page scrolls');
    return wrong;
})()"#;

/// The mark, the ladder, the ten: each in one or two taps, kept over a reload.
#[tokio::test]
async fn marks_steps_and_tens() -> Result<()> {
    for screen in BOTH {
        let mut stage = with_squad(screen).await?;
        stage.check("challenge", "seek drill.2 | screen run | tap challenge | count .run.is-challenge = 1 | fig call = Challenge: the ball comes harder
            fig undo = challenge on, just now | tap pass-0 | reload | screen run | count [data-key=challenge][aria-pressed=true] = 1
            tap challenge | count .run.is-challenge = 0 | tap pass-3 | axe | dark | axe | light").await?;
        stage.check("step", "fig current = Odile | tap step | see Odile: which ball? | axe | tap step.2 | gone step.2 | fig step = served easy
            tap pass-3 | tap name.2 | fig step = served easy | tap finish | screen run-report | see Passing, challenge balls | see Passing, easy balls
            tap tab.today | screen today").await?;
        stage.check("floor", "seek drill.0 | screen run | tap challenge | count .run.is-challenge = 1 | tap challenge | tap stand.1 | tap step.1
            see thrown | tap pass.1.3 | tap finish | screen run-report | tap tab.today | screen today").await?;
        stage.check("ten", "seek drill-change.6 | screen drill | seek order.ten | seek drill-keep | screen today | seek drill.6 | screen run
            fig call = Watch Mira: 0 of 10 | tap good x 9 | fig call = Watch Mira: 9 of 10 | tap good | fig call = Watch Tove: 0 of 10
            tap name.4 | fig call = Watch Iva: 0 of 10 | reload | screen run | fig call = Watch Iva: 0 of 10
            tap finish | screen run-report | see 10 of 10 while watched").await?;
    }
    Ok(())
}

/// Each call is a switch, kept over a reload.
#[tokio::test]
async fn calls_are_switches() -> Result<()> {
    let mut stage = with_squad(Screen::SMALL).await?;
    let off = |key: &str, n: usize| format!("count [data-key={key}][aria-checked=false] = {n}");
    // Nobody would hear it: it is shown off, and rests.
    let (silent, heard) = (off("call-name", 1), off("call-name", 0));
    let script = format!(
        "tap tab.share | screen share | seek phone | screen phone | see The phone calls | see Voice and sound are off
         {silent} | count [data-key=call-name][disabled] = 1 | axe
         seek set-sound | unseen Voice and sound are off | {heard} | seek call-swap | {swap} | reload | screen phone | {swap} | {heard}
         axe | dark | axe | seek set-sound | see Voice and sound are off | {silent} | seek set-sound | {heard} | {swap}",
        swap = off("call-swap", 1),
    );
    stage.check("calls", &script).await
}

/// Held sideways, or on the narrowest of phones: nothing is cut off, undo is within reach, and the coach's hold leads back.
#[tokio::test]
async fn a_station_fits_sideways_and_narrow() -> Result<()> {
    const CUT: &str = "[...document.querySelectorAll('.station-head > *, .station-bar > h1, .station [data-key]')]
        .filter(e => { const b = e.getBoundingClientRect();
            return b.top < -0.1 || b.bottom > innerHeight + 0.1 || b.left < -0.1 || b.right > innerWidth + 0.1 || e.scrollWidth > e.clientWidth + 1; })
        .map(e => e.dataset.key ?? e.className)";
    for (width, height) in [(844, 390), (667, 375), (320, 568)] {
        let mut stage = with_squad(Screen::SMALL).await?;
        stage.check("held otherwise", &format!("size {width} {height} | open | screen today")).await?;
        for (drill, key) in [(2, "pass-3"), (3, "serve-in"), (6, "good"), (10, "lane.own")] {
            let opened = format!(
                "seek drill.{drill} | screen run | seek children | seek station.0 | there station-leave | later 1s | tap {key} | enabled undo"
            );
            stage.check("opened", &opened).await?;
            let cut = stage.phone.eval(CUT).await?;
            assert_eq!(cut, json!([]), "drill {drill} at {width} × {height}");
            let back = "tap undo | disabled undo | hold station-leave | there finish | let-go
                seek finish | screen run-report | seek tab.today | screen today";
            stage.check("and back", back).await?;
        }
    }
    Ok(())
}
