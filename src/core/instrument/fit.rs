//! Changing one thing of an instrument so that the rest still fits it.

use super::{EndFaces, InstrumentSpec, Limits, QUANTITIES, Quantity};
use crate::core::field::FieldError;

/// Places are rounded to millimetres, inwards.
const PER_METRE: f64 = 1000.0;
/// Slope of the style, its tangent, from which plumb ends would take too much wall: they are cut
/// square instead (about 70°).
const STEEPEST_PLUMB: f64 = 2.75;

impl Quantity {
    /// The description with another value of this quantity, in the file's unit. The style's ends
    /// grow with the radius, and what no longer fits is brought to the nearest value that does.
    ///
    /// # Errors
    /// When the value is out of range, or nothing would make the rest fit it.
    pub fn changed(&self, spec: &InstrumentSpec, value: f64) -> Result<InstrumentSpec, FieldError> {
        let mut next = spec.clone();
        self.set(&mut next, value);
        if !self.allows(&next, value) {
            return Err(self.refusal(&next, value));
        }
        if self.path == "quadrants.radius_m" {
            let ratio = value / spec.radius_m;
            next.style_south_m = to_millimetres(spec.style_south_m * ratio);
            next.style_north_m = to_millimetres(spec.style_north_m * ratio);
        }
        fit_others(&mut next, Some(self));
        let unfit = super::quantity::unfit(&next).next();
        unfit.map_or(Ok(next), |_| Err(self.refusal(spec, value)))
    }
}

impl InstrumentSpec {
    /// The same instrument built for another latitude, degrees: the wall slopes as the pole
    /// stands there, the quadrants keep to the equator's plane, and what no longer fits moves as
    /// little as it must. In the other hemisphere it is its own mirror image; where the style is
    /// nearly plumb its ends are cut square.
    ///
    /// # Errors
    /// When there is no such latitude.
    pub fn built_for(&self, latitude_deg: f64) -> Result<Self, FieldError> {
        let mut next = self.clone();
        if latitude_deg * self.latitude_deg < 0.0 {
            (next.style_south_m, next.style_north_m) = (-self.style_north_m, -self.style_south_m);
        }
        let slope = |degrees: f64| degrees.to_radians().tan().abs();
        if slope(latitude_deg) > STEEPEST_PLUMB.max(slope(self.latitude_deg)) {
            next.end_faces = EndFaces::Square;
        }
        // The latitude comes first in the table, and narrows itself by nothing else.
        let [latitude, ..] = &QUANTITIES;
        latitude.changed(&next, latitude_deg)
    }
}

/// Brings what does not fit the rest to the nearest value that does, but leaves one quantity alone.
pub fn fit_others(spec: &mut InstrumentSpec, but: Option<&Quantity>) {
    // What others must fit comes before them: once over the table is enough.
    for quantity in &QUANTITIES {
        let value = quantity.get(spec);
        let spared = but.is_some_and(|but| but.path == quantity.path);
        if spared || quantity.allows(spec, value) {
            continue;
        }
        let Limits { min, max, .. } = quantity.limits(spec);
        let inner_min = (min * PER_METRE).ceil() / PER_METRE;
        let inner_max = (max * PER_METRE).floor() / PER_METRE;
        let nearest = value.min(inner_max).max(inner_min);
        quantity.set(spec, nearest);
    }
}

/// A length to the millimetre.
fn to_millimetres(metres: f64) -> f64 {
    (metres * PER_METRE).round() / PER_METRE
}

#[cfg(test)]
mod tests {
    use super::super::{EndFaces, Instrument, PRESETS};
    use super::*;

    #[test]
    fn whatever_is_changed_the_instrument_stands_or_the_change_is_refused() {
        let (mut taken, mut refused) = (0, 0);
        for spec in PRESETS.iter().map(|preset| preset.spec()) {
            for quantity in &QUANTITIES {
                let step = quantity.step / quantity.per_file_unit;
                let (min, max) = quantity.range;
                for steps in [-300.0, -20.0, -1.0, 1.0, 20.0, 300.0] {
                    let value = (quantity.get(&spec) + steps * step).clamp(min, max);
                    let changed = quantity.changed(&spec, value);
                    let made = changed.as_ref().map(|next| Instrument::new(next.clone()));
                    assert!(!matches!(made, Ok(Err(_))), "{} {value}: {made:?}", quantity.path);
                    taken += u32::from(changed.is_ok());
                    refused += u32::from(changed.is_err());
                }
            }
        }
        assert!(taken > 400 && refused > 0, "{taken} taken, {refused} refused");
    }

    #[test]
    fn the_style_grows_with_the_radius_and_moves_as_little_as_it_must_with_the_rest() {
        let terrace = PRESETS[0].spec();
        let change = |path: &str, value: f64| {
            let quantity = Quantity::by_path(path);
            quantity.and_then(|quantity| quantity.changed(&terrace, value).ok())
        };
        let Some(twice) = change("quadrants.radius_m", 5.8) else { panic!("it can stand") };
        assert_eq!((twice.style_south_m, twice.style_north_m), (-9.9, 5.2));
        let Some(north) = change("site.latitude_deg", 45.0) else { panic!("it can stand") };
        assert_eq!(north.style_north_m, 3.275);
        assert_eq!(north.style_south_m, -3.677);
        let mut square =
            InstrumentSpec { end_faces: EndFaces::Square, style_north_m: 1.0, ..terrace };
        square.end_faces = EndFaces::Upright;
        fit_others(&mut square, None);
        assert_eq!(square.style_north_m, 2.16);
    }
}
