//! Transition scoring by touch: the phase can't be missed, the keys stay where they are, undo goes back across it.

use crate::{BOTH, with_squad};
use browser_tests::{Error, Phone, Result, Stage};
use serde_json::Value;

/// Where every key stands that a board always has.
pub async fn places(phone: &Phone) -> Result<Value> {
    phone.wait_until("the board to be still", "document.getAnimations().every(a => a.playState !== 'running')").await?;
    let script = "JSON.stringify([...document.querySelectorAll('.run-court [data-key], .run-foot [data-key], .run-side [data-key], .run-bar [data-key]')]
        .map(e => { const b = e.getBoundingClientRect(); return [e.dataset.key, b.x, b.y, b.width, b.height]; }))";
    let text = phone.eval(script).await?;
    Ok(serde_json::from_str(text.as_str().unwrap_or_default()).unwrap_or_default())
}

/// Runs the steps and wants every key where it was.
pub async fn unmoved(stage: &mut Stage, before: &Value, name: &str, steps: &str) -> Result<()> {
    stage.check(name, steps).await?;
    let after = places(&stage.phone).await?;
    if *before == after && before.as_array().is_some_and(|keys| keys.len() > 5) {
        return Ok(());
    }
    let moved = before.as_array().into_iter().flatten().zip(after.as_array().into_iter().flatten());
    let list = moved.filter(|(a, b)| a != b).map(|(a, b)| format!("{a} → {b}")).collect();
    Err(Error::Found { what: format!("Keys moved at \"{name}\""), list })
}

const GROUND: &str = "count .run.is-easy = 1 | count .run.is-challenge = 0";
const CHALLENGE: &str =
    "count .run.is-easy = 0 | count .run.is-challenge = 1 | fig call = Challenge 1 of 3 | see Bram serves";

#[tokio::test]
async fn a_duel_by_touch() -> Result<()> {
    for screen in BOTH {
        let mut stage = with_squad(screen).await?;
        stage
            .check("to the duel", &format!("seek drill.1 | screen run | fig call = Easy ball 1 of 4 | {GROUND}"))
            .await?;
        let before = places(&stage.phone).await?;
        let steps = [
            ("an easy round", format!("tap pass.0.3 | fig call = Easy ball 2 of 4 | tap no-chance | fig call = Easy ball 3 of 4 | tap pass.1.0
                disabled serve-missed | fig call = Easy ball 4 of 4 | fig joint = 1 | {GROUND} | fig passers = 0 | fig servers = 0")),
            ("the phase changes", format!("tap pass.2.2 | {CHALLENGE} | fig joint = 2 | count .pips-easy .pip = 4 | count .pips-easy .is-good = 2")),
            ("undo across it", format!("tap undo | fig call = Easy ball 4 of 4 | {GROUND} | tap pass.2.2 | {CHALLENGE}")),
            ("another serves", "tap server | see Who serves? | tap name.1 | see Iva serves | tap undo | see Bram serves".to_string()),
            ("effort", "tap effort | see Effort noticed: Odile | tap effort-kind.2 | tap effort-close".to_string()),
            ("the duel", "tap pass.0.3 | fig passers = 1 | tap pass.1.0 | fig servers = 1 | fig call = Challenge 3 of 3".to_string()),
            ("a missed serve, and the swap", format!("tap serve-missed | fig passers = 2 | fig call = Easy ball 1 of 4 | see Round 2 | {GROUND}
                count [data-key=\"pass.0.3\"][aria-label^=\"Bram\"] = 1")),
            ("undo across the round", "tap undo | fig passers = 1 | fig call = Challenge 3 of 3 | see Round 1
                count [data-key=\"pass.0.3\"][aria-label^=\"Mira\"] = 1 | tap serve-missed | see Round 2
                count [data-key=\"pass.0.3\"][aria-label^=\"Bram\"] = 1".to_string()),
            ("calm", "later 6s | see Everyone".to_string()),
            ("taps again", "tap pass.0.3 | unseen Everyone | fig call = Easy ball 2 of 4".to_string()),
            ("covered", "later 46s | there uncover | fig call = Easy ball 2 of 4".to_string()),
            ("uncovered", "hold uncover | gone uncover | let-go | fig saved = saved".to_string()),
            ("reload", "reload | screen run | fig passers = 2 | fig servers = 1 | fig call = Easy ball 2 of 4 | see Round 2".to_string()),
        ];
        for (name, steps) in steps {
            unmoved(&mut stage, &before, name, &steps).await?;
        }
        // To eight points: 2 + 3 + 3.
        let round = |n: u32| format!("tap pass.0.3 x {n} | tap pass.1.3 x 3");
        let over = format!("{} | see Round 3 | {} | see The passers have it, 8 to 1", round(3), round(4));
        unmoved(&mut stage, &before, "over", &over).await?;
        let rest = "there over-finish | there play-on | tap undo | gone over-finish | fig passers = 7 | tap pass.1.0 | fig servers = 2
            screen run | tap finish | screen run-report | fig duel = Passers 7 to servers 2; 10 easy balls good together.
            see Passing, easy balls | see Passing, challenge balls";
        stage.check("the report", rest).await?;
    }
    Ok(())
}

/// The challenge is earned; after two restarts an easier feed is offered.
#[tokio::test]
async fn earn_it() -> Result<()> {
    let mut stage = with_squad(browser_tests::Screen::SMALL).await?;
    let script = "seek drill-change.1 | screen drill | seek earn-on | seek earn-less
        fig earn = 3 | seek end.rounds | scroll end-less | tap end-less x 3 | fig end = 1 | seek step-more
        tap drill-keep | screen today | seek drill.1 | screen run | fig call = Easy ball 1 of 4 | tap pass.0.3 | tap pass.0.0 x 3
        fig call = Easy ball 1 of 4 | gone easier | tap pass.0.0 x 4 | fig call = Easy ball 1 of 4 | there easier | tap easier | gone easier
        tap pass.1.3 x 3 | fig call = Challenge 1 of 3 | tap pass.0.3 | tap pass.0.0 x 2 | see The servers have it, 1 to 2
        tap play-on | fig call = Easy ball 1 of 4 | tap pass.0.3 | fig call = Easy ball 2 of 4";
    stage.check("earn it", script).await
}
