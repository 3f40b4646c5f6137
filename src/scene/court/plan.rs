//! The masonry's measures in the court's own frame.
//!
//! In that frame `x` runs across the wall towards the east quadrant, `y` level along the wall
//! towards the raised end of the style, `z` up; the origin is the style at the quadrants' middle.
//! South of the equator it is a mirror image of the site frame: lengths and angles are the same,
//! and one set of shapes serves both hemispheres. Along the style, `s` counts upwards.

use glam::{DVec2, DVec3};

use super::convex::clip_half;
use crate::core::instrument::{AxialEnd, Instrument, Side};
use crate::core::shadow::wall_profile;

/// Thickness of a quadrant's stone, in radii.
const SLAB: f64 = 0.083;
/// Blank rim on either side of the divided breadth, in radii.
const RIM: f64 = 0.03;
/// Height of the platform, in radii.
const DECK: f64 = 0.042;
/// Outer end of the support, as an angle on the quadrant's underside, degrees.
const SUPPORT_END_DEG: f64 = 80.0;
/// Latitude above which a quadrant leans so far that its lower end is carried too, as a sine.
const STEEP_SIN: f64 = 0.75;

/// Everything the drawing needs to know of an instrument's shape, metres.
#[derive(Debug)]
pub(super) struct Plan {
    /// +1 when the style's raised end points north, −1 when south.
    pub(super) sigma: f64,
    /// Sine and cosine of the style's slope, both positive.
    pub(super) sin: f64,
    pub(super) cos: f64,
    pub(super) half_wall: f64,
    /// Half the divided breadth of the quadrants, and half their whole breadth.
    pub(super) half_breadth: f64,
    pub(super) half_slab: f64,
    /// Thickness of the quadrants' stone.
    pub(super) thick: f64,
    /// Low and high end of the style.
    pub(super) style: (f64, f64),
    /// `z` of the paving and of the platform.
    pub(super) ground: f64,
    pub(super) deck: f64,
    /// Nominal radius, the unit for everything that is only drawn.
    pub(super) unit: f64,
    /// The wall's side as (y, z), convex: the style's low end, its high end, then on round.
    pub(super) wall: Vec<DVec2>,
    /// The part of it above the platform's level.
    pub(super) wall_above: Vec<DVec2>,
    /// The platform's corners, as (x, y): least and greatest.
    pub(super) platform: (DVec2, DVec2),
    /// Whether the supports carry the quadrants' lower ends too.
    pub(super) steep: bool,
    radii: [f64; 2],
    /// Axes of the court in the site frame.
    e: DVec3,
    y: DVec3,
}

impl Plan {
    pub(super) fn new(instrument: &Instrument) -> Self {
        let frame = instrument.frame();
        let sigma = if frame.p.z < 0.0 { -1.0 } else { 1.0 };
        let y = DVec3::Z.cross(frame.e) * sigma;
        let unit = instrument.radius_m();
        let end = |end| instrument.style_end_m(end);
        let style = match sigma {
            1.0 => (end(AxialEnd::South), end(AxialEnd::North)),
            _ => (-end(AxialEnd::North), -end(AxialEnd::South)),
        };
        let half_breadth = instrument.breadth_m() / 2.0;
        let half_slab = half_breadth + RIM * unit;
        let ground = instrument.ground_z_m();
        let (sin, cos) = (frame.p.z.abs(), frame.m.z);
        // The quadrants' lower corner stands at least on the platform.
        let lowest = -(unit * (1.0 + SLAB)) * cos - half_slab * sin;
        let deck = (ground + DECK * unit).min(lowest).max(ground + 0.002 * unit);
        let profile: Vec<DVec2> =
            wall_profile(instrument).into_iter().map(|p| DVec2::new(p.dot(y), p.z)).collect();
        let wall = wall_ring(&profile, style, DVec2::new(cos, sin));
        let mut wall_above = wall.clone();
        clip_half(&mut wall_above, |corner| corner.y - deck, &mut Vec::new());
        let mut plan = Self {
            sigma,
            sin,
            cos,
            half_wall: instrument.wall_thickness_m() / 2.0,
            half_breadth,
            half_slab,
            thick: SLAB * unit,
            style,
            ground,
            deck,
            unit,
            wall,
            wall_above,
            platform: (DVec2::ZERO, DVec2::ZERO),
            steep: sin > STEEP_SIN,
            radii: Side::BOTH.map(|side| instrument.built_radius_m(side)),
            e: frame.e,
            y,
        };
        plan.platform = plan.platform_corners();
        plan
    }

