//! The ray that is read: from the Sun over the style to the edge of the shadow.

use glam::{DVec2, DVec3};

use super::body::Body;
use super::cast::Caster;
use super::easel::Easel;
use super::guides::DOME;
use super::label::Labels;
use super::light::Light;
use super::plan::{Arm, Plan};
use crate::core::instrument::Side;
use crate::core::moment::Moment;
use crate::scene::drawing::{Colour, Stroke};
use crate::words::{Words, figures};

/// Widths in the reference picture: the ray, and its casing on either side.
const WIDTH: f64 = 2.0;
const CASING_PX: f64 = 1.5;
/// Dash and gap of the ray past the style, pixels.
const DASH: (f64, f64) = (9.0, 5.0);
/// Border of the frame that the ray does not reach, pixels.
const INSET_PX: f64 = 22.0;
/// How far from the middle of the Sun's disc the ray ends, and the length of its head, pixels.
const SUN_PX: f64 = 12.0;
const ARROW_PX: f64 = 13.0;
/// How strong the ring is where stone hides the place that is read.
const HIDDEN: f64 = 0.6;
/// Narrowest frame in which the Sun's altitude is written, in heights of the type.
const LEAST_ROOM: f64 = 32.0;

/// The places of the ray.
pub(super) struct Ray<'a> {
    plan: &'a Plan,
    light: &'a Light<'a>,
    moment: &'a Moment,
    /// Whether the dome of the Sun's paths is drawn.
    under_dome: bool,
    /// Where it touches the style.
    style: DVec3,
    /// The edge that is read: the arm, the angle, and the point that is read.
    read: Option<(Arm<'a>, f64, DVec3)>,
}

impl<'a> Ray<'a> {
    /// The ray of a moment; `None` while the Sun is down.
    pub(super) fn new(
        plan: &'a Plan,
        light: &'a Light<'a>,
        moment: &'a Moment,
        under_dome: bool,
    ) -> Option<Self> {
        if !light.sun_is_up() {
            return None;
        }
        let style = touched(plan, moment, (light.hour_angle_rad, light.declination_rad));
        let read = moment.reading.as_ref().ok().map(|reading| {
            let arm = Arm::new(plan, reading.edge.side);
            let angle = reading.edge.hour_angle_rad.abs();
            let s = read_s(&arm, moment, light.declination_rad);
            (arm, angle, arm.surface(angle, s))
        });
        Some(Self { plan, light, moment, under_dome, style, read })
    }

    /// Lays the ray over the picture, with its ring and the reading; answers with the part of it
    /// from the style towards the Sun.
    pub(super) fn paint(
        &self,
        easel: &mut Easel<'_>,
        bodies: &[Body],
        labels: &mut Labels<'_>,
        words: &Words,
    ) -> Option<[DVec2; 2]> {
        // Under the dome of the Sun's paths it ends at the Sun there.
        let reach = if self.under_dome { DOME } else { 60.0 };
        let far = self.style + self.light.to_sun * (reach * self.plan.unit);
        let whole = self.framed(easel, self.style, far);
        let above = whole.map(|[from, to]| {
            if self.under_dome || easel.view.shows_sun(self.light.to_sun) {
                // As far as the disc.
                let back = (from - to).normalize_or_zero() * SUN_PX;
                [from, to + back]
            } else {
                short_of_buttons([from, to], labels)
            }
        });
        let below =
            self.read.as_ref().and_then(|(_, _, read)| self.framed(easel, self.style, *read));
        // Close up it comes from out of the frame.
        let below = below.map(|[from, to]| {
            let [to, from] = short_of_buttons([to, from], labels);
            [from, to]
        });
        for line in [above, below].into_iter().flatten() {
            labels.keep_off(line);
        }
        let p = self.light.palette;
        let width = WIDTH * easel.pen.max(0.8);
        let casing = Stroke::solid(p.paper.faded(0.92), width + 2.0 * CASING_PX);
        let full = Stroke::solid(p.accent, width);
        easel.drawing.lines([above, below].into_iter().flatten(), casing);
        if let Some(line) = above {
            easel.drawing.line(line, full);
        }
        if let Some(line) = below {
            easel.drawing.line(line, Stroke { dash: Some(DASH), ..full });
        }
        if let Some(touch) = easel.view.project(self.style) {
            dot(easel, touch, 3.4, (p.accent, p.paper), CASING_PX);
        }
        if let Some([touch, end]) = above {
            let casing = Stroke::solid(p.paper, 2.0 * CASING_PX);
            arrow(easel, end.lerp(touch, 0.35), touch - end, (p.accent, casing));
        }
        self.paint_reading(easel, bodies, labels, words);
        above
    }

