//! The drawing list: what painters paint, in order, with every decision already taken.
//!
//! Invariants: coordinates are CSS pixels, `x` right and `y` down, all finite; colours are
//! resolved; later marks lie over earlier ones; clips nest and are closed again.

use std::ops::Range;

use glam::DVec2;

/// A colour with opacity, 8 bits each.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Colour {
    /// Red, green, blue.
    pub rgb: [u8; 3],
    /// Opacity, 255 solid.
    pub alpha: u8,
}

impl Colour {
    /// A solid colour from `0xRRGGBB`.
    #[must_use]
    pub const fn hex(rgb: u32) -> Self {
        let [_, red, green, blue] = rgb.to_be_bytes();
        Self { rgb: [red, green, blue], alpha: 255 }
    }

    /// The same colour at an opacity from 0 to 1.
    #[must_use]
    pub fn faded(self, opacity: f64) -> Self {
        Self { alpha: (opacity.clamp(0.0, 1.0) * 255.0).round() as u8, ..self }
    }

    /// This colour mixed with another; `share` of the other from 0 to 1.
    #[must_use]
    pub fn mixed(self, other: Self, share: f64) -> Self {
        let share = share.clamp(0.0, 1.0);
        let mix =
            |a: u8, b: u8| (f64::from(a) + (f64::from(b) - f64::from(a)) * share).round() as u8;
        Self {
            rgb: std::array::from_fn(|i| mix(self.rgb[i], other.rgb[i])),
            alpha: mix(self.alpha, other.alpha),
        }
    }
}

/// How a line is drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stroke {
    /// Its colour.
    pub colour: Colour,
    /// Its width, CSS pixels.
    pub width: f64,
    /// Length of dash and gap, CSS pixels; `None` for a full line.
    pub dash: Option<(f64, f64)>,
}

impl Stroke {
    /// A full line.
    #[must_use]
    pub const fn solid(colour: Colour, width: f64) -> Self {
        Self { colour, width, dash: None }
    }
}

/// The two families of type in use.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Typeface {
    /// Labels and sentences.
    Sans,
    /// Figures and names.
    Serif,
}

/// Where a text stands from its point.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// The text begins at the point.
    Start,
    /// The text is centred on the point.
    Middle,
    /// The text ends at the point.
    End,
}

/// How a text is set; the point given with it is on the baseline.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TextStyle {
    /// Family.
    pub typeface: Typeface,
    /// Size, CSS pixels.
    pub size: f64,
    /// Colour.
    pub colour: Colour,
    /// Horizontal place.
    pub anchor: Anchor,
    /// A halo behind the letters, so that text stays legible on anything: colour and width of
    /// a line round the letters, of which the outer half shows.
    pub halo: Option<(Colour, f64)>,
}

/// One thing to paint. Ranges index the drawing's own stores.
#[derive(Clone, Debug, PartialEq)]
pub enum Mark {
    /// A shape of one or more closed contours, filled by the non-zero rule.
    Fill {
        /// Its contours.
        contours: Range<usize>,
        /// Its colour.
        colour: Colour,
    },
    /// A shape filled with a linear gradient.
    Gradient {
        /// Its contours.
        contours: Range<usize>,
        /// Where the gradient begins.
        from: DVec2,
        /// Where it ends.
        to: DVec2,
        /// Its stops.
        stops: Range<usize>,
    },
    /// One or more lines.
    Line {
        /// Its contours.
        contours: Range<usize>,
        /// Whether each returns to its start.
        closed: bool,
        /// How it is drawn.
        stroke: Stroke,
    },
    /// A text on one line.
    Text {
        /// Start or middle or end of the baseline.
        at: DVec2,
        /// Which of the drawing's texts.
        text: Range<usize>,
        /// How it is set.
        style: TextStyle,
    },
    /// Everything until the matching [`Mark::Unclip`] is cut off outside these contours.
    Clip {
        /// Outline.
        contours: Range<usize>,
    },
    /// Ends the innermost clip.
    Unclip,
}

/// A finished picture of a given size. Emptying it keeps its memory for the next frame.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Drawing {
    size: DVec2,
    points: Vec<DVec2>,
    /// End of each contour in `points`.
    contour_ends: Vec<usize>,
    stops: Vec<(f64, Colour)>,
    text: String,
    marks: Vec<Mark>,
}

impl Drawing {
    /// An empty picture, CSS pixels.
    #[must_use]
    pub fn new(size: DVec2) -> Self {
        Self { size, ..Self::default() }
    }

    /// Empties the picture and gives it a size.
    pub fn restart(&mut self, size: DVec2) {
        self.size = size;
        self.points.clear();
        self.contour_ends.clear();
        self.stops.clear();
        self.text.clear();
        self.marks.clear();
    }

