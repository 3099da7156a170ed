//! A level over weeks, read at a glance: the band it lies in, its middle, and each day's own count as a dot.

use leptos::prelude::*;

use crate::app::view::weeks::Chart;
use crate::ui::markup::view;

pub fn chart(chart: &Chart) -> AnyView {
    let dots: Vec<_> = chart
        .dots
        .iter()
        .map(|(x, y, r)| view! { <circle class="weeks-dot" cx=x.clone() cy=y.clone() r=r.clone() /> })
        .collect();
    view! {
        <figure class="weeks-chart">
            <svg viewBox="-3 -3 106 46" role="img" aria-label=chart.label.clone()>
                <path class="weeks-grid" d="M0 0H100M0 20H100M0 40H100" />
                <path class="weeks-band" d=chart.band.clone() />
                <path class="weeks-line" d=chart.line.clone() />
                {dots}
            </svg>
            <figcaption class="weeks-days">
                <span>{chart.first.clone()}</span>
                <span>{chart.last.clone()}</span>
            </figcaption>
        </figure>
    }
}
