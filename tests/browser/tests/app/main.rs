//! The app in a real browser: release build, touch, a server that can be stopped. Scripts as data where that is possible.

mod after;
mod as_one;
mod boards;
mod bulk;
mod calendar;
mod codes;
mod copies;
mod corrections;
mod duel;
mod games;
mod geometry;
mod goals;
mod groups;
mod hands;
mod here;
mod keeps;
mod library;
mod locked;
mod merging;
mod notes;
mod plan;
mod removal;
mod rules;
mod screens;
mod station;
mod stress;
mod survive;
mod troubles;
mod ways_in;
mod weeks;
mod worker;

use browser_tests::{PhoneKind, Result, Screen, Site, Stage};

/// A squad of twelve, typed as coaches type.
const SQUAD: &str = "7 Mira\\n#9 Tove\\nOdile, 11\\nBram\\n\\n5  Iva\\n6 Lasse\\n8 Juno\\n10 Pepe\\n12 Runa\\n14 Élif\\n15 نور\\n16 Wren";

const BOTH: [Screen; 2] = [Screen::TALL, Screen::SMALL];

/// A phone of this size with the app and the squad on it, on the first screen.
async fn with_squad(screen: Screen) -> Result<Stage> {
    with_squad_as(PhoneKind { screen, ..PhoneKind::default() }).await
}

/// Groups are dealt in the order of the squad from now on, so that a test knows who is in which.
const DEALT: &str = "seek groups | screen groups | seek groups.hand | seek back | screen today";

async fn with_squad_as(kind: PhoneKind) -> Result<Stage> {
    let mut stage = Stage::of(Site::of_the_app()?, kind).await?;
    stage.check("a squad", &squad()).await?;
    Ok(stage)
}

/// The steps from an empty phone to a squad.
fn squad() -> String {
    format!(
        "open | screen today | tap roster | screen roster | type roster = {SQUAD} | see 12 children
         tap roster-take | screen today | fig here = All 12 are here | fig saved = saved"
    )
}

/// What a whole run leaves: finished, and the first screen again.
const HOME: &str = "tap finish | screen run-report | tap tab.today | screen today";
