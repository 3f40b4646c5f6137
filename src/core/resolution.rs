//! What the size of a dial buys: wider divisions, but not a sharper shadow.

use crate::core::instrument::Instrument;
use crate::core::penumbra::half_width_rad;
use crate::core::reading::SECONDS_PER_RADIAN;

/// Share of a penumbra within which a practised eye finds its middle: an assumption, no source.
pub const EYE_SHARE_OF_PENUMBRA: f64 = 0.1;

/// Smallest distance that the eye tells apart at arm's length, metres: a minute of arc at 0.6 m.
/// An assumption, no source.
pub const EYE_LENGTH_M: f64 = 0.000_17;

/// Lengths on the arc of one instrument, and what they mean in time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Resolution {
    /// The smallest division, seconds.
    pub division_s: f64,
    /// Its length on the arc, metres.
    pub division_m: f64,
    /// How fast the shadow's edge runs along the arc, metres per second.
    pub speed_m_per_s: f64,
    /// Full width of the soft edge, metres.
    pub penumbra_m: f64,
    /// Time the soft edge takes to pass, seconds: the same on a dial of any size.
    pub penumbra_s: f64,
    /// What the eye can tell, seconds: the larger of a share of the penumbra and the finest length.
    pub by_eye_s: f64,
}

impl Resolution {
    /// For a Sun of this semidiameter at this declination, both in radians.
    #[must_use]
    pub fn of(instrument: &Instrument, semidiameter_rad: f64, declination_rad: f64) -> Self {
        let division_s = f64::from(instrument.graduation().smallest_s());
        let speed_m_per_s = instrument.radius_m() / SECONDS_PER_RADIAN;
        let penumbra_s =
            2.0 * half_width_rad(semidiameter_rad, declination_rad) * SECONDS_PER_RADIAN;
        Self {
            division_s,
            division_m: division_s * speed_m_per_s,
            speed_m_per_s,
            penumbra_m: penumbra_s * speed_m_per_s,
            penumbra_s,
            by_eye_s: (penumbra_s * EYE_SHARE_OF_PENUMBRA).max(EYE_LENGTH_M / speed_m_per_s),
        }
    }

    /// How many of the smallest divisions the soft edge covers.
    #[must_use]
    pub fn divisions_per_penumbra(&self) -> f64 {
        self.penumbra_s / self.division_s
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::core::instrument::Preset;

    fn resolution(key: &str) -> Resolution {
        let made = Preset::by_key(key).map(Preset::instrument);
        let Some(Ok(instrument)) = made else { panic!("{key} is a preset") };
        Resolution::of(&instrument, (959.63_f64 / 3600.0).to_radians(), 0.0)
    }

    #[test]
    fn a_larger_dial_has_wider_divisions_and_the_same_soft_edge() {
        let (small, large) = (resolution("schoolyard"), resolution("great"));
        assert!((small.penumbra_s - large.penumbra_s).abs() < 1e-9);
        // Two semidiameters at 15″ a second: 2 × 959.63 / 15 = 127.95 s.
        assert!((small.penumbra_s - 127.95).abs() < 0.01, "{}", small.penumbra_s);
        assert!((large.penumbra_m / small.penumbra_m - 14.2 / 0.6).abs() < 1e-9);
        assert!(large.divisions_per_penumbra() > 60.0 && small.divisions_per_penumbra() < 3.0);
    }

    #[test]
    fn a_minute_is_twelve_millimetres_on_a_radius_of_2_9_m() {
        let terrace = resolution("terrace");
        // 2π · 2.9 m / 1440 min.
        assert!((terrace.speed_m_per_s * 60.0 - 0.012_654).abs() < 1e-6);
        assert!((terrace.division_m - 0.004_218).abs() < 1e-6);
    }
}
