//! The record. Owns the two databases, their object stores, and the rule that a write is confirmed only by its
//! transaction's `complete` event, with `durability: "strict"`. Refuses to know what a record says, and to delete one
//! entry by itself: an entry leaves its store only in the transaction that packs it into a block.
//!
//! Built on `indexed_db_futures`. Its raw handles are used for three things that it does not tell: why a transaction was
//! aborted at commit, that the connection was closed, and that a deletion is blocked.

use super::error::StoreError;
use super::patience::{in_time, within};
use indexed_db_futures::database::{Database as Handle, VersionChangeEvent};
use indexed_db_futures::internals::SystemRepr;
use indexed_db_futures::object_store::ObjectStore;
use indexed_db_futures::prelude::*;
use indexed_db_futures::transaction::{Transaction, TransactionDurability, TransactionMode, TransactionOptions};
use js_sys::{Promise, Uint8Array};
use std::cell::Cell;
use std::rc::Rc;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::{JsFuture, spawn_local};

/// Which of the two databases: the coach's own, or the demo's, which shares nothing with it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum DbName {
    Own,
    Demo,
}

impl DbName {
    pub const fn as_str(self) -> &'static str {
        match self {
            Self::Own => "peppertally",
            Self::Demo => "peppertally-demo",
        }
    }
}

/// A value as it was found. What can't be read is described, never dropped.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Stored<T> {
    Read(T),
    /// Of another kind than this store holds: what the browser says it is.
    Unreadable(String),
}

/// Why an open handle can't be used any more. The data are still there.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lost {
    /// Another tab wants to erase or upgrade the database; this handle was closed so that it can.
    Yielded,
    /// The browser closed the connection (WebKit does, in the background).
    Closed,
}

/// What is put in and taken out in one transaction: all of it or nothing.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Change {
    /// Blocks as they were read before. If one of them is another now, nothing is written.
    pub as_read: Vec<(String, Option<Vec<u8>>)>,
    pub blocks: Vec<(String, Vec<u8>)>,
    pub summaries: Vec<(String, String)>,
    pub entries: Vec<(String, String)>,
    pub parcels: Vec<(String, Vec<u8>)>,
    pub notes: Vec<(String, String)>,
    pub remove_entries: Vec<String>,
    pub remove_summaries: Vec<String>,
}

/// An open database. Dropping it closes the connection once running transactions are through. Works on a page and in a
/// worker. Share it as `Rc<Database>`; after a loss drop it and open again.
pub struct Database {
    name: DbName,
    handle: Handle,
    lost: Rc<Cell<Option<Lost>>>,
    // Kept as long as the handle, whose listeners they are.
    _on_version_change: Closure<dyn FnMut()>,
    _on_close: Closure<dyn FnMut()>,
}

const VERSION: u32 = 1;
const ENTRIES: &str = "entries";
const BLOCKS: &str = "blocks";
const SUMMARIES: &str = "summaries";
const PARCELS: &str = "parcels";
const PARCEL_NOTES: &str = "parcel_notes";
const ASIDE: &str = "aside";
const STORES: [&str; 6] = [ENTRIES, BLOCKS, SUMMARIES, PARCELS, PARCEL_NOTES, ASIDE];

/// How long another tab may take to let go (ours does so in the same task; one that is frozen may not), and how long one reading
/// or a few entries may take.
const PATIENCE_MS: i32 = 8_000;
/// How long a change may take: a file of 100 MB on a slow disk.
const CHANGE_PATIENCE_MS: i32 = 60_000;

impl Database {
    /// Opens the database, and creates it when there is none. `on_lost` is called once if the handle is lost later; it may
    /// drop the handle. It outlives every screen, so it may touch only what belongs to the whole app.
    pub async fn open(name: DbName, on_lost: impl Fn(Lost) + 'static) -> Result<Self, StoreError> {
        factory()?; // tells "none here" and "not allowed" apart, which the crate does not
        let opening = Handle::open(name.as_str())
            .with_version(VERSION)
            .with_on_upgrade_needed(|_: VersionChangeEvent, fresh: Handle| {
                for store in STORES {
                    fresh.create_object_store(store).build()?;
                }
                Ok(())
            })
            .build()?;
        let handle = match within(PATIENCE_MS, opening).await? {
            Ok(opened) => opened?,
            Err(late) => {
                // Should it open after all, it is closed at once: an unseen connection would block every erasure.
                spawn_local(async move {
                    if let Ok(opened) = late.await {
                        opened.close();
                    }
                });
                return Err(StoreError::Blocked);
            }
        };
        Ok(Self::watch(name, handle, on_lost))
    }

