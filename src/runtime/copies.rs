//! Files out and in: blocks read for a copy, the copy offered, a chosen file read, parcels kept.

use wasm_bindgen_futures::spawn_local;

use super::{database, report, runtime, trouble};
use crate::app::action::CopyHow;
use crate::app::effect::Report;
use crate::app::update::MAX_FILE_BYTES;
use crate::domain::ids::PracticeId;
use crate::platform::files::{self, Chosen, ReadError, Sharing};
use crate::platform::hash;
use crate::store::{Database, Stored};

pub async fn read_practice(practice: PracticeId) {
    let Some(rt) = runtime() else { return };
    let block = match database(&rt).await {
        Ok(db) => one_block(&db, &practice.0.to_string()).await,
        Err(error) => Err(format!("{error:?}")),
    };
    report(Report::PracticeRead { practice, block });
}

/// Everything that is packed, for a copy.
pub async fn read_all(how: CopyHow) {
    report(Report::AllRead { how, blocks: blocks().await });
}

async fn blocks() -> Result<Vec<Vec<u8>>, String> {
    let Some(rt) = runtime() else { return Err("the app is leaving".to_owned()) };
    let db = database(&rt).await.map_err(|e| format!("{e:?}"))?;
    let mut blocks = Vec::new();
    for key in db.block_keys().await.map_err(|e| format!("{e:?}"))? {
        blocks.push(one_block(&db, &key).await?);
    }
    Ok(blocks)
}

async fn one_block(db: &Database, key: &str) -> Result<Vec<u8>, String> {
    match db.block(key).await {
        Ok(Some(Stored::Read(bytes))) => Ok(bytes),
        Ok(Some(Stored::Unreadable(what))) => Err(what),
        Ok(None) => Err("not in the storage".to_owned()),
        Err(error) => Err(format!("{error:?}")),
    }
}

pub async fn offer(name: String, text: String, how: CopyHow) {
    let left = match how {
        CopyHow::Download => {
            files::download(&name, "application/json", text.as_bytes()).map(|()| true).map_err(|f| f.to_string())
        }
        CopyHow::ShareSheet => match files::share(&name, "text/plain", text.as_bytes()).await {
            Sharing::Shared => Ok(true),
            Sharing::Cancelled => Ok(false),
            Sharing::Unsupported => Err("this browser has no share sheet for files".to_owned()),
            Sharing::Refused(why) => Err(why),
        },
    };
    // Never in the task of an update: a report is an update too.
    spawn_local(async move { report(Report::CopyLeft(left)) });
}

/// A file from the input: size first, then its bytes.
pub fn open_file(file: web_sys::File) {
    spawn_local(async move {
        let chosen = Chosen::of(file);
        let bytes = match chosen.read(MAX_FILE_BYTES).await {
            Ok(bytes) => bytes,
            Err(ReadError::TooLarge { size_bytes, .. }) => return report(Report::FileTooLarge { bytes: size_bytes }),
            Err(ReadError::Failed(why)) => return report(Report::FileUnreadable(why)),
        };
        let key = match hash::sha256(&bytes).await {
            Ok(key) => key,
            Err(fault) => return report(Report::FileUnreadable(fault.to_string())),
        };
        match blocks().await {
            Ok(blocks) => report(Report::FileRead { name: chosen.name(), key, bytes, blocks }),
            Err(why) => report(Report::FileUnreadable(why)),
        }
    });
}

pub async fn keep_parcel(key: String, bytes: Vec<u8>, note: String) {
    let Some(rt) = runtime() else { return };
    let kept = match database(&rt).await {
        Ok(db) => db.put_parcel(&key, &bytes, &note).await,
        Err(error) => Err(error),
    };
    report(Report::ParcelKept(kept.map_err(trouble)));
}

pub async fn note_parcel(key: String, note: String) {
    let Some(rt) = runtime() else { return };
    let kept = match database(&rt).await {
        Ok(db) => db.set_parcel_note(&key, &note).await,
        Err(error) => Err(error),
    };
    report(Report::ParcelKept(kept.map_err(trouble)));
}
