//! Tests of the declination scale as a picture.

use proptest::prelude::*;

use super::*;
use crate::core::pointer::scale_at;
use crate::core::sky::SunTrack;
use crate::core::time::Instant;
use crate::scene::checks::{
    DATES, TIMES_S, assert_finite, assert_large, assert_legible, conditions, dial_at, instant,
    moment, presets,
};
use crate::scene::palette::Theme;

fn drawn(
    instrument: &Instrument,
    moment: &Moment,
    pointer: &Pointer,
    (width, height, label_px): (f64, f64, f64),
) -> Drawing {
    let words = Words::english();
    let size = DVec2::new(width, height);
    let palette = Theme::Day.palette();
    let least_cover = 0.05;
    let view = ScaleView { size, palette, words: &words, pointer, least_cover, label_px };
    let mut drawing = Drawing::new(size);
    draw(&mut drawing, instrument, moment, &view);
    drawing
}

/// A rod at this share of the way from the style's south end to its north end.
fn rod(instrument: &Instrument, share: f64, diameter_m: f64) -> Pointer {
    let [north, south] = AxialEnd::BOTH.map(|end| instrument.style_end_m(end));
    let place = (south + share * (north - south)).clamp(south, north);
    Pointer::new(instrument, place, diameter_m).unwrap_or_else(|error| panic!("{error}"))
}

#[test]
fn no_words_touch_or_are_cut_off_wherever_the_rod_is() {
    let mut track = SunTrack::new();
    let sizes = [
        (300.0, 170.0, 13.0),
        (300.0, 260.0, 15.0),
        (364.0, 270.0, 13.0),
        (640.0, 460.0, 23.0),
        (1300.0, 400.0, 14.0),
    ];
    for instrument in presets() {
        for (date, time) in
            DATES.iter().flat_map(|date| [-7640.0, 0.0, 30_000.0].map(|t| (date, t)))
        {
            let moment = moment(&instrument, &mut track, date, time);
            let edges = AxialEnd::BOTH.map(|edge| {
                let size = (moment.sun.semidiameter_rad, Pointer::FINGER_M);
                let side = Side::at_hour_angle(moment.on_dial.hour_angle_rad);
                let way = Criterion::Middle;
                place_for_edge_m(&instrument, side, edge, way, moment.on_dial, size)
            });
            let aimed = edges
                .into_iter()
                .filter_map(|place| Pointer::new(&instrument, place, Pointer::FINGER_M).ok());
            let spread = [0.0, 0.31, 0.5, 0.9, 1.0].map(|share| rod(&instrument, share, 0.03));
            for pointer in aimed.chain(spread) {
                for size in sizes {
                    let drawing = drawn(&instrument, &moment, &pointer, size);
                    let what = format!("{} {date} {time} {size:?}", instrument.spec().name);
                    assert_legible(&drawing, &what);
                    assert_large(&drawing, size.2, &what);
                    assert_finite(&drawing, &what);
                }
            }
        }
    }
}

#[test]
fn the_patch_is_as_deep_and_as_broad_as_the_core_says() {
    let mut track = SunTrack::new();
    for instrument in presets() {
        for (date, time) in DATES.iter().flat_map(|date| TIMES_S.map(|time| (date, time))) {
            let moment = moment(&instrument, &mut track, date, time);
            if !throws_shadow(&moment) {
                continue;
            }
            for diameter_m in [0.002, Pointer::FINGER_M, 0.15] {
                let pointer = rod(&instrument, 0.6, diameter_m);
                let patch = Patch::new(&instrument, &moment, &pointer);
                let (south, north) = patch.limits_m;
                let breadth = north - south;
                let beside = [south - 0.01 * breadth, north + 0.01 * breadth];
                let inside = [south + 0.02 * breadth, north - 0.02 * breadth];
                let cover = |place: f64| patch.cover_at(place);
                assert!(
                    beside.iter().all(|&place| cover(place) < 1e-9),
                    "shadow beyond its limits"
                );
                assert!(inside.iter().all(|&place| cover(place) > 1e-4), "no shadow inside them");
                let off = (cover(patch.middle_m) - patch.peak_cover).abs();
                assert!(off < 1e-6, "depth {} by {off}", patch.peak_cover);
                if let Some((from, to)) = patch.core_m {
                    let core = [from, f64::midpoint(from, to), to].map(cover);
                    assert!(core.iter().all(|&cover| cover > 1.0 - 1e-6), "core {core:?}");
                }
            }
        }
    }
}

#[test]
fn a_rod_at_its_last_trace_is_seen_up_to_the_edge_and_no_farther() {
    let mut track = SunTrack::new();
    let mut compared = 0;
    for instrument in presets() {
        let moment = moment(&instrument, &mut track, "2026-10-18", -7640.0);
        let disc = moment.disc();
        for (edge, least_cover) in AxialEnd::BOTH.into_iter().flat_map(|e| [(e, 0.02), (e, 0.1)]) {
            let finger_m = Pointer::FINGER_M;
            let place =
                place_for_trace_m(&instrument, Side::West, edge, least_cover, &disc, finger_m);
            let Ok(pointer) = Pointer::new(&instrument, place, finger_m) else { continue };
            let patch = Patch::new(&instrument, &moment, &pointer);
            let Some((south, north)) = patch.seen_m(least_cover) else { continue };
            // Pushed off over an edge, the shadow is seen last on its other side.
            let last = if edge == AxialEnd::North { south } else { north };
            let off = (last - instrument.quadrant_edge_m(edge)).abs();
            assert!(off < 1e-6, "{edge:?} {least_cover}: seen {off} m past the edge");
            compared += 1;
        }
    }
    assert!(compared >= 8, "only {compared} rods could be held");
}

#[test]
fn the_axis_spans_both_scales_and_goes_there_and_back() {
    for instrument in presets() {
        let axis = axis(&instrument, 364.0);
        let ends = [(AxialEnd::South, axis.min, -24.0), (AxialEnd::North, axis.max, 24.0)];
        for (edge, place, degrees) in ends {
            assert!((scale_at(&instrument, edge, place).to_degrees() - degrees).abs() < 1e-9);
            assert!((axis.value(axis.px(place)) - place).abs() < 1e-12);
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]
    #[test]
    fn any_moment_at_any_latitude_can_be_drawn(
        latitude in prop_oneof![-90.0..90.0_f64, Just(90.0), Just(-90.0)],
        ms in Instant::FIRST.unix_ms()..Instant::LAST.unix_ms(),
        share in 0.0..1.0_f64,
        diameter_m in Pointer::DIAMETER_M.0..Pointer::DIAMETER_M.1,
        width in 20.0..900.0_f64,
        height in 20.0..500.0_f64,
        label_px in 13.0..24.0_f64,
    ) {
        let instrument = dial_at(latitude);
        let moment = Moment::compute(&instrument, instant(ms), &conditions(), &mut SunTrack::new());
        let pointer = rod(&instrument, share, diameter_m);
        let drawing = drawn(&instrument, &moment, &pointer, (width, height, label_px));
        assert_finite(&drawing, "scale");
        assert_legible(&drawing, "scale");
    }
}