    fn watch(name: DbName, handle: Handle, on_lost: impl Fn(Lost) + 'static) -> Self {
        let lost = Rc::new(Cell::new(None));
        let on_lost = Rc::new(on_lost);
        let listener = |why: Lost| {
            let (lost, on_lost, raw) = (lost.clone(), on_lost.clone(), handle.as_sys().clone());
            Closure::<dyn FnMut()>::new(move || {
                raw.close();
                if lost.replace(Some(why)).is_none() {
                    on_lost(why);
                }
            })
        };
        let (on_version_change, on_close) = (listener(Lost::Yielded), listener(Lost::Closed));
        handle.as_sys().set_onversionchange(Some(on_version_change.as_ref().unchecked_ref()));
        handle.as_sys().set_onclose(Some(on_close.as_ref().unchecked_ref()));
        Self { name, handle, lost, _on_version_change: on_version_change, _on_close: on_close }
    }

    pub fn name(&self) -> DbName {
        self.name
    }

    /// True once the connection is known to be gone: drop this handle and open another.
    pub fn is_lost(&self) -> bool {
        self.lost.get().is_some()
    }

    /// Writes entries, all or none. Resolves only when the database has confirmed them. One that doesn't answer in time is
    /// lost like a closed one (a browser in the background may forget to tell): the same entries can be put again through
    /// another, they only stand there once.
    pub async fn put_entries(self: &Rc<Self>, entries: &[(String, String)]) -> Result<(), StoreError> {
        let (this, entries) = (self.clone(), entries.to_vec());
        let put = async move { this.write(&[ENTRIES], |tx| put_texts(tx, ENTRIES, &entries)).await };
        match within(PATIENCE_MS, put).await? {
            Ok(answer) => answer,
            Err(_late) => {
                self.lost.set(Some(Lost::Closed));
                Err(StoreError::ConnectionLost("no answer".to_owned()))
            }
        }
    }

    /// Every entry that is not packed yet, by key.
    pub async fn all_entries(&self) -> Result<Vec<(String, Stored<String>)>, StoreError> {
        self.all_texts(ENTRIES).await
    }

    /// Carries out a change. `Changed` where a block is no longer as it was read: nothing was written. `NoAnswer`: nobody can tell
    /// yet whether it was.
    pub async fn change(&self, change: Change) -> Result<(), StoreError> {
        in_time(CHANGE_PATIENCE_MS, self.changed(change)).await
    }

    pub async fn block(&self, key: &str) -> Result<Option<Stored<Vec<u8>>>, StoreError> {
        self.bytes(BLOCKS, key).await
    }

    pub async fn block_keys(&self) -> Result<Vec<String>, StoreError> {
        self.keys(BLOCKS).await
    }

    pub async fn all_summaries(&self) -> Result<Vec<(String, Stored<String>)>, StoreError> {
        self.all_texts(SUMMARIES).await
    }

    pub async fn all_parcel_notes(&self) -> Result<Vec<(String, Stored<String>)>, StoreError> {
        self.all_texts(PARCEL_NOTES).await
    }

    pub async fn parcel_bytes(&self, key: &str) -> Result<Option<Stored<Vec<u8>>>, StoreError> {
        self.bytes(PARCELS, key).await
    }

    /// Keeps the text of something that could not be read. What was set aside under the same key before is replaced, so
    /// choose a key that says where it was found.
    pub async fn set_aside(&self, key: &str, text: &str) -> Result<(), StoreError> {
        self.write(&[ASIDE], |tx| put_texts(tx, ASIDE, &[(key.to_owned(), text.to_owned())])).await
    }

    pub async fn all_aside(&self) -> Result<Vec<(String, Stored<String>)>, StoreError> {
        self.all_texts(ASIDE).await
    }