    /// Says beside the ray where it comes from.
    pub(super) fn note_sun(
        &self,
        easel: &mut Easel<'_>,
        labels: &mut Labels<'_>,
        words: &Words,
        [touch, end]: [DVec2; 2],
    ) {
        // A Sun on the dome needs no words.
        if self.under_dome || easel.view.size.x < LEAST_ROOM * labels.type_px {
            return;
        }
        let altitude = figures::degrees(self.moment.sun.seen.altitude_rad);
        let ahead = easel.view.direction(self.light.to_sun).z > 0.0;
        let key = if ahead { "court.from-sun" } else { "court.from-sun-behind" };
        let back = (touch - end).normalize_or_zero() * labels.type_px;
        for key in [key, "court.from-sun-short"] {
            let text = words.fill(key, &[("altitude", &altitude)]);
            // Near its end or farther down.
            for letters in [1.6, 5.0, 9.0] {
                let above = letters * labels.type_px < touch.distance(end);
                if above && labels.beside(easel.drawing, end + back * letters, &text, &BESIDE) {
                    return;
                }
            }
        }
    }

    /// The ring, the marks on the rims, and the reading.
    fn paint_reading(
        &self,
        easel: &mut Easel<'_>,
        bodies: &[Body],
        labels: &mut Labels<'_>,
        words: &Words,
    ) {
        let (Some((arm, angle, read)), Ok(reading)) = (&self.read, &self.moment.reading) else {
            return;
        };
        let Some(ring) = easel.view.project(*read) else { return };
        let p = self.light.palette;
        let normal = arm.normal(*angle);
        let rims = [-1.0, 1.0].map(|sign| arm.surface(*angle, sign * self.plan.half_slab));
        if let Some(edge) = easel.view.segment(rims[0], rims[1]) {
            labels.keep_off(edge);
        }
        let lifted = *read + normal * (0.01 * self.plan.unit);
        let seen = easel.view.faces(*read, normal)
            && !Caster::blocked(bodies, lifted, easel.view.eye, 0.01 * self.plan.unit);
        if seen {
            let (half, rim) = (self.plan.half_breadth, self.plan.half_slab);
            let ticks = [(-rim, -half), (half, rim)].map(|(a, b)| {
                let (a, b) = (arm.surface(*angle, a), arm.surface(*angle, b));
                easel.view.segment(a, b)
            });
            let width = 2.4 * easel.pen.max(0.8);
            let casing = Stroke::solid(p.paper, width + 2.0 * CASING_PX);
            easel.drawing.lines(ticks.into_iter().flatten(), casing);
            easel.drawing.lines(ticks.into_iter().flatten(), Stroke::solid(p.accent, width));
        }
        if seen {
            dot(easel, ring, 5.0, (p.paper, p.accent), 2.4);
        } else {
            // Behind the stone.
            dot(easel, ring, 5.0, (p.paper.faded(0.2), p.accent.faded(HIDDEN)), 1.4);
        }
        labels.keep_clear(ring, 12.0);
        let text = figures::clock(f64::from(reading.shown_s));
        labels.led(easel.drawing, ring, &words.figure(&text), 0.09 * easel.view.size.y, &AROUND);
    }

    /// The part of a line inside the frame.
    fn framed(&self, easel: &Easel<'_>, from: DVec3, to: DVec3) -> Option<[DVec2; 2]> {
        let [mut a, mut b] = easel.view.segment(from, to)?;
        let (low, high) = (DVec2::splat(INSET_PX), easel.view.size - INSET_PX);
        for axis in [DVec2::X, DVec2::Y] {
            for (sign, limit) in [(1.0, low.dot(axis)), (-1.0, -high.dot(axis))] {
                let inside = |p: DVec2| sign * p.dot(axis) - limit;
                let (at_a, at_b) = (inside(a), inside(b));
                if at_a < 0.0 && at_b < 0.0 {
                    return None;
                }
                if at_a < 0.0 {
                    a = a.lerp(b, at_a / (at_a - at_b));
                } else if at_b < 0.0 {
                    b = b.lerp(a, at_b / (at_b - at_a));
                }
            }
        }
        Some([a, b])
    }
}

