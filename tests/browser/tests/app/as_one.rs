//! Two phones began a practice each on one evening: one practice, once the coach has said so; over a kill, and taken back.

use browser_tests::{PhoneKind, Result, Screen, Site, Stage};
use std::path::PathBuf;

const SEND: &str = "tap tab.share | screen share | seek copy-download | see The copy was given to the browser to save | seek copy-there";

async fn sent(stage: &mut Stage, steps: &str) -> Result<PathBuf> {
    stage.check("sends", &format!("{steps} | {SEND}")).await?;
    stage.phone.wait_download("a copy", |name| name.ends_with(".json")).await
}

/// So many balls of the first child, ended.
fn practice(n_balls: u32) -> String {
    format!(
        "tap tab.today | screen today | seek drill.0 | screen run | tap pass.0.3 x {n_balls} | fig saved = saved | tap finish | screen run-report
        tap tab.today | screen today | seek practice-end | screen practice-report"
    )
}

#[tokio::test]
async fn two_practices_of_one_evening_are_one() -> Result<()> {
    let kind = |screen| PhoneKind { screen, ..PhoneKind::default() };
    let mut coach = Stage::of(Site::of_the_app()?, kind(Screen::SMALL)).await?;
    let squad = "open | screen today | tap roster | screen roster | type roster = 7 Mira\\n9 Tove\\n11 Odile\\n4 Bram | tap roster-take | screen today";
    let squad = sent(&mut coach, squad).await?;
    let mut ana = Stage::of(Site::of_the_app()?, kind(Screen::SMALL)).await?;
    let taken = format!(
        "open | screen today | tap tab.share | screen share | seek phone | screen phone | scroll install | type device-name = Ana's phone | reload | screen phone
        tap tab.share | screen share | file file = {} | seek parcel-accept | see Taken in. | {}",
        squad.display(),
        practice(2)
    );
    let of_ana = sent(&mut ana, &taken).await?;
    coach
        .check(
            "asked",
            &format!(
                "{} | tap tab.share | screen share | file file = {} | seek parcel-accept | see Taken in. | see Two practices may be one | axe | shot one-share
                tap tab.after | screen after | count [data-key^=\"practice.\"] = 2 | axe | shot one-list | seek as-one | screen as-one
                see One practice at several stations? | see On Ana's phone | axe | shot one-asked | dark | shot one-asked-dark | light",
                practice(3),
                of_ana.display()
            ),
        )
        .await?;
    coach
        .check(
            "one",
            "seek one.0 | gone one.0 | see read together | axe | shot one-said | tap tab.after | screen after | count [data-key^=\"practice.\"] = 1 | see 2 drills, 5 contacts
            kill | screen after | count [data-key^=\"practice.\"] = 1 | seek practice.0 | screen practice-report | see 3 good of 3 | see 2 good of 2 | see ; on this phone from
            axe | shot one-report | dark | shot one-report-dark | light | scroll as-one | shot one-report-foot | seek as-one | screen as-one | shot one-by-hand",
        )
        .await?;
    coach
        .check(
            "taken back, and by hand",
            "seek joined.0 | there one.0 | tap tab.after | screen after | count [data-key^=\"practice.\"] = 2 | seek as-one | screen as-one | seek two.0 | gone two.0 | see Two practices
            tap tab.after | screen after | seek practice.0 | screen practice-report | seek as-one | screen as-one | see This is the same practice as | axe | shot one-hand | dark | shot one-hand-dark | light
            seek other.0 | see read together | tap tab.after | screen after | count [data-key^=\"practice.\"] = 1",
        )
        .await
}
