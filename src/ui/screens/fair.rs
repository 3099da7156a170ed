//! Fair practice: who is short in a sentence, then everyone with two bars against an even share, last time and over the season.

use leptos::prelude::*;

use super::parts::{Empty, Head};
use super::pictures::court;
use crate::app::screen::Screen;
use crate::app::view::fair::{FairRow, FairView, ShareLine};
use crate::app::view::today::Picture;
use crate::app::words::{fair as words, screens};
use crate::ui::markup::{live, view};
use crate::ui::part::Part;
use crate::ui::shell::Shell;

const BACK: (Screen, &str) = (Screen::After, screens::BACK_TO_AFTER);

#[component]
pub fn FairPractice(view: Part<FairView>, shell: Shell) -> impl IntoView {
    view! {
        <main class="screen" data-screen="fair">
            <Head title=words::TITLE.to_owned() shell back=BACK />
            {live(move || view.with(|v| if v.empty { empty() } else { page(v) }))}
        </main>
    }
}

fn empty() -> AnyView {
    view! { <Empty heading=words::EMPTY line=words::EMPTY_LINE picture=|| court(Picture::Group) /> }
}

fn page(view: &FairView) -> AnyView {
    let first: Vec<_> = view.first.iter().map(|line| view! { <p dir="auto">{line.clone()}</p> }).collect();
    let rows: Vec<_> = view.rows.iter().enumerate().map(|(i, row)| child(i, row)).collect();
    let how: Vec<_> = words::HOW_LINES.iter().map(|line| view! { <p class="hint">{*line}</p> }).collect();
    view! {
        <section class="card fair-first" data-fig="fair-first">{first}</section>
        <p class="hint" data-fig="spans">{view.spans.clone()}</p>
        <p class="hint">{words::SCALE}</p>
        <ul class="rows card">{rows}</ul>
        <details class="card">
            <summary data-key="how">{words::HOW}</summary>
            {how}
        </details>
    }
}

fn child(i: usize, row: &FairRow) -> AnyView {
    let roles: Vec<_> = row
        .roles
        .iter()
        .map(|(span, lines)| {
            let lines: Vec<_> = lines.iter().map(|line| view! { <li>{line.clone()}</li> }).collect();
            view! {
                <p class="fair-span">{*span}</p>
                <ul class="fair-roles">{lines}</ul>
            }
        })
        .collect();
    view! {
        <li class="fair-child">
            <bdi class="row-name">{row.name.clone()}</bdi>
            {share(format!("last.{i}"), words::LAST, &row.last)}
            {share(format!("season.{i}"), words::SEASON, &row.season)}
            {(!roles.is_empty())
                .then(|| {
                    view! {
                        <details class="fair-more">
                            <summary data-key=format!("roles.{i}")>{words::BY_ROLE}</summary>
                            {roles}
                        </details>
                    }
                })}
        </li>
    }
}

fn share(fig: String, span: &'static str, line: &ShareLine) -> AnyView {
    let bar = line.percent.map(|percent| {
        view! {
            <span class="fair-bar" aria-hidden="true">
                <i style:width=format!("{percent}%")></i>
            </span>
        }
    });
    view! {
        <p class="fair-line">
            <span class="fair-span">{span}</span>
            <span data-fig=fig>{line.words.clone()}</span>
        </p>
        {bar}
    }
}
