//! The perspective: from the court's frame to the picture, with what lies behind the eye cut off.

use glam::{DVec2, DVec3};

use super::plan::{Arm, Plan};
use super::staff::Staff;
use crate::core::instrument::Side;
use crate::scene::camera::Camera;

/// Free border round the subject, as fractions of width and height: sides, top, and bottom, where
/// the page lays its buttons over the picture.
const MARGIN: (f64, f64, f64) = (0.06, 0.07, 0.135);
/// How much more the page's buttons take at the top.
const BUTTONS: f64 = 0.075;
/// The same for pictures lower than a phone's is broad.
const SMALL_MARGIN: (f64, f64, f64) = (0.03, 0.04, 0.03);
const SMALL_PX: f64 = 320.0;
/// The same where no buttons lie over the picture but the one that leads back.
const FREE_MARGIN: (f64, f64, f64) = (0.04, 0.085, 0.05);
/// The frame is never wider than this, as the tangent of half its angle.
const WIDEST: f64 = 1.6;
/// Distance of the eye, in reaches of what room is made for, from which it begins to be made, and
/// over how much more it comes to be made in full.
const ROOM_FROM: f64 = 1.2;
const ROOM_OVER: f64 = 0.6;
/// Nearest distance that is drawn, in radii.
const NEAR: f64 = 0.02;

/// A camera set up before an instrument, for a picture of a given size.
#[derive(Debug)]
pub(super) struct View {
    pub(super) eye: DVec3,
    pub(super) size: DVec2,
    right: DVec3,
    up: DVec3,
    ahead: DVec3,
    near: f64,
    /// Cosine and sine of the roll.
    turn: DVec2,
    /// Pixels to a unit of the image plane.
    focal: f64,
    /// Where the middle of the image plane's axis lies in the picture.
    centre: DVec2,
    enlargement: f64,
    /// Whether the picture is in motion.
    pub(super) in_motion: bool,
}

/// Pixels to a radius in the reference picture.
const REFERENCE_PX: f64 = 285.0;

impl View {
    /// The view of the instrument alone.
    #[cfg(test)]
    pub(super) fn new(camera: &Camera, plan: &Plan, size: DVec2) -> Self {
        Self::with_room(camera, plan, size, &[], true)
    }

    /// The view with room for more than the instrument: points, each with how much it counts.
    /// From inside what they make up the picture stays as it is.
    pub(super) fn with_room(
        camera: &Camera,
        plan: &Plan,
        size: DVec2,
        room: &[(DVec3, f64)],
        covered: bool,
    ) -> Self {
        let target = plan.to_court(camera.target());
        let eye = cleared(plan, plan.to_court(camera.eye()));
        let back = plan.to_court(camera.towards_eye());
        let sight = eye - target;
        let tilt = camera.tilt_rad(sight.z.atan2(sight.dot(back)));
        let (sin, cos) = tilt.sin_cos();
        // `right` is taken in the site frame, where it is on the right in both hemispheres.
        let right = plan.to_court(DVec3::Z.cross(camera.towards_eye()));
        let mut view = Self {
            eye,
            size,
            right,
            up: DVec3::Z * cos - back * sin,
            ahead: -(back * cos + DVec3::Z * sin),
            near: NEAR * plan.unit,
            turn: DVec2::from_angle(camera.roll_rad()),
            focal: 1.0,
            centre: DVec2::ZERO,
            enlargement: 1.0,
            in_motion: false,
        };
        view.compose(camera, plan, room, covered);
        view.enlargement = view.scale_at(target) * plan.unit / REFERENCE_PX;
        view
    }

