//! Children who may have been entered twice, pair by pair; and what was said of such pairs.

use super::super::joining::{MayBeOne, may_be_one};
use super::super::model::Model;
use super::super::phones::{named, opening};
use super::super::practices::Practices;
use super::super::words::{self, joining as words_of};
use crate::domain::ids::{EntryId, PlayerId, SeriesId};
use crate::domain::phones::Phones;
use crate::domain::replay::joined::Pair;

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct JoiningView {
    pub lead: &'static str,
    pub asks: Vec<AskView>,
    /// Everyone, to join two of whom nobody asks.
    pub everyone: Vec<(PlayerId, String)>,
    pub joined: Vec<SaidRow>,
    pub apart: Vec<SaidRow>,
}

/// Are these two one?
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AskView {
    pub one: SideView,
    pub other: SideView,
    /// "The same shirt number, and names one letter apart."
    pub why: String,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SideView {
    pub player: PlayerId,
    pub name: String,
    pub number: Option<String>,
    /// "Entered on Ana’s phone, in 3 practices"
    pub what: String,
    /// "Keep “Mira Holm”"
    pub keep: String,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SaidRow {
    pub id: EntryId,
    pub text: String,
}

pub fn joining(model: &Model) -> JoiningView {
    let practices = Practices::of(model);
    let practices = practices.latest_first();
    let side = |id: PlayerId, with_number: bool| {
        let player = model.base.player(id)?;
        let n = practices.iter().filter(|practice| practice.took_part(id)).count();
        let number = player.number.map(|n| n.0);
        Some(SideView {
            player: id,
            what: words_of::entered(phone_of(model, id.0.series).as_deref(), n, player.archived),
            keep: words_of::keep(&words::called(&player.name, number.filter(|_| with_number), 0)),
            number: number.map(|n| n.to_string()),
            name: player.name,
        })
    };
    let ask = |MayBeOne { one, other, like }: MayBeOne| {
        let called = |id| model.base.player(id).map(|player| player.name);
        let with_number = called(one) == called(other);
        let why = words_of::why(like);
        Some(AskView { one: side(one, with_number)?, other: side(other, with_number)?, why })
    };
    let asks: Vec<AskView> = may_be_one(model).into_iter().filter_map(ask).collect();
    let (joined, apart): (Vec<Pair>, Vec<Pair>) = model.base.pairs().into_iter().partition(|pair| pair.joined);
    let row = |pair: &Pair, text: fn(&str, &str) -> String| {
        let called = |id| as_entered(model, id);
        SaidRow { id: pair.id, text: text(&called(pair.one), &called(pair.other)) }
    };
    JoiningView {
        lead: if asks.is_empty() { words_of::NONE } else { words_of::LEAD },
        asks,
        everyone: model.base.players().into_iter().map(|p| (p.id, model.name_of(p.id))).collect(),
        joined: joined.iter().map(|pair| row(pair, words_of::counts_as)).collect(),
        apart: apart.iter().map(|pair| row(pair, words_of::are_two)).collect(),
    }
}

/// "2 children may be here twice", where any may.
pub fn waiting(model: &Model) -> Option<String> {
    let n = may_be_one(model).len();
    (n > 0).then(|| words_of::waiting(n))
}

/// Whether there is anything to look at: a pair that is asked about, something that was said, or children of another phone.
pub fn row(model: &Model) -> Option<String> {
    let said = || (!model.base.pairs().is_empty()).then(|| words_of::SAID_BEFORE.to_owned());
    let theirs = || model.parcels.iter().any(|parcel| parcel.note.accepted).then(|| words_of::TITLE.to_owned());
    waiting(model).or_else(said).or_else(theirs)
}

/// As it was entered: after a join both bear one name.
fn as_entered(model: &Model, id: PlayerId) -> String {
    let known = model.base.as_entered(id);
    known.map_or_else(
        || words::UNKNOWN_CHILD.to_owned(),
        |player| words::called(&player.name, player.number.map(|n| n.0), 0),
    )
}

/// The phone that a series was written on; `None`: this one.
fn phone_of(model: &Model, series: SeriesId) -> Option<String> {
    // Of another's series the start of a practice may be among this phone's own.
    if model.own.get(opening(series)).is_some() {
        return None;
    }
    let phones = Phones::of(model.theirs.iter());
    Some(named(&phones, series).unwrap_or(words_of::ANOTHER_PHONE).to_owned())
}
