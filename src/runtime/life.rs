//! The page's life: opening the storage, the address, other tabs, visibility, ticks, lasting storage, demo, erase.

use std::rc::Rc;

use futures_util::future::join4;
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use super::{Runtime, database, log, now, report, runtime, saving, trouble, with, work};
use crate::app::codes::{CameraEnd, CodesReport, Reading};
use crate::app::effect::{LockState, Opened, Record, Report, Trouble};
use crate::app::health::Room;
use crate::app::model::PhoneFacts;
use crate::app::screen::Screen;
use crate::app::update;
use crate::app::view::share::PhoneOs;
use crate::platform::app_update::{self, Offline, Update};
use crate::platform::channel::Channel;
use crate::platform::locks::{self, Lock};
use crate::platform::page::{self, Turn};
use crate::platform::{Fault, clock, device, files, timer};
use crate::store::{Database, DbName, Lost, StoreError, Stored};
use crate::store::{second_copy, settings};

const LOCK: &str = "peppertally-writer";
const CHANNEL: &str = "peppertally";
const DEMO_SEARCH: &str = "?demo";
const TICK_MS: i32 = 1_000;
/// What was not confirmed is tried again every so many ticks.
const AGAIN_EVERY: u32 = 5;
/// Told to the other tabs when everything is erased.
const ERASED: &str = "erased";

/// Opens the storage and unites what it holds; finds out about the phone.
pub async fn open() {
    report(Report::Phone(quick_facts()));
    open_storage().await;
    // Where a run is on its keys come first; elsewhere what is drawn may hang on it, and nothing is to move afterwards.
    if with(|rt| rt.model.with_untracked(|model| matches!(model.screen, Screen::Run(_)))) != Some(true) {
        tell_slow_facts();
    }
    take_lock_if_free().await;
}

/// Reads all that is stored and reports it, or why not.
pub async fn open_storage() {
    let Some(rt) = runtime() else { return };
    if rt.leaving.get() {
        return;
    }
    let settings = match settings::get() {
        Ok(settings::Found::Text(text)) => Some(text),
        Ok(settings::Found::Nothing | settings::Found::SetAside) => None,
        Err(error) => {
            // What stands there can't be read or not be moved: nothing is written over it.
            rt.no_settings.set(true);
            web_sys::console::warn_1(&format!("settings: {error:?}").into());
            None
        }
    };
    let second = second_copy::all(rt.db_name).unwrap_or_else(|error| {
        web_sys::console::warn_1(&format!("second copies: {error:?}").into());
        spawn_local(async { report(Report::SecondCopyFailed) });
        Vec::new()
    });
    let read = match read_all(&rt).await {
        // A connection may be dead from its birth; another one is well then.
        Err(StoreError::NoAnswer | StoreError::ConnectionLost(_)) => read_all(&rt).await,
        other => other,
    };
    match read {
        Ok(found) => report(Report::Opened(Box::new(Opened { second, settings, ..found }))),
        Err(error) => report(Report::Refused { trouble: trouble(error), second, settings }),
    }
    // By itself: whether the browser answers this or not, what is stored is on screen.
    spawn_local(tell_lasting(device::persisted()));
    match settings::all_aside() {
        Ok(keys) if keys.is_empty() => {}
        Ok(keys) => report(Report::SettingsAside(keys)),
        Err(error) => web_sys::console::warn_1(&format!("settings: {error:?}").into()),
    }
}

/// Settings that say nothing to this version are moved aside; where that fails, nothing is written in their place.
pub fn set_settings_aside(rt: &Rc<Runtime>) {
    match settings::set_aside() {
        Ok(Some(key)) => spawn_local(async { report(Report::SettingsAside(vec![key])) }),
        Ok(None) => {}
        Err(error) => {
            rt.no_settings.set(true);
            web_sys::console::warn_1(&format!("settings: {error:?}").into());
        }
    }
}

