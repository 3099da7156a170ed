//! Locked copies from one phone to another, and to and from another implementation of the format; packed copies.

use crate::with_squad;
use browser_tests::{PhoneKind, Result, Screen, Site, Stage};
use std::path::{Path, PathBuf};

const WORDS: &str = "four words stand apart";

fn fixture(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../lock/tests/fixtures");
    folder.join(name).canonicalize().expect("a fixture")
}

async fn second_phone() -> Result<Stage> {
    let mut stage = Stage::of(Site::of_the_app()?, PhoneKind { screen: Screen::TALL, ..PhoneKind::default() }).await?;
    stage.check("a second phone", "open | screen today | tap tab.share | screen share").await?;
    Ok(stage)
}

#[tokio::test]
async fn a_locked_copy_goes_to_another_phone() -> Result<()> {
    let mut first = with_squad(Screen::SMALL).await?;
    first.check("a practice", "seek drill.0 | screen run | tap pass.0.3 x 6 | tap pass.1.0 | tap finish | screen run-report | seek send | screen share").await?;
    first.check("locked", &format!("seek lock | scroll lock-save | disabled lock-save | type lock-words = blue | see Easy to guess. | type lock-words = {WORDS} | see Hard to guess, | axe | shot lock-out
        seek lock-save | see The copy was given to the browser to save | value lock-words =")).await?;
    let copy = first.phone.wait_download("a locked copy", |name| name.ends_with("-locked.age")).await?;
    let bytes = std::fs::read(&copy).expect("the copy");
    assert!(lock::is_locked(&bytes) && !String::from_utf8_lossy(&bytes).contains("Mira"));
    // The same by the same code outside of the browser: packed, and whole.
    let opened = lock::open(&bytes, WORDS, 1_000_000).expect("opened");
    assert_eq!(opened.get(..2), Some(&[0x1f, 0x8b][..]));
    // Nothing of the words stays on the phone.
    let kept = first.phone.eval("JSON.stringify(Object.entries(localStorage)) + document.body.outerHTML").await?;
    assert!(!kept.to_string().contains("stand apart"));

    let mut second = second_phone().await?;
    second.check("opened", &format!("file file = {} | see This file is locked | see -locked.age | disabled lock-open | axe | shot lock-asks
        type open-words = other words | tap lock-open | see These words don’t open it. | value open-words = other words | axe | shot lock-wrong
        type open-words = {WORDS}  | tap lock-open | see 7 contacts of 1 practice, not here yet. | tap parcel-accept | see Taken in.
        tap tab.after | screen after | see 1 drill, 7 contacts | kill | screen after | see 1 drill, 7 contacts", copy.display())).await
}

/// Files of another implementation, with the work that it takes by itself; and those that aren't opened, each with its sentence.
#[tokio::test]
async fn files_of_another_implementation_are_opened() -> Result<()> {
    let mut stage = second_phone().await?;
    for (name, words) in [
        ("binary.age", WORDS),
        ("armor.txt", WORDS),
        ("unicode.age", "Räder über Straße 排球"),
        ("by-itself.age", WORDS),
    ] {
        let file = fixture(name);
        stage.check(name, &format!("file file = {} | see This file is locked | type open-words = {words} | tap lock-open | there parcel-accept | see not here yet | tap parcel-decline", file.display())).await?;
    }
    let whole = std::fs::read(fixture("binary.age")).expect("a fixture");
    let folder = std::env::temp_dir().join(format!("peppertally-locked-{}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("a folder");
    let mut changed = whole.clone();
    *changed.last_mut().expect("a byte") ^= 1;
    for (name, bytes) in [("cut.age", whole.get(..whole.len() - 100).expect("long enough")), ("changed.age", &changed)]
    {
        let file = folder.join(name);
        std::fs::write(&file, bytes).expect("a file");
        stage.check(name, &format!("file file = {} | see This file is locked | type open-words = {WORDS} | tap lock-open | see cut off or was changed on its way | gone lock-open | tap close", file.display())).await?;
    }
    for (name, says) in
        [("work-19.age", "more work than a phone should do"), ("key.age", "locked with a key and not with words")]
    {
        stage.check(name, &format!("file file = {} | see This file is locked | type open-words = {WORDS} | tap lock-open | see {says} | gone lock-open | tap close", fixture(name).display())).await?;
    }
    std::fs::remove_dir_all(&folder).expect("the folder goes");
    Ok(())
}

/// The program that locks is on the phone before there is no signal; given up, it ends at once.
#[tokio::test]
async fn without_a_signal_and_given_up() -> Result<()> {
    let mut stage = with_squad(Screen::SMALL).await?;
    stage.phone.wait_until("everything to be kept", "document.documentElement.dataset.offline === 'ready'").await?;
    stage.check("no signal", &format!("stop-server | reload | screen today | tap tab.share | screen share | seek lock | scroll lock-save | type lock-words = {WORDS}
        seek lock-save | see The copy was given to the browser to save | seek copy-there")).await?;
    // A worker that never answers stands for a slow phone.
    stage.check("back", "start-server").await?;
    stage.phone.inject("{ const Real = Worker; globalThis.Worker = class extends Real { constructor(address) { super(address === 'worker-lock-start.js' ? 'mute.js' : address); } }; }").await?;
    stage.site.change("mute.js", "");
    stage.check("given up", &format!("reload | screen share | seek lock | scroll lock-save | type lock-words = {WORDS} | seek lock-save | see Locking. | disabled copy-download
        seek lock-stop | unseen Locking. | enabled copy-download")).await
}

/// A packed copy is the copy in it; one that grows beyond all measure is refused in one sentence, and the app goes on.
#[tokio::test]
async fn packed_copies() -> Result<()> {
    let mut stage = second_phone().await?;
    let folder = std::env::temp_dir().join(format!("peppertally-packed-{}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("a folder");
    let content = std::fs::read(fixture("content.json")).expect("a fixture");
    // Made by the browser itself, which packs as well as any.
    let pack = |expression: String| {
        format!(
            "new Promise(async done => {{ const bytes = new Uint8Array(await new Response(new Blob([{expression}]).stream().pipeThrough(new CompressionStream('gzip'))).arrayBuffer()); done([...bytes]); }})"
        )
    };
    let text = serde_json::to_string(&String::from_utf8_lossy(&content)).expect("text");
    for (name, expression, says) in [
        ("copy.json.gz", text, "see not here yet | there parcel-accept | tap parcel-decline"),
        (
            "grows.json.gz",
            "' '.repeat(120_000_000)".to_owned(),
            "see more than 100 MB come out of it | gone parcel-accept | tap close",
        ),
    ] {
        let packed = stage.phone.eval(&pack(expression)).await?;
        let packed: Vec<u8> = serde_json::from_value(packed).expect("bytes");
        let file = folder.join(name);
        std::fs::write(&file, &packed).expect("a file");
        stage.check(name, &format!("file file = {} | {says}", file.display())).await?;
        if name.starts_with("copy") {
            std::fs::write(&file, &packed[..packed.len() - 4]).expect("a file");
            stage
                .check(
                    "cut off",
                    &format!(
                        "file file = {} | see it is packed, and cut off or changed on its way | tap close",
                        file.display()
                    ),
                )
                .await?;
        }
    }
    std::fs::remove_dir_all(&folder).expect("the folder goes");
    Ok(())
}
