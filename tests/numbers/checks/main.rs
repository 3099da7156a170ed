//! The pure numbers of judgement against published values, the source beside each; and by simulation, seeded. Rates, rows and pace as they
//! are told on the board stand in `tests/stats.rs`.

mod agreements;
mod calibration;
mod chance;
mod charts;
mod corrected;
mod days;
mod fits;
mod fits_more;
mod goals;
mod hard;
mod levels;
mod rated;
mod rates;
mod steps;

use numbers::stats::proportion::Count;

/// Fails with what was checked when two values differ by more than half a unit of the last printed digit.
fn near(what: &str, got: f64, printed: f64, digits: i32) {
    let off = (got - printed).abs();
    assert!(off <= 0.5 * 10f64.powi(-digits) + 1e-15, "{what}: got {got}, printed {printed}");
}

/// Fails where two values differ by more than so much of the second.
fn close(what: &str, got: f64, exact: f64, relative: f64) {
    assert!((got - exact).abs() <= relative * exact.abs(), "{what}: got {got:e}, exact {exact:e}");
}

fn count(good: u32, tries: u32) -> Count {
    Count::new(good, tries).unwrap()
}
