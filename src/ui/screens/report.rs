//! What run and practice reports share: bars with a tick, efforts. Words first, the bar beside them.

use leptos::prelude::*;

use crate::app::view::report::{Bar, EffortLine, ReportRow, ReportSection, TouchesView};
use crate::app::words::groups as group_words;
use crate::app::words::screens as words;
use crate::ui::markup::view;

/// A table of bars.
pub fn section(section: &ReportSection) -> impl IntoView + use<> {
    let rows: Vec<_> = section.rows.iter().map(row).collect();
    view! {
        <section class="card">
            <h2 class="section-head">{section.heading.clone()}</h2>
            <ul class="report-rows">{rows}</ul>
            {section.order.clone().map(|order| view! { <p class="order-line" data-fig="order">{order}</p> })}
        </section>
    }
}

fn row(row: &ReportRow) -> impl IntoView + use<> {
    view! {
        <li class="report-row">
            <bdi class="report-name">{row.name.clone()}</bdi>
            <span class="report-count">{row.count.clone()}</span>
            {row.bar.map(bar)}
            <span class="report-share">{row.share.clone()}</span>
            {row.row.clone().map(|best| view! { <span class="report-best">{best}</span> })}
            {row.more.clone().map(|more| view! { <span class="report-more">{more}</span> })}
        </li>
    }
}

/// The range as a band from 0 to 10 in 10, the count itself as a tick. Decoration: the words beside say the same.
pub fn bar(bar: Bar) -> impl IntoView {
    let Bar { low, tick, high } = bar;
    view! {
        <span class="range-line" aria-hidden="true">
            "0"
            <span class="range">
                <span
                    class="range-band"
                    style:left=format!("{low}%")
                    style:right=format!("calc(100% - {high}%)")
                ></span>
                <span class="range-tick" style:left=format!("{tick}%")></span>
            </span>
            "10"
        </span>
    }
}

/// Who touched a ball how often, in the order of the squad.
pub fn touches(view: Option<&TouchesView>) -> Option<AnyView> {
    let view = view?;
    let rows: Vec<_> = view
        .rows
        .iter()
        .map(|row| {
            view! {
                <li class="effort">
                    <bdi class="report-name">{row.name.clone()}</bdi>
                    <span>{row.what.clone()}</span>
                </li>
            }
        })
        .collect();
    Some(view! {
        <section class="card" data-fig="touches">
            <h2 class="section-head">{group_words::TOUCHES}</h2>
            <p class="hint">{group_words::TOUCHES_LINE}</p>
            <ul class="report-rows">{rows}</ul>
            {view
                .fewest
                .clone()
                .map(|line| {
                    view! {
                        <h3 class="ask">{group_words::FEWEST}</h3>
                        <p class="order-line" data-fig="fewest">
                            {line}
                        </p>
                    }
                })}
        </section>
    })
}

/// Who was seen to run for it; nothing where nobody was noted.
pub fn efforts(efforts: &[EffortLine]) -> Option<impl IntoView + use<>> {
    let rows: Vec<_> = efforts
        .iter()
        .map(|line| {
            view! {
                <li class="effort">
                    <bdi class="report-name">{line.name.clone()}</bdi>
                    <span>{line.what.clone()}</span>
                </li>
            }
        })
        .collect();
    (!rows.is_empty()).then(|| {
        view! {
            <section class="card">
                <h2 class="section-head">{words::EFFORTS}</h2>
                <ul class="report-rows">{rows}</ul>
            </section>
        }
    })
}
