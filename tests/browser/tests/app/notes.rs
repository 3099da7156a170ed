//! Notes and questions by touch: a note in two taps while a run goes on and no key moves; a kill, and it is there; a question with the
//! name last; who wasn't asked. No barrier on any of the screens, at both sizes, in both schemes.

use crate::{BOTH, with_squad};
use browser_tests::{Result, Screen};
use serde_json::json;

const BOTH_SCHEMES: &str = "axe | dark | axe | light";

/// Every key of the court and the foot, and where it is.
const PLACES: &str = "[...document.querySelectorAll('.run-court [data-key], .run-foot [data-key]')].map(e => { const r = e.getBoundingClientRect(); return [e.dataset.key, r.x, r.y, r.width, r.height] })";

const SCROLLS: &str = "[...document.querySelectorAll('.strip')].filter(e => e.scrollHeight > e.clientHeight + 1).map(e => `${e.scrollHeight} of ${e.clientHeight}`)";

const LOW: &str = "[...document.querySelectorAll('.strip .run-chip, .note-chip, .note-keys .small-key')].filter(e => e.checkVisibility() && e.getBoundingClientRect().height < 47.9).map(e => `${e.dataset.key}: ${e.getBoundingClientRect().height}`)";

#[tokio::test]
async fn a_note_in_two_taps() -> Result<()> {
    for screen in BOTH {
        let mut stage = with_squad(screen).await?;
        stage.check("a run", "seek drill.0 | screen run | tap pass.1.3 | fig of = good of 1").await?;
        let places = stage.phone.eval(PLACES).await?;
        stage.check("two taps", &format!("tap note | fig noted = Note: Tove | {BOTH_SCHEMES} | tap tag.1 | fig noted = Noted: Tove, brave swing. | fig saved = saved | {BOTH_SCHEMES}")).await?;
        assert_eq!(stage.phone.eval(PLACES).await?, places, "no key moves");
        assert_eq!(stage.phone.eval(LOW).await?, json!([]));
        assert_eq!(stage.phone.eval(SCROLLS).await?, json!([]));
        stage.check("its own way back", "tap note-undo | fig noted = Taken back: Tove, brave swing. | tap note-undo | fig noted = Noted: Tove, brave swing. | fig undo = Tove, stood 3, just now").await?;
        stage
            .check(
                "another child",
                "tap note-child.0 | fig noted = Note: Mira | tap tag.0 | fig noted = Noted: Mira, talked.",
            )
            .await?;
        stage.check("words", &format!("tap words | type note = Called every ball | {BOTH_SCHEMES}")).await?;
        assert_eq!(stage.phone.eval(PLACES).await?, places, "and none moves for words");
        // The next ball closes it, and what is half written stays.
        stage
            .check("the run goes on", "tap pass.0.3 | gone words-keep | fig of = good of 2 | fig saved = saved")
            .await?;
        stage.check("a new page", "reload | screen run | fig of = good of 2 | tap note | fig noted = Note: Mira | tap words | value note = Called every ball | tap words-keep | fig noted = Noted: Mira, “Called every ball” | fig saved = saved | kill | screen run | fig of = good of 2 | there note").await?;
        stage.check("all of them", &format!("tap contacts | screen contacts | tap tab.after | screen after | {BOTH_SCHEMES} | seek notes | screen notes | fig remark.0 = brave swing | fig remark.1 = talked | fig remark.2 = “Called every ball” | {BOTH_SCHEMES} | shot notes")).await?;
        stage.check("changed", &format!("tap remark.0 | screen remark | {BOTH_SCHEMES} | shot remark | seek tag.3 | seek note-keep | screen notes | fig remark.0 = brave swing, helped a teammate | kill | screen notes | fig remark.0 = brave swing, helped a teammate")).await?;
        stage.check("by child and tag", "tap of.0 | fig remark.0 = talked | gone remark.2 | tap of.all | there remark.2 | seek tags | seek tag-change.0 | type tag = called the ball | tap tag-add | see called the ball").await?;
    }
    Ok(())
}