async fn read_all(rt: &Rc<Runtime>) -> Result<Opened, StoreError> {
    let db = database(rt).await?;
    let text = |stored| match stored {
        Stored::Read(text) => Ok(text),
        Stored::Unreadable(what) => Err(what),
    };
    // All are asked before any is awaited, the loose entries first: another window may pack meanwhile, and an entry goes from
    // there into a block, never back.
    let (entries, summaries, parcels, aside) =
        join4(db.all_entries(), db.all_summaries(), db.all_parcel_notes(), db.all_aside()).await;
    Ok(Opened {
        entries: entries?.into_iter().map(|(key, stored)| (key, text(stored))).collect(),
        summaries: summaries?.into_iter().map(|(key, stored)| (key, text(stored))).collect(),
        parcels: plain(parcels?),
        aside: plain(aside?),
        ..Opened::default()
    })
}

/// Texts, or what stands there instead.
fn plain(records: Vec<(String, Stored<String>)>) -> Vec<Record> {
    let text = |stored| match stored {
        Stored::Read(text) | Stored::Unreadable(text) => text,
    };
    records.into_iter().map(|(key, stored)| (key, text(stored))).collect()
}

/// Listeners for the page's life. They touch the app's root only.
pub fn listen() {
    let heard = [
        page::on_turn(turned),
        page::on_address(|| report(Report::Address(address()))),
        timer::every(TICK_MS, tick),
        app_update::on_news(|news| match news {
            Ok(news) => report(Report::Phone(PhoneFacts { update_refused: news.refused, ..phone_facts() })),
            Err(fault) => log(&fault),
        }),
    ];
    for fault in heard.into_iter().filter_map(Result::err) {
        log(&fault);
    }
    with(|rt| match Channel::open(CHANNEL, heard_elsewhere) {
        Ok(channel) => *rt.channel.borrow_mut() = Some(channel),
        Err(fault) => log(&fault),
    });
}

fn turned(turn: Turn) {
    let absence = with(|rt| {
        let mut slept = rt.slept.get();
        let (wall_ms, mono_ms) = (clock::wall_ms(), clock::mono_ms());
        let absence = match turn {
            Turn::Shown | Turn::Restored => slept.shown(wall_ms, mono_ms),
            Turn::Hidden | Turn::Left => {
                slept.hidden(wall_ms, mono_ms);
                None
            }
        };
        rt.slept.set(slept);
        absence
    });
    // Before anything else is told with the new reading: a clock may have to stand.
    if let Some(absence) = absence.flatten() {
        report(Report::Woke(absence));
    }
    match turn {
        Turn::Shown | Turn::Restored => {
            with(saving::again);
            if let Some(rt) = runtime() {
                spawn_local(async move {
                    if let Err(fault) = rt.wake_lock.renew().await {
                        log(&fault);
                    }
                });
            }
        }
        Turn::Hidden | Turn::Left => {
            with(saving::again);
            // No camera stays on behind the coach's back.
            if with(|rt| rt.model.with_untracked(|model| model.codes.read != Reading::Nothing)) == Some(true) {
                report(Report::Codes(CodesReport::CameraEnded(CameraEnd::Hidden)));
            }
        }
    }
}

fn tick(n: u32) {
    // Unless they were told at the start: every browser that knows of weeks names a day.
    if n == 1 && with(|rt| rt.model.with_untracked(|model| model.phone.first_weekday)) == Some(0) {
        tell_slow_facts();
    }
    with(work::tick);
    let wanted = with(|rt| rt.model.with_untracked(|model| update::wants_tick(model, now())));
    if wanted == Some(true) && page::is_visible().unwrap_or(true) {
        report(Report::Ticked);
    }
    if n.is_multiple_of(AGAIN_EVERY) {
        with(|rt| {
            if saving::has_failed(rt) {
                saving::again(rt);
            }
        });
    }
}

/// The database's connection ended: it is opened again at the next writing.
pub fn connection_lost(lost: Lost) {
    with(|rt| {
        *rt.db.borrow_mut() = None;
        // Another tab erases, or upgrades: this one begins again, and writes nothing back.
        if lost == Lost::Yielded {
            leave(rt);
        }
    });
}

fn leave(rt: &Rc<Runtime>) {
    rt.leaving.set(true);
    if let Err(fault) = page::reload() {
        log(&fault);
    }
}

