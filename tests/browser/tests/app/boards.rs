//! Each board by touch, from its drill to its report, at both sizes.

use crate::{BOTH, HOME, with_squad};
use browser_tests::{Result, check};

/// Who stands at which column, from the left.
fn column(at: usize, name: &str, place: usize) -> String {
    let column = format!(".floor-column:nth-child({at})");
    format!("count {column} [data-key=\"pass.{place}.3\"][aria-label^=\"{name}\"] = 1")
}

const FLOOR: &str = "seek drill.0 | screen run | fig call = How far did the target move? | fig goal = goal 30
    tap pass.0.3 | tap pass.1.0 | tap pass.2.2 | fig good = 2 | fig of = good of 3 | fig undo = Odile, moved 2, just now
    tap no-chance | fig of = good of 3 | fig undo = no chance, just now
    tap effort | see Effort noticed: Odile | tap effort-kind.1 | count [data-key=\"effort-kind.1\"][aria-pressed=\"true\"] = 1
    tap effort-name.1 | see Effort noticed: Tove | count [data-key=\"effort-kind.1\"][aria-pressed=\"true\"] = 1
    tap effort-close | gone effort-close | fig saved = saved
    tap undo x 3 | fig undo = no chance, just now
    tap undo x 2 | fig good = 1 | fig of = good of 2 | tap undo x 2 | fig of = good of 0 | fig undo = nothing yet
    count [data-key=\"undo\"][aria-disabled=\"true\"] = 1
    tap pass.2.3 | tap effort | tap effort-kind.0 | tap pass.0.1 | fig good = 1 | fig of = good of 2";

const LINE: &str = "seek drill.2 | screen run | fig current = Mira | tap pass-3 | fig current = Tove | tap pass-0 | fig current = Odile
    tap no-chance | fig current = Odile | fig of = good of 2 | tap name.5 | fig current = Lasse
    tap pass-2 | fig current = Juno | fig of = good of 3 | tap undo x 2 | fig current = Odile | fig of = good of 2";

/// Ball 2 was Odile's, and so on: one tap moves each ball from there on to the next child in line.
const SHIFT: &str =
    "tap pass-1 | fig current = Bram | tap contacts | screen contacts | count [data-key^=\"contact.\"] = 4
    see Tove gone 0 | tap contact.2 | see Tove, gone 0 | seek shift | see Odile gone 0 | see Bram chased 1
    tap go-on | screen run";

const SERVE: &str = "seek drill.3 | screen run | fig current = Mira | see Mira: style? | tap style | see underhand | tap style | see roundhouse
    tap serve-in-fast | fig current = Tove | tap serve-net | tap serve-long-fast | tap serve-wide | gone serve-ace
    fig current = Iva | fig good = 1 | fig of = good of 4 | tap contacts | screen contacts | see in, fast swing
    tap go-on | screen run | tap finish | screen run-report | see long 1; at least 1 fast swing | see qualified staff come first | seek run-reopen | screen run | fig of = good of 4";

const SIX: &str =
    "seek drill.4 | screen run | count .name-key = 6 | fig current = Mira | tap serve-in | fig current = Tove
    tap name.4 | fig current = Iva | tap serve-long | fig current = Lasse | tap serve-in | fig current = Mira
    tap swap | see Juno | fig of = good of 3";

const OWN: &str = "seek drill.6 | screen run | fig call = Good or not? | fig current = Mira | tap good | tap not-good
    fig current = Odile | fig good = 1 | fig of = good of 2";

const GROUP: &str =
    "seek drill.7 | screen run | gone name.0 | tap good x 3 | tap not-good | fig good = 3 | fig of = good of 4
    tap no-chance | fig of = good of 4 | tap effort | tap effort-name.2 | see Effort noticed: Odile | tap effort-close";

/// A drill with the coach's own name, where one child stays until another name is tapped; and serves with somebody to receive.
const NEW: &str = "seek drill-new | screen drill | type drill-name = Dig and roll | seek skill.own
    type skill-name = Digging | seek order.stays | tap drill-keep | screen today
    seek drill.14 | screen run | fig call = Digging | fig current = Mira | tap good x 2 | fig current = Mira
    tap name.3 | fig current = Bram | tap not-good | fig current = Bram | fig good = 2 | fig of = good of 3";

const ACE: &str = "seek drill-change.3 | screen drill | seek receiver | tap drill-keep | screen today
    seek drill.3 | screen run | tap serve-ace | fig current = Tove | tap serve-ace-fast | fig good = 2 | fig of = good of 2";

/// Twelve children's tens in twelve taps.
fn told() -> String {
    let rows: Vec<String> = (0..12).map(|row| format!("scroll told.{row}.8 | tap told.{row}.{}", row % 11)).collect();
    format!(
        "seek drill.5 | screen run | fig call = How many of 10 were good? | {} | fig series = Series 1: 12 of 12 told
         seek next-series | fig series = Series 2: 0 of 12 told | seek told.0.10
         tap told.0.9 | fig series = Series 2: 1 of 12 told | fig saved = saved | tap undo x 2 | fig series = Series 2: 0 of 12 told",
        rows.join(" | ")
    )
}

#[tokio::test]
async fn each_board_by_touch() -> Result<()> {
    for screen in BOTH {
        let mut stage = with_squad(screen).await?;
        let swap = format!(
            "{} | tap swap | fig undo = swap, just now | {} | {} | {} | tap turn-round | {} | {} | tap turn-round | {}
             tap undo | {}",
            column(1, "Mira", 0),
            column(1, "Bram", 0),
            column(2, "Mira", 1),
            column(3, "Tove", 2),
            column(3, "Bram", 0),
            column(1, "Tove", 2),
            column(1, "Bram", 0),
            column(1, "Mira", 0),
        );
        let told = told();
        let home = format!("fig saved = saved | {HOME}");
        let stages = [
            ("floor", [FLOOR, &swap, &home]),
            ("line", [LINE, SHIFT, &home]),
            ("serve line", [SERVE, "", &home]),
            ("six servers", [SIX, "", &home]),
            ("told", [&told, "", &home]),
            ("own", [OWN, "", &home]),
            ("group", [GROUP, "", &home]),
            ("new drill", [NEW, "", &home]),
            ("ace", [ACE, "", &home]),
        ];
        for (name, steps) in stages {
            stage.check(&format!("{name} {}", screen.width), &steps.join(" | ")).await?;
        }
    }
    Ok(())
}

/// Every common form of a line; nothing typed is lost.
#[tokio::test]
async fn a_list_in_all_its_forms() -> Result<()> {
    let list = "7 Mira\\n#9 Tove\\nOdile, 11\\n  Bram  \\n\\n\\n5   Iva\\nÉlif 14\\n15 نور\\n- 16. Wren\\nMira 3\\n1234567 Zoe\\n42\\n???\\n9 Runa";
    let script = format!(
        "open | tap roster | screen roster | disabled roster-take | type roster = {list}
         see two of this name: shown as “Mira 3” | see same number as line 2 | see a number without a name | see no name in it
         see 3 lines not understood: it stays above | tap roster-take | screen roster | value roster = 1234567 Zoe\\n42\\n???
         type roster = Zoe 12 | see 1 child | tap roster-take | screen today | fig here = All 11 are here
         tap tab.squad | screen squad | count .row-key = 11 | see نور | see Élif
         tap child.0 | screen child | value child-name = Mira | value child-number = 7 | disabled child-keep
         type child-name = | see A name is needed | disabled child-keep | type child-name = Mirabel | type child-number = 70
         seek style.2 | tap child-keep | screen squad | see Mirabel | see 70 | see standing overhead
         tap child.3 | screen child | seek child-archive | screen squad | count [data-key^=\"child.\"] = 10
         seek archived.0 | screen child | seek child-back | screen squad | count [data-key^=\"child.\"] = 11
         tap tab.today | screen today | fig here = All 11 are here"
    );
    check("a list", &script).await
}

/// Who is away is tapped away, before the practice and in it.
#[tokio::test]
async fn the_whole_practice() -> Result<()> {
    let mut stage = with_squad(browser_tests::Screen::SMALL).await?;
    let script = format!(
        "tap presence | tap presence.1 | fig here = 11 of 12 are here | seek drill.0 | screen run | {} | tap pass.1.3 x 2
         tap pass.0.0 | tap effort | tap effort-kind.0 | tap effort-close | tap finish | screen run-report | fig everyone = 2 good of 3, too few balls to say more
         see ran for it | seek back | screen practice-report | see Away: Tove. | tap tab.today | screen today | unseen just now
         seek presence | tap presence.1 | fig here = All 12 are here
         seek drill.2 | screen run | tap pass-3 x 4 | tap contacts | screen contacts | count [data-key^=\"contact.\"] = 4
         # A correction of child, outcome and step.
         tap contact.0 | seek fix-player.11 | see Wren stood 3 | see corrected
         seek fix-outcome.3 | see Wren gone 0 | seek fix-step-more | see thrown over the net
         seek fix-done | gone fix-done | tap contact.1 | seek take-back | count [data-key^=\"contact.\"] = 3
         tap go-on | screen run | fig good = 2 | fig of = good of 3 | tap finish | screen run-report
         fig everyone = 2 good of 3, too few balls to say more | tap tab.today | screen today
         seek practice-end | screen practice-report | there practice-reopen | count [data-key^=\"run.\"] = 2
         tap tab.after | screen after | see 2 drills, 6 contacts | tap practice.0 | screen practice-report | seek run.1 | screen run-report
         # Corrected after the end, and kept so over a restart.
         seek contacts | screen contacts | tap contact.2 | seek fix-outcome.3 | seek close | gone fix-done | seek back | screen run-report
         fig everyone = 1 good of 3, too few balls to say more | kill | screen run-report
         fig everyone = 1 good of 3, too few balls to say more | seek back | screen practice-report
         seek practice-reopen | screen today | seek drill.0 | screen run | tap pass.0.3 | fig of = good of 1 | fig saved = saved
         tap finish | screen run-report | tap tab.after | screen after | see 3 drills, 7 contacts",
        column(2, "Odile", 1)
    );
    stage.check("the whole practice", &script).await
}

/// Opening, a drill, a key: the second tap is on the board, the first contact is there with it.
#[tokio::test]
async fn first_tally_within_three_taps_of_opening() -> Result<()> {
    let mut stage = with_squad(browser_tests::Screen::SMALL).await?;
    stage
        .check("taps", "open | screen today | seek drill.0 | tap pass.0.3 | fig of = good of 1 | fig saved = saved")
        .await?;
    // With another practice behind it, started anew: still no more.
    stage.check("once more", &format!("{HOME} | seek practice-end | screen practice-report | kill | open | screen today | seek drill.0 | tap pass.1.2 | fig of = good of 1")).await
}
