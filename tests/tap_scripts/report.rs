//! A run as lines of text: everything that the domain says of it, and nothing that it doesn't.

use peppertally::domain::drill::Rule;
use peppertally::domain::entry::{Fact, Side};
use peppertally::domain::ids::{GroupNo, PlayerId};
use peppertally::domain::replay::part::Part;
use peppertally::domain::scoring::match_game::{MatchScore, NoteNext};
use peppertally::domain::scoring::tally::Tally;
use peppertally::domain::scoring::transition::{BallMark, TransitionScore};
use peppertally::domain::scoring::{Over, Score, Who};
use peppertally::domain::skill::{FeedKind, PassGrade, ServeOutcome};
use peppertally::stats::proportion::Count;

use crate::script::Court;

pub fn report(court: &Court) -> Vec<String> {
    let run = court.run();
    let main = &run.main;
    let mut lines = totals(court, main);
    lines.push(format!("{} contacts", main.contacts.len()));
    if let Rule::Tally { goal: Some(goal) } = run.spec.rule {
        lines.push(format!("goal {} of {goal}", main.everyone.all().good()));
    }
    let current = main.current(&run.spec);
    lines.push(format!("next {}", maybe(court, current)));
    lines.extend(main.watching(&run.spec).map(|(child, n)| format!("watching {} {n}", court.name(child))));
    lines.push(format!("places {}", list(main.lineup.places.iter().map(|p| maybe(court, *p)))));
    lines.push(format!("waiting {}", list(main.lineup.waiting.iter().map(|p| court.name(*p)))));
    lines.push(format!("servers {}", list(main.lineup.servers.iter().map(|p| court.name(*p)))));
    lines.push(format!("series {}", main.open_series()));
    lines.push(format!("feed {}", main.feed.step.0));
    lines.push(format!("steps {}", list(main.contacts.iter().map(|c| c.contact.feed.step.0.to_string()))));
    if let Some(pace) = main.pace.per_minute() {
        lines.push(format!("pace {}", pace.whole()));
    }
    if let Some(score) = main.transition() {
        lines.extend(transition(court, score));
    }
    lines.extend(standings(court, main));
    lines.extend(game(court, main));
    for effort in &main.efforts {
        let kind = effort.kind.as_deref().unwrap_or("-");
        lines.push(format!("effort {} {kind}", maybe(court, effort.player)));
    }
    lines.push(match run.next_undo().map(|e| &e.fact) {
        None => "undo nothing".to_owned(),
        Some(Fact::ContactNoted { contact, .. }) => format!("undo contact {}", maybe(court, contact.player)),
        Some(Fact::EffortNoted { player, .. }) => format!("undo effort {}", maybe(court, *player)),
        Some(Fact::CountTold { player, .. }) => format!("undo told {}", court.name(*player)),
        Some(Fact::LineupSet { .. }) => "undo lineup".to_owned(),
        Some(Fact::ToldSeriesOpened { .. }) => "undo series".to_owned(),
        Some(Fact::TurnGiven { .. }) => "undo turn".to_owned(),
        Some(Fact::ContactsCorrected { changes, .. }) => format!("undo correction of {}", changes.len()),
        Some(Fact::EffortCorrected { .. }) => "undo kind".to_owned(),
        Some(Fact::FeedSet { .. }) => "undo feed".to_owned(),
        Some(Fact::RunFinished { .. }) => "undo finish".to_owned(),
        Some(other) => format!("undo {other:?}"),
    });
    if main.finished {
        lines.push("finished".to_owned());
    }
    lines.push(format!("beside {}", run.beside.len()));
    for (_, part) in &run.beside {
        lines.extend(totals(court, part).into_iter().map(|line| format!("beside {line}")));
    }
    lines
}

/// `standing everyone 4 best 7`, with what it is of, the one before and the goal where the rule has them; `group 1` and names too.
fn standings(court: &Court, main: &Part) -> Vec<String> {
    let rule = main.score.rule();
    let groups = (0..main.lineup.groups.len()).map(|at| Who::Group(GroupNo(at as u8)));
    let children = main.lineup.everyone().map(Who::Child);
    let mut lines: Vec<String> = [Who::Everyone]
        .into_iter()
        .chain(groups)
        .chain(children)
        .map(|who| {
            let name = match who {
                Who::Everyone => "everyone".to_owned(),
                Who::Group(no) => format!("group {}", no.0 + 1),
                Who::Child(player) => court.name(player).to_owned(),
            };
            let s = rule.standing(who);
            let more = |word: &str, n: Option<u32>| n.map(|n| format!(" {word} {n}")).unwrap_or_default();
            let (of, last, goal) = (more("of", s.of), more("last", s.last), more("goal", s.goal));
            format!("standing {name} {}{of} best {}{last}{goal}", s.now, s.best)
        })
        .collect();
    if main.transition().is_none() {
        match rule.over(u32::MAX / 2) {
            Some(Over::Have(who)) => lines.push(format!(
                "have {}",
                list(who.iter().map(|who| match who {
                    Who::Group(no) => format!("{}", no.0 + 1),
                    _ => "everyone".to_owned(),
                }))
            )),
            Some(Over::Done) => lines.push("done".to_owned()),
            None => lines.push("goes on".to_owned()),
        }
    }
    lines
}