    /// Sets the scale and the offset so that the subject fills the frame inside its margins.
    fn compose(&mut self, camera: &Camera, plan: &Plan, room: &[(DVec3, f64)], covered: bool) {
        let about = plan.to_court(camera.about());
        let (mut least, mut most) = (DVec2::splat(f64::MAX), DVec2::splat(f64::MIN));
        let closest = 0.1 * (self.eye - about).length();
        let mut include = |point: DVec3, interest: f64| {
            let seen = self.seen(about.lerp(point, interest));
            let flat = self.on_plane(seen.with_z(seen.z.max(closest)));
            let flat = flat.clamp(DVec2::splat(-4.0), DVec2::splat(4.0));
            (least, most) = (least.min(flat), most.max(flat));
        };
        subject(camera, plan, &mut include);
        let farthest = room.iter().map(|(point, _)| point.length()).fold(0.0, f64::max);
        let outside = (self.eye.length() / farthest.max(1e-9) - ROOM_FROM) / ROOM_OVER;
        for &(point, interest) in room {
            include(point, interest * outside.clamp(0.0, 1.0));
        }
        let small = self.size.y < SMALL_PX;
        let (side, mut top, bottom) = match covered {
            true if small => SMALL_MARGIN,
            true => MARGIN,
            false => FREE_MARGIN,
        };
        if !small {
            // What reaches up beside the instrument shall not end under the buttons there.
            top += BUTTONS * room.iter().fold(0.0, |most: f64, &(_, share)| most.max(share));
        }
        let inside = self.size * DVec2::new(1.0 - 2.0 * side, 1.0 - top - bottom);
        let extent = (most - least).max(DVec2::splat(1e-6));
        let widest = self.size.x / (2.0 * WIDEST);
        let focal = (inside / extent).min_element().max(widest);
        let middle = self.size * DVec2::new(0.5, (1.0 + top - bottom) / 2.0);
        let frame_centre = self.size / 2.0;
        // A part shown close up does not pull the picture away from there.
        let aim = self.seen(about);
        let whole = camera.interest().greatest();
        let middle_of = (least + most) / 2.0;
        let subject = self.on_plane(aim).lerp(middle_of, whole).with_y(middle_of.y);
        let offset = middle - subject * focal - frame_centre;
        self.focal = focal * camera.zoom();
        self.centre = frame_centre + offset * camera.zoom() + camera.shift() * self.size;
    }

    /// A point in the eye's axes: right, up, ahead.
    pub(super) fn seen(&self, point: DVec3) -> DVec3 {
        self.direction(point - self.eye)
    }

    /// A direction in the eye's axes.
    pub(super) fn direction(&self, v: DVec3) -> DVec3 {
        DVec3::new(v.dot(self.right), v.dot(self.up), v.dot(self.ahead))
    }

    fn on_plane(&self, seen: DVec3) -> DVec2 {
        self.turn.rotate(DVec2::new(seen.x, -seen.y) / seen.z)
    }

    /// The picture of a point in the eye's axes that lies ahead of it.
    pub(super) fn picture(&self, seen: DVec3) -> DVec2 {
        self.on_plane(seen) * self.focal + self.centre
    }

    /// The picture of a point, unless it is behind the eye.
    pub(super) fn project(&self, point: DVec3) -> Option<DVec2> {
        let seen = self.seen(point);
        (seen.z > self.near).then(|| self.picture(seen))
    }

    /// The picture of a line, cut where it passes the eye.
    pub(super) fn segment(&self, from: DVec3, to: DVec3) -> Option<[DVec2; 2]> {
        let (mut a, mut b) = (self.seen(from), self.seen(to));
        if a.z < self.near && b.z < self.near {
            return None;
        }
        if a.z < self.near {
            a = self.cut(a, b);
        } else if b.z < self.near {
            b = self.cut(b, a);
        }
        Some([self.picture(a), self.picture(b)])
    }

    /// Appends the picture of a polygon, cut where it passes the eye.
    pub(super) fn polygon(
        &self,
        corners: &mut dyn Iterator<Item = DVec3>,
        picture: &mut Vec<DVec2>,
    ) {
        let mut corners = corners.map(|corner| self.seen(corner));
        let Some(first) = corners.next() else { return };
        let mut last = first;
        for corner in corners.chain([first]) {
            if (last.z < self.near) != (corner.z < self.near) {
                let (behind, ahead) =
                    if last.z < self.near { (last, corner) } else { (corner, last) };
                picture.push(self.picture(self.cut(behind, ahead)));
            }
            if corner.z >= self.near {
                picture.push(self.picture(corner));
            }
            last = corner;
        }
    }

    /// Where the line from a point behind the near plane to one before it crosses the plane.
    fn cut(&self, behind: DVec3, ahead: DVec3) -> DVec3 {
        let share = (self.near - behind.z) / (ahead.z - behind.z);
        behind.lerp(ahead, share).with_z(self.near)
    }

    /// Where the Sun is in the plane of the picture, if it stands ahead.
    pub(super) fn sun(&self, to_sun: DVec3) -> Option<DVec2> {
        let seen = self.direction(to_sun);
        (seen.z >= 0.05).then(|| self.picture(seen))
    }

    /// Whether the Sun itself is in the picture.
    pub(super) fn shows_sun(&self, to_sun: DVec3) -> bool {
        let at = self.sun(to_sun);
        at.is_some_and(|at| at.cmpge(DVec2::ZERO).all() && at.cmple(self.size).all())
    }

    /// Pixels to a metre square to the line of sight at a point.
    pub(super) fn scale_at(&self, point: DVec3) -> f64 {
        self.focal / self.seen(point).z.max(self.near)
    }

    /// Pixels to a unit of the image plane.
    pub(super) fn focal(&self) -> f64 {
        self.focal
    }

