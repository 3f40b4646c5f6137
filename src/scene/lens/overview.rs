//! The whole quadrant, small, with the window of the lens marked on it.

use glam::DVec2;

use super::Lens;
use crate::scene::drawing::{Anchor, Stroke, rectangle};
use crate::scene::lettering::figure;
use crate::scene::numerals::Numeral;

impl Lens<'_> {
    /// Draws the quadrant that the lens looks at, VI to XII or XII to VI, and the window.
    pub(super) fn draw_overview(&mut self) {
        let unit = self.layout.unit;
        let (min, max) = self.overview_bar();
        let (from_s, to_s) = self.overview_range_s();
        let stops = self.stops(self.window.side, from_s, to_s);
        let ends = (min, DVec2::new(max.x, min.y));
        self.drawing.gradient(rectangle(min, max), ends, stops);
        self.draw_overview_hours();
        let rule = Stroke::solid(self.view.palette.rule, unit);
        self.drawing.outline(rectangle(min, max), rule);
        self.draw_overview_window();
    }

    /// Upper left and lower right corner of the bar.
    fn overview_bar(&self) -> (DVec2, DVec2) {
        let unit = self.layout.unit;
        let margin = 18.0 * unit;
        (
            DVec2::new(margin, 17.0 * unit),
            DVec2::new((self.view.size.x - margin).max(margin + 1.0), 31.0 * unit),
        )
    }

    /// Times shown at the left and right end of the bar.
    fn overview_range_s(&self) -> (f64, f64) {
        let side = self.window.side;
        let (foot, end) = (self.window.foot_s(side), self.window.end_s(side));
        (foot.min(end), foot.max(end))
    }

    fn overview_px(&self, time_s: f64) -> f64 {
        let (min, max) = self.overview_bar();
        let (from_s, to_s) = self.overview_range_s();
        min.x + (time_s - from_s) / (to_s - from_s) * (max.x - min.x)
    }

    /// Hour lines on the bar and numerals over it.
    fn draw_overview_hours(&mut self) {
        let (min, max) = self.overview_bar();
        let (from_s, to_s) = self.overview_range_s();
        let side = self.window.side;
        let style = figure(self.view.label_px, self.view.palette.ink_2, Anchor::Middle);
        // An hour cut a little beyond the end of the stone still names that end.
        let hours = (0..=24).map(|hour| (hour, f64::from(hour) * 3600.0));
        let tolerance_s = 900.0;
        for (hour, time) in hours {
            if time < from_s - tolerance_s || time > to_s + tolerance_s {
                continue;
            }
            let px = self.overview_px(time.clamp(from_s, to_s));
            let colour = self.cut(self.light_at(side, time));
            let line = [DVec2::new(px, min.y), DVec2::new(px, max.y)];
            self.drawing.line(line, Stroke::solid(colour, 1.2 * self.layout.unit));
            let at = DVec2::new(px, min.y - 4.0 * self.layout.unit);
            let numeral = Numeral::of_hour(self.instrument.numerals(), hour);
            self.letters.set_numeral(self.drawing, at, (&numeral, ""), style);
        }
    }

    /// The window on the bar, and the beam that leads from it to the enlarged band.
    fn draw_overview_window(&mut self) {
        let unit = self.layout.unit;
        let Some((from_s, to_s)) = self.window.visible_s(self.window.side) else { return };
        let (min, max) = self.overview_bar();
        let (left, right) = (self.overview_px(from_s), self.overview_px(to_s));
        let widen = ((10.0 * unit - (right - left)) / 2.0).max(0.0);
        let (left, right) = (left - widen, right + widen);
        let beam = [
            DVec2::new(left, max.y + 2.0 * unit),
            DVec2::new(0.0, self.layout.top),
            DVec2::new(self.view.size.x, self.layout.top),
            DVec2::new(right, max.y + 2.0 * unit),
        ];
        self.drawing.fill(beam, self.view.palette.ink_2.faded(0.1));
        let frame =
            rectangle(DVec2::new(left, min.y - 2.0 * unit), DVec2::new(right, max.y + 2.0 * unit));
        let paper = Stroke::solid(self.view.palette.paper, 2.2 * unit + 3.0);
        self.drawing.outline(frame, paper);
        self.drawing.outline(frame, Stroke::solid(self.view.palette.accent, 2.2 * unit));
    }
}