    /// Radius of a quadrant as built.
    pub(super) fn radius(&self, side: Side) -> f64 {
        match side {
            Side::West => self.radii[0],
            Side::East => self.radii[1],
        }
    }

    /// A direction or point of the site frame, in the court's frame.
    pub(super) fn to_court(&self, v: DVec3) -> DVec3 {
        DVec3::new(v.dot(self.e), v.dot(self.y), v.z)
    }

    /// A point `m` square above the style's line, at `s` along it.
    pub(super) fn point(&self, x: f64, m: f64, s: f64) -> DVec3 {
        DVec3::new(x, s * self.cos - m * self.sin, m * self.cos + s * self.sin)
    }

    /// `m` and `s` of a point or direction, as `x` and `y`.
    pub(super) fn leaning(&self, v: DVec3) -> DVec2 {
        DVec2::new(v.z * self.cos - v.y * self.sin, v.y * self.cos + v.z * self.sin)
    }

    /// The normal of the sloping top.
    pub(super) fn m(&self) -> DVec3 {
        self.point(0.0, 1.0, 0.0)
    }

    /// The direction up the style.
    pub(super) fn s(&self) -> DVec3 {
        self.point(0.0, 0.0, 1.0)
    }

    /// Half-width of the channel between the parapets.
    pub(super) fn half_channel(&self) -> f64 {
        0.62 * self.half_wall
    }

    /// Distance from the wall at which the supports end.
    pub(super) fn support_end(&self, side: Side) -> f64 {
        (self.radius(side) + self.thick) * SUPPORT_END_DEG.to_radians().sin()
    }

    /// `s` of the low and high side of the supports, where they meet the quadrants' underside.
    pub(super) fn support(&self) -> (f64, f64) {
        let inset = (0.16 * self.half_slab).max(0.012 * self.unit);
        let low = if self.steep { self.half_slab } else { self.half_slab - inset };
        (-low, self.half_slab - inset)
    }

    /// Least and greatest `y` of the wall.
    pub(super) fn wall_span(&self) -> (f64, f64) {
        self.wall.iter().fold((f64::MAX, f64::MIN), |(least, most), corner| {
            (least.min(corner.x), most.max(corner.x))
        })
    }

    /// The style's low and high end, as (y, z).
    pub(super) fn style_ends(&self) -> [DVec2; 2] {
        [self.style.0, self.style.1].map(|s| DVec2::new(s * self.cos, s * self.sin))
    }

    /// The edges of the wall's side above the platform, other than its top and its base: an end
    /// each, or two where one overhangs. Each from the style downwards, with its outward normal.
    pub(super) fn wall_ends(&self) -> impl Iterator<Item = (DVec2, DVec2, DVec3)> {
        let ring = &self.wall_above;
        let middle = ring.iter().sum::<DVec2>() / ring.len().max(1) as f64;
        let tiny = 1e-9 * self.unit;
        let height = |corner: DVec2| corner.y * self.cos - corner.x * self.sin;
        let next = ring.iter().cycle().skip(1);
        ring.iter().zip(next).filter_map(move |(&from, &to)| {
            let way = to - from;
            let on_top = height(from).abs() < tiny && height(to).abs() < tiny;
            let on_base = from.y < self.deck + tiny && to.y < self.deck + tiny;
            let normal = DVec2::new(way.y, -way.x).normalize_or_zero();
            let normal = if normal.dot(from - middle) < 0.0 { -normal } else { normal };
            let (top, base) = if height(from) < height(to) { (to, from) } else { (from, to) };
            let kept = !on_top && !on_base && way.length() > tiny;
            kept.then(|| (top, base, DVec3::new(0.0, normal.x, normal.y)))
        })
    }

    /// Whether a place along the wall is on the platform.
    pub(super) fn on_platform(&self, y: f64) -> bool {
        (self.platform.0.y..=self.platform.1.y).contains(&y)
    }

