//! The demo's season, made at its first opening: squad and drills loose, each practice packed.

use super::doing::{Change, Done, Found};
use super::practices::summarised;
use super::{Answer, At};
use crate::app::demo::{Size, season};
use crate::app::words;
use crate::domain::log::Log;
use crate::domain::replay::base::Base;
use crate::domain::same::Same;
use crate::wire::{block, record, summary};

const SEED: u64 = 0x0005_ea50;

pub fn make(at: At, found: &Found) -> Done {
    if !found.entries.is_empty() {
        return Done::refused(words::work::DEMO_THERE.to_owned());
    }
    let made = season(SEED, Size::DEMO, at.into());
    let mut change = Change {
        entries: made.base.iter().map(|e| (e.id.to_string(), record::encode(e))).collect(),
        ..Change::default()
    };
    for entries in made.practices {
        let log: Log = entries.into_iter().collect();
        for practice in Base::fold(log.iter()).practices() {
            let key = practice.id.0.to_string();
            change.blocks.push((key.clone(), block::pack(log.iter())));
            change.summaries.push((key, summary::encode(&summarised(&practice, log.iter(), &log, &Same::default()))));
        }
    }
    let base = change.entries.iter().map(|(_, record)| record.clone()).collect();
    let summaries = change.summaries.iter().map(|(key, text)| (key.clone(), Some(text.clone()))).collect();
    Done { answer: Answer::Season { base, summaries }, change: Some(change), file: None }
}
