//! Who is here in mid-run, by touch: a child goes, two balls are left, one tap refits the run; no key moves, no ball is lost. And the
//! boards beside it: roles that tell who comes on, a phone propped up, groups that are evened out by the ball.

use crate::{BOTH, DEALT, with_squad};
use browser_tests::{Result, Screen};
use serde_json::json;

/// Where the keys of the court and the foot are.
const PLACES: &str = "JSON.stringify([...document.querySelectorAll('.run-court [data-key], .run-foot [data-key]')].map(e => {
    const b = e.getBoundingClientRect(); return [e.dataset.key, b.x, b.y, b.width, b.height].map(v => typeof v === 'number' ? Math.round(v) : v); }))";

/// What of the strip or of the head is cut off.
const CUT: &str = "[...document.querySelectorAll('.strip-refit > *, .strip-head > *, .run-side > *, .run-roles > span, .group-key')]
    .filter(e => { const b = e.getBoundingClientRect(), h = (e.closest('.strip') ?? document.querySelector('.run-head')).getBoundingClientRect();
        return b.height > 0 && (b.bottom > h.bottom + 1 || b.right > innerWidth + 0.5 || e.scrollWidth > e.clientWidth + 1); })
    .map(e => e.dataset.key ?? e.dataset.fig ?? e.className)";

