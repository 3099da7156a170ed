//! Locked copies: one that was written is locked before it leaves, one that was chosen is opened and then looked at as any other. A copy that was
//! asked for under a lock never leaves without it.

use super::super::action::CopyHow;
use super::super::effect::Effect;
use super::super::lock::{LockFault, LockJob, LockTap, LockedFile, Locking, Secret, locked_name};
use super::super::model::{Model, ReadyCopy};
use super::super::words;
use super::super::work::{Goes, Job};
use super::copies::{self, answer};

pub fn act(model: &mut Model, tap: LockTap) -> Vec<Effect> {
    match tap {
        LockTap::Wanted(how, words) => want(model, how, words.trimmed()),
        LockTap::Words(words) => try_words(model, words),
        LockTap::GivenUp => give_up(model),
        LockTap::PutAway => {
            let opening = model.copy.locked.take().is_some_and(|file| file.opening);
            if opening { vec![Effect::Lock(LockJob::Stop)] } else { Vec::new() }
        }
    }
}

/// The copy is written first.
fn want(model: &mut Model, how: CopyHow, words: Secret) -> Vec<Effect> {
    if model.copy.writing || is_opening(model) || words.is_empty() {
        return Vec::new();
    }
    let effects = copies::want(model, Goes::default(), how);
    model.copy.locking = Locking::Waits { words, asked_ms: model.now.mono_ms };
    effects
}

/// The copy stands written. `None`: it isn't to be locked.
pub fn written(model: &mut Model, how: CopyHow, ready: &ReadyCopy) -> Option<Vec<Effect>> {
    match std::mem::take(&mut model.copy.locking) {
        Locking::Waits { words, asked_ms } => {
            model.copy.locking = Locking::On { ready: ready.clone(), how, asked_ms };
            Some(vec![Effect::Lock(LockJob::Lock { words, text: how == CopyHow::ShareSheet })])
        }
        _ => None,
    }
}

/// It was locked, or opened; or not. In bytes: what came out.
pub fn done(model: &mut Model, done: Result<u64, LockFault>) -> Vec<Effect> {
    if is_opening(model) {
        return opened(model, done);
    }
    let Locking::On { ready, how, asked_ms } = std::mem::take(&mut model.copy.locking) else { return Vec::new() };
    match done {
        Ok(_) => {
            let waits = model.now.mono_ms.saturating_sub(asked_ms) > copies::TAP_LASTS_MS;
            let name = locked_name(&ready.name, how);
            copies::stands_ready(model, how, ReadyCopy { name, waits, locked: true, ..ready })
        }
        Err(fault) => {
            copies::not_copied(model, words::lock::not_locked(fault).to_owned());
            Vec::new()
        }
    }
}

/// A file that was looked at is locked: its words are asked for.
pub fn found(model: &mut Model) {
    if let Some(name) = model.copy.reading.take() {
        model.copy.locked = Some(LockedFile { name, opening: false });
        model.copy.looking = None;
    }
}

/// Another file was chosen in its place.
pub fn replaced(model: &mut Model) -> Option<Effect> {
    let opening = model.copy.locked.take().is_some_and(|file| file.opening);
    opening.then_some(Effect::Lock(LockJob::Stop))
}

fn is_opening(model: &Model) -> bool {
    model.copy.locked.as_ref().is_some_and(|file| file.opening)
}

fn try_words(model: &mut Model, words: Secret) -> Vec<Effect> {
    // The one program does one thing at a time.
    if !matches!(model.copy.locking, Locking::No) {
        return Vec::new();
    }
    match &mut model.copy.locked {
        Some(file) if !file.opening => {
            file.opening = true;
            model.copy.answer = None;
            vec![Effect::Lock(LockJob::Open { words })]
        }
        _ => Vec::new(),
    }
}

fn opened(model: &mut Model, done: Result<u64, LockFault>) -> Vec<Effect> {
    let Some(file) = model.copy.locked.take() else { return Vec::new() };
    match done {
        Ok(_) => {
            model.copy.reading = Some(file.name);
            model.copy.looking = Some(0);
            vec![Effect::Work(Job::Look { records: copies::unsaved(model) })]
        }
        Err(fault) => {
            if fault.may_be_asked_again() {
                model.copy.locked = Some(LockedFile { opening: false, ..file });
            }
            answer(model, words::lock::not_opened(fault).to_owned(), true);
            Vec::new()
        }
    }
}

fn give_up(model: &mut Model) -> Vec<Effect> {
    if let Some(file) = model.copy.locked.as_mut().filter(|file| file.opening) {
        file.opening = false;
    } else if matches!(model.copy.locking, Locking::On { .. }) {
        model.copy.locking = Locking::No;
        model.copy.writing = false;
    } else {
        return Vec::new();
    }
    vec![Effect::Lock(LockJob::Stop)]
}
