//! The year strip: the Sun's declination through the year, lit north of the equator and in shade
//! south of it, with the days on which the seasons turn.

use chrono::{Datelike, NaiveDate};
use glam::DVec2;

use super::axis::Axis;
use super::drawing::{Anchor, Colour, Drawing, Stroke, TextStyle, Typeface, rectangle};
use super::lettering::{Lettering, figure, label, text_box, text_width};
use super::strip::{StripView, dial_date};
use crate::core::almanac::{Season, SeasonKind};
use crate::core::instrument::{Instrument, SOLSTICE_DECLINATION_DEG};
use crate::core::moment::Moment;
use crate::core::time::Instant;
use crate::core::year::YearCurve;
use crate::words::figures::signed_degrees;

/// Room over the track for the diamond at the northern solstice, in label sizes.
const TOP_LABELS: f64 = 0.55;
/// Half a diamond, in pixels at the smallest label size.
const DIAMOND_RADIUS: f64 = 6.0;
/// Days of the curve kept free of letters as one piece.
const RESERVED_DAYS: usize = 3;
/// Day of the year along the strip: 1 on the first of January.
#[must_use]
pub fn axis(year: i32, width_px: f64) -> Axis {
    let days = if NaiveDate::from_yo_opt(year, 366).is_some() { 366.0 } else { 365.0 };
    Axis::along_strip((1.0, days), width_px)
}

/// A day on which the seasons turn, and its place on the strip.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SeasonMark {
    /// Which one.
    pub kind: SeasonKind,
    /// When the Sun is there.
    pub instant: Instant,
    /// The date by the instrument's clocks.
    pub date: NaiveDate,
    /// Middle of its diamond, CSS pixels.
    pub at: DVec2,
}

/// The four days on which the seasons turn, where real buttons can lie over the strip.
#[must_use]
pub fn season_marks(
    instrument: &Instrument,
    curve: &YearCurve,
    view: &StripView<'_>,
) -> [SeasonMark; 4] {
    let axis = axis(curve.year, view.size.x);
    curve.seasons.map(|Season { kind, instant, .. }| {
        let date = clock_date(instrument, instant);
        let day = f64::from(date.ordinal()).clamp(axis.min, axis.max);
        let y = height_px(view, declination_on(curve, day));
        SeasonMark { kind, instant, date, at: DVec2::new(axis.px(day), y) }
    })
}

/// Upper and lower side of the track, CSS pixels: the handle runs along its middle.
#[must_use]
pub fn track_px(view: &StripView<'_>) -> (f64, f64) {
    view.track_px(TOP_LABELS)
}

/// Draws the strip. The handle is the page's; a line marks its place.
pub fn draw(
    drawing: &mut Drawing,
    instrument: &Instrument,
    moment: &Moment,
    curve: &YearCurve,
    view: &StripView<'_>,
) {
    let axis = axis(curve.year, view.size.x);
    let (top, bottom) = track_px(view);
    let letters = Lettering::new(view.size);
    let date = dial_date(instrument, moment);
    let mut strip = Strip { drawing, curve, view, axis, top, bottom, letters, date };
    strip.draw_curve();
    strip.draw_months();
    let declination_rad = moment.sun.sun.declination_rad;
    strip.draw_declination(declination_rad);
    let marks = season_marks(instrument, curve, view);
    strip.reserve_marks(&marks);
    if strip.has_room_for_letters() {
        strip.name_declination(declination_rad);
    }
    strip.draw_seasons(&marks);
    view.draw_now(strip.drawing, strip.now_px(), (top, bottom));
}

/// Key of the name of a turning point.
fn name_key(kind: SeasonKind) -> &'static str {
    match kind {
        SeasonKind::MarchEquinox | SeasonKind::SeptemberEquinox => "year.equinox",
        SeasonKind::JuneSolstice | SeasonKind::DecemberSolstice => "year.solstice",
    }
}

/// The date by the instrument's clocks.
fn clock_date(instrument: &Instrument, instant: Instant) -> NaiveDate {
    let advance_s = f64::from(instrument.summer_min(instant)) * 60.0;
    let offset_s = instrument.zone_offset().seconds() + advance_s;
    instant.saturating_plus_seconds(offset_s).civil().date()
}

