//! Plane geometry on the sky round the Sun: convex shapes, half-planes, and a disc.

use glam::DVec2;

use crate::core::shadow::convex_hull;

/// A convex shape in the plane that touches the sky at the Sun's centre (gnomonic projection),
/// counter-clockwise; empty when there is nothing.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Convex(Vec<DVec2>);

impl Convex {
    /// The convex hull of points.
    pub(super) fn hull(points: Vec<DVec2>) -> Self {
        let hull = convex_hull(points);
        if hull.len() < 3 { Self::default() } else { Self(hull) }
    }

    /// A square about the centre.
    pub(super) fn square(half_side: f64) -> Self {
        let corner = |x: f64, y: f64| DVec2::new(x, y) * half_side;
        Self(vec![corner(-1.0, -1.0), corner(1.0, -1.0), corner(1.0, 1.0), corner(-1.0, 1.0)])
    }

    /// Whether nothing is left.
    pub(super) fn is_empty(&self) -> bool {
        self.0.len() < 3
    }

    /// The part where `normal · point ≥ least` (Sutherland and Hodgman, 1974).
    pub(super) fn cut(&self, normal: DVec2, least: f64) -> Self {
        let depth = |point: DVec2| normal.dot(point) - least;
        let mut kept = Vec::with_capacity(self.0.len() + 1);
        for (index, &to) in self.0.iter().enumerate() {
            let from = self.0[(index + self.0.len() - 1) % self.0.len()];
            let (before, after) = (depth(from), depth(to));
            if (before < 0.0) != (after < 0.0) {
                kept.push(from.lerp(to, before / (before - after)));
            }
            if after >= 0.0 {
                kept.push(to);
            }
        }
        Self(kept)
    }

    /// The part inside another convex shape.
    pub(super) fn within(&self, other: &Self) -> Self {
        if other.is_empty() {
            return Self::default();
        }
        let mut left = self.clone();
        for (index, &from) in other.0.iter().enumerate() {
            if left.is_empty() {
                return Self::default();
            }
            let to = other.0[(index + 1) % other.0.len()];
            let inwards = (to - from).perp();
            left = left.cut(inwards, inwards.dot(from));
        }
        left
    }

    /// Area of the part inside a disc about the centre; exact.
    pub(super) fn area_in_disc(&self, radius: f64) -> f64 {
        let next = self.0.iter().cycle().skip(1);
        self.0.iter().zip(next).map(|(&a, &b)| wedge_area(a, b, radius)).sum()
    }
}

/// Signed area, within a disc about the centre, of the triangle from the centre to `a` and `b`.
fn wedge_area(a: DVec2, b: DVec2, radius: f64) -> f64 {
    let along = b - a;
    let length_squared = along.length_squared();
    if length_squared == 0.0 {
        return 0.0;
    }
    // Where the line enters and leaves the disc, as shares of the way from a to b.
    let middle = -a.dot(along) / length_squared;
    let nearest = a + along * middle;
    let half_chord_squared = (radius * radius - nearest.length_squared()) / length_squared;
    if half_chord_squared <= 0.0 {
        return sector_area(a, b, radius);
    }
    let half_chord = half_chord_squared.sqrt();
    let (enter, leave) = ((middle - half_chord).max(0.0), (middle + half_chord).min(1.0));
    if enter >= leave {
        return sector_area(a, b, radius);
    }
    let (p, q) = (a + along * enter, a + along * leave);
    sector_area(a, p, radius) + p.perp_dot(q) / 2.0 + sector_area(q, b, radius)
}

/// Signed area of the sector of the disc between two directions.
fn sector_area(a: DVec2, b: DVec2, radius: f64) -> f64 {
    radius * radius / 2.0 * a.perp_dot(b).atan2(a.dot(b))
}

#[cfg(test)]
mod tests {
    use std::f64::consts::PI;

    use super::*;
    use crate::core::penumbra::uncovered_fraction;

    #[test]
    fn a_disc_inside_a_square_keeps_its_area_and_a_small_square_its_own() {
        assert!((Convex::square(3.0).area_in_disc(1.0) - PI).abs() < 1e-14);
        assert!((Convex::square(0.5).area_in_disc(1.0) - 1.0).abs() < 1e-14);
    }

    #[test]
    fn a_cut_disc_has_the_area_of_its_segment() {
        for x in [-0.9, -0.3, 0.0, 0.4, 0.99] {
            let left = Convex::square(2.0).cut(DVec2::new(0.6, 0.8), -x);
            let share = left.area_in_disc(1.0) / PI;
            assert!((share - uncovered_fraction(x)).abs() < 1e-14, "{x}");
        }
    }

    #[test]
    fn a_shape_within_another_that_misses_it_is_empty() {
        let far =
            Convex::hull(vec![DVec2::new(5.0, 5.0), DVec2::new(6.0, 5.0), DVec2::new(5.0, 6.0)]);
        assert!(Convex::square(1.0).within(&far).is_empty());
    }
}