/// What this page wrote and the database has confirmed, for the phone's other tabs.
pub fn post_written(rt: &Rc<Runtime>, records: &[Record]) {
    #[derive(serde::Serialize)]
    struct Written<'a> {
        db: &'a str,
        records: Vec<&'a str>,
    }
    let texts = records.iter().map(|(_, text)| text.as_str()).collect();
    // Texts always serialise; an empty message is nobody's.
    let message = serde_json::to_string(&Written { db: rt.db_name.as_str(), records: texts }).unwrap_or_default();
    post(rt, &message);
}

fn post(rt: &Rc<Runtime>, message: &str) {
    if let Some(channel) = rt.channel.borrow().as_ref()
        && let Err(fault) = channel.post(message)
    {
        log(&fault);
    }
}

fn heard_elsewhere(message: String) {
    let Some(rt) = runtime() else { return };
    if message == ERASED {
        return leave(&rt);
    }
    #[derive(serde::Deserialize)]
    struct Written {
        db: String,
        records: Vec<String>,
    }
    match serde_json::from_str::<Written>(&message) {
        Ok(written) if written.db == rt.db_name.as_str() => report(Report::Heard(written.records)),
        Ok(_) => {}
        Err(error) => web_sys::console::warn_1(&format!("another tab's message: {error}").into()),
    }
}

async fn take_lock_if_free() {
    let lost = || report(Report::Lock(LockState::Elsewhere));
    match locks::hold(LOCK, lost).await {
        // Held until the page ends.
        Ok(Lock::Held(hold)) => {
            std::mem::forget(hold);
            report(Report::Lock(LockState::Held));
        }
        Ok(Lock::Taken) => report(Report::Lock(LockState::Elsewhere)),
        // Without locks no other tab can be seen; identity keeps two of them apart all the same.
        Ok(Lock::Unsupported) => report(Report::Lock(LockState::Held)),
        Err(fault) => {
            log(&fault);
            report(Report::Lock(LockState::Held));
        }
    }
}

/// The coach goes on here: the other window's hold ends.
pub async fn take_lock() {
    let lost = || report(Report::Lock(LockState::Elsewhere));
    match locks::steal(LOCK, lost).await {
        Ok(Lock::Held(hold)) => {
            std::mem::forget(hold);
            report(Report::Lock(LockState::Held));
        }
        Ok(Lock::Taken | Lock::Unsupported) => report(Report::Lock(LockState::Held)),
        Err(fault) => log(&fault),
    }
}

pub fn address_now() -> Screen {
    Screen::from_address(&address()).unwrap_or_default()
}

fn address() -> String {
    page::address().unwrap_or_else(|fault| {
        log(&fault);
        String::new()
    })
}

pub fn show_address(to: &str) {
    if let Err(fault) = page::set_address(to) {
        log(&fault);
    }
}

pub fn keep_settings(rt: &Rc<Runtime>, json: &str) {
    // The demo leaves no trace.
    if rt.db_name == DbName::Demo || rt.leaving.get() || rt.no_settings.get() {
        return;
    }
    if let Err(error) = settings::put(json) {
        web_sys::console::warn_1(&format!("settings: {error:?}").into());
        spawn_local(async { report(Report::SecondCopyFailed) });
    }
}

pub async fn ask_lasting() {
    tell_lasting(device::persist()).await;
}

pub async fn ask_room() {
    match device::estimate().await {
        Ok(space) => {
            let room = Room { used_bytes: space.used_bytes, most_bytes: space.quota_bytes };
            report(Report::RoomTold(Some(room)));
        }
        Err(fault) => {
            log(&fault);
            report(Report::RoomTold(None));
        }
    }
}

async fn tell_lasting(asked: impl Future<Output = Result<bool, Fault>>) {
    match asked.await {
        Ok(lasting) => report(Report::Lasting(Some(lasting))),
        Err(fault) => {
            log(&fault);
            report(Report::Lasting(None));
        }
    }
}

/// The screen stays awake in a run, and an app update waits.
pub fn run_on(rt: &Rc<Runtime>, on: bool) {
    if let Err(fault) = app_update::set_run_on(on) {
        log(&fault);
    }
    let rt = rt.clone();
    spawn_local(async move {
        if let Err(fault) = rt.wake_lock.want(on).await {
            log(&fault);
        }
    });
}

