//! The library of drills: what is looked for over a list of cards, each with its floor. One tap and a drill's page is there.

use leptos::prelude::*;

use super::parts::{Fold, Head, WayTo, read_again};
use crate::app::action::Action;
use crate::app::library::LibraryTap;
use crate::app::screen::Screen;
use crate::app::view::library::{LibraryCard, LibraryView, Pick, SeekView, ShelfView};
use crate::app::words::library as words;
use crate::app::words::screens::BACK_TO_TODAY;
use crate::ui::markup::{Show, view};
use crate::ui::part::Part;
use crate::ui::shell::Shell;
use crate::ui::widgets::{clicked, small_floor};

/// How the file of the library stands.
#[derive(Clone, Copy, PartialEq)]
enum State {
    Reading,
    Failed(&'static str),
    Read,
}

#[component]
pub fn Library(view: Part<LibraryView>, shell: Shell) -> impl IntoView {
    let state = Part::new(move || {
        view.with(|v| match v {
            LibraryView::Reading => State::Reading,
            LibraryView::Failed(why) => State::Failed(why),
            LibraryView::Read { .. } => State::Read,
        })
    });
    let seek = Part::new(move || {
        view.with(|v| match v {
            LibraryView::Read { seek, .. } => seek.clone(),
            _ => SeekView::default(),
        })
    });
    let shelves = Part::new(move || {
        view.with(|v| match v {
            LibraryView::Read { shelves, .. } => shelves.clone(),
            _ => Vec::new(),
        })
    });
    let title = Signal::derive(|| words::LIBRARY.to_owned());
    view! {
        <main class="screen" data-screen="library">
            <Head title shell back=(Screen::Today, BACK_TO_TODAY) />
            {lists(Screen::Library, shell)}
            {move || match state.get() {
                State::Reading => view! { <p class="loading" role="status">{words::READING}</p> },
                State::Failed(why) => {
                    view! {
                        <p class="lead" role="alert">{why}</p>
                        {read_again(shell)}
                        <WayTo key="my-drills" label=words::MINE to=Screen::MyDrills shell />
                    }
                }
                State::Read => {
                    view! {
                        <Seek seek shell />
                        {move || shelves.with(|s| s.iter().map(|shelf| shelf_of(shelf, shell)).collect::<Vec<_>>())}
                        <Show when=move || shelves.with(Vec::is_empty)>{nothing(words::NOTHING, shell)}</Show>
                    }
                }
            }}
        </main>
    }
}

/// The library, or the coach's own: two lists of one place.
pub fn lists(at: Screen, shell: Shell) -> AnyView {
    let both = [(Screen::Library, "list.library", words::LIBRARY_SHORT), (Screen::MyDrills, "list.mine", words::MINE)];
    let key = |(to, key, label): (Screen, &'static str, &'static str)| {
        view! {
            <button
                class="which-key"
                type="button"
                data-key=key
                aria-current=(to == at).then_some("page")
                on:click=shell.sends(Action::Go(to))
            >
                {label}
            </button>
        }
    };
    view! { <nav class="which" aria-label=words::LISTS>{both.map(key)}</nav> }
}

/// A field, what a drill is for, and what the coach has, folded away until it is wanted.
#[component]
pub fn Seek(seek: Part<SeekView>, shell: Shell) -> impl IntoView {
    let text = Part::new(move || seek.with(|s| s.text.clone()));
    let count = Part::new(move || seek.with(|s| s.count.clone()));
    let have = Part::new(move || seek.with(|s| s.have.clone()));
    let narrowed = Part::new(move || seek.with(|s| s.narrowed));
    let open = RwSignal::new(false);
    let (n_focus, rows) = seek
        .with_untracked(|s| (s.focus.len(), s.rows.iter().map(|row| (row.label, row.picks.len())).collect::<Vec<_>>()));
    view! {
        <section class="seek" role="search">
            <label class="field">
                <span class="visually-hidden">{words::SEARCH}</span>
                <input
                    class="input seek-input"
                    data-field="search"
                    type="search"
                    dir="auto"
                    autocomplete="off"
                    placeholder=format!("{}: {}", words::SEARCH, words::SEARCH_HINT)
                    prop:value=move || text.get()
                    on:input:target=move |ev| {
                        shell.send(Action::Library(LibraryTap::Typed(ev.target().value())));
                    }
                />
            </label>
            <div class="picks picks-focus" role="group" aria-label=words::FOR_WHAT>
                {(0..n_focus).map(|i| pick(seek, None, i, shell)).collect::<Vec<_>>()}
            </div>
            <div class="seek-found">
                <p role="status" data-fig="found">
                    {move || count.get()}
                </p>
                <Fold key="seek-more" label=words::WHAT_YOU_HAVE open on_tap=move || open.update(|on| *on = !*on) />
            </div>
            <Show when=move || open.get()>
                {rows
                    .iter()
                    .enumerate()
                    .map(|(row, &(label, n))| {
                        view! {
                            <div class="pick-row" role="group" aria-label=label>
                                <span class="pick-label">{label}</span>
                                <div class="picks">
                                    {(0..n).map(|i| pick(seek, Some(row), i, shell)).collect::<Vec<_>>()}
                                </div>
                            </div>
                        }
                    })
                    .collect::<Vec<_>>()}
            </Show>
            <Show when=move || narrowed.get()>
                <div class="seek-found">
                    <p class="seek-have" data-fig="have">
                        {move || have.get()}
                    </p>
                    {show_all(shell)}
                </div>
            </Show>
        </section>
    }
}

/// Nothing is found: why, and the way out.
pub fn nothing(heading: &'static str, shell: Shell) -> AnyView {
    view! {
        <section class="empty">
            <h2 class="empty-heading">{heading}</h2>
            <p>{words::NOTHING_LINE}</p>
            <button
                class="quiet"
                type="button"
                data-key="nothing-clear"
                on:click=shell.sends(Action::Library(LibraryTap::Cleared))
            >
                {words::SHOW_ALL}
            </button>
        </section>
    }
}

fn show_all(shell: Shell) -> AnyView {
    view! {
        <button
            class="small-key"
            type="button"
            data-key="seek-clear"
            on:click=shell.sends(Action::Library(LibraryTap::Cleared))
        >
            {words::SHOW_ALL}
        </button>
    }
}

/// An answer that stays where it is while what is looked for changes.
fn pick(seek: Part<SeekView>, row: Option<usize>, i: usize, shell: Shell) -> Option<AnyView> {
    let at = move |seek: &SeekView| -> Option<Pick> {
        let picks = match row {
            None => Some(&seek.focus),
            Some(row) => seek.rows.get(row).map(|row| &row.picks),
        };
        picks?.get(i).cloned()
    };
    let first = seek.with_untracked(at)?;
    let now = Part::new(move || seek.with(at));
    Some(view! {
        <button
            class="pick"
            type="button"
            data-key=first.key
            aria-pressed=move || now.with(|pick| pick.as_ref().is_some_and(|pick| pick.on)).to_string()
            on:click=clicked(move |_| {
                if let Some(pick) = now.get_untracked() {
                    shell.send(Action::Library(LibraryTap::Have(pick.next)));
                }
            })
        >
            {first.label}
        </button>
    })
}

fn shelf_of(shelf: &ShelfView, shell: Shell) -> AnyView {
    view! {
        <section class="shelf">
            <h2 class="shelf-head">{shelf.title}</h2>
            <ul class="shelf-cards">{shelf.cards.iter().map(|card| card_of(card, shell)).collect::<Vec<_>>()}</ul>
        </section>
    }
}

fn card_of(card: &LibraryCard, shell: Shell) -> AnyView {
    let no = card.no;
    view! {
        <li>
            <button
                class="lib-card"
                type="button"
                data-key=format!("library.{}", no.0)
                on:click=shell.sends(Action::Go(Screen::LibraryDrill(no)))
            >
                {small_floor(&card.drawing)}
                <span class="lib-words">
                    <span class="lib-name">{card.name.clone()}</span>
                    <span class="lib-facts">{card.facts.clone()}</span>
                </span>
                <span class="lib-purpose">{card.purpose.clone()}</span>
                {card.mine.then(|| view! { <span class="badge">{words::IN_MINE}</span> })}
            </button>
        </li>
    }
}
