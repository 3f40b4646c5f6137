//! Texts over the picture: sized on screen, inside the frame, clear of one another.

use glam::DVec2;

use super::convex::bounds;
use crate::scene::drawing::{Anchor, Colour, Drawing, Stroke, TextStyle, Typeface, rectangle};
use crate::scene::lettering::is_mark;
use crate::scene::palette::Palette;

/// Smallest type in the court, pixels.
pub(super) const SMALLEST_PX: f64 = 14.0;
/// Free border inside the frame, pixels.
const BORDER_PX: f64 = 8.0;

/// Space between a text and what it stands beside, pixels.
const GAP_PX: f64 = 8.0;
/// Height of the page's buttons over the lower edge of the picture and the border round them, in heights
/// of the type; breadth and height of those in an upper corner, and of the one that is there alone when
/// presenting.
const BUTTONS: f64 = 4.2;
const CORNER: DVec2 = DVec2::new(19.0, BUTTONS);
const ALONE: DVec2 = DVec2::new(3.2, 3.2);
/// Narrower pictures have the buttons below them, pixels.
const BUTTONS_FROM_PX: f64 = 480.0;

/// How many places beside its point a text may have without a line that leads there; how far off it
/// may be set with one, in heights of the type, and how many places are tried at each distance.
const NEAR: usize = 6;
const FARTHEST: u32 = 13;
const AROUND: u32 = 20;

/// A box of the picture: least and greatest corner.
type Area = (DVec2, DVec2);

/// The texts set so far, and what they must keep clear of.
#[derive(Debug)]
pub(super) struct Labels<'a> {
    palette: &'a Palette,
    /// Ink and paper of what stands over the picture without a frame.
    inks: (Colour, Colour),
    size: DVec2,
    /// Height of the type, pixels.
    pub(super) type_px: f64,
    taken: Vec<Area>,
    /// Those of them that are texts: no line leads through them.
    texts: Vec<Area>,
    /// Lines of the picture, each with the box round it.
    lines: Vec<([DVec2; 2], Area)>,
}

impl<'a> Labels<'a> {
    /// Labels of a picture over which the page's buttons lie or not, in the upper corner where its
    /// lines end.
    pub(super) fn new(
        palette: &'a Palette,
        inks: (Colour, Colour),
        size: DVec2,
        label_px: f64,
        covered: bool,
        right_to_left: bool,
    ) -> Self {
        let type_px = label_px.max(SMALLEST_PX);
        let mut taken = Vec::new();
        if size.x >= BUTTONS_FROM_PX {
            let corner = if covered { CORNER } else { ALONE } * type_px;
            let at = DVec2::new(if right_to_left { 0.0 } else { size.x - corner.x }, 0.0);
            taken.push((at, at + corner));
        }
        if covered && size.x >= BUTTONS_FROM_PX {
            taken.push((DVec2::new(0.0, size.y - BUTTONS * type_px), size));
        }
        Self { palette, inks, size, type_px, taken, texts: Vec::new(), lines: Vec::new() }
    }

    /// Keeps texts off a line of the picture.
    pub(super) fn keep_off(&mut self, line: [DVec2; 2]) {
        let (least, most) = bounds(&line);
        if least.cmple(self.size).all() && most.cmpge(DVec2::ZERO).all() {
            self.lines.push((line, (least, most)));
        }
    }

    /// Keeps texts and the lines that lead to them off the neighbourhood of a point.
    pub(super) fn keep_whole(&mut self, point: DVec2, radius: f64) {
        self.occupy((point - radius, point + radius));
    }

    /// Keeps texts off the neighbourhood of a point.
    pub(super) fn keep_clear(&mut self, point: DVec2, radius: f64) {
        self.keep_out((point - radius, point + radius));
    }

    /// Keeps texts out of a box.
    pub(super) fn keep_out(&mut self, area: (DVec2, DVec2)) {
        self.taken.push(area);
    }

    /// Whether nothing stands about a point, and it is in the frame.
    pub(super) fn is_clear(&self, point: DVec2, radius: f64) -> bool {
        self.is_untaken((point - radius, point + radius))
    }

