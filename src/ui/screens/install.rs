//! How to put the app on the home screen, in pictures and words of our own, and why.

use leptos::prelude::*;

use super::parts::{Empty, Head, WayTo};
use super::pictures::{InstallStep, court, phone};
use crate::app::action::Action;
use crate::app::screen::Screen;
use crate::app::view::share::{InstallView, PhoneOs};
use crate::app::view::today::Picture;
use crate::app::words::screens as words;
use crate::ui::markup::{live, view};
use crate::ui::part::Part;
use crate::ui::shell::Shell;

#[component]
pub fn Install(view: Part<InstallView>, shell: Shell) -> impl IntoView {
    let body = move || {
        let InstallView { os, installed, typed } = view.get();
        if installed {
            return view! {
                <Empty heading=words::INSTALL_DONE line=words::INSTALL_DONE_LINE picture=|| court(Picture::Floor) />
            };
        }
        let others: Vec<_> = [PhoneOs::Ios, PhoneOs::Android, PhoneOs::Other]
            .into_iter()
            .filter(|other| *other != os)
            .map(|other| view! { <details class="card"><summary>{name(other)}</summary>{steps(other)}</details> })
            .collect();
        view! {
            <p class="lead">{if typed { words::INSTALL_TYPED } else { words::INSTALL_FIRST }}</p>
            {typed.then(|| view! { <WayTo key="send" label=words::INSTALL_TYPED_KEY to=Screen::Share shell /> })}
            <section class="card">
                <h2 class="section-head">{name(os)}</h2>
                {steps(os)}
            </section>
            <p>{words::INSTALL_WHY}</p>
            {others}
        }
    };
    view! {
        <main class="screen" data-screen="install">
            <Head title=words::INSTALL.to_owned() shell back=(Screen::Phone, words::BACK_TO_PHONE) />
            {live(body)}
            <div class="foot">
                <button class="quiet" type="button" data-key="go-back" on:click=shell.sends(Action::Go(Screen::Today))>
                    {words::BACK_TO_TODAY}
                </button>
            </div>
        </main>
    }
}

fn name(os: PhoneOs) -> &'static str {
    match os {
        PhoneOs::Ios => words::IOS,
        PhoneOs::Android => words::ANDROID,
        PhoneOs::Other => words::OTHER,
    }
}

fn steps(os: PhoneOs) -> impl IntoView {
    let (texts, first) = match os {
        PhoneOs::Ios => (words::IOS_STEPS, InstallStep::Sheet),
        PhoneOs::Android => (words::ANDROID_STEPS, InstallStep::Menu),
        PhoneOs::Other => (words::OTHER_STEPS, InstallStep::Menu),
    };
    let pictures = [first, InstallStep::Row, InstallStep::Home];
    let steps: Vec<_> = texts
        .into_iter()
        .zip(pictures)
        .map(|(text, step)| view! { <li>{phone(step)}<span>{text}</span></li> })
        .collect();
    view! { <ol class="steps">{steps}</ol> }
}
