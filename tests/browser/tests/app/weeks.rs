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
                "seek child.0 | screen child-weeks | see are good. | seek days.0 | seek what.0 | see Shewhart | light | axe | dark | axe | shot child-weeks
                 seek mean | see no measure | seek by-style | seek by-distance | seek what.rows | see Miller and Sanjurjo | seek what.load | see no limit here
                 seek effort-weeks | axe | light | axe | seek how | see Laplace",
            )
            .await?;
        // The first day by touch, the next by the keyboard, the last, and the one before by the key under the chart.
        let at = |n: u32| format!("count [data-key=\"chart.0\"][aria-valuenow=\"{n}\"] = 1");
        stage
            .check(
                "day by day",
                &format!(
                    "seek strip.0.0 | {} | see Since then: | key ArrowRight | {} | key Home | {} | seek later.0 | {} | shot child-day
                     seek back | screen weeks",
                    at(0), at(1), at(0), at(1),
                ),
            )
            .await?;
        // One who serves with a jump.
        stage
            .check(
                "load",
                "seek child.6 | screen child-weeks | seek load-weeks | see of them with a jump | see Pain: stop | axe | shot child-load | seek back | screen weeks",
            )
            .await?;
        stage
            .check(
                "pictures of another kind, and a drill",
                "fig picture = Serving, from 3 m, as told or by two keys | seek picture-after | fig picture = Serving, from 3 m | axe | seek back | screen after
                 tap tab.today | screen today | seek library | screen library | seek list.mine | screen my-drills | seek weeks.0 | screen drill-weeks
                 see runs since | seek strip.0.0 | count [data-key=\"chart.0\"][aria-valuenow=\"0\"] = 1 | seek runs | axe | dark | axe | shot drill-weeks | light",
            )
            .await?;
    }
    Ok(())
}
