//! Copies: sent from one phone, opened on another, taken back; and files that are refused, each with its sentence.

use crate::with_squad;
use browser_tests::{Phone, PhoneKind, Result, Screen, Site, Stage, faults};
use serde_json::{Value, json};
use std::path::{Path, PathBuf};

/// Everything in the database, as text.
async fn stored(phone: &Phone) -> Result<String> {
    let dump = "new Promise((done, no) => { const r = indexedDB.open('peppertally'); r.onerror = no; r.onsuccess = async () => {
        const db = r.result, all = {};
        for (const name of db.objectStoreNames) {
            const of = what => new Promise((yes, no) => { const q = db.transaction(name).objectStore(name)[what](); q.onsuccess = () => yes(q.result); q.onerror = no; });
            all[name] = [await of('getAllKeys'), (await of('getAll')).map(v => v instanceof Uint8Array ? [...v] : v)];
        }
        db.close(); done(JSON.stringify(all));
    }; })";
    Ok(phone.eval(dump).await?.as_str().unwrap_or_default().to_string())
}

/// A file beside the copy with other content.
fn beside(copy: &Path, name: &str, content: &[u8]) -> PathBuf {
    let path = copy.with_file_name(name);
    std::fs::write(&path, content).expect("a file beside the copy");
    path
}

