//! Groups by touch: made before practice, exchanged, wished for; a contradiction and the way out; a drill that uses them, a latecomer,
//! a kill, and they are still there. No barrier in either scheme.

use crate::with_squad;
use browser_tests::{Result, Screen};

/// Names of the groups, as the floor shows them.
const TEAMS: &str = "JSON.stringify([...document.querySelectorAll('.team')].map(team => [...team.querySelectorAll('bdi')].map(e => e.textContent)))";

#[tokio::test]
async fn groups_by_touch() -> Result<()> {
    let mut stage = with_squad(Screen::SMALL).await?;
    let steps = [
        ("one is away", "fig groups = none yet | seek presence | seek presence.11 | fig here = 11 of 12 are here"),
        ("no groups", "seek groups | screen groups | see No groups yet | axe | dark | axe | light"),
        ("made", "tap groups-make | fig told = Sizes 4, 4, 3. | count .team = 3 | count .team-name = 11 | axe | dark | axe | light | shot groups"),
        ("exchanged", "seek group.0.0 | count .team-name[aria-pressed=\"true\"] = 1 | seek group.1.0 | count .team-name[aria-pressed=\"true\"] = 0"),
        ("as before", "there groups-before"),
        ("wishes", "seek wishes | seek wish.together | seek wish-name.0 | seek wish-name.1 | seek wish-keep | see Mira and Tove together"),
        ("a contradiction", "seek wish.apart | seek wish-name.0 | seek wish-name.1 | axe | seek wish-keep
            fig trouble = Mira and Tove are wished both together and apart. | axe | dark | axe | light | tap groups-make | count .team = 3"),
        ("the way out", "seek groups-way | gone groups-way | fig wishes = 1 | tap groups-make | count .team = 3"),
    ];
    for (name, steps) in steps {
        stage.check(name, steps).await?;
    }
    let made = stage.phone.eval(TEAMS).await?;
    let rest = [
        ("a drill of roles", "tap tab.today | screen today | seek drill-new | screen drill | seek board.floor | type drill-name = Roles
            seek feeders-more | seek target-on | seek getters-more | seek swap.balls | scroll swap-every-less | tap swap-every-less x 8 | fig swap-every = 2
            axe | tap drill-keep | screen today"),
        ("roles", "seek drill.14 | screen run | fig roles = Bram tosses, Iva catches, Lasse fetches | axe | tap pass.0.3
            fig roles = Bram tosses, Iva catches, Lasse fetches | tap pass.1.3 | fig of = good of 2
            count [data-key=\"pass.0.3\"][aria-label^=\"Mira\"] = 0 | tap undo | fig of = good of 1
            count [data-key=\"pass.0.3\"][aria-label^=\"Mira\"] = 1 | fig saved = saved | shot roles"),
        ("a latecomer", "tap finish | screen run-report | see Touches | axe | tap next-drill | screen today | seek presence | seek presence.11 | fig here = All 12 are here"),
        ("still there", "fig saved = saved | seek groups | screen groups | count .team = 3 | count .team-name = 12"),
    ];
    for (name, steps) in rest {
        stage.check(name, steps).await?;
    }
    let late = stage.phone.eval(TEAMS).await?;
    stage.check("killed", "kill | screen groups | count .team = 3 | count .team-name = 12").await?;
    assert_eq!(stage.phone.eval(TEAMS).await?, late);
    assert_ne!(late, made);
    stage.check("refit", "seek balls-less | fig balls = 11 | seek refit | fig refitted = Twelve children, eleven balls: three groups of 4.").await
}
