//! The taps of a script as entries: what the app would write at each of them. Owns the short text form; the report is elsewhere.

use std::collections::HashMap;

use peppertally::domain::drill::*;
use peppertally::domain::entry::{Contact, Correction, Entry, Fact, Lineup, LineupCause, Rally, Said, Side};
use peppertally::domain::ids::{ContactId, EntryId, GroupNo, PlayerId, Revision, RunId, Step};
use peppertally::domain::replay::part::Part;
use peppertally::domain::replay::run::RunState;
use peppertally::domain::scoring::Score;
use peppertally::domain::scoring::match_game::{NoteNext, decided_by};
use peppertally::domain::skill::*;

use crate::support::{Page, child, contact, run_started, shuffled};

/// A court with one run on it, as every page of a script sees it.
#[derive(Default)]
pub struct Court {
    pub names: Vec<String>,
    pub run: Option<RunState>,
    log: Vec<Entry>,
    pages: HashMap<String, Page>,
    page: String,
    /// What is written next was noted by the same tap as what was written last.
    same_tap: bool,
    /// The main part as it was before each entry since the last one that was taken back elsewhere than by undo.
    before: HashMap<EntryId, Part>,
}

type Played = Result<(), String>;

impl Court {
    pub fn run(&self) -> &RunState {
        self.run.as_ref().expect("the script starts no run")
    }

    pub fn name(&self, player: PlayerId) -> &str {
        &self.names[player.0.no.0 as usize]
    }

    fn id(&self) -> RunId {
        self.run().id
    }

    fn child(&self, name: &str) -> Result<PlayerId, String> {
        self.names.iter().position(|n| n == name).map(child).ok_or(format!("no such child: {name}"))
    }

    pub fn play(&mut self, line: &str) -> Played {
        let words: Vec<&str> = line.split_whitespace().collect();
        match words[..] {
            ["squad", ..] => self.names = words[1..].iter().map(|w| (*w).to_owned()).collect(),
            ["run", ..] => self.start(&words[1..])?,
            ["page", name] => name.clone_into(&mut self.page),
            ["take", "over", "as", name] => {
                name.clone_into(&mut self.page);
                let after = self.run().last_seen();
                self.write(Fact::RunTakenOver { run: self.id(), after, recorder: name.to_owned() });
            }
            ["undo"] => self.undo()?,
            ["swap"] => self.line_up(self.run().main.lineup.slid(), LineupCause::Swap),
            ["comes", name] => self.line_up(self.with_presence(name, true)?, LineupCause::ByHand),
            ["goes", name] => self.line_up(self.with_presence(name, false)?, LineupCause::ByHand),
            ["turn", name] => {
                let player = self.child(name)?;
                self.write(Fact::TurnGiven { run: self.id(), player });
            }
            ["feed", step] => {
                let feed = Feed { kind: FeedKind::Easy, step: Step(number(step)?) };
                self.write(Fact::FeedSet { run: self.id(), feed });
            }
            ["groups", ..] => {
                let groups =
                    words[1..].split(|w| *w == "|").map(|group| self.children(group)).collect::<Result<_, _>>()?;
                self.line_up(Lineup { groups, ..self.run().main.lineup.clone() }, LineupCause::ByHand);
            }
            ["clock", going, shown] => {
                let (going, shown_ms) = (going == "goes", number(shown)?);
                self.write(Fact::ClockSet { run: self.id(), going, shown_ms, slept: false });
            }
            ["lane", no] => self.lane(no, Outcome::Counted, None)?,
            ["lane", no, outcome] => self.lane(no, judged(outcome)?, None)?,
            ["lane", no, outcome, "at", shown] => self.lane(no, judged(outcome)?, Some(number(shown)?))?,
            ["won", side] => self.won(side, None)?,
            ["won", side, "x", n] => (0..number::<u32>(n)?).try_for_each(|_| self.won(side, None))?,
            ["won", side, "served", served] => self.won(side, Some(served))?,
            ["said", what] => self.said(what, true)?,
            ["said", what, "off"] => self.said(what, false)?,
            ["serve", outcome] => self.serve(judged(outcome)?, true)?,
            // The page was killed before the rally that the serve decided was kept.
            ["serve", outcome, "alone"] => self.serve(judged(outcome)?, false)?,
            ["passer", name] => {
                let player = self.child(name)?;
                self.write(Fact::TurnGiven { run: self.id(), player });
            }
            ["pass", outcome] => self.pass(judged(outcome)?)?,
            ["rewon", n, side] => self.rewon(number(n)?, side)?,
            ["station", "all"] => {
                self.write(Fact::StationSet { run: self.id(), open: true, group: None, check: false })
            }
            ["station", "left"] => {
                self.write(Fact::StationSet { run: self.id(), open: false, group: None, check: false })
            }
            ["station", group] => {
                let group = Some(GroupNo(number::<u8>(group)? - 1));
                self.write(Fact::StationSet { run: self.id(), open: true, group, check: false });
            }
            ["finish"] => self.write(Fact::RunFinished { run: self.id() }),
            ["effort", name] => self.effort(name, None)?,
            ["effort", name, kind] => self.effort(name, Some(kind.to_owned()))?,
            ["kind", n, kind] => self.kind(number(n)?, kind)?,
            ["told", name, good, "of", of] => self.told(name, self.run().main.open_series(), good, of)?,
            ["told", name, good, "of", of, "series", no] => self.told(name, number(no)?, good, of)?,
            ["next", "series"] => {
                let told_no = self.run().main.next_series().ok_or("nothing told in this one")?;
                self.write(Fact::ToldSeriesOpened { run: self.id(), told_no });
            }
            ["correct", n, name, outcome] => self.correct(number(n)?, name, outcome)?,
            ["step", n, step] => self.correct_step(number(n)?, step)?,
            ["take", "back", "rally", n] => self.take_rally(number(n)?, true)?,
            ["put", "back", "rally", n] => self.take_rally(number(n)?, false)?,
            ["take", "back", n] => self.take(number(n)?, true)?,
            ["put", "back", n] => self.take(number(n)?, false)?,
            ["shift", "from", n] => self.shift(number(n)?)?,
            [name, outcome] => self.tap(name, outcome, None, None)?,
            [name, outcome, "served", "by", server] => self.tap(name, outcome, Some(server), None)?,
            [name, outcome, "at", shown] => self.tap(name, outcome, None, Some(number(shown)?))?,
            _ => return Err("not a tap".to_owned()),
        }
        Ok(())
    }

