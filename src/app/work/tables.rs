//! Tables of contacts or of children, for a spreadsheet: folded practice after practice from what is stored, so that memory holds one at a time.

use serde::{Deserialize, Serialize};

use super::copies::{gathered, stamped};
use super::doing::{Done, Found};
use super::practices::folded;
use super::{Answer, At, family};
use crate::app::words;
use crate::domain::ids::{EntryId, PlayerId, PracticeId};
use crate::domain::replay::base::{Base, Practice};
use crate::domain::replay::run::RunState;
use crate::domain::summary::PracticeSummary;
use crate::stats::arrange::arranged;
use crate::wire::table::{Fault, Table};

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum TableOf {
    Contacts,
    Children,
    /// No table but a page to be read, of one child.
    Page,
}

/// What goes out, and how much of it.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Goes {
    /// `None`: a copy, which another phone takes in.
    pub table: Option<TableOf>,
    pub span: Span,
    /// One child's own data, and no other child in it: no copy.
    pub only: Option<String>,
}

impl Goes {
    /// Whoever has this file has everything.
    pub fn is_whole(&self) -> bool {
        self.table.is_none() && self.span == Span::All && self.only.is_none()
    }
}

/// Which practices go out.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Span {
    #[default]
    All,
    /// Those that began at this wall time or later.
    Since(i64),
    /// One, by its key.
    One(String),
}

impl Span {
    /// Practices that are one go out together.
    pub fn holds(&self, practice: &Practice, base: &Base) -> bool {
        let is_of = |practice: &Practice| match self {
            Span::All => true,
            Span::Since(wall_ms) => practice.started.wall_ms >= *wall_ms,
            Span::One(key) => practice.id.0.to_string() == *key,
        };
        let with_it = || base.as_one().set(practice.id).iter().filter_map(|id| base.practice(*id));
        is_of(practice) || with_it().any(|practice| is_of(&practice))
    }
}

pub fn write(of: TableOf, goes: &Goes, at: At, records: &[String], found: &Found) -> Done {
    let Goes { span, only, .. } = goes;
    let gathered = gathered(records, found);
    let log = &gathered.entries;
    let base = Base::fold(log.iter());
    let practices: Vec<Practice> =
        base.practices().into_iter().filter(|practice| span.holds(practice, &base)).collect();
    let child = match only.as_ref().map(|key| EntryId::from_text(key).and_then(|id| base.player(PlayerId(id)))) {
        Some(None) => return Done::refused(words::copies::NO_CHILD.to_owned()),
        child => child.flatten(),
    };
    let title = |title: &str| match &child {
        Some(child) => family::without_others(title, child.id, &base).unwrap_or_default(),
        None => title.to_owned(),
    };
    let written = || -> Result<Vec<u8>, Fault> {
        let id = child.as_ref().map(|child| child.id);
        // What goes to one family is for somebody who reads it.
        let mut page = child.as_ref().filter(|_| of == TableOf::Page).map(|child| family::Page::of(&base, child));
        let mut balls = child.as_ref().filter(|_| of == TableOf::Contacts).map(|child| family::Balls::of(&base, child));
        let mut table = if of == TableOf::Children { Table::of_children(id)? } else { Table::of_contacts()? };
        for evening in evenings(practices, &base) {
            let of_each: Vec<(&Practice, Vec<RunState>)> =
                evening.iter().map(|practice| (practice, folded(practice, log.iter(), base.same()))).collect();
            if of == TableOf::Children {
                let each: Vec<PracticeSummary> =
                    of_each.iter().map(|(practice, runs)| PracticeSummary::of(practice, runs.iter())).collect();
                if let Some(summary) = PracticeSummary::joined(&each.iter().collect::<Vec<_>>()) {
                    table.practice(&base, &PracticeSummary { title: title(&summary.title), ..summary })?;
                }
                continue;
            }
            let Some(practice) = evening.first() else { continue };
            let runs = of_each.into_iter().flat_map(|(_, runs)| runs).collect();
            let runs = arranged(runs, |a: &RunState, b| (a.started.wall_ms, a.id).cmp(&(b.started.wall_ms, b.id)));
            match (&mut page, &mut balls) {
                (Some(page), _) => page.practice(practice, &runs),
                (_, Some(balls)) => balls.practice(&runs),
                _ => runs.iter().try_for_each(|run| table.run(&base, practice, run))?,
            }
        }
        match (page, balls) {
            (Some(page), _) => Ok(page.finish(at.into()).into_bytes()),
            (_, Some(balls)) => balls.finish(),
            _ => table.finish(),
        }
    };
    let name = match (of, &child) {
        // Two children's files lie beside each other, and each goes to another family.
        (_, Some(child)) => plain(&child.name),
        (TableOf::Children, None) => "children".to_owned(),
        (_, None) => "contacts".to_owned(),
    };
    let end = if of == TableOf::Page { "html" } else { "csv" };
    match written().map(String::from_utf8) {
        Ok(Ok(text)) => Done {
            answer: Answer::Copied { name: stamped(&name, at, end), missing: gathered.missing(0) },
            change: None,
            file: Some(text),
        },
        Ok(Err(fault)) => Done::refused(words::copies::failed(&fault.to_string())),
        Err(fault) => Done::refused(words::copies::failed(&fault.to_string())),
    }
}

/// Each practice with those that are one with it, the one that they are read under first.
fn evenings(practices: Vec<Practice>, base: &Base) -> Vec<Vec<Practice>> {
    let mut all: Vec<Vec<Practice>> = Vec::new();
    for practice in &practices {
        let set = base.as_one().set(practice.id);
        if set.is_empty() {
            all.push(vec![practice.clone()]);
        } else if all.iter().flatten().all(|known| known.id != practice.id) {
            let of = |id: &PracticeId| practices.iter().find(|other| other.id == *id).cloned();
            all.push(set.iter().filter_map(of).collect());
        }
    }
    all
}

/// A name as any file may be called.
fn plain(name: &str) -> String {
    let words = name.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
    let name = words.map(str::to_lowercase).collect::<Vec<_>>().join("-");
    if name.is_empty() { "child".to_owned() } else { name }
}
