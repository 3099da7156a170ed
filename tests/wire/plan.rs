//! Samples of plans and of what was begun. A frozen fixture holds exactly these.

use super::samples::Pages;
use peppertally::domain::entry::{Entry, Fact};
use peppertally::domain::ids::{DrillId, EntryId, PartNo, PlanId, PracticeId, Revision};
use peppertally::domain::plan::{Fitted, PartKind, Plan, PlanPart};

const PRACTICE: PracticeId = PracticeId(EntryId::new(0x11, 5));
const PLAN: PlanId = PlanId(EntryId::new(0x11, 6));

pub fn entries() -> Vec<Entry> {
    let mut pages = Pages { entries: Vec::new(), clock: 400 };
    pages.note(Fact::PlanMade { plan: Plan::new() });
    pages.note(Fact::PlanChanged { plan: PLAN, revision: Revision(1), changed: plan() });
    pages.note(Fact::PartBegun { practice: PRACTICE, plan: PLAN, part: PartNo(3), title: "Sk\u{e4}rm \"2\"".into() });
    pages.note(Fact::PartEnded { practice: PRACTICE, part: PartNo(u16::MAX.into()) });
    pages.entries
}

pub fn plan() -> Plan {
    let kinds = [PartKind::Arrival, PartKind::Drill, PartKind::Break, PartKind::Other];
    let fitted = [Fitted::AsPlanned, Fitted::To(0), Fitted::Dropped, Fitted::To(u16::MAX)];
    let part = |at: usize| PlanPart {
        no: PartNo(u32::try_from(at).unwrap() * 7),
        kind: kinds[at],
        title: ["Arrival game", "Serving", "", "Talk \u{1f3d0}"][at].into(),
        minutes: [0, 15, u16::MAX, 4][at],
        drill: (at == 1).then_some(DrillId(EntryId::new(0x11, 4))),
        groups: (at == 1).then_some(3),
        balls: (at == 2).then_some(u8::MAX),
        feeds: (at == 1).then_some(8),
        locked: at == 0,
        ball: at < 2,
        net: at == 1,
        game: at == 3,
        added: at == 3,
        fitted: fitted[at],
        why: if at == 1 { "Serving had the fewest balls.".into() } else { String::new() },
    };
    Plan { gym_min: 90, collect_s: 40, next_no: u16::MAX, parts: (0..4).map(part).collect() }
}