#[tokio::test]
async fn a_run_is_refitted_where_it_is() -> Result<()> {
    for screen in BOTH {
        let mut stage = with_squad(screen).await?;
        stage.check("groups at once", "seek drill.10 | screen run | fig here = 12 here | count .lane = 3").await?;
        let places = stage.phone.eval(PLACES).await?;
        stage.check("who is here", "tap here | see All 12 are here | axe | dark | axe | light | disabled refit | tap here.0 | fig here = 11 here
            see 11 of 12 are here | tap balls-less x 10 | fig balls = 2 balls | enabled refit | fig refitted = Two groups of 6, 5. | axe").await?;
        assert_eq!(stage.phone.eval(CUT).await?, json!([]), "at {} × {}", screen.width, screen.height);
        assert_eq!(stage.phone.eval(PLACES).await?, places, "no key moves");
        // One group fewer is another board of groups, until undo.
        stage.check("refitted", "tap refit | disabled refit | count .lane = 2 | tap choice-close | gone refit
            see who stands where | tap undo | count .lane = 3 | tap undo | fig here = 12 here | tap lane.0 | fig lane.0 = 1 | fig saved = saved").await?;
        stage
            .check(
                "the way to groups",
                "tap here | tap groups | screen groups | tap back | screen run | fig lane.0 = 1",
            )
            .await?;
    }
    Ok(())
}

/// Who comes on next, at a glance; told anew when somebody goes, and no key moves.
#[tokio::test]
async fn roles_tell_who_comes_on() -> Result<()> {
    for screen in BOTH {
        let mut stage = with_squad(screen).await?;
        stage.check("roles", "seek drill-change.0 | screen drill | seek feeders-more | seek target-on | seek getters-more | seek drill-keep | screen today
            seek drill.0 | screen run | fig next-on = Next on: Juno, Pepe, Runa, Élif, نور, Wren. | axe | dark | axe | light").await?;
        assert_eq!(stage.phone.eval(CUT).await?, json!([]), "at {} × {}", screen.width, screen.height);
        let places = stage.phone.eval(PLACES).await?;
        stage
            .check(
                "one goes",
                "tap here | seek here.11 | tap choice-close | fig next-on = Next on: Juno, Pepe, Runa, Élif, نور.",
            )
            .await?;
        stage.check("swapped", "tap swap | fig roles = Runa tosses, Élif catches, نور fetches | tap undo | fig roles = Bram tosses, Iva catches, Lasse fetches").await?;
        assert_eq!(stage.phone.eval(PLACES).await?, places, "no key moves");
    }
    Ok(())
}

/// Hit from a step away: each key a quarter of the view, and the next child told.
#[tokio::test]
async fn propped_up_keys_are_a_quarter() -> Result<()> {
    const SMALL: &str = "['good', 'not-good'].filter(k => document.querySelector(`[data-key=${k}]`).getBoundingClientRect().height < innerHeight / 4)";
    for screen in BOTH {
        let mut stage = with_squad(screen).await?;
        stage.check("propped", "seek drill.11 | screen run | see then Tove | tap good | fig current = Tove | see then Odile | tap no-chance | fig current = Tove").await?;
        assert_eq!(stage.phone.eval(SMALL).await?, json!([]), "at {} × {}", screen.width, screen.height);
    }
    Ok(())
}

/// A race between two groups on a line: one of them is fed an easier ball; a phone put forward by an hour ends no timed run.
#[tokio::test]
async fn groups_are_evened_out_by_the_ball() -> Result<()> {
    let mut stage = with_squad(Screen::SMALL).await?;
    stage.check("who is with whom", DEALT).await?;
    stage.check("a race", "seek drill-change.6 | screen drill | seek played.first | seek drill-keep | screen today | seek drill.6 | screen run
        fig group-ball.1 = ball | tap group-step.1 | see Group 2: which ball? | axe | tap step.255 | gone step.255 | fig group-ball.1 = ball | fig group-ball.0 = ball
        unseen one easier | see Group 2: another ball | tap good x 2 | axe | dark | axe | light").await?;
    assert_eq!(stage.phone.eval(CUT).await?, json!([]));
    stage.check("kept", "fig saved = saved | reload | screen run | tap group-step.1 | count [data-key=\"step.255\"][aria-pressed=\"true\"] = 1 | tap choice-close | gone step.255 | tap finish | screen run-report | tap tab.today | screen today").await?;
    stage.check("in time", "seek drill-change.11 | screen drill | seek played.time | seek whose.group | seek groups-more | seek drill-keep | screen today | seek drill.11 | screen run
        disabled good | tap group-step.0 | tap step.2 | fig group-ball.0 = served easy | tap clock | enabled good | clock 1h | tap good | fig group.0 = 1 | gone again").await
}

/// Names, and the small keys of groups and of a match, are as high as a thumb wants them; what lies over the head needs no scrolling.
#[tokio::test]
async fn small_keys_are_a_thumb_high() -> Result<()> {
    const LOW: &str = "[...document.querySelectorAll('.strip .run-chip, .group-key, .run-side.is-four .small-key, .has-balls .run-side .small-key')]
        .filter(e => e.checkVisibility() && e.getBoundingClientRect().height < 47.9).map(e => `${e.dataset.key}: ${e.getBoundingClientRect().height}`)";
    const SCROLLS: &str = "[...document.querySelectorAll('.strip')].filter(e => e.scrollHeight > e.clientHeight + 1).map(e => `${e.scrollHeight} of ${e.clientHeight}`)";
    let boards = [
        ("groups at once", "seek drill.10 | screen run"),
        ("passers", "seek drill.0 | screen run"),
        ("a line", "seek drill.2 | screen run"),
        ("serves", "seek drill.4 | screen run"),
        ("a duel", "seek drill.8 | screen run"),
        ("winners stay", "seek drill.12 | screen run"),
        (
            "a match",
            "seek drill-change.13 | screen drill | seek note-serves | seek note-passes | seek drill-keep | screen today | seek drill.13 | screen run",
        ),
        (
            "a race",
            "seek drill-change.6 | screen drill | seek played.first | seek drill-keep | screen today | seek drill.6 | screen run",
        ),
    ];
    for screen in BOTH {
        for (board, steps) in boards {
            let mut stage = with_squad(screen).await?;
            stage.check(board, steps).await?;
            for (state, steps) in [("keys", ""), ("here", "tap here | there choice-close")] {
                stage.check(state, steps).await?;
                let at = format!("{board}, {state} at {} × {}", screen.width, screen.height);
                assert_eq!(stage.phone.eval(LOW).await?, json!([]), "{at}");
                assert_eq!(stage.phone.eval(SCROLLS).await?, json!([]), "{at}");
                assert_eq!(stage.phone.eval(CUT).await?, json!([]), "{at}");
            }
        }
    }
    Ok(())
}

/// All have gone: it is said once, with the way to those who come, who are on again at once.
#[tokio::test]
async fn nobody_is_told_once() -> Result<()> {
    let mut stage = with_squad(Screen::TALL).await?;
    let all: Vec<String> = (0..12).map(|at| format!("seek here.{at}")).collect();
    let script = format!(
        "seek drill.2 | screen run | tap here | {} | fig here = 0 here | tap choice-close | fig call = Nobody stands here. Tap who is here, above.
         unseen nobody here | disabled pass-3 | axe | tap here | tap here.1 | tap choice-close | fig current = Tove | enabled pass-3",
        all.join(" | ")
    );
    stage.check("nobody", &script).await
}
