//! The year in curves: the equation of time with its causes and the correction, the declination,
//! and the figure-of-eight that declination and equation of time make together.

use chrono::Datelike;
use glam::DVec2;

use super::drawing::{Anchor, Colour, Drawing, Stroke, Typeface, rectangle};
use super::lettering::{Lettering, label, text_width};
use super::palette::Palette;
use super::texture::round;
use crate::core::year_table::{YearDay, YearTable};
use crate::words::Words;

/// Width from which the figure-of-eight stands beside the curves, in label sizes.
const SIDE_BY_SIDE_LABELS: f64 = 46.0;
/// Share of the width that the curves take then.
const CURVES_SHARE: f64 = 0.62;
/// Room for the axes, in label sizes: left, top, right, bottom.
const MARGIN_LABELS: [f64; 4] = [2.6, 2.8, 0.5, 1.6];
/// Steps between the lines of a plot, of which the finest that has room is used.
const STEPS: [f64; 9] = [1.0, 2.0, 5.0, 10.0, 15.0, 30.0, 60.0, 120.0, 240.0];
/// Least distance between two lines, in label sizes.
const LINE_LABELS: f64 = 1.5;
/// Range of the equation of time drawn in the figure-of-eight, minutes.
const EIGHT_MIN: (f64, f64) = (-20.5, 18.0);
/// Range of the declination, degrees.
const DECLINATION_DEG: (f64, f64) = (-26.0, 26.0);

/// Where the eight crosses itself, degrees; and the middles of its loops, minutes and degrees.
const CROSSING_DEG: f64 = 9.0;
const LOOPS: (DVec2, DVec2) = (DVec2::new(1.5, 17.0), DVec2::new(-1.0, -12.0));

/// A curve that can be switched.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Curve {
    /// The equation of time, as it is added to the dial.
    Equation,
    /// Its part from the Earth's ellipse.
    Eccentricity,
    /// Its part from the tilt of the ecliptic.
    Obliquity,
    /// The total correction to zone time.
    Correction,
}

impl Curve {
    /// All curves, in the order in which the page offers them.
    pub const ALL: [Self; 4] =
        [Self::Equation, Self::Eccentricity, Self::Obliquity, Self::Correction];

    /// Short name, used in the page.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Equation => "equation",
            Self::Eccentricity => "eccentricity",
            Self::Obliquity => "obliquity",
            Self::Correction => "correction",
        }
    }

    /// Finds a curve by its short name.
    #[must_use]
    pub fn by_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|curve| curve.key() == key)
    }

    /// Its value on a day, minutes.
    #[must_use]
    pub fn minutes(self, day: &YearDay) -> f64 {
        let seconds = match self {
            Self::Equation => day.equation.to_mean().total_s(),
            Self::Eccentricity => day.equation.to_mean().eccentricity_s,
            Self::Obliquity => day.equation.to_mean().obliquity_s,
            Self::Correction => day.to_zone_s(),
        };
        seconds / 60.0
    }

    /// Key of its name on the plot.
    fn name(self) -> &'static str {
        match self {
            Self::Equation => "plots.equation",
            Self::Eccentricity => "plots.eccentricity",
            Self::Obliquity => "plots.obliquity",
            Self::Correction => "plots.correction",
        }
    }

    /// Its line; told apart by dashes as well as by colour.
    fn stroke(self, palette: &Palette, unit: f64) -> Stroke {
        let (colour, width, dash) = match self {
            Self::Equation => (palette.ink, 2.4, None),
            Self::Eccentricity => (palette.ink_2, 1.8, Some((9.0, 4.0))),
            Self::Obliquity => (palette.ink_2, 1.8, Some((2.5, 3.0))),
            Self::Correction => (palette.accent, 2.4, None),
        };
        let dash = dash.map(|(line, gap)| (line * unit, gap * unit));
        Stroke { dash, ..Stroke::solid(colour, width * unit) }
    }
}