    /// Adds room at the foot of the picture, CSS pixels.
    pub fn heighten(&mut self, by: f64) {
        self.size.y += by;
    }

    /// Width and height, CSS pixels.
    #[must_use]
    pub fn size(&self) -> DVec2 {
        self.size
    }

    /// What to paint, in order.
    #[must_use]
    pub fn marks(&self) -> &[Mark] {
        &self.marks
    }

    /// The contours of a mark.
    pub fn contours(&self, range: &Range<usize>) -> impl Iterator<Item = &[DVec2]> {
        range.clone().map(|index| {
            let start = index.checked_sub(1).map_or(0, |before| self.contour_ends[before]);
            &self.points[start..self.contour_ends[index]]
        })
    }

    /// The stops of a gradient: place from 0 to 1, and colour.
    #[must_use]
    pub fn stops(&self, range: &Range<usize>) -> &[(f64, Colour)] {
        &self.stops[range.clone()]
    }

    /// The letters of a text mark.
    #[must_use]
    pub fn text_of(&self, range: &Range<usize>) -> &str {
        &self.text[range.clone()]
    }

    /// Fills a polygon.
    pub fn fill(&mut self, polygon: impl IntoIterator<Item = DVec2>, colour: Colour) {
        let contours = self.contour(&mut polygon.into_iter());
        self.marks.push(Mark::Fill { contours, colour });
    }

    /// Fills many polygons as one shape, so that their overlaps are not painted twice.
    pub fn fill_all<C: IntoIterator<Item = DVec2>>(
        &mut self,
        polygons: impl IntoIterator<Item = C>,
        colour: Colour,
    ) {
        let contours = self.contour_set(polygons);
        self.marks.push(Mark::Fill { contours, colour });
    }

    /// Fills a polygon with a linear gradient.
    pub fn gradient(
        &mut self,
        polygon: impl IntoIterator<Item = DVec2>,
        (from, to): (DVec2, DVec2),
        stops: impl IntoIterator<Item = (f64, Colour)>,
    ) {
        let contours = self.contour(&mut polygon.into_iter());
        let first = self.stops.len();
        self.stops.extend(stops);
        let stops = first..self.stops.len();
        self.marks.push(Mark::Gradient { contours, from, to, stops });
    }

    /// Draws an open line.
    pub fn line(&mut self, points: impl IntoIterator<Item = DVec2>, stroke: Stroke) {
        let contours = self.contour(&mut points.into_iter());
        self.marks.push(Mark::Line { contours, closed: false, stroke });
    }

    /// Draws many open lines alike.
    pub fn lines<C: IntoIterator<Item = DVec2>>(
        &mut self,
        lines: impl IntoIterator<Item = C>,
        stroke: Stroke,
    ) {
        let contours = self.contour_set(lines);
        self.marks.push(Mark::Line { contours, closed: false, stroke });
    }

    /// Draws a closed outline.
    pub fn outline(&mut self, polygon: impl IntoIterator<Item = DVec2>, stroke: Stroke) {
        let contours = self.contour(&mut polygon.into_iter());
        self.marks.push(Mark::Line { contours, closed: true, stroke });
    }

    /// Sets a text.
    pub fn text(&mut self, at: DVec2, text: &str, style: TextStyle) {
        let first = self.text.len();
        self.text.push_str(text);
        let text = first..self.text.len();
        self.marks.push(Mark::Text { at, text, style });
    }

    /// Cuts off everything outside a polygon until [`Drawing::unclip`].
    pub fn clip(&mut self, polygon: impl IntoIterator<Item = DVec2>) {
        let contours = self.contour(&mut polygon.into_iter());
        self.marks.push(Mark::Clip { contours });
    }

    /// Ends the innermost clip.
    pub fn unclip(&mut self) {
        self.marks.push(Mark::Unclip);
    }

    /// Stores one contour.
    /// Not for every kind of iterator anew: that would be many kilobytes of program.
    fn contour(&mut self, points: &mut dyn Iterator<Item = DVec2>) -> Range<usize> {
        let first = self.contour_ends.len();
        self.points.extend(points);
        self.contour_ends.push(self.points.len());
        first..first + 1
    }

    /// Stores contours one after the other.
    fn contour_set<C: IntoIterator<Item = DVec2>>(
        &mut self,
        contours: impl IntoIterator<Item = C>,
    ) -> Range<usize> {
        let first = self.contour_ends.len();
        for contour in contours {
            self.points.extend(contour);
            self.contour_ends.push(self.points.len());
        }
        first..self.contour_ends.len()
    }
}

/// The corners of an upright rectangle.
#[must_use]
pub fn rectangle(min: DVec2, max: DVec2) -> [DVec2; 4] {
    [min, DVec2::new(max.x, min.y), max, DVec2::new(min.x, max.y)]
}