    fn start(&mut self, words: &[&str]) -> Played {
        let spec = spec(words)?;
        if let Some(fault) = spec.fault() {
            return Err(format!("{fault:?}"));
        }
        let here: Vec<PlayerId> = (0..self.names.len()).map(child).collect();
        "a".clone_into(&mut self.page);
        let lineup = Lineup { groups: dealt(&spec, &here), ..Lineup::opening(&spec, &here, &[]) };
        self.write(run_started(&spec, lineup));
        Ok(())
    }

    /// Notes it, and the change of places that is due then, as the app does.
    fn write(&mut self, fact: Fact) {
        let was = self.run.as_ref().map(RunState::stood);
        self.note(fact);
        if let Some(due) = was.and_then(|was| self.run().places_due(&was)) {
            self.note(due);
        }
    }

    /// Later pages get lower clocks and series, the worst that importing can bring.
    fn note(&mut self, fact: Fact) {
        let n = self.pages.len() as u64;
        let page = self.pages.entry(self.page.clone()).or_insert_with(|| Page::new(100 - n, 1_000 - 100 * n));
        let same_tap = std::mem::take(&mut self.same_tap);
        let entry = if same_tap { page.write_with_it(fact) } else { page.write(fact) };
        self.log.push(entry.clone());
        match &mut self.run {
            None => self.run = RunState::fold(vec![entry]),
            Some(run) => {
                self.before.insert(entry.id, run.main.clone());
                run.note(entry);
            }
        }
        let whole = RunState::fold(shuffled(&self.log, self.log.len() as u64));
        assert_eq!(self.run, whole, "advancing by one entry differs from folding all");
    }

    /// With the serve that the same tap noted.
    fn undo(&mut self) -> Played {
        let last = self.run().next_undo().ok_or("nothing to undo")?;
        let targets: Vec<EntryId> =
            [Some(last), self.run().serve_with(last)].into_iter().flatten().map(|e| e.id).collect();
        for target in &targets {
            let revision = self.run().amended.next_take_back(*target);
            self.write(Fact::EntryTakenBack { run: Some(self.id()), target: *target, revision, back: true });
        }
        if let Some(before) = targets.last().and_then(|target| self.before.get(target)) {
            assert_eq!(&self.run().main, before, "undo restores what was there before");
        }
        Ok(())
    }

