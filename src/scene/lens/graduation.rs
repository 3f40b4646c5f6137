//! The marks of the graduation, enlarged, and their numbers.

use glam::DVec2;

use super::Lens;
use crate::core::instrument::Side;
use crate::core::order::order_short;
use crate::scene::drawing::{Anchor, Stroke, Typeface};
use crate::scene::lettering::{figure, text_width};
use crate::scene::numerals::Numeral;
use crate::words::figures::with_unit;

/// Marks closer together than this are left out, CSS pixels.
const CLOSEST_PX: f64 = 2.5;
/// Divisions between two numbers, of which the finest that has room is used, seconds. Two minutes
/// would pass over every other five, which stand out.
const NUMBER_STEPS_S: [u32; 9] = [5, 10, 20, 30, 60, 300, 600, 900, 1800];

/// How a mark of one rank is cut.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Cut {
    /// Length, as a share of the longest mark.
    length: f64,
    /// Thickness, in pixels at the smallest label size.
    thickness: f64,
    /// Size of its number, in label sizes.
    number: f64,
}

/// How a mark is cut by the length of the division it closes, seconds.
fn cut_of(division_s: u32) -> Cut {
    let (length, thickness, number) = match division_s {
        900.. => (1.0, 3.2, 1.5),
        300.. => (0.88, 2.3, 1.3),
        60.. => (0.76, 1.7, 1.08),
        10.. => (0.42, 1.1, 1.0),
        _ => (0.3, 0.8, 1.0),
    };
    Cut { length, thickness, number }
}

