//! The declination rod on the style, and its soft shadow on the quadrant.

use std::f64::consts::FRAC_PI_2;

use glam::DVec3;

use super::easel::Easel;
use super::light::Light;
use super::plan::{Arm, Plan};
use super::surface::Surface;
use crate::core::instrument::{Instrument, Side};
use crate::core::moment::Moment;
use crate::core::pointer::Pointer;

/// How far the rod stands out over the quadrant, in radii.
const OUT: f64 = 0.2;
/// Layers of the patch, at least and at most, and the least distance of their borders in pixels.
const LAYERS: (f64, f64) = (3.0, 14.0);
const LAYER_PX: f64 = 0.9;
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
        // Of another colour than the ray, which it crosses.
        let body = easel.stroke(light.palette.ink, breadth);
        easel.lines(|shapes, view| shapes.line(view, a, b), body);
    }

    /// The middle of its shadow and the stone's normal there, where the Sun throws one on the quadrant.
    pub(super) fn shadow_at(&self) -> Option<(DVec3, DVec3)> {
        let sun = self.moment.on_dial;
        if sun.hour_angle_rad.abs() >= FRAC_PI_2 {
            return None;
        }
        let arm = Arm::new(self.plan, self.side);
        let (south, north) =
            self.pointer.shadow(self.instrument, self.side, &self.moment.disc()).patch_m;
        let s = self.plan.sigma * (south + north) / 2.0;
        let angle = sun.hour_angle_rad.abs();
        let middle = (angle + self.reach_rad(&arm, angle) / 2.0).min(FRAC_PI_2);
        (s.abs() < self.plan.half_slab).then(|| (arm.surface(middle, s), arm.normal(middle)))
    }

    /// The end that stands out over the quadrant.
    pub(super) fn end(&self) -> DVec3 {
        let arm = Arm::new(self.plan, self.side);
        let radius = self.pointer.diameter_m() / 2.0;
        arm.point(OUT * self.plan.unit, radius, self.plan.sigma * self.pointer.axial_m())
    }

    /// How far past the shadow's edge at an angle the rod's own shadow reaches, radians.
    fn reach_rad(&self, arm: &Arm<'_>, angle: f64) -> f64 {
        (OUT * self.plan.unit * angle.cos() / arm.radius).min(1.0).asin()
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
        let disc = self.moment.disc();
        let (south, north) = self.pointer.shadow(self.instrument, self.side, &disc).patch_m;
        let angle = surface.sun_rad.max(0.0);
        let reach = self.reach_rad(&surface.arm, angle);
        let end = angle + reach;
        let soft = surface.half_rad.min(reach);
        let umbra = surface.light.umbra(surface.arm.normal(angle));
        let scale = easel.view.scale_at(surface.arm.surface(angle, 0.0));
        let layers = ((north - south) / 2.0 * scale / LAYER_PX).clamp(LAYERS.0, LAYERS.1).round();
        let half = self.plan.half_slab;
        // Layers one inside the other, each adding to what the rod covers there; over the style's
        // own soft edge the two shares multiply, as they should.
        let mut before = 0.0_f64;
        for layer in 0..layers as u32 {
            let inset = (north - south) / 2.0 * f64::from(layer) / layers;
            let step = (north - south) / 2.0 / layers;
            let place_m = south + inset + step / 2.0;
            let cover = self.pointer.cover_at(self.instrument, self.side, &disc, place_m);
            let adds = 1.0 - (1.0 - cover) / (1.0 - before).max(1e-6);
            before = cover;
            let ends = [south + inset, north - inset].map(|axial| self.plan.sigma * axial);
            let limits =
                (ends[0].min(ends[1]).clamp(-half, half), ends[0].max(ends[1]).clamp(-half, half));
            let fades = 1.0 - 2.0 * (f64::from(layer) + 0.5) / layers;
            let from = (angle - soft).clamp(stretch.0, stretch.1);
            let to = (end + soft * fades).clamp(stretch.0, stretch.1);
            if limits.0 < limits.1 {
                let tone = umbra.faded(adds * surface.light.direct);
                surface.patch(easel, (from, to), limits, tone);
            }
        }
    }
}