    /// Sets a text beside a point; each place tried is the offset of the text's middle, in
    /// halves of its box plus a gap. Nothing is set, and the answer is false, if none is free.
    pub(super) fn beside(
        &mut self,
        drawing: &mut Drawing,
        point: DVec2,
        text: &str,
        places: &[(f64, f64)],
    ) -> bool {
        let free = self.place(point, text, places, &|area| self.is_free(area));
        if let Some(middle) = free {
            self.write(drawing, middle, text, self.inks.0, 1.0);
        }
        free.is_some()
    }

    /// Sets a text, or its shorter form, beside one of several points, the first that has a free
    /// place: clear of all lines, or, if it must be, the shorter over some.
    pub(super) fn beside_any(
        &mut self,
        drawing: &mut Drawing,
        points: &[DVec2],
        texts: [&str; 2],
        places: &[(f64, f64)],
        (colour, strength): (Colour, f64),
    ) {
        // Over a dark sky colours are made lighter.
        let (ink, _) = self.inks;
        let colour = if ink == self.palette.ink { colour } else { colour.mixed(ink, 0.8) };
        let beside = |text: &str, places: &[(f64, f64)], fits: &dyn Fn(Area) -> bool| {
            points.iter().find_map(|&point| self.place(point, text, places, fits))
        };
        let clear = |area: Area| self.is_free(area);
        let over = |area: Area| self.is_untaken(area);
        // What stands farther off is led to its point by a line.
        let near = &places[..places.len().min(NEAR)];
        let free = texts.into_iter().find_map(|text| Some((beside(text, near, &clear)?, text)));
        if let Some((middle, text)) = free {
            self.write(drawing, middle, text, colour, strength);
            return;
        }
        let [_, short] = texts;
        if let Some((point, middle)) = self.apart(points, short) {
            let half = self.half_box(short, self.type_px);
            let end = point.clamp(middle - half, middle + half);
            drawing.line([point, end], Stroke::solid(self.inks.1.faded(strength), 3.4));
            drawing.line([point, end], Stroke::solid(colour.faded(0.75 * strength), 1.0));
            self.write(drawing, middle, short, colour, strength);
        } else if let Some(middle) = beside(short, places, &over) {
            self.write(drawing, middle, short, colour, strength);
        }
    }

    /// A point, and the nearest free place for the middle of its text farther off, to which a line
    /// leads.
    fn apart(&self, points: &[DVec2], text: &str) -> Option<(DVec2, DVec2)> {
        let half = self.half_box(text, self.type_px);
        (2..FARTHEST).find_map(|reach| {
            points.iter().find_map(|&point| {
                let round = (0..AROUND).map(|k| {
                    let turn = f64::from(k) / f64::from(AROUND) * std::f64::consts::TAU;
                    let way = DVec2::from_angle(turn);
                    point + way * (half + f64::from(reach) * self.type_px)
                });
                let mut round = round.filter(|&middle| {
                    let end = point.clamp(middle - half, middle + half);
                    self.is_free((middle - half, middle + half)) && self.is_passable([point, end])
                });
                round.next().map(|middle| (point, middle))
            })
        })
    }

    /// The middle of the first place beside a point that fits.
    fn place(
        &self,
        point: DVec2,
        text: &str,
        places: &[(f64, f64)],
        fits: &dyn Fn(Area) -> bool,
    ) -> Option<DVec2> {
        let half = self.half_box(text, self.type_px);
        let middles = places.iter().map(|&(x, y)| point + DVec2::new(x, y) * (half + GAP_PX));
        middles.into_iter().find(|&middle| fits((middle - half, middle + half)))
    }

    /// Writes a text with its halo, and keeps others off it.
    fn write(
        &mut self,
        drawing: &mut Drawing,
        middle: DVec2,
        text: &str,
        colour: Colour,
        strength: f64,
    ) {
        let half = self.half_box(text, self.type_px);
        self.occupy((middle - half, middle + half));
        let halo = Some((self.inks.1.faded(0.85 * strength), 3.5));
        self.set(drawing, middle, text, self.type_px, colour.faded(strength), halo);
    }