pub fn activate_update() {
    if let Err(fault) = app_update::activate() {
        log(&fault);
    }
}

/// What the browser knows at once. The rest (whether it shares files, where its week begins) is asked later where a run is
/// on: no key waits for it.
fn quick_facts() -> PhoneFacts {
    let os = match device::os() {
        Ok(device::Os::Ios) => PhoneOs::Ios,
        Ok(device::Os::Android) => PhoneOs::Android,
        Ok(device::Os::Other) | Err(_) => PhoneOs::Other,
    };
    PhoneFacts {
        os,
        installed: device::is_standalone().unwrap_or(false),
        has_vibration: device::has_vibration(),
        can_share: false,
        can_share_dates: false,
        first_weekday: 0,
        update_refused: false,
        update_waiting: matches!(app_update::update(), Ok(Update::Waiting | Update::Elsewhere)),
        offline_ready: matches!(app_update::offline(), Ok(Offline::Ready)),
    }
}

fn phone_facts() -> PhoneFacts {
    slow_facts(quick_facts())
}

fn tell_slow_facts() {
    let known = with(|rt| rt.model.with_untracked(|model| model.phone.clone()));
    report(Report::Phone(slow_facts(known.unwrap_or_else(quick_facts))));
}

fn slow_facts(known: PhoneFacts) -> PhoneFacts {
    PhoneFacts {
        can_share: files::can_share("copy.txt", "text/plain").unwrap_or(false),
        can_share_dates: files::can_share("practices.ics", "text/calendar").unwrap_or(false),
        first_weekday: device::first_weekday().unwrap_or(0),
        ..known
    }
}

pub fn wants_demo() -> bool {
    page::search().is_ok_and(|search| search == DEMO_SEARCH)
}

/// The demo has a database of its own: the page is loaded anew with it, or without.
pub fn go_demo(on: bool) {
    if let Err(fault) = page::load(if on { DEMO_SEARCH } else { "" }) {
        log(&fault);
    }
}

/// Leaves the demo and erases it, without a trace.
pub async fn leave_demo() {
    let Some(rt) = runtime() else { return };
    rt.leaving.set(true);
    // The page goes, whatever becomes of it: nobody waits for these.
    drop(work::stop(&rt));
    *rt.db.borrow_mut() = None;
    if let Err(error) = second_copy::erase(DbName::Demo) {
        web_sys::console::warn_1(&format!("demo: {error:?}").into());
    }
    if let Err(error) = Database::erase(DbName::Demo).await {
        web_sys::console::warn_1(&format!("demo: {error:?}").into());
    }
    go_demo(false);
}

/// Empties every store in every tab.
pub async fn erase() {
    let Some(rt) = runtime() else { return };
    rt.leaving.set(true);
    let jobs = work::stop(&rt);
    post(&rt, ERASED);
    *rt.db.borrow_mut() = None;
    // The databases first: what a refusal leaves is whole then, with its second copies.
    let mut waits = false;
    for name in [DbName::Demo, DbName::Own] {
        match (name, Database::erase(name).await.map_err(trouble)) {
            (_, Ok(())) => {}
            // It stays queued and can't be called back: whatever is written now would go with it.
            (DbName::Own, Err(Trouble::Blocked)) => waits = true,
            (_, Err(why)) => {
                rt.leaving.set(false);
                work::stopped(jobs);
                return report(Report::NotErased(why));
            }
        }
    }
    for name in [DbName::Demo, DbName::Own] {
        if let Err(error) = second_copy::erase(name) {
            web_sys::console::warn_1(&format!("erase: {error:?}").into());
        }
    }
    if let Err(error) = settings::erase() {
        web_sys::console::warn_1(&format!("erase: {error:?}").into());
    }
    if waits {
        work::stopped(jobs);
        return report(Report::NotErased(Trouble::Erasing));
    }
    go_demo(false);
}

/// The starting screen of the page gives way to the app.
pub fn remove_boot() {
    if let Err(fault) = page::remove("boot") {
        log(&fault);
    }
}
