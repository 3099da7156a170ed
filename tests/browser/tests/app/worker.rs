//! The worker in trouble: what it writes is strict, a storage that fails it loses nothing, and no job holds the app up for good.

use crate::with_squad;
use browser_tests::{Phone, Result, Screen, Stage, faults};
use std::time::Duration;

/// A practice of three contacts, ended; its packing begins.
const PRACTISED: &str = "seek drill.0 | screen run | tap pass.0.3 x 3 | fig saved = saved | tap finish | screen run-report | tap tab.after
    screen after | tap practice.0 | screen practice-report | seek practice-end | there practice-reopen | tap tab.today | screen today";

async fn with_worker(fault: &str) -> Result<Stage> {
    let mut stage = with_squad(Screen::SMALL).await?;
    stage.inject_worker(fault).await?;
    stage.check("a faulty worker", "reload | screen today").await?;
    Ok(stage)
}

/// So many finished practices lie packed, so many entries loose.
async fn stored(phone: &Phone) -> Result<(u64, u64)> {
    let count = "new Promise((done, no) => { const r = indexedDB.open('peppertally'); r.onerror = no; r.onsuccess = async () => {
        const of = name => new Promise((yes, no) => { const q = r.result.transaction(name).objectStore(name).count(); q.onsuccess = () => yes(q.result); q.onerror = no; });
        const counts = [await of('blocks'), await of('entries')];
        r.result.close(); done(counts);
    }; })";
    let counts = phone.eval(count).await?;
    Ok((counts[0].as_u64().unwrap_or_default(), counts[1].as_u64().unwrap_or_default()))
}

async fn wait_packed(phone: &Phone) -> Result<()> {
    let packed = "new Promise((done, no) => { const r = indexedDB.open('peppertally'); r.onerror = no; r.onsuccess = () => {
        const q = r.result.transaction('blocks').objectStore('blocks').count(); q.onsuccess = () => { r.result.close(); done(q.result === 1); };
    }; })";
    phone.wait_until("the practice to lie packed", packed).await.map(drop)
}

/// What the worker writes waits for the disk as every tap does, in one transaction.
#[tokio::test]
async fn packing_is_strict() -> Result<()> {
    let mut stage = with_worker(&format!("{}{}", faults::RECORD_TRANSACTIONS, faults::TELL)).await?;
    stage.check("practised", PRACTISED).await?;
    let written = stage.phone.eval(faults::TOLD_BY_THE_WORKER).await?;
    let written = written.as_array().expect("a list");
    assert_eq!(written.len(), 1, "{written:?}");
    let one = &written[0];
    assert!(one["durability"] == "strict" && one["commit"] == true && one["end"] == "complete", "{one}");
    assert!(one["writes"].as_u64().is_some_and(|n| n >= 5), "block, summary and the entries removed: {one}");
    Ok(())
}

/// The phone is full while the worker packs: everything stays as it is, a copy still leaves, and the next start packs it.
#[tokio::test]
async fn a_full_phone_loses_nothing() -> Result<()> {
    let mut stage = with_worker(faults::FULL).await?;
    stage.check("practised", PRACTISED).await?;
    let (_, n_loose) = stored(&stage.phone).await?;
    stage
        .check(
            "a copy leaves",
            "tap tab.share | screen share | seek copy-download | see The copy was given to the browser to save",
        )
        .await?;
    // With the copy a note was written of which phone this is.
    assert_eq!(stored(&stage.phone).await?, (0, n_loose + 1), "nothing was taken away");
    stage.check("killed", "kill | screen share | tap tab.after | screen after | see 1 drill, 3 contacts").await?;
    assert_eq!(stored(&stage.phone).await?.0, 0);
    stage.heal_worker();
    stage.check("well", "reload | screen after | see 1 drill, 3 contacts | tap tab.today | screen today").await?;
    wait_packed(&stage.phone).await?;
    stage.check("all there", "reload | tap tab.after | screen after | see 1 drill, 3 contacts").await
}

/// Reading never answers the worker: after a while the copy leaves with what is in memory, and says what is missing.
#[tokio::test]
async fn reading_never_answers_the_worker() -> Result<()> {
    let mut stage = with_worker(faults::SILENT_READS).await?;
    stage.phone.limit(Duration::from_secs(40));
    stage
        .check("a copy in parts", "tap tab.share | screen share | seek copy-download | see Writing the copy | see Only what is in memory could go into this copy | enabled copy-download")
        .await
}

/// Erasing is refused while a job is under way: the job is answered, and nothing rests for good.
#[tokio::test]
async fn a_refused_erase_answers_what_was_asked() -> Result<()> {
    let mut stage = with_squad(Screen::SMALL).await?;
    stage.phone.inject(&format!("{}{}", faults::SILENT_WORKER, faults::NO_ERASE)).await?;
    stage
        .check("asked", "reload | screen today | tap tab.share | screen share | seek copy-download | see Writing the copy | disabled copy-download
            seek phone | screen phone | seek erase | seek erase-sure | see Not everything could be erased | tap tab.share | screen share | enabled copy-download")
        .await
}
