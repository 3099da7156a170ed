//! The screens and their addresses on `#`. Knows no browser: text in, text out.

use crate::domain::ids::{DateId, DrillId, EntryId, PlayerId, PracticeId, RunId};
use crate::domain::library::LibraryNo;

#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum Screen {
    #[default]
    Today,
    Squad,
    /// Type or paste a list of children.
    Roster,
    Child(PlayerId),
    /// Children who may have been entered twice.
    Joining,
    /// `None`: a new drill.
    Drill(Option<DrillId>),
    /// The library of drills, and one of its drills.
    Library,
    LibraryDrill(LibraryNo),
    /// The coach's own drills.
    MyDrills,
    Groups,
    Plan,
    /// The plan of a date.
    DatePlan(DateId),
    /// The season by months.
    Calendar,
    /// Dates to come: new ones (`None`), or one changed.
    Dates(Option<DateId>),
    /// The board of a run.
    Run(RunId),
    /// The list of a run's contacts, to be corrected.
    Contacts(RunId),
    RunReport(RunId),
    /// All practices.
    After,
    PracticeReport(PracticeId),
    /// Practices that may be one; with a practice, which others it is.
    AsOne(Option<PracticeId>),
    /// How a child is doing over weeks; `None`: everyone.
    Weeks(Option<PlayerId>),
    /// What children's own scores are worth.
    Trust,
    /// A drill over the weeks.
    DrillWeeks(DrillId),
    /// Who had how much of the last practice and of the season.
    Fair,
    /// The note home of a child.
    Home(PlayerId),
    /// A note is written; a question is asked.
    Note,
    Ask,
    /// All notes and questions, and one of them.
    Notes,
    Remark(EntryId),
    /// Who was asked, noted, seen; and who wasn't for a while.
    Heard,
    Share,
    /// A copy is shown to another phone as a moving code, and read from one.
    Show,
    Read,
    /// Settings of this phone.
    Phone,
    /// Where everything is, and whether it is whole.
    Health,
    Install,
}

impl Screen {
    /// The address after `#`.
    pub fn address(self) -> String {
        match self {
            Screen::Today => "today".to_owned(),
            Screen::Squad => "squad".to_owned(),
            Screen::Roster => "squad/list".to_owned(),
            Screen::Joining => "squad/twice".to_owned(),
            Screen::Child(id) => format!("squad/{}", id.0),
            Screen::Drill(None) => "drill/new".to_owned(),
            Screen::Drill(Some(id)) => format!("drill/{}", id.0),
            Screen::Library => "library".to_owned(),
            Screen::LibraryDrill(no) => format!("library/{}", no.0),
            Screen::MyDrills => "drills".to_owned(),
            Screen::Groups => "groups".to_owned(),
            Screen::Plan => "plan".to_owned(),
            Screen::DatePlan(id) => format!("plan/{}", id.0),
            Screen::Calendar => "calendar".to_owned(),
            Screen::Dates(None) => "calendar/new".to_owned(),
            Screen::Dates(Some(id)) => format!("calendar/{}", id.0),
            Screen::Run(id) => format!("run/{}", id.0),
            Screen::Contacts(id) => format!("contacts/{}", id.0),
            Screen::RunReport(id) => format!("report/{}", id.0),
            Screen::After => "after".to_owned(),
            Screen::PracticeReport(id) => format!("after/{}", id.0),
            Screen::AsOne(None) => "one-practice".to_owned(),
            Screen::AsOne(Some(id)) => format!("one-practice/{}", id.0),
            Screen::Weeks(None) => "weeks".to_owned(),
            Screen::Weeks(Some(id)) => format!("weeks/{}", id.0),
            Screen::Trust => "trust".to_owned(),
            Screen::DrillWeeks(id) => format!("drill-weeks/{}", id.0),
            Screen::Fair => "fair".to_owned(),
            Screen::Home(id) => format!("home/{}", id.0),
            Screen::Note => "note".to_owned(),
            Screen::Ask => "ask".to_owned(),
            Screen::Notes => "notes".to_owned(),
            Screen::Remark(id) => format!("notes/{id}"),
            Screen::Heard => "asked".to_owned(),
            Screen::Share => "share".to_owned(),
            Screen::Show => "share/show".to_owned(),
            Screen::Read => "share/read".to_owned(),
            Screen::Phone => "phone".to_owned(),
            Screen::Health => "health".to_owned(),
            Screen::Install => "install".to_owned(),
        }
    }

