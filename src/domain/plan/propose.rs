//! A first plan out of what was practised lately: each line with its reason. It only proposes; the coach changes it.

use super::super::drill::{DrillSpec, LineOrder};
use super::super::ids::{DrillId, PlayerId};
use super::super::skill::Skill;
use super::refit::{Left, Way, refit};
use super::{PartKind, Plan, PlanPart};

/// What is known of the last practices.
#[derive(Clone, Debug, Default)]
pub struct Lately<'a> {
    /// Drills of the squad, those used longest ago first.
    pub drills: Vec<(DrillId, &'a DrillSpec)>,
    /// Parts of the last plan that were never begun.
    pub undone: Vec<PlanPart>,
    /// Balls each child had in each skill, on average.
    pub balls: Vec<(Skill, u32)>,
    /// Who was seen least, where some were seen less than others.
    pub seen_least: Vec<PlayerId>,
}

/// Why a line stands in it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Why {
    Arriving,
    NotDone,
    /// This skill had the fewest balls: so many each.
    FewBalls(Skill, u32),
    SeenLeast(Vec<PlayerId>),
    /// Not used for the longest time, or never.
    LongAgo,
    Break,
    Playing,
}

/// The words for lines without a drill come from outside.
pub struct Titles {
    pub arrival: String,
    pub rest: String,
}

const DRILL_MIN: u16 = PartKind::Drill.minutes();
const GAME_MIN: u16 = 20;
/// A drill is stretched to this and no further.
const LONGEST_MIN: u16 = 25;
/// From here on there is a break in the middle.
const LONG_PRACTICE_MIN: u16 = 60;
/// So much of the last plan is taken up again.
const MOST_UNDONE: usize = 2;

/// A plan for so many minutes, and the reason of each part.
pub fn propose(lately: &Lately<'_>, gym_min: u16, titles: &Titles) -> (Plan, Vec<Why>) {
    let mut lines: Vec<(PlanPart, Why)> = Vec::new();
    lines
        .push((PlanPart::plain(PartKind::Arrival, titles.arrival.clone(), PartKind::Arrival.minutes()), Why::Arriving));
    for part in lately.undone.iter().filter(|part| part.kind == PartKind::Drill).take(MOST_UNDONE) {
        lines.push((part.clone(), Why::NotDone));
    }
    let mut used: Vec<DrillId> = lines.iter().filter_map(|(part, _)| part.drill).collect();
    let mut add = |lines: &mut Vec<(PlanPart, Why)>, minutes, why, fits: &dyn Fn(&DrillSpec) -> bool| {
        let found = lately.drills.iter().find(|(id, spec)| !used.contains(id) && fits(spec));
        if let Some((id, spec)) = found {
            used.push(*id);
            lines.push((PlanPart::of_drill(*id, spec, minutes), why));
        }
    };
    let plays = |spec: &DrillSpec| spec.rule.is_game();
    if let Some((skill, n)) = lately.balls.iter().min_by_key(|(_, n)| *n) {
        let why = Why::FewBalls(skill.clone(), *n);
        add(&mut lines, DRILL_MIN, why, &|spec| spec.skill == *skill && !plays(spec));
    }
    if !lately.seen_least.is_empty() {
        // One child at a time, for ten balls, is the honest way to see somebody; else any board that names children.
        let why = || Why::SeenLeast(lately.seen_least.clone());
        let before = lines.len();
        add(&mut lines, DRILL_MIN, why(), &|spec| spec.board.order() == Some(LineOrder::TenForOne));
        if lines.len() == before {
            add(&mut lines, DRILL_MIN, why(), &|spec| spec.board.names_children() && !plays(spec));
        }
    }
    add(&mut lines, GAME_MIN, Why::Playing, &plays);
    // What is left is for drills that weren't used for long, of another skill than the others while there is one.
    let game = lines.pop_if(|(_, why)| *why == Why::Playing);
    let aside = u32::from(game.as_ref().map_or(0, |(part, _)| part.minutes));
    // Whatever a file brought: minutes of parts are added as they are before any is fitted.
    let minutes = |lines: &[(PlanPart, Why)]| lines.iter().map(|(part, _)| u32::from(part.minutes)).sum::<u32>();
    let mut skills: Vec<Skill> = Vec::new();
    while minutes(&lines) + aside + u32::from(DRILL_MIN) <= u32::from(gym_min) {
        let had = lines.len();
        add(&mut lines, DRILL_MIN, Why::LongAgo, &|spec| !plays(spec) && !skills.contains(&spec.skill));
        if lines.len() == had && skills.is_empty() {
            break;
        }
        let added = lines.last().filter(|_| lines.len() > had).and_then(|(part, _)| part.drill);
        match added.and_then(|id| lately.drills.iter().find(|(known, _)| *known == id)) {
            Some((_, spec)) => skills.push(spec.skill.clone()),
            None => skills.clear(),
        }
    }
    lines.extend(game);
    if gym_min >= LONG_PRACTICE_MIN {
        let middle = lines.len().div_ceil(2);
        lines.insert(
            middle,
            (PlanPart::plain(PartKind::Break, titles.rest.clone(), PartKind::Break.minutes()), Why::Break),
        );
    }
    fitted(&mut lines, gym_min);
    let mut plan = Plan { gym_min, ..Plan::new() };
    let mut whys = Vec::new();
    for (part, why) in lines {
        plan.put(usize::MAX, PlanPart { fitted: super::Fitted::AsPlanned, added: false, ..part });
        whys.push(why);
    }
    (plan, whys)
}

/// Never more than the gym's time; drills are stretched into what is left, one minute each in turn.
fn fitted(lines: &mut Vec<(PlanPart, Why)>, gym_min: u16) {
    let left: Vec<Left> = lines.iter().map(|(part, _)| Left { minutes: part.minutes, locked: false }).collect();
    // Nothing is locked, so there is always a way.
    let minutes = refit(&left, gym_min, Way::Shorten).unwrap_or_default();
    for ((part, _), n) in lines.iter_mut().zip(minutes) {
        part.minutes = n;
    }
    lines.retain(|(part, _)| part.minutes > 0);
    let mut over = gym_min - lines.iter().map(|(part, _)| part.minutes).sum::<u16>();
    loop {
        let before = over;
        for (part, _) in lines.iter_mut().filter(|(part, _)| part.kind == PartKind::Drill) {
            if over > 0 && part.minutes < LONGEST_MIN {
                part.minutes += 1;
                over -= 1;
            }
        }
        if over == before {
            return;
        }
    }
}
