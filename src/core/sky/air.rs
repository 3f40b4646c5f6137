//! The air, which raises what is seen through it.

use crate::core::field::{FieldError, within};

/// The air at a site, as far as refraction depends on it.
///
/// Pressure 0 to 1100 hPa at the site (not reduced to the sea), temperature −90 °C to +60 °C.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Air {
    pressure_hpa: f64,
    temperature_c: f64,
}

impl Default for Air {
    /// 1010 hPa and 10 °C, the air for which refraction is usually tabulated.
    fn default() -> Self {
        Self { pressure_hpa: 1010.0, temperature_c: 10.0 }
    }
}

impl Air {
    /// Air of a pressure in hPa and a temperature in °C.
    ///
    /// # Errors
    /// [`FieldError`] names the property that is out of range or not a number.
    pub fn new(pressure_hpa: f64, temperature_c: f64) -> Result<Self, FieldError> {
        within("pressure", pressure_hpa, (0.0, 1100.0), "0 hPa to 1100 hPa")?;
        within("temperature", temperature_c, (-90.0, 60.0), "-90 °C to 60 °C")?;
        Ok(Self { pressure_hpa, temperature_c })
    }

    /// Pressure in hPa.
    #[must_use]
    pub const fn pressure_hpa(&self) -> f64 {
        self.pressure_hpa
    }

    /// Temperature in °C.
    #[must_use]
    pub const fn temperature_c(&self) -> f64 {
        self.temperature_c
    }

    /// How much more this air refracts than the default.
    fn strength(&self) -> f64 {
        self.pressure_hpa / 1010.0 * 283.0 / (273.0 + self.temperature_c)
    }
}

/// Airless altitude below which the formula of refraction is not used, in degrees.
const FORMULA_FROM_DEG: f64 = -1.0;

/// Airless altitude below which there is no refraction at all, in degrees.
const NOTHING_BELOW_DEG: f64 = -10.0;

/// By how much `air` raises what stands at this airless altitude; both in radians, never negative.
///
/// The formula of G. G. Bennett (J. Navigation 35 (1982) 255), R = 1′/tan(h + 7.31/(h + 4.4)) with
/// h the *refracted* altitude in degrees, multiplied by P/1010 hPa · 283 K/T; the refracted
/// altitude is found by iteration.
///
/// Below an airless altitude of −1° (a refracted one of about −0.4°) the formula has no meaning and
/// nothing is seen: the value at −1° is faded out smoothly until −10°, only so that nothing jumps.
/// The refracted altitude increases with the airless one throughout.
///
/// # Accuracy
/// Bennett gives 0.07′ against the tables of his time. Published formulas differ by 4″ above 5° and
/// by 10″ near the horizon, and real air departs from all of them by minutes of arc there.
#[must_use]
pub fn refraction_rad(airless_altitude_rad: f64, air: &Air) -> f64 {
    let airless_deg = airless_altitude_rad.to_degrees();
    let strength = air.strength();
    let raised_deg = raised_deg(airless_deg.max(FORMULA_FROM_DEG), strength);
    (raised_deg * fade(airless_deg)).to_radians()
}

/// Refraction in degrees at an airless altitude in degrees, by Newton's rule.
fn raised_deg(airless_deg: f64, strength: f64) -> f64 {
    let mut seen_deg = airless_deg;
    for _ in 0..MOST_STEPS {
        let (refraction, slope) = bennett_deg(seen_deg, strength);
        let step = (seen_deg - refraction - airless_deg) / (1.0 - slope);
        seen_deg -= step;
        if step.abs() < STEP_DEG {
            break;
        }
    }
    (seen_deg - airless_deg).max(0.0)
}

/// Newton's rule ends in four steps or fewer; the limit only makes the end certain.
const MOST_STEPS: usize = 12;

/// A step this small ends the iteration, in degrees: less than a thousandth of an arcsecond.
const STEP_DEG: f64 = 1e-8;

/// Refraction in degrees at a refracted altitude in degrees, and its slope.
fn bennett_deg(seen_deg: f64, strength: f64) -> (f64, f64) {
    let argument_rad = (seen_deg + 7.31 / (seen_deg + 4.4)).to_radians();
    let argument_slope = (1.0 - 7.31 / (seen_deg + 4.4).powi(2)).to_radians();
    let (sin, cos) = argument_rad.sin_cos();
    let scale_deg = strength / 60.0;
    (scale_deg * cos / sin, -scale_deg * argument_slope / (sin * sin))
}

/// 1 where the formula holds, 0 where there is no refraction, smooth in between.
fn fade(airless_deg: f64) -> f64 {
    let part = (airless_deg - NOTHING_BELOW_DEG) / (FORMULA_FROM_DEG - NOTHING_BELOW_DEG);
    let part = part.clamp(0.0, 1.0);
    part * part * (3.0 - 2.0 * part)
}