/// Between drills, without a run: a name and a tag; the practice keeps them when it is packed.
#[tokio::test]
async fn a_note_between_drills() -> Result<()> {
    for screen in BOTH {
        let mut stage = with_squad(screen).await?;
        stage.check("a note", &format!("open #/note | screen note | {BOTH_SCHEMES} | disabled tag.0 | seek note-child.3 | seek tag.2 | fig noted = Noted: Bram, kept going. | {BOTH_SCHEMES} | shot note")).await?;
        assert_eq!(stage.phone.eval(LOW).await?, json!([]));
        stage.check("of a practice", "tap tab.today | screen today | seek drill.0 | screen run | tap pass.0.3 | tap finish | screen run-report | tap tab.today | screen today | seek note | screen note | seek note-all.0 | seek tag.0 | see The practice, talked").await?;
        stage.check("packed", "tap tab.today | seek practice-end | screen practice-report | fig remark.0 = talked | axe | dark | axe | light | seek note-add | screen note | seek note-child.1 | seek tag.5 | fig noted = Noted: Tove, tired. | tap tab.after | screen after | seek practice.0 | screen practice-report | fig remark.1 = tired | kill | screen practice-report | fig remark.0 = talked | fig remark.1 = tired").await?;
        stage.check("her page", "tap tab.squad | screen squad | seek child.1 | screen child | fig remark.0 = tired | axe | seek note-add | screen note | seek tag.0 | fig noted = Noted: Tove, talked.").await?;
    }
    Ok(())
}

#[tokio::test]
async fn a_question_and_who_was_not_asked() -> Result<()> {
    for screen in BOTH {
        let mut stage = with_squad(screen).await?;
        stage.check("a run", "seek drill.0 | screen run | tap pass.1.3").await?;
        let places = stage.phone.eval(PLACES).await?;
        stage.check("asked", &format!("tap note | tap ask | fig why = Mira was not asked yet, in 1 practice. | {BOTH_SCHEMES} | shot board-ask | tap other-child | fig why = Tove was not asked yet, in 1 practice. | tap asked | fig asked-line = Asked: Tove. | fig saved = saved | {BOTH_SCHEMES} | seek tag.4 | there note-undo")).await?;
        assert_eq!(stage.phone.eval(PLACES).await?, places, "no key moves");
        assert_eq!(stage.phone.eval(SCROLLS).await?, json!([]));
        assert_eq!(stage.phone.eval(LOW).await?, json!([]));
        stage.check("the next", "seek ask-next | fig why = Mira was not asked yet, in 1 practice. | tap choice-close | tap contacts | screen contacts | tap tab.today | screen today").await?;
        stage.check("who wasn't", &format!("seek heard | screen heard | see Not asked yet: Mira, Odile | see Asked once in four weeks | {BOTH_SCHEMES} | shot heard | seek ask | screen ask | see Mira was not asked yet")).await?;
        stage.check("own words", &format!("{BOTH_SCHEMES} | shot ask | scroll own-add | type own = Where were your feet? | seek own-add | see Where were your feet, Mira? | seek asked | see Asked: Mira. | {BOTH_SCHEMES} | kill | screen ask | see Odile was not asked yet")).await?;
        stage.check("the library's", "open #/library/1 | screen library-drill | axe | seek ask.0 | screen ask | see Where did your hand finish, Odile? | tap asked | see Asked: Odile. | tap back | screen library-drill | open #/asked | screen heard | see Not asked yet: Bram").await?;
    }
    Ok(())
}

/// A phone that children look at has no such key; at a station nothing of it can be asked for.
#[tokio::test]
async fn children_see_none_of_it() -> Result<()> {
    let mut stage = with_squad(Screen::SMALL).await?;
    stage.check("propped up", "seek drill.11 | screen run | there good | gone note | tap contacts | screen contacts | tap tab.today | screen today").await?;
    stage.check("a station", "seek drill.2 | screen run | tap note | seek note-child.0 | seek tag.5 | tap choice-close | tap children | there station.0 | tap station.0 | gone note | unseen tired | open #/notes | screen run | unseen tired").await
}

/// Over every board, at both sizes: all of it is there without scrolling down.
#[tokio::test]
async fn it_fits_over_every_board() -> Result<()> {
    for screen in BOTH {
        for drill in [0, 1, 2, 3, 4, 5, 6, 9, 10, 12, 13] {
            let mut stage = with_squad(screen).await?;
            stage.check("a board", &format!("seek drill.{drill} | screen run")).await?;
            for (state, steps) in [
                ("note", "tap note | tap note-child.1 | tap tag.0 | there note-undo"),
                ("words", "tap words | there words-keep"),
                ("ask", "tap to-tags | tap ask | there asked"),
                ("asked", "tap asked | there ask-next"),
            ] {
                stage.check(state, steps).await?;
                let at = format!("{state} over drill {drill} at {} × {}", screen.width, screen.height);
                assert_eq!(stage.phone.eval(SCROLLS).await?, json!([]), "{at}");
                assert_eq!(stage.phone.eval(LOW).await?, json!([]), "{at}");
            }
        }
    }
    Ok(())
}