    fn with_presence(&self, name: &str, here: bool) -> Result<Lineup, String> {
        let run = self.run();
        Ok(run.main.lineup.with_presence_in(&run.spec.rule, self.child(name)?, here))
    }

    fn line_up(&mut self, lineup: Lineup, cause: LineupCause) {
        self.write(Fact::LineupSet { run: self.id(), lineup, cause });
    }

    /// `-` is a ball of the group; `next` is the child whose turn it is.
    fn tap(&mut self, name: &str, outcome: &str, server: Option<&str>, clock_ms: Option<u32>) -> Played {
        let run = self.run();
        let player = match name {
            "-" => None,
            "next" => Some(run.main.current(&run.spec).ok_or("nobody is next")?),
            name => Some(self.child(name)?),
        };
        let mut touched = contact(&run.spec, player, judged(outcome)?);
        touched.feed = run.main.feed;
        touched.group = player.and_then(|p| run.main.lineup.group_of(p));
        touched.clock_ms = clock_ms;
        touched.place = player.and_then(|p| run.main.lineup.place_of(p));
        touched.self_scored = run.main.station.is_some();
        touched.watched = !touched.self_scored && run.spec.board.order() == Some(LineOrder::TenForOne);
        if let Some(score) = run.main.transition() {
            let next = score.next();
            touched.turn = Some(next.turn);
            touched.feed.kind = next.kind;
            if next.kind == FeedKind::Challenge {
                touched.server = match server {
                    Some(name) => Some(self.child(name)?),
                    None => run.main.current(&run.spec),
                };
            }
        }
        self.write(Fact::ContactNoted { run: self.id(), contact: touched });
        Ok(())
    }

    fn children(&self, names: &[&str]) -> Result<Vec<PlayerId>, String> {
        names.iter().map(|name| self.child(name)).collect()
    }

    /// A ball of a group, no child named. Groups count from 1 in a script.
    fn lane(&mut self, no: &str, outcome: Outcome, clock_ms: Option<u32>) -> Played {
        let run = self.run();
        let group = Some(GroupNo(number::<u8>(no)?.saturating_sub(1)));
        let touched = Contact { group, clock_ms, feed: run.main.feed, ..contact(&run.spec, None, outcome) };
        self.write(Fact::ContactNoted { run: self.id(), contact: touched });
        Ok(())
    }

    fn said(&mut self, what: &str, on: bool) -> Played {
        let what = match what {
            "other" => Said::OtherSide,
            "second" => Said::Second,
            _ => return Err(format!("nothing to say: {what}")),
        };
        self.write(Fact::ServeSaid { run: self.id(), what, on });
        Ok(())
    }

    /// Who serves and who receives the rally that comes, each side by position.
    fn in_match(&self) -> Result<(Side, Vec<PlayerId>, Vec<PlayerId>), String> {
        let run = self.run();
        let score = run.main.score.match_game().ok_or("no match")?;
        let next = score.serves_next();
        let served = if run.main.serve_said.other_side { next.other() } else { next };
        let a_side = usize::from(score.rule().a_side);
        let team = |side| {
            let at = usize::from(side == Side::Far);
            run.main.lineup.groups.get(at).map_or_else(Vec::new, |g| g.iter().copied().take(a_side).collect())
        };
        Ok((served, team(served), team(served.other())))
    }

    /// One tap: the serve of whoever stands at 1, and the rally where it decides it.
    fn serve(&mut self, outcome: Outcome, whole: bool) -> Played {
        let (served, servers, _) = self.in_match()?;
        if self.run().main.note_next() != Some(NoteNext::Serve) {
            return Err("no serve is due".to_owned());
        }
        let group = Some(GroupNo(u8::from(served == Side::Far)));
        let (role, good_from) = (Role::Server, GoodFrom::ServeIn);
        let noted = Contact { role, good_from, group, ..contact(&self.run().spec, servers.first().copied(), outcome) };
        self.write(Fact::ContactNoted { run: self.id(), contact: noted });
        if let Outcome::Serve { outcome, .. } = outcome
            && let Some(won) = decided_by(outcome, served).filter(|_| whole)
        {
            self.same_tap = true;
            self.won(if won == Side::Near { "near" } else { "far" }, None)?;
        }
        Ok(())
    }

