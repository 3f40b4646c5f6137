//! Textures and small signs shared by the views: hatching, discs, casings, arrow heads.

use glam::DVec2;

use super::drawing::{Colour, Drawing, Stroke, rectangle};

/// Paper left clear at each side of an accent line, CSS pixels.
const CASING_PX: f64 = 1.5;
/// Corners of a disc: at the size of letters a polygon looks round.
const DISC_CORNERS: u32 = 36;

/// Hatches a rectangle with lines that rise to the right.
pub(super) fn hatch(drawing: &mut Drawing, (min, max): (DVec2, DVec2), pitch: f64, stroke: Stroke) {
    let height = max.y - min.y;
    if height <= 0.0 || max.x <= min.x {
        return;
    }
    drawing.clip(rectangle(min, max));
    // Lines stand at whole pitches of the picture, so that neighbouring fields join.
    let first = (min.x / pitch).floor() as i64;
    let last = ((max.x + height) / pitch).ceil() as i64;
    let lines = (first..=last).map(|index| {
        let foot = index as f64 * pitch;
        [DVec2::new(foot - height, max.y), DVec2::new(foot, min.y)]
    });
    drawing.lines(lines, stroke);
    drawing.unclip();
}

/// Corners of a disc, as good as round.
pub(super) fn round(centre: DVec2, radius: f64) -> impl Iterator<Item = DVec2> + Clone {
    (0..DISC_CORNERS).map(move |corner| {
        let angle = std::f64::consts::TAU * f64::from(corner) / f64::from(DISC_CORNERS);
        centre + DVec2::from_angle(angle) * radius
    })
}

/// An accent line on paper, so that it can be told from any stone.
pub(super) fn cased_line(drawing: &mut Drawing, line: &[DVec2], stroke: Stroke, paper: Colour) {
    let casing = Stroke::solid(paper, stroke.width + 2.0 * CASING_PX);
    drawing.line(line.iter().copied(), casing);
    drawing.line(line.iter().copied(), stroke);
}

/// A triangle with its point at `tip`, `length` long towards the unit vector `from_tip`.
pub(super) fn arrow_head(tip: DVec2, from_tip: DVec2, length: f64) -> [DVec2; 3] {
    let base = tip + from_tip * length;
    let half = from_tip.perp() * (length * 0.62);
    [tip, base + half, base - half]
}
