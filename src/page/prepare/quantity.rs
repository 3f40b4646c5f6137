//! What a table of the year can show.

use crate::core::almanac::Daylight;
use crate::core::instrument::Instrument;
use crate::core::ladder::clock_of;
use crate::core::time::Instant;
use crate::core::year_table::YearDay;
use crate::words::figures;

/// A quantity of every day of a year.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Quantity {
    /// The total correction to zone time.
    #[default]
    Correction,
    /// The same with summer time.
    ClockCorrection,
    /// The equation of time, as it is added to the dial.
    Equation,
    /// Its part from the Earth's ellipse.
    Eccentricity,
    /// Its part from the tilt of the ecliptic.
    Obliquity,
    /// The declination at noon.
    Declination,
    /// Noon by the clock.
    Noon,
    /// Sunrise by the clock.
    Rise,
    /// Sunset by the clock.
    Set,
}

impl Quantity {
    /// All quantities, in the order in which the page offers them.
    pub const ALL: [Self; 9] = [
        Self::Correction,
        Self::ClockCorrection,
        Self::Equation,
        Self::Eccentricity,
        Self::Obliquity,
        Self::Declination,
        Self::Noon,
        Self::Rise,
        Self::Set,
    ];

    /// Key of its name in the catalogue; its last word is its value in the page.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Correction => "prepare.quantity.correction",
            Self::ClockCorrection => "prepare.quantity.clock-correction",
            Self::Equation => "prepare.quantity.equation",
            Self::Eccentricity => "prepare.quantity.eccentricity",
            Self::Obliquity => "prepare.quantity.obliquity",
            Self::Declination => "prepare.quantity.declination",
            Self::Noon => "prepare.quantity.noon",
            Self::Rise => "prepare.quantity.rise",
            Self::Set => "prepare.quantity.set",
        }
    }

    /// Finds a quantity by its value in the page.
    #[must_use]
    pub fn by_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|it| it.key().rsplit('.').next() == Some(key))
    }

    /// The quantity on a day, as it is written in a table.
    #[must_use]
    pub fn of(self, instrument: &Instrument, day: &YearDay) -> String {
        let clock = |at: Option<Instant>| event(instrument, at, day.daylight);
        match self {
            Self::Correction => figures::signed_clock(day.to_zone_s()),
            Self::ClockCorrection => figures::signed_clock(day.corrections.total_s()),
            Self::Equation => figures::signed_clock(day.equation.to_mean().total_s()),
            Self::Eccentricity => figures::signed_clock(day.equation.to_mean().eccentricity_s),
            Self::Obliquity => figures::signed_clock(day.equation.to_mean().obliquity_s),
            Self::Declination => figures::signed_degrees(day.declination_rad),
            Self::Noon => clock(Some(day.noon)),
            Self::Rise => clock(day.rise),
            Self::Set => clock(day.set),
        }
    }
}

/// An event by the clock; an arrow where the Sun stays up or down all day, a dash where there is
/// none within the civil day.
fn event(instrument: &Instrument, at: Option<Instant>, daylight: Daylight) -> String {
    match (at, daylight) {
        (Some(at), _) => figures::clock(clock_of(instrument, at)),
        (None, Daylight::NeverSets) => "↑".to_owned(),
        (None, Daylight::NeverRises) => "↓".to_owned(),
        (None, Daylight::Crosses) => "–".to_owned(),
    }
}
