//! The phone's own page: sounds, hand, kinds of effort, lasting storage, app update, demo, erase.

use super::super::action::Action;
use super::super::effect::Effect;
use super::super::model::Model;
use super::super::phones::to_tell;
use super::super::words;
use super::typed::plain;
use super::write;
use crate::domain::entry::Fact;

/// Longest name of a phone or of a kind of effort.
const MOST_NAME: usize = 40;

pub fn act(model: &mut Model, action: Action) -> Vec<Effect> {
    match action {
        Action::SoundSet(on) => model.settings.sound = on,
        Action::VoiceSet(on) => model.settings.voice = on,
        Action::VibrationSet(on) => model.settings.vibration = on,
        Action::CallSet(call, on) => model.settings.calls.set(call, on),
        Action::LeftHandSet(on) => model.settings.left_handed = on,
        Action::RemoteKeyGiven(stands, name) => {
            model.drafts.remote_refused = !model.settings.remote.give(stands, &name);
        }
        Action::RemoteKeyFreed(stands) => {
            model.drafts.remote_refused = false;
            model.settings.remote.free(stands);
        }
        Action::TurnRoundTapped => model.settings.turned = !model.settings.turned,
        Action::DeviceNameTyped(name) => {
            model.settings.device_name = plain(&name, MOST_NAME);
            model.writer.device = device_name(model);
        }
        Action::InstallHintClosed => model.settings.install_hint_closed = true,
        Action::KindTyped(text) => {
            model.drafts.kind = text;
            return Vec::new();
        }
        Action::KindAdded => return add_kind(model),
        Action::KindRemoved(kind) => {
            let kinds = kinds(model).into_iter().filter(|k| *k != kind).collect();
            return set_kinds(model, kinds);
        }
        Action::LastingAsked => return vec![Effect::AskLasting],
        Action::SaveAgain => return save_again(model),
        Action::UpdateTaken => {
            model.phone.update_refused = false;
            return vec![Effect::ActivateUpdate];
        }
        Action::DemoEntered => return vec![Effect::OpenDemo],
        Action::DemoLeft => return vec![Effect::LeaveDemo],
        // Leaving the demo is its erase: here it would be the coach's own squad that goes.
        Action::EraseAsked | Action::EraseSure if model.demo => return Vec::new(),
        Action::EraseAsked => {
            model.storage.not_erased = None;
            model.drafts.erase_asked = true;
            return Vec::new();
        }
        Action::EraseDeclined => {
            model.drafts.erase_asked = false;
            return Vec::new();
        }
        Action::EraseSure => return vec![Effect::Erase],
        _ => return Vec::new(),
    }
    vec![Effect::KeepSettings(model.settings.to_json())]
}

/// Before a copy is written: what it has to tell of this phone.
pub fn tell_name(model: &mut Model) -> Vec<Effect> {
    to_tell(model).map(|fact| write(model, vec![fact])).unwrap_or_default()
}

/// The coach's kinds of effort, or the ready ones.
pub fn kinds(model: &Model) -> Vec<String> {
    match model.base.effort_kinds() {
        Some(kinds) => kinds.to_vec(),
        None => words::drills::EFFORT_KINDS.iter().map(|k| (*k).to_owned()).collect(),
    }
}

/// Lasting storage is asked for once, at the first real data.
pub fn ask_lasting_once(model: &mut Model) -> Vec<Effect> {
    if model.settings.lasting_asked || model.demo {
        return Vec::new();
    }
    model.settings.lasting_asked = true;
    vec![Effect::AskLasting, Effect::KeepSettings(model.settings.to_json())]
}

pub fn device_name(model: &Model) -> String {
    let name = model.settings.device_name.trim();
    if name.is_empty() { words::THIS_PHONE.to_owned() } else { name.to_owned() }
}

fn add_kind(model: &mut Model) -> Vec<Effect> {
    let kind = plain(model.drafts.kind.trim(), MOST_NAME);
    let mut all = kinds(model);
    model.drafts.kind.clear();
    if kind.is_empty() || all.contains(&kind) {
        return Vec::new();
    }
    all.push(kind);
    set_kinds(model, all)
}

fn set_kinds(model: &mut Model, kinds: Vec<String>) -> Vec<Effect> {
    let revision = model.base.next_kinds_revision();
    write(model, vec![Fact::EffortKindsChanged { revision, kinds }])
}

/// Everything not confirmed is given to the shell once more.
fn save_again(model: &mut Model) -> Vec<Effect> {
    let wanted = |key: &String| model.storage.unsaved.contains(key);
    let records = model.own.iter().map(super::record_of).filter(|(key, _)| wanted(key)).collect::<Vec<_>>();
    let mut effects = if records.is_empty() { Vec::new() } else { vec![Effect::Save(records)] };
    if effects.is_empty() || model.is_closed() {
        effects.push(Effect::OpenAgain);
    }
    effects
}
