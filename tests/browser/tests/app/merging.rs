//! Phones brought together: two copies of two phones, made by the app itself, looked at and taken in; two names said to be one child; all of it
//! taken back.

use browser_tests::{PhoneKind, Result, Screen, Site, Stage};
use std::path::PathBuf;

/// A phone with a squad, a name and so many balls of its first child; and the copy that it sends.
async fn phone_with(squad: &str, name: &str, n_balls: u32) -> Result<(Stage, PathBuf)> {
    let kind = PhoneKind { screen: Screen::SMALL, ..PhoneKind::default() };
    let mut stage = Stage::of(Site::of_the_app()?, kind).await?;
    stage
        .check(
            name,
            &format!(
                "open | screen today | tap roster | screen roster | type roster = {squad} | tap roster-take | screen today
                tap tab.share | screen share | seek phone | screen phone | scroll install | type device-name = {name} | reload | screen phone
                tap tab.today | screen today | seek drill.0 | screen run | tap pass.0.3 x {n_balls} | fig saved = saved | tap finish | screen run-report
                seek send | screen share | seek copy-download | see The copy was given to the browser to save | seek copy-there"
            ),
        )
        .await?;
    let copy = stage.phone.wait_download("a copy", |name| name.ends_with(".json")).await?;
    Ok((stage, copy))
}

#[tokio::test]
async fn two_phones_are_brought_together_and_apart() -> Result<()> {
    let (_ana, of_ana) = phone_with("7 Myra\\nlund ODILE\\n5 Iva", "Ana's phone", 4).await?;
    let (_bea, of_bea) = phone_with("3 Lasse\\n4 Ylva\\n6 Runa", "Bea's phone", 2).await?;
    let (mut coach, _) = phone_with("7 Mira\\n9 Tove\\nOdile Lund", "the coach's", 3).await?;
    let (of_ana, of_bea) = (of_ana.display(), of_bea.display());
    coach
        .check(
            "taken in",
            &format!(
                "file file = {of_ana} | fig lead = 4 contacts of 1 practice, not here yet. | see By phone: 1 | axe | shot preview | tap parcel-accept | see Taken in.
                there twice | file file = {of_bea} | fig lead = 2 contacts of 1 practice, not here yet. | dark | shot preview-dark | light | tap parcel-accept | see Taken in.
                count [data-key^=\"parcel-back.\"] = 2 | tap tab.squad | screen squad | count .row-key = 9"
            ),
        )
        .await?;
    // One child under two names: asked, said, counted together, over a kill. Which of the two stands first is chance.
    coach.check("asked", "seek twice | screen joining | see The same shirt number, and names one letter apart. | see The same name in another order. | axe | shot joining
        dark | shot joining-dark | light | there keep.0.one").await?;
    let first =
        coach.phone.eval("document.querySelector('[data-key=\"keep.0.one\"]').textContent.includes('Mira')").await?;
    let mira = if first == serde_json::json!(true) { "keep.0.one" } else { "keep.0.other" };
    coach.check("said to be one", &format!("seek {mira} | see Myra 7 counts as Mira 7 | seek two.0 | see lund ODILE | gone two.0 | axe | shot joined
        tap tab.squad | screen squad | count .row-key = 8 | kill | screen squad | count .row-key = 8 | seek child.0 | screen child | seek weeks | screen child-weeks
        tap tab.after | screen after | seek practice.2 | screen practice-report | seek run.0 | screen run-report | see Mira | unseen Myra")).await?;
    coach.check("taken back", "tap tab.squad | screen squad | seek twice | screen joining | seek joined.0 | there keep.0.one | seek apart.0 | there keep.1.one
        tap tab.squad | screen squad | count .row-key = 9 | tap tab.share | screen share | seek parcel-back.0 | seek parcel-sure.0 | see taken back | seek parcel-back.1 | seek parcel-sure.1
        tap tab.squad | screen squad | count .row-key = 3 | gone twice | kill | screen squad | count .row-key = 3").await
}

/// A second phone takes part in the practice that the first began, counts for it, and goes; the first has both runs in one practice.
#[tokio::test]
async fn a_second_phone_takes_part() -> Result<()> {
    let kind = || PhoneKind { screen: Screen::SMALL, ..PhoneKind::default() };
    let mut coach = Stage::of(Site::of_the_app()?, kind()).await?;
    let send = "tap tab.share | screen share | seek copy-download | see The copy was given to the browser to save | seek copy-there";
    coach
        .check(
            "begun",
            &format!(
                "open | screen today | tap roster | screen roster | type roster = Mira\\nTove\\nOdile\\nBram | tap roster-take | screen today
                seek drill.0 | screen run | tap pass.0.3 x 3 | fig saved = saved | tap finish | screen run-report | {send}"
            ),
        )
        .await?;
    let copy = coach.phone.wait_download("a copy", |name| name.ends_with(".json")).await?;
    let mut other = Stage::of(Site::of_the_app()?, kind()).await?;
    other
        .check(
            "takes part",
            &format!(
                "open | screen today | tap tab.share | screen share | file file = {} | seek parcel-accept | see Taken in. | tap tab.today | screen today
                see Another phone began a practice at | seek drill.1 | see Is this drill part of it? | axe | shot asks-part | dark | shot asks-part-dark | light | tap tab.squad | screen squad | tap tab.today | screen today | gone part-own | seek notice.0 | see You take part in another phone | see So far | axe | shot taking-part
                reload | screen today | see Stop taking part | seek drill.0 | screen run | tap pass.0.3 x 2 | fig saved = saved | kill | screen run | tap pass.0.0 | fig saved = saved
                tap finish | screen run-report | tap tab.today | screen today | seek practice-leave | screen practice-report | see 2 good of 3 | see 3 good of 3 | {send}",
                copy.display()
            ),
        )
        .await?;
    let back = other.phone.wait_download("a copy", |name| name.ends_with(".json")).await?;
    coach
        .check(
            "one practice",
            &format!(
                "file file = {} | seek parcel-accept | see Taken in. | tap tab.today | screen today | see 2 good of 3 | see 3 good of 3 | seek practice-end
                screen practice-report | see 2 good of 3 | tap tab.after | screen after | count [data-key^=\"practice.\"] = 1",
                back.display()
            ),
        )
        .await
}

/// Two of whom nobody asks are said to be one by hand, and told apart again.
#[tokio::test]
async fn any_two_can_be_said_to_be_one() -> Result<()> {
    let kind = PhoneKind { screen: Screen::SMALL, ..PhoneKind::default() };
    let mut stage = Stage::of(Site::of_the_app()?, kind).await?;
    stage
        .check("a squad", "open | screen today | tap roster | screen roster | type roster = Mira\\nTove\\nOdile | tap roster-take | screen today
            fig saved = saved | open #/squad/twice | screen joining | see Nobody looks as if entered twice. | seek others | scroll join | disabled join | axe")
        .await?;
    let choose = "(() => { const also = document.querySelector('[data-key=also]'); also.value = '1';
        also.dispatchEvent(new Event('change', { bubbles: true })); return also.selectedOptions[0].textContent; })()";
    assert_eq!(stage.phone.eval(choose).await?, serde_json::json!("Tove"));
    stage
        .check("one", "enabled join | seek join | see Tove counts as Mira | axe | tap tab.squad | screen squad | count .row-key = 2 | seek twice | screen joining
            seek joined.0 | unseen counts as | tap tab.squad | screen squad | count .row-key = 3")
        .await
}