    /// Deletes the whole database. Drop your own handle first; other tabs close theirs when the browser tells them.
    /// `Blocked` says that a tab did not: the deletion stays queued and is done when that tab is gone.
    pub async fn erase(name: DbName) -> Result<(), StoreError> {
        let request = factory()?.delete_database(name.as_str()).map_err(|thrown| StoreError::from_js(&thrown))?;
        let done = Promise::new(&mut |resolve, reject| {
            request.set_onsuccess(Some(&resolve));
            request.set_onerror(Some(&reject));
        });
        match within(PATIENCE_MS, JsFuture::from(done)).await? {
            Ok(Ok(_)) => Ok(()),
            Ok(Err(_)) => Err(match request.error() {
                Ok(Some(thrown)) => StoreError::from_named(&thrown.name(), thrown.message()).while_opening(),
                Ok(None) => StoreError::Aborted,
                Err(thrown) => StoreError::from_js(&thrown),
            }),
            Err(_still_waiting) => Err(StoreError::Blocked),
        }
    }
}

impl Drop for Database {
    fn drop(&mut self) {
        let raw = self.handle.as_sys();
        raw.set_onversionchange(None);
        raw.set_onclose(None);
        raw.close();
    }
}

// Transactions.
impl Database {
    async fn changed(&self, change: Change) -> Result<(), StoreError> {
        let tx = self.begin(&[ENTRIES, BLOCKS, SUMMARIES, PARCELS, PARCEL_NOTES])?;
        for (key, as_read) in &change.as_read {
            let now = tx.object_store(BLOCKS)?.get::<JsValue, _, _>(key.as_str()).primitive()?.await;
            let now = self.seen(now.map_err(StoreError::from))?;
            let same = match (&now, as_read) {
                (None, None) => true,
                (Some(now), Some(as_read)) => {
                    now.dyn_ref::<Uint8Array>().is_some_and(|bytes| bytes.to_vec() == *as_read)
                }
                _ => false,
            };
            if !same {
                return Err(StoreError::Changed);
            }
        }
        for (key, bytes) in &change.blocks {
            put_bytes(&tx, BLOCKS, key, bytes)?;
        }
        for (key, bytes) in &change.parcels {
            put_bytes(&tx, PARCELS, key, bytes)?;
        }
        put_texts(&tx, SUMMARIES, &change.summaries)?;
        put_texts(&tx, ENTRIES, &change.entries)?;
        put_texts(&tx, PARCEL_NOTES, &change.notes)?;
        delete(&tx, ENTRIES, &change.remove_entries)?;
        delete(&tx, SUMMARIES, &change.remove_summaries)?;
        self.commit(tx).await
    }

    /// One strict transaction. `work` queues its requests, then the transaction is committed; a failed `work` undoes it.
    async fn write(
        &self,
        stores: &[&str],
        work: impl FnOnce(&Transaction<'_>) -> Result<(), StoreError>,
    ) -> Result<(), StoreError> {
        let tx = self.begin(stores)?;
        work(&tx)?;
        self.commit(tx).await
    }

    /// A strict transaction. One that is dropped uncommitted is undone.
    fn begin(&self, stores: &[&str]) -> Result<Transaction<'_>, StoreError> {
        let strict = TransactionOptions::new().with_durability(TransactionDurability::Strict);
        let opened = self.handle.transaction(stores).with_mode(TransactionMode::Readwrite).with_options(strict).build();
        self.seen(opened.map_err(StoreError::from))
    }

    async fn commit(&self, tx: Transaction<'_>) -> Result<(), StoreError> {
        let raw = tx.as_sys().clone();
        let committed = tx.commit().await.map_err(|error| match raw.error() {
            // A full disk shows itself only here: the requests went well, the commit did not.
            Some(thrown) => StoreError::from_named(&thrown.name(), thrown.message()),
            None => match StoreError::from(error) {
                StoreError::Other { name, .. } if name == "MissingData" => StoreError::Aborted,
                told => told,
            },
        });
        self.seen(committed)
    }

