//! The three intervals round noon as brackets against clock time, one inside the other.

use glam::DVec2;

use super::Noon;
use crate::core::instrument::Side;
use crate::core::ladder::clock_of;
use crate::core::time::Instant;
use crate::scene::drawing::{Anchor, Stroke, TextStyle, Typeface, rectangle};
use crate::scene::lettering::{figure, label, text_width};
use crate::scene::texture::arrow_head;
use crate::words::figures::{clock, duration};

/// Least breadth of a bracket as drawn, CSS pixels at the smallest label size.
const NARROWEST: f64 = 3.0;

impl Noon<'_> {
    /// The brackets, longest first, and the moment's line through them.
    pub(super) fn draw_intervals(&mut self) {
        let pass = self.pass;
        let rows = [
            ("noon.soft", "noon.nature", pass.soft),
            ("noon.blind", "noon.custom", pass.blind),
            ("noon.meridian", "noon.nature", (pass.meridian, pass.meridian)),
        ];
        let form = self.common_form(&rows);
        for (row, (key, kind, interval)) in (0..).zip(rows) {
            let y = self.layout.intervals_y + f64::from(row) * self.layout.interval_height;
            self.draw_interval(&format!("{key}{form}"), interval, y);
            self.name_kind(kind, y);
        }
    }

    /// The longest form of words that has room in every row.
    fn common_form(&self, rows: &[(&str, &str, (Instant, Instant))]) -> &'static str {
        let fits = |form: &&str| {
            rows.iter().all(|&(key, _, interval)| {
                let text = self.interval_text(&format!("{key}{form}"), interval);
                text_width(&text, Typeface::Sans, self.view.label_px) <= self.view.size.x
            })
        };
        ["", "-short"].into_iter().find(fits).unwrap_or("-bare")
    }

    /// The moment's line from the shadow's edge through the intervals, behind all words.
    pub(super) fn draw_line_of_moment(&mut self) {
        let offset_s = self.offset_s(self.moment.instant);
        if !(self.axis.min..=self.axis.max).contains(&offset_s) {
            return;
        }
        let px = self.axis.px(offset_s);
        self.draw_kink(px);
        let bottom = if self.layout.curves {
            self.layout.plot.0
        } else {
            self.layout.intervals_y + 3.0 * self.layout.interval_height
        };
        let line = [DVec2::new(px, self.kink_bottom()), DVec2::new(px, bottom)];
        let stroke = Stroke::solid(self.view.palette.accent, 2.0 * self.layout.unit);
        self.drawing.line(line, stroke);
    }

    /// Where the moment's line has come from the stone to its place in time.
    fn kink_bottom(&self) -> f64 {
        self.layout.intervals_y - 3.0 * self.layout.unit
    }

    /// Leads the moment's line from the shadow's edge on the stone, beside the wall, to its place
    /// in time.
    fn draw_kink(&mut self, px: f64) {
        let unit = self.layout.unit;
        let angle = self.moment.on_dial.hour_angle_rad;
        let side = Side::at_hour_angle(angle);
        let edge = if self.light.edge { self.arc_px(side, angle) } else { px };
        let (top, bottom) = (self.layout.feet.1 + unit, self.kink_bottom());
        let line = [(edge, top), (edge, top + 3.0 * unit), (px, bottom)];
        let stroke = Stroke::solid(self.view.palette.accent, 2.0 * unit);
        self.drawing.line(line.map(|(x, y)| DVec2::new(x, y)), stroke);
    }

    /// One bracket below its words.
    fn draw_interval(&mut self, key: &str, (from, to): (Instant, Instant), y: f64) {
        let palette = self.view.palette;
        let unit = self.layout.unit;
        let is_now = (from..=to).contains(&self.moment.instant) && from < to;
        let (colour, width) = if is_now { (palette.accent, 2.6) } else { (palette.ink, 1.6) };
        let [start, end] = [from, to].map(|instant| self.axis.px(self.offset_s(instant)));
        let middle = f64::midpoint(start, end);
        let half = ((end - start) / 2.0).max(if from < to { NARROWEST / 2.0 * unit } else { 0.0 });
        let (left, right) = (middle - half, middle + half);
        let (head, foot) = (y + 17.0 * unit, y + 24.0 * unit);
        if from < to {
            let field = rectangle(DVec2::new(left, head), DVec2::new(right, foot));
            self.drawing.fill(field, colour.faded(0.16));
            let bracket = [(left, head), (left, foot), (right, foot), (right, head)];
            let points = bracket.map(|(x, y)| DVec2::new(x, y));
            self.drawing.line(points, Stroke::solid(colour, width * unit));
        } else {
            let tip = DVec2::new(middle, foot);
            self.drawing.fill(arrow_head(tip, DVec2::NEG_Y, 8.0 * unit), colour);
        }
        let text = self.interval_text(key, (from, to));
        let at = DVec2::new(middle, y + 12.0 * unit);
        let colour = if is_now { palette.accent } else { palette.ink };
        let halo = Some((palette.paper, 5.0 * unit));
        let style = TextStyle { halo, ..label(self.view.label_px, colour, Anchor::Middle) };
        self.letters.set_within(self.drawing, at, &text, style);
    }

    /// Whether the interval is one of nature or of habit, at the left of its bracket.
    fn name_kind(&mut self, kind: &str, y: f64) {
        let palette = self.view.palette;
        let halo = Some((palette.paper, 4.0 * self.layout.unit));
        let style = TextStyle { halo, ..figure(self.view.label_px, palette.ink_2, Anchor::Start) };
        let at = DVec2::new(0.0, y + 25.0 * self.layout.unit);
        self.letters.set(self.drawing, at, self.view.words.say(kind), style);
    }

    /// What an interval is and when.
    fn interval_text(&self, key: &str, (from, to): (Instant, Instant)) -> String {
        let words = self.view.words;
        let at = |instant| clock(clock_of(self.instrument, instant));
        let (from_text, to_text) = (at(from), at(to));
        // As the two times beside it have it.
        let length = duration(words, to.whole_seconds_since(from) as f64);
        let values = [("from", from_text.as_str()), ("to", &to_text), ("length", &length)];
        words.fill(key, &values)
    }
}
