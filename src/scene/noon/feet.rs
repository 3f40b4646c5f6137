//! The two feet as they are lit, with their graduations, and the wall between them.

use glam::DVec2;

use super::Noon;
use crate::core::instrument::Side;
use crate::core::reading::{NOON_S, SECONDS_PER_RADIAN, hour_angle_of_mark, shown_at};
use crate::scene::drawing::{Anchor, Colour, Stroke, TextStyle, Typeface, rectangle};
use crate::scene::lettering::{figure, label, text_width};
use crate::scene::numerals::Numeral;
use crate::scene::texture::hatch;
use crate::words::figures::{length, with_unit};

/// Breadth of the wall as drawn, in label sizes.
const WALL_LABELS: f64 = 2.6;
/// Marks closer together than this are left out, CSS pixels.
const CLOSEST_PX: f64 = 2.6;
/// Lengths of the scale bar, millimetres.
const BARS_MM: [f64; 10] = [500.0, 200.0, 100.0, 50.0, 20.0, 10.0, 5.0, 2.0, 1.0, 0.5];
/// Minutes between two numbers, of which the finest that has room is used.
const NUMBER_STEPS_MIN: [u32; 6] = [1, 2, 5, 10, 15, 30];

impl Noon<'_> {
    pub(super) fn draw_feet(&mut self) {
        for side in Side::BOTH {
            self.draw_stone(side);
            self.draw_gap(side);
            self.draw_marks(side);
            self.draw_edge(side);
        }
        self.draw_wall();
        for side in Side::BOTH {
            self.number_marks(side);
        }
        self.draw_measure();
    }

    fn wall_breadth(&self) -> f64 {
        WALL_LABELS * self.view.label_px
    }

    /// Where a quadrant's foot meets the wall.
    fn foot_px(&self, side: Side) -> f64 {
        self.axis.px(0.0) + side.sign() * self.wall_breadth() / 2.0
    }

    /// Pixels in a radian of arc.
    fn px_per_rad(&self) -> f64 {
        self.axis.px_per_unit() / self.sun.rate
    }

    /// Where an angle from the foot lies.
    pub(super) fn arc_px(&self, side: Side, angle_rad: f64) -> f64 {
        self.foot_px(side) + angle_rad * self.px_per_rad()
    }

    /// Where a mark is cut.
    fn mark_px(&self, side: Side, shown_s: f64) -> f64 {
        self.arc_px(side, hour_angle_of_mark(self.instrument, side, shown_s))
    }

    /// Angle of a quadrant at the border of the view.
    fn border_rad(&self, side: Side) -> f64 {
        let border = if side == Side::West { 0.0 } else { self.view.size.x };
        let from_foot = (border - self.foot_px(side)) / self.px_per_rad();
        from_foot.clamp(-std::f64::consts::FRAC_PI_2, std::f64::consts::FRAC_PI_2)
    }

    /// Times that are cut on a quadrant at its foot and at the border of the view, in order.
    fn visible_s(&self, side: Side) -> (f64, f64) {
        let shown = |angle| shown_at(self.instrument, side, angle);
        let (foot, border) = (shown(0.0), shown(self.border_rad(side)));
        (foot.min(border), foot.max(border))
    }

    /// The stone of a foot under the light of the moment.
    fn draw_stone(&mut self, side: Side) {
        let (from_s, to_s) = self.visible_s(side);
        let (left, right) = (self.mark_px(side, from_s), self.mark_px(side, to_s));
        if right <= left {
            return;
        }
        let (top, bottom) = self.layout.feet;
        let (min, max) = (DVec2::new(left, top), DVec2::new(right, bottom));
        let stops: Vec<(f64, Colour)> = self
            .light
            .profile(side, (from_s, to_s))
            .into_iter()
            .map(|(time, light)| {
                (((time - from_s) / (to_s - from_s)).clamp(0.0, 1.0), self.stone(light))
            })
            .collect();
        self.drawing.gradient(rectangle(min, max), (min, DVec2::new(right, top)), stops);
        let rule = Stroke::solid(self.view.palette.rule, self.layout.unit);
        self.drawing.line([min, DVec2::new(right, top)], rule);
        let foot = Stroke::solid(self.view.palette.ink, 2.0 * self.layout.unit);
        self.drawing.line([DVec2::new(left, bottom), max], foot);
    }

    /// The arc between the wall and the first usable mark.
    fn draw_gap(&mut self, side: Side) {
        if self.instrument.foot_gap_rad() <= 0.0 {
            return;
        }
        let unit = self.layout.unit;
        let (top, bottom) = self.layout.feet;
        let (foot, first) = (self.foot_px(side), self.arc_px(side, self.first_mark_rad(side)));
        let field = (DVec2::new(foot.min(first), top), DVec2::new(foot.max(first), bottom));
        hatch(self.drawing, field, 6.0 * unit, Stroke::solid(self.view.palette.cut, 0.8 * unit));
        let line = [DVec2::new(first, top), DVec2::new(first, bottom)];
        self.drawing.line(line, Stroke::solid(self.view.palette.cut, 1.6 * unit));
    }

    /// The marks of a foot, each with the colour that its light asks for.
    fn draw_marks(&mut self, side: Side) {
        let unit = self.layout.unit;
        let levels = self.instrument.graduation().levels();
        let px_per_s = self.px_per_rad() / SECONDS_PER_RADIAN;
        let apart = |division_s: u32| f64::from(division_s) * px_per_s >= CLOSEST_PX;
        let finest = levels.iter().rev().map(|level| level.division_s).find(|&s| apart(s));
        let Some(finest_s) = finest else { return };
        let (top, bottom) = self.layout.feet;
        for (division_s, share, thickness) in [(60, 0.5, 1.7), (10, 0.3, 1.1), (1, 0.2, 0.8)] {
            let mut lines = [(true, Vec::new()), (false, Vec::new())];
            for time in self.usable_marks(side, finest_s) {
                if rank_s(time) != division_s {
                    continue;
                }
                let light = self.light.at_mark(side, f64::from(time));
                let px = self.mark_px(side, f64::from(time));
                let head = bottom - share * (bottom - top);
                let line = [DVec2::new(px, bottom), DVec2::new(px, head)];
                lines[usize::from(light <= super::LIGHT_ENGRAVING_BELOW)].1.push(line);
            }
            for (lit, lines) in lines.into_iter().filter(|(_, lines)| !lines.is_empty()) {
                let colour = self.cut(f64::from(lit));
                self.drawing.lines(lines, Stroke::solid(colour, thickness * unit));
            }
        }
    }

    /// Times of the marks in view that can be used, seconds since midnight.
    fn usable_marks(&self, side: Side, step_s: u32) -> impl Iterator<Item = u32> + use<> {
        let (from_s, to_s) = self.visible_s(side);
        let gap_s = self.instrument.foot_gap_rad() * SECONDS_PER_RADIAN;
        let step = f64::from(step_s);
        // Times of day: never negative, and far below the range of the type.
        let (first, end) = ((from_s / step).ceil() as u32, (to_s / step).floor() as u32 + 1);
        (first..end)
            .map(move |index| index * step_s)
            .filter(move |&time| (f64::from(time) - NOON_S).abs() >= gap_s - 1e-6)
    }

    /// The dotted line on which half of the Sun's disc is seen.
    fn draw_edge(&mut self, side: Side) {
        let angle = self.moment.on_dial.hour_angle_rad;
        if !self.light.edge || angle * side.sign() < 0.0 {
            return;
        }
        let px = self.arc_px(side, angle);
        if !(0.0..=self.view.size.x).contains(&px) {
            return;
        }
        let unit = self.layout.unit;
        let palette = self.view.palette;
        let (top, bottom) = self.layout.feet;
        let line = [DVec2::new(px, top), DVec2::new(px, bottom)];
        self.drawing.line(line, Stroke::solid(palette.lit.faded(0.6), 3.4 * unit));
        let dash = Some((2.0 * unit, 3.4 * unit));
        self.drawing.line(line, Stroke { dash, ..Stroke::solid(palette.cut, 1.6 * unit) });
    }

    /// The wall between the feet, drawn narrow, with XII on it.
    fn draw_wall(&mut self) {
        let palette = self.view.palette;
        let unit = self.layout.unit;
        let (top, bottom) = self.layout.feet;
        let left = self.foot_px(Side::West);
        let right = self.foot_px(Side::East);
        let (min, max) = (DVec2::new(left, top - 5.0 * unit), DVec2::new(right, bottom + unit));
        self.drawing.fill(rectangle(min, max), palette.mid);
        let joints = Stroke::solid(palette.cut.faded(0.3), 0.8 * unit);
        let courses = (1..).map(|course| f64::from(course) * 11.0 * unit);
        let courses = courses.take_while(|drop| min.y + drop < max.y);
        self.drawing.lines(
            courses.map(|drop| [DVec2::new(left, min.y + drop), DVec2::new(right, min.y + drop)]),
            joints,
        );
        self.drawing.outline(rectangle(min, max), Stroke::solid(palette.ink, 1.5 * unit));
        let style = TextStyle {
            halo: Some((palette.mid, 4.0 * unit)),
            ..figure(1.1 * self.view.label_px, palette.cut, Anchor::Middle)
        };
        let at = DVec2::new(f64::midpoint(left, right), bottom - 7.0 * unit);
        let numeral = Numeral::of_hour(self.instrument.numerals(), 12);
        self.letters.set_numeral(self.drawing, at, (&numeral, ""), style);
        self.letters.reserve(min, max);
    }

    /// Numbers over the minutes.
    fn number_marks(&mut self, side: Side) {
        let size = self.view.label_px;
        let px_per_min = self.px_per_rad() / SECONDS_PER_RADIAN * 60.0;
        let room = 1.5 * text_width("55", Typeface::Serif, size);
        let fits = |step: &u32| f64::from(*step) * px_per_min >= room;
        let Some(step) = NUMBER_STEPS_MIN.into_iter().find(fits) else { return };
        let (top, bottom) = self.layout.feet;
        let y = bottom - 0.5 * (bottom - top) - 4.0 * self.layout.unit;
        let smallest_s = self.instrument.graduation().smallest_s();
        for time in self.usable_marks(side, 60 * step) {
            if f64::from(time) == NOON_S || !time.is_multiple_of(smallest_s) {
                continue;
            }
            let px = self.mark_px(side, f64::from(time));
            let light = self.light.at_mark(side, f64::from(time));
            let halo = Some((self.stone(light), 3.0 * self.layout.unit));
            let style = TextStyle { halo, ..figure(size, self.cut(light), Anchor::Middle) };
            let text = format!("{:02}", time / 60 % 60);
            self.letters.set(self.drawing, DVec2::new(px, y), &text, style);
        }
    }

    /// The measure of the arcs, and that the wall is not in it.
    fn draw_measure(&mut self) {
        let unit = self.layout.unit;
        let y = self.layout.feet.1 + 15.0 * unit;
        let px_per_mm = self.px_per_rad() / (self.instrument.radius_m() * 1000.0);
        let fits = BARS_MM.into_iter().find(|bar| bar * px_per_mm <= 0.2 * self.view.size.x);
        let colour = self.view.palette.ink_2;
        let halo = Some((self.view.palette.paper, 4.0 * unit));
        if let Some(bar_mm) = fits {
            let (left, right) = (2.0 * unit, 2.0 * unit + bar_mm * px_per_mm);
            let (head, foot) = (y - 7.0 * unit, y);
            let bar = [(left, head), (left, foot), (right, foot), (right, head)];
            self.drawing
                .line(bar.map(|(x, y)| DVec2::new(x, y)), Stroke::solid(colour, 1.4 * unit));
            self.letters.reserve(DVec2::new(left, head), DVec2::new(right, foot));
            let style = TextStyle { halo, ..label(self.view.label_px, colour, Anchor::Start) };
            let at = DVec2::new(right + 6.0 * unit, y);
            let words = self.view.words;
            let text = with_unit(words, &bar_mm.to_string(), "figures.mm");
            self.letters.set(self.drawing, at, &words.figure(&text), style);
        }
        let thickness = length(self.view.words, self.instrument.wall_thickness_m());
        let words = self.view.words;
        let texts = ["noon.wall", "noon.wall-short"]
            .map(|key| words.fill(key, &[("thickness", &thickness)]));
        let style = TextStyle { halo, ..label(self.view.label_px, colour, Anchor::End) };
        let at = DVec2::new(self.view.size.x - 2.0 * unit, y);
        let _ = texts.iter().any(|text| self.letters.set(self.drawing, at, text, style));
    }
}

/// How a mark is cut: of a minute, of ten seconds, or finer.
fn rank_s(time: u32) -> u32 {
    [60, 10].into_iter().find(|rank| time.is_multiple_of(*rank)).unwrap_or(1)
}
