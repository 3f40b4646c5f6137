//! The lens: the piece of a quadrant round the shadow's edge, enlarged, to scale along the arc.

mod captions;
mod graduation;
mod limits;
mod overview;
mod reason;
mod window;

use glam::DVec2;

use self::window::Window;
use super::drawing::{Colour, Drawing, Stroke, TextStyle, rectangle};
use super::lettering::Lettering;
use super::palette::Palette;
use super::stone_light::StoneLight;
use super::texture::hatch;
use crate::core::instrument::{Instrument, Side};
use crate::core::moment::Moment;
use crate::words::Words;

/// How the lens is to be drawn.
#[derive(Clone, Copy, Debug)]
pub struct LensView<'a> {
    /// Width and height, CSS pixels.
    pub size: DVec2,
    /// Colours.
    pub palette: &'a Palette,
    /// Words.
    pub words: &'a Words,
    /// Middle of the view, seconds since midnight as the graduation shows it; `None` follows the
    /// shadow's edge.
    pub centre_s: Option<f64>,
    /// Size of the labels, CSS pixels.
    pub label_px: f64,
    /// Whether the limits of the soft edge are marked, with their times.
    pub limits: bool,
}

/// Draws the lens.
pub fn draw(drawing: &mut Drawing, instrument: &Instrument, moment: &Moment, view: &LensView<'_>) {
    let layout = Layout::of(view);
    let mut lens = Lens {
        drawing,
        instrument,
        moment,
        view,
        layout,
        light: StoneLight::new(instrument, moment),
        window: Window::new(instrument, moment, view),
        letters: Lettering::new(view.size),
    };
    if layout.overview {
        lens.draw_overview();
    }
    lens.draw_stone();
    lens.draw_graduation();
    lens.draw_wall();
    lens.draw_foot_line();
    lens.draw_why();
    // A number can stand in one place only: words find room round the numbers, lines round both.
    lens.draw_numbers();
    lens.draw_captions_below();
    lens.draw_words_on_stone();
    lens.draw_limit_lines();
    lens.draw_half_light();
    lens.draw_read_mark();
}

/// Time that goes by along the arc in one CSS pixel of the lens, seconds.
#[must_use]
pub fn seconds_per_px(instrument: &Instrument, view: &LensView<'_>) -> f64 {
    window::span_s(instrument) / view.size.x.max(1.0)
}

/// Heights of the lens's parts, CSS pixels.
#[derive(Clone, Copy, Debug)]
struct Layout {
    /// One pixel at the smallest label size of the page.
    unit: f64,
    /// Whether there is room for the whole quadrant above.
    overview: bool,
    /// Upper side of the enlarged band.
    top: f64,
    /// Lower side of the enlarged band, where the marks stand.
    bottom: f64,
    /// Height of the words on the stone: a line of words, a bracket or a line of times, a line of
    /// words.
    words: f64,
}

impl Layout {
    fn of(view: &LensView<'_>) -> Self {
        let unit = view.label_px / 13.0;
        let overview = view.size.y >= 11.0 * view.label_px;
        let top = if overview { 42.0 * unit } else { 2.0 * unit };
        let bottom = (view.size.y - 28.0 * unit).max(top + 12.0 * unit);
        let words = if view.limits { 43.0 } else { 39.0 } * unit;
        Self { unit, overview, top, bottom, words }
    }

    fn band_height(&self) -> f64 {
        self.bottom - self.top
    }

    /// Baseline of the first line of words on the stone.
    fn first_line(&self) -> f64 {
        self.top + 13.0 * self.unit
    }

    /// Height of the bracket of the soft edge.
    fn bracket(&self) -> f64 {
        self.top + 21.5 * self.unit
    }

    /// Baseline of the last line of words on the stone.
    fn last_line(&self) -> f64 {
        self.top + self.words - 3.0 * self.unit
    }
}

/// A lens being drawn.
struct Lens<'a> {
    drawing: &'a mut Drawing,
    instrument: &'a Instrument,
    moment: &'a Moment,
    view: &'a LensView<'a>,
    layout: Layout,
    light: StoneLight<'a>,
    window: Window,
    letters: Lettering,
}

