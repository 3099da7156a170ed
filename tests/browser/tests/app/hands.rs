//! Thumbs and keyboards: what is touched counts, once.

use crate::{HOME, with_squad};
use browser_tests::{Engine, Result, Screen, needs, tell};

#[tokio::test]
async fn two_thumbs_lose_nothing() -> Result<()> {
    needs!(Fingers);
    let mut stage = with_squad(Screen::SMALL).await?;
    stage.check("board", "seek drill.0 | screen run").await?;
    for n in 1..=25 {
        let (a, b) = (n % 3, (n + 1) % 3);
        let script = format!("both pass.{a}.3 pass.{b}.{} | fig of = good of {}", n % 4, 2 * n);
        stage.check("two thumbs", &script).await?;
    }
    // One thumb rests on a key while the other goes on.
    stage.check("a resting thumb", "hold pass.0.3 | fig of = good of 51 | let-go | fig of = good of 51").await?;
    stage.check("kept", "fig saved = saved | reload | screen run | fig of = good of 51 | fig good = 38").await?;
    // The other boards, each with two keys at once.
    for (drill, a, b) in
        [(2, "pass-3", "pass-0"), (4, "serve-in", "serve-net-fast"), (6, "good", "not-good"), (7, "good", "not-good")]
    {
        let script = format!(
            "{HOME} | seek drill.{drill} | screen run | both {a} {b} | fig of = good of 2 | both {b} {a} | fig of = good of 4"
        );
        stage.check("two thumbs elsewhere", &script).await?;
    }
    Ok(())
}

/// A key of a keyboard counts once, however long it is held.
#[tokio::test]
async fn a_keyboard_counts_once() -> Result<()> {
    needs!(HeldKeys);
    let mut stage = with_squad(Screen::TALL).await?;
    stage.check("board", "seek drill.0 | screen run | there pass.1.2").await?;
    let focus = |key: &str| format!("document.querySelector('[data-key=\"{key}\"]').focus()");
    stage.phone.eval(&focus("pass.1.2")).await?;
    stage.check("once each", "key Enter | fig of = good of 1 | key Enter | fig of = good of 2").await?;
    stage.phone.key(" ").await?;
    stage.check("space", "fig of = good of 3 | fig good = 3").await?;
    stage.phone.key_held("Enter", 5).await?;
    stage.phone.key_held(" ", 5).await?;
    stage.check("held", "key Tab | fig of = good of 5").await?;
    stage.phone.eval(&focus("undo")).await?;
    stage.phone.key("Enter").await?;
    stage.check("undone", "fig of = good of 4 | fig saved = saved").await?;
    // A touch after the keyboard, and the keyboard after a touch.
    stage.check("touch", "tap pass.0.3 | fig of = good of 5").await?;
    stage.phone.eval(&focus("pass.0.3")).await?;
    stage.phone.key("Enter").await?;
    stage.check("both", "fig of = good of 6").await
}