    /// The pass of the child that was named.
    fn pass(&mut self, outcome: Outcome) -> Played {
        let (served, servers, _) = self.in_match()?;
        let Some(NoteNext::Grade(player)) = self.run().main.note_next() else {
            return Err("no pass is due".to_owned());
        };
        let (role, good_from) = (Role::Passer, GoodFrom::Grade(PassGrade::Moved));
        let (group, server) = (Some(GroupNo(u8::from(served == Side::Near))), servers.first().copied());
        let noted = Contact { role, good_from, group, server, ..contact(&self.run().spec, Some(player), outcome) };
        self.write(Fact::ContactNoted { run: self.id(), contact: noted });
        Ok(())
    }

    /// A rally as the court stands; who serves is as the rule proposes, unless it is said.
    fn won(&mut self, won: &str, served: Option<&str>) -> Played {
        let run = self.run();
        let said = run.main.serve_said;
        let a_side = usize::from(run.spec.rule.a_side().unwrap_or(6));
        let team = |at: usize| run.main.lineup.groups.get(at).map(|g| g.iter().copied().take(a_side).collect());
        let (near, far) = (team(0).ok_or("nobody near")?, team(1).ok_or("nobody far")?);
        let served = match (served, &run.main.score) {
            (Some(side), _) => side_of(side)?,
            (None, Score::WinnersStay(score)) => score.serves_next(),
            (None, Score::MatchGame(score)) if said.other_side => score.serves_next().other(),
            (None, Score::MatchGame(score)) => score.serves_next(),
            _ => return Err("no game".to_owned()),
        };
        let rally = Rally { near, far, served, won: side_of(won)?, second_serve: said.second };
        self.write(Fact::RallyNoted { run: self.id(), rally });
        Ok(())
    }

    fn rewon(&mut self, n: usize, won: &str) -> Played {
        let rally = self.run().main.rallies.get(n.wrapping_sub(1)).ok_or("no such rally")?.id;
        let revision = self.run().amended.next_rally_revision(rally);
        self.write(Fact::RallyCorrected { run: self.id(), rally, revision, won: side_of(won)? });
        Ok(())
    }

    /// The n-th contact as it was written, taken back since or not.
    fn take(&mut self, n: usize, back: bool) -> Played {
        self.take_nth(n, back, |fact| matches!(fact, Fact::ContactNoted { .. }))
    }

    fn take_rally(&mut self, n: usize, back: bool) -> Played {
        self.take_nth(n, back, |fact| matches!(fact, Fact::RallyNoted { .. }))
    }

    fn take_nth(&mut self, n: usize, back: bool, of: fn(&Fact) -> bool) -> Played {
        let target = self.log.iter().filter(|e| of(&e.fact)).nth(n.wrapping_sub(1)).ok_or("no such ball")?.id;
        let revision = self.run().amended.next_take_back(target);
        self.write(Fact::EntryTakenBack { run: Some(self.id()), target, revision, back });
        self.before.clear();
        Ok(())
    }

    fn effort(&mut self, name: &str, kind: Option<String>) -> Played {
        let player = if name == "-" { None } else { Some(self.child(name)?) };
        self.write(Fact::EffortNoted { run: self.id(), player, kind });
        Ok(())
    }

    fn kind(&mut self, n: usize, kind: &str) -> Played {
        let effort = self.run().main.efforts.get(n.wrapping_sub(1)).ok_or("no such effort")?;
        let (effort, player) = (effort.id, effort.player);
        let revision = self.run().amended.next_effort_revision(effort);
        self.write(Fact::EffortCorrected { run: self.id(), effort, revision, player, kind: Some(kind.to_owned()) });
        Ok(())
    }

    fn told(&mut self, name: &str, told_no: u16, good: &str, of: &str) -> Played {
        let spec = &self.run().spec;
        let (good_from, feed) = (spec.good_from, spec.feed);
        let (player, good, of, run) = (self.child(name)?, number(good)?, number(of)?, self.id());
        self.write(Fact::CountTold { run, player, told_no, good, of, good_from, feed, self_scored: true });
        Ok(())
    }

    /// The n-th contact as it counts now, with what the next correction of it has to carry.
    fn correction(&self, n: usize) -> Result<Correction, String> {
        let had = self.run().main.contacts.get(n.wrapping_sub(1)).ok_or("no such contact")?;
        let (contact, revision): (ContactId, Revision) = (had.id, self.run().amended.next_contact_revision(had.id));
        let (player, outcome, step) = (had.contact.player, had.contact.outcome, had.contact.feed.step);
        Ok(Correction { contact, revision, player, outcome, step })
    }

