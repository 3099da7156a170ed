//! Told counts: every name with a row of keys, 0 to so many. The only board that scrolls, so its keys answer as the thumb leaves.

use leptos::prelude::*;

use super::length;
use crate::app::action::Action;
use crate::app::view::board::{BoardView, Keys, ToldRow};
use crate::app::words::board as words;
use crate::domain::ids::PlayerId;
use crate::ui::markup::view;
use crate::ui::shell::Shell;
use crate::ui::watched::Watched;
use crate::ui::widgets::{Answer, Key};

#[component]
pub fn Told(view: Watched<BoardView>, of: u8, shell: Shell) -> impl IntoView {
    let who = view.part(|v| rows_of(v).iter().map(|r| (r.player, r.name.clone())).collect::<Vec<_>>());
    let series = view.part(|v| match &v.keys {
        Keys::Told { series, .. } => series.clone(),
        _ => String::new(),
    });
    let complete = view.part(|v| matches!(v.keys, Keys::Told { complete: true, .. }));
    let next_class = Signal::derive(move || if complete.get() { "told-next is-ready" } else { "told-next" }.to_owned());
    let next = move || {
        shell.send(Action::ToldSeriesDone);
        // The first child comes first again. The rows are drawn anew by the time the frame is.
        request_animation_frame(|| {
            if let Ok(Some(rows)) = document().query_selector(".told") {
                rows.set_scroll_top(0);
            }
        });
    };
    view! {
        <div class="told">
            <p class="told-series" data-fig="series">
                {move || series.get()}
            </p>
            {move || {
                who.get()
                    .into_iter()
                    .enumerate()
                    .map(|(row, (player, name))| told_row(view, row, player, name, of, shell))
                    .collect::<Vec<_>>()
            }}
            <Key
                key="next-series"
                class=next_class
                answer=Answer::Up
                press=next
            >
                {words::NEXT_SERIES}
            </Key>
        </div>
    }
}

fn told_row(
    view: Watched<BoardView>,
    row: usize,
    player: PlayerId,
    name: String,
    of: u8,
    shell: Shell,
) -> impl IntoView {
    let told = view.part(move |v| rows_of(v).get(row).and_then(|r| r.told));
    let keys: Vec<_> = (0..=of)
        .map(|n| {
            let label = words::told(&name, n, of);
            view! {
                <Key
                    key=format!("told.{row}.{n}")
                    class="told-key"
                    answer=Answer::Up
                    label=label
                    chosen=Signal::derive(move || told.get() == Some(n))
                    press=shell.press(Action::ToldTapped(player, n))
                >
                    {n}
                </Key>
            }
        })
        .collect();
    view! {
        <section class="told-row" class:is-told=move || told.get().is_some()>
            <h2 dir="auto" class=length(&name)>
                <bdi>{name.clone()}</bdi>
            </h2>
            {keys}
        </section>
    }
}

fn rows_of(view: &BoardView) -> &[ToldRow] {
    match &view.keys {
        Keys::Told { rows, .. } => rows,
        _ => &[],
    }
}
