//! The shadow of the rod on the quadrant: a core, if the rod is thick enough, and soft edges.

use crate::core::instrument::{Instrument, Side};
use crate::core::moment::Moment;
use crate::core::penumbra::uncovered_fraction;
use crate::core::pointer::Pointer;

/// Places at which the shadow's depth is taken.
const PLACES: u32 = 40;

/// The rod's shadow along the axis of the quadrant.
#[derive(Clone, Copy, Debug)]
pub(super) struct Patch {
    rod_m: f64,
    half_rod_m: f64,
    radius_m: f64,
    declination_rad: f64,
    semidiameter_rad: f64,
    /// Middle of the shadow, axial metres.
    pub middle_m: f64,
    /// South and north limit with the soft edges, axial metres.
    pub limits_m: (f64, f64),
    /// South and north limit of the full shadow, if there is one.
    pub core_m: Option<(f64, f64)>,
    /// Largest part of the Sun's disc that the rod hides, 0 to 1.
    pub peak_cover: f64,
}

impl Patch {
    pub(super) fn new(instrument: &Instrument, moment: &Moment, pointer: &Pointer) -> Self {
        let sun = moment.on_dial;
        let side = Side::at_hour_angle(sun.hour_angle_rad);
        let semidiameter_rad = moment.sun.semidiameter_rad;
        let shadow = pointer.shadow(instrument, side, sun, semidiameter_rad);
        Self {
            rod_m: pointer.axial_m(),
            half_rod_m: pointer.diameter_m() / 2.0,
            radius_m: instrument.built_radius_m(side),
            declination_rad: sun.declination_rad,
            semidiameter_rad,
            middle_m: shadow.shadow_m,
            limits_m: shadow.patch_m,
            core_m: shadow.core_m,
            peak_cover: shadow.peak_cover,
        }
    }

    /// Share of the Sun's disc that the rod hides from a place on the quadrant, 0 to 1: the part
    /// of the disc between the rod's two sides, as seen from there.
    pub(super) fn cover_at(&self, axial_m: f64) -> f64 {
        let towards_rod_rad = ((self.rod_m - axial_m) / self.radius_m).atan();
        let away_m = self.radius_m / towards_rod_rad.cos();
        let half_rad = (self.half_rod_m / away_m).min(1.0).asin();
        let off_rad = towards_rod_rad - self.declination_rad;
        let beside = |angle: f64| uncovered_fraction(angle / self.semidiameter_rad);
        beside(off_rad + half_rad) - beside(off_rad - half_rad)
    }

    /// Places through the shadow, south to north, close enough for straight lines between them.
    pub(super) fn places_m(&self) -> Vec<f64> {
        let (south, north) = self.limits_m;
        let at = |index: u32| south + (north - south) * f64::from(index) / f64::from(PLACES);
        (0..=PLACES).map(at).collect()
    }
}
