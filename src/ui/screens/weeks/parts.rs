//! What the pages over the weeks share: shares told by how full they are, a table behind a chart, and the key that opens what a figure is.

use leptos::prelude::*;

use crate::app::view::weeks::Split;
use crate::app::words::weeks::days as words;
use crate::ui::markup::view;

/// Shares side by side, the best first and fullest, with their words.
pub fn splits(all: &[Split]) -> AnyView {
    let list: Vec<_> = all.iter().map(|one| split(None, one)).collect();
    view! { <ul class="splits">{list}</ul> }
}

/// `no`: the number on a path that it belongs to.
pub fn split(no: Option<u32>, split: &Split) -> AnyView {
    const FULL: [&str; 4] = ["part-3", "part-2", "part-1", "part-0"];
    let parts = FULL.iter().zip(split.parts).filter(|(_, n)| *n > 0);
    let parts: Vec<_> = parts.map(|(class, n)| view! { <i class=*class style:flex-grow=n.to_string()></i> }).collect();
    view! {
        <li class="split">
            <b class="split-title">
                {no.map(|no| view! { <span class="split-no">{no}</span> })}
                {split.title.clone()}
            </b>
            <span class="split-bar" aria-hidden="true">{parts}</span>
            <span class="split-line">{split.line.clone()}</span>
            {split.more.clone().map(|more| view! { <span class="split-line">{more}</span> })}
        </li>
    }
}

/// First what each row is of, then its figures under their heads.
pub fn table(heads: &[&'static str], rows: Vec<(String, Vec<String>)>) -> AnyView {
    let heads: Vec<_> = heads.iter().map(|head| view! { <th scope="col">{*head}</th> }).collect();
    let row = |(of, cells): (String, Vec<String>)| {
        let cells: Vec<_> = cells.into_iter().map(|cell| view! { <td>{cell}</td> }).collect();
        view! {
            <tr>
                <th scope="row">{of}</th>
                {cells}
            </tr>
        }
    };
    let rows: Vec<_> = rows.into_iter().map(row).collect();
    view! {
        <table class="weeks-table">
            <thead>
                <tr>
                    <td></td>
                    {heads}
                </tr>
            </thead>
            <tbody>{rows}</tbody>
        </table>
    }
}

/// What a figure is, from which balls, how sure, by which formula.
pub fn what(key: String, lines: &'static [&'static str]) -> AnyView {
    let lines: Vec<_> = lines.iter().map(|line| view! { <p class="hint">{*line}</p> }).collect();
    view! {
        <details class="weeks-what">
            <summary data-key=key>{words::WHAT}</summary>
            {lines}
        </details>
    }
}
