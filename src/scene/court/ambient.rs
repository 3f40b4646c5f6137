//! Where stone meets stone or the ground, less of the sky is seen and it is darker there: a few
//! faint layers, each a little narrower than the last, that add up towards the joint.

use std::f64::consts::FRAC_PI_2;

use glam::{DVec2, DVec3};

use super::convex::{area, clip, clip_half};
use super::easel::Easel;
use super::light::Light;
use super::plan::{Arm, Plan};
use super::surface::Surface;
use super::view::View;
use crate::core::instrument::Side;
use crate::scene::drawing::Colour;

/// Layers (none in motion, where they can't be told), how far the broadest reaches, in radii, and how
/// dark all are together.
const LAYERS: u32 = 6;
const REACH: f64 = 0.075;
const DARKNESS: f64 = 0.15;
/// Corners of a support's foot along either side.
const FOOT_STEPS: u32 = 10;

/// The tone of one layer.
fn tone(light: &Light<'_>) -> Colour {
    let each = 1.0 - (1.0 - DARKNESS).powf(1.0 / f64::from(LAYERS));
    light.line().faded(each)
}

/// How far each layer reaches, metres, the broadest first.
fn reaches(plan: &Plan, view: &View) -> impl Iterator<Item = f64> + use<> {
    let reach = REACH * plan.unit;
    let layers = if view.in_motion { 0 } else { LAYERS };
    (0..layers).map(move |layer| reach * (1.0 - f64::from(layer) / f64::from(LAYERS)).powi(2))
}

/// Darkens the paving about the platform and the wall's base.
pub(super) fn paint_on_paving(easel: &mut Easel<'_>, plan: &Plan, light: &Light<'_>) {
    let platform = (plan.platform.0, plan.platform.1);
    paint_level(easel, plan, light, plan.ground, |reach| {
        let wall = wall_foot(plan, plan.ground);
        vec![rectangle(Some(platform), reach), rectangle(wall, reach)]
    });
}

/// Darkens the platform about the wall and the supports.
pub(super) fn paint_on_platform(easel: &mut Easel<'_>, plan: &Plan, light: &Light<'_>) {
    paint_level(easel, plan, light, plan.deck, |reach| {
        let mut feet = vec![rectangle(wall_foot(plan, plan.deck), reach)];
        feet.extend(Side::BOTH.map(|side| support_foot(plan, side, reach)));
        let (least, most) = plan.platform;
        for foot in &mut feet {
            // The wall may stand out over the platform.
            let mut spare = Vec::new();
            clip_half(foot, |point| point.y - least.y, &mut spare);
            clip_half(foot, |point| most.y - point.y, &mut spare);
        }
        feet
    });
}

fn paint_level(
    easel: &mut Easel<'_>,
    plan: &Plan,
    light: &Light<'_>,
    level: f64,
    outlines: impl Fn(f64) -> Vec<Vec<DVec2>>,
) {
    for reach in reaches(plan, easel.view) {
        easel.fills(
            |shapes, view| {
                for outline in outlines(reach).iter().filter(|outline| !outline.is_empty()) {
                    shapes.patch(view, outline.iter().map(|point| point.extend(level)));
                }
            },
            tone(light),
        );
    }
}

/// A rectangle with a border, if there is one.
fn rectangle(corners: Option<(DVec2, DVec2)>, border: f64) -> Vec<DVec2> {
    corners.map_or(Vec::new(), |(least, most)| {
        crate::scene::drawing::rectangle(least - border, most + border).into()
    })
}

/// Where the wall cuts a level.
fn wall_foot(plan: &Plan, level: f64) -> Option<(DVec2, DVec2)> {
    let mut below = plan.wall.clone();
    clip_half(&mut below, |corner| level + 1e-6 * plan.unit - corner.y, &mut Vec::new());
    let top = below.iter().map(|corner| corner.y).fold(f64::MIN, f64::max);
    let at_level = below.iter().filter(|corner| corner.y > top - 1e-5 * plan.unit);
    let (least, most) = at_level.fold((f64::MAX, f64::MIN), |(least, most), corner| {
        (least.min(corner.x), most.max(corner.x))
    });
    let half = plan.half_wall;
    (least < most).then(|| (DVec2::new(-half, least), DVec2::new(half, most)))
}

/// A support's foot with a border, round its curve and beyond its end.
fn support_foot(plan: &Plan, side: Side, border: f64) -> Vec<DVec2> {
    let arm = Arm::new(plan, side);
    let (low, high) = plan.support();
    let end = plan.support_end(side);
    let foot = |k: u32, s: f64| {
        let out = end * (f64::from(k) / f64::from(FOOT_STEPS) * FRAC_PI_2).sin();
        arm.point(out, arm.outer_m(out), s).truncate()
    };
    let along = |s: f64, border: f64| {
        (0..=FOOT_STEPS).map(move |k| {
            let way =
                (foot((k + 1).min(FOOT_STEPS), s) - foot(k.max(1) - 1, s)).normalize_or_zero();
            let square = way.perp() * way.perp().y.signum();
            let beyond = if k == FOOT_STEPS { way * border.abs() } else { DVec2::ZERO };
            foot(k, s) + square * border + beyond
        })
    };
    let back: Vec<DVec2> = along(high, border).collect();
    along(low, -border).chain(back.into_iter().rev()).collect()
}

/// Darkens the wall's side about the end of the quadrant.
pub(super) fn paint_on_wall(easel: &mut Easel<'_>, plan: &Plan, light: &Light<'_>, side: Side) {
    let arm = Arm::new(plan, side);
    let mut face = plan.wall_above.clone();
    if area(&face) < 0.0 {
        face.reverse();
    }
    let (mut spare, x) = (Vec::new(), side.sign() * plan.half_wall);
    for reach in reaches(plan, easel.view) {
        let half = plan.half_slab + reach;
        let (top, foot) = (reach - arm.radius, -arm.outer() - reach);
        let corners = [(foot, -half), (top, -half), (top, half), (foot, half)];
        let mut patch: Vec<DVec2> = corners
            .map(|(m, s)| plan.point(x, m, s))
            .map(|point| DVec2::new(point.y, point.z))
            .into();
        clip(&mut patch, &face, &mut spare);
        if patch.len() > 2 {
            let corners = patch.iter().map(|corner| DVec3::new(x, corner.x, corner.y));
            easel.fill(corners, tone(light));
        }
    }
}

/// Darkens a quadrant's foot beside the wall; `angles` are the part of it that is painted.
pub(super) fn paint_on_foot(easel: &mut Easel<'_>, surface: &Surface<'_>, angles: (f64, f64)) {
    let plan = surface.arm.plan;
    for reach in reaches(plan, easel.view) {
        let to = (reach / surface.arm.radius).min(angles.1);
        let breadth = (-plan.half_slab, plan.half_slab);
        surface.patch(easel, (angles.0, to), breadth, tone(surface.light));
    }
}
