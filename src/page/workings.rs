//! What follows from the state, kept until the state no longer calls for it.

use chrono::{Datelike, NaiveDate};

use super::dial_time::DialTime;
use super::state::Shown;
use crate::core::day::DayOutline;
use crate::core::field::FieldError;
use crate::core::instrument::{Instrument, Preset};
use crate::core::moment::{Conditions, Moment};
use crate::core::sky::SunTrack;
use crate::core::time::Instant;
use crate::core::year::YearCurve;

/// The instrument, the Sun's track, and the moment, day and year last asked for.
#[derive(Debug)]
pub struct Workings {
    preset: &'static Preset,
    instrument: Instrument,
    track: SunTrack,
    conditions: Conditions,
    moment: Moment,
    dial_time: DialTime,
    day: DayOutline,
    /// Whether the day is still that of the instrument before.
    stale_day: bool,
    year: YearCurve,
}

impl Workings {
    /// Works everything out for what is shown.
    ///
    /// # Errors
    /// When the instrument can't stand; a test makes every instrument that can be chosen.
    pub fn new(shown: &Shown) -> Result<Self, FieldError> {
        let instrument = shown.preset.instrument()?;
        let mut track = SunTrack::new();
        let conditions = shown.conditions();
        let moment = Moment::compute(&instrument, shown.instant, &conditions, &mut track);
        let dial_time = DialTime::at(&instrument, &mut track, shown.instant);
        let day = DayOutline::compute(&instrument, dial_time.date, &conditions, &mut track)?;
        let year = YearCurve::compute(dial_time.date.year(), &mut track)?;
        let preset = shown.preset;
        let stale_day = false;
        Ok(Self { preset, instrument, track, conditions, moment, dial_time, day, stale_day, year })
    }

    /// Brings everything up to date with what is on the screen.
    pub fn refresh(&mut self, shown: &Shown) {
        let conditions = shown.conditions();
        self.set_instrument(shown.preset);
        self.stale_day |= self.conditions.air != conditions.air;
        self.conditions = conditions;
        let (instrument, track) = (&self.instrument, &mut self.track);
        self.moment = Moment::compute(instrument, shown.instant, &conditions, track);
        self.dial_time = DialTime::at(instrument, track, shown.instant);
        let date = self.dial_time.date;
        // In the first and last hours of the years known, the place's own date can lie outside
        // them: the day and year before it stay.
        if (self.stale_day || self.day.date != date)
            && let Ok(day) = DayOutline::compute(instrument, date, &conditions, track)
        {
            self.day = day;
            self.stale_day = false;
        }
        if self.year.year != date.year()
            && let Ok(year) = YearCurve::compute(date.year(), track)
        {
            self.year = year;
        }
    }

    /// Takes another instrument; what follows from it is worked out when it is asked for.
    pub fn set_instrument(&mut self, preset: &'static Preset) {
        if preset == self.preset {
            return;
        }
        // A preset that could not stand would leave the last good instrument in place.
        let Ok(instrument) = preset.instrument() else { return };
        self.preset = preset;
        self.instrument = instrument;
        self.stale_day = true;
    }

    /// The instrument.
    #[must_use]
    pub fn instrument(&self) -> &Instrument {
        &self.instrument
    }

    /// The moment on the screen.
    #[must_use]
    pub fn moment(&self) -> &Moment {
        &self.moment
    }

    /// Date and local apparent time of the moment on the screen.
    #[must_use]
    pub fn now(&self) -> DialTime {
        self.dial_time
    }

    /// The day of the moment on the screen.
    #[must_use]
    pub fn day(&self) -> &DayOutline {
        &self.day
    }

    /// The year of the moment on the screen.
    #[must_use]
    pub fn year(&self) -> &YearCurve {
        &self.year
    }

    /// Date and local apparent time of an instant.
    pub fn dial_time(&mut self, instant: Instant) -> DialTime {
        DialTime::at(&self.instrument, &mut self.track, instant)
    }

    /// The instant of a date and local apparent time.
    ///
    /// # Errors
    /// When it is outside the years the page knows.
    pub fn instant(&mut self, time: DialTime) -> Result<Instant, FieldError> {
        time.instant(&self.instrument, &mut self.track)
    }

    /// The day of any date, worked out afresh unless it is the one on the screen.
    ///
    /// # Errors
    /// When it is outside the years the page knows.
    pub fn day_of(&mut self, date: NaiveDate) -> Result<DayOutline, FieldError> {
        if self.day.date == date && !self.stale_day {
            return Ok(self.day.clone());
        }
        let (instrument, track) = (&self.instrument, &mut self.track);
        Ok(DayOutline::compute(instrument, date, &self.conditions, track)?)
    }
}
