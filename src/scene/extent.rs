//! How much of a picture a drawing covers.

use glam::DVec2;

use super::drawing::{Drawing, Mark};

/// An upright rectangle: least and greatest corner, CSS pixels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Extent {
    /// Least corner.
    pub least: DVec2,
    /// Greatest corner.
    pub most: DVec2,
}

impl Extent {
    /// The part of its picture that a drawing covers; `None` if it is empty. Where a text ends is
    /// not known before it is painted: a drawing with texts covers all of its picture.
    #[must_use]
    pub fn of(drawing: &Drawing) -> Option<Self> {
        let whole = Self { least: DVec2::ZERO, most: drawing.size() };
        let mut covered: Option<Self> = None;
        for mark in drawing.marks() {
            let (contours, margin) = match mark {
                Mark::Fill { contours, .. } | Mark::Gradient { contours, .. } => (contours, 0.0),
                Mark::Line { contours, stroke, .. } => (contours, stroke.width / 2.0),
                Mark::Text { .. } => return Some(whole),
                Mark::Clip { .. } | Mark::Unclip => continue,
            };
            for &point in drawing.contours(contours).flatten() {
                let spot = Self { least: point - margin, most: point + margin };
                covered = Some(covered.map_or(spot, |covered| covered.with(&spot)));
            }
        }
        covered.map(|covered| covered.within(&whole)).filter(|it| it.area() > 0.0)
    }

    /// The least rectangle round both.
    #[must_use]
    pub fn with(&self, other: &Self) -> Self {
        Self { least: self.least.min(other.least), most: self.most.max(other.most) }
    }

    /// What lies inside both; empty if they do not meet.
    #[must_use]
    pub fn within(&self, other: &Self) -> Self {
        let least = self.least.max(other.least);
        Self { least, most: self.most.min(other.most).max(least) }
    }

    /// Whether all of another lies inside.
    #[must_use]
    pub fn holds(&self, other: &Self) -> bool {
        self.least.cmple(other.least).all() && self.most.cmpge(other.most).all()
    }

    /// Square pixels.
    #[must_use]
    pub fn area(&self) -> f64 {
        (self.most - self.least).element_product()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scene::drawing::{Anchor, Colour, Stroke, TextStyle, Typeface, rectangle};

    const INK: Colour = Colour::hex(0);

    fn drawing() -> Drawing {
        Drawing::new(DVec2::new(100.0, 50.0))
    }

    #[test]
    fn it_holds_lines_with_their_width_and_ends_with_the_picture() {
        let mut drawing = drawing();
        assert_eq!(Extent::of(&drawing), None);
        let line = [DVec2::new(10.0, 20.0), DVec2::new(400.0, 20.0)];
        drawing.line(line, Stroke::solid(INK, 4.0));
        let expected = Extent { least: DVec2::new(8.0, 18.0), most: DVec2::new(100.0, 22.0) };
        assert_eq!(Extent::of(&drawing), Some(expected));
    }

    #[test]
    fn what_lies_outside_the_picture_covers_nothing() {
        let mut drawing = drawing();
        drawing.fill(rectangle(DVec2::new(-9.0, -9.0), DVec2::new(-1.0, 80.0)), INK);
        assert_eq!(Extent::of(&drawing), None);
    }

    #[test]
    fn texts_may_reach_anywhere() {
        let mut drawing = drawing();
        let (typeface, anchor) = (Typeface::Sans, Anchor::Start);
        let style = TextStyle { typeface, size: 14.0, colour: INK, anchor, halo: None };
        drawing.text(DVec2::splat(30.0), "noon", style);
        let whole = Extent { least: DVec2::ZERO, most: drawing.size() };
        assert_eq!(Extent::of(&drawing), Some(whole));
    }
}