    fn read(&self, store: &str) -> Result<Transaction<'_>, StoreError> {
        let opened = self.handle.transaction(store).with_mode(TransactionMode::Readonly).build();
        self.seen(opened.map_err(StoreError::from))
    }

    /// Remembers a loss that shows itself only in an answer.
    fn seen<T>(&self, answer: Result<T, StoreError>) -> Result<T, StoreError> {
        if let (Err(StoreError::ConnectionLost(_) | StoreError::NoAnswer), None) = (&answer, self.lost.get()) {
            self.lost.set(Some(Lost::Closed));
        }
        answer
    }

    async fn all_texts(&self, store: &str) -> Result<Vec<(String, Stored<String>)>, StoreError> {
        let tx = self.read(store)?;
        let records = async {
            let from = tx.object_store(store)?;
            // Both are asked before either is awaited, in one transaction: they match, one by one.
            let keys = from.get_all_keys::<JsValue>().primitive()?;
            let values = from.get_all::<JsValue>().primitive()?;
            let keys = keys.await?.collect::<Result<Vec<_>, _>>()?;
            let values = values.await?.collect::<Result<Vec<_>, _>>()?;
            Ok::<_, indexed_db_futures::error::Error>(keys.into_iter().zip(values).map(text_record).collect())
        };
        let answer = in_time(PATIENCE_MS, async { records.await.map_err(StoreError::from) }).await;
        self.seen(answer)
    }

    async fn keys(&self, store: &str) -> Result<Vec<String>, StoreError> {
        let tx = self.read(store)?;
        let keys = async {
            let keys = tx.object_store(store)?.get_all_keys::<JsValue>().primitive()?.await?;
            keys.map(|key| key.map(|key| text_key(&key))).collect::<Result<Vec<_>, _>>()
        };
        let answer = in_time(PATIENCE_MS, async { keys.await.map_err(StoreError::from) }).await;
        self.seen(answer)
    }

    async fn bytes(&self, store: &str, key: &str) -> Result<Option<Stored<Vec<u8>>>, StoreError> {
        let tx = self.read(store)?;
        let value = async {
            let value = tx.object_store(store)?.get::<JsValue, _, _>(key).primitive()?.await?;
            Ok::<_, indexed_db_futures::error::Error>(value.map(|value| match value.dyn_into::<Uint8Array>() {
                Ok(bytes) => Stored::Read(bytes.to_vec()),
                Err(other) => Stored::Unreadable(format!("{other:?}")),
            }))
        };
        let answer = in_time(PATIENCE_MS, async { value.await.map_err(StoreError::from) }).await;
        self.seen(answer)
    }
}

fn put_texts(tx: &Transaction<'_>, store: &str, records: &[(String, String)]) -> Result<(), StoreError> {
    let into: ObjectStore<'_> = tx.object_store(store)?;
    for (key, value) in records {
        into.put(value.as_str()).with_key(key.clone()).primitive()?;
    }
    Ok(())
}

fn put_bytes(tx: &Transaction<'_>, store: &str, key: &str, bytes: &[u8]) -> Result<(), StoreError> {
    let value = JsValue::from(Uint8Array::from(bytes));
    tx.object_store(store)?.put(value).with_key(key.to_owned()).primitive()?;
    Ok(())
}

fn delete(tx: &Transaction<'_>, store: &str, keys: &[String]) -> Result<(), StoreError> {
    let from = tx.object_store(store)?;
    for key in keys {
        from.delete(key.as_str()).primitive()?;
    }
    Ok(())
}

fn text_record((key, value): (JsValue, JsValue)) -> (String, Stored<String>) {
    let stored = match (key.is_string(), value.as_string()) {
        (true, Some(text)) => Stored::Read(text),
        _ => Stored::Unreadable(format!("{value:?}")),
    };
    (text_key(&key), stored)
}

/// A key of ours is always a string; a foreign one is shown as the browser shows it.
fn text_key(key: &JsValue) -> String {
    match key.as_string() {
        Some(text) => text,
        None => format!("{key:?}"),
    }
}

/// The browser's own door to databases, on a page or in a worker.
fn factory() -> Result<web_sys::IdbFactory, StoreError> {
    let found = js_sys::Reflect::get(&js_sys::global(), &JsValue::from_str("indexedDB"))
        .map_err(|thrown| StoreError::from_js(&thrown).while_opening())?;
    found.dyn_into().map_err(|_absent| StoreError::Unavailable)
}
