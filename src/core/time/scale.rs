//! Which UT1 and TT belong to an instant.

use super::{EarthTime, Instant};

/// How an [`Instant`] is turned into UT1 and TT.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum TimeScale {
    /// By date, as the table of the [module](super) says.
    #[default]
    Civil,
    /// By differences known from elsewhere, such as measured UT1 − UTC.
    Given {
        /// UT1 minus the instant, in seconds.
        ut1_minus_instant_s: f64,
        /// ΔT = TT − UT1, in seconds.
        delta_t_s: f64,
    },
}

impl TimeScale {
    /// UT1 and TT at `instant`.
    #[must_use]
    pub fn earth_time(self, instant: Instant) -> EarthTime {
        match self {
            Self::Civil => EarthTime::from_instant(instant),
            Self::Given { ut1_minus_instant_s, delta_t_s } => {
                EarthTime::from_instant_and(instant, ut1_minus_instant_s, delta_t_s)
            }
        }
    }
}
