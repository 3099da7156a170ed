//! Where a child's serves went: the path of its months, then month by month, by style and by distance.

use leptos::prelude::*;

use super::{split, splits, what};
use crate::app::view::weeks::serves::{PathView, ServesView, Stop};
use crate::app::words::weeks as words;
use crate::app::words::weeks::serves as serve_words;
use crate::ui::markup::view;

pub fn serves(serves: &ServesView) -> AnyView {
    let months: Vec<_> = serves.months.iter().map(|(no, month)| split(*no, month)).collect();
    view! {
        <section class="weeks-kind card" data-fig="serves">
            <h2 class="section-head">{words::SERVES}</h2>
            <p class="hint">{words::SERVES_LINE}</p>
            {serves.path.as_ref().map(path)}
            <p class="hint">{serve_words::ORDER}</p>
            <ul class="splits">{months}</ul>
            <details>
                <summary data-key="by-style">{serve_words::BY_STYLE}</summary>
                {splits(&serves.styles)}
            </details>
            <details>
                <summary data-key="by-distance">{serve_words::BY_DISTANCE}</summary>
                {splits(&serves.distances)}
            </details>
            {what("what.serves".to_owned(), &serve_words::WHAT_LINES)}
        </section>
    }
}

fn path(path: &PathView) -> AnyView {
    let reaches: Vec<_> =
        path.stops.iter().map(|stop| view! { <path class="path-reach" d=stop.reach.clone() /> }).collect();
    let stops: Vec<_> = path.stops.iter().map(stop).collect();
    view! {
        <figure class="path">
            <span class="path-up" aria-hidden="true">"↑ "{serve_words::UP}</span>
            <svg viewBox="-14 -14 348 178" role="img" aria-label=path.label.clone()>
                <path class="chart-grid" d="M-14 150H334M-14 0H334" />
                <path class="chart-half" d="M-14 75H334" />
                {reaches}
                <path class="path-line" d=path.line.clone() />
                {stops}
            </svg>
            <span class="path-right" aria-hidden="true">{serve_words::RIGHT}" →"</span>
        </figure>
    }
}

fn stop(stop: &Stop) -> AnyView {
    view! {
        <g class="path-stop" class:is-latest=stop.latest>
            <circle cx=stop.x.clone() cy=stop.y.clone() r="12" />
            <text x=stop.x.clone() y=stop.y.clone() dy="5">{stop.no.clone()}</text>
        </g>
    }
}
