//! One entry as one compact JSON text: what the database and the second copy in local storage hold, and the rare kinds of a
//! copy. Owns the fields around a fact; the fact's own are in `fact`. Keeps whatever it doesn't know.
//!
//! # Format
//! One object, names once each, in this order when written; any order is read.
//!
//! | field | unit | meaning |
//! |---|---|---|
//! | `v` | | version of the record, 1 |
//! | `id` | hex | identity: 16 digits of series, a dot, 8 digits of number; every reference is written so |
//! | `c` | | logical clock |
//! | `w` | ms | wall time since 1970-01-01 UTC |
//! | `o` | min | minutes east of UTC |
//! | `m` | ms | since the page was loaded, monotonic within a series |
//! | `k` | word | kind; then the fields of that kind |
//!
//! A field with `?` is left out where there is nothing to say; a mark (`!`) is left out where it is false.
//!
//! | kind | fields |
//! |---|---|
//! | `series-opened` | `device`, `app` version |
//! | `phone-named` | `rev`, `name` of the phone (empty: none), `opened` (identities of the entries that opened series of it) |
//! | `player-added` | `name`, `number?` on the shirt |
//! | `player-changed` | `player`, `rev`, `name`, `number?` |
//! | `player-archived` | `player`, `rev`, `archived` |
//! | `children-joined` | `stays`, `also` (both players; all that is noted of `also` counts under `stays`), `rev` |
//! | `children-told-apart` | `one`, `other` (players), `rev` |
//! | `practices-joined` | `stays`, `also` (both practices; what was counted in `also` is read with `stays`), `rev` |
//! | `practices-told-apart` | `one`, `other` (practices), `rev` |
//! | `style-noted` | `player`, `style` |
//! | `step-noted` | `player`, `drill`, `rev`, `step` |
//! | `wishes-changed` | `rev`; `together?` (lists of players), `apart?` (pairs), `tag?`, `tagged?` |
//! | `drill-added` | `spec` |
//! | `drill-changed` | `drill`, `rev`, `spec` |
//! | `drill-archived` | `drill`, `rev`, `archived` |
//! | `effort-kinds-changed` | `rev`, `kinds` |
//! | `practice-started` | `title` |
//! | `practice-ended` | `practice` |
//! | `presence-noted` | `practice`, `player`, `here` |
//! | `groups-made` | `practice`, `groups?` (lists of players), `by_hand` |
//! | `plan-made` | `gym_min`, `collect_s`, `next` (number of the next part), `parts`: objects (see below) |
//! | `plan-changed` | `plan`, `rev`; then as `plan-made`, whole |
//! | `part-begun` | `practice`, `plan`, `part` (its number), `title` |
//! | `part-ended` | `practice`, `part` |
//! | `date-set` | `day` (ISO 8601), `start_min` (minutes after midnight on the wall, in no zone), `minutes` (the gym's), `place?` |
//! | `date-changed` | `date`, `rev`; then as `date-set`, whole |
//! | `date-dropped` | `date`, `rev`, `dropped` |
//! | `date-planned` | `date`, `rev`, `plan?` |
//! | `date-held` | `date`, `rev`, `practice?` |
//! | `run-started` | `practice`, `drill?`, `spec`, `lineup`, `recorder` |
//! | `run-taken-over` | `run`, `after` (identity of the last entry seen), `recorder` |
//! | `lineup-set` | `run`, `lineup`, `cause` (`swap`, `by-hand`, `after-contact` with `contact`) |
//! | `turn-given` | `run`, `player` |
//! | `feed-set` | `run`, `feed`, `step` |
//! | `group-step-set` | `run`, `group` from 0, `step` |
//! | `clock-set` | `run`, `going`, `shown_ms`, `slept!` (stopped by a sleep) |
//! | `station-set` | `run`, `open`, `group?`, `check!` (the coach judges ten balls too) |
//! | `ball-checked` | `run`, `contact` (scored by the child), `outcome` with `over_net!` or `fast!` (the coach's; `no-chance`: not seen) |
//! | `serve-said` | `run`, `what` (`other-side` or `second`), `on` |
//! | `run-finished` | `run` |
//! | `contact-noted` | `run`, `player?`, `role`, `place?` from 0, `outcome` with `over_net!` or `fast!`, `good_from`, `feed`, `step`, `style?`, `round?` with `restart`, `server?`, `self!` (scored by the child), `group?`, `shown_ms?` (of the run's clock), `watched!` |
//! | `rally-noted` | `run`, `near`, `far` (players; in a match by position), `served`, `won` (`near` or `far`), `second_serve!` |
//! | `rally-corrected` | `run`, `rally`, `rev`, `won` |
//! | `effort-noted` | `run`, `player?`, `what?` (its kind) |
//! | `count-told` | `run`, `player`, `told` (which telling), `good`, `of`, `good_from`, `feed`, `step`, `self!` |
//! | `told-series-opened` | `run`, `told` |
//! | `contacts-corrected` | `run`, `changes`: objects of `contact`, `rev`, `player?`, `outcome` with its mark, `step` |
//! | `effort-corrected` | `run`, `effort`, `rev`, `player?`, `what?` |
//! | `entry-taken-back` | `run?`, `target`, `rev`, `back` |
//! | `note-written` | about a practice, run or child alone, without tags: one of `practice`, `run`, `player`; `text`. Else `in_practice?`, `in_run?`, `in_part?` (where it was noted), `about` (`practice part run children`), `players?`, `tags?`, `text` |
//! | `note-changed` | `note`, `rev`, `about`, `players?`, `tags?`, `text` |
//! | `question-asked` | `in_practice?`, `in_run?`, `in_part?`, `player`, `question` |
//! | `child-removed` | `players` (one child by all its identities), `notes`: removed for good; beats all that is said of them |
//! | `emptied` | `practice?`, `run?`: what stood here was said of a child that was removed |
//! | `note-tags-changed` | `rev`, `tags` |
//! | `questions-changed` | `drill?` (else of any), `rev`, `questions` |
//!
//! `lineup`: `places` (identities, `null` for a gap), `waiting`, `servers`, `target?`, `getters?`, `groups?` (lists). `spec`: `name`; `skill` (`pass`, `serve`, `own` with
//! `own`, its name); `board` (`floor` and `serve-floor` with `places`, `line`, `serve-line` and `propped` with `order` `in-turn`, `stays` or
//! `ten-for-one`, `told` with `of`, `group`, `lanes`, `court`; the two serve boards with `receiver!`); `rule` (`tally` with `goal?`, `transition` with `easy`,
//! `challenge`, `earn?`, `between` `sides` or `children`, `end` `duel-points` or `rounds` with `end_at`, or `coach`, `swap!`, `in-row` with
//! `goal?`, `whose` `child` or `group`, `falls_to_five!`, `tens` with `balls`, `first-to` with `end_at`, `by_two!`, `in-time` with
//! `seconds`, `whose`, `together` with `row!`, `balls?`, `to_beat?`, `winners-stay` with `a_side`, `end_at`, `near_only!`, `off_after?`,
//! `serves` `challengers winners-side last-winner`, `second_serve!`, `paced!`, `match` with `a_side`, `end_at`, `serve_cap?`, `note_serves!`, `note_passes!`);
//! `good_from`; `feed`, `step`; `groups?`, `target!`, `getters?`, `feeders?`, `swap_balls?` or `swap_minutes?`, `challenge_by?`
//! `distracted`. A `step` counts from 0; 254 and 255 are two and one easier than 0. Words: roles `passer server target ball-getter doer`; styles `underhand roundhouse
//! standing-overhead jump`; feeds `easy challenge`; `good_from` `stood moved chased gone in fast-in good`; outcomes `stood moved
//! chased gone`, `ace in long wide net`, `missed`, `good not`, `no-chance`, `counted`.
//!
//! A part of a plan: `no`, `kind` (`arrival drill break other`), `title`, `minutes`, `drill?`, `groups?`, `balls?`, `feeds?` (a
//! minute), `locked!`, `ball!`, `net!`, `game!`, `added!` (while practice was on), `fitted?` (minutes) or `dropped!`, `why?`.
//!
//! # What a version doesn't know
//! - An unknown kind becomes `Fact::Unknown` with all its fields, each value's text untouched, and is written again as it came. So
//!   does a known kind with an unknown word in it, or with another `v` (which then stays among the fields): a newer version's
//!   meaning is kept, never guessed.
//! - An unknown field goes to `Entry::extra` and back to its place, also from inside `spec` and `lineup`.
//!
//! A later version may add kinds, words and fields within `v` 1. Whatever changes the meaning of a known field raises `v`.