    /// Size of the instrument in the picture, 1 as in the reference picture 1200 px wide.
    pub(super) fn enlargement(&self) -> f64 {
        self.enlargement
    }

    /// Where an outward face can be seen from.
    pub(super) fn faces(&self, point: DVec3, normal: DVec3) -> bool {
        (self.eye - point).dot(normal) > 0.0
    }

    /// Whether a box of the picture lies inside the frame, or reaches into it.
    pub(super) fn shows(&self, least: DVec2, most: DVec2) -> bool {
        most.x >= 0.0 && most.y >= 0.0 && least.x <= self.size.x && least.y <= self.size.y
    }

    /// The level direction that lies ahead, not normalised.
    pub(super) fn horizon_ahead(&self) -> DVec3 {
        self.ahead.with_z(0.0)
    }

    /// A point of the horizon, its direction to the right, and upwards; `None` if the picture
    /// looks too steeply down or up to show one.
    pub(super) fn horizon(&self) -> Option<(DVec2, DVec2, DVec2)> {
        let ahead = self.horizon_ahead().normalize_or_zero();
        let seen = self.direction(ahead);
        (seen.z > 0.05).then(|| {
            (self.picture(seen), self.turn.rotate(DVec2::X), self.turn.rotate(DVec2::NEG_Y))
        })
    }
}

/// The points that make up the instrument's outline, each with how much it counts.
fn subject(camera: &Camera, plan: &Plan, mut each: impl FnMut(DVec3, f64)) {
    let interest = camera.interest();
    if interest.greatest() < 1.0 {
        // Close up: both rims of the stone looked at, with room for what is written below.
        let about = plan.to_court(camera.about());
        for s in [-1.55, 1.25] {
            each(about + plan.s() * (s * plan.half_slab), 1.0);
        }
    }
    for side in Side::BOTH {
        let arm = Arm::new(plan, side);
        let share = if side == Side::West { interest.west } else { interest.east };
        for step in 0..=6 {
            let angle = f64::from(step) * std::f64::consts::FRAC_PI_2 / 6.0;
            let (sin, cos) = angle.sin_cos();
            for s in [-plan.half_slab, plan.half_slab] {
                for radius in [arm.radius, arm.outer()] {
                    each(arm.point(radius * sin, -radius * cos, s), share);
                }
            }
        }
        // The foot of the support counts with the whole instrument only.
        let out = plan.support_end(side);
        for s in [plan.support().0, plan.support().1] {
            let foot = arm.point(out, arm.outer_m(out), s).with_z(plan.deck);
            each(foot, share.min(interest.wall));
        }
    }
    // The staff, and room for a person beside it.
    each(Staff::new(plan).foot() + DVec3::X * (0.12 * plan.unit), interest.wall);
    let (least, most) = plan.platform;
    for corner in [least, most, DVec2::new(least.x, most.y), DVec2::new(most.x, least.y)] {
        for z in [plan.deck, plan.ground] {
            each(corner.extend(z), interest.wall);
        }
    }
    for corner in &plan.wall {
        for x in [-plan.half_wall, plan.half_wall] {
            each(DVec3::new(x, corner.x, corner.y), interest.wall);
        }
    }
}

/// The eye, lifted over the masonry where it would stand inside or too close.
fn cleared(plan: &Plan, eye: DVec3) -> DVec3 {
    let pad = 0.1 * plan.unit;
    let lowest = plan.deck + pad;
    let over_wall = wall_height(plan, eye.x, eye.y) + pad;
    let over_arms = Side::BOTH
        .map(|side| arm_height(&Arm::new(plan, side), eye))
        .into_iter()
        .fold(f64::MIN, f64::max);
    eye.with_z(eye.z.max(lowest).max(over_wall).max(over_arms + pad))
}

/// How steeply the height to be cleared falls away beside the masonry.
const FALL: f64 = 4.0;

/// Height of the wall's top over a point of the ground, falling away steeply beside it.
fn wall_height(plan: &Plan, x: f64, y: f64) -> f64 {
    let [low, high] = plan.style_ends();
    let (from, to) = plan.wall_span();
    let over = y.clamp(from, to);
    let share = ((over - low.x) / (high.x - low.x).max(1e-9)).clamp(0.0, 1.0);
    let top = low.y + (high.y - low.y) * share;
    top - FALL * (x.abs() - plan.half_wall).max(0.0).hypot(y - over)
}

