//! Checks that any picture must pass, and moments to draw. For tests only.

use std::ops::Range;

use glam::DVec2;

use super::drawing::{Drawing, Mark};
use super::lettering::text_box;
use super::strip::dial_date;
use crate::core::day::DayOutline;
use crate::core::instrument::{EndFaces, Instrument, InstrumentSpec, PRESETS};
use crate::core::moment::{Conditions, Moment};
use crate::core::noon::instant_at_dial_angle;
use crate::core::reading::SECONDS_PER_RADIAN;
use crate::core::sky::{Air, SunTrack};
use crate::core::time::Instant;
use crate::core::year::YearCurve;

/// Beginnings of the keys of the views' words; a key without words stands for itself.
const KEY_PREFIXES: [&str; 6] = ["lens.", "day.", "noon.", "scale.", "sizes.", "year."];

/// Fails when two texts of a picture overlap, or one is cut off. For tests of pictures.
pub(super) fn assert_legible(drawing: &Drawing, what: &str) {
    let texts: Vec<(&str, (DVec2, DVec2))> = drawing
        .marks()
        .iter()
        .filter_map(|mark| match mark {
            Mark::Text { at, text, style } => {
                let text = drawing.text_of(text);
                Some((text, text_box(*at, text, style)))
            }
            _ => None,
        })
        .collect();
    for (index, (text, (min, max))) in texts.iter().enumerate() {
        let bare_key = KEY_PREFIXES.iter().any(|prefix| text.starts_with(prefix));
        assert!(!bare_key, "{what}: “{text}” has no words");
        let inside = min.cmpge(DVec2::splat(-0.1)).all() && max.cmple(drawing.size() + 0.1).all();
        assert!(inside, "{what}: “{text}” is cut off: {min} to {max}");
        for (other, (other_min, other_max)) in &texts[..index] {
            let apart = min.cmpge(*other_max).any() || max.cmple(*other_min).any();
            assert!(apart, "{what}: “{text}” and “{other}” overlap");
        }
    }
}

/// Fails when a text of a picture is smaller than the labels it was asked for, which are no smaller
/// than the page's smallest type. For tests of pictures.
pub(super) fn assert_large(drawing: &Drawing, label_px: f64, what: &str) {
    for mark in drawing.marks() {
        if let Mark::Text { text, style, .. } = mark {
            let (text, size) = (drawing.text_of(text), style.size);
            assert!(size >= label_px, "{what}: “{text}” is {size} px, labels {label_px}");
        }
    }
}

/// Fails when a picture holds a coordinate or a size that is not finite. For tests of pictures.
pub(super) fn assert_finite(drawing: &Drawing, what: &str) {
    for mark in drawing.marks() {
        let finite = match mark {
            Mark::Fill { contours, .. } | Mark::Clip { contours } => all_finite(drawing, contours),
            Mark::Gradient { contours, from, to, stops } => {
                let stops = drawing.stops(stops);
                let ordered = stops.is_sorted_by(|a, b| a.0 <= b.0);
                let inside = stops.iter().all(|stop| (0.0..=1.0).contains(&stop.0));
                all_finite(drawing, contours)
                    && from.is_finite()
                    && to.is_finite()
                    && ordered
                    && inside
            }
            Mark::Line { contours, stroke, .. } => {
                all_finite(drawing, contours) && stroke.width.is_finite()
            }
            Mark::Text { at, style, .. } => at.is_finite() && style.size.is_finite(),
            Mark::Unclip => true,
        };
        assert!(finite, "{what}: {mark:?} is not finite or not ordered");
    }
}

fn all_finite(drawing: &Drawing, contours: &Range<usize>) -> bool {
    drawing.contours(contours).flatten().all(|point| point.is_finite())
}

/// The instruments that come with the project.
pub(super) fn presets() -> Vec<Instrument> {
    let made = PRESETS.iter().map(|preset| preset.instrument());
    made.map(|instrument| instrument.unwrap_or_else(|error| panic!("{error}"))).collect()
}

/// A small dial that could stand at any latitude, degrees.
pub(super) fn dial_at(latitude_deg: f64) -> Instrument {
    let made = Instrument::new(InstrumentSpec {
        latitude_deg,
        plinth_m: 0.8,
        style_south_m: -0.7,
        style_north_m: 0.7,
        end_faces: EndFaces::Square,
        ..PRESETS[2].spec()
    });
    made.unwrap_or_else(|error| panic!("{latitude_deg}: {error}"))
}

/// Air as by default.
pub(super) fn conditions() -> Conditions {
    Conditions { air: Some(Air::default()), ..Conditions::default() }
}

/// The moment of a date (written `2026-10-18`) at which the Sun stands so many seconds of dial
/// time past the plane of the wall.
pub(super) fn moment(
    instrument: &Instrument,
    track: &mut SunTrack,
    date: &str,
    from_noon_s: f64,
) -> Moment {
    let date = date.parse().unwrap_or_else(|error| panic!("{date}: {error}"));
    let midnight = Instant::from_date(date).unwrap_or_else(|error| panic!("{date}: {error}"));
    let noon_s = 43_200.0 - instrument.site().longitude_rad() * SECONDS_PER_RADIAN;
    let near = midnight.saturating_plus_seconds(noon_s + from_noon_s);
    let goal_rad = from_noon_s / SECONDS_PER_RADIAN;
    let instant = instant_at_dial_angle(instrument, near, goal_rad, &conditions(), track);
    Moment::compute(instrument, instant.unwrap_or(near), &conditions(), track)
}

/// Days on which every kind of thing happens somewhere: solstices, an equinox, an ordinary day,
/// and the ends of the year.
pub(super) const DATES: [&str; 6] =
    ["2026-06-21", "2026-12-21", "2026-03-20", "2026-10-18", "2026-01-01", "2026-12-31"];

/// Seconds from noon at which every kind of thing happens: night, sunrise, beyond the quadrants'
/// ends, morning, just before, in and just after the blind interval, afternoon.
pub(super) const TIMES_S: [f64; 13] = [
    -41_000.0, -23_000.0, -21_500.0, -20_000.0, -7640.0, -60.0, -15.0, 0.0, 20.0, 300.0, 11_000.0,
    21_400.0, 30_000.0,
];

/// The instant of a Unix time in milliseconds.
pub(super) fn instant(unix_ms: i64) -> Instant {
    Instant::from_unix_ms(unix_ms).unwrap_or_else(|error| panic!("{error}"))
}

/// The outline of the day of a moment.
pub(super) fn day(instrument: &Instrument, moment: &Moment, track: &mut SunTrack) -> DayOutline {
    let date = dial_date(instrument, moment);
    DayOutline::compute(instrument, date, &conditions(), track)
        .unwrap_or_else(|error| panic!("{date}: {error}"))
}

/// A year's curve.
pub(super) fn year(year: i32, track: &mut SunTrack) -> YearCurve {
    YearCurve::compute(year, track).unwrap_or_else(|error| panic!("{year}: {error}"))
}