/// Who is where in groups, and what a game has given each child.
fn game(court: &Court, main: &Part) -> Vec<String> {
    let mut lines = Vec::new();
    if !main.lineup.groups.is_empty() {
        let groups = main.lineup.groups.iter().map(|g| list(g.iter().map(|p| court.name(*p))));
        lines.push(format!("groups {}", groups.collect::<Vec<_>>().join(" | ")));
    }
    let side = |side| if side == Side::Near { "near" } else { "far" };
    let near = main.lineup.groups.first().cloned().unwrap_or_default();
    let shares = match &main.score {
        Score::WinnersStay(score) => {
            lines.push(format!("serves {}", side(score.serves_next())));
            lines.push(format!("game {} {} streak {}", score.game().0, score.game().1, score.streak_of(&near)));
            &score.shares
        }
        Score::MatchGame(score) => {
            lines.push(format!("serves {}", side(score.serves_next())));
            lines.extend(in_match(court, main, score));
            &score.shares
        }
        _ => return lines,
    };
    lines.extend(shares.iter().map(|(player, p)| {
        format!(
            "court {} {} won {} waited {} longest {}",
            court.name(player),
            p.n_rallies,
            p.n_won,
            p.n_waited,
            p.longest_wait
        )
    }));
    lines
}

/// What may be noted next, and of each child its serves (ace, in, long, wide, net), its passes (3, 2, 1, 0) and its touches.
fn in_match(court: &Court, main: &Part, score: &MatchScore) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    lines.extend(main.note_next().map(|next| match next {
        NoteNext::Serve => "due serve".to_owned(),
        NoteNext::Passer => "due passer".to_owned(),
        NoteNext::Grade(player) => format!("due grade {}", court.name(player)),
        NoteNext::Rally => "due rally".to_owned(),
    }));
    lines.extend(main.serve_said.other_side.then(|| "said other".to_owned()));
    lines.extend(main.serve_said.second.then(|| "said second".to_owned()));
    for (player, noted) in score.noted.children() {
        let serves = ServeOutcome::ALL.map(|outcome| noted.serves_that_went(outcome).to_string());
        let passes = PassGrade::ALL.map(|grade| noted.passes_of(grade).to_string());
        let (good, passed) = (count(noted.serves_in()), count(noted.passes_good()));
        let name = court.name(*player);
        lines.push(format!("noted {name} serves {} in {good}", serves.join(" ")));
        lines.push(format!("noted {name} passes {} good {passed}", passes.join(" ")));
    }
    lines.extend(
        main.touches.iter().map(|(p, t)| format!("touched {} judged {} fed {}", court.name(p), t.judged, t.fed)),
    );
    lines
}

fn transition(court: &Court, score: &TransitionScore) -> Vec<String> {
    let next = score.next();
    let kind = match next.kind {
        FeedKind::Easy => "easy",
        FeedKind::Challenge => "challenge",
    };
    let marks = |marks: &[BallMark]| {
        list(marks.iter().map(|m| match m {
            BallMark::Good => "good",
            BallMark::NotGood => "not",
            BallMark::NoChance => "nochance",
        }))
    };
    let mut lines = vec![
        format!("score joint {} passers {} servers {}", score.joint, score.duel.passers, score.duel.servers),
        format!("ball round {} {kind} {} of {}", next.turn.round.0, next.ball, next.of),
        format!("restart {}", next.turn.restart),
        format!("easy {}", marks(score.easy_marks())),
        format!("challenge {}", marks(score.challenge_marks())),
    ];
    lines.extend(score.by_child.iter().map(|(child, points)| format!("points {} {points}", court.name(*child))));
    lines.extend(next.over.then(|| "over".to_owned()));
    lines.extend(next.offer_easier.then(|| "offer easier".to_owned()));
    lines
}

fn totals(court: &Court, part: &Part) -> Vec<String> {
    let mut lines: Vec<String> =
        part.by_child.iter().map(|(child, tally)| format!("{} {}", court.name(*child), tallied(tally))).collect();
    lines.push(format!("everyone {}", tallied(&part.everyone)));
    lines.push(format!("last {}", count(part.everyone.of(None).last.count())));
    for (kind, word) in [(FeedKind::Easy, "easy"), (FeedKind::Challenge, "challenge")] {
        let rows = part.by_child.iter().map(|(child, tally)| (court.name(*child), tally.of(Some(kind)).rows));
        lines.extend(rows.map(|(name, rows)| format!("row {name} {word} {} best {}", rows.now(), rows.best())));
    }
    let s = &part.everyone.serve;
    lines.push(format!("serves in {} long {} wide {} net {}", s.n_in, s.n_long, s.n_wide, s.n_net));
    lines.push(format!("fast {}", s.n_fast));
    lines
}

/// `14/20 best 6`, and what else there is.
fn tallied(tally: &Tally) -> String {
    let judged = tally.of(None);
    let mut line = format!("{} best {}", count(judged.count), judged.rows.best());
    let of = |kind| tally.of(Some(kind)).count;
    if of(FeedKind::Challenge) != Count::NONE {
        line += &format!(" easy {} challenge {}", count(of(FeedKind::Easy)), count(of(FeedKind::Challenge)));
    }
    if tally.told() != Count::NONE {
        line += &format!(" told {} all {}", count(tally.told()), count(tally.all()));
    }
    if tally.watched() != Count::NONE {
        line += &format!(" watched {}", count(tally.watched()));
    }
    if tally.n_no_chance > 0 {
        line += &format!(" nochance {}", tally.n_no_chance);
    }
    if tally.n_counted > 0 {
        line += &format!(" counted {}", tally.n_counted);
    }
    if tally.n_efforts > 0 {
        line += &format!(" efforts {}", tally.n_efforts);
    }
    line
}

fn count(count: Count) -> String {
    format!("{}/{}", count.good(), count.tries())
}

fn maybe(court: &Court, player: Option<PlayerId>) -> &str {
    player.map_or("-", |p| court.name(p))
}

fn list<S: AsRef<str>>(words: impl Iterator<Item = S>) -> String {
    let words: Vec<String> = words.map(|w| w.as_ref().to_owned()).collect();
    if words.is_empty() { "none".to_owned() } else { words.join(" ") }
}
