//! Action or report in, changed model and effects out. The only code that changes the model.

mod along;
pub mod calendar;
mod codes;
mod copies;
pub mod early;
mod floor;
mod game;
mod goals;
mod groups;
mod health;
mod home;
mod joining;
mod library;
mod life;
mod lock;
mod notes;
mod owner;
mod packing;
mod phone;
pub mod plan;
mod practice;
pub mod removal;
mod run;
mod sent;
mod squad;
mod station;
mod typed;
mod waking;
mod work;

pub use copies::{MAX_FILE_BYTES, TAP_LASTS_MS, has_counted};
pub use floor::{clock_goes, feed_of, left_ms, marks_challenge, on_court};
pub use game::{is_served, serves};
pub(in crate::app) use groups::opening as opening_groups;
pub use groups::{LEAST as LEAST_IN_GROUPS, MOST as MOST_GROUPS, MOST_BALLS, fit_of, run_for_groups};
pub use life::{CALM_AFTER_MS, wants_tick};
pub use packing::practice_on_screen;
pub use phone::{device_name, kinds};
pub(in crate::app) use practice::best_before;
pub use run::{can_shift, presence_with};
pub use sent::{Unsent, unsent};
pub use squad::{DraftFault, read_draft};
pub use station::{fits as fits_station, held as held_at_station, own_last};

use super::action::Action;
use super::apart::apart;
use super::effect::{Effect, Record, Report};
use super::model::Model;
use super::screen::Screen;
use crate::domain::entry::{Entry, Fact};
use crate::domain::time::Stamp;
use crate::wire::record;

/// Carries out what the user asked.
pub fn act(model: &mut Model, action: Action, now: Stamp) -> Vec<Effect> {
    model.now = now;
    model.asked = true;
    if station::refuses(model, &action) || station::is_double(model, &action) {
        return Vec::new();
    }
    match action {
        Action::Go(screen) => apart(|| go(model, screen)),
        Action::ReadAgain => apart(|| {
            let mut effects = work::again(model);
            effects.extend(wanted_by_screen(model));
            effects.extend(library::wanted(model, true));
            if model.is_closed() {
                effects.push(Effect::OpenAgain);
            }
            effects
        }),

        Action::RosterTyped(_)
        | Action::RosterTaken
        | Action::ChildNameTyped(_)
        | Action::ChildNumberTyped(_)
        | Action::ChildStyleChosen(_)
        | Action::ChildKept
        | Action::ChildArchived(..) => apart(|| squad::act(model, action)),

        Action::PresenceTapped(_)
        | Action::DrillTapped(_)
        | Action::DrillDrafted(_)
        | Action::DrillKept
        | Action::DrillArchived(_)
        | Action::PartOwn
        | Action::PracticeEnded(_)
        | Action::PracticeReopened(_) => apart(|| practice::act(model, action)),
        Action::Along(practice, true) => apart(|| along::take_part(model, practice)),
        Action::Along(practice, false) => apart(|| along::leave(model, practice)),

        Action::Removal(tap) => apart(|| removal::act(model, tap)),
        Action::Groups(tap) => apart(|| groups::act(model, tap)),
        Action::Plan(tap) => apart(|| plan::act(model, tap)),
        Action::Calendar(tap) => apart(|| calendar::act(model, tap)),
        Action::Notes(tap) => apart(|| notes::act(model, tap)),
        Action::Health(tap) => apart(|| health::act(model, tap)),
        Action::Goals(tap) => apart(|| goals::act(model, tap)),
        Action::Home(tap) => apart(|| home::act(model, tap)),
        Action::Joining(tap) => apart(|| joining::act(model, tap)),

        Action::Lock(tap) => apart(|| lock::act(model, tap)),

        Action::Codes(tap) => apart(|| codes::act(model, tap)),
        Action::Library(tap) => apart(|| library::act(model, tap)),

        Action::CopyWanted(..)
        | Action::CopySent
        | Action::CopySeen(_)
        | Action::ParcelAccepted
        | Action::ParcelDeclined
        | Action::LookStopped
        | Action::ParcelBackAsked(_)
        | Action::ParcelTakenBack(_)
        | Action::ParcelPutBack(_)
        | Action::AnswerSeen => apart(|| copies::act(model, action)),

        Action::SoundSet(_)
        | Action::VoiceSet(_)
        | Action::VibrationSet(_)
        | Action::CallSet(..)
        | Action::LeftHandSet(_)
        | Action::RemoteKeyGiven(..)
        | Action::RemoteKeyFreed(_)
        | Action::TurnRoundTapped
        | Action::DeviceNameTyped(_)
        | Action::KindTyped(_)
        | Action::KindAdded
        | Action::KindRemoved(_)
        | Action::LastingAsked
        | Action::SaveAgain
        | Action::UpdateTaken
        | Action::InstallHintClosed
        | Action::DemoEntered
        | Action::DemoLeft
        | Action::EraseAsked
        | Action::EraseDeclined
        | Action::EraseSure => apart(|| phone::act(model, action)),

        _ => apart(|| run::act(model, action)),
    }
}

