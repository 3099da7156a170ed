//! Games by touch: the floor keeps its keys whatever is tapped, a latecomer, an undo storm, a kill, a phone on its side, and the
//! totals after all that.

use crate::duel::{places, unmoved};
use crate::{BOTH, DEALT, with_squad};
use browser_tests::{PhoneKind, Result, Screen};

/// Wren comes late: eleven in threes are four teams.
const LATE: &str = "seek presence | scroll presence.11 | tap presence.11 | fig here = 11 of 12 are here";

/// The three marks of the pace are over, and as the first looks so do all.
const COUNTED: &str = "(marks => marks.length === 3 && marks.every(mark => mark.getAnimations().every(a => a.playState === 'finished')
    && getComputedStyle(mark).backgroundImage === getComputedStyle(marks[0]).backgroundImage))([...document.querySelectorAll('.game-pace > i')])";

#[tokio::test]
async fn winners_stay_by_touch() -> Result<()> {
    for screen in BOTH {
        let mut stage = with_squad(screen).await?;
        stage
            .check(
                "to the floor",
                &format!("{LATE} | seek drill.12 | screen run | fig call = Challengers serve | fig good = 0"),
            )
            .await?;
        let before = places(&stage.phone).await?;
        let steps = [
            (
                "challengers win",
                "tap side.top | fig good = 1 | fig of = game played | fig undo = challengers' rally, just now | fig more.bottom = 1 win",
            ),
            ("they hold", "tap side.bottom x 2 | fig more.bottom = 3 wins in a row | fig good = 3"),
            (
                "a second serve",
                "tap second-serve | fig call = Second serve, challengers | tap side.bottom | fig call = Challengers serve",
            ),
            (
                "the other side serves",
                "tap other-serves | fig call = Winners' side serves | fig serves.bottom = to serve | tap other-serves | fig serves.top = to serve",
            ),
            (
                "two change places",
                "tap swap-two | see Who changes? | tap name.0 | see With whom? | tap name.4 | gone choice-close | fig undo = who stands where, just now",
            ),
            ("new teams", "tap new-teams | fig more.bottom = | fig good = 4 | tap side.top | fig more.bottom = 1 win"),
            (
                "an effort",
                "tap effort | see Effort noticed: whose? | tap effort-name.2 | tap effort-close | gone effort-close",
            ),
            ("turned round", "tap turn-round | fig more.top = 1 win | tap turn-round | fig more.bottom = 1 win"),
        ];
        for (name, steps) in steps {
            unmoved(&mut stage, &before, name, steps).await?;
        }
        stage.phone.wait_until("one, two and serve to be filled", COUNTED).await?;
        // The one who comes late is in a team, and nothing has stopped. Steps so far: five rallies, three things said of a serve, an exchange, new teams, an effort
        // and whose it was; then the latecomer's.
        let late = "fig saved = saved | tap contacts | screen contacts | count .rally-row = 5 | tap tab.today | screen today
            seek presence | scroll presence.11 | tap presence.11 | fig here = All 12 are here | seek drill.12 | screen run | fig good = 5 | fig undo = Wren is here, just now";
        unmoved(&mut stage, &before, "a latecomer", late).await?;
        unmoved(
            &mut stage,
            &before,
            "an undo storm",
            "tap undo x 13 | fig undo = nothing yet | fig good = 0 | disabled undo",
        )
        .await?;
        // With the latecomer's tap undone too, the game begins anew.
        unmoved(&mut stage, &before, "again", "tap side.top x 3 | tap side.bottom | fig good = 4 | fig saved = saved")
            .await?;
        unmoved(&mut stage, &before, "killed", "kill | screen run | fig good = 4 | fig saved = saved | enabled side.bottom | fig more.bottom = 2 wins in a row").await?;
        let turned = format!(
            "size {} {} | tap side.bottom | fig good = 5 | fig more.bottom = 3 wins in a row | size {} {}",
            screen.height, screen.width, screen.width, screen.height
        );
        unmoved(&mut stage, &before, "on its side", &turned).await?;
        let after = "tap finish | screen run-report | fig everyone = 5 games. | see On the court | seek contacts | screen contacts | count .rally-row = 5
            tap rally.0.far | see corrected | seek rally.4.back | count .rally-row = 4 | seek put-back.0 | count .rally-row = 5
            tap tab.today | screen today | see 5 games | seek practice-end | screen practice-report | see 5 games | reload | screen practice-report | see 5 games";
        stage.check("after", after).await?;
    }
    Ok(())
}

