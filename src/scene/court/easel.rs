//! Faces and lines in space, put on the drawing in the order in which they are asked for.

use glam::{DVec2, DVec3};

use super::view::View;
use crate::scene::drawing::{Colour, Drawing, Stroke};

/// Contours in the picture that will be painted as one mark.
#[derive(Debug, Default)]
pub(super) struct Shapes {
    points: Vec<DVec2>,
    ends: Vec<usize>,
    /// The polygons of space, for tests of the order of painting.
    #[cfg(test)]
    faces: Vec<Vec<DVec3>>,
}

impl Shapes {
    pub(super) fn clear(&mut self) {
        self.points.clear();
        self.ends.clear();
        #[cfg(test)]
        self.faces.clear();
    }

    pub(super) fn is_empty(&self) -> bool {
        self.ends.is_empty()
    }

    /// Adds a polygon of space.
    pub(super) fn polygon(&mut self, view: &View, corners: impl IntoIterator<Item = DVec3>) {
        let start = self.points.len();
        #[cfg(test)]
        let corners = {
            self.faces.push(corners.into_iter().collect());
            self.faces[self.faces.len() - 1].iter().copied()
        };
        view.polygon(&mut corners.into_iter(), &mut self.points);
        self.close(view, start, 3);
    }

    /// Adds a polygon of space turned so that it runs the same way round as all others, for
    /// shapes that overlap.
    pub(super) fn patch(&mut self, view: &View, corners: impl IntoIterator<Item = DVec3>) {
        let start = self.points.len();
        view.polygon(&mut corners.into_iter(), &mut self.points);
        if super::convex::area(&self.points[start..]) < 0.0 {
            self.points[start..].reverse();
        }
        self.close(view, start, 3);
    }

    /// Adds contours of space of which the first holds the others, turned together so that it
    /// runs the same way round as all patches.
    pub(super) fn pierced<C: IntoIterator<Item = DVec3>>(
        &mut self,
        view: &View,
        contours: impl IntoIterator<Item = C>,
    ) {
        let mut turned = None;
        for contour in contours {
            let start = self.points.len();
            view.polygon(&mut contour.into_iter(), &mut self.points);
            let backwards = || super::convex::area(&self.points[start..]) < 0.0;
            if *turned.get_or_insert_with(backwards) {
                self.points[start..].reverse();
            }
            self.close(view, start, 3);
        }
    }

    /// Adds a line of space.
    pub(super) fn line(&mut self, view: &View, from: DVec3, to: DVec3) {
        let start = self.points.len();
        if let Some(ends) = view.segment(from, to) {
            self.points.extend(ends);
            self.close(view, start, 2);
        }
    }

    /// Adds a line through many points of space.
    pub(super) fn polyline(&mut self, view: &View, points: impl IntoIterator<Item = DVec3>) {
        self.add_polyline(view, &mut points.into_iter());
    }

    fn add_polyline(&mut self, view: &View, points: &mut dyn Iterator<Item = DVec3>) {
        let mut start = self.points.len();
        let mut last: Option<DVec3> = None;
        for point in points {
            if let Some(from) = last {
                match (view.project(from), view.segment(from, point)) {
                    (Some(_), Some([a, b])) => {
                        if self.points.len() == start {
                            self.points.push(a);
                        }
                        self.points.push(b);
                    }
                    (None, Some(pair)) => {
                        self.close(view, start, 2);
                        start = self.points.len();
                        self.points.extend(pair);
                    }
                    (_, None) => {}
                }
            }
            last = Some(point);
        }
        self.close(view, start, 2);
    }

    /// Ends a contour; one that is too short or out of the frame is dropped again.
    fn close(&mut self, view: &View, start: usize, least: usize) {
        let points = &self.points[start..];
        let (low, high) = super::convex::bounds(points);
        if points.len() >= least && view.shows(low, high) {
            self.ends.push(self.points.len());
        } else {
            self.points.truncate(start);
        }
    }

    fn contours(&self) -> impl Iterator<Item = impl Iterator<Item = DVec2>> {
        self.ends.iter().enumerate().map(|(index, &end)| {
            let start = index.checked_sub(1).map_or(0, |before| self.ends[before]);
            self.points[start..end].iter().copied()
        })
    }
}

