//! The Sun's declination through a year, and the days on which the seasons turn.

use chrono::{Datelike, NaiveDate};

use crate::core::almanac::{Season, seasons};
use crate::core::sky::SunTrack;
use crate::core::time::{EarthTime, Instant};

/// Declination at 12:00 universal time on each day of a year, and its four turning points.
#[derive(Clone, Debug, PartialEq)]
pub struct YearCurve {
    /// The year.
    pub year: i32,
    /// Date and declination (radians, north positive), in order.
    pub days: Vec<(NaiveDate, f64)>,
    /// Equinoxes and solstices, in order.
    pub seasons: [Season; 4],
}

impl YearCurve {
    /// Works out a year; days outside the years that can be computed are left out.
    #[must_use]
    pub fn compute(year: i32, track: &mut SunTrack) -> Self {
        let first = NaiveDate::from_ymd_opt(year, 1, 1);
        let dates = first.into_iter().flat_map(|date| date.iter_days());
        let mut declination = |date: NaiveDate| {
            let noon = date.and_hms_opt(12, 0, 0)?.and_utc().timestamp_millis();
            let instant = Instant::from_unix_ms(noon).ok()?;
            Some((date, track.at(&EarthTime::from_instant(instant)).declination_rad))
        };
        let days =
            dates.take_while(|date| date.year() == year).filter_map(&mut declination).collect();
        Self { year, days, seasons: seasons(year) }
    }
}
