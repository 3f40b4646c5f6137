//! What the instrument stands on: paving, platform, and the shadow of the masonry on them.

use glam::{DVec2, DVec3};

use super::ambient;
use super::body::{Body, platform, thrown};
use super::cast::Caster;
use super::convex::{bounds, clip_half, hull, middle};
use super::distance;
use super::easel::{Easel, Shapes};
use super::light::Light;
use super::plan::Plan;
use super::wall::foot_tone;
use crate::scene::drawing::{Colour, Stroke};

/// Fewest and most points of the Sun's disc whose shadows add up to a soft one, and how broad the
/// soft border is for each, pixels: a step of so little can't be told from the next.
const SUNS: (f64, f64) = (3.0, 7.0);
const STEP_PX: f64 = 2.5;
/// Altitude below which shadows on the ground grow no longer, as a sine.
const LOWEST_SUN: f64 = 0.02;
/// How much of the paving's shadow tone a full shadow takes.
pub(super) const SHADOW: f64 = 0.88;
/// Half the side of the paved court, and the spacing of its joints, in radii.
const COURT: f64 = 6.3;
const FLAG: f64 = 0.42;

/// Paints sky, hills, lawn and paving.
pub(super) fn paint_land(easel: &mut Easel<'_>, plan: &Plan, light: &Light<'_>) {
    distance::paint(easel, light);
    paint_paving(easel, plan, light);
    ambient::paint_on_paving(easel, plan, light);
}

/// Paints the shadow of everything on the paving.
pub(super) fn paint_shadow_on_paving(
    easel: &mut Easel<'_>,
    plan: &Plan,
    light: &Light<'_>,
    bodies: &[Body],
) {
    if light.sun_is_up() {
        let deck = platform(plan);
        // What falls within the platform's foot lies under it.
        let seen = |outline: &[DVec2]| !outline.iter().all(|&p| within(plan.platform, p));
        let ground = (plan.ground, sunlit_paving(light));
        paint_shadow(easel, plan, light, ground, bodies.iter().chain([&deck]), seen);
    }
}

/// Paints the platform and, outside it, the wall's base down to the paving: parted by planes
/// across the wall, what lies beyond the platform comes first.
pub(super) fn paint_bases(
    easel: &mut Easel<'_>,
    plan: &Plan,
    light: &Light<'_>,
    bodies: &[Body],
    caster: Option<&Caster<'_>>,
) {
    let eye = easel.view.eye.y;
    let (low_is_beyond, high_is_beyond) = (eye > plan.platform.0.y, eye < plan.platform.1.y);
    if low_is_beyond {
        paint_wall_base(easel, plan, light, true);
    }
    if high_is_beyond {
        paint_wall_base(easel, plan, light, false);
    }
    paint_platform(easel, plan, light, bodies, caster);
    if !low_is_beyond {
        paint_wall_base(easel, plan, light, true);
    }
    if !high_is_beyond {
        paint_wall_base(easel, plan, light, false);
    }
}

/// The paving where nothing shades it.
fn sunlit_paving(light: &Light<'_>) -> Colour {
    light.far(light.paving().0, 0.06)
}

/// The paved court with its joints, which fade with distance.
fn paint_paving(easel: &mut Easel<'_>, plan: &Plan, light: &Light<'_>) {
    let side = COURT * plan.unit;
    let middle = DVec2::new(0.0, (plan.wall_span().0 + plan.platform.1.y) / 2.0);
    let at = |x: f64, y: f64| DVec3::new(middle.x + x, middle.y + y, plan.ground);
    let corners = |half: f64| [at(-half, -half), at(half, -half), at(half, half), at(-half, half)];
    let (paving, _) = light.paving();
    let kerb = 0.16 * plan.unit;
    if !easel.view.in_motion {
        easel.fill(corners(side + kerb), light.far(paving.mixed(light.palette.lit, 0.35), 0.25));
    }
    easel.fill(corners(side), sunlit_paving(light));
    let flag = FLAG * plan.unit;
    let count = (side / flag).floor() as i32;
    // In motion every other joint will do, and none far off: long lines take longer than the stone.
    let (pieces, step, strong) = if easel.view.in_motion { (4, 2, 2) } else { (14, 1, 4) };
    let mut bands: [Shapes; 4] = Default::default();
    for k in (-count..=count).step_by(step) {
        for piece in 0..pieces {
            let (a, b) = (f64::from(piece), f64::from(piece + 1));
            let along = |share: f64| side * (2.0 * share / f64::from(pieces) - 1.0);
            let off = f64::from(k) * flag;
            for (from, to) in
                [(at(off, along(a)), at(off, along(b))), (at(along(a), off), at(along(b), off))]
            {
                let far = (from.midpoint(to) - easel.view.eye).length() / plan.unit;
                let band = [5.0, 8.0, 11.0].iter().filter(|&&limit| far > limit).count();
                bands[band].line(easel.view, from, to);
            }
        }
    }
    for (shapes, opacity) in bands.iter().zip([0.26, 0.19, 0.12, 0.07]).take(strong) {
        let stroke = easel.stroke(light.line().faded(opacity), 0.5);
        easel.stroke_given(shapes, stroke);
    }
    let stroke = easel.stroke(light.line().faded(0.35), 0.7);
    let edge = corners(side);
    easel.lines(|shapes, view| shapes.polyline(view, edge.into_iter().chain([edge[0]])), stroke);
}