    /// Sets a text in a frame of its own, led to a point; places as fractions of `reach`.
    pub(super) fn led(
        &mut self,
        drawing: &mut Drawing,
        point: DVec2,
        text: &str,
        reach: f64,
        places: &[(f64, f64)],
    ) {
        let type_px = self.type_px * 1.3;
        let half = self.half_box(text, type_px) + DVec2::new(0.5, 0.16) * type_px;
        let place = places.iter().map(|&(x, y)| point + DVec2::new(x, y) * (reach + half));
        let mut place = place.into_iter();
        let clear = place.clone().find(|&middle| self.is_free((middle - half, middle + half)));
        // The reading stands over lines rather than nowhere.
        let over = || place.find(|&middle| self.is_untaken((middle - half, middle + half)));
        let Some(middle) = clear.or_else(over) else { return };
        let (low, high) = (middle - half, middle + half);
        self.occupy((low, high));
        let p = self.palette;
        let towards = (middle - point).normalize_or_zero();
        let from = point + towards * 8.0;
        drawing.line([from, middle], Stroke::solid(p.paper, 4.4));
        // Thin and of another colour than the ray, which ends here.
        drawing.line([from, middle], Stroke::solid(p.ink, 1.0));
        drawing.fill(rectangle(low, high), p.panel);
        drawing.outline(rectangle(low, high), Stroke::solid(p.accent, 1.4));
        self.set(drawing, middle, text, type_px, p.ink, None);
    }

    fn set(
        &self,
        drawing: &mut Drawing,
        middle: DVec2,
        text: &str,
        type_px: f64,
        colour: Colour,
        halo: Option<(Colour, f64)>,
    ) {
        // Figures and capitals stand about 0.7 of the type's size above the baseline.
        let at = middle + DVec2::new(0.0, 0.35 * type_px);
        let style = TextStyle {
            typeface: Typeface::Serif,
            size: type_px,
            colour,
            anchor: Anchor::Middle,
            halo,
        };
        drawing.text(at, text, style);
    }

    fn half_box(&self, text: &str, type_px: f64) -> DVec2 {
        DVec2::new(text_width(text, type_px), 1.1 * type_px) / 2.0
    }

    /// Notes where a text has been set.
    fn occupy(&mut self, area: Area) {
        self.taken.push(area);
        self.texts.push(area);
    }

    /// Whether a line leads past all texts.
    fn is_passable(&self, line: [DVec2; 2]) -> bool {
        !self.texts.iter().any(|&area| meet(bounds(&line), area) && crosses(line, area))
    }

    /// Whether a box lies in the frame and meets nothing.
    fn is_free(&self, (low, high): Area) -> bool {
        let room = (low - 5.0, high + 5.0);
        self.is_untaken((low, high))
            && !self.lines.iter().any(|&(line, round)| meet(round, room) && crosses(line, room))
    }

    /// Whether a box lies in the frame and meets nothing but lines.
    fn is_untaken(&self, (low, high): Area) -> bool {
        low.cmpge(DVec2::splat(BORDER_PX)).all()
            && high.cmple(self.size - BORDER_PX).all()
            && !self.taken.iter().any(|&area| meet(area, (low, high)))
    }
}

/// A generous guess at the width of a text in a serif face, pixels.
pub(super) fn text_width(text: &str, type_px: f64) -> f64 {
    let ems: f64 = text
        .chars()
        .map(|letter| match letter {
            mark if is_mark(mark) => 0.0,
            ':' | '.' | ',' | ' ' | '′' | 'i' | 'l' | 't' | 'f' | 'r' | 'j' => 0.34,
            'm' | 'w' | 'M' | 'W' | 'N' => 0.92,
            letter if letter.is_uppercase() => 0.76,
            _ => 0.58,
        })
        .sum();
    ems * type_px
}

/// Whether two boxes overlap.
fn meet((low, high): Area, (least, most): Area) -> bool {
    low.x < most.x && low.y < most.y && least.x < high.x && least.y < high.y
}

/// Whether a segment crosses a box that meets the box round it.
fn crosses([a, b]: [DVec2; 2], (low, high): Area) -> bool {
    let sides = rectangle(low, high).map(|corner| (b - a).perp_dot(corner - a));
    sides.iter().any(|&side| side <= 0.0) && sides.iter().any(|&side| side >= 0.0)
}
