//! Storage that fails: the app says what is safe, what is not, what to do; a copy still leaves; after the fault all is saved.

use crate::{squad, with_squad};
use browser_tests::{Engine, Phone, PhoneKind, Result, Screen, Site, Stage, faults};
use peppertally::domain::entry::Fact;
use peppertally::wire::file::{self, Limits};

/// A fault that ends when the page is told so, and stays ended over a reload.
fn until_well(fault: &str) -> String {
    format!("if (!sessionStorage.getItem('well')) {{ {fault} }}")
}

const WELL: &str = "sessionStorage.setItem('well', 'yes'), 0";

async fn stage_with(fault: &str) -> Result<Stage> {
    let mut stage = Stage::of(Site::of_the_app()?, PhoneKind { screen: Screen::SMALL, ..PhoneKind::default() }).await?;
    stage.phone.inject(&until_well(fault)).await?;
    Ok(stage)
}

/// A copy is sent from the board's screen of trouble; says how many contacts it holds.
async fn contacts_of_a_copy(stage: &mut Stage) -> Result<usize> {
    stage
        .check(
            "a copy",
            "tap tab.share | screen share | seek copy-download | see The copy was given to the browser to save",
        )
        .await?;
    n_contacts(&stage.phone, "").await
}

async fn n_contacts(phone: &Phone, not: &str) -> Result<usize> {
    let path = phone.wait_download("a copy", |name| name.ends_with(".json") && (not.is_empty() || name != not)).await?;
    let bytes = std::fs::read(path).expect("the copy");
    let copy = file::read(&bytes, &Limits::default()).expect("a copy of ours");
    Ok(copy.entries.iter().filter(|e| matches!(e.fact, Fact::ContactNoted { .. })).count())
}

/// A squad and seven contacts on a phone that stores nothing; all figures go on as ever.
fn tally() -> String {
    format!(
        "{} | seek drill.0 | screen run | tap pass.0.3 x 5 | tap pass.1.0 x 2 | fig of = good of 7",
        squad().replace(" | fig saved = saved", "")
    )
}

