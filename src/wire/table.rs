//! Tables for a spreadsheet or a database: every contact, a line each; every child and practice, a line each. CSV by RFC 4180, in UTF-8
//! behind a byte order mark, which spreadsheets need for accents. One way only: what is read back is the copy (`file`).
//!
//! A text that a spreadsheet would take for a formula (its first character is one of `= + - @`, a tab or a line end) gets an apostrophe
//! before it (OWASP, CSV Injection). Marks are 1 or 0, what isn't known is empty, times are ISO 8601 with their offset.
//!
//! | contacts | meaning |
//! |---|---|
//! | `id` | identity: the same ball has the same one in every phone's table |
//! | `corrected` | empty, or what its correction ranks by: of two lines with one `id` the one with the higher text holds |
//! | `stands`, `taken` | 0: taken back, it counts nowhere; and what that ranks by: the `stands` of the line with the higher text holds |
//! | `beside` | 1: counted by another page at the same time, perhaps the same ball, so it is added to nothing |
//! | `practice`, `practice_start`, `run`, `drill`, `time` | where and when |
//! | `player`, `name`, `number` | whose; empty for a ball of a group |
//! | `skill`, `role`, `place`, `group` | places and groups count from 1 |
//! | `outcome`, `mark` | as in a record; `over_net` or `fast` |
//! | `good` | 1, 0, or empty where it was nobody's try |
//! | `good_from`, `feed`, `step`, `style` | what counted as good, the ball given, the kind of serve |
//! | `round`, `server`, `by_child`, `watched` | of transition scoring; who served; who judged it |
//!
//! | children | meaning |
//! |---|---|
//! | `practice`, `practice_start`, `title`, `player`, `name`, `number` | a child in a practice |
//! | `tries`, `good` | judged ball by ball, easy and challenge balls together, without those beside |
//! | `easy_…`, `challenge_…`, `told_…` | the same apart, and the numbers told; `best_row_…` the longest row |
//! | `no_chance`, `counted`, `efforts` | balls that were nobody's try, good ones alone counted, efforts noticed |
//! | `judged`, `served_tossed`, `caught`, `fetched` | touches, the last three by the places as they stood |
//! | `rallies`, `court_s` | of games |

use super::words::{FEEDS, GOOD_FROM, OUTCOMES, ROLES, STYLES, unmarked};
use crate::domain::entry::{Contact, Fact};
use crate::domain::ids::{ContactId, PlayerId};
use crate::domain::replay::amend::Rank;
use crate::domain::replay::base::{Base, Practice};
use crate::domain::replay::run::RunState;
use crate::domain::skill::{Outcome, Skill};
use crate::domain::summary::{Counts, PracticeSummary};
use crate::domain::time::Stamp;
use crate::domain::touches::Touches;

/// Why a table can't be written.
pub type Fault = csv::Error;

const CONTACTS: [&str; 28] = [
    "id",
    "corrected",
    "stands",
    "taken",
    "beside",
    "practice",
    "practice_start",
    "run",
    "drill",
    "time",
    "player",
    "name",
    "number",
    "skill",
    "role",
    "place",
    "group",
    "outcome",
    "mark",
    "good",
    "good_from",
    "feed",
    "step",
    "style",
    "round",
    "server",
    "by_child",
    "watched",
];
const CHILDREN: [&str; 25] = [
    "practice",
    "practice_start",
    "title",
    "player",
    "name",
    "number",
    "tries",
    "good",
    "easy_tries",
    "easy_good",
    "challenge_tries",
    "challenge_good",
    "told_tries",
    "told_good",
    "best_row_easy",
    "best_row_challenge",
    "no_chance",
    "counted",
    "efforts",
    "judged",
    "served_tossed",
    "caught",
    "fetched",
    "rallies",
    "court_s",
];
const BYTE_ORDER_MARK: &[u8] = b"\xef\xbb\xbf";

/// A table being written, practice after practice.
pub struct Table {
    writer: csv::Writer<Vec<u8>>,
    /// Of this child alone: no other one is in it.
    only: Option<PlayerId>,
}

impl Table {
    /// # Errors
    /// [`Fault`] where there is no room for it, as for everything below.
    pub fn of_contacts() -> Result<Table, Fault> {
        Table::with(&CONTACTS, None)
    }

    pub fn of_children(only: Option<PlayerId>) -> Result<Table, Fault> {
        Table::with(&CHILDREN, only)
    }

    /// Every contact of a run, those beside and those taken back too.
    pub fn run(&mut self, base: &Base, practice: &Practice, run: &RunState) -> Result<(), Fault> {
        let mut line = |contact: &Contact, id: ContactId, at: Stamp, stands: bool, beside: bool| {
            self.writer.write_record(contact_row(base, practice, run, contact, (id, at), [stands, beside]).0)
        };
        for (at, part) in run.parts().enumerate() {
            for counted in &part.contacts {
                line(&counted.contact, counted.id, counted.at, true, at > 0)?;
            }
        }
        for entry in run.entries().filter(|entry| run.amended.is_taken_back(entry.id)) {
            if let Fact::ContactNoted { contact, .. } = &entry.fact {
                let id = ContactId(entry.id);
                line(&run.amended.read(id, contact), id, entry.at, false, false)?;
            }
        }
        Ok(())
    }

    /// Every child that took part in a practice.
    pub fn practice(&mut self, base: &Base, summary: &PracticeSummary) -> Result<(), Fault> {
        for player in summary.everyone().into_iter().filter(|player| self.only.is_none_or(|only| only == *player)) {
            self.writer.write_record(child_row(base, summary, player).0)?;
        }
        Ok(())
    }

