//! Sentences of a match whose serves and passes are noted: on its board, of nobody by name where something may have gone wrong, and after.

use super::board_lines::brief;
use super::counts;
use crate::domain::entry::Said;
use crate::domain::scoring::noted::Noted;
use crate::domain::skill::{Outcome, PassGrade, ServeOutcome};
use crate::domain::summary::GameSummary;
use crate::stats::proportion::Count;

pub const WHO_PASSED: &str = "In: who passed it?";
pub const TAP_WINNER: &str = "Tap the side that won it.";

/// `Mira serves: who passes?`
pub fn serves_who_passes(server: &str) -> String {
    format!("{} serves: who passes?", brief(server))
}

/// `Odile: target moved?`, short enough to stand beside the longest names.
pub fn target_moved(passer: &str) -> String {
    format!("{}: target moved?", brief(passer))
}

/// `serve net`, `pass moved 2`: what it was, and nobody's name, since children see it while they play for a point.
pub fn outcome(outcome: Outcome) -> String {
    match outcome {
        Outcome::Serve { .. } => format!("serve {}", counts::outcome(outcome)),
        Outcome::Pass { .. } => format!("pass {}", counts::outcome(outcome)),
        _ => counts::outcome(outcome),
    }
}

/// `Noted: serve in, pass moved 2`
pub fn noted(serve: Option<ServeOutcome>, pass: Option<PassGrade>) -> String {
    let serve = serve.map(|went| outcome(Outcome::Serve { outcome: went, fast: false }));
    let pass = pass.map(|grade| outcome(Outcome::Pass { grade, over_net: false }));
    let parts: Vec<String> = [serve, pass].into_iter().flatten().collect();
    if parts.is_empty() { String::new() } else { format!("Noted: {}", parts.join(", ")) }
}

/// `Odile passes`
pub fn undo_passer(name: &str) -> String {
    format!("{name} passes")
}

/// `beside: Juno`
pub fn beside(names: &str) -> String {
    format!("beside: {names}")
}

pub const fn undo_said(what: Said, on: bool) -> &'static str {
    match (what, on) {
        (Said::OtherSide, true) => "other side serves",
        (Said::OtherSide, false) => "other side serves: off",
        (Said::Second, true) => "second serve",
        (Said::Second, false) => "second serve: off",
    }
}

pub const SERVES: &str = "In the match: serves in";
pub const PASSES: &str = "In the match: passes, moved or better";

/// `ace 1, long 2, net 1`: where they went, where it wasn't just in.
pub fn serves(noted: &Noted) -> Option<String> {
    let went = ServeOutcome::ALL.into_iter().filter(|outcome| *outcome != ServeOutcome::In);
    let parts = went.map(|outcome| (counts::serve(outcome), noted.serves_that_went(outcome)));
    let parts: Vec<String> = parts.filter(|(_, n)| *n > 0).map(|(word, n)| format!("{word} {n}")).collect();
    (!parts.is_empty()).then(|| parts.join(", "))
}

/// `3 stood, 2 moved, 0 chased, 1 gone`: the trade's 3-2-1-0 with its words.
pub fn passes(noted: &Noted) -> Option<String> {
    let parts = PassGrade::ALL.map(|grade| format!("{} {}", noted.passes_of(grade), counts::grade(grade)));
    Some(parts.join(", "))
}

/// `3 serves or passes`
pub fn n_noted(n: u32) -> String {
    counts::plural(n as usize, "serve or pass", "serves or passes")
}

/// The same, where no rally was: what came of the run, in a few words.
pub fn noted_alone(game: &GameSummary) -> Option<String> {
    let n = game.noted.iter().map(|(_, noted)| noted.serves_in().tries() + noted.passes_good().tries()).sum();
    (n > 0).then(|| n_noted(n))
}

/// Of everyone, beside the time on the court: `serves in: 14 of 20, about 5 to 9 in 10; passes moved or better: 9 of 12, …`
pub fn everyone(game: &GameSummary) -> Option<String> {
    let all = |good: fn(&Noted) -> Count| game.noted.iter().map(|(_, noted)| good(noted)).sum::<Count>();
    let skills = [("serves in", all(Noted::serves_in)), ("passes moved or better", all(Noted::passes_good))];
    let told = skills.iter().filter(|(_, count)| count.tries() > 0);
    let parts: Vec<String> = told.map(|(what, count)| format!("{what}: {}", counts::rate(*count))).collect();
    (!parts.is_empty()).then(|| format!("In the match, {}", parts.join("; ")))
}
