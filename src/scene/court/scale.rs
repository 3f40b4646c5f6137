//! The declination scales cut into the tops of the parapets.

use glam::DVec3;

use super::easel::{Easel, Shapes};
use super::light::Light;
use super::plan::Plan;
use crate::core::instrument::{AxialEnd, Instrument, SOLSTICE_DECLINATION_DEG};
use crate::core::pointer::{SCALE_DIVISION_ARCMIN, graduation_m};

/// Least distance of two marks in the picture, pixels.
const RESOLVED_PX: f64 = 2.2;

/// Paints both scales of one parapet: the south edge's along the style, the north edge's along
/// the channel. `sign` is that of the parapet's `x`.
pub(super) fn paint(
    easel: &mut Easel<'_>,
    instrument: &Instrument,
    plan: &Plan,
    light: &Light<'_>,
    sign: f64,
) {
    let (outer, inner) = (sign * plan.half_wall, sign * plan.half_channel());
    let metre = easel.view.scale_at(DVec3::new(outer, 0.0, 0.0));
    let degree_px = plan.unit * 1_f64.to_radians() * metre;
    let fine = degree_px * SCALE_DIVISION_ARCMIN / 60.0 > RESOLVED_PX;
    if degree_px < RESOLVED_PX {
        return;
    }
    let per_degree = if fine { (60.0 / SCALE_DIVISION_ARCMIN) as i32 } else { 1 };
    let last = SOLSTICE_DECLINATION_DEG.ceil() as i32 * per_degree;
    let mut marks: [Shapes; 3] = Default::default();
    for edge in AxialEnd::BOTH {
        let (from, way) = match edge {
            AxialEnd::South => (outer, inner - outer),
            AxialEnd::North => (inner, outer - inner),
        };
        for count in -last..=last {
            let declination_rad = (f64::from(count) / f64::from(per_degree)).to_radians();
            let s = plan.sigma * graduation_m(instrument, edge, declination_rad);
            if s < plan.style.0 || s > plan.style.1 {
                continue;
            }
            let (rank, length) = match (count % (10 * per_degree), count % (5 * per_degree)) {
                (0, _) => (0, 0.46),
                (_, 0) => (1, 0.36),
                _ if count % per_degree == 0 => (1, 0.26),
                _ => (2, 0.14),
            };
            let (a, b) = (plan.point(from, 0.0, s), plan.point(from + way * length, 0.0, s));
            marks[rank].line(easel.view, a, b);
        }
    }
    let ink = light.engraving(light.stone(plan.m()));
    for (shapes, width) in marks.iter().zip([0.9, 0.55, 0.35]) {
        let stroke = easel.stroke(ink.faded(0.85), width);
        easel.stroke_given(shapes, stroke);
    }
}
