//! What the coach should know now, above everything else on the first screen.

use leptos::prelude::*;

use super::pictures::{Glyph, glyph};
use crate::app::action::Action;
use crate::app::screen::Screen;
use crate::app::view::today::{Notice, NoticeKind};
use crate::app::words::screens as words;
use crate::ui::markup::view;
use crate::ui::shell::Shell;

pub fn told(notices: &[Notice], shell: Shell) -> Vec<AnyView> {
    notices.iter().enumerate().map(|(i, notice)| one(i, notice, shell)).collect()
}

/// A notice leads to the one thing there is to do about it.
fn one(i: usize, notice: &Notice, shell: Shell) -> AnyView {
    let kind = notice.kind;
    let grave = notice.grave;
    view! {
        <section class="notice" class:grave=grave role=grave.then_some("alert")>
            {grave.then(|| glyph(Glyph::Warn))}
            <p>{notice.text.clone()}</p>
            <div class="notice-keys">
                {notice
                    .act
                    .clone()
                    .map(|act| {
                        view! {
                            <button
                                class="notice-act"
                                type="button"
                                data-key=format!("notice.{i}")
                                on:click=shell.sends(action_for(kind))
                            >
                                {act}
                            </button>
                        }
                    })}
                {(kind == NoticeKind::Install)
                    .then(|| {
                        view! {
                            <button
                                class="notice-later"
                                type="button"
                                data-key="close"
                                on:click=shell.sends(Action::InstallHintClosed)
                            >
                                {words::INSTALL_LATER}
                            </button>
                        }
                    })}
            </div>
        </section>
    }
}

fn action_for(kind: NoticeKind) -> Action {
    match kind {
        NoticeKind::Install => Action::Go(Screen::Install),
        NoticeKind::NotSaved | NoticeKind::Aside => Action::Go(Screen::Phone),
        NoticeKind::Work => Action::ReadAgain,
        NoticeKind::UpdateWaiting => Action::UpdateTaken,
        NoticeKind::LeftOpen(practice) => Action::Go(Screen::PracticeReport(practice)),
        NoticeKind::TakePart(practice) => Action::Along(practice, true),
        NoticeKind::RunElsewhere(run) => Action::Go(Screen::Run(run)),
        NoticeKind::SendCopy => Action::Go(Screen::Share),
    }
}