/// The shadow of bodies on a level plane, soft at its border; outlines that are not `seen` are
/// left out.
fn paint_shadow<'b>(
    easel: &mut Easel<'_>,
    plan: &Plan,
    light: &Light<'_>,
    (level, ground): (f64, Colour),
    bodies: impl Iterator<Item = &'b Body> + Clone,
    seen: impl Fn(&[DVec2]) -> bool,
) {
    let (paving, shadow) = light.paving();
    let total = SHADOW * light.direct;
    let suns = if easel.view.in_motion { 1 } else { suns(easel, plan, light, level) };
    // Layers that add up to the full shadow.
    let each = 1.0 - (1.0 - total).powf(1.0 / f64::from(suns));
    let tone = shadow.mixed(paving, 0.02);
    // One layer can as well be opaque, which is painted in half the time.
    let opaque = ground.mixed(tone, each);
    let tone = if suns == 1 { opaque } else { tone.faded(each) };
    for sun in light.disc(suns) {
        let sun = sun.with_z(sun.z.max(LOWEST_SUN));
        easel.fills(
            |shapes, view| {
                for body in bodies.clone() {
                    let (outline, count) = hull(thrown(body, sun, level));
                    let outline = &outline[..count];
                    if seen(outline) {
                        shapes.patch(view, outline.iter().map(|p| p.extend(level)));
                    }
                }
            },
            tone,
        );
    }
}

/// How many points of the Sun's disc the shadow's border needs where it is broadest: that of the
/// wall's top.
fn suns(easel: &Easel<'_>, plan: &Plan, light: &Light<'_>, level: f64) -> u32 {
    let sun = light.to_sun.with_z(light.to_sun.z.max(LOWEST_SUN));
    let top = plan.style_ends()[1];
    let top = DVec3::new(0.0, top.x, top.y);
    let reach = (top.z - level).max(0.0) / sun.z;
    let shadow = top - light.to_sun * reach;
    let breadth = 2.0 * light.semidiameter_rad * reach / sun.z;
    let (fewest, most) = SUNS;
    let needed = breadth * easel.view.scale_at(shadow) / STEP_PX;
    // A bounded whole number.
    if needed.is_finite() { needed.ceil().clamp(fewest, most) as u32 } else { most as u32 }
}

/// Whether a point lies in an upright rectangle, border and all.
fn within((least, most): (DVec2, DVec2), point: DVec2) -> bool {
    point.cmpge(least).all() && point.cmple(most).all()
}

/// The low platform under the quadrants, with the shadows on it.
fn paint_platform(
    easel: &mut Easel<'_>,
    plan: &Plan,
    light: &Light<'_>,
    bodies: &[Body],
    caster: Option<&Caster<'_>>,
) {
    let (least, most) = plan.platform;
    let at = |x: f64, y: f64, z: f64| DVec3::new(x, y, z);
    let top = [
        at(least.x, least.y, plan.deck),
        at(most.x, least.y, plan.deck),
        at(most.x, most.y, plan.deck),
        at(least.x, most.y, plan.deck),
    ];
    let normals = [DVec3::NEG_Y, DVec3::X, DVec3::Y, DVec3::NEG_X];
    let line = easel.stroke(light.line(), 0.9);
    for (index, normal) in normals.into_iter().enumerate() {
        let (a, b) = (top[index], top[(index + 1) % 4]);
        let face = [a, b, b.with_z(plan.ground), a.with_z(plan.ground)];
        if !easel.view.faces(a, normal) {
            continue;
        }
        easel.fill(face, light.stone(normal));
        if let Some(caster) = caster {
            let tone = light.shaded(normal);
            easel.fills(|s, view| caster.shade(&face, normal, |patch| s.patch(view, patch)), tone);
        }
        easel.lines(|s, view| s.polyline(view, face.into_iter().chain([face[0]])), line);
    }
    let (paving, _) = light.paving();
    let sunlit = paving.mixed(light.palette.lit, 0.4 * light.direct);
    easel.fill(top, sunlit);
    flags(easel, plan, light);
    ambient::paint_on_platform(easel, plan, light);
    if light.sun_is_up() && easel.clip(top) {
        let seen = |outline: &[DVec2]| {
            let (low, high) = bounds(outline);
            low.cmple(most).all() && high.cmpge(least).all()
        };
        paint_shadow(easel, plan, light, (plan.deck, sunlit), bodies.iter(), seen);
        easel.drawing.unclip();
    }
    easel.lines(|s, view| s.polyline(view, top.into_iter().chain([top[0]])), line);
}

