//! After a practice: who was here, what was practised, which efforts were noticed; it can be opened again and corrected.

use leptos::prelude::*;

use super::notes::{remarks, tap};
use super::parts::{Head, NotHere, WayTo, unread};
use super::pictures::{Glyph, glyph};
use super::plan::after;
use super::report::{efforts, touches};
use crate::app::action::Action;
use crate::app::notes::NotesTap;
use crate::app::screen::Screen;
use crate::app::view::report::{PracticeReportView, PracticeRunRow, PracticeWay};
use crate::app::words::notes as note_words;
use crate::app::words::screens as words;
use crate::ui::markup::{live, view};
use crate::ui::part::Part;
use crate::ui::shell::Shell;

const BACK: (Screen, &str) = (Screen::After, words::BACK_TO_AFTER);

#[component]
pub fn PracticeReport(view: Part<Option<PracticeReportView>>, shell: Shell) -> impl IntoView {
    live(move || {
        view.with(|v| match v {
            None => view! { <NotHere screen="practice-report" back=BACK shell /> },
            Some(report) => page(report, shell).into_any(),
        })
    })
}

fn page(report: &PracticeReportView, shell: Shell) -> impl IntoView + use<> {
    let (practice, way) = (report.practice, report.way);
    view! {
        <main class="screen" data-screen="practice-report">
            <Head title=report.title.clone() shell back=BACK />
            <p class="hint">{report.when.clone()}</p>
            <p class="lead" data-fig="presence">{report.presence.clone()}</p>
            {if let Some(why) = &report.trouble {
                unread(why.clone(), shell)
            } else if report.loading {
                view! { <p class="loading" role="status">{words::READING}</p> }
            } else if report.runs.is_empty() {
                view! { <p class="lead">{words::PRACTICE_NO_RUNS}</p> }
            } else {
                let rows: Vec<_> = report.runs.iter().enumerate().map(|(i, row)| run(i, row, shell)).collect();
                view! {
                    <section>
                        <h2 class="section-head">{words::DRILLS_RUN}</h2>
                        <ul class="rows card">{rows}</ul>
                    </section>
                }
            }}
            {after(report.plan.as_ref())}
            {touches(report.touches.as_ref())}
            {efforts(&report.efforts)}
            {remarks(&report.remarks, shell)}
            {(!report.loading && report.trouble.is_none())
                .then(|| {
                    let add = tap(NotesTap::Wanted(Some(practice), None));
                    view! {
                        <button class="quiet" type="button" data-key="note-add" on:click=shell.sends(add)>
                            {note_words::ADD_NOTE}
                        </button>
                    }
                })}
            <WayTo key="heard" label=note_words::HEARD line=note_words::HEARD_LINE to=Screen::Heard shell />
            {way.map(|way| {
                let (key, word, action) = match way {
                    PracticeWay::End => ("practice-end", words::PRACTICE_END, Action::PracticeEnded(practice)),
                    PracticeWay::OpenAgain => {
                        ("practice-reopen", words::PRACTICE_REOPEN, Action::PracticeReopened(practice))
                    }
                };
                view! {
                    <button class="quiet" type="button" data-key=key on:click=shell.sends(action.clone())>
                        {word}
                    </button>
                }
            })}
            <div class="foot">
                <button class="big" type="button" data-key="send" on:click=shell.sends(Action::Go(Screen::Share))>
                    {words::SEND_COPY}
                </button>
            </div>
        </main>
    }
}

fn run(i: usize, row: &PracticeRunRow, shell: Shell) -> impl IntoView + use<> {
    let run = row.run;
    view! {
        <li>
            <button
                class="row-key"
                type="button"
                data-key=format!("run.{i}")
                on:click=shell.sends(Action::Go(Screen::RunReport(run)))
            >
                <span class="row-words">
                    <bdi class="row-name">{row.name.clone()}</bdi>
                    <span class="row-line">{row.count.clone()}</span>
                    <span class="row-line">{row.share.clone()}</span>
                    {row.beside.clone().map(|line| view! { <span class="row-line">{line}</span> })}
                </span>
                {glyph(Glyph::Onward)}
            </button>
        </li>
    }
}
