//! The first screen: who is here, which drill next, what needs attention.

use super::super::model::{Model, StorageState};
use super::super::screen::Screen;
use super::super::update::unsent;
use super::super::words::{self, counts};
use super::board::{SavedView, saved};
use crate::domain::drill::{Board, DrillSpec, Rule};
use crate::domain::ids::{DrillId, PlayerId, PracticeId, RunId};
use crate::domain::replay::run::RunState;
use crate::domain::summary::{Counts, GameSummary};

#[derive(Clone, Debug, PartialEq)]
pub struct TodayView {
    pub saved: SavedView,
    pub demo: bool,
    pub notices: Vec<Notice>,
    /// No child in the squad yet: the way in is the list.
    pub no_squad: bool,
    /// "Wednesday practice" once it is on, else "Today".
    pub title: String,
    /// "All 12 are here", "11 of 12 are here"
    pub here: String,
    /// What a tap on a name says.
    pub tap_away: &'static str,
    pub children: Vec<PresenceKey>,
    /// The next date: "Thursday 17:30, planned".
    pub next_date: String,
    /// Groups as they stand: "3: 4, 4, 3".
    pub groups: String,
    /// A run is on here that can be fitted to who is here, and what that made of it.
    pub can_refit: bool,
    pub refitted: Option<String>,
    pub drills: Vec<DrillCard>,
    pub open: Option<OpenPractice>,
    /// A drill was tapped: is it one of another phone's practice, or of one of one's own?
    pub asks_part: Option<AskPart>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AskPart {
    pub practice: PracticeId,
    pub text: String,
}

/// Something the coach should know now, with one way to act.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Notice {
    pub kind: NoticeKind,
    pub text: String,
    /// Label of the button, if there is something to do.
    pub act: Option<String>,
    /// True for trouble; else a quiet hint.
    pub grave: bool,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoticeKind {
    Install,
    NotSaved,
    Aside,
    /// Something that the screens need could not be worked out.
    Work,
    UpdateWaiting,
    /// A practice of another day was never ended, or was opened again: its report is the way to end it.
    LeftOpen(PracticeId),
    /// One that another phone began today: this one may count for it.
    TakePart(PracticeId),
    /// The run is open in another window.
    RunElsewhere(RunId),
    SendCopy,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PresenceKey {
    pub player: PlayerId,
    pub label: String,
    pub here: bool,
}

/// One tap on it and the board is there, ready as last time.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DrillCard {
    pub drill: DrillId,
    pub name: String,
    /// "good if stood or moved, reach 30": what picture and name don't say.
    pub how: String,
    /// "Today 23 good of 41", "Last time 23 good of 41"
    pub last: Option<String>,
    pub picture: Picture,
    /// It was kept a moment ago: the screen leads to it.
    pub kept: bool,
}

/// Which small drawing of our own stands beside a drill.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Picture {
    Floor,
    Duel,
    Line,
    /// Servers one after another.
    ServeLine,
    /// Servers as they stand.
    Serve,
    Told,
    Group,
    /// Groups at once, a key each.
    Lanes,
    /// A game across the net.
    Court,
    /// The phone at a distance.
    Propped,
}

/// The practice that is on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OpenPractice {
    pub practice: PracticeId,
    /// "since 17:05"
    pub since: String,
    /// It was begun here; else this phone takes part in it.
    pub led: bool,
    pub runs: Vec<RunRow>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RunRow {
    pub run: RunId,
    pub name: String,
    /// "23 good of 41"
    pub count: String,
    /// "8 good of 20 counted beside it, not added", where another page counted at the same time.
    pub beside: Option<String>,
    pub on: bool,
}

/// The form of a drill: the draft, what is wrong with it, and what may be chosen.
#[derive(Clone, Debug, PartialEq)]
pub struct DrillView {
    pub spec: DrillSpec,
    pub is_new: bool,
    /// The name it gets if the coach gives none; empty while there is none to give.
    pub name_hint: String,
    /// One sentence when the draft can't be used.
    pub fault: Option<String>,
    /// One sentence telling how it will run.
    pub how: String,
}

/// So many contacts without a copy and the app reminds quietly.
const REMIND_AFTER: usize = 300;

