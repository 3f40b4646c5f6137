//! The declination rod on the style, and its soft shadow on the quadrant.

use std::f64::consts::FRAC_PI_2;

use super::easel::Easel;
use super::light::Light;
use super::plan::{Arm, Plan};
use super::surface::Surface;
use crate::core::instrument::{Instrument, Side};
use crate::core::moment::Moment;
use crate::core::penumbra::uncovered_fraction;
use crate::core::pointer::Pointer;

/// How far the rod stands out over the quadrant, in radii.
const OUT: f64 = 0.2;
/// Bands of the patch along the axis, at least and at most, and their least width in pixels.
const BANDS: (f64, f64) = (4.0, 18.0);
const BAND_PX: f64 = 1.2;
/// Bands in which the patch fades along the arc.
const END_BANDS: u32 = 4;
/// Least breadth of the rod in the picture, pixels.
const LEAST_PX: f64 = 3.0;

/// A rod held on the style edge that throws the shadow.
pub(super) struct Rod<'a> {
    instrument: &'a Instrument,
    plan: &'a Plan,
    pointer: &'a Pointer,
    moment: &'a Moment,
    pub(super) side: Side,
}

impl<'a> Rod<'a> {
    pub(super) fn new(
        instrument: &'a Instrument,
        plan: &'a Plan,
        pointer: &'a Pointer,
        moment: &'a Moment,
    ) -> Self {
        let side = Side::at_hour_angle(moment.on_dial.hour_angle_rad);
        Self { instrument, plan, pointer, moment, side }
    }

    /// Paints the half over the quadrant, or the half over the wall.
    pub(super) fn paint(&self, easel: &mut Easel<'_>, light: &Light<'_>, outer: bool) {
        let arm = Arm::new(self.plan, self.side);
        let s = self.plan.sigma * self.pointer.axial_m();
        let radius = self.pointer.diameter_m() / 2.0;
        let parapet = self.plan.half_wall - self.plan.half_channel();
        let (from, to) = if outer { (0.0, OUT * self.plan.unit) } else { (-1.3 * parapet, 0.0) };
        let (a, b) = (arm.point(from, radius, s), arm.point(to, radius, s));
        let breadth = (2.0 * radius * easel.view.scale_at(a)).max(LEAST_PX) / easel.pen;
        let casing = easel.stroke(light.palette.paper, breadth + 3.0 / easel.pen);
        easel.lines(|shapes, view| shapes.line(view, a, b), casing);
        let body = easel.stroke(light.palette.accent, breadth);
        easel.lines(|shapes, view| shapes.line(view, a, b), body);
    }

    /// Paints the patch on its quadrant: the share of the disc that the rod covers, from the
    /// shadow's edge to as far as the end of the rod reaches. Only a stretch of the arc is painted.
    pub(super) fn paint_shadow(
        &self,
        easel: &mut Easel<'_>,
        surface: &Surface<'_>,
        stretch: (f64, f64),
    ) {
        let sun = self.moment.on_dial;
        if sun.hour_angle_rad.abs() >= FRAC_PI_2 || surface.light.direct == 0.0 {
            return;
        }
        let semidiameter_rad = self.moment.sun.semidiameter_rad;
        let (south, north) =
            self.pointer.shadow(self.instrument, self.side, sun, semidiameter_rad).patch_m;
        let angle = surface.sun_rad.max(0.0);
        let reach = (OUT * self.plan.unit * angle.cos() / surface.arm.radius).min(1.0).asin();
        let end = angle + reach;
        let soft = surface.half_rad.min(reach);
        let umbra = surface.light.umbra(surface.arm.normal(angle));
        let scale = easel.view.scale_at(surface.arm.surface(angle, 0.0));
        let count = ((north - south) * scale / BAND_PX).clamp(BANDS.0, BANDS.1).round();
        let width = (north - south) / count;
        let half = self.plan.half_slab;
        for band in 0..count as u32 {
            let from = south + width * f64::from(band);
            let axial = from + width / 2.0;
            let cover =
                self.pointer.cover_at(self.instrument, self.side, sun, semidiameter_rad, axial);
            let (a, b) = (self.plan.sigma * from, self.plan.sigma * (from + width));
            let limits = (a.min(b).clamp(-half, half), a.max(b).clamp(-half, half));
            if limits.0 >= limits.1 {
                continue;
            }
            // Over the style's own soft edge the two shares multiply, as they should.
            let tone = |share: f64| umbra.faded(cover * share * surface.light.direct);
            let part = |from: f64, to: f64| {
                (from.clamp(stretch.0, stretch.1), to.clamp(stretch.0, stretch.1))
            };
            surface.patch(easel, part(angle - soft, end - soft), limits, tone(1.0));
            for step in 0..END_BANDS {
                let place = |k: u32| f64::from(k) / f64::from(END_BANDS) * 2.0 - 1.0;
                let (near, far) = (place(step), place(step + 1));
                let share = uncovered_fraction(-f64::midpoint(near, far));
                let range = part(end + near * soft, end + far * soft);
                surface.patch(easel, range, limits, tone(share));
            }
        }
    }
}
