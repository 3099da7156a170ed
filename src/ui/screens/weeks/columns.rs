//! Columns side by side with their numbers, and the same as a table behind a tap.

use leptos::prelude::*;

use super::table;
use crate::app::view::weeks::chart::{Column, Columns};
use crate::ui::markup::view;

/// `what` opens the table, `head` is what its numbers are.
pub fn columns(columns: &Columns, key: &'static str, what: &'static str, head: &'static str) -> AnyView {
    view! {
        {picture(columns)}
        <details>
            <summary data-key=key>{what}</summary>
            {columns_table(columns, head)}
        </details>
    }
}

pub fn picture(columns: &Columns) -> AnyView {
    let all: Vec<_> = columns.columns.iter().map(column).collect();
    view! {
        <figure class="columns">
            <svg viewBox="0 -20 320 93" role="img" aria-label=columns.label.clone()>
                {all}
                <path class="chart-grid" d="M0 72H320" />
            </svg>
            <figcaption class="chart-ends">
                <span>{columns.first.clone()}</span>
                <span>{columns.last.clone()}</span>
            </figcaption>
        </figure>
    }
}

pub fn columns_table(columns: &Columns, head: &'static str) -> AnyView {
    table(&[head], columns.rows.iter().map(|(of, n)| (of.clone(), vec![n.clone()])).collect())
}

fn column(column: &Column) -> AnyView {
    let at = |y: &String, high: &String, class: &'static str| {
        view! { <rect class=class x=column.x.clone() y=y.clone() width=column.wide.clone() height=high.clone() rx="3" /> }
    };
    view! {
        <g>
            {at(&column.y, &column.high, "column")}
            {at(&column.part_y, &column.part, "column-part")}
            <text class="column-n" x=column.n_x.clone() y=column.n_y.clone()>{column.n.clone()}</text>
        </g>
    }
}
