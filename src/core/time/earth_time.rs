//! UT1 and TT, the two scales the sky needs.

use super::{Instant, SECONDS_PER_DAY, UNIX_EPOCH_JD, decimal_year, delta_t_s, tt_minus_utc_s};

/// The Julian date of the epoch J2000.0.
const J2000_JD: f64 = 2_451_545.0;

/// UT1 and TT at one moment, as two-part Julian dates with a common whole part.
///
/// A part in days near 1 resolves 10 ps, where a single `f64` Julian date resolves 40 µs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EarthTime {
    jd_whole: f64,
    ut1_fraction: f64,
    delta_t_s: f64,
}

impl EarthTime {
    /// The times that belong to `instant` by its date, as the table of the [module](super) says.
    #[must_use]
    pub fn from_instant(instant: Instant) -> Self {
        let delta_t_s = tt_minus_utc_s(instant).unwrap_or_else(|| delta_t_s(decimal_year(instant)));
        Self::shifted(instant, 0.0, delta_t_s)
    }

    /// The times at `instant` when ΔT = TT − UT1 is known, in seconds; see
    /// [`TimeScale::KnownDeltaT`](super::TimeScale::KnownDeltaT).
    #[must_use]
    pub fn from_instant_with_delta_t(instant: Instant, delta_t_s: f64) -> Self {
        let ut1_minus_instant_s = tt_minus_utc_s(instant).map_or(0.0, |tt_s| tt_s - delta_t_s);
        Self::shifted(instant, ut1_minus_instant_s, delta_t_s)
    }

    fn shifted(instant: Instant, ut1_minus_instant_s: f64, delta_t_s: f64) -> Self {
        let (day, fraction) = instant.days_and_fraction();
        Self::from_ut1(
            UNIX_EPOCH_JD + day as f64,
            fraction + ut1_minus_instant_s / SECONDS_PER_DAY,
            delta_t_s,
        )
    }

    /// The times at the Julian date `jd_whole + jd_fraction` in UT1, with ΔT = TT − UT1 in seconds.
    #[must_use]
    pub const fn from_ut1(jd_whole: f64, jd_fraction: f64, delta_t_s: f64) -> Self {
        Self { jd_whole, ut1_fraction: jd_fraction, delta_t_s }
    }

    /// The Julian date in UT1, in two parts to be added.
    #[must_use]
    pub const fn jd_ut1(&self) -> (f64, f64) {
        (self.jd_whole, self.ut1_fraction)
    }

    /// The Julian date in TT, in two parts to be added.
    #[must_use]
    pub fn jd_tt(&self) -> (f64, f64) {
        let fraction = self.ut1_fraction + self.delta_t_s / SECONDS_PER_DAY;
        (self.jd_whole, fraction)
    }

    /// ΔT = TT − UT1 in seconds.
    #[must_use]
    pub const fn delta_t_s(&self) -> f64 {
        self.delta_t_s
    }

    /// Days of TT since J2000.0, to about 10 µs.
    #[must_use]
    pub fn tt_days_from_j2000(&self) -> f64 {
        let (whole, fraction) = self.jd_tt();
        (whole - J2000_JD) + fraction
    }
}
