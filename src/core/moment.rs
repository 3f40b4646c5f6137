//! One moment: the Sun, the shadow, the reading and the way to the clock, computed together.

use crate::core::dial::DialAngles;
use crate::core::instrument::Instrument;
use crate::core::ladder::{Corrections, Ladder, Rounding, ladder};
use crate::core::light::{LimbDarkening, SunDisc};
use crate::core::reading::{NoReading, Reading, read, sun_on_dial};
use crate::core::sky::{Air, SunAtSite, SunTrack};
use crate::core::time::Instant;

/// Everything that follows from an instrument and an instant.
#[derive(Clone, Debug, PartialEq)]
pub struct Moment {
    /// The instant.
    pub instant: Instant,
    /// The Sun as seen from the site.
    pub sun: SunAtSite,
    /// The Sun in the instrument's own axes, as its light arrives.
    pub on_dial: DialAngles,
    /// How bright the Sun's disc is towards its limb.
    pub limb: LimbDarkening,
    /// What the dial shows.
    pub reading: Result<Reading, NoReading>,
    /// What is added to a reading at this moment.
    pub corrections: Corrections,
    /// The way from the reading to the clock, when there is a reading.
    pub ladder: Option<Ladder>,
}

/// Choices that change what is computed.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Conditions {
    /// The air, or `None` to leave refraction out.
    pub air: Option<Air>,
    /// How the sum of the corrections is rounded.
    pub rounding: Rounding,
    /// How bright the Sun's disc is towards its limb.
    pub limb: LimbDarkening,
}

impl Moment {
    /// Computes a moment.
    #[must_use]
    pub fn compute(
        instrument: &Instrument,
        instant: Instant,
        conditions: &Conditions,
        track: &mut SunTrack,
    ) -> Self {
        let sun = track.over(instrument.site(), instant, conditions.air.as_ref());
        let reading = read(instrument, &sun);
        let corrections = Corrections::at(instrument, instant, &sun);
        let ladder = reading
            .as_ref()
            .ok()
            .map(|reading| ladder(instrument, instant, &sun, reading, conditions.rounding));
        let on_dial = sun_on_dial(instrument, &sun);
        Self { instant, sun, on_dial, limb: conditions.limb, reading, corrections, ladder }
    }

    /// The Sun's disc as it lights the instrument, cut off by the horizon.
    #[must_use]
    pub fn disc(&self) -> SunDisc {
        SunDisc {
            centre: self.on_dial,
            semidiameter_rad: self.sun.semidiameter_rad,
            limb: self.limb,
            horizon: true,
        }
    }
}