/// Declination on a day of the year, radians; between two days, between theirs.
fn declination_on(curve: &YearCurve, day: f64) -> f64 {
    let at = |ordinal: f64| {
        let found =
            curve.days.binary_search_by(|(date, _)| f64::from(date.ordinal()).total_cmp(&ordinal));
        found.ok().and_then(|index| curve.days.get(index)).map_or(0.0, |(_, value)| *value)
    };
    let (before, after) = (at(day.floor()), at(day.ceil()));
    before + (after - before) * day.fract()
}

/// Height of a declination on a strip.
fn height_px(view: &StripView<'_>, declination_rad: f64) -> f64 {
    let (top, bottom) = track_px(view);
    let share = declination_rad.to_degrees() / SOLSTICE_DECLINATION_DEG;
    // Room for the line itself at both solstices.
    let half = (bottom - top) / 2.0 - 2.0 * view.unit();
    f64::midpoint(top, bottom) - share * half
}

/// A year strip being drawn.
struct Strip<'a> {
    drawing: &'a mut Drawing,
    curve: &'a YearCurve,
    view: &'a StripView<'a>,
    axis: Axis,
    top: f64,
    bottom: f64,
    letters: Lettering,
    date: NaiveDate,
}

impl Strip<'_> {
    fn equator_y(&self) -> f64 {
        f64::midpoint(self.top, self.bottom)
    }

    fn now_px(&self) -> f64 {
        self.axis.px(f64::from(self.date.ordinal()).clamp(self.axis.min, self.axis.max))
    }

    /// Colour of the empty track, as it comes out on paper.
    fn track(&self) -> Colour {
        self.view.palette.paper.mixed(self.view.palette.hair, 0.38)
    }

    /// The curve through the year.
    fn points(&self) -> Vec<DVec2> {
        let point = |(date, declination): &(NaiveDate, f64)| {
            let px = self.axis.px(f64::from(date.ordinal()));
            DVec2::new(px, height_px(self.view, *declination))
        };
        self.curve.days.iter().map(point).collect()
    }

    /// The track, the curve, and light or shade between it and the equator.
    fn draw_curve(&mut self) {
        let palette = self.view.palette;
        let unit = self.view.unit();
        let min = DVec2::new(self.axis.left_px, self.top);
        let max = DVec2::new(self.axis.right_px, self.bottom);
        self.drawing.fill(rectangle(min, max), self.track());
        let curve = self.points();
        let equator = self.equator_y();
        let (Some(first), Some(last)) = (curve.first(), curve.last()) else { return };
        let ends = [DVec2::new(last.x, equator), DVec2::new(first.x, equator)];
        let halves = [(min.y, equator, palette.lit), (equator, max.y, palette.umbra)];
        for (upper, lower, colour) in halves {
            let half = rectangle(DVec2::new(min.x, upper), DVec2::new(max.x, lower));
            self.drawing.clip(half);
            self.drawing.fill(curve.iter().copied().chain(ends), colour);
            self.drawing.unclip();
        }
        let line = [DVec2::new(min.x, equator), DVec2::new(max.x, equator)];
        self.drawing.line(line, Stroke::solid(palette.rule, unit));
        self.drawing.line(curve, Stroke::solid(palette.ink, 1.8 * unit));
    }

    /// Marks at the first of each month, and the months' names between them.
    fn draw_months(&mut self) {
        let palette = self.view.palette;
        let unit = self.view.unit();
        let starts: Vec<f64> = (1..=12)
            .filter_map(|month| NaiveDate::from_ymd_opt(self.curve.year, month, 1))
            .map(|date| self.axis.px(f64::from(date.ordinal())))
            .collect();
        let marks = starts
            .iter()
            .map(|px| [DVec2::new(*px, self.bottom), DVec2::new(*px, self.bottom + 5.0 * unit)]);
        self.drawing.lines(marks, Stroke::solid(palette.rule, 1.2 * unit));
        let line = [self.axis.left_px, self.axis.right_px].map(|x| DVec2::new(x, self.bottom));
        self.drawing.line(line, Stroke::solid(palette.rule, 1.2 * unit));
        let names: Vec<&str> = self.view.words.say(self.month_key(&starts)).split(' ').collect();
        for (index, (start, name)) in starts.iter().zip(names).enumerate() {
            let end = starts.get(index + 1).copied().unwrap_or(self.axis.right_px);
            let current = self.date.month0() as usize == index;
            let colour = if current { palette.ink } else { palette.ink_2 };
            let style = label(self.view.label_px, colour, Anchor::Middle);
            let at =
                DVec2::new(f64::midpoint(*start, end), self.bottom + 1.38 * self.view.label_px);
            self.letters.set(self.drawing, at, name, style);
        }
    }

    /// Names of the months as long as there is room for.
    fn month_key(&self, starts: &[f64]) -> &'static str {
        let narrowest = starts.windows(2).map(|pair| pair[1] - pair[0]).fold(f64::MAX, f64::min);
        let fits = |key: &&str| {
            let names = self.view.words.say(key).split(' ');
            let widths = names.map(|name| text_width(name, Typeface::Sans, self.view.label_px));
            widths.fold(0.0, f64::max) + 0.5 * self.view.label_px <= narrowest
        };
        ["year.months", "year.months-short"].into_iter().find(fits).unwrap_or("year.months-initial")
    }

    /// A dotted line at the day's declination.
    fn draw_declination(&mut self, declination_rad: f64) {
        let y = height_px(self.view, declination_rad);
        let unit = self.view.unit();
        let palette = self.view.palette;
        let ends = [self.axis.left_px, self.axis.right_px].map(|x| DVec2::new(x, y));
        self.drawing.line(ends, Stroke::solid(palette.paper.faded(0.7), 3.2 * unit));
        let dash = Some((2.0 * unit, 4.0 * unit));
        self.drawing.line(ends, Stroke { dash, ..Stroke::solid(palette.accent, 1.3 * unit) });
    }

    /// Whether a line of letters has room between the equator and the track's border.
    fn has_room_for_letters(&self) -> bool {
        self.equator_y() - self.top >= 1.15 * self.view.label_px
    }

    /// Keeps letters off the curve, the diamonds and the handle's line.
    fn reserve_marks(&mut self, marks: &[SeasonMark; 4]) {
        let unit = self.view.unit();
        let pad = DVec2::splat(1.5 * unit);
        for pair in self.points().windows(RESERVED_DAYS + 1).step_by(RESERVED_DAYS) {
            let (Some(first), Some(last)) = (pair.first(), pair.last()) else { continue };
            self.letters.reserve(first.min(*last) - pad, first.max(*last) + pad);
        }
        let (now, half_line) = (self.now_px(), 4.0 * unit);
        let line = [now - half_line, now + half_line];
        let [min, max] = [(line[0], self.top), (line[1], self.bottom)].map(DVec2::from);
        self.letters.reserve(min, max);
        for mark in marks {
            // Letters may come near its sides, not its points.
            let radius = 0.75 * DIAMOND_RADIUS * unit;
            self.letters.reserve(mark.at - radius, mark.at + radius);
        }
    }

    /// Diamonds on the days on which the seasons turn, and their names where there is room.
    fn draw_seasons(&mut self, marks: &[SeasonMark; 4]) {
        let unit = self.view.unit();
        let palette = self.view.palette;
        for mark in marks {
            let corners = [DVec2::NEG_X, DVec2::NEG_Y, DVec2::X, DVec2::Y];
            let diamond = corners.map(|corner| mark.at + corner * DIAMOND_RADIUS * unit);
            self.drawing.fill(diamond, palette.panel);
            self.drawing.outline(diamond, Stroke::solid(palette.ink, 1.8 * unit));
            if self.has_room_for_letters() {
                self.name_season(mark);
            }
        }
    }

    /// Names a turning point on whichever side of its diamond is free.
    fn name_season(&mut self, mark: &SeasonMark) {
        let words = self.view.words;
        let months: Vec<&str> = words.say("year.months-short").split(' ').collect();
        let month = months.get(mark.date.month0() as usize).copied().unwrap_or_default();
        let day = mark.date.day().to_string();
        let values = [("day", day.as_str()), ("month", month)];
        let (name, date) = (words.say(name_key(mark.kind)), words.fill("year.date", &values));
        let ink = self.view.palette.ink_2;
        for text in [format!("{name} {date}"), date, name.to_owned()] {
            for (at, anchor) in self.season_places(mark.kind, mark.at) {
                if self.set_on_track(at, &text, label(self.view.label_px, ink, anchor)) {
                    return;
                }
            }
        }
    }

    /// Where the name of a turning point may stand.
    fn season_places(&self, kind: SeasonKind, at: DVec2) -> Vec<(DVec2, Anchor)> {
        let size = self.view.label_px;
        let (above, below) = (self.equator_y() - 0.28 * size, self.equator_y() + 0.95 * size);
        let aside = 1.1 * size;
        let left = |y| (DVec2::new(at.x - aside, y), Anchor::End);
        let right = |y| (DVec2::new(at.x + aside, y), Anchor::Start);
        match kind {
            // The curve rises through the equator: free to the upper left and the lower right.
            SeasonKind::MarchEquinox => vec![left(above), right(below)],
            // Inside the summit.
            SeasonKind::JuneSolstice => {
                vec![(DVec2::new(at.x, above), Anchor::Middle), left(above), right(above)]
            }
            // It falls: free to the lower left and the upper right.
            SeasonKind::SeptemberEquinox => vec![left(below), right(above)],
            // Inside the trough, which the end of the year cuts off.
            SeasonKind::DecemberSolstice => vec![left(below), left(above)],
        }
    }

    /// Sets a text on the track in the colours that belong to the ground under it.
    fn set_on_track(&mut self, at: DVec2, text: &str, style: TextStyle) -> bool {
        let (min, max) = text_box(at, text, &style);
        let (ground, ink) = self.ground((min + max) / 2.0, style.colour);
        let set = self.letters.take(at, text, &style);
        if set {
            // The dotted line stops before the letters.
            let pad = DVec2::new(2.0 * self.view.unit(), 0.0);
            self.drawing.fill(rectangle(min - pad, max + pad), ground);
            self.drawing.text(at, text, TextStyle { colour: ink, ..style });
        }
        set
    }

    /// Colour of the track at a point, and of letters there; `ink` on the empty track.
    fn ground(&self, at: DVec2, ink: Colour) -> (Colour, Colour) {
        let palette = self.view.palette;
        let equator = self.equator_y();
        let day = self.axis.value(at.x).clamp(self.axis.min, self.axis.max);
        let curve = height_px(self.view, declination_on(self.curve, day));
        if at.y < equator && at.y > curve {
            (palette.lit, palette.cut)
        } else if at.y > equator && at.y < curve {
            (palette.umbra, palette.cut_umbra)
        } else {
            (self.track(), ink)
        }
    }

    /// The day's declination in figures, beside the handle.
    fn name_declination(&mut self, declination_rad: f64) {
        let size = 1.15 * self.view.label_px;
        let angle = signed_degrees(declination_rad);
        let text = self.view.words.fill("year.declination", &[("angle", &angle)]);
        let now = self.now_px();
        let aside = Axis::THUMB_PX / 2.0 + 5.0 * self.view.unit();
        let (upper, lower) = (self.top + 0.95 * size, self.bottom - 0.4 * size);
        let beside = [(now + aside, Anchor::Start), (now - aside, Anchor::End)];
        let heights = if declination_rad > 0.0 { [lower, upper] } else { [upper, lower] };
        let ink = self.view.palette.ink;
        for (y, (x, anchor)) in heights.into_iter().flat_map(|y| beside.map(|place| (y, place))) {
            if self.set_on_track(DVec2::new(x, y), &text, figure(size, ink, anchor)) {
                return;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::core::sky::SunTrack;
    use crate::scene::checks::{
        assert_finite, assert_large, assert_legible, conditions, dial_at, instant, moment, presets,
        year,
    };
    use crate::scene::palette::Theme;
    use crate::words::Words;

    fn drawn(
        instrument: &Instrument,
        moment: &Moment,
        curve: &YearCurve,
        (width, height, label_px): (f64, f64, f64),
    ) -> Drawing {
        let words = Words::english();
        let size = DVec2::new(width, height);
        let view = StripView { size, palette: Theme::Day.palette(), words: &words, label_px };
        let mut drawing = Drawing::new(size);
        draw(&mut drawing, instrument, moment, curve, &view);
        drawing
    }

    #[test]
    fn no_words_touch_or_are_cut_off_on_any_day_of_the_year() {
        let mut track = SunTrack::new();
        let curve = year(2028, &mut track);
        let sizes = [
            (300.0, 60.0, 13.0),
            (362.0, 56.0, 13.0),
            (690.0, 80.0, 15.0),
            (1100.0, 70.0, 13.0),
            (1300.0, 100.0, 23.0),
        ];
        let Some(instrument) = presets().into_iter().next() else { panic!("no preset") };
        for (date, _) in curve.days.iter().step_by(3) {
            let moment = moment(&instrument, &mut track, &date.to_string(), -7640.0);
            for size in sizes {
                let drawing = drawn(&instrument, &moment, &curve, size);
                let what = format!("{date} {size:?}");
                assert_legible(&drawing, &what);
                assert_large(&drawing, size.2, &what);
                assert_finite(&drawing, &what);
            }
        }
    }

    #[test]
    fn every_season_has_its_mark_on_the_curve_and_its_name_where_there_is_room() {
        let (words, mut track) = (Words::english(), SunTrack::new());
        let curve = year(2026, &mut track);
        let Some(instrument) = presets().into_iter().next() else { panic!("no preset") };
        let size = DVec2::new(1100.0, 90.0);
        let view = StripView { size, palette: Theme::Day.palette(), words: &words, label_px: 13.0 };
        let marks = season_marks(&instrument, &curve, &view);
        let heights = marks.map(|mark| mark.at.y);
        let (top, bottom) = view.track_px(TOP_LABELS);
        let equator = f64::midpoint(top, bottom);
        // An equinox is at most half a day from noon: a few tenths of a pixel.
        assert!((heights[0] - equator).abs() < 0.6 && (heights[2] - equator).abs() < 0.6);
        assert!(heights[1] < top + 3.0 && heights[3] > bottom - 3.0, "{heights:?}");
        let moment = moment(&instrument, &mut track, "2026-08-10", 0.0);
        let drawing = drawn(&instrument, &moment, &curve, (1100.0, 90.0, 13.0));
        let texts: Vec<&str> = drawing
            .marks()
            .iter()
            .filter_map(|mark| match mark {
                crate::scene::drawing::Mark::Text { text, .. } => Some(drawing.text_of(text)),
                _ => None,
            })
            .collect();
        for name in ["equinox 20 Mar", "solstice 21 Jun", "equinox 23 Sep", "solstice 22 Dec"] {
            assert!(texts.contains(&name), "{name} is missing from {texts:?}");
        }
    }

    #[test]
    fn the_axis_counts_the_days_of_the_year() {
        assert_eq!((axis(2026, 500.0).min, axis(2026, 500.0).max), (1.0, 365.0));
        assert_eq!(axis(2028, 500.0).max, 366.0);
        let axis = axis(2026, 500.0);
        assert!((axis.value(axis.px(291.0)) - 291.0).abs() < 1e-9);
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(16))]
        #[test]
        fn any_year_at_any_latitude_can_be_drawn(
            latitude in prop_oneof![-90.0..90.0_f64, Just(90.0), Just(-90.0)],
            ms in Instant::FIRST.unix_ms()..Instant::LAST.unix_ms(),
            of_year in 1700..=2200,
            width in 20.0..1400.0_f64,
            height in 20.0..120.0_f64,
            label_px in 13.0..24.0_f64,
        ) {
            let instrument = dial_at(latitude);
            let mut track = SunTrack::new();
            let moment = Moment::compute(&instrument, instant(ms), &conditions(), &mut track);
            let curve = year(of_year, &mut track);
            let drawing = drawn(&instrument, &moment, &curve, (width, height, label_px));
            assert_finite(&drawing, "year strip");
            assert_legible(&drawing, "year strip");
        }
    }
}