pub fn today(model: &Model) -> TodayView {
    let on = model.practice_today();
    let away = model.away();
    let squad = model.squad();
    let n_here = squad.iter().filter(|p| !away.contains(&p.id)).count();
    TodayView {
        saved: saved(model),
        demo: model.demo,
        notices: notices(model),
        no_squad: squad.is_empty(),
        asks_part: asks_part(model),
        title: on.as_ref().map_or_else(|| words::today::TODAY.to_owned(), |p| p.title.clone()),
        here: words::today::here(n_here, squad.len()),
        tap_away: if model.along().is_some() { words::screens::TAP_AWAY_STATION } else { words::screens::TAP_AWAY },
        children: squad
            .into_iter()
            .map(|p| PresenceKey { here: !away.contains(&p.id), player: p.id, label: model.name_of(p.id) })
            .collect(),
        next_date: super::calendar::next_line(model),
        groups: words::groups::short(&crate::app::groups::standing(model).iter().map(Vec::len).collect::<Vec<_>>()),
        can_refit: model.run_at_hand().is_some(),
        refitted: model.drafts.groups.said.clone(),
        drills: model.base.drills().into_iter().map(|(id, spec)| card(model, id, spec)).collect(),
        open: on.map(|p| OpenPractice {
            practice: p.id,
            since: words::today::since(&counts::time(p.started)),
            led: model.leads(p.id),
            // Opened and finished again with nothing counted: nothing to tell of.
            runs: model
                .runs_of(&p)
                .filter(|r| !r.main.finished || says_something(r))
                .map(|r| run_row(model, r))
                .collect(),
        }),
    }
}

fn asks_part(model: &Model) -> Option<AskPart> {
    model.drafts.part_asked?;
    let theirs = *model.can_take_part().first()?;
    Some(AskPart { practice: theirs.practice, text: words::today::asks_part(&counts::time(theirs.started)) })
}

pub fn drill(model: &Model) -> DrillView {
    let draft = model.drafts.drill.clone();
    let spec = draft.as_ref().map_or_else(empty_spec, |d| d.spec.clone());
    DrillView {
        is_new: draft.is_none_or(|d| d.drill.is_none()),
        name_hint: words::drills::name_of_skill(&spec.skill).to_owned(),
        fault: words::drills::named(spec.clone()).fault().map(words::drills::fault),
        how: words::drills::how(&spec),
        spec,
    }
}

fn empty_spec() -> DrillSpec {
    use crate::domain::drill::LineOrder;
    use crate::domain::skill::{GoodFrom, Skill};
    DrillSpec {
        name: String::new(),
        skill: Skill::Pass,
        board: Board::Line { order: LineOrder::InTurn },
        rule: Rule::Tally { goal: None },
        good_from: GoodFrom::GoodKey,
        feed: DrillSpec::EASY,
        on_floor: crate::domain::drill::OnFloor::default(),
    }
}

fn says_something(run: &RunState) -> bool {
    run.parts().any(|part| part.counts_something())
}

fn run_row(model: &Model, run: &RunState) -> RunRow {
    RunRow {
        run: run.id,
        name: run.spec.name.clone(),
        count: words::today::what_came(&Counts::of(&run.main.everyone), GameSummary::of(&run.main).as_ref()),
        beside: words::report::beside(&run.counted_beside(), run.noted_beside(), run.rallies_beside()),
        // Another phone's goes on there.
        on: !run.main.finished && model.own.get(run.id.0).is_some(),
    }
}

fn card(model: &Model, drill: DrillId, spec: &DrillSpec) -> DrillCard {
    let on = model.practice_today().map(|p| p.id);
    let in_memory = model.runs.values().filter(|r| r.drill == Some(drill));
    let in_memory = in_memory.filter_map(|r| {
        let came = came(&Counts::of(&r.main.everyone), GameSummary::of(&r.main).as_ref())?;
        Some((r.started.wall_ms, came, on == Some(r.practice)))
    });
    let packed = model.packed.values().flat_map(|p| &p.summary.runs).filter(|r| r.drill == Some(drill));
    let packed = packed.filter_map(|r| Some((r.started.wall_ms, came(&r.everyone, r.game.as_ref())?, false)));
    let last = in_memory.chain(packed).max_by_key(|(wall_ms, ..)| *wall_ms);
    DrillCard {
        drill,
        name: spec.name.clone(),
        how: words::drills::short(spec),
        last: last.map(|(_, came, in_this)| words::today::last(&came, in_this)),
        picture: picture(spec),
        kept: model.drafts.kept == Some(drill),
    }
}

