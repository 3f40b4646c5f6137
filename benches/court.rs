//! What one drawing list of the court costs, by standpoint, on a picture of 876 × 508.

use criterion::{Criterion, criterion_group, criterion_main};
use glam::DVec2;
use noonwedge::core::instrument::PRESETS;
use noonwedge::core::moment::{Conditions, Moment};
use noonwedge::core::sky::SunTrack;
use noonwedge::core::time::Instant;
use noonwedge::scene::camera::{Camera, Standpoint};
use noonwedge::scene::court::{CourtView, draw};
use noonwedge::scene::drawing::Drawing;
use noonwedge::scene::guide::Strengths;
use noonwedge::scene::palette::Theme;
use noonwedge::words::Words;

const SIZE: DVec2 = DVec2::new(876.0, 508.0);
/// 18 October 2026, 06:24 UTC: mid-morning at the first preset.
const MORNING_UNIX_MS: i64 = 1_792_304_640_000;

fn court(criterion: &mut Criterion) {
    let Ok(instrument) = PRESETS[0].instrument() else { return };
    let instant = Instant::from_unix_ms_saturating(MORNING_UNIX_MS);
    let moment =
        Moment::compute(&instrument, instant, &Conditions::default(), &mut SunTrack::new());
    let words = Words::english();
    let mut drawing = Drawing::new(SIZE);
    for standpoint in Standpoint::ALL {
        let camera = Camera::for_standpoint(standpoint, &instrument, 0.7);
        let view = CourtView {
            size: SIZE,
            camera: &camera,
            palette: Theme::Day.palette(),
            words: &words,
            pointer: None,
            label_px: 15.0,
            guides: Strengths::default(),
            covered: true,
            in_motion: false,
        };
        criterion.bench_function(&format!("court/{}", standpoint.key()), |bencher| {
            bencher.iter(|| draw(&mut drawing, &instrument, &moment, &view));
        });
    }
}

criterion_group!(benches, court);
criterion_main!(benches);
