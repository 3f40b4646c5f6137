//! The leap seconds, and through them TT from UTC.

use super::Instant;
use chrono::Datelike;

/// The beginning of UTC as it is kept today, 1972-01-01T00:00Z.
pub const UTC_BEGIN: Instant = Instant::at_unix_day(730);

/// The first moment whose leap seconds were not known when this was written, 2027-01-01T00:00Z.
///
/// IERS Bulletin C announces them half a year ahead; there is none at the end of 2026 or before.
pub const UTC_END: Instant = Instant::at_unix_day(20_819);

/// TT − TAI in seconds, by definition.
const TT_MINUS_TAI_S: f64 = 32.184;

/// TAI − UTC in seconds at [`UTC_BEGIN`].
const TAI_MINUS_UTC_1972_S: f64 = 10.0;

/// The months, as (year, month), on whose first day TAI − UTC was one second more than before.
///
/// Source: IERS Bulletin C.
const STEPS: [(i32, u32); 27] = [
    (1972, 7),
    (1973, 1),
    (1974, 1),
    (1975, 1),
    (1976, 1),
    (1977, 1),
    (1978, 1),
    (1979, 1),
    (1980, 1),
    (1981, 7),
    (1982, 7),
    (1983, 7),
    (1985, 7),
    (1988, 1),
    (1990, 1),
    (1991, 1),
    (1992, 7),
    (1993, 7),
    (1994, 7),
    (1996, 1),
    (1997, 7),
    (1999, 1),
    (2006, 1),
    (2009, 1),
    (2012, 7),
    (2015, 7),
    (2017, 1),
];

/// TT − UTC in seconds; `None` outside [`UTC_BEGIN`] to [`UTC_END`], the end excluded.
#[must_use]
pub fn tt_minus_utc_s(utc: Instant) -> Option<f64> {
    if !(UTC_BEGIN..UTC_END).contains(&utc) {
        return None;
    }
    let date = utc.civil();
    let month = (date.year(), date.month());
    let steps = STEPS.partition_point(|&step| step <= month);
    Some(TT_MINUS_TAI_S + TAI_MINUS_UTC_1972_S + steps as f64)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Against the table of the crate `sofars`, on the first day of every month.
    #[test]
    fn leap_seconds_agree_with_the_iau_routine_dat() {
        for year in 1972..=2026 {
            for month in 1..=12 {
                let date = chrono::NaiveDate::from_ymd_opt(year, month, 1);
                let utc = date.and_then(|d| Instant::from_date(d).ok());
                let dat = sofars::ts::dat(year, month as i32, 1, 0.0).ok();
                let ours = utc.and_then(tt_minus_utc_s);
                assert_eq!(ours, dat.map(|s| s + TT_MINUS_TAI_S), "{year}-{month:02}");
            }
        }
    }

    #[test]
    fn outside_the_utc_years_there_is_no_answer() {
        assert_eq!(tt_minus_utc_s(UTC_BEGIN), Some(42.184));
        assert_eq!(tt_minus_utc_s(UTC_BEGIN.saturating_plus_seconds(-0.001)), None);
        assert_eq!(tt_minus_utc_s(UTC_END.saturating_plus_seconds(-0.001)), Some(69.184));
        assert_eq!(tt_minus_utc_s(UTC_END), None);
    }
}
