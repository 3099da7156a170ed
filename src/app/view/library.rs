//! The library's screens: the list with what is looked for, one drill's page, and the coach's own drills beside them.

mod drawing;

use super::super::library::{Shelf, Sought};
use super::super::model::Model;
use super::super::screen::Screen;
use super::super::words::{self, library as says};
use super::today::{Picture, picture};
use crate::domain::drill::DrillSpec;
use crate::domain::ids::DrillId;
use crate::domain::library::{Focus, Have, Level, LibraryDrill, LibraryNo, NAME_SLOT};
use crate::domain::skill::Skill;

pub use drawing::{Drawing, Mark, Way, drawing};

/// What stands over both lists.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SeekView {
    pub text: String,
    /// What a drill is for.
    pub focus: Vec<Pick>,
    /// What the coach has.
    pub rows: Vec<PickRow>,
    /// "9 of 30 drills"
    pub count: String,
    /// "12 children, 6 balls"; nothing while nothing is chosen.
    pub have: Option<String>,
    /// Something narrows the list.
    pub narrowed: bool,
}

#[derive(Clone, Debug, PartialEq)]
pub struct PickRow {
    pub label: &'static str,
    pub picks: Vec<Pick>,
}

/// One answer; a second tap takes it back.
#[derive(Clone, Debug, PartialEq)]
pub struct Pick {
    pub key: String,
    pub label: String,
    pub on: bool,
    /// What is looked for once it was tapped.
    pub next: Have,
}

#[derive(Clone, Debug, PartialEq)]
pub enum LibraryView {
    Reading,
    Failed(&'static str),
    Read { seek: SeekView, shelves: Vec<ShelfView> },
}

/// The drills for one thing.
#[derive(Clone, Debug, PartialEq)]
pub struct ShelfView {
    pub title: &'static str,
    pub cards: Vec<LibraryCard>,
}

#[derive(Clone, Debug, PartialEq)]
pub struct LibraryCard {
    pub no: LibraryNo,
    pub name: String,
    pub purpose: String,
    /// "Beginners, 5–10 min, 4–16 children, net"
    pub facts: String,
    pub drawing: Drawing,
    /// One like it is among the coach's drills.
    pub mine: bool,
}

pub fn library(model: &Model) -> LibraryView {
    let library = match &model.shelf {
        Shelf::Unasked | Shelf::Reading => return LibraryView::Reading,
        Shelf::Failed(why) => return LibraryView::Failed(why),
        Shelf::Read(library) => library,
    };
    let sought = &model.drafts.sought;
    let mine = model.base.drills();
    let card = |drill: &LibraryDrill| LibraryCard {
        no: drill.no,
        name: drill.spec.name.clone(),
        purpose: drill.purpose.clone(),
        facts: says::card_facts(drill),
        drawing: drawing(&drill.floor),
        mine: mine.iter().any(|(_, spec)| **spec == drill.spec),
    };
    let found: Vec<&LibraryDrill> = library.drills.iter().filter(|drill| is_sought(drill, sought)).collect();
    let shelf = |focus: Focus| ShelfView {
        title: says::focus(focus),
        cards: found.iter().filter(|drill| drill.focus == focus).map(|drill| card(drill)).collect(),
    };
    let shelves = Focus::ALL.into_iter().map(shelf).filter(|shelf| !shelf.cards.is_empty()).collect();
    LibraryView::Read { seek: seek(model, found.len(), library.drills.len()), shelves }
}

/// One drill, as it is read out in the gym.
#[derive(Clone, Debug, PartialEq)]
pub struct LibraryDrillView {
    pub no: LibraryNo,
    pub name: String,
    /// "Serving, beginners"
    pub kind: String,
    pub purpose: String,
    pub drawing: Drawing,
    /// What it needs: "Children" and "4–16".
    pub facts: Vec<(&'static str, String)>,
    pub runs: Vec<String>,
    pub scored: String,
    /// How its board is set, in the words of the coach's own drills.
    pub board: String,
    pub easier: Vec<String>,
    pub harder: Vec<String>,
    /// What stands before and behind the child's name.
    pub ask: Vec<(String, String)>,
    pub safety: Vec<String>,
    /// The coach's drill that is like it.
    pub mine: Option<DrillId>,
    /// There is somebody to start it with; in a practice that is on.
    pub can_start: bool,
    pub practice_on: bool,
}

pub fn library_drill(model: &Model, no: LibraryNo) -> Option<LibraryDrillView> {
    let drill = model.shelf.library()?.drill(no)?;
    let ask = |text: &String| {
        let (before, after) = text.split_once(NAME_SLOT).unwrap_or((text, ""));
        (before.to_owned(), after.to_owned())
    };
    Some(LibraryDrillView {
        no,
        name: drill.spec.name.clone(),
        kind: says::kind(drill),
        purpose: drill.purpose.clone(),
        drawing: drawing(&drill.floor),
        facts: says::facts(drill),
        runs: drill.runs.clone(),
        scored: drill.scored.clone(),
        board: words::drills::how(&drill.spec),
        easier: drill.easier.clone(),
        harder: drill.harder.clone(),
        ask: drill.ask.iter().map(ask).collect(),
        safety: drill.safety.clone(),
        mine: model.base.drills().into_iter().find(|(_, spec)| **spec == drill.spec).map(|(id, _)| id),
        can_start: !model.squad().is_empty(),
        practice_on: model.practice_today().is_some(),
    })
}

/// Whether the library couldn't be read, or has no such drill; `None` while it is being read.
pub fn why_no_page(model: &Model) -> Option<&'static str> {
    match &model.shelf {
        Shelf::Unasked | Shelf::Reading => None,
        Shelf::Failed(why) => Some(why),
        Shelf::Read(_) => Some(says::NO_SUCH),
    }
}

/// The library's page of the drill on the form, if it came from there.
pub fn page_of_form(model: &Model) -> Option<LibraryNo> {
    let Screen::Drill(Some(drill)) = model.screen else { return None };
    source(model, model.base.drill(drill)?).map(|drill| drill.no)
}

/// The coach's own drills.
#[derive(Clone, Debug, PartialEq)]
pub struct MyDrillsView {
    pub seek: SeekView,
    pub drills: Vec<MyDrill>,
    /// Put away, whatever is looked for.
    pub away: Vec<MyDrill>,
}

#[derive(Clone, Debug, PartialEq)]
pub struct MyDrill {
    pub drill: DrillId,
    pub name: String,
    pub how: String,
    pub picture: Picture,
    /// Its page in the library, where it came from there.
    pub page: Option<LibraryNo>,
}

pub fn my_drills(model: &Model) -> MyDrillsView {
    let one = |(drill, spec): (DrillId, &DrillSpec)| MyDrill {
        drill,
        name: spec.name.clone(),
        how: words::drills::short(spec),
        picture: picture(spec),
        page: source(model, spec).map(|drill| drill.no),
    };
    let all = model.base.drills();
    let n_all = all.len();
    let sought = &model.drafts.sought;
    let drills: Vec<MyDrill> =
        all.into_iter().filter(|(_, spec)| is_own_sought(model, spec, sought)).map(one).collect();
    MyDrillsView {
        seek: seek(model, drills.len(), n_all),
        drills,
        away: model.base.drills_away().into_iter().map(one).collect(),
    }
}

fn source<'a>(model: &'a Model, spec: &DrillSpec) -> Option<&'a LibraryDrill> {
    model.shelf.library()?.source_of(spec)
}

