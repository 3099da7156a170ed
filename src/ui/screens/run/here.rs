//! Who is here, over the head: a tap on a name as a child comes or goes, and the key that fits groups and roles to them. The run goes
//! on underneath. Undo takes back each tap on a name and the refit; how many balls there are is a setting, and no part of the run.

use leptos::prelude::*;

use super::length;
use super::strip::Choice;
use crate::app::action::Action;
use crate::app::groups::GroupsTap;
use crate::app::screen::Screen;
use crate::app::view::board::BoardView;
use crate::app::view::board::here::here;
use crate::app::words::{board as words, groups as group_words, screens};
use crate::domain::ids::{PlayerId, RunId};
use crate::ui::markup::{live, view};
use crate::ui::part::Part;
use crate::ui::shell::Shell;
use crate::ui::watched::Watched;
use crate::ui::widgets::{Answer, Icon, Key, Shape};

#[component]
pub fn Here(view: Watched<BoardView>, run: RunId, choosing: RwSignal<Option<Choice>>, shell: Shell) -> impl IntoView {
    let here = shell.view(move |m| here(m, run));
    let title = move || here.with(|h| h.as_ref().map_or_else(|| words::HERE_LABEL.to_owned(), |h| h.title.clone()));
    // In the order of the moment it was opened: a tap moves no name.
    let children: Vec<_> =
        here.with_untracked(|h| h.iter().flat_map(|h| &h.names).map(|n| (n.player, n.name.clone())).collect());
    let names = move || {
        let name = |(i, (player, name)): (usize, (PlayerId, String))| {
            let chosen = Signal::derive(move || {
                here.with(|h| h.iter().flat_map(|h| &h.names).any(|n| n.player == player && n.current))
            });
            view! {
                <Key
                    key=format!("here.{i}")
                    class="run-chip"
                    answer=Answer::Up
                    chosen
                    press=shell.press(Action::PresenceTapped(player))
                >
                    <bdi class=length(&name)>{name.clone()}</bdi>
                </Key>
            }
        };
        children.clone().into_iter().enumerate().map(name).collect::<Vec<_>>()
    };
    let has_groups = view.part(|v| v.has_groups);
    let closed = Part::new(move || here.with(|h| h.as_ref().and_then(|h| h.closed)));
    view! {
        <section class="strip">
            <div class="strip-head">
                <div class="strip-title">
                    <h2 dir="auto">{title}</h2>
                    <p>{move || closed.get().is_none().then_some(words::HERE_TAP)}</p>
                </div>
                <span class="strip-keys">
                    {move || {
                        has_groups
                            .get()
                            .then(|| {
                                view! {
                                    <Key key="groups" class="small-key" press=shell.press(Action::Go(Screen::Groups))>
                                        <span>{group_words::TITLE}</span>
                                    </Key>
                                }
                            })
                    }} <Key key="choice-close" class="small-key" press=move || choosing.set(None)>
                        <Icon shape=Shape::Close />
                        <span>{words::CLOSE}</span>
                    </Key>
                </span>
            </div>
            <div class="strip-chips is-names" role="group" aria-label=words::HERE_LABEL>
                {live(names)}
            </div>
            {move || closed.get().map(|why| view! { <p class="strip-line" data-fig="here-closed">{why}</p> })}
            <Refit here shell />
        </section>
    }
}

/// How many balls there are, where groups go by them; and the refit with what it would do.
#[component]
fn Refit(here: Part<Option<crate::app::view::board::here::HereView>>, shell: Shell) -> impl IntoView {
    let balls = Part::new(move || here.with(|h| h.as_ref().and_then(|h| h.balls.clone())));
    let refit = Part::new(move || here.with(|h| h.as_ref().and_then(|h| h.refit.clone())));
    let has_balls = Part::new(move || balls.with(Option::is_some));
    let has_refit = Part::new(move || refit.with(Option::is_some));
    let step = move |key: &'static str, more: bool, shape: Shape| {
        let off = Part::new(move || balls.with(|b| b.as_ref().is_none_or(|b| if more { b.most } else { b.least })));
        let label = format!("{}: {}", words::BALLS, if more { screens::MORE } else { screens::LESS });
        view! {
            <Key key class="small-key" off label press=shell.press(Action::Groups(GroupsTap::BallsStepped(more)))>
                <Icon shape />
            </Key>
        }
    };
    let stepper = move || {
        has_balls.get().then(|| {
            view! {
                <span class="strip-balls">
                    {step("balls-less", false, Shape::Less)} <b data-fig="balls">
                        {move || balls.with(|b| b.as_ref().map(|b| b.words.clone()).unwrap_or_default())}
                    </b> {step("balls-more", true, Shape::More)}
                </span>
            }
        })
    };
    live(move || {
        has_refit.get().then(|| {
            let off = Part::new(move || refit.with(|r| r.as_ref().is_none_or(|r| !r.changes)));
            view! {
                <div class="strip-refit">
                    {stepper}
                    <Key key="refit" class="small-key is-strong" off press=shell.press(Action::Groups(GroupsTap::Refit))>
                        <span>{group_words::REFIT}</span>
                    </Key> <p role="status" data-fig="refitted">
                        {move || refit.with(|r| r.as_ref().map(|r| r.line.clone()).unwrap_or_default())}
                    </p>
                </div>
            }
        })
    })
}
