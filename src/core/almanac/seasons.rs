//! Equinoxes and solstices.

use crate::core::sky::angle::half_turn;
use crate::core::sky::apparent_longitude_rad;
use crate::core::time::{Instant, SECONDS_PER_DAY, TimeError, TimeScale};
use chrono::NaiveDate;
use std::f64::consts::{FRAC_PI_2, TAU};

/// Which of the year's four turning points.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum SeasonKind {
    /// The Sun crosses the equator northwards, in March: apparent longitude 0°.
    MarchEquinox,
    /// The Sun is farthest north, in June: apparent longitude 90°.
    JuneSolstice,
    /// The Sun crosses the equator southwards, in September: apparent longitude 180°.
    SeptemberEquinox,
    /// The Sun is farthest south, in December: apparent longitude 270°.
    DecemberSolstice,
}

impl SeasonKind {
    /// All four, in the order of the year.
    pub const ALL: [Self; 4] =
        [Self::MarchEquinox, Self::JuneSolstice, Self::SeptemberEquinox, Self::DecemberSolstice];

    /// The Sun's apparent longitude in radians.
    #[must_use]
    pub fn longitude_rad(self) -> f64 {
        f64::from(self as u8) * FRAC_PI_2
    }

    /// The month and a day of it near which it falls.
    fn month_and_day(self) -> (u32, u32) {
        match self {
            Self::MarchEquinox => (3, 20),
            Self::JuneSolstice => (6, 21),
            Self::SeptemberEquinox => (9, 22),
            Self::DecemberSolstice => (12, 21),
        }
    }
}

/// An equinox or a solstice.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Season {
    /// Which one.
    pub kind: SeasonKind,
    /// When, to the millisecond.
    pub instant: Instant,
    /// The same moment as a Julian date in TT, in two parts to be added.
    pub jd_tt: (f64, f64),
}

/// The equinoxes and solstices of a year: when the Sun's apparent geocentric longitude of date is
/// 0, 90, 180 and 270°.
///
/// # Accuracy
/// Within 0.5 s of JPL DE421 in TT over 1900–2050; an instant outside the UTC years also has the
/// error of ΔT, second for second.
///
/// # Errors
/// [`TimeError::OutOfRange`] outside the years 1700 to 2200.
pub fn seasons(year: i32, scale: TimeScale) -> Result<[Season; 4], TimeError> {
    let [march, june, september, december] = SeasonKind::ALL.map(|kind| season(year, kind, scale));
    Ok([march?, june?, september?, december?])
}

fn season(year: i32, kind: SeasonKind, scale: TimeScale) -> Result<Season, TimeError> {
    let mut instant = midnight_near(year, kind)?;
    for _ in 0..STEPS {
        let longitude_rad = apparent_longitude_rad(&scale.earth_time(instant));
        let missing_rad = half_turn(kind.longitude_rad() - longitude_rad);
        instant = instant.plus_seconds(missing_rad / RATE_RAD_PER_S)?;
    }
    let jd_tt = scale.earth_time(instant).jd_tt();
    Ok(Season { kind, instant, jd_tt })
}

/// The Sun's mean motion in longitude, in radians per second (a tropical year of 365.2422 days).
const RATE_RAD_PER_S: f64 = TAU / (365.2422 * SECONDS_PER_DAY);

/// The true rate departs from the mean by less than 1/25, so that each step leaves less than 1/25
/// of the error: from three days to less than a millisecond.
const STEPS: usize = 7;

fn midnight_near(year: i32, kind: SeasonKind) -> Result<Instant, TimeError> {
    let (month, day) = kind.month_and_day();
    let date = NaiveDate::from_ymd_opt(year, month, day);
    let outside =
        || TimeError::OutOfRange { field: "year", value: year.to_string(), range: "1700 to 2200" };
    date.and_then(|date| Instant::from_date(date).ok()).ok_or_else(outside)
}
