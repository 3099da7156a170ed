//! What comes after the first screen: the bulk of the app is a bundle of its own, fetched as soon as the first screen stands. Knows
//! whether it is here, and what stands in a screen's place until it is. One bundle, so that nothing in it ever waits for another.

use leptos::prelude::*;

use super::Opening;
use super::screens::{
    after::After,
    as_one::OnePractice,
    calendar::Calendar,
    calendar::Dates,
    child::Child,
    codes::{ReadCode, ShowCode},
    contacts::Contacts,
    drill::Drill,
    fair::FairPractice,
    groups::Groups,
    health::Health,
    home::NoteHome,
    install::Install,
    joining::Joining,
    library::Library,
    library_drill::LibraryDrill,
    my_drills::MyDrills,
    notes::{Asking, Heard, Notes, Noting, OneRemark},
    parts::Head,
    phone::Phone,
    plan::Plan,
    practice_report::PracticeReport,
    roster::Roster,
    run::Run,
    run_report::RunReport,
    share::Share,
    squad::Squad,
    today::Today,
    trust::Trust,
    weeks::{ChildOverWeeks, DrillOverWeeks, OverWeeks},
    welcome::First,
};
use crate::app::apart::apart;
use crate::app::screen::Screen;
use crate::app::view;
use crate::app::words::bulk as words;
use crate::ui::markup::view;
use crate::ui::part::Part;
use crate::ui::shell::Shell;
use crate::ui::widgets::clicked;

/// Draws any screen.
pub type Draw = fn(Screen, Shell) -> AnyView;

#[derive(Clone, Copy)]
enum Standing {
    Coming,
    Here(Draw),
    Failed,
}

/// There is one `Draw`.
impl PartialEq for Standing {
    fn eq(&self, other: &Self) -> bool {
        std::mem::discriminant(self) == std::mem::discriminant(other)
    }
}

/// Whether the bulk is here. A copy is two indexes.
#[derive(Clone, Copy)]
pub struct Bulk {
    standing: Part<Standing>,
    /// It was fetched a second time.
    again: RwSignal<bool>,
    fetch: fn(Bulk),
}

impl Bulk {
    /// To be made at the app's root; `fetch` is to tell what becomes of it.
    pub fn fetched_by(fetch: fn(Bulk)) -> Self {
        Self { standing: Part::told(Standing::Coming), again: RwSignal::new(false), fetch }
    }

    pub fn fetch(self) {
        self.standing.tell(Standing::Coming);
        (self.fetch)(self);
    }

    /// Once more; after that the whole page, because the host may have another version by now.
    fn fetch_again(self) {
        let before = self.again.get_untracked();
        self.again.set(true);
        // Without a signal the page would be gone, and nothing in its place.
        if !before || !window().navigator().on_line() {
            self.fetch();
        } else if let Err(why) = window().location().reload() {
            leptos::logging::warn!("the page isn't loaded again: {why:?}");
        }
    }

    /// It has been waited for long enough: that is said, with the key that fetches it again. Should it come after all, it is here.
    pub fn is_late(self) {
        if matches!(self.standing.get_untracked(), Standing::Coming) {
            self.has_failed();
        }
    }

    pub fn is_here(self, draw: Draw) {
        self.standing.tell(Standing::Here(draw));
    }

    pub fn has_failed(self) {
        self.standing.tell(Standing::Failed);
    }

    /// A screen and what draws it, told when that differs.
    pub(super) fn shown(self, screen: Part<Screen>, opening: Part<bool>) -> Part<Shown> {
        Part::new(move || {
            let screen = screen.get();
            let opening = opening.get() && screen.tab().is_some();
            let by = match self.standing.get() {
                Standing::Failed if opening => By::Failed,
                // Until the storage has answered, no screen may say that something isn't there.
                _ if opening => By::Opening,
                Standing::Here(draw) => By::Bulk(draw),
                // Before the bulk is here, the storage has answered only where it is empty.
                _ if screen == Screen::Today => By::Itself,
                Standing::Coming => By::Coming,
                Standing::Failed => By::Failed,
            };
            Shown { screen, by }
        })
    }

    pub(super) fn draw(self, shown: Shown, shell: Shell) -> AnyView {
        match shown.by {
            By::Opening => view! { <Opening /> },
            By::Itself => view! { <First shell /> },
            By::Bulk(draw) => draw(shown.screen, shell),
            By::Coming => view! { <Coming shell /> },
            By::Failed => view! { <Failed bulk=self shell /> },
        }
    }
}

#[derive(Clone, Copy)]
enum By {
    Opening,
    /// That of a phone on which nothing is stored is in the program itself.
    Itself,
    Bulk(Draw),
    Coming,
    Failed,
}

/// A screen, and what draws it.
#[derive(Clone, Copy)]
pub(super) struct Shown {
    screen: Screen,
    by: By,
}

impl Shown {
    pub const fn screen(self) -> Screen {
        self.screen
    }

    /// It is the screen, and not what stands in its place.
    pub const fn is_drawn(self) -> bool {
        matches!(self.by, By::Itself | By::Bulk(_))
    }
}

impl PartialEq for Shown {
    fn eq(&self, other: &Self) -> bool {
        self.screen == other.screen && std::mem::discriminant(&self.by) == std::mem::discriminant(&other.by)
    }
}

