//! The whole job, by touch, in a real browser: from a pasted list to a report, and on after reload without a server.

use browser_tests::{PhoneKind, Result, Screen, Site, Stage, check};

/// A squad of twelve, typed as coaches type.
const SQUAD: &str = "7 Mira\\n#9 Tove\\nOdile, 11\\nBram\\n\\n5  Iva\\n6 Lasse\\n8 Juno\\n10 Pepe\\n12 Runa\\n14 Élif\\n15 نور\\n16 Wren";

/// From nothing to a counting board.
fn to_the_board(drill: usize) -> String {
    format!(
        "open | screen today | tap roster | screen roster | type roster = {SQUAD} | see 12 children | tap roster-take
         screen today | tap drill.{drill} | screen run"
    )
}

#[tokio::test]
async fn a_pass_is_kept_without_a_server() -> Result<()> {
    let script = format!(
        "{} | tap pass.0.3 | fig good = 1 | fig of = good of 1 | fig saved = saved
         tap pass.1.0 | tap pass.2.2 | fig good = 2 | fig of = good of 3 | fig saved = saved
         stop-server | reload | screen run | fig good = 2 | fig of = good of 3
         tap undo | fig of = good of 2 | tap undo x 2 | fig of = good of 0",
        to_the_board(0)
    );
    check("a pass is kept", &script).await
}

#[tokio::test]
async fn two_thumbs_lose_nothing() -> Result<()> {
    let script = format!(
        "{} | both pass.0.3 pass.2.1 | fig of = good of 2 | both pass.1.2 pass.2.2 | fig of = good of 4",
        to_the_board(0)
    );
    check("two thumbs", &script).await
}

#[tokio::test]
async fn every_screen_at_both_sizes() -> Result<()> {
    for (size, screen) in [("390", Screen { width: 390, height: 844 }), ("360", Screen::SMALL)] {
        let mut stage = Stage::of(Site::of_the_app()?, PhoneKind { screen, ..PhoneKind::default() }).await?;
        let script = format!(
            "open | screen today | shot {size}-welcome | axe | tap roster | screen roster | shot {size}-roster-empty
             type roster = {SQUAD} | see 12 children | shot {size}-roster | axe
             tap roster-take | screen today | shot {size}-today | axe
             tap drill.0 | screen run | tap pass.0.3 x 3 | tap pass.1.0 | tap pass.2.2 x 2 | shot {size}-floor | axe
             tap effort | shot {size}-effort | see Everyone | shot {size}-calm | tap finish | screen run-report | shot {size}-report | axe",
            size = size
        );
        stage.check("every screen", &script).await?;
    }
    Ok(())
}
