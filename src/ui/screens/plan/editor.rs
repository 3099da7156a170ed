//! The part that is open, at the thumb: its minutes first, then what it has, where it stands, and what can be expected of it.

use leptos::prelude::*;

use super::super::parts::{Stepper, Switch};
use super::super::pictures::{Glyph, glyph};
use super::tap;
use crate::app::plan::{PartChange, PlanTap};
use crate::app::view::plan::{Editor, PlanView};
use crate::app::words::plan as words;
use crate::app::words::screens::CLOSE;
use crate::domain::ids::PartNo;
use crate::ui::markup::{Show, view};
use crate::ui::part::{Part, watch};
use crate::ui::shell::Shell;
use crate::ui::widgets::clicked;

#[component]
pub fn PartSheet(view: Part<PlanView>, shell: Shell) -> impl IntoView {
    let of =
        move |f: fn(&Editor) -> String| Part::new(move || view.with(|v| v.editor.as_ref().map(f).unwrap_or_default()));
    let is = move |f: fn(&Editor) -> bool| Part::new(move || view.with(|v| v.editor.as_ref().is_some_and(f)));
    let no = Part::new(move || view.with(|v| v.editor.as_ref().map_or(PartNo(u32::MAX), |e| e.no)));
    let change = move |what: PartChange| shell.send(tap(PlanTap::Changed(no.get_untracked(), what)));
    let title = of(|e| e.title.clone());
    let minutes = of(|e| e.minutes.clone());
    let lines = Part::new(move || view.with(|v| v.editor.as_ref().map(|e| e.lines.clone()).unwrap_or_default()));
    tell_place(Part::new(move || view.with(|v| v.editor.as_ref().map(|e| (e.no, e.place.clone())))), shell);
    let (first, last) = (is(|e| e.first), is(|e| e.last));
    let (has_drill, dropped) = (is(|e| e.has_drill), is(|e| e.dropped));
    type Steps =
        (&'static str, &'static str, fn(&Editor) -> String, fn(&Editor) -> (bool, bool), fn(bool) -> PartChange);
    let steppers: [Steps; 3] = [
        ("part-groups", words::GROUPS, |e| e.groups.clone(), |e| e.groups_ends, PartChange::Groups),
        ("part-balls", words::BALLS, |e| e.balls.clone(), |e| e.balls_ends, PartChange::Balls),
        ("part-feeds", words::FEEDS, |e| e.feeds.clone(), |e| e.feeds_ends, PartChange::Feeds),
    ];
    let mark = move |key: &'static str, label: &'static str, on: Part<bool>, what: PartChange| {
        view! {
            <button
                class="segment"
                type="button"
                data-key=key
                aria-pressed=move || on.get().to_string()
                on:click=clicked(move |_| change(what.clone()))
            >
                {label}
            </button>
        }
    };
    view! {
        <section class="foot is-bar plan-sheet" data-fig="plan-sheet">
            <div class="plan-sheet-head">
                <input
                    class="field"
                    type="text"
                    data-field="part-title"
                    aria-label=words::NAME
                    maxlength="60"
                    prop:value=move || title.get()
                    on:change=move |ev| change(PartChange::Titled(event_target_value(&ev)))
                />
                <button
                    class="plan-close"
                    type="button"
                    data-key="part-close"
                    aria-label=CLOSE
                    on:click=clicked(move |_| shell.send(tap(PlanTap::Picked(no.get_untracked()))))
                >
                    {glyph(Glyph::Cross)}
                </button>
            </div>
            <Stepper
                key="minutes"
                label=words::MINUTES
                figure=minutes
                at_least=is(|e| e.minutes_ends.0)
                at_most=is(|e| e.minutes_ends.1)
                on_step=move |more| change(PartChange::Minutes(more))
            />
            <div class="segments" role="group" aria-label=words::BALANCE>
                {mark("part-ball", words::BALL, is(|e| e.ball), PartChange::Ball)}
                {mark("part-net", words::NET, is(|e| e.net), PartChange::Net)}
                {mark("part-game", words::GAME, is(|e| e.game), PartChange::Game)}
            </div>
            <div class="segments">
                <button
                    class="segment"
                    type="button"
                    data-key="part-up"
                    aria-disabled=move || first.get().to_string()
                    on:click=clicked(move |_| shell.send(tap(PlanTap::Stepped(no.get_untracked(), true))))
                >
                    {words::UP}
                </button>
                <button
                    class="segment"
                    type="button"
                    data-key="part-down"
                    aria-disabled=move || last.get().to_string()
                    on:click=clicked(move |_| shell.send(tap(PlanTap::Stepped(no.get_untracked(), false))))
                >
                    {words::DOWN}
                </button>
                <button
                    class="segment"
                    type="button"
                    data-key="part-out"
                    on:click=clicked(move |_| shell.send(tap(PlanTap::Out(no.get_untracked()))))
                >
                    {words::OUT}
                </button>
            </div>
            <Show when=move || dropped.get()>
                <button class="quiet" type="button" data-key="part-wanted" on:click=clicked(move |_| change(PartChange::Wanted))>
                    {words::WANTED}
                </button>
            </Show>
            {move || {
                lines.with(|lines| {
                    (!lines.is_empty())
                        .then(|| {
                            let lines: Vec<_> = lines.iter().map(|line| view! { <li>{line.clone()}</li> }).collect();
                            view! { <ul class="plan-expect" data-fig="expect">{lines}</ul> }
                        })
                })
            }}
            <Show when=move || has_drill.get()>
                {steppers
                    .map(|(key, label, figure, ends, what)| {
                        view! {
                            <Stepper
                                key
                                label
                                figure=of(figure)
                                at_least=Part::new(move || view.with(|v| v.editor.as_ref().is_some_and(|e| ends(e).0)))
                                at_most=Part::new(move || view.with(|v| v.editor.as_ref().is_some_and(|e| ends(e).1)))
                                on_step=move |more| change(what(more))
                            />
                        }
                    })
                    .into_iter()
                    .collect::<Vec<_>>()}
            </Show>
            <Switch
                key="part-lock"
                label=words::LOCK
                line=words::LOCK_LINE
                on=is(|e| e.locked)
                on_tap=move |_| change(PartChange::Locked)
            />
        </section>
    }
}

/// For those who hear the plan: where a part stands once it was moved. Its keys keep the focus, at the first and the last place too.
fn tell_place(place: Part<Option<(PartNo, String)>>, shell: Shell) {
    let mut before = None::<(PartNo, String)>;
    watch(move || {
        let now = place.get();
        let moved = before.as_ref().zip(now.as_ref()).is_some_and(|(before, now)| before.0 == now.0);
        if let (true, Some((_, line))) = (moved, &now) {
            shell.say(line.clone());
        }
        before = now;
    });
}