/// Takes in what the shell reports.
pub fn heard(model: &mut Model, report: Report, now: Stamp) -> Vec<Effect> {
    model.now = now;
    match report {
        Report::CopyLeft { .. } | Report::FileChosen { .. } | Report::Looking(_) => {
            apart(|| copies::heard(model, report))
        }
        Report::FileCame { name, n_bytes, others } => apart(|| copies::came(model, name, n_bytes, others)),
        Report::FileLost => apart(|| copies::lost(model)),
        Report::Locked(done) => apart(|| lock::done(model, done)),
        Report::DatesLeft { how, left } => apart(|| {
            calendar::file::left(model, how, left);
            Vec::new()
        }),
        Report::RoomTold(room) => apart(|| {
            health::room_told(model, room);
            Vec::new()
        }),
        Report::HomeLeft { way, player, name, left } => apart(|| {
            home::left(model, way, player, &name, left);
            Vec::new()
        }),
        Report::Codes(report) => apart(|| codes::heard(model, report)),
        Report::Worked { job, answer } => apart(|| work::worked(model, job, answer)),
        Report::Library(text) => apart(|| {
            library::read(model, text);
            notes::library_came(model);
            Vec::new()
        }),
        _ => apart(|| life::heard(model, report)),
    }
}

/// Shows another screen.
fn go(model: &mut Model, screen: Screen) -> Vec<Effect> {
    let screen = station::led(model, screen);
    let mut effects = show(model, screen);
    effects.insert(0, Effect::Address(screen.address()));
    effects
}

/// The screen is shown already by its address: prepares what it needs.
fn show(model: &mut Model, screen: Screen) -> Vec<Effect> {
    if station::led(model, screen) != screen {
        return go(model, screen);
    }
    let meant = joining::meant(model, screen);
    if meant != screen {
        return go(model, meant);
    }
    let left_run = matches!(model.screen, Screen::Run(_)) && !matches!(screen, Screen::Run(_));
    let hush = game::hush(model);
    let codes_end = codes::left(model, screen);
    model.screen = screen;
    model.board.fixing = None;
    model.board.fixing_effort = None;
    model.drafts.erase_asked = false;
    model.drafts.removal = None;
    model.drafts.part_asked = None;
    model.copy.back_asked = None;
    model.drafts.kept = None;
    model.drafts.groups.said = None;
    (model.drafts.plan.out, model.drafts.plan.before_fit) = (None, None);
    model.copy.answer = None;
    model.drafts.home = Default::default();
    copies::visited(model);
    calendar::visited(model);
    health::visited(model);
    let mut effects = codes_end;
    effects.extend(prepare(model, true));
    effects.extend(hush);
    if left_run {
        effects.push(Effect::RunOn(false));
    }
    effects
}

/// What the screen at hand needs: fetched, and worked out anew where it `lacks` it.
fn prepare(model: &mut Model, lacks: bool) -> Vec<Effect> {
    let mut effects = Vec::new();
    match model.screen {
        Screen::Child(player) if lacks => squad::open_child(model, player),
        Screen::Drill(drill) if lacks => practice::open_drill(model, drill),
        Screen::Groups if lacks => groups::open(model),
        Screen::Dates(of) if lacks => calendar::open_form(model, of),
        Screen::Note | Screen::Ask | Screen::Remark(_) if lacks => notes::open(model),
        Screen::Run(_) if lacks => effects.extend(owner::open(model)),
        _ => {}
    }
    effects.extend(wanted_by_screen(model));
    effects.extend(library::wanted(model, lacks));
    effects.extend(packing::due(model));
    effects
}

/// The screen shows a practice that lies packed: it is read.
pub(super) fn wanted_by_screen(model: &mut Model) -> Option<Effect> {
    let id = match model.screen {
        Screen::PracticeReport(id) => match packing::unread_of(model, id) {
            Some(id) => Some(id),
            // What has changed over weeks is said after the last practice alone.
            None if super::after::is_last(model, id) => return super::weeks::want(model),
            None => None,
        },
        Screen::RunReport(run) if packing::unread_practice_of(model, run).is_none() => {
            return super::steps::want(model, run);
        }
        Screen::Run(run) | Screen::RunReport(run) | Screen::Contacts(run) => packing::unread_practice_of(model, run),
        // Even groups are made of what is known of it; nobody waits for that.
        Screen::Weeks(_) | Screen::Groups | Screen::Home(_) => return super::weeks::want(model),
        Screen::Health if model.health.room.is_none() => return Some(Effect::AskRoom),
        Screen::Drill(_) => return super::goals::want(model),
        Screen::Remark(id) => super::notes::packed_with(model, id),
        _ => None,
    };
    packing::want(model, id?)
}

/// Writes facts as entries of this page: noted at once, saved by the shell.
fn write(model: &mut Model, facts: Vec<Fact>) -> Vec<Effect> {
    if facts.is_empty() {
        return Vec::new();
    }
    let entries = model.writer.write(facts, model.now);
    put(model, entries)
}

/// Entries that are there now.
fn put(model: &mut Model, entries: Vec<Entry>) -> Vec<Effect> {
    if entries.is_empty() {
        return Vec::new();
    }
    let removed = model.own.removed();
    // A screen may still show somebody who is gone: nothing is said of those any more.
    let entries: Vec<Entry> = entries.into_iter().map(|entry| removed.emptied(entry)).collect();
    let records: Vec<Record> = entries.iter().map(record_of).collect();
    let same = model.base.same().clone();
    for entry in entries {
        model.loose.insert(entry.id);
        model.note(entry);
    }
    model.storage.unsaved.extend(records.iter().map(|(key, _)| key.clone()));
    let mut effects = vec![Effect::Save(records)];
    if *model.base.same() != same {
        effects.extend(packing::recount(model));
    }
    effects.extend(phone::ask_lasting_once(model));
    effects
}

/// An entry as it is stored.
pub(crate) fn record_of(entry: &Entry) -> Record {
    (entry.id.to_string(), record::encode(entry))
}
