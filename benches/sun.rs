//! What one apparent Sun costs: computed, and interpolated at several speeds of play.

use criterion::{Criterion, criterion_group, criterion_main};
use noonwedge::core::almanac::{day_events, seasons};
use noonwedge::core::sky::{Air, Site, SunTrack, apparent_sun, sun_at_site};
use noonwedge::core::time::{CivilOffset, EarthTime, TimeScale};
use std::hint::black_box;

/// The Julian date at which play begins.
const START_JD: f64 = 2_461_000.5;

/// Frames of a second of play.
const FRAMES_PER_S: f64 = 60.0;

/// Days after which play begins again; a whole number of the stretches that a track keeps at once
/// would favour it, so it is longer than all of them together.
const SPAN_DAYS: f64 = 3000.0;

/// Speeds of play, in days of the sky per second.
const SPEEDS: [(&str, f64); 3] =
    [("real time", 1.0 / 86_400.0), ("an hour a second", 1.0 / 24.0), ("six days a second", 6.0)];

fn time(days: f64) -> EarthTime {
    EarthTime::from_ut1(START_JD, days, 69.184)
}

/// Successive frames at one speed, for ever.
fn frames(days_per_s: f64) -> impl FnMut() -> EarthTime {
    let mut days = 0.0;
    move || {
        days = (days + days_per_s / FRAMES_PER_S) % SPAN_DAYS;
        time(days)
    }
}

fn sun(c: &mut Criterion) {
    let mut group = c.benchmark_group("sun");
    let mut next = frames(6.0);
    group.bench_function("computed", |b| {
        b.iter(|| apparent_sun(black_box(&next())));
    });
    for (name, days_per_s) in SPEEDS {
        let mut next = frames(days_per_s);
        let mut track = SunTrack::new();
        group.bench_function(format!("interpolated, {name}"), |b| {
            b.iter(|| track.at(black_box(&next())));
        });
    }
    group.finish();
}

fn site(c: &mut Criterion) {
    let Ok(site) = Site::from_degrees(26.9, 75.8, 431.0) else {
        return;
    };
    let sun = apparent_sun(&time(0.0));
    let air = Air::default();
    c.bench_function("sun at site, with air", |b| {
        b.iter(|| sun_at_site(black_box(&sun), &site, Some(&air)));
    });
    let mut track = SunTrack::new();
    let dates: Vec<_> = chrono::NaiveDate::default().iter_days().take(365).collect();
    c.bench_function("events of a year", |b| {
        b.iter(|| {
            for &date in &dates {
                let scale = TimeScale::Civil;
                let day = day_events(&mut track, &site, date, CivilOffset::ZERO, scale);
                black_box(day.is_ok());
            }
        });
    });
    c.bench_function("seasons of a year", |b| {
        b.iter(|| seasons(black_box(2026), TimeScale::Civil));
    });
}

criterion_group!(benches, sun, site);
criterion_main!(benches);
