//! What one frame computes while playing at 1280 × 800: the Sun, the shadow, the reading and the
//! drawing lists of the court, the lens and the day strip.

use criterion::{Criterion, criterion_group, criterion_main};
use glam::DVec2;
use noonwedge::core::day::DayOutline;
use noonwedge::core::instrument::PRESETS;
use noonwedge::core::moment::{Conditions, Moment};
use noonwedge::core::sky::{Air, SunTrack};
use noonwedge::core::time::Instant;
use noonwedge::scene::camera::{Camera, Standpoint};
use noonwedge::scene::court::{self, CourtView};
use noonwedge::scene::day_strip;
use noonwedge::scene::drawing::Drawing;
use noonwedge::scene::guide::Strengths;
use noonwedge::scene::lens::{self, LensView};
use noonwedge::scene::palette::Theme;
use noonwedge::scene::strip::StripView;
use noonwedge::words::Words;

/// 18 October 2026, 06:24 UTC: mid-morning at the first preset.
const MORNING_UNIX_MS: i64 = 1_792_304_640_000;
/// A minute a second at sixty frames a second.
const STEP_S: f64 = 1.0;
const LABEL_PX: f64 = 14.0;

fn frame(criterion: &mut Criterion) {
    let Ok(instrument) = PRESETS[0].instrument() else { return };
    let conditions = Conditions { air: Some(Air::default()), ..Conditions::default() };
    let start = Instant::from_unix_ms_saturating(MORNING_UNIX_MS);
    let mut track = SunTrack::new();
    let date = start.civil().date();
    let Ok(day) = DayOutline::compute(&instrument, date, &conditions, &mut track) else { return };
    let (words, palette) = (Words::english(), Theme::Day.palette());
    let camera = Camera::for_standpoint(Standpoint::Visitor, &instrument, 0.7);
    let [mut court_list, mut lens_list, mut day_list] = std::array::from_fn(|_| Drawing::default());
    let mut instant = start;
    criterion.bench_function("frame/playing", |bencher| {
        bencher.iter(|| {
            instant = instant.saturating_plus_seconds(STEP_S);
            if instant.seconds_since(start) > 7200.0 {
                instant = start;
            }
            let moment = Moment::compute(&instrument, instant, &conditions, &mut track);
            let court = CourtView {
                size: DVec2::new(876.0, 516.0),
                camera: &camera,
                palette,
                words: &words,
                pointer: None,
                label_px: LABEL_PX,
                guides: Strengths::default(),
                covered: true,
                in_motion: false,
            };
            court::draw(&mut court_list, &instrument, &moment, &court);
            let lens = LensView {
                size: DVec2::new(364.0, 190.0),
                palette,
                words: &words,
                centre_s: None,
                label_px: LABEL_PX,
                limits: false,
            };
            lens_list.restart(lens.size);
            lens::draw(&mut lens_list, &instrument, &moment, &lens);
            let size = DVec2::new(1072.0, 70.0);
            let strip = StripView { size, palette, words: &words, label_px: LABEL_PX };
            day_list.restart(size);
            day_strip::draw(&mut day_list, &instrument, &moment, &day, &strip);
        });
    });
}

criterion_group!(benches, frame);
criterion_main!(benches);
