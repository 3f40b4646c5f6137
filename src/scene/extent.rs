//! How much of a picture a drawing covers.

use glam::DVec2;

use super::drawing::{Anchor, Drawing, Mark, TextStyle};

/// An upright rectangle: least and greatest corner, CSS pixels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Extent {
    /// Least corner.
    pub least: DVec2,
    /// Greatest corner.
    pub most: DVec2,
}

impl Extent {
    /// The part of its picture that a drawing covers, or a little more; `None` if it is empty.
    #[must_use]
    pub fn of(drawing: &Drawing) -> Option<Self> {
        let whole = Self { least: DVec2::ZERO, most: drawing.size() };
        let mut covered: Option<Self> = None;
        let mut cover = |spot: Self| {
            covered = Some(covered.map_or(spot, |covered| covered.with(&spot)));
        };
        for mark in drawing.marks() {
            let (contours, margin) = match mark {
                Mark::Fill { contours, .. } | Mark::Gradient { contours, .. } => (contours, 0.0),
                Mark::Line { contours, stroke, .. } => (contours, stroke.width / 2.0),
                Mark::Text { at, text, style } => {
                    cover(text_extent(*at, drawing.text_of(text), style));
                    continue;
                }
                Mark::Clip { .. } | Mark::Unclip => continue,
            };
            for &point in drawing.contours(contours).flatten() {
                cover(Self { least: point - margin, most: point + margin });
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

/// Where a text may reach at most: how broad its letters are is not known before it is painted, but
/// hardly a letter is broader than high.
fn text_extent(at: DVec2, text: &str, style: &TextStyle) -> Extent {
    let halo = style.halo.map_or(0.0, |(_, width)| width / 2.0);
    let breadth = style.size * text.chars().count() as f64;
    let (before, after) = match style.anchor {
        Anchor::Start => (0.0, breadth),
        Anchor::Middle => (breadth / 2.0, breadth / 2.0),
        Anchor::End => (breadth, 0.0),
    };
    let (rise, fall) = (1.3 * style.size, 0.5 * style.size);
    Extent {
        least: at - DVec2::new(before + halo, rise + halo),
        most: at + DVec2::new(after + halo, fall + halo),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scene::drawing::{Colour, Stroke, Typeface, rectangle};

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
    fn texts_have_room_for_broad_letters() {
        let mut drawing = drawing();
        let (typeface, anchor) = (Typeface::Sans, Anchor::End);
        let style = TextStyle { typeface, size: 10.0, colour: INK, anchor, halo: None };
        drawing.text(DVec2::new(60.0, 30.0), "noon", style);
        let expected = Extent { least: DVec2::new(20.0, 17.0), most: DVec2::new(60.0, 35.0) };
        assert_eq!(Extent::of(&drawing), Some(expected));
    }
}