use std::fmt;

use super::fact;
use super::json::{Fields, Misfit, Object, Text};
use crate::domain::entry::{Entry, Fact};
use crate::domain::ids::{Clock, EntryId};
use crate::domain::time::Stamp;

/// The version written, and the only one whose kinds are read.
pub const VERSION: u32 = 1;

/// The fields around a fact. A copy has them in columns, and nowhere else.
const AROUND: [&str; 5] = ["id", "c", "w", "o", "m"];

/// Why a text is no record.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum RecordError {
    /// The text ends early.
    CutOff,
    /// Not a JSON object; from about this byte on it is something else.
    NotAnObject {
        at: usize,
    },
    /// The same name twice in one object.
    Twice {
        field: String,
    },
    Missing {
        field: &'static str,
    },
    /// Of another type, or too large for what it counts.
    Misfit {
        field: &'static str,
    },
}

impl fmt::Display for RecordError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            RecordError::CutOff => f.write_str("the record ends early"),
            RecordError::NotAnObject { at } => write!(f, "not a JSON object at byte {at}"),
            RecordError::Twice { field } => write!(f, "the field {field:?} is there twice"),
            RecordError::Missing { field } => write!(f, "the field {field:?} is missing"),
            RecordError::Misfit { field } => write!(f, "the field {field:?} can't hold this value"),
        }
    }
}

