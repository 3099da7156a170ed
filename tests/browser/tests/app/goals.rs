//! A goal that fits: proposed on the drill's form, taken, played to its end; then who is ready for another ball, by sight and without barriers.

use crate::{BOTH, with_squad};
use browser_tests::Result;

#[tokio::test]
async fn a_goal_is_taken_and_played() -> Result<()> {
    for screen in BOTH {
        let mut stage = with_squad(screen).await?;
        // Three of the twelve are here: the board speaks for all who are, and of those who had no ball it knows nothing.
        let away: String = (3..12).map(|i| format!(" | scroll presence.{i} | tap presence.{i}")).collect();
        stage.check("three are here", &format!("seek presence{away} | fig here = 3 of 12 are here")).await?;
        let nothing = "seek drill-change.0 | screen drill | scroll goal-wish-more | see No balls like these yet: Passing, tossed. | light | axe | dark | axe | light
            seek back | screen today";
        stage.check("nothing yet", nothing).await?;
        let balls = "seek drill.0 | screen run | tap pass.0.3 x 12 | tap pass.1.2 x 8 | tap pass.1.0 x 4 | tap pass.2.3 x 9 | tap pass.2.1 x 3 | fig saved = saved
            tap finish | screen run-report | tap tab.today | screen today";
        stage.check("balls", balls).await?;
        let form = "seek drill-change.0 | screen drill | there goal.fits | scroll goal.fits | see No minutes yet | light | axe | dark | axe | light | shot goal
            seek goal-rests | see Poisson | axe | scroll goal.fits | tap goal.fits | count [data-key=\"goal.fits\"][aria-pressed=\"true\"] = 1";
        stage.check("it is proposed and taken", form).await?;
        let goal = stage.phone.eval("document.querySelector('[data-key=\"goal.fits\"] .goal-n').innerText").await?;
        let goal = goal.as_str().unwrap_or_default().to_owned();
        assert!(goal.parse::<u32>().is_ok_and(|goal| (5..=200).contains(&goal)), "{goal}");
        let wish = "scroll goal-wish-more | tap goal-wish-more x 4 | fig goal-wish = 90 % | disabled goal-wish-more | tap goal-wish-less x 4 | fig goal-wish = 70 %
            scroll goal-minutes-more | tap goal-minutes-more | fig goal-minutes = 9 | there goal.fits";
        stage.check("wish and time", wish).await?;
        let played = format!(
            "seek drill-keep | screen today | seek drill.0 | screen run | fig goal = goal {goal} | tap pass.0.3 x {goal} | fig goal = goal {goal} reached
             tap pass.1.3 x 60 | tap pass.2.3 x 60 | fig saved = saved | gone step-line | later 6s | there step-line | see Ready for a harder ball? | light | axe | dark | axe | light | shot step-line"
        );
        stage.check("it is reached, and the board pauses", &played).await?;
        let told = "tap finish | screen run-report | there step-give.1 | see All together | see For you alone. | scroll step-give.1 | light | axe | dark | axe | light | shot steps
            tap step-give.1 | see From now on thrown over the net. | scroll step-give.1 | tap step-give.1 | unseen From now on | seek steps-how | see Guadagnoli | axe | seek step-lines | screen phone | scroll upper-more";
        stage.check("another ball", told).await?;
        let lines = "tap upper-more x 3 | fig upper = 95 % | disabled upper-more
            scroll lower-less | tap lower-less | fig lower = 45 % | light | axe | dark | axe | light";
        stage.check("the coach's lines", lines).await?;
    }
    Ok(())
}
