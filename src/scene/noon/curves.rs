//! How much of the Sun each foot sees, as two curves against clock time.

use glam::DVec2;

use super::Noon;
use crate::core::instrument::Side;
use crate::core::ladder::clock_of;
use crate::core::reading::SECONDS_PER_RADIAN;
use crate::scene::drawing::{Anchor, Stroke, Typeface, rectangle};
use crate::scene::lettering::{label, text_width};
use crate::scene::texture::{arrow_head, cased_line, round};
use crate::words::figures::with_unit;

/// Places at which a curve is taken.
const PLACES: u32 = 120;
/// Seconds between two ticks and between two times, of which the finest that has room is used.
const TICK_STEPS_S: [f64; 5] = [10.0, 30.0, 60.0, 300.0, 600.0];
/// Share of the way from noon to the end of the soft interval at which a curve lies below its name.
const LIT_END: f64 = 0.68;
const TIME_STEPS_S: [f64; 6] = [60.0, 120.0, 300.0, 600.0, 1800.0, 3600.0];

impl Noon<'_> {
    pub(super) fn draw_curves(&mut self) {
        self.draw_grid();
        self.draw_times();
        if !self.sun_is_down_at_noon() {
            for side in Side::BOTH {
                self.draw_curve(side);
            }
            self.name_curves();
        }
        self.draw_cursor();
    }

    /// Where a share of the light lies.
    fn share_y(&self, share: f64) -> f64 {
        let (top, bottom) = self.layout.plot;
        bottom - share * (bottom - top)
    }

    /// The field, the soft interval on it, and lines at none, half and all of the light.
    fn draw_grid(&mut self) {
        let palette = self.view.palette;
        let unit = self.layout.unit;
        let (left, right) = (self.axis.left_px, self.axis.right_px);
        let (top, bottom) = self.layout.plot;
        self.drawing
            .fill(rectangle(DVec2::new(left, top), DVec2::new(right, bottom)), palette.panel);
        for (interval, strength) in [(self.pass.soft, 0.08), (self.pass.blind, 0.14)] {
            let [from, to] = [interval.0, interval.1]
                .map(|instant| self.axis.px(self.offset_s(instant)).clamp(left, right));
            let field = rectangle(DVec2::new(from, top), DVec2::new(to.max(from + unit), bottom));
            self.drawing.fill(field, palette.ink.faded(strength));
        }
        let words = self.view.words;
        for (share, number) in [(1.0, "100"), (0.5, "50"), (0.0, "0")] {
            let text = with_unit(words, number, "figures.percent");
            let y = self.share_y(share);
            let line = [DVec2::new(left, y), DVec2::new(right, y)];
            self.drawing.line(line, Stroke::solid(palette.rule.faded(0.7), unit));
            let style = label(self.view.label_px, palette.ink_2, Anchor::End);
            let at = DVec2::new(left - 4.0 * unit, y + 4.5 * unit);
            self.letters.set(self.drawing, at, &words.figure(&text), style);
        }
    }

    /// Clock times under the field.
    fn draw_times(&mut self) {
        let palette = self.view.palette;
        let unit = self.layout.unit;
        let px_per_s = self.axis.px_per_unit();
        let tick = TICK_STEPS_S.into_iter().find(|step| step * px_per_s >= 4.0).unwrap_or(3600.0);
        let room = 1.3 * text_width("12:58", Typeface::Sans, self.view.label_px);
        let number = TIME_STEPS_S.into_iter().find(|step| step * px_per_s >= room);
        let bottom = self.layout.plot.1;
        let ticks: Vec<_> = self
            .clock_times(tick)
            .map(|(_, px)| [DVec2::new(px, bottom), DVec2::new(px, bottom + 3.5 * unit)])
            .collect();
        self.drawing.lines(ticks, Stroke::solid(palette.rule, unit));
        let Some(step) = number else { return };
        for (time_s, px) in self.clock_times(step) {
            let minutes = (time_s / 60.0).round() as i64;
            let text =
                format!("{}:{:02}", minutes.div_euclid(60).rem_euclid(24), minutes.rem_euclid(60));
            let line = [DVec2::new(px, bottom), DVec2::new(px, bottom + 6.0 * unit)];
            self.drawing.line(line, Stroke::solid(palette.ink_2, 1.3 * unit));
            let style = label(self.view.label_px, palette.ink_2, Anchor::Middle);
            let at = DVec2::new(px, bottom + 17.0 * unit);
            self.letters.set(self.drawing, at, &self.view.words.figure(&text), style);
        }
    }

    /// Clock times that are whole numbers of a step, and where they lie.
    fn clock_times(&self, step_s: f64) -> impl Iterator<Item = (f64, f64)> + use<> {
        let noon_s = clock_of(self.instrument, self.pass.meridian);
        let axis = self.axis;
        let first = ((noon_s + axis.min) / step_s).ceil() as i64;
        let last = ((noon_s + axis.max) / step_s).floor() as i64;
        (first..=last).map(move |index| {
            let time_s = index as f64 * step_s;
            (time_s, axis.px(time_s - noon_s))
        })
    }

    /// The curve of one foot: full for the west, broken for the east.
    fn draw_curve(&mut self, side: Side) {
        let unit = self.layout.unit;
        let palette = self.view.palette;
        let points: Vec<DVec2> = (0..=PLACES)
            .map(|place| {
                let share = f64::from(place) / f64::from(PLACES);
                let offset_s = self.axis.min + share * (self.axis.max - self.axis.min);
                let light = self.foot_light(side, offset_s);
                DVec2::new(self.axis.px(offset_s), self.share_y(light))
            })
            .collect();
        let dash = (side == Side::East).then_some((7.0 * unit, 4.0 * unit));
        let stroke = Stroke { dash, ..Stroke::solid(palette.ink, 2.4 * unit) };
        self.drawing.line(points.iter().copied(), Stroke::solid(palette.panel, 5.0 * unit));
        self.drawing.line(points, stroke);
    }

    /// Names each curve under its lit end, where it has room beside the curve.
    fn name_curves(&mut self) {
        let unit = self.layout.unit;
        let words = self.view.words;
        let (left, right) = (self.axis.left_px + 6.0 * unit, self.axis.right_px - 6.0 * unit);
        let names = [
            (Side::West, "noon.west-curve", right, Anchor::End),
            (Side::East, "noon.east-curve", left, Anchor::Start),
        ];
        let y = self.share_y(1.0) + 1.25 * self.view.label_px;
        let size = self.view.label_px;
        for (side, key, x, anchor) in names {
            // The curve leaves full light at the end of the soft interval, and is below the words
            // a little later.
            let soft = if side == Side::West { self.pass.soft.1 } else { self.pass.soft.0 };
            let gap_s = self.instrument.foot_gap_rad() * SECONDS_PER_RADIAN * side.sign();
            let below = self.axis.px(gap_s + LIT_END * self.offset_s(soft));
            let room = (x - below).abs() - 8.0 * unit;
            let style = label(size, self.view.palette.ink, anchor);
            let texts =
                ["", "-short", "-bare"].map(|form| words.say(&format!("{key}{form}")).to_owned());
            let _ = texts
                .iter()
                .filter(|text| text_width(text, Typeface::Sans, size) <= room)
                .any(|text| self.letters.set(self.drawing, DVec2::new(x, y), text, style));
        }
    }

    /// The moment's line through the curves, and what each foot sees then; an arrow where
    /// the moment is out of view.
    fn draw_cursor(&mut self) {
        let palette = self.view.palette;
        let unit = self.layout.unit;
        let offset_s = self.offset_s(self.moment.instant);
        let (top, bottom) = self.layout.plot;
        let span = self.axis.min..=self.axis.max;
        if !span.contains(&offset_s) {
            let after = offset_s > 0.0;
            let px = if after { self.axis.right_px } else { self.axis.left_px };
            let inwards = if after { DVec2::NEG_X } else { DVec2::X };
            let tip = DVec2::new(px, self.share_y(0.5));
            self.drawing.fill(arrow_head(tip, inwards, 11.0 * unit), palette.accent);
            return;
        }
        let px = self.axis.px(offset_s);
        let line = [DVec2::new(px, top), DVec2::new(px, bottom + 4.0 * unit)];
        cased_line(self.drawing, &line, Stroke::solid(palette.accent, 2.0 * unit), palette.paper);
        if !self.sun_is_down_at_noon() {
            for side in Side::BOTH {
                let centre = DVec2::new(px, self.share_y(self.foot_light_now(side)));
                self.draw_bead(centre);
            }
        }
    }

    fn draw_bead(&mut self, centre: DVec2) {
        let palette = self.view.palette;
        let unit = self.layout.unit;
        self.drawing.fill(round(centre, 6.0 * unit), palette.paper);
        self.drawing.fill(round(centre, 4.5 * unit), palette.accent);
    }
}