/// Nothing where nothing was counted.
fn came(counts: &Counts, game: Option<&GameSummary>) -> Option<String> {
    game.and_then(words::today::game).or_else(|| (counts.n_noted() > 0).then(|| words::today::good_of(counts)))
}

pub fn picture(spec: &DrillSpec) -> Picture {
    match (spec.board, spec.rule) {
        (_, Rule::Transition(_)) => Picture::Duel,
        (Board::Floor { .. }, _) => Picture::Floor,
        (Board::Line { .. }, _) => Picture::Line,
        (Board::ServeLine { .. }, _) => Picture::ServeLine,
        (Board::ServeFloor { .. }, _) => Picture::Serve,
        (Board::Told { .. }, _) => Picture::Told,
        (Board::Group, _) => Picture::Group,
        (Board::Lanes, _) => Picture::Lanes,
        (Board::Court, _) => Picture::Court,
        (Board::Propped { .. }, _) => Picture::Propped,
    }
}

fn notices(model: &Model) -> Vec<Notice> {
    let mut list = Vec::new();
    let mut add = |kind, text: String, act: Option<&str>, grave| {
        list.push(Notice { kind, text, act: act.map(str::to_owned), grave });
    };
    if let Some(trouble) = &model.storage.failed {
        add(NoticeKind::NotSaved, words::trouble::whole(trouble), Some(words::today::LOOK), true);
    }
    if !model.storage.aside.is_empty() {
        add(NoticeKind::Aside, words::trouble::aside(model.storage.aside.len()), Some(words::today::LOOK), true);
    }
    if let Some(sentence) = &model.storage.work {
        add(NoticeKind::Work, sentence.clone(), Some(words::screens::READ_AGAIN), true);
    }
    for theirs in model.can_take_part() {
        let text = words::today::take_part(&counts::time(theirs.started));
        add(NoticeKind::TakePart(theirs.practice), text, Some(words::today::TAKE_PART), false);
    }
    for left in model.left_open() {
        let on = left.started.day();
        // Its day is said once.
        let title = (left.title != counts::practice_title(on)).then_some(left.title.as_str());
        let text = words::today::left_open(title, &counts::day(on, model.now.day()), !left.endings.is_empty());
        add(NoticeKind::LeftOpen(left.id), text, Some(words::today::SEE_IT), false);
    }
    if let Some(run) = model.run_on().filter(|run| model.is_elsewhere(run)) {
        add(
            NoticeKind::RunElsewhere(run.id),
            words::today::elsewhere(&run.spec.name),
            Some(words::today::GO_ON_HERE),
            false,
        );
    }
    if model.phone.update_waiting {
        let text = if model.phone.update_refused { words::today::UPDATE_REFUSED } else { words::today::UPDATE };
        add(NoticeKind::UpdateWaiting, text.to_owned(), Some(words::today::UPDATE_ACT), false);
    }
    list.extend(install(model, || {
        if model.squad().is_empty() { words::today::INSTALL } else { words::today::INSTALL_TYPED }
    }));
    let mut add = |kind, text: String, act: Option<&str>, grave| {
        list.push(Notice { kind, text, act: act.map(str::to_owned), grave });
    };
    let unsent = unsent(model);
    if unsent.n_counted >= REMIND_AFTER && model.screen == Screen::Today && !model.demo {
        add(NoticeKind::SendCopy, words::today::unsent(unsent), Some(words::screens::SEND_COPY), false);
    }
    list
}

/// All that there is to be told on a phone on which nothing is stored.
pub fn first_notice(model: &Model) -> Option<Notice> {
    install(model, || words::today::INSTALL)
}

fn install(model: &Model, text: impl FnOnce() -> &'static str) -> Option<Notice> {
    let ready = model.storage.state != StorageState::Opening;
    (ready && !model.phone.installed && !model.settings.install_hint_closed && !model.demo).then(|| Notice {
        kind: NoticeKind::Install,
        text: text().to_owned(),
        act: Some(words::today::INSTALL_ACT.to_owned()),
        grave: false,
    })
}
