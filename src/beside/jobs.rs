//! The worker's own end: each job is given what it needs from the database, what it makes is written in one strict transaction,
//! and only then it is answered. Holds nothing between two jobs.

use wasm_bindgen_futures::spawn_local;

use super::{ANSWER, DIED, LOOKING, READY, log, trouble};
use crate::app::effect::Trouble;
use crate::app::update::MAX_FILE_BYTES;
use crate::app::words;
use crate::app::work::doing::{self, Done, Found, FoundParcel, Need, Which, do_job};
use crate::app::work::{Answer, BUILD, Job, LOOKED_FILE, LOOKED_HERE, Note};
use crate::platform::files::{self, Chosen, ReadError};
use crate::platform::worker::{self, Given};
use crate::platform::{clock, hash};
use crate::store::{Change, Database, DbName, StoreError, Stored};

/// Serves the page for as long as it wants.
pub fn serve() {
    worker::tell_panic(DIED);
    let listening = worker::listen(|given| spawn_local(serve_one(given)));
    if let Err(fault) = listening.and_then(|()| worker::say(READY, BUILD, None)) {
        log(&fault);
    }
}

async fn serve_one(given: Given) {
    let start_ms = clock::mono_ms();
    let [db_name, text] = &given.texts;
    let (answer, text_of_copy) = match Job::from_text(text) {
        Some(job) => done(db_name, &job, given.file.as_ref()).await,
        None => (Answer::Refused(words::work::NONSENSE.to_owned()), None),
    };
    let file = text_of_copy.map(|text| files::blob(&text)).transpose();
    let said = match file {
        Ok(file) => {
            let text = answer.to_text();
            let ms = clock::mono_ms().saturating_sub(start_ms);
            worker::say_timed(ANSWER, &text, file, u32::try_from(ms).unwrap_or(u32::MAX))
        }
        Err(fault) => worker::say(DIED, &fault.to_string(), None),
    };
    if let Err(fault) = said {
        log(&fault);
    }
}

/// So often a job is begun again because another window packed in between.
const N_TRIES: u32 = 3;

async fn done(db_name: &str, job: &Job, file: Option<&Chosen>) -> (Answer, Option<String>) {
    for _ in 0..N_TRIES {
        match tried(db_name, job, file).await {
            Ok(done) => return done,
            Err(StoreError::Changed) => {}
            // It may have been carried out after all: the next start shows it.
            Err(StoreError::NoAnswer) => return (Answer::Refused(words::work::NOT_SURE.to_owned()), None),
            Err(error) => return (Answer::Refused(not_written(&trouble(error))), None),
        }
    }
    (Answer::Refused(words::work::CHANGED.to_owned()), None)
}

/// One try: found, done, written. An error says that the writing failed.
async fn tried(db_name: &str, job: &Job, file: Option<&Chosen>) -> Result<(Answer, Option<String>), StoreError> {
    let need = Need::of(job);
    let name = if db_name == DbName::Demo.as_str() { DbName::Demo } else { DbName::Own };
    // Opened for this job alone, so that it stands in nobody's way; and not where nothing of it is wanted.
    let open = || Database::open(name, |_lost| {});
    let db = if need.is_of_database() { Some(open().await) } else { None };
    let found = match &db {
        Some(Ok(db)) => find(db, &need, |at| told(job, at)).await,
        Some(Err(error)) => Err(error.clone()),
        None => Ok(Found::default()),
    };
    let mut found = found.unwrap_or_else(|error| Found {
        closed: Some(words::trouble::short(&trouble(error)).to_owned()),
        ..Found::default()
    });
    told(job, LOOKED_HERE);
    found.file = match file.filter(|_| need.file) {
        Some(file) => Some(read(file).await),
        None => None,
    };
    told(job, LOOKED_FILE);
    let Done { answer, change, file } = do_job(job, found);
    if let Some(change) = change {
        let db = match db {
            Some(db) => db,
            None => open().await,
        };
        db?.change(to_store(change)).await?;
    }
    Ok((answer, file))
}

/// How far a file was looked at; of another job nobody asks.
fn told(job: &Job, at: u8) {
    if matches!(job, Job::Look { .. })
        && let Err(fault) = worker::say(LOOKING, &at.to_string(), None)
    {
        log(&fault);
    }
}

/// `told` hears how far it has come, up to [`LOOKED_HERE`].
async fn find(db: &Database, need: &Need, told: impl Fn(u8)) -> Result<Found, StoreError> {
    let mut found = Found::default();
    // Loose entries first: another window may pack meanwhile, and an entry goes from here into a block, never back. So one is
    // found twice at worst, and never missed.
    if need.entries {
        found.entries = db.all_entries().await?.into_iter().map(|(key, text)| (key, result(text))).collect();
    }
    let keys = match &need.blocks {
        Which::None => Vec::new(),
        Which::Of(practice) => vec![practice.clone()],
        Which::All => db.block_keys().await?,
    };
    let n_keys = keys.len().max(1);
    for (n, key) in keys.into_iter().enumerate() {
        told(u8::try_from(n * usize::from(LOOKED_HERE) / n_keys).unwrap_or(LOOKED_HERE));
        if let Some(bytes) = db.block(&key).await? {
            found.blocks.push((key, result(bytes)));
        }
    }
    if need.parcels != Which::None {
        for (key, note) in db.all_parcel_notes().await? {
            let note = match note {
                Stored::Read(text) => Note::from_text(&text),
                Stored::Unreadable(_) => None,
            };
            let Some(note) = note else {
                found.without_note.push(key);
                continue;
            };
            if !need.wants_parcel(&note) {
                continue;
            }
            let bytes = match db.parcel_bytes(&key).await? {
                Some(bytes) => result(bytes),
                None => Err(words::work::NO_PARCEL.to_owned()),
            };
            found.parcels.push(FoundParcel { key, note, bytes });
        }
    }
    Ok(found)
}

async fn read(file: &Chosen) -> Result<(String, Vec<u8>), String> {
    let bytes = file.read(MAX_FILE_BYTES).await.map_err(|error| match error {
        ReadError::TooLarge { .. } => words::trouble::TOO_LARGE.to_owned(),
        ReadError::Failed(why) => why,
    })?;
    // A packed copy and the same one as it is are one file from here on.
    let bytes = doing::unpacked(bytes)?;
    let key = hash::sha256(&bytes).await.map_err(|fault| fault.to_string())?;
    Ok((key, bytes))
}

fn result<T>(stored: Stored<T>) -> Result<T, String> {
    match stored {
        Stored::Read(value) => Ok(value),
        Stored::Unreadable(what) => Err(what),
    }
}

/// The same change in the words of the layer that carries it out. `app` names no browser and `store` names no app, so each has a
/// type of its own; taken apart whole, so that no part of one can be forgotten.
fn to_store(change: doing::Change) -> Change {
    let doing::Change { as_read, blocks, summaries, entries, parcels, notes, remove_entries, remove_summaries } =
        change;
    Change { as_read, blocks, summaries, entries, parcels, notes, remove_entries, remove_summaries }
}

fn not_written(trouble: &Trouble) -> String {
    words::work::not_written(words::trouble::short(trouble))
}