impl Lens<'_> {
    /// Light on the stone at a time shown on a quadrant, 0 full shadow to 1 full sun.
    fn light_at(&self, side: Side, shown_s: f64) -> f64 {
        self.light.at_mark(side, shown_s)
    }

    /// Colour of the stone under this much light.
    fn stone(&self, light: f64) -> Colour {
        self.view.palette.umbra.mixed(self.view.palette.lit, light)
    }

    /// Colour of engraving and words on stone under this much light.
    fn cut(&self, light: f64) -> Colour {
        if light > LIGHT_ENGRAVING_BELOW {
            self.view.palette.cut
        } else {
            self.view.palette.cut_umbra
        }
    }

    /// Sets words on the stone with a halo of the stone itself, so that no mark runs into them.
    fn set_on_stone(&mut self, at: DVec2, text: &str, light: f64, style: TextStyle) -> bool {
        let style = self.on_stone(light, style);
        self.letters.set(self.drawing, at, text, style)
    }

    /// A style with the colours of engraving on stone under this much light.
    fn on_stone(&self, light: f64, style: TextStyle) -> TextStyle {
        let halo = Some((self.stone(light), 3.0 * self.layout.unit));
        TextStyle { colour: self.cut(light), halo, ..style }
    }

    /// The stone of both quadrants with its light, and hatching where the quadrant has ended.
    fn draw_stone(&mut self) {
        for side in Side::BOTH {
            let Some((from_s, to_s)) = self.window.visible_s(side) else { continue };
            let (left, right) = (self.window.px(side, from_s), self.window.px(side, to_s));
            let min = DVec2::new(left, self.layout.top);
            let max = DVec2::new(right, self.layout.bottom);
            let stops = self.stops(side, from_s, to_s);
            self.drawing.gradient(rectangle(min, max), (min, DVec2::new(right, min.y)), stops);
            // Where lit stone is as light as the paper, a line still bounds it.
            let rule = Stroke::solid(self.view.palette.rule.faded(0.6), self.layout.unit);
            self.drawing.line([min, DVec2::new(right, min.y)], rule);
            self.draw_end(side);
        }
    }

    /// Light along a piece of a quadrant as the stops of a gradient, without those that lie
    /// between two of their own colour.
    fn stops(&self, side: Side, from_s: f64, to_s: f64) -> Vec<(f64, Colour)> {
        let mut stops: Vec<(f64, Colour)> = Vec::new();
        for (time, light) in self.light.profile(side, (from_s, to_s)) {
            let place = ((time - from_s) / (to_s - from_s)).clamp(0.0, 1.0);
            let colour = self.stone(light);
            if let [.., before, last] = &mut stops[..]
                && before.1 == colour
                && last.1 == colour
            {
                last.0 = place;
            } else {
                stops.push((place, colour));
            }
        }
        stops
    }

    /// The upper end of a quadrant, if it is in view: beyond it there is no stone.
    fn draw_end(&mut self, side: Side) {
        let px = self.window.px(side, self.window.end_s(side));
        if !(0.0..=self.view.size.x).contains(&px) {
            return;
        }
        let (top, bottom, unit) = (self.layout.top, self.layout.bottom, self.layout.unit);
        let (left, right) = match side {
            Side::West => (0.0, px),
            Side::East => (px, self.view.size.x),
        };
        let hair = Stroke::solid(self.view.palette.hair, unit);
        let field = (DVec2::new(left, top), DVec2::new(right, bottom));
        hatch(self.drawing, field, 7.0 * unit, hair);
        let line = [DVec2::new(px, top), DVec2::new(px, bottom)];
        self.drawing.line(line, Stroke::solid(self.view.palette.ink, 1.5 * unit));
        self.letters.reserve(line[0], line[1]);
    }

    /// The dotted line on which half of the Sun's disc is seen.
    fn draw_half_light(&mut self) {
        let Some(px) = self.half_light_px() else { return };
        let unit = self.layout.unit;
        let stroke = Stroke::solid(self.view.palette.cut, 1.5 * unit);
        self.draw_dashes((px, self.layout.bracket()), (2.0 * unit, 3.4 * unit), stroke);
    }

    /// A broken line down to the marks' foot, without those dashes that would run through letters.
    fn draw_dashes(&mut self, (px, top): (f64, f64), (dash, gap): (f64, f64), stroke: Stroke) {
        let beside = DVec2::X * stroke.width;
        let (mut y, mut dashes) = (top, Vec::new());
        while y + dash <= self.layout.bottom {
            let line = [DVec2::new(px, y), DVec2::new(px, y + dash)];
            if self.letters.is_clear((line[0] - beside, line[1] + beside)) {
                dashes.push(line);
            }
            y += dash + gap;
        }
        self.drawing.lines(dashes, stroke);
    }

    /// The wall between the two feet, drawn narrow: its real thickness does not fit the scale.
    fn draw_wall(&mut self) {
        let (left, right) = self.window.wall_px();
        if right <= 0.0 || left >= self.view.size.x {
            return;
        }
        let (top, bottom, unit) = (self.layout.top, self.layout.bottom, self.layout.unit);
        let palette = self.view.palette;
        let (min, max) = (DVec2::new(left, top - unit), DVec2::new(right, bottom + unit));
        self.drawing.fill(rectangle(min, max), palette.mid);
        let joints = Stroke::solid(palette.cut.faded(0.3), 0.8 * unit);
        let courses = (1..).map(|course| f64::from(course) * 11.0 * unit);
        let courses = courses.take_while(|drop| min.y + drop < max.y);
        let joint = |drop: f64| [DVec2::new(left, min.y + drop), DVec2::new(right, min.y + drop)];
        self.drawing.lines(courses.map(joint), joints);
        self.drawing.outline(rectangle(min, max), Stroke::solid(palette.ink, 1.5 * unit));
        self.name_wall((min, max));
        self.letters.reserve(min, max);
    }

    /// The line on which the marks stand.
    fn draw_foot_line(&mut self) {
        let y = self.layout.bottom;
        let stroke = Stroke::solid(self.view.palette.ink, 2.0 * self.layout.unit);
        for side in Side::BOTH {
            if let Some((from_s, to_s)) = self.window.visible_s(side) {
                let ends = [from_s, to_s].map(|time| DVec2::new(self.window.px(side, time), y));
                self.drawing.line(ends, stroke);
            }
        }
    }
}

/// Light below which engraving is cut light where the theme does so: a fifth of the penumbra past
/// half light.
const LIGHT_ENGRAVING_BELOW: f64 = 0.3;

#[cfg(test)]
mod tests;