    fn correct(&mut self, n: usize, name: &str, outcome: &str) -> Played {
        let change = Correction { player: Some(self.child(name)?), outcome: judged(outcome)?, ..self.correction(n)? };
        self.write(Fact::ContactsCorrected { run: self.id(), changes: vec![change] });
        Ok(())
    }

    fn correct_step(&mut self, n: usize, step: &str) -> Played {
        let change = Correction { step: Step(number(step)?), ..self.correction(n)? };
        self.write(Fact::ContactsCorrected { run: self.id(), changes: vec![change] });
        Ok(())
    }

    /// A ball was skipped before the n-th contact: from there on each is the next child's.
    fn shift(&mut self, n: usize) -> Played {
        let line = self.run().main.lineup.waiting.clone();
        let mut changes = Vec::new();
        for n in n..=self.run().main.contacts.len() {
            let had = self.correction(n)?;
            let at = line.iter().position(|p| Some(*p) == had.player).ok_or("not in the line")?;
            changes.push(Correction { player: Some(line[(at + 1) % line.len()]), ..had });
        }
        self.write(Fact::ContactsCorrected { run: self.id(), changes });
        Ok(())
    }
}

fn number<T: std::str::FromStr>(word: &str) -> Result<T, String> {
    word.parse().map_err(|_| format!("not a number: {word}"))
}

fn side_of(word: &str) -> Result<Side, String> {
    match word {
        "near" => Ok(Side::Near),
        "far" => Ok(Side::Far),
        _ => Err(format!("no such side: {word}")),
    }
}

/// Groups as cards are dealt: of the number that the drill wants, in a game of so many a side.
fn dealt(spec: &DrillSpec, here: &[PlayerId]) -> Vec<Vec<PlayerId>> {
    let of_game = spec.rule.a_side().map(|n| (here.len() / usize::from(n)).max(2));
    let n = spec.on_floor.groups.map(usize::from).or(of_game).unwrap_or(0);
    (0..n).map(|at| here.iter().copied().skip(at).step_by(n).collect()).collect()
}

/// `goal 30`, `inrow 10 group five`, `tens 10`, `firstto 10 bytwo`, `intime 60 child`, `together row beat 30`,
/// `winners 2 to 1 off 3 all`, `match 3 to 15 cap 5 serves passes`.
fn rule(words: &[&str]) -> Result<Rule, String> {
    let has = |word: &str| words.contains(&word);
    let after = |key: &str| words.iter().position(|w| *w == key).and_then(|at| words.get(at + 1)).copied();
    let whose = if has("child") { Whose::Child } else { Whose::Group };
    let small = |key| after(key).map(number::<u8>).transpose();
    let count = |key| after(key).map(number::<u16>).transpose();
    Ok(if has("inrow") {
        Rule::InRow(InRow { goal: count("inrow")?.filter(|n| *n > 0), whose, falls_to_five: has("five") })
    } else if let Some(n) = small("tens")? {
        Rule::Tens(Tens { n })
    } else if let Some(n) = count("firstto")? {
        Rule::FirstTo(FirstTo { n, by_two: has("bytwo") })
    } else if let Some(seconds) = count("intime")? {
        Rule::InTime(InTime { seconds, whose })
    } else if has("together") {
        Rule::Together(Together { row: has("row"), balls: count("balls")?, to_beat: count("beat")? })
    } else if let Some(a_side) = small("winners")? {
        let serves = match after("serves") {
            Some("near") => Serves::WinnersSide,
            Some("winner") => Serves::LastWinner,
            _ => Serves::Challengers,
        };
        let to = small("to")?.unwrap_or(1);
        Rule::WinnersStay(WinnersStay {
            a_side,
            to,
            near_only: !has("all"),
            off_after: small("off")?,
            serves,
            ..WinnersStay::default()
        })
    } else if let Some(a_side) = small("match")? {
        let (to, serve_cap) = (count("to")?.unwrap_or(25), small("cap")?);
        Rule::MatchGame(MatchGame { a_side, to, serve_cap, serves: has("serves"), passes: has("passes") })
    } else {
        Rule::Tally { goal: count("goal")? }
    })
}

