//! IndexedDB and local storage: bytes in, bytes out. Knows no entry, no screen and no words; it says what happened and
//! leaves to others what to do about it.

mod database; // the record: one key and one value an entry, strict transactions
mod error; // what a database can answer instead of "saved"
mod local; // the one door to local storage
mod patience; // waiting with an end
pub mod second_copy; // each entry again in local storage, until the database has confirmed it
pub mod settings; // one JSON text, set aside when it can't be read

pub use database::{Change, Database, DbName, Lost, Stored};
pub use error::StoreError;
pub use local::LocalError;
