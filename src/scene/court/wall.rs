//! The wall: two parapets along the style's edges with steps between them.
//!
//! Three slices side by side, parted by upright planes along the wall; the middle one holds the
//! steps, which planes square to the wall part in turn.

use glam::{DVec2, DVec3};

use super::ambient;
use super::cast::Caster;
use super::convex::clip_half;
use super::easel::{Easel, Shapes};
use super::flight::Steps;
use super::light::Light;
use super::plan::Plan;
use super::scale;
use super::view::View;
use crate::core::instrument::{Instrument, Side};
use crate::scene::drawing::Colour;

/// The wall ready to be painted.
pub(super) struct Wall<'a> {
    instrument: &'a Instrument,
    plan: &'a Plan,
    light: &'a Light<'a>,
    caster: Option<&'a Caster<'a>>,
    steps: Option<Steps>,
    /// Depth of the channel's floor below the style, measured plumb.
    depth: f64,
}

impl<'a> Wall<'a> {
    pub(super) fn new(
        instrument: &'a Instrument,
        plan: &'a Plan,
        light: &'a Light<'a>,
        caster: Option<&'a Caster<'a>>,
    ) -> Self {
        let depth = (0.9 * plan.half_channel()).min(0.055 * plan.unit);
        let steps = Steps::new(plan, depth);
        Self { instrument, plan, light, caster, steps, depth }
    }

    /// Paints the wall for an eye on either side of it, or above it.
    pub(super) fn paint(&self, easel: &mut Easel<'_>) {
        let channel = self.plan.half_channel();
        let eye = easel.view.eye.x;
        if eye > channel {
            self.parapet(easel, -1.0);
            self.channel(easel);
            self.parapet(easel, 1.0);
        } else if eye < -channel {
            self.parapet(easel, 1.0);
            self.channel(easel);
            self.parapet(easel, -1.0);
        } else {
            self.parapet(easel, -1.0);
            self.parapet(easel, 1.0);
            self.channel(easel);
        }
    }

    fn at(&self, x: f64, corner: DVec2) -> DVec3 {
        DVec3::new(x, corner.x, corner.y)
    }

    /// One parapet with the outer side of the wall; `sign` is that of its `x`.
    fn parapet(&self, easel: &mut Easel<'_>, sign: f64) {
        let (outer, inner) = (sign * self.plan.half_wall, sign * self.plan.half_channel());
        let eye = easel.view.eye.x;
        let [low, high] = self.plan.style_ends();
        if eye * sign < inner.abs() {
            self.inner_side(easel, inner, -sign);
        }
        for end in self.plan.wall_ends() {
            self.end_face(easel, (outer, inner), end);
        }
        if eye * sign > outer.abs() {
            self.side(easel, outer, sign);
        }
        let top =
            [self.at(outer, low), self.at(outer, high), self.at(inner, high), self.at(inner, low)];
        if easel.view.faces(top[0], self.plan.m()) {
            easel.fill(top, self.light.stone(self.plan.m()));
        }
        if easel.view.faces(top[0], self.plan.m()) {
            scale::paint(easel, self.instrument, self.plan, self.light, sign);
        }
        let line = easel.stroke(self.light.line(), 0.9);
        if easel.view.faces(top[0], self.plan.m()) || eye * sign < inner.abs() {
            easel.lines(|shapes, view| shapes.line(view, top[3], top[2]), line);
        }
        if easel.view.faces(top[0], self.plan.m()) || eye * sign > outer.abs() {
            let line = easel.stroke(self.light.line(), 1.5);
            easel.lines(|shapes, view| shapes.line(view, top[0], top[1]), line);
        }
    }

    /// The inside of a parapet, down to below the steps.
    fn inner_side(&self, easel: &mut Easel<'_>, x: f64, sign: f64) {
        let [low, high] = self.plan.style_ends();
        let [low_floor, high_floor] = self.floor_ends();
        // Half a step below the treads' fronts, the steps hide it.
        let deeper = DVec2::new(0.0, self.steps.map_or(0.0, |steps| -steps.rise));
        let mut face = vec![low, high, high_floor + deeper, low_floor + deeper];
        clip_half(&mut face, |corner| corner.y - self.plan.deck, &mut Vec::new());
        let normal = DVec3::X * sign;
        // The other parapet shades most of it.
        let tone = self.light.shaded(normal).mixed(self.light.stone(normal), 0.35);
        easel.fill(face.into_iter().map(|corner| self.at(x, corner)), tone);
    }

    /// Where the channel's floor meets the ends of the wall.
    fn floor_ends(&self) -> [DVec2; 2] {
        let mut floor = self.plan.style_ends();
        let up = DVec2::new(-self.plan.sin, self.plan.cos);
        for (top, base, _) in self.plan.wall_ends() {
            for end in &mut floor {
                let down = (base - top).normalize_or_zero();
                let fall = -down.dot(up);
                if end.distance(top) < 1e-9 * self.plan.unit && fall > 0.05 {
                    *end = top + down * (self.depth * self.plan.cos / fall);
                }
            }
        }
        floor
    }