/// The point of the style that the ray touches which is read, or could be; for an hour angle and a
/// declination about the style, the latter positive towards its raised end.
pub(super) fn touched(
    plan: &Plan,
    moment: &Moment,
    (hour_angle_rad, declination_rad): (f64, f64),
) -> DVec3 {
    let arm = Arm::new(plan, Side::at_hour_angle(hour_angle_rad));
    let s = read_s(&arm, moment, declination_rad) + arm.radius * declination_rad.tan();
    arm.point(0.0, 0.0, s.clamp(plan.style.0, plan.style.1))
}

/// Where along the quadrant the edge is read, or could be: on the blank rim below the divisions,
/// unless the edge ends before it. Declination positive towards the raised end of the style.
pub(super) fn read_s(arm: &Arm<'_>, moment: &Moment, declination_rad: f64) -> f64 {
    let plan = arm.plan;
    let low = moment.reading.as_ref().map_or(f64::MIN, |reading| {
        let (south, north) = reading.edge.axial_m;
        (plan.sigma * south).min(plan.sigma * north)
    });
    let shift = arm.radius * declination_rad.tan();
    let rim = -0.5 * (plan.half_breadth + plan.half_slab);
    let whole = low <= -plan.half_breadth * 0.999;
    if whole { rim.max(plan.style.0 - shift).min(plan.style.1 - shift) } else { low }
}

/// Places tried for the text beside the ray's end, and for the reading.
pub(super) const BESIDE: [(f64, f64); 10] = [
    (1.0, 0.9),
    (-1.0, 0.9),
    (1.0, -0.9),
    (-1.0, -0.9),
    (1.0, 0.0),
    (-1.0, 0.0),
    (0.6, 1.9),
    (-0.6, 1.9),
    (0.6, -1.9),
    (-0.6, -1.9),
];
const AROUND: [(f64, f64); 10] = [
    (-0.75, 1.0),
    (0.75, 1.0),
    (0.0, 1.4),
    (-1.1, 0.3),
    (1.1, 0.3),
    (-0.8, -1.0),
    (0.8, -1.0),
    (-1.8, 1.8),
    (1.8, 1.8),
    (0.0, -2.0),
];

/// A line, ended where its end is clear of the page's buttons.
fn short_of_buttons([from, to]: [DVec2; 2], labels: &Labels<'_>) -> [DVec2; 2] {
    const STEPS: u32 = 24;
    let ends = (STEPS / 3..=STEPS).rev().map(|k| from.lerp(to, f64::from(k) / f64::from(STEPS)));
    [from, ends.into_iter().find(|&end| labels.is_clear(end, SUN_PX)).unwrap_or(to)]
}

/// A head on a line, for the way it goes.
pub(super) fn arrow(
    easel: &mut Easel<'_>,
    tip: DVec2,
    way: DVec2,
    (colour, casing): (Colour, Stroke),
) {
    let back = -way.normalize_or_zero() * ARROW_PX * easel.pen.max(1.0);
    let barb = |sign: f64| tip + DVec2::from_angle(sign * 0.42).rotate(back);
    let head = [tip, barb(1.0), barb(-1.0)];
    easel.drawing.outline(head, casing);
    easel.drawing.fill(head, colour);
}

/// A round dot with a ring round it.
pub(super) fn dot(
    easel: &mut Easel<'_>,
    centre: DVec2,
    radius: f64,
    (fill, ring): (Colour, Colour),
    width: f64,
) {
    let grown = easel.pen.max(1.0);
    let radius = radius * grown;
    let round = || {
        (0..20).map(move |k| {
            centre + DVec2::from_angle(f64::from(k) * std::f64::consts::TAU / 20.0) * radius
        })
    };
    easel.drawing.fill(round(), fill);
    easel.drawing.outline(round(), Stroke::solid(ring, width * grown));
}