impl Lens<'_> {
    /// Length of the longest mark: its number must fit below the words.
    pub(super) fn longest_mark(&self) -> f64 {
        let room = self.layout.band_height() - self.layout.words;
        let number = 1.5 * self.view.label_px * 0.85 + 3.0 * self.layout.unit;
        (self.layout.band_height() * 0.44).min(room - number).max(8.0 * self.layout.unit)
    }

    /// Length of the shortest mark that is drawn.
    fn shortest_mark(&self) -> f64 {
        let finest = self.finest_drawn_s().unwrap_or(3600);
        self.longest_mark() * cut_of(finest).length
    }

    /// Length of the mark that is read: it must be seen where marks are short.
    pub(super) fn read_mark(&self) -> f64 {
        self.shortest_mark().max(10.0 * self.layout.unit)
    }

    /// The finest division whose marks can be told apart, seconds.
    fn finest_drawn_s(&self) -> Option<u32> {
        let levels = self.instrument.graduation().levels();
        let apart = |division_s: u32| f64::from(division_s) * self.window.px_per_s >= CLOSEST_PX;
        levels.iter().rev().map(|level| level.division_s).find(|&division_s| apart(division_s))
    }

    /// Draws the marks, each with the colour that its light asks for.
    pub(super) fn draw_graduation(&mut self) {
        let Some(finest_s) = self.finest_drawn_s() else { return };
        let mut ranks: Vec<u32> = Vec::new();
        for side in Side::BOTH {
            ranks.extend(self.marks(side, finest_s).map(|time| self.rank_s(time)));
        }
        order_short(&mut ranks, |a, b| a < b);
        ranks.dedup();
        for rank in ranks {
            self.draw_rank(finest_s, rank);
        }
        self.draw_rails();
    }

    /// Times of the marks in view on a quadrant.
    fn marks(&self, side: Side, step_s: u32) -> impl Iterator<Item = u32> + use<> {
        let (from_s, to_s) = self.window.visible_s(side).unwrap_or((1.0, 0.0));
        let step = f64::from(step_s);
        // Times of day: never negative, and far below the range of the type.
        let (first, end) = ((from_s / step).ceil() as u32, (to_s / step).floor() as u32 + 1);
        (first..end).map(move |index| index * step_s)
    }

    /// The division that a mark closes: the coarsest of the graduation, and five minutes, which
    /// stand out by habit where minutes are cut.
    fn rank_s(&self, time_s: u32) -> u32 {
        let graduation = self.instrument.graduation();
        let level = graduation.level_of_mark(time_s);
        let division =
            level.and_then(|index| graduation.levels().get(index)).map(|level| level.division_s);
        match division {
            Some(60) if time_s.is_multiple_of(300) => 300,
            Some(division_s) => division_s,
            None => graduation.smallest_s(),
        }
    }

    /// Draws the marks of one rank: those in the light, then those in the shadow.
    fn draw_rank(&mut self, finest_s: u32, rank: u32) {
        let cut = cut_of(rank);
        let height = self.longest_mark() * cut.length;
        let foot = self.layout.bottom;
        let (lit, dark) = (self.cut(1.0), self.cut(0.0));
        let mut lines = [(lit, Vec::new()), (dark, Vec::new())];
        for side in Side::BOTH {
            for time in self.marks(side, finest_s).filter(|&time| self.rank_s(time) == rank) {
                let px = self.window.px(side, f64::from(time));
                let line = [DVec2::new(px, foot), DVec2::new(px, foot - height)];
                let colour = self.cut(self.light_at(side, f64::from(time)));
                let which = usize::from(colour != lit);
                lines[which].1.push(line);
            }
        }
        for (colour, lines) in lines.into_iter().filter(|(_, lines)| !lines.is_empty()) {
            let stroke = Stroke::solid(colour, cut.thickness * self.layout.unit);
            self.drawing.lines(lines, stroke);
        }
    }

    /// Draws the two lines along the arc between which the marks are cut.
    fn draw_rails(&mut self) {
        let heights = [self.shortest_mark(), self.longest_mark() * cut_of(60).length];
        for side in Side::BOTH {
            let Some((from_s, to_s)) = self.window.visible_s(side) else { continue };
            let (left, right) = (self.window.px(side, from_s), self.window.px(side, to_s));
            let middle = f64::midpoint(from_s, to_s);
            let colour = self.cut(self.light_at(side, middle)).faded(0.4);
            let rails = heights.map(|height| {
                let y = self.layout.bottom - height;
                [DVec2::new(left, y), DVec2::new(right, y)]
            });
            self.drawing.lines(rails, Stroke::solid(colour, 0.7 * self.layout.unit));
        }
    }

    /// Draws the numbers, those of coarse marks first, so that a finer one gives way.
    pub(super) fn draw_numbers(&mut self) {
        let Some(step_s) = self.number_step_s() else { return };
        let mut numbers: Vec<(u32, Side, u32)> = Vec::new();
        for side in Side::BOTH {
            let marks = self.marks(side, step_s);
            numbers.extend(marks.map(|time| (self.rank_s(time), side, time)));
        }
        order_short(&mut numbers, |a, b| (b.0, a.2) < (a.0, b.2));
        let mut hour_told = self.layout.overview;
        for (rank, side, time) in numbers {
            // Without the whole quadrant above, the first number tells the hour too.
            if !hour_told && self.draw_number(rank, side, time, true) {
                hour_told = true;
            } else {
                self.draw_number(rank, side, time, false);
            }
        }
    }

    /// The finest step of numbers that has room.
    fn number_step_s(&self) -> Option<u32> {
        let finest_s = self.instrument.graduation().smallest_s();
        NUMBER_STEPS_S.into_iter().find(|&step_s| {
            let widest = if step_s < 60 { self.seconds(55) } else { "55".to_owned() };
            let size = cut_of(step_s).number * self.view.label_px;
            let width = text_width(&widest, Typeface::Serif, size);
            step_s.is_multiple_of(finest_s)
                && f64::from(step_s) * self.window.px_per_s >= 1.45 * width
        })
    }

    /// Seconds within a minute, as a number of the graduation.
    fn seconds(&self, second: u32) -> String {
        with_unit(self.view.words, &second.to_string(), "figures.s")
    }

    /// Draws the number of one mark over it, with its hour if wanted; tells whether there was room.
    fn draw_number(&mut self, rank: u32, side: Side, time: u32, with_hour: bool) -> bool {
        let cut = cut_of(rank);
        let on_hour = time.is_multiple_of(3600);
        let foot_or_end = [self.window.foot_s(side), self.window.end_s(side)];
        if on_hour && foot_or_end.contains(&f64::from(time)) && time == 43_200 {
            return true; // Its numeral stands on the wall, between the two feet.
        }
        let (numbered, text) = match time % 3600 {
            0 => (true, String::new()),
            second if second % 60 != 0 => (false, self.seconds(second % 60)),
            second if with_hour => (true, format!("{:02}", second / 60)),
            second => (false, format!("{:02}", second / 60)),
        };
        let px = self.window.px(side, f64::from(time));
        // Over the mark, and over the mark that is read, should it be the same.
        let mark = (self.longest_mark() * cut.length).max(self.read_mark());
        let height = mark + 4.0 * self.layout.unit;
        let size = cut.number * self.view.label_px;
        // The number at the end of the stone stands beside its mark, on the stone.
        let (anchor, aside) = match (side, f64::from(time) == foot_or_end[1]) {
            (_, false) => (Anchor::Middle, 0.0),
            (Side::West, true) => (Anchor::Start, 5.0 * self.layout.unit),
            (Side::East, true) => (Anchor::End, -5.0 * self.layout.unit),
        };
        let at = DVec2::new(px + aside, self.layout.bottom - height);
        let light = self.light_at(side, f64::from(time));
        let style = figure(size, self.cut(light), anchor);
        if numbered {
            let numeral = Numeral::of_hour(self.instrument.numerals(), time / 3600);
            let style = self.on_stone(light, style);
            return self.letters.set_numeral(self.drawing, at, (&numeral, &text), style);
        }
        self.set_on_stone(at, &text, light, style)
    }
}