    /// Corners of the platform under the quadrants.
    fn platform_corners(&self) -> (DVec2, DVec2) {
        let outer = self.radii[0].max(self.radii[1]) + self.thick;
        let reach = self.half_wall + outer;
        let at = |m: f64, s: f64| self.point(0.0, m, s).y;
        let low = at(0.0, -self.half_slab).min(at(-outer, -self.half_slab));
        let high = at(-outer, self.half_slab).max(at(0.0, self.half_slab));
        let (_, wall_high) = self.wall_span();
        let high = high.max(wall_high.min(high + 0.4 * self.unit));
        let margin = 0.17 * self.unit;
        (DVec2::new(-reach - margin, low - margin), DVec2::new(reach + margin, high + margin))
    }
}

/// The wall's side as a ring of corners, from the style's low end by its high end round the rest.
fn wall_ring(profile: &[DVec2], style: (f64, f64), up: DVec2) -> Vec<DVec2> {
    let count = profile.len().max(1);
    let nearest = |point: DVec2| {
        let off = |&(_, corner): &(usize, &DVec2)| corner.distance_squared(point);
        let nearest = profile.iter().enumerate().min_by(|a, b| off(a).total_cmp(&off(b)));
        nearest.map_or(0, |(index, _)| index)
    };
    let (low, high) = (nearest(up * style.0), nearest(up * style.1));
    let onward = (low + 1) % count == high;
    let at = |step: usize| if onward { (low + step) % count } else { (low + count - step) % count };
    (0..profile.len()).filter_map(|step| profile.get(at(step)).copied()).collect()
}

/// A quadrant seen from its own side: `x` counts outwards from its style edge.
#[derive(Clone, Copy, Debug)]
pub(super) struct Arm<'a> {
    pub(super) plan: &'a Plan,
    pub(super) side: Side,
    pub(super) radius: f64,
}

impl<'a> Arm<'a> {
    pub(super) fn new(plan: &'a Plan, side: Side) -> Self {
        Self { plan, side, radius: plan.radius(side) }
    }

    /// Radius of the underside.
    pub(super) fn outer(&self) -> f64 {
        self.radius + self.plan.thick
    }

    /// A point given by its distance from the wall, `m` and `s`.
    pub(super) fn point(&self, out: f64, m: f64, s: f64) -> DVec3 {
        self.plan.point(self.side.sign() * (self.plan.half_wall + out), m, s)
    }

    /// A point of the reading surface at an angle from the foot.
    pub(super) fn surface(&self, angle_rad: f64, s: f64) -> DVec3 {
        let (sin, cos) = angle_rad.sin_cos();
        self.point(self.radius * sin, -self.radius * cos, s)
    }

    /// The reading surface along the line at an angle from the foot: points by their `s`.
    pub(super) fn line_at(&self, angle_rad: f64) -> impl Fn(f64) -> DVec3 + use<> {
        let (from, along) = (self.surface(angle_rad, 0.0), self.plan.s());
        move |s| from + along * s
    }

    /// Normal of the reading surface, towards the style.
    pub(super) fn normal(&self, angle_rad: f64) -> DVec3 {
        let (sin, cos) = angle_rad.sin_cos();
        self.plan.point(-self.side.sign() * sin, cos, 0.0)
    }

    /// Distance from the wall, `m` and `s` of a point.
    pub(super) fn local(&self, point: DVec3) -> DVec3 {
        let leaning = self.plan.leaning(point);
        let out = self.side.sign() * point.x - self.plan.half_wall;
        DVec3::new(out, leaning.x, leaning.y)
    }

    /// `m` of the reading surface at a distance from the wall; level with the style beyond it.
    pub(super) fn inner_m(&self, out: f64) -> f64 {
        -(self.radius * self.radius - out * out).max(0.0).sqrt()
    }

    /// `m` of the underside at a distance from the wall.
    pub(super) fn outer_m(&self, out: f64) -> f64 {
        -(self.outer() * self.outer() - out * out).max(0.0).sqrt()
    }

    /// `m` up to which a steep quadrant's lower end rests on its support.
    pub(super) fn carried_m(&self, out: f64) -> f64 {
        self.inner_m(out) - 0.2 * self.plan.thick * (1.0 - out / (2.0 * self.outer()))
    }
}
