//! A first split, or why there is none.

use super::chance::Chance;
use super::exchange::{Exchange, Goal, drawn};
use super::plan::Plan;
use super::{Asked, Fault, STEPS, Wish, search};

/// Any split that meets the wishes: drawn if that works, or else searched for and stirred.
pub(super) fn start(asked: &Asked, plan: &Plan, chance: &mut Chance) -> Result<Vec<u64>, Fault> {
    if let Some(groups) = drawn(plan, 300, chance) {
        return Ok(groups);
    }
    match search::any(plan, STEPS) {
        (Some(groups), _) => Ok(Exchange::new(plan, &Goal::Stir, u64::MAX, chance).run(groups, 2_000)),
        (None, true) => Err(Fault::NoWay(single_wishes(asked))),
        (None, false) => Err(Fault::GaveUp),
    }
}

/// Those wishes of which any single one, left out, lets the others be met, as far as that is found within half the bound, all together.
fn single_wishes(asked: &Asked) -> Vec<Wish> {
    let steps = STEPS / 2 / (asked.together.len() + asked.apart.len() + 1) as u32;
    let together = (0..asked.together.len()).map(Wish::Together);
    let apart = (0..asked.apart.len()).map(Wish::Apart);
    together.chain(apart).chain([Wish::Tagged]).filter(|&wish| works_without(asked, wish, steps)).collect()
}

fn works_without(asked: &Asked, wish: Wish, steps: u32) -> bool {
    let mut asked = asked.clone();
    match wish {
        Wish::Together(i) => drop(asked.together.remove(i)),
        Wish::Apart(i) => drop(asked.apart.remove(i)),
        Wish::Tagged => asked.tagged.clear(),
    }
    Plan::new(&asked, None).is_ok_and(|plan| search::any(&plan, steps).0.is_some())
}