    /// `None` for an address that isn't ours.
    pub fn from_address(text: &str) -> Option<Screen> {
        let text = text.trim_start_matches('#').trim_start_matches('/');
        let (head, tail) = text.split_once('/').map_or((text, None), |(h, t)| (h, Some(t)));
        let id = || EntryId::from_text(tail?);
        Some(match (head, tail) {
            ("" | "today", None) => Screen::Today,
            ("squad", None) => Screen::Squad,
            ("squad", Some("list")) => Screen::Roster,
            ("squad", Some("twice")) => Screen::Joining,
            ("squad", Some(_)) => Screen::Child(PlayerId(id()?)),
            ("drill", Some("new")) => Screen::Drill(None),
            ("drill", Some(_)) => Screen::Drill(Some(DrillId(id()?))),
            ("library", None) => Screen::Library,
            ("library", Some(no)) => Screen::LibraryDrill(LibraryNo(no.parse().ok()?)),
            ("drills", None) => Screen::MyDrills,
            ("groups", None) => Screen::Groups,
            ("plan", None) => Screen::Plan,
            ("plan", Some(_)) => Screen::DatePlan(DateId(id()?)),
            ("calendar", None) => Screen::Calendar,
            ("calendar", Some("new")) => Screen::Dates(None),
            ("calendar", Some(_)) => Screen::Dates(Some(DateId(id()?))),
            ("run", Some(_)) => Screen::Run(RunId(id()?)),
            ("contacts", Some(_)) => Screen::Contacts(RunId(id()?)),
            ("report", Some(_)) => Screen::RunReport(RunId(id()?)),
            ("after", None) => Screen::After,
            ("after", Some(_)) => Screen::PracticeReport(PracticeId(id()?)),
            ("one-practice", None) => Screen::AsOne(None),
            ("one-practice", Some(_)) => Screen::AsOne(Some(PracticeId(id()?))),
            ("weeks", None) => Screen::Weeks(None),
            ("weeks", Some(_)) => Screen::Weeks(Some(PlayerId(id()?))),
            ("trust", None) => Screen::Trust,
            ("drill-weeks", Some(_)) => Screen::DrillWeeks(DrillId(id()?)),
            ("fair", None) => Screen::Fair,
            ("home", Some(_)) => Screen::Home(PlayerId(id()?)),
            ("note", None) => Screen::Note,
            ("ask", None) => Screen::Ask,
            ("notes", None) => Screen::Notes,
            ("notes", Some(_)) => Screen::Remark(id()?),
            ("asked", None) => Screen::Heard,
            ("share", None) => Screen::Share,
            ("share", Some("show")) => Screen::Show,
            ("share", Some("read")) => Screen::Read,
            ("phone", None) => Screen::Phone,
            ("health", None) => Screen::Health,
            ("install", None) => Screen::Install,
            _ => return None,
        })
    }

    /// Which of the four places at the foot it belongs to; `None` where the foot is not shown (in a run).
    pub fn tab(self) -> Option<Tab> {
        match self {
            Screen::Library | Screen::LibraryDrill(_) | Screen::MyDrills => Some(Tab::Today),
            Screen::Today | Screen::Drill(_) | Screen::Groups => Some(Tab::Today),
            Screen::Plan | Screen::DatePlan(_) | Screen::Calendar | Screen::Dates(_) => Some(Tab::Today),
            Screen::Note | Screen::Ask => Some(Tab::Today),
            Screen::Notes | Screen::Remark(_) | Screen::Heard => Some(Tab::After),
            Screen::Squad | Screen::Roster | Screen::Child(_) | Screen::Joining => Some(Tab::Squad),
            Screen::After | Screen::PracticeReport(_) | Screen::RunReport(_) | Screen::Contacts(_) => Some(Tab::After),
            Screen::Weeks(_) | Screen::DrillWeeks(_) | Screen::Trust => Some(Tab::After),
            Screen::Fair | Screen::Home(_) | Screen::AsOne(_) => Some(Tab::After),
            Screen::Show | Screen::Read => Some(Tab::Share),
            Screen::Share | Screen::Phone | Screen::Health | Screen::Install => Some(Tab::Share),
            Screen::Run(_) => None,
        }
    }
}

/// The four places at the foot.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Tab {
    Today,
    Squad,
    After,
    Share,
}

impl Tab {
    pub const ALL: [Tab; 4] = [Tab::Today, Tab::Squad, Tab::After, Tab::Share];

    pub const fn screen(self) -> Screen {
        match self {
            Tab::Today => Screen::Today,
            Tab::Squad => Screen::Squad,
            Tab::After => Screen::After,
            Tab::Share => Screen::Share,
        }
    }
}
