//! The only place that carries out an effect. Holds the model in a signal of the app's root, gives actions and reports to
//! `app::update`, and does with the browser what comes out.

mod codes;
mod copies;
mod home;
mod library;
mod life;
mod lock;
mod saving;
mod tell;
mod waiting;
mod ways;
mod work;

pub use waiting::{Engine, engine, goes_on_with};

use std::cell::{Cell, RefCell};
use std::rc::Rc;
use std::sync::Arc;

use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use crate::app::action::Action;
use crate::app::effect::{Effect, Report};
use crate::app::model::Model;
use crate::app::words;
use crate::app::writer::Writer;
use crate::beside::{log, trouble};
use crate::domain::time::{Slept, Stamp};
use crate::platform::{app_update, channel::Channel, clock, panic, sound::Sound, timer, wake_lock::WakeLock};
use crate::store::StoreError;
use crate::store::{Database, DbName};
use waiting::{Asked, Waiting};

/// Everything that outlives a screen. One for the page's life.
struct Runtime {
    model: RwSignal<Model>,
    waiting: Waiting,
    db_name: DbName,
    db: RefCell<Option<Rc<Database>>>,
    saving: RefCell<saving::Queue>,
    desk: RefCell<work::Desk>,
    channel: RefCell<Option<Channel>>,
    sound: Sound,
    /// What is still to be told of a count.
    later: RefCell<Vec<timer::Once>>,
    wake_lock: WakeLock,
    /// This page is on its way out (erased, reloading): nothing is written any more.
    leaving: Cell<bool>,
    /// How long the phone slept, which the browser's monotonic clock may not know.
    slept: Cell<Slept>,
    /// Settings lie there that could neither be read nor moved aside: none are written.
    no_settings: Cell<bool>,
}

thread_local! {
    static RUNTIME: RefCell<Option<Rc<Runtime>>> = const { RefCell::new(None) };
}

/// What the screens are given.
pub struct Root {
    pub model: RwSignal<Model>,
    pub act: Arc<dyn Fn(Action)>,
    pub open_file: Arc<dyn Fn(web_sys::File)>,
}

/// Makes the app's root: model, listeners, ways to act. The storage is opened by [`open`], once the screens stand.
pub fn start() -> Root {
    let texts = panic::PanicTexts {
        heading: words::panic::HEADING,
        what_is_safe: words::panic::SAFE,
        reload: words::panic::RELOAD,
    };
    if let Err(error) = panic::install(texts) {
        web_sys::console::error_1(&error);
    }
    let db_name = if life::wants_demo() { DbName::Demo } else { DbName::Own };
    // Without the browser's random numbers two pages could share a series; the clock alone makes that unlikely enough.
    let bits = clock::random_64().unwrap_or_else(|fault| {
        log(&fault);
        clock::wall_ms().unsigned_abs() << 20 ^ clock::mono_ms()
    });
    let writer = Writer::new(bits, words::THIS_PHONE.to_owned());
    let mut model = Model::new(writer, now(), db_name == DbName::Demo);
    model.screen = life::address_now();
    let runtime = Rc::new(Runtime {
        model: RwSignal::new(model),
        waiting: Waiting::default(),
        db_name,
        db: RefCell::new(None),
        saving: RefCell::new(saving::Queue::default()),
        desk: RefCell::new(work::Desk::default()),
        channel: RefCell::new(None),
        sound: Sound::default(),
        later: RefCell::new(Vec::new()),
        wake_lock: WakeLock::default(),
        leaving: Cell::new(false),
        slept: Cell::default(),
        no_settings: Cell::new(false),
    });
    RUNTIME.with(|slot| *slot.borrow_mut() = Some(runtime.clone()));
    life::listen();
    Root { model: runtime.model, act: Arc::new(act), open_file: Arc::new(copies::open_file) }
}

/// The screens stand: the starting screen goes, the storage is opened.
pub fn open() {
    life::remove_boot();
    spawn_local(life::open());
}

/// The bulk of the app has come, or has not.
pub fn arrived(whole: bool) {
    if let Err(fault) = app_update::arrived(whole) {
        log(&fault);
    }
}

/// What the user asked.
pub fn act(action: Action) {
    waiting::give(Asked::Action(action));
}

/// What the browser reports.
fn report(report: Report) {
    waiting::give(Asked::Report(report));
}

fn carry_out(rt: &Rc<Runtime>, effects: Vec<Effect>) {
    for effect in effects {
        match effect {
            Effect::OpenAgain => spawn_local(life::open_storage()),
            Effect::Save(records) => saving::save(rt, records),
            Effect::Address(address) => life::show_address(&address),
            Effect::Tell(signal) => tell::tell(rt, signal),
            Effect::TellLater(signals) => tell::tell_later(rt, signals),
            Effect::KeepSettings(json) => life::keep_settings(rt, &json),
            Effect::AskLasting => spawn_local(life::ask_lasting()),
            Effect::AskRoom => spawn_local(life::ask_room()),
            Effect::RunOn(on) => life::run_on(rt, on),
            Effect::Work(job) => work::give(rt, job),
            Effect::StopLooking => work::stop_looking(rt),
            Effect::Offer { name, how } => copies::offer(rt, name, how),
            Effect::OfferDates { name, how } => copies::offer_dates(rt, name, how),
            Effect::NoteHome { way, player, name, sheet } => home::leave(way, player, name, *sheet),
            Effect::Lock(job) => lock::carry_out(rt, job),
            Effect::HearOfFiles => ways::hear(rt),
            Effect::Codes(task) => codes::carry_out(rt, task),
            Effect::ReadLibrary => spawn_local(library::read()),
            Effect::SetSettingsAside => life::set_settings_aside(rt),
            Effect::SetAside(records) => spawn_local(saving::set_aside(records)),
            Effect::TakeLock => spawn_local(life::take_lock()),
            Effect::ActivateUpdate => life::activate_update(),
            Effect::OpenDemo => life::go_demo(true),
            Effect::LeaveDemo => spawn_local(life::leave_demo()),
            Effect::Erase => spawn_local(life::erase()),
        }
    }
}

fn with<R>(f: impl FnOnce(&Rc<Runtime>) -> R) -> Option<R> {
    let runtime = RUNTIME.with(|slot| slot.borrow().clone());
    runtime.map(|rt| f(&rt))
}

fn runtime() -> Option<Rc<Runtime>> {
    RUNTIME.with(|slot| slot.borrow().clone())
}

fn now() -> Stamp {
    let slept = with(|rt| rt.slept.get()).unwrap_or_default();
    let mono_ms = slept.awake_ms(clock::mono_ms());
    Stamp { wall_ms: clock::wall_ms(), offset_min: clock::offset_min(), mono_ms }
}

/// The database's handle, opened (again) if need be.
async fn database(rt: &Rc<Runtime>) -> Result<Rc<Database>, StoreError> {
    if rt.leaving.get() {
        return Err(StoreError::Aborted); // a page that goes writes nothing into what was just erased
    }
    let held = rt.db.borrow().clone().filter(|db| !db.is_lost());
    if let Some(db) = held {
        return Ok(db);
    }
    let db = Rc::new(Database::open(rt.db_name, life::connection_lost).await?);
    *rt.db.borrow_mut() = Some(db.clone());
    Ok(db)
}
