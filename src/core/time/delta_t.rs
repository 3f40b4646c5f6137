//! ΔT = TT − UT1 where no leap seconds tell it.

use super::{Instant, SECONDS_PER_DAY};

/// ΔT = TT − UT1 in seconds at a [`decimal_year`] before 1972 or after 2026.
///
/// From 1972 to 2026 the program takes TT from the leap seconds instead
/// ([`tt_minus_utc_s`](super::tt_minus_utc_s)); this function then goes on with the last polynomial
/// until 1986, and is the last known value afterwards.
///
/// # Sources
/// - Before 1972, the polynomial expressions of F. Espenak and J. Meeus, *Five Millennium Canon of
///   Solar Eclipses*, NASA/TP-2006-214141, section 2.
/// - From 2027 on, the last known value, 69.184 s, which has hardly changed since 2017, carried on
///   with the long-term braking of the Earth's rotation, 32.5 s per century squared
///   (F. R. Stephenson, L. V. Morrison and C. Y. Hohenkerk, Proc. R. Soc. A 472 (2016) 20160404):
///   `69.184 + 32.5 v²`, v in centuries from 2027.0. It is continuous at 2027.
///
/// # Accuracy
/// - Before 1900 better than 6 s, from 1900 to 1971 than 1.2 s, against a table of measured values;
///   the polynomials meet with steps of less than 0.1 s, and the leap seconds in 1972 with 0.07 s.
/// - The future is not known, since the rotation wanders: P. J. Huber's estimate of the wandering
///   gives a standard error of about 6 s by 2050, 50 s by 2100 and 2 min by 2200.
///
/// One second of ΔT moves the Sun by 0.041″ in longitude and the equation of time by about 0.003 s.
#[must_use]
pub fn delta_t_s(year: f64) -> f64 {
    match year {
        ..1800.0 => polynomial(year - 1700.0, &FROM_1700),
        ..1860.0 => polynomial(year - 1800.0, &FROM_1800),
        ..1900.0 => polynomial(year - 1860.0, &FROM_1860),
        ..1920.0 => polynomial(year - 1900.0, &FROM_1900),
        ..1941.0 => polynomial(year - 1920.0, &FROM_1920),
        ..1961.0 => polynomial(year - 1950.0, &FROM_1941),
        ..1986.0 => polynomial(year - 1975.0, &FROM_1961),
        ..2027.0 => LAST_KNOWN_S,
        _ => LAST_KNOWN_S + BRAKING_S_PER_CENTURY2 * ((year - 2027.0) / 100.0).powi(2),
    }
}

/// The year and the part of it gone by, where a year has 365.2425 days and 2000.0 is the beginning
/// of 2000-01-01.
///
/// It agrees with the calendar to within a day, in which ΔT changes by less than 0.01 s.
#[must_use]
pub fn decimal_year(instant: Instant) -> f64 {
    const UNIX_MS_2000: f64 = 946_684_800_000.0;
    const MS_PER_YEAR: f64 = 365.2425 * SECONDS_PER_DAY * 1000.0;
    2000.0 + (instant.unix_ms() as f64 - UNIX_MS_2000) / MS_PER_YEAR
}

/// ΔT at 2027.0 and since 2017, in seconds: 37 leap seconds and TT − TAI.
const LAST_KNOWN_S: f64 = 69.184;

/// Half the long-term acceleration of ΔT, in seconds per century squared.
const BRAKING_S_PER_CENTURY2: f64 = 32.5;

// The polynomials of Espenak and Meeus: seconds, in years from the epoch that `delta_t_s` names.
const FROM_1700: [f64; 5] = [8.83, 0.1603, -0.005_928_5, 0.000_133_36, -1.0 / 1_174_000.0];
const FROM_1800: [f64; 8] = [
    13.72,
    -0.332_447,
    0.006_861_2,
    0.004_111_6,
    -0.000_374_36,
    0.000_012_127_2,
    -0.000_000_169_9,
    0.000_000_000_875,
];
const FROM_1860: [f64; 6] =
    [7.62, 0.5737, -0.251_754, 0.016_806_68, -0.000_447_362_4, 1.0 / 233_174.0];
const FROM_1900: [f64; 5] = [-2.79, 1.494_119, -0.059_893_9, 0.006_196_6, -0.000_197];
const FROM_1920: [f64; 4] = [21.20, 0.844_93, -0.076_100, 0.002_093_6];
const FROM_1941: [f64; 4] = [29.07, 0.407, -1.0 / 233.0, 1.0 / 2547.0];
const FROM_1961: [f64; 4] = [45.45, 1.067, -1.0 / 260.0, -1.0 / 718.0];

/// The polynomial with these coefficients, constant first.
fn polynomial(x: f64, coefficients: &[f64]) -> f64 {
    coefficients.iter().rev().fold(0.0, |sum, c| sum * x + c)
}
