//! After practice by touch: two minutes on top of the report, a question kept as asked over a kill, the next plan once, fair practice, and the
//! note home as a picture and as a text. No barrier on its screens, in either scheme and at both sizes.

use crate::{BOTH, HOME, with_squad};
use browser_tests::{Result, Screen};

const BOTH_SCHEMES: &str = "axe | dark | axe | light";

/// Everyone of the squad but the child whose note goes home.
const OTHERS: [&str; 11] = ["Tove", "Odile", "Bram", "Iva", "Lasse", "Juno", "Pepe", "Runa", "Élif", "نور", "Wren"];

#[tokio::test]
async fn two_minutes_and_the_next_plan() -> Result<()> {
    for screen in BOTH {
        let mut stage = with_squad(screen).await?;
        stage.check("a practice", &format!("seek drill.0 | screen run | tap pass.0.3 x 9 | tap pass.1.2 x 8 | fig of = good of 17 | fig saved = saved | {HOME}")).await?;
        stage.check("over", &format!("seek practice-end | screen practice-report | fig to-plan = No plan was followed: 1 drill, 17 contacts. | see Worth asking | there plan-next | {BOTH_SCHEMES} | shot two-minutes")).await?;
        stage.check("asked", "see Tove was not asked yet, in 1 practice. | seek ask.1 | see Asked after this practice. | count [data-key=\"ask.1\"][aria-pressed=\"true\"] = 1 | see Asked Tove | kill | screen practice-report | count [data-key=\"ask.1\"][aria-pressed=\"true\"] = 1 | seek ask.1 | count [data-key=\"ask.1\"][aria-pressed=\"false\"] = 1").await?;
        stage.check("the next plan", "tap plan-next | screen plan | there part.0 | tap tab.after | screen after | tap practice.0 | screen practice-report | see the next practice: the plan that you have already | tap plan-next | screen plan | there part.0").await?;
        stage.check("fair", &format!("tap tab.after | screen after | seek fair | screen fair | there how | fig last.0 = 9 contacts | seek roles.0 | see 9 balls tapped or told | {BOTH_SCHEMES} | shot fair | seek back | screen after")).await?;
    }
    Ok(())
}

#[tokio::test]
async fn a_note_home() -> Result<()> {
    for screen in BOTH {
        let mut stage = with_squad(screen).await?;
        stage.check("a practice", &format!("seek drill.0 | screen run | tap pass.0.3 x 9 | tap pass.1.2 x 8 | fig of = good of 17 | fig saved = saved | {HOME} | seek practice-end | screen practice-report | tap tab.after | screen after | seek weeks | screen weeks | seek child.0 | screen child-weeks | seek home | screen home | see Mira was at practice once | {BOTH_SCHEMES} | shot home")).await?;
        stage.check("another's name", &format!("seek own | type home = With Tove, gladly. | see Another child is named (Tove) | disabled copy-text | disabled save-picture | seek line-done | {BOTH_SCHEMES} | shot home-named | seek line.own | type home = Gladly there. | unseen Another child is named | seek line-done | reload | screen home | see Gladly there.")).await?;
        stage.check("left out", &format!("seek out.practised | there in.practised | gone line.practised | {BOTH_SCHEMES} | seek in.practised | there line.practised")).await?;
        stage
            .phone
            .eval("{ navigator.clipboard.writeText = text => { window.copied = text; return Promise.resolve(); }; 0 }")
            .await?;
        stage.check("the text", "seek copy-text | see The text is copied").await?;
        let text = stage.phone.eval("window.copied").await?.as_str().unwrap_or_default().to_owned();
        assert!(
            text.contains("Mira") && text.contains("Gladly there.") && text.contains("To ask on the way home"),
            "{text}"
        );
        for name in OTHERS {
            assert!(!text.contains(name), "{name} in {text}");
        }
        stage.check("the picture", "seek save-picture | see The picture was given to the browser to save").await?;
        let file = stage
            .phone
            .wait_download("the picture", |name| name.starts_with("mira-") && name.ends_with(".png"))
            .await?;
        let bytes = std::fs::read(&file).expect("the picture");
        let number = |at: usize| bytes.get(at..at + 4).map(|b| u32::from_be_bytes([b[0], b[1], b[2], b[3]]));
        assert_eq!(bytes.get(..8), Some(&b"\x89PNG\r\n\x1a\n"[..]));
        // Across and down stand in the first chunk, behind its length and name.
        assert_eq!(number(16), Some(1080));
        assert!(number(20).is_some_and(|height| (1350..3000).contains(&height)), "{:?}", number(20));
        assert!(bytes.len() > 20_000, "{} bytes hold no words", bytes.len());
    }
    Ok(())
}

/// At a station and on a board nothing of it can be asked for.
#[tokio::test]
async fn children_see_none_of_it() -> Result<()> {
    let mut stage = with_squad(Screen::SMALL).await?;
    stage.check("a station", "seek drill.2 | screen run | tap pass-3 | tap children | there station.0 | tap station.0 | open #/fair | screen run | open #/after | screen run").await
}
