//! The Sun's declination through a year, and the days on which the seasons turn.

use chrono::{Datelike, NaiveDate};

use crate::core::almanac::{Season, seasons};
use crate::core::sky::SunTrack;
use crate::core::time::{EarthTime, Instant, SECONDS_PER_DAY, TimeError, TimeScale};

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
    /// Works out a year.
    ///
    /// # Errors
    /// When the year is not one of those that can be computed, 1700 to 2200.
    pub fn compute(year: i32, track: &mut SunTrack) -> Result<Self, TimeError> {
        let seasons = seasons(year, TimeScale::Civil)?;
        let first = NaiveDate::from_ymd_opt(year, 1, 1);
        let dates = first.into_iter().flat_map(|date| date.iter_days());
        let days = dates
            .take_while(|date| date.year() == year)
            .map(|date| Ok((date, declination_at_noon(date, track)?)))
            .collect::<Result<_, TimeError>>()?;
        Ok(Self { year, days, seasons })
    }
}

/// Declination at 12:00 universal time of a date.
fn declination_at_noon(date: NaiveDate, track: &mut SunTrack) -> Result<f64, TimeError> {
    let noon = Instant::from_date(date)?.plus_seconds(SECONDS_PER_DAY / 2.0)?;
    Ok(track.at(&EarthTime::from_instant(noon)).declination_rad)
}