/// The drawing in hand, seen through a view.
#[derive(Debug)]
pub(super) struct Easel<'a> {
    pub(super) drawing: &'a mut Drawing,
    pub(super) view: &'a View,
    /// Line widths of the reference picture, 1200 px wide, are multiplied by this.
    pub(super) pen: f64,
    shapes: Shapes,
    /// Every face in the order of painting, for tests of that order.
    #[cfg(test)]
    pub(super) painted: Vec<Vec<DVec3>>,
}

impl<'a> Easel<'a> {
    pub(super) fn new(drawing: &'a mut Drawing, view: &'a View) -> Self {
        let pen = (view.size.x / 1200.0).clamp(0.72, 1.8);
        Self {
            drawing,
            view,
            pen,
            shapes: Shapes::default(),
            #[cfg(test)]
            painted: Vec::new(),
        }
    }

    /// A stroke of a width given for the reference picture.
    pub(super) fn stroke(&self, colour: Colour, width: f64) -> Stroke {
        Stroke::solid(colour, width * self.pen)
    }

    /// Fills a flat face.
    pub(super) fn fill(&mut self, corners: impl IntoIterator<Item = DVec3>, colour: Colour) {
        self.fills(|shapes, view| shapes.polygon(view, corners), colour);
    }

    /// Fills what a closure gathers as one shape.
    pub(super) fn fills(&mut self, gather: impl FnOnce(&mut Shapes, &View), colour: Colour) {
        self.shapes.clear();
        gather(&mut self.shapes, self.view);
        self.fill_shapes(colour);
    }

    fn fill_shapes(&mut self, colour: Colour) {
        #[cfg(test)]
        if colour.alpha == u8::MAX {
            self.painted.append(&mut self.shapes.faces);
        }
        if !self.shapes.is_empty() {
            self.drawing.fill_all(self.shapes.contours(), colour);
        }
    }

    /// Fills shapes gathered elsewhere as one.
    pub(super) fn fill_given(&mut self, shapes: &Shapes, colour: Colour) {
        if !shapes.is_empty() {
            self.drawing.fill_all(shapes.contours(), colour);
        }
    }

    /// Strokes lines gathered elsewhere as one mark.
    pub(super) fn stroke_given(&mut self, shapes: &Shapes, stroke: Stroke) {
        if !shapes.is_empty() {
            self.drawing.lines(shapes.contours(), stroke);
        }
    }

    /// Strokes what a closure gathers as one mark.
    pub(super) fn lines(&mut self, gather: impl FnOnce(&mut Shapes, &View), stroke: Stroke) {
        self.shapes.clear();
        gather(&mut self.shapes, self.view);
        if !self.shapes.is_empty() {
            self.drawing.lines(self.shapes.contours(), stroke);
        }
    }

    /// Fills a flat face with a linear gradient between two points of space.
    pub(super) fn gradient(
        &mut self,
        corners: impl IntoIterator<Item = DVec3>,
        (from, to): (DVec3, DVec3),
        (first, last): (Colour, Colour),
    ) {
        let Some(line) = self.view.segment(from, to) else {
            // Both ends lie behind an eye close by, the face need not.
            return self.fill(corners, first.mixed(last, 0.5));
        };
        self.shapes.clear();
        self.shapes.polygon(self.view, corners);
        if !self.shapes.is_empty() {
            let [from, to] = line;
            #[cfg(test)]
            self.painted.append(&mut self.shapes.faces);
            self.drawing.gradient(
                self.shapes.points.iter().copied(),
                (from, to),
                [(0.0, first), (1.0, last)],
            );
        }
    }

    /// Limits what follows to a flat face until [`Drawing::unclip`]; false if it is out of sight.
    pub(super) fn clip(&mut self, corners: impl IntoIterator<Item = DVec3>) -> bool {
        self.shapes.clear();
        self.shapes.polygon(self.view, corners);
        let seen = !self.shapes.is_empty();
        if seen {
            self.drawing.clip(self.shapes.points.iter().copied());
        }
        seen
    }
}
