//! What the coach wishes of groups, folded away until asked for: a row each, and the names of one that is being put together.

use std::cell::Cell;

use leptos::prelude::*;

use super::{segment, tap, trouble_of};
use crate::app::groups::{GroupsTap, WishKind};
use crate::app::view::groups::{GroupsView, Picking};
use crate::app::words::groups as words;
use crate::ui::markup::{Show, live, view};
use crate::ui::part::{Part, watch};
use crate::ui::screens::parts::Fold;
use crate::ui::screens::pictures::{Glyph, glyph};
use crate::ui::shell::Shell;

/// For the coach alone: folded away until asked for.
#[component]
pub(super) fn Wishes(view: Part<GroupsView>, shell: Shell) -> impl IntoView {
    let open = RwSignal::new(false);
    let n = Part::new(move || view.with(|v| v.wishes.len().to_string()));
    let rows = move || {
        view.with(|v| {
            v.wishes
                .iter()
                .enumerate()
                .map(|(i, wish)| {
                    view! {
                        <li class="wish">
                            <span class="wish-line" dir="auto">{wish.line.clone()}</span>
                            <button
                                class="wish-drop"
                                type="button"
                                data-key=format!("wish-drop.{i}")
                                aria-label=format!("{}: {}", words::DROP, wish.line)
                                on:click=shell.sends(tap(GroupsTap::WishDropped(wish.no)))
                            >
                                {glyph(Glyph::Cross)}
                            </button>
                        </li>
                    }
                })
                .collect::<Vec<_>>()
        })
    };
    let trouble = Part::new(move || view.with(|v| v.trouble.clone().filter(|_| v.of_wishes)));
    let stops = Part::new(move || trouble.with(Option::is_some));
    let asked = Part::new(move || view.with(|v| v.n_asked));
    let was = Cell::new(asked.get_untracked());
    watch(move || {
        let n = asked.get();
        if was.replace(n) != n && stops.get_untracked() {
            request_animation_frame(show);
        }
    });
    let picking = Part::new(move || view.with(|v| v.picking.clone()));
    let is_picking = Part::new(move || picking.with(Option::is_some));
    let is_tag = Part::new(move || picking.with(|p| p.as_ref().is_some_and(|p| p.kind == WishKind::Tag)));
    let tag = Part::new(move || view.with(|v| v.tag.clone()));
    let kinds = [
        (WishKind::Together, "wish.together", words::TOGETHER),
        (WishKind::Apart, "wish.apart", words::APART),
        (WishKind::Tag, "wish.tag", words::TAG),
    ];
    // What opens would lie under the key that is pinned: it comes into view, from its heading on.
    let mut was = (false, false);
    watch(move || {
        let is = (open.get(), is_picking.get());
        let opened = is.0 && !was.0 || is.1 && !was.1;
        was = is;
        if opened {
            // Drawn by the time the frame is.
            request_animation_frame(show);
        }
    });
    view! {
            <section class="wishes">
                <Fold
                    key="wishes"
                    label=words::WISHES
                    open
                    on_tap=move || open.update(|open| *open = !*open)
                    count=("wishes", n.into())
                />
                <Show when=move || stops.get() && !open.get()>
                    <p class="hint" role="status" data-fig="wishes-stop">{words::WISHES_STOP}</p>
                </Show>
                <Show when=move || open.get()>
                    {move || trouble.get().map(|trouble| trouble_of(trouble, shell))}
                    <p class="hint">{words::WISHES_LINE}</p>
    <p class="hint">{words::EVEN_LINE}</p>
                    <ul class="wish-list">{live(rows)}</ul>
                    <div class="segments">
                        {kinds
                            .map(|(kind, key, label)| {
                                let on = Part::new(move || picking.with(|p| p.as_ref().is_some_and(|p| p.kind == kind)));
                                segment(key, label, on, tap(GroupsTap::WishOpened(Some(kind))), shell)
                            })
                            .into_iter()
                            .collect::<Vec<_>>()}
                    </div>
                    <Show when=move || is_tag.get()>
                        <label class="field">
                            <span class="field-label">{words::TAG_WORD}</span>
                            <input
                                class="input"
                                data-field="wish-tag"
                                type="text"
                                dir="auto"
                                autocomplete="off"
                                placeholder=words::TAG_HINT
                                prop:value=move || tag.get()
                                on:input:target=move |ev| shell.send(tap(GroupsTap::TagTyped(ev.target().value())))
                            />
                        </label>
                    </Show>
                    {move || picking.with(|p| p.as_ref().map(|p| names(p, shell)))}
                    <Show when=move || is_picking.get()>
                        <div class="keys-two">
                            <button class="quiet" type="button" data-key="wish-leave" on:click=shell.sends(tap(GroupsTap::WishOpened(None)))>
                                {words::CLOSE_WISH}
                            </button>
                            <button
                                class="big"
                                type="button"
                                data-key="wish-keep"
                                prop:disabled=move || picking.with(|p| p.as_ref().is_none_or(|p| !p.can_keep))
                                on:click=shell.sends(tap(GroupsTap::WishKept))
                            >
                                {words::KEEP_WISH}
                            </button>
                        </div>
                    </Show>
                </Show>
            </section>
        }
}

/// What opened, or why new groups can't be made: the key that asked lies at the foot of the page.
fn show() {
    match document().query_selector(".wishes") {
        Ok(wishes) => wishes.iter().for_each(|wishes| wishes.scroll_into_view()),
        Err(why) => leptos::logging::warn!("the wishes stay where they are: {why:?}"),
    }
}

fn names(picking: &Picking, shell: Shell) -> AnyView {
    let names: Vec<_> = picking
        .names
        .iter()
        .enumerate()
        .map(|(i, (player, name, chosen))| {
            view! {
                <li>
                    <button
                        class="team-name"
                        type="button"
                        data-key=format!("wish-name.{i}")
                        aria-pressed=chosen.to_string()
                        on:click=shell.sends(tap(GroupsTap::Name(*player)))
                    >
                        <bdi>{name.clone()}</bdi>
                    </button>
                </li>
            }
        })
        .collect();
    view! {
        <p class="ask">{picking.line}</p>
        <ul class="team-names">{names}</ul>
    }
}