    pub fn finish(self) -> Result<Vec<u8>, Fault> {
        let rows = self.writer.into_inner().map_err(|error| Fault::from(error.into_error()))?;
        Ok([BYTE_ORDER_MARK, &rows].concat())
    }

    fn with(head: &[&str], only: Option<PlayerId>) -> Result<Table, Fault> {
        let mut writer = csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
        writer.write_record(head)?;
        Ok(Table { writer, only })
    }
}

/// A table of words alone, for somebody who reads it.
///
/// # Errors
/// [`Fault`] where there is no room for it.
pub fn of_words(head: &[&str], lines: impl IntoIterator<Item = Vec<String>>) -> Result<Vec<u8>, Fault> {
    let mut table = Table::with(head, None)?;
    for line in lines {
        table.writer.write_record(line.iter().fold(Row::default(), |row, cell| row.text(cell)).0)?;
    }
    table.finish()
}

/// The fields of a line, in order.
#[derive(Default)]
struct Row(Vec<String>);

impl Row {
    /// What this app wrote by itself: identities, words, numbers.
    fn own(mut self, value: impl ToString) -> Row {
        self.0.push(value.to_string());
        self
    }

    fn maybe(self, value: Option<impl ToString>) -> Row {
        self.own(value.map_or_else(String::new, |value| value.to_string()))
    }

    fn mark(self, is: bool) -> Row {
        self.own(u8::from(is))
    }

    /// What a person wrote.
    fn text(self, text: &str) -> Row {
        let formula = text.starts_with(['=', '+', '-', '@', '\t', '\r', '\n']);
        self.own(format!("{}{text}", if formula { "'" } else { "" }))
    }

    fn player(self, base: &Base, player: Option<PlayerId>) -> Row {
        let known = player.and_then(|player| base.player(player));
        self.maybe(player.map(|player| player.0))
            .text(known.as_ref().map_or("", |known| known.name.as_str()))
            .maybe(known.and_then(|known| known.number).map(|number| number.0))
    }

    fn counts(self, counts: &Counts) -> Row {
        let judged = counts.easy + counts.challenge;
        [judged, counts.easy, counts.challenge, counts.told]
            .iter()
            .fold(self, |row, count| row.own(count.tries()).own(count.good()))
            .own(counts.best_easy)
            .own(counts.best_challenge)
            .own(counts.n_no_chance)
            .own(counts.n_counted)
            .own(counts.n_efforts)
    }
}

fn contact_row(
    base: &Base,
    practice: &Practice,
    run: &RunState,
    contact: &Contact,
    (id, at): (ContactId, Stamp),
    [stands, beside]: [bool; 2],
) -> Row {
    let (plain, marked) = unmarked(contact.outcome);
    let mark = match plain {
        Outcome::Pass { .. } if marked => "over_net",
        Outcome::Serve { .. } if marked => "fast",
        _ => "",
    };
    let skill = match &run.spec.skill {
        Skill::Pass => "pass",
        Skill::Serve => "serve",
        Skill::Own(name) => name,
    };
    let (corrected, taken) = run.amended.ranks(id);
    Row::default()
        .own(id.0)
        .maybe(corrected.map(rank))
        .mark(stands)
        .maybe(taken.map(rank))
        .mark(beside)
        .own(practice.id.0)
        .maybe(practice.started.iso())
        .own(run.id.0)
        .text(&run.spec.name)
        .maybe(at.iso())
        .player(base, contact.player)
        .text(skill)
        .own(ROLES.word(contact.role))
        .maybe(contact.place.map(|place| u32::from(place.0) + 1))
        .maybe(contact.group.map(|group| u32::from(group.0) + 1))
        .own(OUTCOMES.word(plain))
        .own(mark)
        .maybe(contact.good_from.judge(contact.outcome).map(u8::from))
        .own(GOOD_FROM.word(contact.good_from))
        .own(FEEDS.word(contact.feed.kind))
        .own(contact.feed.step.height())
        .maybe(contact.style.map(|style| STYLES.word(style)))
        .maybe(contact.turn.map(|turn| turn.round.0))
        .maybe(contact.server.map(|server| server.0))
        .mark(contact.self_scored)
        .mark(contact.watched)
}

/// As texts stand in order, so do ranks: revision, clock, identity.
fn rank((revision, order): Rank) -> String {
    format!("{:010}-{:016}-{}", revision.0, order.clock.0, order.id)
}

fn child_row(base: &Base, summary: &PracticeSummary, player: PlayerId) -> Row {
    let counts = summary.runs.iter().flat_map(|run| &run.children).filter(|(child, _)| *child == player);
    let counts = counts.fold(Counts::default(), |sum, (_, counts)| sum + *counts);
    let touches = summary.runs.iter().flat_map(|run| &run.touches).filter(|(child, _)| *child == player);
    let touches = touches.fold(Touches::default(), |sum, (_, touches)| sum + *touches);
    let games = summary.runs.iter().filter_map(|run| run.game.as_ref()).flat_map(|game| &game.children);
    let (n_rallies, court_ms) = games
        .filter(|child| child.player == player)
        .fold((0u32, 0u64), |(n, ms), child| (n.saturating_add(child.n_rallies), ms + u64::from(child.court_ms)));
    Row::default()
        .own(summary.practice.0)
        .maybe(summary.started.iso())
        .text(&summary.title)
        .player(base, Some(player))
        .counts(&counts)
        .own(touches.judged)
        .own(touches.fed)
        .own(touches.caught)
        .own(touches.fetched)
        .own(n_rallies)
        .own(court_ms / 1000)
}
