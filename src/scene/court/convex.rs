//! Convex polygons in a plane: clipping, area, middle.

use crate::core::order::order_short;
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

/// Convex hull of eight points, counter-clockwise: the corners, and how many there are.
///
/// As [`convex_hull`](crate::core::shadow::convex_hull), but without memory of its own: a court
/// takes hundreds.
pub(super) fn hull(mut points: [DVec2; 8]) -> ([DVec2; 16], usize) {
    order_short(&mut points, |a, b| (a.x, a.y) < (b.x, b.y));
    let mut chain = [DVec2::ZERO; 16];
    let mut count = 0;
    let mut least = 0;
    let back = points.iter().rev().skip(1);
    for (index, &point) in points.iter().chain(back).enumerate() {
        if index == 8 {
            // The way back may not undo the way there.
            least = count - 1;
        }
        while count >= least + 2
            && (chain[count - 1] - chain[count - 2]).perp_dot(point - chain[count - 1]) <= 0.0
        {
            count -= 1;
        }
        chain[count] = point;
        count += 1;
    }
    // The last point is the first again.
    (chain, count - 1)
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

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn the_hull_of_eight_points_is_that_of_the_core(
            flat in proptest::array::uniform16(-3.0..3.0_f64),
        ) {
            let points: [DVec2; 8] = std::array::from_fn(|i| DVec2::new(flat[2 * i], flat[2 * i + 1]));
            let (chain, count) = hull(points);
            prop_assert_eq!(&chain[..count], &crate::core::shadow::convex_hull(points.to_vec())[..]);
        }
    }

    #[test]
    fn points_in_one_place_or_in_a_row_have_a_flat_hull() {
        assert!(hull([DVec2::ONE; 8]).1 < 3);
        let row = std::array::from_fn(|i| DVec2::splat(i as f64));
        assert_eq!(area(&hull(row).0[..hull(row).1]), 0.0);
    }
}