fn is_sought(drill: &LibraryDrill, sought: &Sought) -> bool {
    drill.fits(&sought.have)
        && sought.is_said_in(&[&drill.spec.name, &drill.purpose, &says::kind(drill), &says::styles(drill)])
}

/// A drill of the coach's own says of itself only what it practises; one from the library says all.
fn is_own_sought(model: &Model, spec: &DrillSpec, sought: &Sought) -> bool {
    let fits = match source(model, spec) {
        Some(drill) => drill.fits(&sought.have),
        None => sought.have.focus.is_none_or(|wanted| focus_of(spec) == Some(wanted)),
    };
    fits && sought.is_said_in(&[&spec.name, words::drills::name_of_skill(&spec.skill)])
}

fn focus_of(spec: &DrillSpec) -> Option<Focus> {
    match &spec.skill {
        _ if spec.rule.is_game() => Some(Focus::Playing),
        Skill::Pass => Some(Focus::Passing),
        Skill::Serve => Some(Focus::Serving),
        Skill::Own(name) => {
            Focus::ALL.into_iter().find(|focus| name.to_lowercase().contains(&says::focus(*focus).to_lowercase()))
        }
    }
}

fn seek(model: &Model, n_found: usize, n_all: usize) -> SeekView {
    let sought = &model.drafts.sought;
    let have = sought.have;
    let n_here = u8::try_from(model.here().len()).ok().filter(|n| *n > 0);
    let focus = Focus::ALL.map(|it| {
        let on = have.focus == Some(it);
        pick(says::focus(it).to_lowercase(), says::focus(it).to_owned(), on, Have { focus: other(on, it), ..have })
    });
    let children = n_here.into_iter().chain([8, 12, 16, 20].into_iter().filter(|n| Some(*n) != n_here)).map(|n| {
        let label = if Some(n) == n_here { words::board::here(usize::from(n)) } else { n.to_string() };
        let on = have.children == Some(n);
        pick(format!("children.{n}"), label, on, Have { children: other(on, n), ..have })
    });
    let balls = [2, 4, 6, 10].map(|n| {
        let on = have.balls == Some(n);
        pick(format!("balls.{n}"), n.to_string(), on, Have { balls: other(on, n), ..have })
    });
    let minutes = [5, 8, 10, 15].map(|n| {
        let on = have.minutes == Some(n);
        pick(format!("minutes.{n}"), n.to_string(), on, Have { minutes: other(on, n), ..have })
    });
    let net =
        [(true, "net.with", says::WITH_NET), (false, "net.without", says::WITHOUT_NET)].map(|(net, key, label)| {
            let on = have.net == Some(net);
            pick(key.to_owned(), label.to_owned(), on, Have { net: other(on, net), ..have })
        });
    let level = Level::ALL.map(|it| {
        let on = have.level == Some(it);
        pick(format!("level.{}", it as u8), says::level(it).to_owned(), on, Have { level: other(on, it), ..have })
    });
    let row = |label: &'static str, picks: Vec<Pick>| PickRow { label, picks };
    SeekView {
        text: sought.text.clone(),
        focus: focus.into(),
        rows: vec![
            row(says::CHILDREN, children.collect()),
            row(says::BALLS, balls.into()),
            row(says::MINUTES, minutes.into()),
            row(says::NET, net.into()),
            row(says::LEVEL, level.into()),
        ],
        count: says::count(n_found, n_all),
        have: says::have(&have),
        narrowed: *sought != Sought::default(),
    }
}

fn pick(key: String, label: String, on: bool, next: Have) -> Pick {
    Pick { key: format!("pick.{key}"), label, on, next }
}

fn other<T>(on: bool, it: T) -> Option<T> {
    (!on).then_some(it)
}