/// Joints of the platform.
fn flags(easel: &mut Easel<'_>, plan: &Plan, light: &Light<'_>) {
    let (least, most) = plan.platform;
    let step = 0.31 * plan.unit;
    let stroke: Stroke = easel.stroke(light.line().faded(0.24), 0.45);
    easel.lines(
        |shapes, view| {
            let mut x = least.x + step;
            while x < most.x {
                shapes.line(
                    view,
                    DVec3::new(x, least.y, plan.deck),
                    DVec3::new(x, most.y, plan.deck),
                );
                x += step;
            }
            let mut y = least.y + step;
            while y < most.y {
                shapes.line(
                    view,
                    DVec3::new(least.x, y, plan.deck),
                    DVec3::new(most.x, y, plan.deck),
                );
                y += step;
            }
        },
        stroke,
    );
}

/// The wall's base between paving and platform level, where it stands outside the platform. It
/// reaches a little higher, under what is painted later.
fn paint_wall_base(easel: &mut Easel<'_>, plan: &Plan, light: &Light<'_>, low: bool) {
    let (least, most) = plan.platform;
    let (mut ring, mut spare) = (plan.wall.clone(), Vec::new());
    let lap =
        1.0 / easel.view.scale_at(DVec3::new(0.0, ring.first().map_or(0.0, |c| c.x), plan.deck));
    clip_half(&mut ring, |corner| plan.deck + lap - corner.y, &mut spare);
    if low {
        clip_half(&mut ring, |corner| least.y - corner.x, &mut spare);
    } else {
        clip_half(&mut ring, |corner| corner.x - most.y, &mut spare);
    }
    if ring.len() < 3 {
        return;
    }
    let half = plan.half_wall;
    let at = |x: f64, corner: DVec2| DVec3::new(x, corner.x, corner.y);
    let line = easel.stroke(light.line(), 1.2);
    for sign in [-1.0, 1.0] {
        if easel.view.eye.x * sign > half {
            let normal = DVec3::X * sign;
            let lit = light.sun_is_up() && normal.dot(light.to_sun) > 0.0;
            let tone = if lit { light.stone(normal) } else { foot_tone(light, normal) };
            easel.fill(ring.iter().map(|&corner| at(sign * half, corner)), tone);
        }
    }
    let tiny = 1e-9 * plan.unit;
    let middle = middle(&ring);
    let next = ring.iter().cycle().skip(1);
    for (&from, &to) in ring.iter().zip(next) {
        let on_platform =
            |corner: DVec2| corner.y >= plan.deck + lap - tiny || plan.on_platform(corner.x);
        if on_platform(from) && on_platform(to) {
            continue;
        }
        let way = to - from;
        let normal = DVec2::new(way.y, -way.x).normalize_or_zero();
        let normal = if normal.dot(from - middle) < 0.0 { -normal } else { normal };
        let normal = DVec3::new(0.0, normal.x, normal.y);
        let grounded = from.y <= plan.ground + tiny && to.y <= plan.ground + tiny;
        let seen = !grounded && easel.view.faces(at(0.0, from), normal);
        if seen {
            let face = [at(-half, from), at(half, from), at(half, to), at(-half, to)];
            easel.fill(face, light.stone(normal));
        }
        let sides = [-1.0, 1.0].map(|sign| (sign * half, easel.view.eye.x * sign > half));
        easel.lines(
            |shapes, view| {
                for (x, side_seen) in sides {
                    if side_seen || seen {
                        shapes.line(view, at(x, from), at(x, to));
                    }
                }
                let foot = if from.y < to.y { from } else { to };
                if seen {
                    shapes.line(view, at(-half, foot), at(half, foot));
                }
            },
            line,
        );
    }
}
