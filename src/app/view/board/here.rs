//! Who is here, in mid-run: names to tap as children come and go, and what a refit would make of the run. Asked for only while the
//! strip shows it.

use super::NameKey;
use crate::app::model::Model;
use crate::app::update::{MOST_BALLS, fit_of};
use crate::app::words::{board, groups as words};
use crate::domain::ids::RunId;
use crate::domain::{refit, roles};

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HereView {
    /// "11 of 12 here"
    pub title: String,
    /// The squad; `current`: is here. Who isn't comes first: they are the ones that are looked for.
    pub names: Vec<NameKey>,
    /// Balls there are, where groups are made by them.
    pub balls: Option<Balls>,
    pub refit: Option<RefitKey>,
    /// Why there is nothing to tap.
    pub closed: Option<&'static str>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Balls {
    /// "8 balls"
    pub words: String,
    pub least: bool,
    pub most: bool,
}

/// The key that fits groups and roles to who is here, with what it would do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RefitKey {
    /// "Three groups of 4, 4, 3."
    pub line: String,
    /// Something would change.
    pub changes: bool,
}

/// Nothing for a run that isn't this page's or is over. Of another practice nobody comes or goes any more, and it says so.
pub fn here(model: &Model, run: RunId) -> Option<HereView> {
    let run = model.runs.get(&run).filter(|run| model.is_mine(run) && !run.main.finished)?;
    if model.run_at_hand().is_none_or(|on| on.id != run.id) {
        return Some(HereView {
            title: board::HERE_LABEL.to_owned(),
            names: Vec::new(),
            balls: None,
            refit: None,
            closed: Some(board::HERE_CLOSED),
        });
    }
    let (squad, away) = (model.squad(), model.away());
    let n_here = squad.iter().filter(|player| !away.contains(&player.id)).count();
    let for_roles = roles::rotates(&run.spec);
    let (has_groups, is_game) = (refit::wanted(&run.spec, 2).is_some(), run.spec.rule.is_game());
    let refit = || {
        let fitted = fit_of(model, run);
        let changes = fitted.changes(run);
        let mut line = words::will_fit(&fitted.fit, for_roles, is_game, fitted.keeps_groups, changes);
        if fitted.balls_back(run) {
            line = format!("{line} {}", words::BALLS_BACK);
        }
        RefitKey { line, changes }
    };
    let n_balls = model.settings.balls;
    Some(HereView {
        title: crate::app::words::today::here(n_here, squad.len()),
        names: squad
            .iter()
            .filter(|p| away.contains(&p.id))
            .chain(squad.iter().filter(|p| !away.contains(&p.id)))
            .map(|p| NameKey { player: p.id, name: model.name_of(p.id), current: !away.contains(&p.id) })
            .collect(),
        balls: (has_groups && !is_game).then(|| Balls {
            words: board::balls(n_balls),
            least: n_balls <= 1,
            most: n_balls >= MOST_BALLS,
        }),
        refit: ((has_groups || for_roles) && n_here > 0).then(refit),
        closed: None,
    })
}