    /// A piece of an end of the wall between two values of `x`.
    fn end_face(
        &self,
        easel: &mut Easel<'_>,
        (one, other): (f64, f64),
        (top, base, outward): (DVec2, DVec2, DVec3),
    ) {
        if !easel.view.faces(self.at(0.0, top), outward) {
            return;
        }
        let face =
            [self.at(one, top), self.at(other, top), self.at(other, base), self.at(one, base)];
        easel.fill(face, self.light.stone(outward));
        let line = easel.stroke(self.light.line(), 1.1);
        let outermost = if one.abs() > other.abs() { one } else { other };
        easel.lines(
            |shapes, view| {
                shapes.line(view, face[0], face[1]);
                if base.y > self.plan.deck + 1e-9 * self.plan.unit || self.plan.on_platform(base.x)
                {
                    shapes.line(view, face[3], face[2]);
                }
                if outermost.abs() >= self.plan.half_wall {
                    shapes.line(view, self.at(outermost, top), self.at(outermost, base));
                }
            },
            line,
        );
    }

    /// The great side of the wall with its masonry and the shadows on it.
    fn side(&self, easel: &mut Easel<'_>, x: f64, sign: f64) {
        let normal = DVec3::X * sign;
        let face: Vec<DVec3> =
            self.plan.wall_above.iter().map(|&corner| self.at(x, corner)).collect();
        let lit = self.light.sun_is_up() && normal.dot(self.light.to_sun) > 0.0;
        if lit {
            easel.fill(face.iter().copied(), self.light.stone(normal));
        } else {
            let [_, high] = self.plan.style_ends();
            let foot = DVec2::new(self.plan.wall_span().0, self.plan.deck);
            let line = (self.at(x, high), self.at(x, foot));
            let top = self.light.stone(normal).mixed(self.light.palette.deep, 0.3);
            easel.gradient(face.iter().copied(), line, (top, foot_tone(self.light, normal)));
        }
        if let Some(caster) = self.caster.filter(|_| lit) {
            let shade = self.light.shaded(normal);
            easel.fills(
                |shapes, view| caster.shade(&face, normal, |patch| shapes.patch(view, patch)),
                shade,
            );
        }
        let side = if sign < 0.0 { Side::West } else { Side::East };
        ambient::paint_on_wall(easel, self.plan, self.light, side);
        self.courses(easel, x);
        let line = easel.stroke(self.light.line(), 1.5);
        let next = face.iter().cycle().skip(1);
        easel.lines(
            |shapes, view| {
                for (&from, &to) in face.iter().zip(next) {
                    self.edge(shapes, view, from, to);
                }
            },
            line,
        );
    }

    /// An edge of a side: where it runs along the level of the platform, only what is on it.
    fn edge(&self, shapes: &mut Shapes, view: &View, from: DVec3, to: DVec3) {
        let tiny = 1e-9 * self.plan.unit;
        let level = |point: DVec3| point.z < self.plan.deck + tiny;
        if level(from) && level(to) {
            let (low, high) = self.plan.platform;
            let on = |point: DVec3| point.with_y(point.y.clamp(low.y, high.y));
            shapes.line(view, on(from), on(to));
        } else {
            shapes.line(view, from, to);
        }
    }

    /// Masonry joints on a side of the wall.
    fn courses(&self, easel: &mut Easel<'_>, x: f64) {
        let rise = 0.105 * self.plan.unit;
        let block = 0.31 * self.plan.unit;
        let line = easel.stroke(self.light.line().faded(0.33), 0.5);
        let heights = || self.plan.wall_above.iter().map(|corner| corner.y);
        let (base, top) = (heights().fold(f64::MAX, f64::min), heights().fold(f64::MIN, f64::max));
        easel.lines(
            |shapes, view| {
                let mut course = 1;
                while base + f64::from(course) * rise < top {
                    let z = base + f64::from(course) * rise;
                    if let Some((from, to)) = across(&self.plan.wall_above, z) {
                        shapes.line(view, DVec3::new(x, from, z), DVec3::new(x, to, z));
                        self.joints(shapes, view, x, (from, to), z, (rise, block, course));
                    }
                    course += 1;
                }
            },
            line,
        );
    }

    /// The plumb joints under one course.
    fn joints(
        &self,
        shapes: &mut Shapes,
        view: &View,
        x: f64,
        (from, to): (f64, f64),
        z: f64,
        (rise, block, course): (f64, f64, u32),
    ) {
        let mut y = to - block * if course.is_multiple_of(2) { 0.55 } else { 1.05 };
        while y > from + 0.25 * block {
            shapes.line(view, DVec3::new(x, y, z - rise), DVec3::new(x, y, z));
            y -= block;
        }
    }

    /// Floor or steps between the parapets.
    fn channel(&self, easel: &mut Easel<'_>) {
        let half = self.plan.half_channel();
        for (top, base, outward) in self.plan.wall_ends() {
            let top = self.lowered(top, base);
            self.end_face(easel, (-half, half), (top, base, outward));
        }
        match self.steps {
            Some(steps) => self.flight(easel, &steps),
            None => self.floor(easel),
        }
    }

