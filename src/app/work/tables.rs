//! Tables of contacts or of children, for a spreadsheet: folded practice after practice from what is stored, so that memory holds one at a time.

use serde::{Deserialize, Serialize};

use super::copies::{gathered, stamped};
use super::doing::{Done, Found};
use super::practices::folded;
use super::{Answer, At};
use crate::app::words;
use crate::domain::replay::base::{Base, Practice};
use crate::domain::summary::PracticeSummary;
use crate::wire::table::{Fault, Table};

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum TableOf {
    Contacts,
    Children,
}

/// What goes out, and how much of it.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Goes {
    /// `None`: a copy, which another phone takes in.
    pub table: Option<TableOf>,
    pub span: Span,
}

impl Goes {
    /// Whoever has this file has everything.
    pub fn is_whole(&self) -> bool {
        self.table.is_none() && self.span == Span::All
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
    pub fn holds(&self, practice: &Practice) -> bool {
        match self {
            Span::All => true,
            Span::Since(wall_ms) => practice.started.wall_ms >= *wall_ms,
            Span::One(key) => practice.id.0.to_string() == *key,
        }
    }
}

pub fn write(of: TableOf, span: &Span, at: At, records: &[String], found: &Found) -> Done {
    let gathered = gathered(records, found);
    let log = &gathered.entries;
    let base = Base::fold(log.iter());
    let practices: Vec<Practice> = base.practices().into_iter().filter(|practice| span.holds(practice)).collect();
    let written = || -> Result<Vec<u8>, Fault> {
        let mut table = match of {
            TableOf::Contacts => Table::of_contacts()?,
            TableOf::Children => Table::of_children()?,
        };
        for practice in &practices {
            let runs = folded(practice, log.iter());
            match of {
                TableOf::Contacts => runs.iter().try_for_each(|run| table.run(&base, practice, run))?,
                TableOf::Children => table.practice(&base, &PracticeSummary::of(practice, runs.iter()))?,
            }
        }
        table.finish()
    };
    let name = match of {
        TableOf::Contacts => "contacts",
        TableOf::Children => "children",
    };
    match written().map(String::from_utf8) {
        Ok(Ok(text)) => Done {
            answer: Answer::Copied { name: stamped(name, at, "csv"), missing: gathered.missing(0) },
            change: None,
            file: Some(text),
        },
        Ok(Err(fault)) => Done::refused(words::copies::failed(&fault.to_string())),
        Err(fault) => Done::refused(words::copies::failed(&fault.to_string())),
    }
}