/// How the year is to be drawn.
#[derive(Clone, Copy, Debug)]
pub struct YearPlotsView<'a> {
    /// Width and height, CSS pixels.
    pub size: DVec2,
    /// Colours.
    pub palette: &'a Palette,
    /// Words.
    pub words: &'a Words,
    /// Size of the labels, CSS pixels.
    pub label_px: f64,
    /// The curves to be drawn, later ones over earlier ones.
    pub curves: &'a [Curve],
    /// The day that is read, counted from 0.
    pub read: usize,
}

/// Draws a year.
pub fn draw(drawing: &mut Drawing, table: &YearTable, view: &YearPlotsView<'_>) {
    let [minutes, declination, eight] = plots(table, view);
    let letters = Lettering::new(view.size);
    let mut plots = Plots { drawing, table, view, unit: view.label_px / 13.0, letters };
    plots.minutes(&minutes);
    plots.declination(&declination);
    plots.eight(&eight);
}

/// The day nearest to a place on the picture, counted from 0; `None` off the plots.
#[must_use]
pub fn day_at(table: &YearTable, view: &YearPlotsView<'_>, at: DVec2) -> Option<usize> {
    let [minutes, declination, eight] = plots(table, view);
    if minutes.contains(at) || declination.contains(at) {
        let share = (at.x - minutes.min.x) / (minutes.max.x - minutes.min.x);
        let day = (share * table.days.len() as f64 - 0.5).round().max(0.0) as usize;
        return Some(day.min(table.days.len().saturating_sub(1)));
    }
    if !eight.contains(at) {
        return None;
    }
    let away = |day: &YearDay| eight.px(eight_place(day)).distance_squared(at);
    let days = table.days.iter().enumerate();
    days.min_by(|a, b| away(a.1).total_cmp(&away(b.1))).map(|(index, _)| index)
}

/// Place of a day in the figure-of-eight: minutes and degrees.
fn eight_place(day: &YearDay) -> DVec2 {
    DVec2::new(Curve::Equation.minutes(day), day.declination_rad.to_degrees())
}

/// The field of one plot.
#[derive(Clone, Copy, Debug)]
struct Field {
    min: DVec2,
    max: DVec2,
    x: (f64, f64),
    y: (f64, f64),
}

impl Field {
    fn px(&self, value: DVec2) -> DVec2 {
        let share = |value: f64, (low, high): (f64, f64)| (value - low) / (high - low);
        let (x, y) = (share(value.x, self.x), share(value.y, self.y));
        DVec2::new(
            self.min.x + x * (self.max.x - self.min.x),
            self.max.y - y * (self.max.y - self.min.y),
        )
    }

    fn contains(&self, at: DVec2) -> bool {
        at.cmpge(self.min).all() && at.cmple(self.max).all()
    }
}

/// The fields of the three plots.
fn plots(table: &YearTable, view: &YearPlotsView<'_>) -> [Field; 3] {
    let DVec2 { x: width, y: height } = view.size;
    let side_by_side = width >= SIDE_BY_SIDE_LABELS * view.label_px;
    let (curves_width, curves_height) =
        if side_by_side { (CURVES_SHARE * width, height) } else { (width, 0.58 * height) };
    let divide = 0.58 * curves_height;
    let days = (0.0, table.days.len() as f64);
    let [left, top, right, bottom] = MARGIN_LABELS.map(|labels| labels * view.label_px);
    let field = |from: DVec2, to: DVec2, x, y| Field {
        min: from + DVec2::new(left, top),
        max: (to - DVec2::new(right, bottom)).max(from + DVec2::new(left + 1.0, top + 1.0)),
        x,
        y,
    };
    let eight_from =
        if side_by_side { DVec2::new(curves_width, 0.0) } else { DVec2::new(0.0, curves_height) };
    [
        field(DVec2::ZERO, DVec2::new(curves_width, divide), days, minutes_range(table, view)),
        field(
            DVec2::new(0.0, divide),
            DVec2::new(curves_width, curves_height),
            days,
            DECLINATION_DEG,
        ),
        field(eight_from, view.size, EIGHT_MIN, DECLINATION_DEG),
    ]
}

