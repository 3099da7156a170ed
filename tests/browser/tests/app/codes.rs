//! A copy shown as a moving code by one phone and read by the camera of another: what the first one's canvas shows becomes the film that
//! the second one's camera sees.

use crate::with_squad;
use browser_tests::film::{codes, film};
use browser_tests::{Phone, PhoneKind, Result, Screen, Site, Stage, needs};
use std::path::PathBuf;

async fn reading_phone(camera: Option<PathBuf>) -> Result<Stage> {
    let kind = PhoneKind { screen: Screen::SMALL, camera, ..PhoneKind::default() };
    let mut stage = Stage::of(Site::of_the_app()?, kind).await?;
    stage.check("a second phone", "open | screen today | tap roster | screen roster | type roster = 1 Ana | tap roster-take | screen today | fig saved = saved
        tap tab.share | screen share | seek read | screen read | see Start the camera | there camera | axe").await?;
    Ok(stage)
}

/// Whether any camera is still on: the video has a stream, or one of its tracks lives.
async fn camera_is_on(phone: &Phone) -> Result<bool> {
    let on = "window.__tracks ? window.__tracks.some(t => t.readyState === 'live') : false";
    Ok(phone.eval(on).await?.as_bool().unwrap_or(true))
}

/// From now on the page's tracks are known to the test.
const KNOW_TRACKS: &str = "(() => {
    const ask = navigator.mediaDevices.getUserMedia.bind(navigator.mediaDevices);
    window.__tracks = [];
    navigator.mediaDevices.getUserMedia = async (what) => { const s = await ask(what); window.__tracks.push(...s.getTracks()); return s; };
    return true;
})()";

#[tokio::test]
async fn a_practice_goes_from_screen_to_camera() -> Result<()> {
    needs!(Camera);
    let mut first = with_squad(Screen::SMALL).await?;
    first.check("a practice", "seek drill.0 | screen run | tap pass.0.3 x 6 | tap pass.1.0 x 3 | tap finish | screen run-report
        tap tab.share | screen share | seek show | screen show | axe | shot codes-what | tap show-start | there show-pause | axe | shot codes-show").await?;
    // What to do stands beside the code on the smallest phone, clear of the keys, without scrolling.
    let clear = "(() => { const box = s => document.querySelector(s).getBoundingClientRect(); window.scrollTo(0, 0);
        return box('[data-fig=how]').bottom <= box('.foot button').top && box('.code').top >= 0; })()";
    first.phone.wait_until("what to do to be in view", clear).await?;
    let says = first.phone.eval("document.querySelector('[data-fig=round]').textContent").await?;
    let n: usize = says.as_str().unwrap_or_default().split(' ').next().and_then(|n| n.parse().ok()).expect("a number");
    assert!(n > 1, "{says}");
    let shown = codes(&first.phone, n).await?;
    assert_eq!(shown.len(), n, "each was drawn");
    first
        .check("stopped and ended", "tap show-pause | see Go on | seek calm | tap show-done | there show-start")
        .await?;

    // Two rounds, every fifth lost; and what the camera sees before the code is in its picture.
    let rounds = shown.iter().chain(&shown).chain(&shown).enumerate();
    let mut pictures = vec![None, None];
    pictures.extend(rounds.map(|(at, code)| (at % 5 != 4).then_some(code)));
    let path = std::env::temp_dir().join(format!("peppertally-film-{}.y4m", std::process::id()));
    film(&path, &pictures)?;

    let mut second = reading_phone(Some(path.clone())).await?;
    second.phone.eval(KNOW_TRACKS).await?;
    second
        .check("read", "tap camera | screen share | see 9 contacts of 1 practice | there parcel-accept | axe")
        .await?;
    assert!(!camera_is_on(&second.phone).await?, "the camera is on after all was read");
    second
        .check("taken in", "tap parcel-accept | see Taken in. | tap tab.after | screen after | see 9 contacts")
        .await?;

    // Left in the midst of it: the camera ends with the screen. A film in which nothing is to be read keeps it looking.
    film(&path, &[None; 10])?;
    let mut third = reading_phone(Some(path.clone())).await?;
    third.phone.eval(KNOW_TRACKS).await?;
    third.check("looking", "tap camera | see No code in the picture yet. | axe | shot codes-read").await?;
    assert!(camera_is_on(&third.phone).await?, "the camera is on while it looks");
    third.check("left", "tap back | screen share").await?;
    assert!(!camera_is_on(&third.phone).await?, "the camera is on after its screen was left");
    std::fs::remove_file(&path).expect("the film");
    Ok(())
}

/// Without a camera it says what to do, and nothing else changes.
#[tokio::test]
async fn no_camera_is_said() -> Result<()> {
    let mut phone = reading_phone(None).await?;
    phone
        .check(
            "none",
            "tap camera | see send a file | see Try again | axe | shot codes-none | tap open-file | screen share",
        )
        .await
}