/// Long names and many teams move no key; one child alone finds a sentence and a way out.
#[tokio::test]
async fn many_and_few() -> Result<()> {
    let mut stage = browser_tests::Stage::of(
        browser_tests::Site::of_the_app()?,
        PhoneKind { screen: Screen::SMALL, ..PhoneKind::default() },
    )
    .await?;
    let twenty: String = (1..=20)
        .map(|n| if n % 3 == 0 { format!("Maximiliana-Fredrika {n}\\n") } else { format!("Child{n} {n}\\n") })
        .collect();
    let two_a_side =
        "seek drill-change.12 | screen drill | seek a-side-less | fig a-side = 2 | seek drill-keep | screen today";
    stage
        .check(
            "twenty",
            &format!("open | screen today | tap roster | screen roster | type roster = {twenty} | see 20 children | tap roster-take | screen today | fig saved = saved | {two_a_side} | seek drill.12 | screen run"),
        )
        .await?;
    stage.check("ten teams", "count .game-teams > li = 8 | fig call = Challengers serve").await?;
    let before = places(&stage.phone).await?;
    for at in 0..4 {
        unmoved(&mut stage, &before, &format!("rally {at}"), "tap side.top | tap new-teams | tap side.bottom").await?;
    }
    let mut stage = with_squad(Screen::SMALL).await?;
    let away: String = (1..12).map(|n| format!("scroll presence.{n} | tap presence.{n} | ")).collect();
    let alone = format!(
        "seek presence | {away} fig here = 1 of 12 are here | seek drill.12 | screen run | see A game needs a child on each side. | disabled side.top | tap leave | screen today"
    );
    stage.check("alone", &alone).await
}

/// A match to the end and beyond it, three a side.
#[tokio::test]
async fn a_match_by_touch() -> Result<()> {
    let mut stage = with_squad(Screen::SMALL).await?;
    stage.check("who is with whom", DEALT).await?;
    let form = "seek drill-change.13 | screen drill | seek a-side-less | tap a-side-less x 2 | fig a-side = 3 | seek match.15 | value match-to = 15 | type match-to = seven | disabled drill-keep | see A match is played to a whole number of points, 1 to 99. | type match-to = 7
        tap drill-keep | screen today | seek drill.13 | screen run | fig call = Team 1 serves: Mira";
    stage.check("three a side, to seven", form).await?;
    let before = places(&stage.phone).await?;
    let steps = [
        ("side-out", "tap side.top | fig call = Team 2 serves: Bram | fig points.top = 1"),
        ("won back", "tap side.bottom | fig call = Team 1 serves: Odile | fig points.bottom = 1"),
        ("six all", "tap side.bottom x 5 | tap side.top x 5 | fig points.top = 6 | fig points.bottom = 6"),
        ("seven to six goes on", "tap side.top | fig points.top = 7 | gone over-finish"),
        ("eight to six doesn't", "tap side.top | see Team 2 has it, 8 to 6."),
        ("played on", "tap play-on | gone play-on | tap side.bottom | fig points.bottom = 7"),
    ];
    for (name, steps) in steps {
        unmoved(&mut stage, &before, name, steps).await?;
    }
    stage.check("after", "fig saved = saved | tap finish | screen run-report | fig everyone = Team 1: 7, team 2: 8. | tap tab.today | screen today | see 7 to 8").await
}

/// Serves and passes of a match: one tap, two taps, no key moves, and all of it is there after a reload and a kill.
#[tokio::test]
async fn a_match_with_serves_and_passes() -> Result<()> {
    let mut stage = with_squad(Screen::SMALL).await?;
    stage.check("who is with whom", DEALT).await?;
    let form = "seek drill-change.13 | screen drill | seek a-side-less | tap a-side-less x 2 | seek note-serves | seek note-passes
        fig how = A game, 3 a side, to 25 by two, serves and passes noted
        tap drill-keep | screen today | seek drill.13 | screen run | fig call = Team 1 serves: Mira";
    stage.check("the form", form).await?;
    let before = places(&stage.phone).await?;
    let steps = [
        (
            "in, a pass, won",
            "tap serve-in | fig call = In: who passed it? | tap passer.0.0 | fig call = Bram: target moved? | tap pass-2 | fig noted = Noted: serve in, pass moved 2 | tap side.bottom | fig points.bottom = 1",
        ),
        (
            "the net",
            "tap serve-net | fig points.top = 1 | fig call = Team 2 serves: Bram | fig undo = serve net, team 2's rally, just now",
        ),
        (
            "one undo",
            "tap undo | fig points.top = 0 | fig call = Team 1 serves: Mira | fig undo = team 1's rally, just now",
        ),
        (
            "the other side",
            "tap other-serves | fig call = Team 2 serves: Tove | fig undo = other side serves, just now | tap undo | fig call = Team 1 serves: Mira",
        ),
        ("a rally as ever", "tap side.bottom | fig points.bottom = 2"),
        ("an ace", "tap serve-ace | fig points.bottom = 3"),
    ];
    for (name, steps) in steps {
        unmoved(&mut stage, &before, name, steps).await?;
    }
    let after = "tap serve-in | tap passer.1.0 | fig saved = saved | reload | screen run | fig call = Tove: target moved? | tap pass-0 | fig saved = saved
        kill | screen run | fig noted = Noted: serve in, pass gone 0 | fig points.bottom = 3 | axe | tap side.bottom | fig points.bottom = 4
        fig saved = saved | tap finish | screen run-report | see In the match: serves in | see In the match: passes, moved or better | see 1 moved";
    stage.check("reload, kill, report", after).await
}