/// The range of the curves drawn, nought included, with a little room, minutes.
fn minutes_range(table: &YearTable, view: &YearPlotsView<'_>) -> (f64, f64) {
    let (mut low, mut high) = (-1.0_f64, 1.0_f64);
    for curve in view.curves {
        for day in &table.days {
            let minutes = curve.minutes(day);
            (low, high) = (low.min(minutes), high.max(minutes));
        }
    }
    let room = 0.06 * (high - low);
    (low - room, high + room)
}

/// A year being drawn.
struct Plots<'a> {
    drawing: &'a mut Drawing,
    table: &'a YearTable,
    view: &'a YearPlotsView<'a>,
    unit: f64,
    letters: Lettering,
}

impl Plots<'_> {
    /// Equation of time, its causes and the correction.
    fn minutes(&mut self, field: &Field) {
        self.heading(field, "plots.minutes");
        self.field(field);
        self.rungs(field);
        self.months(field);
        for curve in self.view.curves {
            let stroke = curve.stroke(self.view.palette, self.unit);
            self.curve(field, stroke, |index, day| DVec2::new(index, curve.minutes(day)));
        }
        self.legend(field);
        let values: Vec<f64> = match self.table.days.get(self.view.read) {
            Some(day) => self.view.curves.iter().map(|curve| curve.minutes(day)).collect(),
            None => Vec::new(),
        };
        self.cursor(field, &values);
    }

    fn declination(&mut self, field: &Field) {
        self.heading(field, "plots.declination");
        self.field(field);
        self.rungs(field);
        self.months(field);
        let stroke = Stroke::solid(self.view.palette.ink, 2.4 * self.unit);
        let degrees = |day: &YearDay| day.declination_rad.to_degrees();
        self.curve(field, stroke, |index, day| DVec2::new(index, degrees(day)));
        let read = self.table.days.get(self.view.read).map(degrees);
        self.cursor(field, read.as_slice());
    }

    /// The figure-of-eight, with a dot on the first of every month.
    fn eight(&mut self, field: &Field) {
        let palette = self.view.palette;
        self.heading(field, "plots.eight");
        self.field(field);
        self.rungs(field);
        self.rungs_across(field);
        let stroke = Stroke::solid(palette.ink, 2.4 * self.unit);
        self.curve(field, stroke, |_, day| eight_place(day));
        let months: Vec<&str> = self.view.words.say("year.months-short").split(' ').collect();
        let firsts = self.table.days.iter().enumerate().filter(|(_, day)| day.date.day() == 1);
        for ((index, day), month) in firsts.zip(months) {
            let at = field.px(eight_place(day));
            self.drawing.fill(round(at, 3.4 * self.unit), palette.ink);
            let outwards = self.outwards(field, index);
            // Outside the loop; where there is no room, inside it.
            let _ = [outwards, -outwards].into_iter().any(|side| {
                let anchor = if side.x < 0.0 { Anchor::End } else { Anchor::Start };
                let style = label(self.view.label_px, palette.ink_2, anchor);
                // Beside the curve; where it runs level, over or under it.
                let lift = DVec2::new(3.0 * side.x.signum(), 4.5 + 4.0 * side.y);
                let beside = at + (side * 7.0 + lift) * self.unit;
                let inside = (field.min.x..=field.max.x).contains(
                    &(beside.x
                        + side.x.signum() * text_width(month, Typeface::Sans, self.view.label_px)),
                );
                inside && self.letters.set(self.drawing, beside, month, style)
            });
        }
        if let Some(day) = self.table.days.get(self.view.read) {
            self.bead(field.px(eight_place(day)));
        }
    }

    /// From the curve of the eight at a day, square to it and away from the middle of its loop.
    fn outwards(&self, field: &Field, index: usize) -> DVec2 {
        let days = &self.table.days;
        let place = |index: usize| field.px(eight_place(&days[index.min(days.len() - 1)]));
        let across = (place(index + 2) - place(index.saturating_sub(2))).perp().normalize_or_zero();
        let here = place(index);
        let is_upper = eight_place(&days[index]).y > CROSSING_DEG;
        let middle = field.px(if is_upper { LOOPS.0 } else { LOOPS.1 });
        if across.dot(here - middle) < 0.0 { -across } else { across }
    }

    /// The name of a plot over it.
    fn heading(&mut self, field: &Field, key: &str) {
        let style = label(self.view.label_px, self.view.palette.ink, Anchor::Start);
        let at = DVec2::new(field.min.x, field.min.y - 1.7 * self.view.label_px);
        let words = self.view.words;
        let texts = ["", "-short"].map(|form| words.say(&format!("{key}{form}")).to_owned());
        let room = field.max.x - field.min.x;
        let fits = |text: &&String| text_width(text, Typeface::Sans, self.view.label_px) <= room;
        let _ =
            texts.iter().filter(fits).any(|text| self.letters.set(self.drawing, at, text, style));
    }

    fn field(&mut self, field: &Field) {
        let outline = rectangle(field.min, field.max);
        self.drawing.fill(outline, self.view.palette.paper);
        self.drawing.outline(outline, Stroke::solid(self.view.palette.rule, self.unit));
    }

    /// Level lines at even values, with their figures on the left.
    fn rungs(&mut self, field: &Field) {
        for (value, colour) in self.ticks(field.y, field.max.y - field.min.y) {
            let [left, right] = [field.x.0, field.x.1].map(|x| field.px(DVec2::new(x, value)));
            self.drawing.line([left, right], Stroke::solid(colour, self.unit));
            let style = label(self.view.label_px, self.view.palette.ink_2, Anchor::End);
            let at = left + DVec2::new(-5.0, 4.5) * self.unit;
            let _ =
                self.letters.set(self.drawing, at, &self.view.words.figure(&figure(value)), style);
        }
    }

    /// Upright lines at even values, with their figures below.
    fn rungs_across(&mut self, field: &Field) {
        // Figures side by side need more room than one over the other.
        for (value, colour) in self.ticks(field.x, (field.max.x - field.min.x) / 1.6) {
            let [top, bottom] = [field.y.1, field.y.0].map(|y| field.px(DVec2::new(value, y)));
            self.drawing.line([top, bottom], Stroke::solid(colour, self.unit));
            let style = label(self.view.label_px, self.view.palette.ink_2, Anchor::Middle);
            let at = bottom + DVec2::new(0.0, 1.15 * self.view.label_px);
            let _ =
                self.letters.set(self.drawing, at, &self.view.words.figure(&figure(value)), style);
        }
    }

    /// Even values within a range, each with the colour of its line.
    fn ticks(&self, (low, high): (f64, f64), length_px: f64) -> Vec<(f64, Colour)> {
        let palette = self.view.palette;
        let room = LINE_LABELS * self.view.label_px;
        let fits = |step: &f64| length_px * step / (high - low) >= room;
        let step = STEPS.into_iter().find(fits).unwrap_or(480.0);
        let (first, last) = ((low / step).ceil() as i64, (high / step).floor() as i64);
        let colour = |index| if index == 0 { palette.rule } else { palette.hair };
        (first..=last).map(|index| (index as f64 * step, colour(index))).collect()
    }

    /// The first of every month, and the months' names under the field.
    fn months(&mut self, field: &Field) {
        let palette = self.view.palette;
        let room = (field.max.x - field.min.x) / 12.0;
        let (words, size) = (self.view.words, self.view.label_px);
        // All names of a kind have room beside each other, the shortest month between, or none is set.
        let narrowest = (field.max.x - field.min.x) * 28.0 / 366.0;
        let fits = |key: &&str| {
            let widths =
                words.say(key).split(' ').map(|name| text_width(name, Typeface::Sans, size));
            widths.fold(0.0, f64::max) + 0.5 * size <= narrowest
        };
        let keys = ["year.months-short", "year.months-initial"];
        let key = keys.into_iter().find(fits).unwrap_or(keys[1]);
        let names = words.say(key).split(' ').map(str::to_owned).collect::<Vec<_>>();
        let firsts = self.table.days.iter().enumerate().filter(|(_, day)| day.date.day() == 1);
        for ((index, _), name) in firsts.zip(names) {
            let [top, bottom] =
                [field.y.1, field.y.0].map(|y| field.px(DVec2::new(index as f64, y)));
            if index > 0 {
                self.drawing.line([top, bottom], Stroke::solid(palette.hair, self.unit));
            }
            let style = label(self.view.label_px, palette.ink_2, Anchor::Middle);
            let at = bottom + DVec2::new(room / 2.0, 1.15 * self.view.label_px);
            let _ = self.letters.set(self.drawing, at, &name, style);
        }
    }

    /// One curve through every day.
    fn curve(&mut self, field: &Field, stroke: Stroke, place: impl Fn(f64, &YearDay) -> DVec2) {
        let days = self.table.days.iter().enumerate();
        let line: Vec<DVec2> =
            days.map(|(index, day)| field.px(place(index as f64 + 0.5, day))).collect();
        self.drawing.line(line, stroke);
    }

    /// The line and the name of each curve, above the field.
    fn legend(&mut self, field: &Field) {
        let (unit, label_px) = (self.unit, self.view.label_px);
        let y = field.min.y - 0.4 * label_px;
        let mut x = field.min.x;
        let words = self.view.words;
        for curve in self.view.curves {
            let name = words.say(curve.name());
            let end = x + 20.0 * unit;
            let stroke = curve.stroke(self.view.palette, unit);
            let style = label(label_px, self.view.palette.ink, Anchor::Start);
            let at = DVec2::new(end + 4.0 * unit, y);
            if self.letters.set(self.drawing, at, name, style) {
                let level = y - 0.3 * label_px;
                self.drawing.line([DVec2::new(x, level), DVec2::new(end, level)], stroke);
            }
            x = at.x + text_width(name, Typeface::Sans, label_px) + 8.0 * unit;
        }
    }

    /// The day that is read, and its values on the curves.
    fn cursor(&mut self, field: &Field, values: &[f64]) {
        let x = self.view.read as f64 + 0.5;
        let line = [field.y.0, field.y.1].map(|y| field.px(DVec2::new(x, y)));
        self.drawing.line(line, Stroke::solid(self.view.palette.accent, 1.4 * self.unit));
        for value in values {
            self.bead(field.px(DVec2::new(x, *value)));
        }
    }

    fn bead(&mut self, at: DVec2) {
        self.drawing.fill(round(at, 6.0 * self.unit), self.view.palette.paper);
        self.drawing.fill(round(at, 4.5 * self.unit), self.view.palette.accent);
    }
}

