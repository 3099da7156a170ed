//! Afterwards: planned against done, two bars a part; what each child had. Who was seen least stands behind a tap: the children are still
//! there when practice has ended.

use leptos::prelude::*;

use super::super::pictures::{Glyph, glyph};
use crate::app::action::Action;
use crate::app::screen::Screen;
use crate::app::view::plan::AfterPlan;
use crate::app::words::plan as words;
use crate::ui::markup::view;
use crate::ui::shell::Shell;

/// A child's row leads to its note home.
pub fn after(plan: Option<&AfterPlan>, shell: Shell) -> Option<AnyView> {
    let plan = plan?;
    let parts: Vec<_> = plan
        .parts
        .iter()
        .enumerate()
        .map(|(i, part)| {
            let (planned, done) = (part.planned, part.done);
            view! {
                <li class="after-part">
                    <bdi class="row-name">{part.title.clone()}</bdi>
                    <span class="row-line" data-fig=format!("done.{i}")>{part.what.clone()}</span>
                    <span class="plan-bar" aria-hidden="true"><i class="is-planned" style:width=format!("{planned}%")></i></span>
                    <span class="plan-bar" aria-hidden="true"><i class="is-gone" style:width=format!("{done}%")></i></span>
                </li>
            }
        })
        .collect();
    let children: Vec<_> = plan
        .children
        .iter()
        .enumerate()
        .map(|(i, child)| {
            let to = Action::Go(Screen::Home(child.player));
            view! {
                <li>
                    <button class="row-key" type="button" data-key=format!("home.{i}") on:click=shell.sends(to)>
                        <span class="row-words">
                            <bdi class="row-name">{child.name.clone()}</bdi>
                            <span class="row-line">{child.what.clone()}</span>
                        </span>
                        {glyph(Glyph::Onward)}
                    </button>
                </li>
            }
        })
        .collect();
    Some(view! {
        <section data-fig="after-plan">
            <h2 class="section-head">{words::IN_PLAN}</h2>
            <ul class="rows card after-plan">{parts}</ul>
        </section>
        {(!children.is_empty())
            .then(|| {
                view! {
                    <section>
                        <h2 class="section-head">{words::CHILDREN}</h2>
                        <p class="hint">{words::CHILDREN_LINE} " " {words::CHILDREN_HOME}</p>
                        <ul class="rows card" data-fig="each-child">{children}</ul>
                        {plan
                            .least
                            .clone()
                            .map(|line| {
                                view! {
                                    <details class="card">
                                        <summary data-key="least-open">{words::WHO_LEAST}</summary>
                                        <p data-fig="least">{line}</p>
                                    </details>
                                }
                            })}
                    </section>
                }
            })}
    })
}
