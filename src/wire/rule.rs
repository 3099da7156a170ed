//! A scoring rule as fields of a drill's spec. The table of the fields is in `record`.

use super::json::{Fields, Misfit, Object};
use super::words::Words;
use crate::domain::rule::{
    DuelBetween, FirstTo, InRow, InTime, MatchGame, Rule, Serves, Tens, Together, Transition, TransitionEnd, Whose,
    WinnersStay,
};

const BETWEEN: Words<DuelBetween> = Words(&[(DuelBetween::Sides, "sides"), (DuelBetween::Children, "children")]);
const WHOSE: Words<Whose> = Words(&[(Whose::Child, "child"), (Whose::Group, "group")]);
const SERVES: Words<Serves> = Words(&[
    (Serves::Challengers, "challengers"),
    (Serves::WinnersSide, "winners-side"),
    (Serves::LastWinner, "last-winner"),
]);

pub(super) fn push_rule(to: &mut Object, rule: Rule) {
    let maybe = |to: &mut Object, name: &str, value: Option<u16>| {
        if let Some(value) = value {
            to.number(name, value);
        }
    };
    match rule {
        Rule::Tally { goal } => {
            to.text("rule", "tally");
            maybe(to, "goal", goal);
        }
        Rule::InRow(rule) => {
            to.text("rule", "in-row");
            maybe(to, "goal", rule.goal);
            to.text("whose", WHOSE.word(rule.whose));
            to.mark("falls_to_five", rule.falls_to_five);
        }
        Rule::Tens(rule) => {
            to.text("rule", "tens");
            to.number("balls", rule.n);
        }
        Rule::FirstTo(rule) => {
            to.text("rule", "first-to");
            to.number("end_at", rule.n);
            to.mark("by_two", rule.by_two);
        }
        Rule::InTime(rule) => {
            to.text("rule", "in-time");
            to.number("seconds", rule.seconds);
            to.text("whose", WHOSE.word(rule.whose));
        }
        Rule::Together(rule) => {
            to.text("rule", "together");
            to.mark("row", rule.row);
            maybe(to, "balls", rule.balls);
            maybe(to, "to_beat", rule.to_beat);
        }
        Rule::Transition(transition) => {
            to.text("rule", "transition");
            push_transition(to, transition);
        }
        Rule::WinnersStay(rule) => {
            to.text("rule", "winners-stay");
            to.number("a_side", rule.a_side);
            to.number("end_at", rule.to);
            to.mark("near_only", rule.near_only);
            maybe(to, "off_after", rule.off_after.map(u16::from));
            to.text("serves", SERVES.word(rule.serves));
            to.mark("second_serve", rule.second_serve);
            to.mark("paced", rule.paced);
        }
        Rule::MatchGame(rule) => {
            to.text("rule", "match");
            to.number("a_side", rule.a_side);
            to.number("end_at", rule.to);
            maybe(to, "serve_cap", rule.serve_cap.map(u16::from));
            to.mark("note_serves", rule.serves);
            to.mark("note_passes", rule.passes);
        }
    }
}

fn push_transition(to: &mut Object, transition: Transition) {
    to.number("easy", transition.n_easy);
    to.number("challenge", transition.n_challenge);
    if let Some(earn) = transition.earn {
        to.number("earn", earn);
    }
    to.text("between", BETWEEN.word(transition.between));
    match transition.end {
        TransitionEnd::DuelPoints(points) => {
            to.text("end", "duel-points");
            to.number("end_at", points);
        }
        TransitionEnd::Rounds(rounds) => {
            to.text("end", "rounds");
            to.number("end_at", rounds);
        }
        TransitionEnd::Coach => to.text("end", "coach"),
    }
    to.mark("swap", transition.swap);
}

pub(super) fn take_rule(f: &mut Fields<'_>) -> Result<Rule, Misfit> {
    Ok(match &*f.text("rule")? {
        "tally" => Rule::Tally { goal: f.maybe("goal")? },
        "in-row" => Rule::InRow(InRow {
            goal: f.maybe("goal")?,
            whose: f.word("whose", |word| WHOSE.known(word))?,
            falls_to_five: f.mark("falls_to_five")?,
        }),
        "tens" => Rule::Tens(Tens { n: f.need("balls")? }),
        "first-to" => Rule::FirstTo(FirstTo { n: f.need("end_at")?, by_two: f.mark("by_two")? }),
        "in-time" => {
            Rule::InTime(InTime { seconds: f.need("seconds")?, whose: f.word("whose", |word| WHOSE.known(word))? })
        }
        "together" => {
            Rule::Together(Together { row: f.mark("row")?, balls: f.maybe("balls")?, to_beat: f.maybe("to_beat")? })
        }
        "transition" => Rule::Transition(take_transition(f)?),
        "winners-stay" => Rule::WinnersStay(WinnersStay {
            a_side: f.need("a_side")?,
            to: f.need("end_at")?,
            near_only: f.mark("near_only")?,
            off_after: f.maybe("off_after")?,
            serves: f.word("serves", |word| SERVES.known(word))?,
            second_serve: f.mark("second_serve")?,
            paced: f.mark("paced")?,
        }),
        "match" => Rule::MatchGame(MatchGame {
            a_side: f.need("a_side")?,
            to: f.need("end_at")?,
            serve_cap: f.maybe("serve_cap")?,
            serves: f.mark("note_serves")?,
            passes: f.mark("note_passes")?,
        }),
        _ => return Err(Misfit::Newer),
    })
}

fn take_transition(f: &mut Fields<'_>) -> Result<Transition, Misfit> {
    Ok(Transition {
        n_easy: f.need("easy")?,
        n_challenge: f.need("challenge")?,
        earn: f.maybe("earn")?,
        between: f.word("between", |word| BETWEEN.known(word))?,
        end: match &*f.text("end")? {
            "duel-points" => TransitionEnd::DuelPoints(f.need("end_at")?),
            "rounds" => TransitionEnd::Rounds(f.need("end_at")?),
            "coach" => TransitionEnd::Coach,
            _ => return Err(Misfit::Newer),
        },
        swap: f.mark("swap")?,
    })
}