/// The ground of a screen that is on its way. What it says is shown only when it takes long enough to be read.
#[component]
fn Coming(shell: Shell) -> impl IntoView {
    view! {
        <main class="screen is-coming" data-screen="coming">
            <Head title=words::COMING.to_owned() shell />
            <p class="hint" role="status">{words::COMING_LINE}</p>
        </main>
    }
}

#[component]
fn Failed(bulk: Bulk, shell: Shell) -> impl IntoView {
    view! {
        <main class="screen" data-screen="not-arrived">
            <Head title=words::NOT_ARRIVED.to_owned() shell />
            <p class="lead" role="alert">{words::NOT_ARRIVED_LINE}</p>
            <div class="foot">
                <button class="big" type="button" data-key="fetch-again" on:click=clicked(move |_| bulk.fetch_again())>
                    {words::FETCH_AGAIN}
                </button>
            </div>
        </main>
    }
}

/// Every screen. To be named by the bulk alone: what it names is then in the bulk.
pub fn draw(screen: Screen, shell: Shell) -> AnyView {
    match screen {
        Screen::Today => apart(|| view! { <Today view=shell.view(view::today::today) shell /> }),
        Screen::Squad => apart(|| view! { <Squad view=shell.view(view::squad::squad) shell /> }),
        Screen::Roster => apart(|| view! { <Roster view=shell.view(view::squad::roster) shell /> }),
        Screen::Joining => apart(|| view! { <Joining view=shell.view(view::joining::joining) shell /> }),
        Screen::Child(id) => apart(|| view! { <Child view=shell.view(move |m| view::squad::child(m, id)) shell /> }),
        Screen::Drill(_) => apart(|| view! { <Drill view=shell.view(view::today::drill) shell /> }),
        Screen::Library => apart(|| view! { <Library view=shell.view(view::library::library) shell /> }),
        Screen::LibraryDrill(no) => {
            apart(|| view! { <LibraryDrill view=shell.view(move |m| view::library::library_drill(m, no)) no shell /> })
        }
        Screen::MyDrills => apart(|| view! { <MyDrills view=shell.view(view::library::my_drills) shell /> }),
        Screen::Groups => apart(|| view! { <Groups view=shell.view(view::groups::groups) shell /> }),
        Screen::Calendar => apart(|| view! { <Calendar view=shell.view(view::calendar::calendar) shell /> }),
        Screen::Dates(_) => apart(|| view! { <Dates view=shell.view(view::calendar::dates_form) shell /> }),
        Screen::Plan | Screen::DatePlan(_) => apart(|| view! { <Plan view=shell.view(view::plan::plan) shell /> }),
        Screen::Run(run) => apart(|| view! { <Run view=shell.view(move |m| view::board::board(m, run)) run shell /> }),
        Screen::Contacts(id) => {
            apart(|| view! { <Contacts view=shell.view(move |m| view::report::contacts(m, id)) shell /> })
        }
        Screen::RunReport(id) => {
            apart(|| view! { <RunReport view=shell.view(move |m| view::report::run_report(m, id)) shell /> })
        }
        Screen::After => apart(|| view! { <After view=shell.view(view::report::after) shell /> }),
        Screen::PracticeReport(id) => {
            apart(|| view! { <PracticeReport view=shell.view(move |m| view::report::practice_report(m, id)) shell /> })
        }
        Screen::AsOne(of) => {
            apart(|| view! { <OnePractice view=shell.view(move |m| view::as_one::as_one(m, of)) of shell /> })
        }
        Screen::Weeks(None) => apart(|| view! { <OverWeeks view=shell.view(view::weeks::weeks) shell /> }),
        Screen::Weeks(Some(id)) => {
            apart(|| view! { <ChildOverWeeks view=shell.view(move |m| view::weeks::child_weeks(m, id)) shell /> })
        }
        Screen::Trust => apart(|| view! { <Trust view=shell.view(view::trust::trust) shell /> }),
        Screen::DrillWeeks(id) => {
            apart(|| view! { <DrillOverWeeks view=shell.view(move |m| view::weeks::drill_weeks(m, id)) shell /> })
        }
        Screen::Fair => apart(|| view! { <FairPractice view=shell.view(view::fair::fair) shell /> }),
        Screen::Home(id) => {
            apart(|| view! { <NoteHome view=shell.view(move |m| view::home::home(m, id)) player=id shell /> })
        }
        Screen::Note => apart(|| view! { <Noting view=shell.view(view::notes::pad) shell /> }),
        Screen::Ask => apart(|| view! { <Asking view=shell.view(view::notes::ask) shell /> }),
        Screen::Notes => apart(|| view! { <Notes view=shell.view(view::notes::notes) shell /> }),
        Screen::Remark(id) => apart(|| view! { <OneRemark view=shell.view(move |m| view::notes::one(m, id)) shell /> }),
        Screen::Heard => apart(|| view! { <Heard view=shell.view(view::notes::heard) shell /> }),
        Screen::Share => apart(|| view! { <Share view=shell.view(view::share::share) shell /> }),
        Screen::Show => apart(|| view! { <ShowCode view=shell.view(view::codes::show) shell /> }),
        Screen::Read => apart(|| view! { <ReadCode view=shell.view(view::codes::read) shell /> }),
        Screen::Phone => apart(|| view! { <Phone view=shell.view(view::share::phone) shell /> }),
        Screen::Health => apart(|| view! { <Health view=shell.view(view::health::health) shell /> }),
        Screen::Install => apart(|| view! { <Install view=shell.view(view::share::install) shell /> }),
    }
}