/// The same for a quadrant.
fn arm_height(arm: &Arm<'_>, eye: DVec3) -> f64 {
    let plan = arm.plan;
    const STEPS: u32 = 8;
    let out = arm.local(eye).x;
    (0..STEPS)
        .map(|step| {
            let (near, far) = (f64::from(step), f64::from(step + 1));
            let (near, far) = (near / f64::from(STEPS), far / f64::from(STEPS));
            let (near, far) = (near * arm.outer(), far * arm.outer());
            let top = arm.inner_m(far);
            let corners = [
                plan.point(0.0, arm.outer_m(near), -plan.half_slab),
                plan.point(0.0, arm.outer_m(near), plan.half_slab),
                plan.point(0.0, top, -plan.half_slab),
                plan.point(0.0, top, plan.half_slab),
            ];
            let low = corners.iter().fold(f64::MAX, |low, corner| low.min(corner.y));
            let high = corners.iter().fold(f64::MIN, |high, corner| high.max(corner.y));
            let z = corners.iter().fold(f64::MIN, |z, corner| z.max(corner.z));
            let beside = out - out.clamp(near, far);
            let along = eye.y - eye.y.clamp(low, high);
            z - FALL * beside.hypot(along)
        })
        .fold(f64::MIN, f64::max)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::core::instrument::PRESETS;
    use crate::scene::camera::Standpoint;

    const SIZE: DVec2 = DVec2::new(876.0, 508.0);

    fn each_view(mut check: impl FnMut(&Plan, &View)) {
        for preset in &PRESETS {
            let Ok(instrument) = preset.instrument() else { panic!("a preset is valid") };
            let plan = Plan::new(&instrument);
            for standpoint in Standpoint::ALL {
                let camera = Camera::for_standpoint(standpoint, &instrument, 0.7);
                for (turn, rise) in [(0.0, 0.0), (1.0, 0.3), (-2.0, 1.4), (3.0, -0.5)] {
                    check(&plan, &View::new(&camera.orbited(turn, rise), &plan, SIZE));
                }
            }
        }
    }

    #[test]
    fn the_subject_is_centred_between_its_margins() {
        let (side, top, bottom) = MARGIN;
        for preset in &PRESETS {
            let Ok(instrument) = preset.instrument() else { panic!("a preset is valid") };
            let plan = Plan::new(&instrument);
            let camera = Camera::for_standpoint(Standpoint::Visitor, &instrument, 0.7);
            let view = View::new(&camera, &plan, SIZE);
            let (mut least, mut most) = (DVec2::MAX, DVec2::MIN);
            subject(&camera, &plan, |point, _| {
                let Some(seen) = view.project(point) else { panic!("in front of the eye") };
                (least, most) = (least.min(seen), most.max(seen));
            });
            let middle = SIZE * DVec2::new(0.5, (1.0 + top - bottom) / 2.0);
            assert!(least.midpoint(most).distance(middle) < 1e-6);
            let inside = SIZE * DVec2::new(1.0 - 2.0 * side, 1.0 - top - bottom);
            let fills = ((most - least) / inside).max_element();
            assert!((fills - 1.0).abs() < 1e-9, "{} fills {fills}", preset.key);
        }
    }

    #[test]
    fn plumb_walls_are_plumb_to_a_visitor() {
        for preset in &PRESETS {
            let Ok(instrument) = preset.instrument() else { panic!("a preset is valid") };
            let plan = Plan::new(&instrument);
            let camera = Camera::for_standpoint(Standpoint::Visitor, &instrument, 0.7);
            let view = View::new(&camera, &plan, SIZE);
            let corner = plan.style_ends()[1];
            let corner = DVec3::new(plan.half_wall, corner.x, corner.y);
            let ends = view.segment(corner, corner.with_z(plan.ground));
            let Some([top, foot]) = ends else { panic!("in front of the eye") };
            assert!((top.x - foot.x).abs() < 1e-9, "{} leans", preset.key);
        }
    }

    #[test]
    fn a_polygon_partly_behind_the_eye_is_cut_and_stays_finite() {
        each_view(|plan, view| {
            let far = 50.0 * plan.unit;
            let ground = [(-far, -far), (far, -far), (far, far), (-far, far)]
                .map(|(x, y)| DVec3::new(x, y, plan.ground));
            let mut picture = Vec::new();
            view.polygon(&mut ground.into_iter(), &mut picture);
            assert!(picture.len() >= 3 && picture.iter().all(|point| point.is_finite()));
            let behind = view.eye - view.ahead * plan.unit;
            assert_eq!(view.project(behind), None);
            assert!(view.segment(behind, view.eye + view.ahead * plan.unit).is_some());
            assert!(view.segment(behind, behind + view.up).is_none());
        });
    }

    #[test]
    fn the_eye_is_never_in_the_stone() {
        each_view(|plan, view| {
            for body in super::super::body::bodies(plan) {
                let inside = body
                    .crossed(view.eye, DVec3::Z)
                    .is_some_and(|(enters, leaves)| enters <= 0.0 && leaves >= 0.0);
                assert!(!inside, "{} is inside", view.eye);
            }
        });
    }
}
