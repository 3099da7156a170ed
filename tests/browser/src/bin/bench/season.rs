//! Owns the season that is measured against: made by the app's own pure layers, packed as the app packs, put into the database
//! that the app itself has made. Checks on the app's screen that it is really there.

use browser_tests::{Error, Phone, Result, Site};
use peppertally::app::demo::{self, Size};
use peppertally::app::effect::Opened;
use peppertally::domain::entry::{Entry, Fact};
use peppertally::domain::ids::RunId;
use peppertally::domain::log::Log;
use peppertally::domain::replay::base::Base;
use peppertally::domain::replay::run::RunState;
use peppertally::domain::summary::PracticeSummary;
use peppertally::domain::time::Stamp;
use peppertally::wire::file::{self, FileHeader};
use peppertally::wire::{block, record, summary};
use serde_json::json;
use std::time::{SystemTime, UNIX_EPOCH};

const SEED: u64 = 20;
/// Two practices a week from August to March, each a long one.
const SIZE: Size = Size { n_children: 12, n_practices: 64, n_contacts_a_practice: 3125 };
/// Of the pages' numbers: 200,040 contacts.
const TWENTY: Size = Size { n_children: 20, n_practices: 60, n_contacts_a_practice: 3334 };

/// One that goes from screen to camera.
const EVENING: Size = Size { n_children: 12, n_practices: 1, n_contacts_a_practice: 300 };

/// A page of the app's origin without the app.
const EMPTY_PAGE: &str = "bench-fill.html";

pub struct Season {
    /// Squad, drills and styles: key and record.
    loose: Vec<(String, String)>,
    pub practices: Vec<Packed>,
    pub n_contacts: usize,
    size: Size,
    ended: Stamp,
}

#[derive(Clone)]
pub struct Packed {
    key: String,
    /// JSON inside, so it travels as text.
    block: String,
    summary: String,
}

impl Season {
    /// 200,000 contacts that end a few days ago.
    pub fn full() -> Self {
        Self::of(SIZE)
    }

    /// The same of twenty children in sixty practices.
    pub fn of_twenty() -> Self {
        Self::of(TWENTY)
    }

    pub fn of_one_practice() -> Self {
        Self::of(EVENING)
    }

    /// As another phone would send it.
    pub fn copy(&self) -> String {
        let season = demo::season(SEED, self.size, self.ended);
        let header = FileHeader {
            app_version: "bench".to_owned(),
            written_ms: self.ended.wall_ms,
            offset_min: self.ended.offset_min,
        };
        file::write(season.base.iter().chain(season.practices.iter().flatten()), &header)
    }

    /// As the app finds it when it opens the database.
    pub fn opened(&self) -> Opened {
        let there = |(key, text): (&String, &String)| (key.clone(), Ok(text.clone()));
        Opened {
            entries: self.loose.iter().map(|(key, text)| there((key, text))).collect(),
            summaries: self.practices.iter().map(|packed| there((&packed.key, &packed.summary))).collect(),
            ..Opened::default()
        }
    }

    /// When it is looked at.
    pub const fn ended(&self) -> Stamp {
        self.ended
    }

    fn of(size: Size) -> Self {
        let since = SystemTime::now().duration_since(UNIX_EPOCH).unwrap_or_default();
        let wall_ms = i64::try_from(since.as_millis()).unwrap_or(i64::MAX);
        let ended = Stamp { wall_ms, offset_min: 60, mono_ms: 0 };
        let season = demo::season(SEED, size, ended);
        let is_contact = |entry: &&Entry| matches!(entry.fact, Fact::ContactNoted { .. });
        Self {
            loose: season.base.iter().map(|entry| (entry.id.to_string(), record::encode(entry))).collect(),
            n_contacts: season.practices.iter().flatten().filter(is_contact).count(),
            practices: season.practices.into_iter().flat_map(pack).collect(),
            size,
            ended,
        }
    }

    /// The same squad and drills before their first practice.
    pub fn without_practices(&self) -> Self {
        Self { loose: self.loose.clone(), practices: Vec::new(), n_contacts: 0, size: self.size, ended: self.ended }
    }

    /// Puts the season into the database of the app at this site, and looks on the app's own screen whether it is there.
    pub async fn put_into(&self, phone: &Phone, site: &Site) -> Result<()> {
        // The app makes the database, so that this knows nothing of its version; and its service worker keeps the app.
        super::go(phone, &site.base()).await?;
        phone.wait_for("[data-screen=today]").await?;
        phone
            .wait_until("the app to be kept for offline", "document.documentElement.dataset.offline === 'ready'")
            .await?;
        site.change(EMPTY_PAGE, "<!doctype html><link rel=icon href=data:,><title>Empty</title>");
        super::go(phone, &format!("{}{EMPTY_PAGE}", site.base())).await?;
        phone.eval(PUT).await?;
        phone.eval(&format!("__put({{ entries: {} }})", json!(self.loose))).await?;
        for practice in &self.practices {
            let Packed { key, block, summary } = practice;
            let stores = json!({ "blocks": [[key, block]], "summaries": [[key, summary]] });
            phone.eval(&format!("__put({stores})")).await?;
        }
        super::go(phone, &format!("{}#after", site.base())).await?;
        phone.wait_for("[data-screen=after]").await?;
        let wish = format!("{} practices with {} contacts in the list", self.practices.len(), self.n_contacts);
        let listed = format!("(({SHOWN}) ?? '') === '{} {}'", self.practices.len(), self.n_contacts);
        match phone.wait_until(&wish, &listed).await {
            Ok(_) => Ok(()),
            Err(error) => {
                Err(Error::Found { what: format!("{error}"), list: vec![phone.eval(SHOWN).await?.to_string()] })
            }
        }
    }
}

fn pack(entries: Vec<Entry>) -> Vec<Packed> {
    let log: Log = entries.into_iter().collect();
    let base = Base::fold(log.iter());
    let of_run = |run: &RunId| log.iter().filter(|entry| entry.fact.run(entry.id) == Some(*run)).cloned().collect();
    let packed = base.practices().into_iter().map(|practice| {
        let runs: Vec<RunState> = practice.runs.iter().filter_map(|run| RunState::fold(of_run(run))).collect();
        Packed {
            key: practice.id.0.to_string(),
            block: String::from_utf8_lossy(&block::pack(log.iter())).into_owned(),
            summary: summary::encode(&PracticeSummary::of(&practice, runs.iter())),
        }
    });
    packed.collect()
}

/// Writes texts, and blocks as bytes, into the stores of the app's database.
const PUT: &str = r"globalThis.__put = stores => new Promise((resolve, reject) => {
    const opening = indexedDB.open('peppertally');
    opening.onerror = () => reject(opening.error);
    opening.onsuccess = () => {
        const database = opening.result;
        const transaction = database.transaction(Object.keys(stores), 'readwrite');
        for (const [store, records] of Object.entries(stores))
            for (const [key, text] of records)
                transaction.objectStore(store).put(store === 'blocks' ? new TextEncoder().encode(text) : text, key);
        transaction.oncomplete = () => { database.close(); resolve(); };
        transaction.onabort = () => reject(transaction.error);
    };
}), null";

/// How many practices the list shows, and the sum of their contacts.
const SHOWN: &str = r#"(rows => {
    const contacts = rows.map(row => Number(/(\d+) contacts/.exec(row.innerText)?.[1] ?? 0));
    return `${rows.length} ${contacts.reduce((a, b) => a + b, 0)}`;
})([...document.querySelectorAll('[data-key^="practice."]')])"#;
