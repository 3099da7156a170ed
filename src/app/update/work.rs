//! Answers to jobs: each goes to what asked for it. One that doesn't fit its job is told as nonsense; nothing was changed by it.

use super::super::action::CopyHow;
use super::super::effect::Effect;
use super::super::model::{Model, ReadyCopy};
use super::super::words;
use super::super::work::{Answer, Job};
use super::super::{goals, steps, weeks};
use super::{calendar, codes, copies, health, lock, packing, removal};
use crate::wire::record;

pub fn worked(model: &mut Model, job: Job, answer: Answer) -> Vec<Effect> {
    done(model, &job);
    // It was looked at before somebody went, whatever it found.
    if matches!(job, Job::Look { .. }) && std::mem::take(&mut model.copy.dropped) {
        return Vec::new();
    }
    show_damaged(model, &answer);
    match (job, answer) {
        (Job::Read { practice }, Answer::Read { own, theirs, .. }) => packing::read(model, &practice, &own, &theirs),
        (Job::Pack { practice, .. }, Answer::Packed { removed, summary, .. }) => {
            packing::packed(model, &practice, &removed, summary)
        }
        (Job::Summarise { practice, .. }, Answer::Summarised { summary, .. }) => {
            packing::summarised(model, (practice, summary), false);
            let mut effects = packing::corrected(model);
            effects.extend(packing::recount(model));
            effects.extend(super::wanted_by_screen(model));
            effects
        }
        (Job::Copy { how: CopyHow::Code, .. }, Answer::Copied { missing, .. }) => codes::copied(model, missing),
        (Job::Copy { goes, how, at, clock, asked_ms, .. }, Answer::Copied { name, missing }) => {
            let waits = model.now.mono_ms.saturating_sub(asked_ms) > copies::TAP_LASTS_MS;
            let (parcels, whole) = (copies::accepted(model), missing.is_none() && goes.is_whole());
            let ready = ReadyCopy { goes, name, clock, wall_ms: at.0, whole, parcels, waits, locked: false };
            copies::copied(model, how, ready, missing)
        }
        (Job::Copy { goes, how, all: false, .. }, Answer::CopyNeedsAll) => {
            vec![copies::write_copy(model, goes, how, true)]
        }
        (Job::Dates { name, how, asked_ms, .. }, Answer::Dated) => calendar::file::written(model, name, how, asked_ms),
        (Job::Look { .. }, Answer::Looked { key, from, preview }) => {
            copies::looked(model, key, from, *preview);
            Vec::new()
        }
        (Job::Look { .. }, Answer::Locked) => {
            lock::found(model);
            Vec::new()
        }
        (Job::Parcel { key, what, .. }, Answer::Parcel { note, summaries, .. }) => {
            let mut effects = copies::changed(model, key, what, &note, summaries);
            effects.extend(super::wanted_by_screen(model));
            effects
        }
        (Job::Season { .. }, Answer::Season { base, summaries }) => {
            for entry in base.iter().filter_map(|text| record::decode(text).ok()) {
                model.loose.insert(entry.id);
                model.note(entry);
            }
            summaries.into_iter().for_each(|summary| packing::summarised(model, summary, false));
            Vec::new()
        }
        (Job::Recount { .. }, Answer::Recounted { summaries, .. }) => {
            packing::recounted(model, summaries);
            // What was said of who is one may have been taken back meanwhile.
            packing::recount(model).into_iter().chain(super::wanted_by_screen(model)).collect()
        }
        (Job::Verify { repair, .. }, Answer::Verified(found)) => {
            health::verified(model, repair, found);
            Vec::new()
        }
        (Job::Remove { records, called }, Answer::Removed { notes, summaries, going, .. }) => {
            removal::removed(model, &records, &called, removal::Emptied { notes, summaries, going })
        }
        (Job::Levels { today, series: asked, met }, Answer::Levels { series, sides }) => {
            weeks::worked_out(model, today, (&asked, &met), (series, sides)).into_iter().collect()
        }
        (Job::Goals { asked }, Answer::Goals { goals: found }) => {
            goals::worked_out(model, &asked, found).into_iter().collect()
        }
        (Job::Steps { today, series }, Answer::Steps { levels }) => {
            steps::worked_out(model, today, &series, levels).into_iter().collect()
        }
        (job, answer) => not_done(model, job, answer),
    }
}

/// What could not be worked out is tried again.
pub fn again(model: &mut Model) -> Vec<Effect> {
    model.storage.work = None;
    std::mem::take(&mut model.storage.undone).into_iter().map(Effect::Work).collect()
}

/// It has an answer: with the last one of those that couldn't be done, the trouble with them ends.
fn done(model: &mut Model, job: &Job) {
    model.storage.undone.retain(|undone| undone != job);
    if model.storage.undone.is_empty() {
        model.storage.work = None;
    }
}

/// What could not be counted in is shown, once.
fn show_damaged(model: &mut Model, answer: &Answer) {
    if let Answer::Read { damaged, .. }
    | Answer::Packed { damaged, .. }
    | Answer::Summarised { damaged, .. }
    | Answer::Removed { damaged, .. }
    | Answer::Recounted { damaged, .. }
    | Answer::Parcel { damaged, .. } = answer
    {
        damaged.iter().for_each(|line| show(model, line));
    }
}

fn show(model: &mut Model, line: &String) {
    if !model.storage.aside.contains(line) {
        model.storage.aside.push(line.clone());
    }
}

fn not_done(model: &mut Model, job: Job, answer: Answer) -> Vec<Effect> {
    let (sentence, damaged) = match answer {
        Answer::Refused(sentence) => (sentence, false),
        Answer::Damaged(why) => (why, true),
        _ => (words::work::NONSENSE.to_owned(), false),
    };
    if let (Job::Read { practice } | Job::Pack { practice, .. } | Job::Summarise { practice, .. }, true) =
        (&job, damaged)
    {
        show(model, &format!("practice {practice}: {sentence}"));
    }
    match job {
        Job::Read { practice } => packing::unread(model, &practice, sentence),
        // Its entries stay as they are.
        Job::Pack { .. } => packing::not_packed(model),
        // It is tried again when the coach asks, and at the next start; until then lists miss it, which is said.
        job @ (Job::Summarise { .. } | Job::Recount { .. } | Job::Season { .. } | Job::Remove { .. }) => {
            model.storage.work = Some(sentence);
            model.storage.undone.push(job);
        }
        Job::Verify { .. } => health::not_verified(model, sentence),
        Job::Levels { .. } => weeks::not_worked_out(model, sentence),
        Job::Goals { .. } => goals::not_worked_out(model, sentence),
        Job::Steps { .. } => steps::not_worked_out(model, sentence),
        Job::Copy { how: CopyHow::Code, .. } => codes::not_copied(model, sentence),
        Job::Copy { .. } => copies::not_copied(model, sentence),
        Job::Dates { .. } => calendar::file::not_written(model, sentence),
        Job::Look { .. } | Job::Parcel { .. } => copies::not_read(model, sentence),
    }
    Vec::new()
}
