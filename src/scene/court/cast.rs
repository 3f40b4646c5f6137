//! Shadows that the masonry throws on its own flat faces.
//!
//! Seen from the Sun, every body is a convex outline. A face seen from there too and clipped to
//! that outline is the shadow on it, provided the body stands before the face: both are convex
//! and do not meet, so one ray through the middle of the overlap settles the order.

use glam::{DVec2, DVec3};

use super::body::Body;
use super::convex::{area, bounds, clip, hull, middle};

/// Least cosine of the light at which shadows are looked for: below it the face is dull anyway.
const GRAZING: f64 = 0.01;

/// The bodies as the Sun sees them.
#[derive(Debug)]
pub(super) struct Caster<'a> {
    bodies: &'a [Body],
    outlines: Vec<Outline>,
    to_sun: DVec3,
    across: DVec3,
    down: DVec3,
    /// Shadows smaller than this are dropped, square metres.
    speck: f64,
}

#[derive(Debug)]
struct Outline {
    points: [DVec2; 16],
    count: usize,
    least: DVec2,
    most: DVec2,
}

impl<'a> Caster<'a> {
    pub(super) fn new(bodies: &'a [Body], to_sun: DVec3, unit: f64) -> Self {
        let across = to_sun.any_orthonormal_vector();
        let down = to_sun.cross(across);
        let outlines = bodies
            .iter()
            .map(|body| {
                let flat = body.corners.map(|p| DVec2::new(p.dot(across), p.dot(down)));
                let (points, count) = hull(flat);
                let (least, most) = bounds(&points[..count]);
                Outline { points, count, least, most }
            })
            .collect();
        Self { bodies, outlines, to_sun, across, down, speck: 1e-6 * unit * unit }
    }

    /// Hands out the shadows on a convex face, as convex polygons on it that may overlap.
    pub(super) fn shade(
        &self,
        corners: &[DVec3],
        normal: DVec3,
        mut each: impl FnMut(&mut dyn Iterator<Item = DVec3>),
    ) {
        let facing = normal.dot(self.to_sun);
        let Some(&on) = corners.first() else { return };
        if facing < GRAZING {
            return;
        }
        let flat = |p: DVec3| DVec2::new(p.dot(self.across), p.dot(self.down));
        let back = |p: DVec2| {
            let point = self.across * p.x + self.down * p.y;
            point + self.to_sun * (normal.dot(on - point) / facing)
        };
        let face: Vec<DVec2> = corners.iter().map(|&corner| flat(corner)).collect();
        let (least, most) = bounds(&face);
        let (mut patch, mut spare) = (Vec::new(), Vec::new());
        for (body, outline) in self.bodies.iter().zip(&self.outlines) {
            if outline.least.cmpgt(most).any() || least.cmpgt(outline.most).any() {
                continue;
            }
            patch.clear();
            patch.extend_from_slice(&face);
            clip(&mut patch, &outline.points[..outline.count], &mut spare);
            if patch.len() < 3 || area(&patch).abs() < self.speck {
                continue;
            }
            let from = back(middle(&patch)) + normal * (1e-6 + self.speck);
            if body.crossed(from, self.to_sun).is_some_and(|(enters, _)| enters > 0.0) {
                each(&mut patch.iter().map(|&point| back(point)));
            }
        }
    }

    /// Whether anything stands between a point and the Sun, or between it and another point.
    pub(super) fn blocked(bodies: &[Body], from: DVec3, to: DVec3, slack: f64) -> bool {
        let way = to - from;
        let slack = slack / way.length().max(1e-9);
        bodies.iter().any(|body| {
            body.crossed(from, way)
                .is_some_and(|(enters, leaves)| leaves.min(1.0) - enters.max(0.0) > slack)
        })
    }
}