/// The phone is full in the middle of a run; then there is room again.
#[tokio::test]
async fn full_in_mid_run() -> Result<()> {
    let mut stage = with_squad(Screen::SMALL).await?;
    stage.phone.inject(faults::FULL).await?;
    stage.phone.inject("__full = false;").await?;
    stage
        .check("room", "reload | screen today | seek drill.0 | screen run | tap pass.0.3 x 4 | fig saved = saved")
        .await?;
    stage.phone.eval("__full = true").await?;
    stage.check("full", "tap pass.1.2 x 3 | fig of = good of 7 | fig saved = 3 not saved: phone is full | tap not-saved | screen phone
        see The phone has no room left. | see 3 notes are not in the storage yet. A second copy of each lies in the browser's small store | axe").await?;
    assert_eq!(contacts_of_a_copy(&mut stage).await?, 7);
    // Where there is room again it saves by itself, so the key is tapped while there is none. With the copy a note was written of which
    // phone this is.
    stage
        .check("no room yet", "seek phone | screen phone | seek save-again | fig saved = 4 not saved: phone is full")
        .await?;
    stage.phone.eval("__full = false").await?;
    stage
        .check(
            "room again",
            "fig saved = saved | see Everything counted is stored on this phone.
        kill | open | screen run | fig of = good of 7 | fig saved = saved",
        )
        .await
}

/// The browser drops the connection in the middle of a run: the next tap opens it again.
#[tokio::test]
async fn the_database_is_lost_in_mid_run() -> Result<()> {
    let mut stage = with_squad(Screen::SMALL).await?;
    stage.phone.inject(faults::LOSABLE_DATABASE).await?;
    stage
        .check("well", "reload | screen today | seek drill.0 | screen run | tap pass.0.3 x 3 | fig saved = saved")
        .await?;
    for n in [4, 5] {
        stage.phone.eval("__loseDatabase()").await?;
        stage.check("lost", &format!("tap pass.1.3 | fig of = good of {n} | fig saved = saved")).await?;
    }
    stage.check("all there", "kill | screen run | fig of = good of 5").await
}

/// A connection that never answers: after a while the same notes go through another one, and nothing has to be tapped.
#[tokio::test]
async fn a_transaction_never_answers() -> Result<()> {
    let mut stage = with_squad(Screen::SMALL).await?;
    stage.phone.inject(faults::SILENT_CONNECTION).await?;
    stage
        .check("well", "reload | screen today | seek drill.0 | screen run | tap pass.0.3 x 3 | fig saved = saved")
        .await?;
    stage.phone.eval("globalThis.__silence = true").await?;
    stage.check("silent", "tap pass.1.3 x 2 | fig of = good of 5 | fig saved = saving | fig saved = saved").await?;
    stage.check("all there", "tap pass.1.3 | fig saved = saved | kill | screen run | fig of = good of 6").await
}

/// Reading never answers at the start: after two tries the app opens all the same, says so, and tries again when asked.
#[tokio::test]
async fn reading_never_answers_at_the_start() -> Result<()> {
    let mut stage = with_squad(Screen::SMALL).await?;
    stage.check("yesterday", "seek drill.0 | screen run | tap pass.0.3 x 4 | fig saved = saved").await?;
    stage.phone.inject(faults::SILENT_READS).await?;
    stage.phone.limit(std::time::Duration::from_secs(40));
    stage
        .check("silent", "open #/after | reload | see Opening what is stored | screen after | see Practices can't be read just now | axe
            tap tab.squad | screen squad | see The squad can't be read just now | axe | tap tab.today | screen today | see The storage doesn't open
            see The phone's storage does not answer. | axe | tap tab.share | screen share | see What is stored can't be read just now")
        .await?;
    let run = "open #/run/0000000000000001.00000000 | screen run | see This run can't be read just now | axe | tap leave | screen today";
    stage.check("a run", run).await?;
    stage.phone.eval(WELL).await?;
    stage.check("well", "seek read-again | fig here = All 12 are here | there drill.13 | gone drill.14 | tap go-on | screen run | fig of = good of 4 | tap pass.0.3 | fig saved = saved").await
}

/// Settings that can't be understood lie aside, are shown, and are never written over.
#[tokio::test]
async fn settings_that_say_nothing() -> Result<()> {
    for text in ["[1]", "{cut off"] {
        let mut stage = with_squad(Screen::SMALL).await?;
        stage.phone.eval(&format!("localStorage.setItem('peppertally/settings/v1', '{text}')")).await?;
        stage
            .check("shown", "reload | screen today | see 1 stored note could not be read | tap tab.share | seek phone | screen phone | seek set-sound
                see peppertally/settings/aside/1 | reload | screen phone | see peppertally/settings/aside/1")
            .await?;
        assert_eq!(stage.phone.eval("localStorage.getItem('peppertally/settings/aside/1')").await?, text);
    }
    Ok(())
}

/// The database doesn't open, or there is none: told, a copy leaves, and all is taken in once it opens.
#[tokio::test]
async fn no_database_at_first() -> Result<()> {
    let cases = [
        (faults::DATABASE_WONT_OPEN, "The browser does not let the app store anything"),
        (faults::DATABASE_THROWS, "The browser does not let the app store anything"),
        (faults::NO_DATABASE, "This browser has no storage that the app can use"),
    ];
    for (fault, says) in cases {
        let mut stage = stage_with(fault).await?;
        let told = format!(
            "{} | see not saved: storage is closed | tap not-saved | screen phone | see {says} | see A second copy of each lies in | axe",
            tally()
        );
        stage.check(says, &told).await?;
        assert_eq!(contacts_of_a_copy(&mut stage).await?, 7);
        // Still broken after a reload: the second copies bring the run back.
        stage.check("again", "open | screen run | fig of = good of 7 | see not saved: storage is closed").await?;
        stage.phone.eval(WELL).await?;
        stage.check("well", "reload | screen run | fig of = good of 7 | fig saved = saved | tap pass.0.3 | fig of = good of 8 | fig saved = saved
            reload | screen run | fig of = good of 8").await?;
    }
    Ok(())
}

/// A database with a season in it doesn't open today: once it opens, the season is there, with what was counted meanwhile.
#[tokio::test]
async fn no_database_today() -> Result<()> {
    let mut stage = with_squad(Screen::SMALL).await?;
    stage.check("yesterday", "seek drill.0 | screen run | tap pass.0.3 x 4 | fig saved = saved").await?;
    stage
        .phone
        .inject(&until_well(&faults::DATABASE_WONT_OPEN.replace(
            "const real = IDBFactory.prototype.open;",
            "const real = IDBFactory.prototype.open; globalThis.__well = () => { IDBFactory.prototype.open = real; };",
        )))
        .await?;
    stage.check("refused", "open #/ | reload | screen today | see storage is closed").await?;
    stage.phone.eval(&format!("__well(), {WELL}")).await?;
    // Without a reload: what is asked again is answered with all that was there.
    stage.check("well", "tap tab.share | seek phone | screen phone | seek save-again | fig saved = saved | tap tab.today | screen today
        fig here = All 12 are here | tap go-on | screen run | fig of = good of 4").await
}

/// Without the small store: the database alone keeps everything.
#[tokio::test]
async fn no_small_store() -> Result<()> {
    for fault in [faults::NO_LOCAL_STORAGE, faults::FULL_LOCAL_STORAGE] {
        let mut stage =
            Stage::of(Site::of_the_app()?, PhoneKind { screen: Screen::SMALL, ..PhoneKind::default() }).await?;
        stage.phone.inject(fault).await?;
        stage.check("no small store", &format!("{} | fig saved = saved | kill | screen run | fig of = good of 7 | tap pass.0.3 | fig saved = saved", tally())).await?;
    }
    // Neither store: it is said that nothing is safe, and the copy is the way out.
    let mut stage = stage_with(&format!("{}{}", faults::FULL_LOCAL_STORAGE, faults::DATABASE_WONT_OPEN)).await?;
    stage.check("neither", &format!("{} | see not saved: storage is closed | tap not-saved | screen phone | see only on this screen: they are lost if it closes. Send a copy now.", tally())).await?;
    assert_eq!(contacts_of_a_copy(&mut stage).await?, 7);
    Ok(())
}

/// A private window forgets: the app says that the browser has promised nothing.
#[tokio::test]
async fn a_private_window() -> Result<()> {
    let kind = PhoneKind { private: true, screen: Screen::SMALL, ..PhoneKind::default() };
    let mut stage = Stage::of(Site::of_the_app()?, kind).await?;
    let kept = match Engine::chosen()? {
        // Its window has nothing to ask.
        Engine::WebKit => "The browser does not say whether it keeps data for good",
        _ => "The browser may clear it",
    };
    stage.check("private", &format!("{} | fig saved = saved | reload | screen run | fig of = good of 7 | tap finish | screen run-report | tap tab.share
        seek phone | screen phone | see {kept}", tally())).await?;
    Ok(())
}
