//! The declination rod on the style, and its soft shadow on the quadrant.

use std::f64::consts::FRAC_PI_2;

use super::easel::Easel;
use super::light::Light;
use super::plan::{Arm, Plan};
use super::surface::Surface;
use crate::core::dial::DialAngles;
use crate::core::instrument::{Instrument, Side};
use crate::core::moment::Moment;
use crate::core::penumbra::uncovered_fraction;
use crate::core::pointer::{Pointer, PointerReading};

/// How far the rod stands out over the quadrant, in radii.
const OUT: f64 = 0.22;
/// Bands of the patch along the axis, and along the arc where it ends.
const BANDS: u32 = 14;
const END_BANDS: u32 = 4;
/// Least breadth of the rod in the picture, pixels.
const LEAST_PX: f64 = 3.0;

/// A rod held on the style edge that throws the shadow.
pub(super) struct Rod<'a> {
    plan: &'a Plan,
    pub(super) side: Side,
    s: f64,
    radius: f64,
    shadow: Option<PointerReading>,
}

impl<'a> Rod<'a> {
    pub(super) fn new(
        instrument: &Instrument,
        plan: &'a Plan,
        pointer: &Pointer,
        moment: &Moment,
    ) -> Self {
        let sun: DialAngles = moment.on_dial;
        let side = Side::at_hour_angle(sun.hour_angle_rad);
        let lit = sun.hour_angle_rad.abs() < FRAC_PI_2;
        let semidiameter_rad = moment.sun.semidiameter_rad;
        let shadow = lit.then(|| pointer.shadow(instrument, side, sun, semidiameter_rad));
        Self {
            plan,
            side,
            s: plan.sigma * pointer.axial_m(),
            radius: pointer.diameter_m() / 2.0,
            shadow,
        }
    }

    /// Paints the half over the quadrant, or the half over the wall.
    pub(super) fn paint(&self, easel: &mut Easel<'_>, light: &Light<'_>, outer: bool) {
        let arm = Arm::new(self.plan, self.side);
        let parapet = self.plan.half_wall - self.plan.half_channel();
        let (from, to) = if outer { (0.0, OUT * self.plan.unit) } else { (-1.2 * parapet, 0.0) };
        let (a, b) = (arm.point(from, self.radius, self.s), arm.point(to, self.radius, self.s));
        let breadth = (2.0 * self.radius * easel.view.scale_at(a)).max(LEAST_PX) / easel.pen;
        let casing = easel.stroke(light.palette.paper, breadth + 3.0 / easel.pen);
        easel.lines(|shapes, view| shapes.line(view, a, b), casing);
        let body = easel.stroke(light.palette.accent, breadth);
        easel.lines(|shapes, view| shapes.line(view, a, b), body);
    }

    /// Paints the patch on its quadrant: what share of the disc the rod covers, from the
    /// shadow's edge to as far as the rod's end reaches.
    pub(super) fn paint_shadow(&self, easel: &mut Easel<'_>, surface: &Surface<'_>) {
        let Some(shadow) = self.shadow else { return };
        let half = self.plan.half_slab;
        let sigma = self.plan.sigma;
        let (south, north) = (sigma * shadow.patch_m.0, sigma * shadow.patch_m.1);
        let (low, high) = (south.min(north), south.max(north));
        let (middle, reach) = (low.midpoint(high), (high - low) / 2.0);
        let sun = surface.sun_rad.max(0.0);
        let length = OUT * self.plan.unit * sun.cos() / surface.arm.radius;
        let end = (sun + length.min(1.0).asin()).min(FRAC_PI_2);
        let soft = surface.half_rad.min(end - sun);
        for band in 0..BANDS {
            let at = |k: u32| low + (high - low) * f64::from(k) / f64::from(BANDS);
            let (from, to) = (at(band).max(-half), at(band + 1).min(half));
            if from >= to {
                continue;
            }
            let off = ((at(band) + at(band + 1)) / 2.0 - middle) / reach;
            let cover = shadow.cover(off.abs());
            let tone = surface.light.umbra(surface.arm.normal(sun));
            let share = cover * surface.light.direct;
            surface.patch(easel, (sun - soft, end - soft), (from, to), tone.faded(share));
            for step in 0..END_BANDS {
                let place = |k: u32| end - soft + 2.0 * soft * f64::from(k) / f64::from(END_BANDS);
                let off = (f64::from(step) + 0.5) / f64::from(END_BANDS) * 2.0 - 1.0;
                let fading = share * uncovered_fraction(-off);
                surface.patch(easel, (place(step), place(step + 1)), (from, to), tone.faded(fading));
            }
        }
    }
}
