//! Convex polygons in a plane: clipping, area, middle.

use glam::DVec2;

/// Clips a polygon to a convex one that runs counter-clockwise; `spare` is scratch memory.
pub(super) fn clip(polygon: &mut Vec<DVec2>, by: &[DVec2], spare: &mut Vec<DVec2>) {
    let mut from = by.last().copied().unwrap_or_default();
    for &to in by {
        let edge = to - from;
        clip_half(polygon, |point| edge.perp_dot(point - from), spare);
        from = to;
    }
}

/// Keeps the part of a polygon where a linear function is not negative.
pub(super) fn clip_half(
    polygon: &mut Vec<DVec2>,
    inside: impl Fn(DVec2) -> f64,
    spare: &mut Vec<DVec2>,
) {
    spare.clear();
    let Some(&last) = polygon.last() else { return };
    let (mut last, mut last_in) = (last, inside(last));
    for &point in polygon.iter() {
        let now_in = inside(point);
        if (last_in < 0.0) != (now_in < 0.0) {
            spare.push(last.lerp(point, last_in / (last_in - now_in)));
        }
        if now_in >= 0.0 {
            spare.push(point);
        }
        (last, last_in) = (point, now_in);
    }
    std::mem::swap(polygon, spare);
}

/// Area, positive for a polygon that runs counter-clockwise.
pub(super) fn area(polygon: &[DVec2]) -> f64 {
    let mut last = polygon.last().copied().unwrap_or_default();
    let mut twice = 0.0;
    for &point in polygon {
        twice += last.perp_dot(point);
        last = point;
    }
    twice / 2.0
}

/// Mean of the corners: inside, when the polygon is convex.
pub(super) fn middle(polygon: &[DVec2]) -> DVec2 {
    polygon.iter().sum::<DVec2>() / polygon.len().max(1) as f64
}

/// The least and the greatest corner of the box round some points.
pub(super) fn bounds(points: &[DVec2]) -> (DVec2, DVec2) {
    points.iter().fold((DVec2::MAX, DVec2::MIN), |(least, most), &p| (least.min(p), most.max(p)))
}
