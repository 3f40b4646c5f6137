//! Changing one thing of an instrument so that the rest still fits it.

use super::{InstrumentSpec, Limits, QUANTITIES, Quantity};
use crate::core::field::FieldError;

/// Places are rounded to millimetres, inwards.
const PER_METRE: f64 = 1000.0;

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

/// Brings what does not fit the rest to the nearest value that does, but leaves one quantity alone.
pub fn fit_others(spec: &mut InstrumentSpec, but: Option<&Quantity>) {
    // The style's ends hang on the plinth, which comes after them: twice over the table is enough.
    for quantity in QUANTITIES.iter().chain(&QUANTITIES) {
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