    /// The top of an end in the channel: as high as the floor or the step there.
    fn lowered(&self, top: DVec2, base: DVec2) -> DVec2 {
        let ends = self.plan.style_ends();
        let at_style = |end: &DVec2| end.distance(top) < 1e-9 * self.plan.unit;
        let Some(which) = ends.iter().position(at_style) else { return top };
        let floor = self.floor_ends()[which];
        let lowered = match self.steps {
            Some(steps) => floor.with_y(steps.height_at(floor.x)),
            None => floor,
        };
        if lowered.y > base.y { lowered } else { base }
    }

    /// A plain sunken floor, where the wall is too narrow or too flat or steep for steps.
    fn floor(&self, easel: &mut Easel<'_>) {
        let half = self.plan.half_channel();
        let [low, high] = self.floor_ends();
        let normal = self.plan.m();
        let face = [(-half, low), (half, low), (half, high), (-half, high)]
            .map(|(x, corner)| self.at(x, corner));
        if !easel.view.faces(face[0], normal) {
            return;
        }
        let face = self.above_deck(face);
        easel.fill(face, self.light.stone(normal));
        let shade = self.light.shaded(normal);
        if self.light.sun_is_up() {
            easel.fills(|shapes, view| shapes.polygon(view, self.shaded_part(&face)), shade);
        }
    }

    /// The channel's floor down to the level of the platform: what is lower belongs to the base,
    /// which has been painted.
    fn above_deck(&self, [a, b, c, d]: [DVec3; 4]) -> [DVec3; 4] {
        let lift = self.plan.deck - a.z;
        if lift <= 0.0 || d.z <= self.plan.deck {
            return [a, b, c, d];
        }
        let share = lift / (d.z - a.z);
        [a.lerp(d, share), b.lerp(c, share), c, d]
    }

    /// The part of a quadrilateral in the channel that the parapet on the Sun's side shades.
    fn shaded_part(&self, face: &[DVec3; 4]) -> Vec<DVec3> {
        let sun = self.light.to_sun;
        let sign = if sun.x < 0.0 { -1.0 } else { 1.0 };
        let edge = sign * self.plan.half_channel();
        let m = self.plan.m();
        // How far a ray from a point passes above the parapet's top edge: shaded where below.
        let clearance = |point: DVec3| {
            let way = (edge - point.x) / if sun.x.abs() > 1e-9 { sun.x } else { sign * 1e-9 };
            (point + sun * way).dot(m)
        };
        let mut part = Vec::new();
        for index in 0..4 {
            let (from, to) = (face[index], face[(index + 1) % 4]);
            let (a, b) = (clearance(from), clearance(to));
            if a < 0.0 {
                part.push(from);
            }
            if (a < 0.0) != (b < 0.0) {
                part.push(from.lerp(to, a / (a - b)));
            }
        }
        part
    }

    /// The steps: of each tread and riser only what no other step hides, so that all treads and
    /// all risers can be painted at once.
    fn flight(&self, easel: &mut Easel<'_>, steps: &Steps) {
        let half = self.plan.half_channel();
        let eye = DVec2::new(easel.view.eye.y, easel.view.eye.z);
        let parts = |part: fn(&Steps, u32, f64, DVec2) -> Option<[DVec3; 4]>| {
            let steps = *steps;
            (0..steps.count).filter_map(move |step| part(&steps, step, half, eye))
        };
        let line = easel.stroke(self.light.line().faded(0.8), 0.55);
        for (part, normal) in [
            (Steps::riser as fn(&Steps, u32, f64, DVec2) -> Option<[DVec3; 4]>, DVec3::NEG_Y),
            (Steps::tread, DVec3::Z),
        ] {
            let tone = self.light.stone(normal);
            easel.fills(|s, view| parts(part).for_each(|face| s.polygon(view, face)), tone);
            if self.light.sun_is_up() && normal.dot(self.light.to_sun) > 0.0 {
                let shade = self.light.shaded(normal);
                easel.fills(
                    |s, view| parts(part).for_each(|face| s.polygon(view, self.shaded_part(&face))),
                    shade,
                );
            }
            easel.lines(
                |shapes, view| {
                    for face in parts(part) {
                        shapes.line(view, face[0], face[1]);
                        shapes.line(view, face[3], face[2]);
                    }
                },
                line,
            );
        }
    }
}

/// Tone at the foot of a side out of the Sun, where light from the ground reaches it.
pub(super) fn foot_tone(light: &Light<'_>, normal: DVec3) -> Colour {
    light.stone(normal).mixed(light.paving().0, 0.22)
}

/// Where a level line enters and leaves a convex profile.
fn across(profile: &[DVec2], z: f64) -> Option<(f64, f64)> {
    let mut span: Option<(f64, f64)> = None;
    for (index, &from) in profile.iter().enumerate() {
        let to = profile[(index + 1) % profile.len()];
        if (from.y < z) != (to.y < z) {
            let y = from.lerp(to, (z - from.y) / (to.y - from.y)).x;
            span = Some(span.map_or((y, y), |(least, most)| (least.min(y), most.max(y))));
        }
    }
    span
}
