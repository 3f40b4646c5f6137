//! ΔT against a table of measured and modelled values; see `tests/reference/README.md`.

#![cfg(not(target_arch = "wasm32"))]

mod common;

use chrono::Datelike;
use common::table;
use common::worst::Worst;
use noonwedge::core::time::{EarthTime, Instant, UTC_BEGIN, UTC_END};

/// The README of the tables gives 1.1 s to 4.6 s for its rows; between them, in 1820, it is 4.67 s.
const BEFORE_1900_S: f64 = 5.0;

/// The README of the tables gives -0.7 s to +1.0 s for its rows; between them, in 1906, it is 1.14 s.
const FROM_1900_S: f64 = 1.2;

/// UT1 is taken equal to UTC, which is kept within 0.9 s of it.
const UTC_YEARS_S: f64 = 0.9;

/// The wandering of the Earth's rotation is not known in advance; two models may differ by the
/// standard error that P. J. Huber's formula gives (Q = 0.058 ms²/yr, M = 2500 yr).
fn standard_error_s(years_ahead: f64) -> f64 {
    let variance = years_ahead * 0.058 / 3.0 * (1.0 + years_ahead / 2500.0);
    365.25 * years_ahead * variance.sqrt() / 1000.0
}

#[test]
fn reference_delta_t_by_era() {
    let mut before_1900 = Worst::of("ΔT before 1900", "s");
    let mut from_1900 = Worst::of("ΔT 1900 to 1971", "s");
    let mut utc_years = Worst::of("ΔT 1972 to 2026, which is UTC − UT1", "s");
    let mut future = Worst::of("ΔT after 2026", "s");
    let mut beyond = Worst::of("ΔT after 2026 beyond one standard error and 0.1 s", "s");
    for row in table::open("sun.csv").rows() {
        let instant: Instant = row.value("utc");
        let off = EarthTime::from_instant(instant).delta_t_s() - row.number("delta_t_s");
        let place = || row.place();
        if instant.civil().year() < 1900 {
            before_1900.see(off, place);
        } else if instant < UTC_BEGIN {
            from_1900.see(off, place);
        } else if instant < UTC_END {
            utc_years.see(off, place);
        } else {
            let years_ahead = instant.seconds_since(UTC_END) / (365.25 * 86_400.0);
            future.see(off, place);
            let excess = off.abs() - standard_error_s(years_ahead) - 0.1;
            beyond.see(excess.max(0.0), place);
        }
    }
    before_1900.must_be_below(BEFORE_1900_S);
    from_1900.must_be_below(FROM_1900_S);
    utc_years.must_be_below(UTC_YEARS_S);
    future.print();
    beyond.must_be_below(f64::MIN_POSITIVE);
}