/// A remote is a keyboard: its keys are chosen by pressing them, and count wherever the focus is.
#[tokio::test]
async fn a_remote_counts() -> Result<()> {
    needs!(HeldKeys);
    let mut stage = with_squad(Screen::SMALL).await?;
    let choose = "tap tab.share | screen share | seek phone | screen phone | seek remote-open
        seek remote.pass-3 | see Press a key | key PageUp | see Page up | seek remote.pass-0 | key b
        seek remote.undo | key Tab | key Escape | seek remote.undo | key Enter | see Enter | seek remote.good | key PageUp
        seek remote.serve-in | key PageUp";
    stage.check("its keys", choose).await?;
    let counts =
        "tap tab.today | screen today | reload | screen today | seek drill.2 | screen run | key PageUp | fig of = good of 1 | key B | fig of = good of 2 | fig good = 1
        key Enter | fig of = good of 1 | key x | key PageUp | fig good = 2";
    stage.check("the line", counts).await?;
    stage.phone.key_held("PageUp", 5).await?;
    stage.check("held", "fig of = good of 3 | fig saved = saved").await?;
    // The same key on another board; where it has no sense there it is the browser's.
    stage.check("good", &format!("{HOME} | seek drill.6 | screen run | key PageUp | fig of = good of 1")).await?;
    stage.check("three passers", &format!("{HOME} | seek drill.0 | screen run | key PageUp | tap pass.0.3 | fig of = good of 1 | key Enter | fig of = good of 0")).await?;
    // A match that notes both: the same key serves, then passes, each when it is due, and once.
    let both = format!("{HOME} | seek drill-change.13 | screen drill | seek note-serves | seek note-passes | seek drill-keep | screen today
        seek drill.13 | screen run | key PageUp | fig call = In: who passed it? | key PageUp | fig call = In: who passed it?
        tap passer.0.0 | key PageUp | fig noted = Noted: serve in, pass stood 3 | key PageUp | fig noted = Noted: serve in, pass stood 3");
    stage.check("a match", &both).await?;
    // Under the cover of a run that is over undo still answers, but not to the key by which its ways out are taken.
    stage.check("over", &format!("{HOME} | seek drill.10 | screen run | tap lane.0 x 10 | there over-finish | key Enter | gone over-finish | fig lane.0 = 9 | tap lane.0 | there over-finish")).await?;
    stage.phone.eval("document.querySelector('[data-key=over-finish]').focus()").await?;
    stage.check("finished", "key Enter | screen run-report").await
}

/// A match by keyboard alone: the focus goes on to what is due, so that no ball costs a way through the page.
#[tokio::test]
async fn a_match_by_keyboard() -> Result<()> {
    if Engine::chosen()? == Engine::WebKit {
        return tell(
            "left out on WebKit: app::hands::a_match_by_keyboard, for its window has no focus on a display without a window manager, so \
             that `:focus-visible` matches nothing",
        );
    }
    let mut stage = with_squad(Screen::SMALL).await?;
    stage.check("a match", "seek drill-change.13 | screen drill | seek note-serves | seek note-passes | seek drill-keep | screen today | seek drill.13 | screen run | there serve-in").await?;
    let on = |key: &str| format!("document.activeElement?.dataset.key === '{key}'");
    // The first press by Tab, so that the focus is a keyboard's.
    stage.phone.eval("document.querySelector('[data-key=serve-ace]').focus()").await?;
    stage.check("a serve", "key Tab | key Enter | fig call = In: who passed it?").await?;
    stage.phone.wait_until("the passers' focus", &on("passer.0.0")).await?;
    stage.check("a passer", "key Enter | see target moved?").await?;
    stage.phone.wait_until("the grades' focus", &on("pass-3")).await?;
    stage.check("a pass", "key Enter | fig noted = Noted: serve in, pass stood 3").await?;
    stage.phone.wait_until("the halves' focus", &on("side.top")).await?;
    stage.check("a rally", "key Enter | fig points.top = 1").await
}

/// Who can't see the field hears that it waits for a key.
#[tokio::test]
async fn a_field_that_waits_says_so() -> Result<()> {
    let mut stage = with_squad(Screen::SMALL).await?;
    let labels = "document.querySelector('[data-key=\"remote.serve-ace\"]').ariaLabel";
    stage.check("phone", "tap tab.share | screen share | seek phone | screen phone | seek remote-open | seek remote.serve-ace | see Press a key").await?;
    assert_eq!(stage.phone.eval(labels).await?, serde_json::json!("Serving, Ace: Press a key"));
    stage.check("given", "key a | see Ace").await?;
    assert_eq!(stage.phone.eval(labels).await?, serde_json::json!("Serving, Ace: A"));
    Ok(())
}

/// The thumb that leaves a board by a key hits nothing on the screen that comes.
#[tokio::test]
async fn a_thumb_acts_once() -> Result<()> {
    let mut stage = with_squad(Screen::TALL).await?;
    let script =
        "seek drill.0 | screen run | tap pass.0.3 | tap finish | screen run-report | seek contacts | screen contacts
        seek go-on | screen run | there report | tap leave | screen today | see Three passers | reload | screen today";
    stage.check("leave", script).await
}

/// What was waited for may come above a key while a thumb is on it: the key that was touched is meant, not what lies there by now.
#[tokio::test]
async fn a_key_that_moves_is_still_the_one_meant() -> Result<()> {
    const PUSH: &str = "(() => { const e = document.createElement('div'); e.style.height = '96px';
        document.querySelector('main h1').before(e); return document.querySelectorAll('main h1').length; })()";
    let mut stage = with_squad(Screen::TALL).await?;
    stage
        .check("report", "seek drill.0 | screen run | tap pass.0.3 | tap finish | screen run-report | there contacts")
        .await?;
    stage.phone.thumb_down("[data-key=contacts]").await?;
    assert_eq!(stage.phone.eval(PUSH).await?, serde_json::json!(1));
    stage.phone.thumbs_up().await?;
    stage.check("moved", "screen contacts").await
}
