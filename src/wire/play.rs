//! What belongs to groups and games, as fields of a record: groups, wishes, rallies. The table of the fields is in `record`.

use super::json::{Fields, Misfit, Object, quoted};
use super::record::{IdText, RecordError};
use super::words::Words;
use crate::domain::entry::{Rally, Said, Side, Wishes};
use crate::domain::ids::PlayerId;

pub(super) const SIDES: Words<Side> = Words(&[(Side::Near, "near"), (Side::Far, "far")]);
pub(super) const SAID: Words<Said> = Words(&[(Said::OtherSide, "other-side"), (Said::Second, "second")]);

pub(super) fn push_players(to: &mut Object, name: &str, players: &[PlayerId]) {
    to.array(name, players.iter().map(id_text));
}

/// Lists of children, left out where there are none.
pub(super) fn push_groups(to: &mut Object, name: &str, groups: &[Vec<PlayerId>]) {
    if !groups.is_empty() {
        to.array(name, groups.iter().map(|group| list(group)));
    }
}

pub(super) fn take_players(f: &mut Fields<'_>, name: &'static str) -> Result<Vec<PlayerId>, RecordError> {
    let players: Vec<IdText> = f.need(name)?;
    Ok(players.into_iter().map(|id| PlayerId(id.0)).collect())
}

pub(super) fn maybe_players(f: &mut Fields<'_>, name: &'static str) -> Result<Vec<PlayerId>, RecordError> {
    let players: Option<Vec<IdText>> = f.maybe(name)?;
    Ok(players.into_iter().flatten().map(|id| PlayerId(id.0)).collect())
}

pub(super) fn take_groups(f: &mut Fields<'_>, name: &'static str) -> Result<Vec<Vec<PlayerId>>, RecordError> {
    let groups: Option<Vec<Vec<IdText>>> = f.maybe(name)?;
    let players = |group: Vec<IdText>| group.into_iter().map(|id| PlayerId(id.0)).collect();
    Ok(groups.into_iter().flatten().map(players).collect())
}

pub(super) fn push_wishes(to: &mut Object, wishes: &Wishes) {
    push_groups(to, "together", &wishes.together);
    let apart: Vec<Vec<PlayerId>> = wishes.apart.iter().map(|pair| pair.to_vec()).collect();
    push_groups(to, "apart", &apart);
    if !wishes.tag.is_empty() {
        to.text("tag", &wishes.tag);
    }
    if !wishes.tagged.is_empty() {
        push_players(to, "tagged", &wishes.tagged);
    }
}

pub(super) fn take_wishes(f: &mut Fields<'_>) -> Result<Wishes, Misfit> {
    let pair = |players: Vec<PlayerId>| <[PlayerId; 2]>::try_from(players).map_err(|_| Misfit::Newer);
    Ok(Wishes {
        together: take_groups(f, "together")?,
        apart: take_groups(f, "apart")?.into_iter().map(pair).collect::<Result<_, _>>()?,
        tag: f.maybe::<String>("tag")?.unwrap_or_default(),
        tagged: maybe_players(f, "tagged")?,
    })
}

pub(super) fn push_rally(to: &mut Object, rally: &Rally) {
    push_players(to, "near", &rally.near);
    push_players(to, "far", &rally.far);
    to.text("served", SIDES.word(rally.served));
    to.text("won", SIDES.word(rally.won));
    to.mark("second_serve", rally.second_serve);
}

pub(super) fn take_rally(f: &mut Fields<'_>) -> Result<Rally, Misfit> {
    Ok(Rally {
        near: take_players(f, "near")?,
        far: take_players(f, "far")?,
        served: take_side(f, "served")?,
        won: take_side(f, "won")?,
        second_serve: f.mark("second_serve")?,
    })
}

pub(super) fn take_side(f: &mut Fields<'_>, name: &'static str) -> Result<Side, Misfit> {
    f.word(name, |word| SIDES.known(word))
}

fn id_text(player: &PlayerId) -> String {
    quoted(&player.0.to_string())
}

fn list(players: &[PlayerId]) -> String {
    let ids: Vec<String> = players.iter().map(id_text).collect();
    format!("[{}]", ids.join(","))
}
