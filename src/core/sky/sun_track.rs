//! The apparent Sun by interpolation.

use super::ApparentSun;
use super::apparent_sun::apparent_sun;
use crate::core::time::EarthTime;

/// A source of apparent Suns; at present each is computed afresh.
#[derive(Clone, Debug, Default)]
pub struct SunTrack {}

impl SunTrack {
    /// A track that has computed nothing yet.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// The apparent Sun at `time`.
    #[must_use]
    pub fn at(&mut self, time: &EarthTime) -> ApparentSun {
        apparent_sun(time)
    }
}
