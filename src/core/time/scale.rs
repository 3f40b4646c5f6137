//! Which UT1 and TT belong to an instant.

use super::{EarthTime, Instant};

/// How an [`Instant`] is turned into UT1 and TT.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum TimeScale {
    /// By its date, as the table of the [module](super) says.
    #[default]
    Civil,
    /// By its date, but with ΔT = TT − UT1 known from elsewhere, such as measured UT1 − UTC.
    ///
    /// In the UTC years TT comes from the leap seconds and UT1 is TT − ΔT; at other dates the
    /// instant is UT1 and TT is UT1 + ΔT.
    KnownDeltaT {
        /// ΔT in seconds.
        delta_t_s: f64,
    },
}

impl TimeScale {
    /// UT1 and TT at `instant`.
    #[must_use]
    pub fn earth_time(self, instant: Instant) -> EarthTime {
        match self {
            Self::Civil => EarthTime::from_instant(instant),
            Self::KnownDeltaT { delta_t_s } => {
                EarthTime::from_instant_with_delta_t(instant, delta_t_s)
            }
        }
    }
}
