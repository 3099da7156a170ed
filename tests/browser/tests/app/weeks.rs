//! Over the weeks: the demo's season, child by child, without a signal and without barriers.

use crate::with_squad;
use browser_tests::{Result, Screen};

#[tokio::test]
async fn a_season_is_read() -> Result<()> {
    for screen in [Screen::SMALL, Screen::TALL] {
        let mut stage = with_squad(screen).await?;
        let none = "tap tab.squad | screen squad | tap child.0 | screen child | seek weeks | screen child-weeks | see No balls yet | light | axe | dark | axe";
        stage.check("nothing yet", none).await?;
        stage
            .check(
                "everyone",
                "count html[data-offline=\"ready\"] = 1 | tap tab.share | screen share | seek phone | screen phone | seek demo | screen today | fig saved = saved | stop-server
                 tap tab.after | screen after | seek weeks | screen weeks | count [data-fig=working] = 0 | see efforts noticed in 6 weeks | light | axe | dark | axe | shot weeks",
            )
            .await?;
        stage
            .check(
                "one child",
                "seek child.0 | screen child-weeks | see are good. | seek days.0 | light | axe | dark | axe | shot child-weeks
                 seek how | see Laplace | seek back | screen weeks | seek back | screen after",
            )
            .await?;
    }
    Ok(())
}