fn judged(word: &str) -> Result<Outcome, String> {
    let (word, fast) = word.strip_suffix("!").map_or((word, false), |w| (w, true));
    let pass = |grade| Outcome::Pass { grade, over_net: false };
    let serve = |outcome| Outcome::Serve { outcome, fast };
    Ok(match word {
        "3" => pass(PassGrade::Stood),
        "2" => pass(PassGrade::Moved),
        "1" => pass(PassGrade::Chased),
        "0" => pass(PassGrade::Gone),
        "over" => Outcome::Pass { grade: PassGrade::Gone, over_net: true },
        "ace" => serve(ServeOutcome::Ace),
        "in" => serve(ServeOutcome::In),
        "long" => serve(ServeOutcome::Long),
        "wide" => serve(ServeOutcome::Wide),
        "net" => serve(ServeOutcome::Net),
        "missed" => Outcome::ServeMissed,
        "good" => Outcome::TwoKey { good: true },
        "not" => Outcome::TwoKey { good: false },
        "nochance" => Outcome::NoChance,
        "counted" => Outcome::Counted,
        _ => return Err(format!("no such outcome: {word}")),
    })
}

/// `floor 3 goal 30 good 2`, `serveline turn good fast`, `floor 2 transition easy 4 challenge 3 earn 3 children rounds 2 noswap`.
fn spec(words: &[&str]) -> Result<DrillSpec, String> {
    let order = |word: &str| match word {
        "stays" => LineOrder::Stays,
        "ten" => LineOrder::TenForOne,
        _ => LineOrder::InTurn,
    };
    let receiver = words.contains(&"receiver");
    let (skill, board, good) = match words {
        ["floor", n, ..] => (Skill::Pass, Board::Floor { n_places: number(n)? }, "2"),
        ["line", o, ..] => (Skill::Pass, Board::Line { order: order(o) }, "2"),
        ["twokey", o, ..] => (Skill::Own("Setting".to_owned()), Board::Line { order: order(o) }, "key"),
        ["servers", n, ..] => (Skill::Serve, Board::ServeFloor { n_places: number(n)?, receiver }, "in"),
        ["serveline", o, ..] => (Skill::Serve, Board::ServeLine { order: order(o), receiver }, "in"),
        ["told", of, ..] => (Skill::Serve, Board::Told { of: number(of)? }, "in"),
        ["group", ..] => (Skill::Own("Setting".to_owned()), Board::Group, "key"),
        ["lanes", ..] => (Skill::Own("Setting".to_owned()), Board::Lanes, "key"),
        ["court", ..] => (Skill::Own("Playing".to_owned()), Board::Court, "key"),
        ["propped", o, ..] => (Skill::Own("Setting".to_owned()), Board::Propped { order: order(o) }, "key"),
        _ => return Err("no such board".to_owned()),
    };
    let after = |key: &str| words.iter().position(|w| *w == key).and_then(|at| words.get(at + 1)).copied();
    let good_from = match after("good").unwrap_or(good) {
        "in" => GoodFrom::ServeIn,
        "fast" => GoodFrom::FastServeIn,
        "key" => GoodFrom::GoodKey,
        digit => GoodFrom::Grade(PassGrade::from_digit(number(digit)?).ok_or("no such grade")?),
    };
    let count = |key| after(key).map(number).transpose();
    let rule = if words.contains(&"transition") {
        let d = Transition::default();
        let end = match (count("points")?, count("rounds")?) {
            (Some(n), _) => TransitionEnd::DuelPoints(n),
            (_, Some(n)) => TransitionEnd::Rounds(n),
            _ if words.contains(&"open") => TransitionEnd::Coach,
            _ => d.end,
        };
        Rule::Transition(Transition {
            n_easy: after("easy").map(number).transpose()?.unwrap_or(d.n_easy),
            n_challenge: after("challenge").map(number).transpose()?.unwrap_or(d.n_challenge),
            earn: after("earn").map(number).transpose()?,
            between: if words.contains(&"children") { DuelBetween::Children } else { d.between },
            end,
            swap: d.swap && !words.contains(&"noswap"),
        })
    } else {
        rule(words)?
    };
    let feed = DrillSpec::EASY;
    let on_floor = OnFloor { groups: after("groups").map(number).transpose()?, ..OnFloor::default() };
    Ok(DrillSpec { name: "A drill".to_owned(), skill, board, rule, good_from, feed, on_floor })
}
