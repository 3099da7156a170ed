//! What was taken back comes back; what those hear and feel who don't look: the focus under a cover, the same text twice, keys
//! that rest.

use crate::{HOME, with_squad};
use browser_tests::{Result, Screen};
use serde_json::json;

/// A contact taken back from the list stands struck at its end, and is put back by a tap; the demo offers no erase.
#[tokio::test]
async fn what_was_taken_back_comes_back() -> Result<()> {
    let mut stage = with_squad(Screen::SMALL).await?;
    let list = "count [data-key^=\"contact.\"]";
    let script = format!(
        "seek drill.0 | screen run | tap pass.0.3 | tap pass.1.2 | tap pass.2.0 | fig of = good of 3 | tap contacts | screen contacts
         {list} = 3 | gone put-back.0 | seek contact.0 | there take-back | seek take-back | gone fix-done | {list} = 2
         there put-back.0 | see Odile, gone 0 | axe | dark | axe | light | seek put-back.0 | {list} = 3 | gone put-back.0
         reload | screen contacts | {list} = 3 | seek go-on | screen run | fig of = good of 3 | {HOME}
         tap tab.share | screen share | seek phone | screen phone | there erase | seek demo | screen today | tap tab.share | screen share
         seek phone | screen phone | there demo-leave | gone erase"
    );
    stage.check("taken back", &script).await
}

/// A cover takes the focus to its sentence and gives it back; the second of two taps that say the same is said too.
#[tokio::test]
async fn a_board_that_is_heard() -> Result<()> {
    let mut stage = with_squad(Screen::SMALL).await?;
    let said = "document.querySelector('[role=status][aria-live]').textContent";
    stage.check("a tap", "seek drill.0 | screen run | tap pass.0.3 | fig of = good of 1").await?;
    let first = stage.phone.eval(said).await?;
    stage.check("the same tap", "tap pass.0.3 | fig of = good of 2").await?;
    let second = stage.phone.eval(said).await?;
    assert!(first.as_str().is_some_and(|text| text.contains("Mira, stood 3")), "{first}");
    assert_ne!(first, second);
    assert_eq!(first.as_str().map(str::trim), second.as_str().map(str::trim));

    stage.check("covered", "later 46s | there uncover | axe").await?;
    let on_cover = "document.activeElement.id === 'cover-line' && document.activeElement.closest('[role=dialog][aria-labelledby=cover-line]') !== null";
    stage.phone.wait_until("the focus on the cover", on_cover).await?;
    stage.check("uncovered", "hold uncover | gone uncover | let-go").await?;
    let back =
        "document.activeElement.closest('main.run') !== null && !document.activeElement.closest('.cover, [inert]')";
    stage.phone.wait_until("the focus back on the board", back).await?;
    Ok(())
}

/// Everyone is away: the keys of a board for children rest, and the call says why.
#[tokio::test]
async fn keys_rest_while_nobody_is_here() -> Result<()> {
    let mut stage = with_squad(Screen::SMALL).await?;
    let away: Vec<String> = (0..12).map(|i| format!("scroll presence.{i} | tap presence.{i}")).collect();
    let why = "fig call = Nobody stands here. Tap who is here, above.";
    let script = format!(
        "seek presence | {} | fig here = 0 of 12 are here | seek drill.3 | screen run | disabled serve-in | {why} | {HOME}
         seek drill.0 | screen run | disabled pass.0.3 | {why} | {HOME} | seek drill.7 | screen run | enabled good | tap good | fig of = good of 1",
        away.join(" | ")
    );
    stage.check("nobody", &script).await?;
    assert_eq!(stage.phone.eval("document.querySelectorAll('[data-key=\"good\"][data-n]').length").await?, json!(1));
    Ok(())
}
