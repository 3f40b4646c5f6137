//! What a year's table costs: rise, noon, set, declination and equation of time of 365 days.

use criterion::{Criterion, criterion_group, criterion_main};
use noonwedge::core::instrument::{EndFaces, Instrument, InstrumentSpec, PRESETS};
use noonwedge::core::sky::SunTrack;
use noonwedge::core::year_table::YearTable;
use std::hint::black_box;

/// Latitudes, degrees: the first preset's, and one where midsummer days are searched with care.
const LATITUDES_DEG: [f64; 2] = [31.6, 65.9];

fn year(c: &mut Criterion) {
    let mut group = c.benchmark_group("year");
    for latitude_deg in LATITUDES_DEG {
        let (style_south_m, end_faces) = (-1.5, EndFaces::Square);
        let spec = InstrumentSpec { latitude_deg, style_south_m, end_faces, ..PRESETS[0].spec() };
        let Ok(instrument) = Instrument::new(spec) else { panic!("a dial that stands") };
        group.bench_function(format!("at {latitude_deg}°, nothing remembered"), |b| {
            b.iter(|| YearTable::compute(&instrument, black_box(2026), &mut SunTrack::new()));
        });
    }
    group.finish();
}

criterion_group!(benches, year);
criterion_main!(benches);