async fn second_phone() -> Result<Stage> {
    let mut stage = Stage::of(Site::of_the_app()?, PhoneKind { screen: Screen::SMALL, ..PhoneKind::default() }).await?;
    stage.check("a second phone", "open | screen today | tap roster | screen roster | type roster = 1 Ana | tap roster-take | screen today | fig saved = saved
        tap tab.share | screen share").await?;
    Ok(stage)
}

#[tokio::test]
async fn a_copy_goes_to_another_phone() -> Result<()> {
    let mut first = with_squad(Screen::SMALL).await?;
    first.check("a practice", "tap tab.share | screen share | seek phone | screen phone | scroll install | type device-name = Ana's phone | reload | screen phone
        tap tab.today | screen today | seek drill.0 | screen run | tap pass.0.3 x 6 | tap pass.1.0 | tap effort | tap effort-kind.0 | tap effort-close | tap finish
        screen run-report | tap tab.today | screen today | seek drill.5 | screen run | seek told.0.7 | tap finish | screen run-report
        seek send | screen share | fig since = 8 contacts, and no copy has left this phone yet. | seek copy-download | see The copy was given to the browser to save | fig since = 8 contacts, and no copy has left this phone yet. | seek copy-there | see Good. | see On the other phone: Share, then | see Everything is in the copy of").await?;
    let copy =
        first.phone.wait_download("a copy", |name| name.starts_with("peppertally-") && name.ends_with(".json")).await?;
    let text = std::fs::read_to_string(&copy).expect("the copy");
    let read: Value = serde_json::from_str(&text).expect("the copy is JSON");
    assert_eq!((&read["format"], &read["version"]), (&json!("peppertally-copy"), &json!(1)));
    assert!(
        read["contacts"]["outcome"].is_array() && read["told"]["good"].is_array() && text.contains("Ana's phone"),
        "{text}"
    );

    let mut second = second_phone().await?;
    let before = stored(&second.phone).await?;
    let path = copy.display();
    second.check("looked at", &format!("file file = {path} | see Ana's phone | fig lead = 7 contacts and 10 balls told as numbers of 1 practice, not here yet. | see New too: 12 children | seek by-phones | see Ana's phone | seek by-children | see new in the squad | there parcel-accept | axe")).await?;
    assert_eq!(stored(&second.phone).await?, before, "looking at a file stored something");
    second.check("left", "tap parcel-decline | gone parcel-accept").await?;
    assert_eq!(stored(&second.phone).await?, before);
    second.check("taken in", &format!("file file = {path} | tap parcel-accept | see Taken in. | axe | tap tab.after | screen after | see 2 drills, 7 contacts, told counts
        tap practice.0 | screen practice-report | seek run.0 | screen run-report | fig everyone = 6 good of 7, about 5 to 10 in 10 | tap tab.squad | screen squad | count .row-key = 13")).await?;
    let after = stored(&second.phone).await?;
    second.check("twice", &format!("tap tab.share | screen share | file file = {path} | see Everything in it is here already. | gone parcel-accept | tap parcel-decline | count [data-key^=\"parcel-back.\"] = 1")).await?;
    assert_eq!(stored(&second.phone).await?, after, "the same file again changed something");
    second.check("taken back", "tap parcel-back.0 | see goes from this phone’s screens | axe | scroll parcel-sure.0 | shot back-asked | seek parcel-sure.0 | see taken back | tap tab.after | screen after | gone practice.0 | tap tab.squad | screen squad | count .row-key = 1
        kill | screen squad | count .row-key = 1 | tap tab.share | screen share | see taken back | tap parcel-back.0 | unseen taken back
        tap tab.squad | screen squad | count .row-key = 13 | kill | screen squad | count .row-key = 13").await
}

#[tokio::test]
async fn what_is_refused_changes_nothing() -> Result<()> {
    let mut first = with_squad(Screen::SMALL).await?;
    first.check("a run", "seek drill.0 | screen run | tap pass.0.3 x 12 | tap pass.1.0 x 3 | tap finish | screen run-report | seek send | screen share | seek copy-download | see was given to the browser to save").await?;
    let copy = first.phone.wait_download("a copy", |name| name.ends_with(".json")).await?;
    let text = std::fs::read_to_string(&copy).expect("the copy");
    let mut broken: Value = serde_json::from_str(&text).expect("JSON");
    broken["entries"]["clock"].as_array_mut().expect("a column").push(json!(1));
    let large = copy.with_file_name("large.json");
    std::fs::File::create(&large).and_then(|file| file.set_len(100_000_001)).expect("a sparse file");
    let files = [
        (beside(&copy, "text.json", b"hello"), "This file is not a Peppertally copy. Nothing was changed."),
        (
            beside(&copy, "other.json", b"{\"format\":\"a score sheet\",\"version\":1}"),
            "This file is not a Peppertally copy. Nothing was changed.",
        ),
        (beside(&copy, "empty.json", b""), "This copy is cut off: its end is missing."),
        (
            beside(&copy, "cut.json", &text.as_bytes()[..text.len() * 2 / 3]),
            "This copy is cut off: its end is missing.",
        ),
        (
            beside(&copy, "newer.json", text.replacen("\"version\":1", "\"version\":9", 1).as_bytes()),
            "This copy was written by a newer version of the app.",
        ),
        (
            beside(&copy, "broken.json", broken.to_string().as_bytes()),
            "This copy is damaged: something in it contradicts itself.",
        ),
        (large, "This file is larger than 100 MB"),
    ];
    let mut second = second_phone().await?;
    let before = stored(&second.phone).await?;
    for (path, says) in files {
        second
            .check(
                says,
                &format!(
                    "file file = {} | see {says} | gone parcel-accept | tap close | unseen {says}",
                    path.display()
                ),
            )
            .await?;
        assert_eq!(stored(&second.phone).await?, before, "{says}");
    }
    // Cut off anywhere: never taken, never a fault of the app.
    for part in 1..8 {
        let path = beside(&copy, &format!("cut-{part}.json"), &text.as_bytes()[..text.len() * part / 8]);
        second
            .check(
                "cut",
                &format!("file file = {} | see Nothing was changed. | gone parcel-accept | tap close", path.display()),
            )
            .await?;
    }
    assert_eq!(stored(&second.phone).await?, before);
    Ok(())
}

/// Where there is a share sheet the copy goes through it, as a text file since browsers refuse `.json`; closed, it waits; tallied on,
/// it is written anew.
#[tokio::test]
async fn a_copy_goes_through_the_share_sheet() -> Result<()> {
    let mut stage = with_squad(Screen::SMALL).await?;
    stage.phone.inject(faults::SHARE_SHEET).await?;
    stage.check("sent", "reload | screen today | seek drill.0 | screen run | tap pass.0.3 x 4 | fig saved = saved | tap finish | screen run-report | seek send | screen share
        seek copy-share | see The copy has left this phone. Everything up to now is in it. | see Everything is in the copy of | axe").await?;
    stage.phone.eval("globalThis.__closes = true").await?;
    stage
        .check("closed", "seek copy-share | there copy-send | enabled copy-send | see Everything is in the copy of")
        .await?;
    stage.phone.eval("globalThis.__closes = false").await?;
    stage.check("tallied on", "tap tab.today | screen today | seek drill.0 | screen run | tap pass.0.3 x 2 | tap finish | screen run-report | seek send | screen share
        see 2 contacts since the copy of | seek copy-send | see The copy has left this phone. Everything up to now is in it. | gone copy-send").await?;
    let shared = stage.phone.eval("__shared").await?;
    let shared = shared.as_array().expect("a list");
    let n_contacts = |file: &Value| {
        let copy: Value = serde_json::from_str(file["text"].as_str().expect("text")).expect("JSON");
        assert_eq!(copy["format"], "peppertally-copy");
        let name = file["name"].as_str().expect("a name");
        assert!(name.starts_with("peppertally-") && name.ends_with(".txt") && file["type"] == "text/plain", "{name}");
        let bytes = file["text"].as_str().expect("text").as_bytes();
        let entries =
            peppertally::wire::file::read(bytes, &peppertally::wire::file::Limits::default()).expect("ours").entries;
        entries.iter().filter(|e| e.fact.is_counted()).count()
    };
    assert_eq!(shared.iter().map(n_contacts).collect::<Vec<_>>(), [4, 6]);
    Ok(())
}
