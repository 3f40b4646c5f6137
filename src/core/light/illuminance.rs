//! How bright the stone is: the Sun's light through the air, and the sky's.

/// Illuminance by the Sun above the air, square to its rays, kilolux (IES *Lighting Handbook*,
/// solar illumination constant, from memory).
const ABOVE_AIR_KLX: f64 = 127.5;
/// Extinction by a clear sky in one thickness of air (IES *Lighting Handbook*, clear sky, from
/// memory).
const CLEAR_EXTINCTION: f64 = 0.21;
/// Illuminance on level ground by a clear sky, `A + B √(sin h)`, kilolux (the same source).
const CLEAR_SKY_KLX: (f64, f64) = (0.8, 15.5);
/// Share of the sky's light that reaches into a quadrant's hollow: half, since wall and arc hide
/// about half of it. An assumption.
const SKY_SHARE: f64 = 0.5;

/// Light on a piece of stone, kilolux.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Illuminance {
    /// From the Sun's disc, the slant of the surface included.
    pub direct_klx: f64,
    /// From the sky.
    pub sky_klx: f64,
}

impl Illuminance {
    /// The same light where the Sun's rays fall at this cosine to the surface's normal, and this
    /// share of them arrives, both 0 to 1.
    #[must_use]
    pub fn falling(self, slant: f64, share: f64) -> Self {
        Self { direct_klx: self.direct_klx * slant.max(0.0) * share, ..self }
    }

    /// All the light, kilolux.
    #[must_use]
    pub fn total_klx(self) -> f64 {
        self.direct_klx + self.sky_klx
    }
}

/// Thickness of air the Sun's light passes, in vertical thicknesses, for the *refracted* altitude
/// (F. Kasten and A. T. Young, Applied Optics 28 (1989) 4735; coefficients from memory).
///
/// 1 at the zenith, about 38 at the horizon; below the horizon that of the horizon.
#[must_use]
pub fn air_mass(altitude_rad: f64) -> f64 {
    let altitude_deg = altitude_rad.to_degrees().clamp(0.0, 90.0);
    1.0 / (altitude_deg.to_radians().sin() + 0.505_72 * (altitude_deg + 6.079_95).powf(-1.636_4))
}

/// Light on a surface square to the Sun's rays under a clear sky: the whole disc's, and as much of
/// the sky's as reaches into a quadrant. At the horizon the sky gives its least by day, and keeps it
/// while a part of the disc may still be up; then it is none.
#[must_use]
pub fn clear_sun(altitude_rad: f64) -> Illuminance {
    let direct_klx = direct_normal_klx(altitude_rad);
    let (level, by_sun) = CLEAR_SKY_KLX;
    let sky_klx =
        if direct_klx > 0.0 { level + by_sun * altitude_rad.sin().max(0.0).sqrt() } else { 0.0 };
    Illuminance { direct_klx, sky_klx: SKY_SHARE * sky_klx }
}

/// Illuminance by the Sun through clear air, square to its rays, kilolux; none below the horizon.
#[must_use]
pub fn direct_normal_klx(altitude_rad: f64) -> f64 {
    if altitude_rad < -0.01 {
        return 0.0;
    }
    ABOVE_AIR_KLX * (-CLEAR_EXTINCTION * air_mass(altitude_rad)).exp()
}

/// Contrast that the eye gets between a place in full sun and one where only a share of the disc
/// is seen: how much darker it is, as a part of the brighter, 0 to 1.
#[must_use]
pub fn contrast(full_sun: Illuminance, lit_share: f64) -> f64 {
    let total_klx = full_sun.total_klx();
    if total_klx <= 0.0 { 0.0 } else { full_sun.direct_klx * (1.0 - lit_share) / total_klx }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_air_mass_is_that_of_the_published_table() {
        // Kasten and Young's own table, from memory, to its three or four digits.
        for (altitude_deg, expected, digits) in
            [(90.0, 0.9997, 5e-4), (30.0, 1.994, 5e-3), (10.0, 5.585, 5e-2), (0.0, 37.92, 0.2)]
        {
            let mass = air_mass(f64::to_radians(altitude_deg));
            assert!((mass - expected).abs() < digits, "{altitude_deg}: {mass}");
        }
    }

    #[test]
    fn shade_is_darker_than_sun_and_never_black_by_day() {
        let sun = Illuminance { direct_klx: 80.0, sky_klx: 6.0 };
        assert!((contrast(sun, 1.0)).abs() < 1e-12);
        assert!((contrast(sun, 0.0) - 80.0 / 86.0).abs() < 1e-12);
        assert_eq!(contrast(Illuminance::default(), 0.0), 0.0);
    }

    #[test]
    fn sunlight_tells_less_beside_the_sky_as_the_sun_sets() {
        let contrasts =
            [0.6_f64, 0.2, 0.08, 0.03, 0.0].map(|altitude| contrast(clear_sun(altitude), 0.0));
        assert!(contrasts.windows(2).all(|pair| pair[0] > pair[1]), "{contrasts:?}");
        assert!(contrasts[0] > 0.9 && contrasts[4] < 0.15 && contrasts[4] > 0.0, "{contrasts:?}");
        let half = clear_sun(0.6).falling(0.9, 0.5);
        assert!((half.direct_klx - 0.45 * clear_sun(0.6).direct_klx).abs() < 1e-12);
        assert!((contrast(clear_sun(0.6), 0.5) - contrasts[0] / 2.0).abs() < 1e-12);
    }

    #[test]
    fn the_sun_fades_towards_the_horizon() {
        let high = direct_normal_klx(1.0);
        let low = direct_normal_klx(0.02);
        assert!(high > 90.0 && high < ABOVE_AIR_KLX && low < 2.0 && low > 0.0, "{high} {low}");
    }
}