/// A whole number with a true minus sign.
fn figure(value: f64) -> String {
    if value < 0.0 { format!("−{:.0}", -value) } else { format!("{value:.0}") }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::core::instrument::PRESETS;
    use crate::core::sky::SunTrack;
    use crate::scene::checks::assert_legible;
    use crate::scene::drawing::Mark;
    use crate::scene::palette::Theme;

    const SIZES: [DVec2; 3] =
        [DVec2::new(1150.0, 520.0), DVec2::new(340.0, 900.0), DVec2::new(1800.0, 800.0)];

    fn each(mut test: impl FnMut(&YearTable, &YearPlotsView<'_>, &str)) {
        let words = Words::english();
        for preset in &PRESETS {
            let Ok(instrument) = preset.instrument() else { panic!("{}", preset.key) };
            let table = YearTable::compute(&instrument, 2026, &mut SunTrack::new());
            let Ok(table) = table else { panic!("a year") };
            for size in SIZES {
                for curves in [&Curve::ALL[..], &[], &[Curve::Correction]] {
                    let palette = Theme::Day.palette();
                    let view = YearPlotsView {
                        size,
                        palette,
                        words: &words,
                        label_px: 14.0,
                        curves,
                        read: 100,
                    };
                    test(&table, &view, &format!("{} {size}", preset.key));
                }
            }
        }
    }

    #[test]
    fn every_letter_has_its_place() {
        each(|table, view, name| {
            let mut drawing = Drawing::new(view.size);
            draw(&mut drawing, table, view);
            assert_legible(&drawing, name);
        });
    }

    #[test]
    fn every_month_is_named_in_every_language() {
        let catalogues = [include_str!("../words/ar.json"), include_str!("../words/hi.json"), "{}"];
        let Ok(instrument) = PRESETS[0].instrument() else { panic!("the first one") };
        let Ok(table) = YearTable::compute(&instrument, 2026, &mut SunTrack::new()) else {
            panic!("a year")
        };
        for catalogue in catalogues {
            let words = Words::english().in_language(catalogue);
            let words = words.unwrap_or_else(|| panic!("a catalogue"));
            for size in [DVec2::new(900.0, 420.0), DVec2::new(1150.0, 520.0), SIZES[2]] {
                let palette = Theme::Day.palette();
                let (curves, words) = (&[][..], &words);
                let view =
                    YearPlotsView { size, palette, words, label_px: 14.0, curves, read: 100 };
                let mut drawing = Drawing::new(size);
                draw(&mut drawing, &table, &view);
                let named = |key| {
                    let names: Vec<&str> = words.say(key).split(' ').collect();
                    let texts = drawing.marks().iter().filter_map(|mark| match mark {
                        Mark::Text { text, .. } => Some(drawing.text_of(text)),
                        _ => None,
                    });
                    texts.filter(|text| names.contains(text)).count()
                };
                // Under two fields and about the eight, or initials under the fields.
                let count = named("year.months-short") + named("year.months-initial");
                assert!(count >= 36, "{count} names at {size} in {}", words.say("language.name"));
            }
        }
    }

    #[test]
    fn a_place_on_a_curve_is_the_day_drawn_there() {
        each(|table, view, name| {
            let [minutes, declination, eight] = plots(table, view);
            for index in [0, 31, 100, 200, 364] {
                let day = &table.days[index];
                let x = index as f64 + 0.5;
                let places = [
                    minutes.px(DVec2::new(x, 0.5)),
                    declination.px(DVec2::new(x, day.declination_rad.to_degrees())),
                ];
                for at in places {
                    assert_eq!(day_at(table, view, at), Some(index), "{name}");
                }
                let at = eight.px(eight_place(day));
                let near = day_at(table, view, at).map(|near| near.abs_diff(index));
                assert_eq!(near, Some(0), "{name}");
            }
            assert_eq!(day_at(table, view, DVec2::ZERO), None);
        });
    }

    #[test]
    fn every_curve_stays_on_its_field() {
        each(|table, view, name| {
            let [minutes, declination, eight] = plots(table, view);
            for (index, day) in table.days.iter().enumerate() {
                let x = index as f64 + 0.5;
                let on =
                    |curve: &Curve| minutes.contains(minutes.px(DVec2::new(x, curve.minutes(day))));
                assert!(view.curves.iter().all(on), "{name} {}", day.date);
                let degrees = day.declination_rad.to_degrees();
                assert!(declination.contains(declination.px(DVec2::new(x, degrees))));
                assert!(eight.contains(eight.px(eight_place(day))), "{name} {}", day.date);
            }
        });
    }
}