impl std::error::Error for RecordError {}

/// The record of an entry. [`decode`] gives the very same entry back, and encoding that one gives the very same text.
///
/// ```
/// use peppertally::domain::{entry::{Entry, Fact}, ids::{Clock, EntryId}, time::Stamp};
/// use peppertally::wire::record;
/// let at = Stamp { wall_ms: 1_700_000_000_000, offset_min: 60, mono_ms: 5 };
/// let fact = Fact::PlayerAdded { name: "Mira".to_owned(), number: None };
/// let entry = Entry { id: EntryId::new(0xaf, 12), clock: Clock(13), at, fact, extra: None };
/// let text = record::encode(&entry);
/// assert_eq!(
///     text,
///     r#"{"v":1,"id":"00000000000000af.0000000c","c":13,"w":1700000000000,"o":60,"m":5,"k":"player-added","name":"Mira"}"#
/// );
/// assert_eq!(record::decode(&text), Ok(entry));
/// ```
pub fn encode(entry: &Entry) -> String {
    let mut object = Object::default();
    push_version(&mut object, entry);
    object.text("id", &entry.id.to_string());
    object.number("c", entry.clock.0);
    object.number("w", entry.at.wall_ms);
    object.number("o", entry.at.offset_min);
    object.number("m", entry.at.mono_ms);
    push_fact(&mut object, entry);
    object.to_string()
}

/// The entry of a record.
///
/// # Errors
/// [`RecordError`] for a text that is no record of any version. What is merely newer is kept, not refused.
pub fn decode(text: &str) -> Result<Entry, RecordError> {
    let mut fields = Fields::parse(text)?;
    let id = fields.need::<IdText>("id")?.0;
    let clock = Clock(fields.need("c")?);
    let at = Stamp { wall_ms: fields.need("w")?, offset_min: fields.need("o")?, mono_ms: fields.need("m")? };
    let (fact, extra) = take_fact(&mut fields, &AROUND)?;
    Ok(Entry { id, clock, at, fact, extra })
}

/// The fact of an entry without what is around it: how a copy holds the rare kinds. `v` is left out where it is 1.
pub(super) fn encode_fact(entry: &Entry) -> String {
    let mut object = Object::default();
    push_fact(&mut object, entry);
    object.to_string()
}

/// What [`encode_fact`] wrote. The fields around a fact have no place in it.
pub(super) fn decode_fact(text: &str) -> Result<(Fact, Option<Box<str>>), RecordError> {
    let mut fields = Fields::parse(text)?;
    match AROUND.iter().find(|name| fields.has(name)) {
        Some(name) => Err(RecordError::Twice { field: (*name).to_owned() }),
        None => take_fact(&mut fields, &[]),
    }
}

/// `v` stands first, unless the fields of an unknown version bring their own.
fn push_version(object: &mut Object, entry: &Entry) {
    let own = match &entry.fact {
        Fact::Unknown { body, .. } => Fields::parse(body).is_ok_and(|fields| fields.has("v")),
        _ => false,
    };
    if !own {
        object.number("v", VERSION);
    }
}

fn push_fact(object: &mut Object, entry: &Entry) {
    fact::write(&entry.fact, object);
    if let Some(extra) = &entry.extra {
        object.merge(extra);
    }
}

/// The fact and what is unknown beside it; `around` are the names that are no part of it.
fn take_fact(fields: &mut Fields<'_>, around: &[&str]) -> Result<(Fact, Option<Box<str>>), RecordError> {
    let version = fields.maybe::<u32>("v")?.unwrap_or(VERSION);
    let kind = fields.text("k")?.into_owned();
    if version == VERSION {
        match fact::read(&kind, fields) {
            Ok(fact) => return Ok((fact, fields.rest().map(String::into_boxed_str))),
            Err(Misfit::Broken(error)) => return Err(error),
            Err(Misfit::Newer) => {}
        }
    }
    let own = if version == VERSION { &["k", "v"][..] } else { &["k"][..] };
    fields.restore(&[around, own].concat());
    let body = fields.rest().unwrap_or_else(|| "{}".to_owned()).into_boxed_str();
    Ok((Fact::Unknown { kind, body }, None))
}

/// An identity written as `EntryId` displays it.
pub(super) struct IdText(pub EntryId);

impl<'de> serde::Deserialize<'de> for IdText {
    fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = Text::deserialize(deserializer)?;
        EntryId::from_text(&text.0).map(IdText).ok_or_else(|| serde::de::Error::custom("not an identity"))
    }
}
