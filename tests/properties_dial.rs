//! What must hold for every instrument, whatever its dimensions and wherever it stands.
#![cfg(not(target_arch = "wasm32"))]

use std::f64::consts::{FRAC_PI_2, PI};

use glam::DVec3;
use noonwedge::core::dial::{DialAngles, DialFrame};
use noonwedge::core::instrument::{
    Alignment, AxialEnd, EndFaces, Instrument, InstrumentSpec, PRESETS, Script, Side, SummerTime,
};
use noonwedge::core::light::{LimbDarkening, SunDisc};
use noonwedge::core::moment::{Conditions, Moment};
use noonwedge::core::pointer::{
    Criterion, Pointer, graduation_m, place_for_edge_m, place_for_trace_m, scale_at,
};
use noonwedge::core::reading::{NOON_S, SECONDS_PER_RADIAN, hour_angle_of_mark, shown_at};
use noonwedge::core::shadow::{
    NoEdge, ground_shadow, sees_sun, shadow_edge, surface_point, wall_profile, wrapped,
};
use noonwedge::core::sky::{Air, SunTrack};
use noonwedge::core::time::Instant;
use proptest::prelude::*;

/// Rounding of a few products of doubles of order one.
const ROUNDING: f64 = 1e-12;

prop_compose! {
    /// Any instrument without alignment errors.
    fn any_spec()(
        latitude_deg in -90.0..=90.0_f64,
        longitude_deg in -180.0..=180.0_f64,
        radius_m in 0.25..20.0_f64,
        wall in 0.02..0.5_f64,
        breadth in 0.05..0.6_f64,
        south in 0.3..1.2_f64,
        north in 0.3..1.2_f64,
        zone_quarters in -48..=56_i32,
        plumb in any::<bool>(),
        divisions in prop_oneof![Just(vec![4, 15, 3]), Just(vec![12, 5]), Just(vec![]), Just(vec![4, 15, 60])],
    ) -> InstrumentSpec {
        // Plumb ends must stand behind the quadrants' feet: not where the style is steep.
        let foot = latitude_deg.to_radians().tan().abs() + breadth / 2.0;
        let end_faces = if plumb && south.min(north) > foot { EndFaces::Upright } else { EndFaces::Square };
        InstrumentSpec {
            name: "any".into(),
            latitude_deg,
            longitude_deg,
            elevation_m: 0.0,
            zone_offset_min: zone_quarters * 15,
            summer_time: SummerTime::Never,
            time_zone: None,
            radius_m,
            wall_thickness_m: wall * radius_m,
            breadth_m: breadth * radius_m,
            // Enough for the longest style above to stay clear of the paving at any latitude.
            plinth_m: 1.3 * radius_m,
            style_south_m: -south * radius_m,
            style_north_m: north * radius_m,
            end_faces,
            foot_gap_m: 0.0,
            divisions,
            numerals: Script::Roman,
            alignment: Alignment::default(),
        }
    }
}

fn made(spec: InstrumentSpec) -> Instrument {
    Instrument::new(spec).unwrap_or_else(|error| panic!("{error}"))
}

fn any_instant() -> impl Strategy<Value = Instant> {
    (Instant::FIRST.unix_ms()..=Instant::LAST.unix_ms())
        .prop_map(|ms| Instant::from_unix_ms(ms).unwrap_or(Instant::FIRST))
}

/// The Sun of mean size, equally bright all over.
fn disc(centre: DialAngles) -> SunDisc {
    let limb = LimbDarkening::Uniform;
    SunDisc { centre, semidiameter_rad: 0.00465, limb, horizon: true }
}

fn any_sun() -> impl Strategy<Value = DialAngles> {
    ((-PI..PI), (-0.41..0.41_f64)).prop_map(|(hour_angle_rad, declination_rad)| DialAngles {
        hour_angle_rad,
        declination_rad,
    })
}

proptest! {
    #[test]
    fn the_shadow_reads_the_suns_hour_angle(spec in any_spec(), sun in any_sun()) {
        let instrument = made(spec);
        match shadow_edge(&instrument, sun) {
            Ok(edge) => {
                let shown_s = shown_at(&instrument, edge.side, edge.hour_angle_rad);
                let true_s = NOON_S + sun.hour_angle_rad * SECONDS_PER_RADIAN;
                prop_assert!((shown_s - true_s).abs() < 1e-9);
                prop_assert_eq!(edge.side == Side::West, sun.hour_angle_rad < 0.0);
                prop_assert!(edge.axial_m.0 < edge.axial_m.1);
                prop_assert!(edge.axial_m.1 <= instrument.quadrant_edge_m(AxialEnd::North));
            }
            Err(NoEdge::BeyondEnd) => prop_assert!(sun.hour_angle_rad.abs() > FRAC_PI_2),
            Err(NoEdge::StyleTooShort { missing_m, .. }) => prop_assert!(missing_m >= 0.0),
        }
    }

    #[test]
    fn the_stone_is_lit_before_the_edge_and_dark_behind_it(
        spec in any_spec(), sun in any_sun(), axial in 0.0..1.0_f64
    ) {
        let instrument = made(spec);
        let Ok(edge) = shadow_edge(&instrument, sun) else { return Ok(()) };
        let axial_m = edge.axial_m.0 + axial * (edge.axial_m.1 - edge.axial_m.0);
        let (step, outwards) = (1e-4, edge.side.sign());
        let near = |offset: f64| edge.hour_angle_rad + outwards * offset;
        if edge.hour_angle_rad.abs() < FRAC_PI_2 - 2.0 * step && edge.hour_angle_rad.abs() > 2.0 * step {
            prop_assert!(sees_sun(&instrument, sun, edge.side, near(step), axial_m));
            // Behind the edge the wall is in the way, unless the ray passes the style's end.
            let margin = 0.05 * instrument.radius_m();
            if edge.axial_m.0 + margin < axial_m && axial_m < edge.axial_m.1 - margin {
                prop_assert!(!sees_sun(&instrument, sun, edge.side, near(-step), axial_m));
            }
        }
    }

    #[test]
    fn east_mirrors_west(spec in any_spec(), sun in any_sun(), h in 0.01..1.56_f64, z in -0.4..0.4_f64) {
        let instrument = made(spec);
        let axial_m = z * instrument.breadth_m();
        let mirrored = DialAngles { hour_angle_rad: -sun.hour_angle_rad, ..sun };
        prop_assert_eq!(
            sees_sun(&instrument, sun, Side::West, -h, axial_m),
            sees_sun(&instrument, mirrored, Side::East, h, axial_m)
        );
        let west = surface_point(&instrument, Side::West, -h, axial_m, 0.0);
        let east = surface_point(&instrument, Side::East, h, axial_m, 0.0);
        prop_assert!((west.x + east.x).abs() < ROUNDING * 40.0);
        prop_assert!((west.y - east.y).abs() < ROUNDING * 40.0);
    }

    #[test]
    fn south_mirrors_north(spec in any_spec(), sun in any_sun(), h in 0.01..1.56_f64, z in -0.4..0.4_f64) {
        let north = made(spec.clone());
        let south = made(InstrumentSpec {
            latitude_deg: -spec.latitude_deg,
            style_south_m: -spec.style_north_m,
            style_north_m: -spec.style_south_m,
            ..spec
        });
        let axial_m = z * north.breadth_m();
        let mirrored = DialAngles { declination_rad: -sun.declination_rad, ..sun };
        for (side, h) in [(Side::West, -h), (Side::East, h)] {
            prop_assert_eq!(
                sees_sun(&north, sun, side, h, axial_m),
                sees_sun(&south, mirrored, side, h, -axial_m)
            );
        }
        match (shadow_edge(&north, sun), shadow_edge(&south, mirrored)) {
            (Ok(n), Ok(s)) => prop_assert!((n.axial_m.0 + s.axial_m.1).abs() < 1e-9),
            (n, s) => prop_assert_eq!(n.is_ok(), s.is_ok()),
        }
    }

    #[test]
    fn marks_and_scales_are_inverses(spec in any_spec(), errors in (-300.0..300.0_f64, -40.0..40.0_f64), shown_s in 21_600.0..64_800.0_f64, declination in -0.45..0.45_f64) {
        let limit_m = spec.radius_m * 0.0499;
        let alignment = Alignment {
            west_zero_deg: errors.0 / 60.0,
            east_radius_error_m: (errors.1 / 1000.0).clamp(-limit_m, limit_m),
            ..Alignment::default()
        };
        let instrument = made(InstrumentSpec { alignment, ..spec });
        for side in Side::BOTH {
            let angle = hour_angle_of_mark(&instrument, side, shown_s);
            prop_assert!((shown_at(&instrument, side, angle) - shown_s).abs() < 1e-6);
        }
        for edge in AxialEnd::BOTH {
            let place_m = graduation_m(&instrument, edge, declination);
            prop_assert!((scale_at(&instrument, edge, place_m) - declination).abs() < ROUNDING);
        }
    }

    #[test]
    fn the_middle_of_the_rods_shadow_reads_the_declination(spec in any_spec(), sun in any_sun(), rod in 0.002..0.05_f64) {
        let instrument = made(spec);
        let disc = (0.00465, rod);
        for side in Side::BOTH {
            for edge in AxialEnd::BOTH {
                let at = |criterion| {
                    let place_m = place_for_edge_m(&instrument, side, edge, criterion, sun, disc);
                    scale_at(&instrument, edge, place_m)
                };
                prop_assert!((at(Criterion::Middle) - sun.declination_rad).abs() < ROUNDING);
                // The last trace always reads too far outwards, by at least the Sun's half breadth.
                let bias = (at(Criterion::LastTrace) - sun.declination_rad) * edge.sign();
                prop_assert!(bias > 0.0046, "{bias}");
            }
        }
    }

    #[test]
    fn a_rods_shadow_is_wider_than_its_core(spec in any_spec(), sun in any_sun(), rod in 0.002..0.2_f64) {
        let instrument = made(spec);
        let Ok(pointer) = Pointer::new(&instrument, 0.0, rod) else { panic!("on the style") };
        let disc = disc(sun);
        let shadow = pointer.shadow(&instrument, Side::West, &disc);
        prop_assert!(shadow.patch_m.0 < shadow.shadow_m && shadow.shadow_m < shadow.patch_m.1);
        prop_assert!((0.0..=1.0).contains(&shadow.peak_cover));
        let cover = |axial_m| pointer.cover_at(&instrument, Side::West, &disc, axial_m);
        prop_assert!((cover(shadow.shadow_m) - shadow.peak_cover).abs() < 1e-9);
        prop_assert!(cover(shadow.patch_m.0) < 1e-9 && cover(shadow.patch_m.1) < 1e-9);
        prop_assert!(cover(f64::midpoint(shadow.patch_m.0, shadow.shadow_m)) > 1e-9);
        // The disc is covered whole exactly when there is a core.
        if let Some((south, north)) = shadow.core_m {
            prop_assert!(shadow.patch_m.0 < south && north < shadow.patch_m.1);
            prop_assert!(shadow.peak_cover > 0.99);
        }
    }

    #[test]
    fn a_less_keen_eye_loses_the_trace_sooner(spec in any_spec(), sun in any_sun(), rod in 0.002..0.05_f64) {
        let instrument = made(spec);
        let size = (0.00465, rod);
        for edge in AxialEnd::BOTH {
            let place = |least| place_for_trace_m(&instrument, Side::East, edge, least, &disc(sun), rod) * edge.sign();
            let last = place_for_edge_m(&instrument, Side::East, edge, Criterion::LastTrace, sun, size);
            prop_assert!((place(0.0) - last * edge.sign()).abs() < 1e-6 * instrument.radius_m());
            prop_assert!(place(0.01) < place(0.0) && place(0.05) <= place(0.01));
        }
    }

    #[test]
    fn every_moment_is_finite(spec in any_spec(), instant in any_instant(), air in any::<bool>()) {
        let instrument = made(spec);
        let conditions = Conditions { air: air.then(Air::default), ..Conditions::default() };
        let mut track = SunTrack::new();
        let moment = Moment::compute(&instrument, instant, &conditions, &mut track);
        let sun = &moment.sun;
        for direction in [&sun.airless, &sun.seen] {
            prop_assert!(direction.vector.is_finite());
            prop_assert!((direction.vector.length() - 1.0).abs() < 1e-9);
        }
        prop_assert!(moment.on_dial.hour_angle_rad.is_finite());
        prop_assert!(moment.corrections.total_s().is_finite());
        if let Ok(reading) = &moment.reading {
            prop_assert!(reading.rounding_s().abs() <= f64::from(instrument.graduation().smallest_s()) / 2.0 + 1e-9);
            let whole: u32 = reading.counted.iter().map(|(level, n)| level.division_s * n).sum();
            prop_assert_eq!(whole, reading.shown_s);
        }
        if let Some(ladder) = &moment.ladder {
            let rest = ladder.residual;
            let parts = rest.division_s + rest.refraction_s + rest.alignment_s + rest.rounding_s + rest.place_s;
            // The true clock is kept to a millisecond.
            prop_assert!((ladder.residual_s() - parts).abs() < 2e-3, "{} {parts}", ladder.residual_s());
        }
        if let Some(outline) = ground_shadow(&instrument, sun.seen.vector) {
            prop_assert!(outline.iter().all(|point| point.is_finite()));
        }
    }

    #[test]
    fn the_walls_shadow_begins_at_its_foot(spec in any_spec(), sun in any_sun()) {
        let instrument = made(spec);
        let to_sun = instrument.frame().towards(sun);
        prop_assume!(to_sun.z > 0.01);
        let Some(outline) = ground_shadow(&instrument, to_sun) else { panic!("the Sun is up") };
        let on_ground = |corner: &&DVec3| (corner.z - instrument.ground_z_m()).abs() < ROUNDING * 40.0;
        for foot in wall_profile(&instrument).iter().filter(on_ground) {
            let foot = foot.truncate();
            // Inside or on a convex outline: never to the right of an edge.
            for (a, b) in outline.iter().zip(outline.iter().cycle().skip(1)) {
                prop_assert!((*b - *a).perp_dot(foot - *a) > -1e-6 * instrument.radius_m().powi(2));
            }
        }
    }

    #[test]
    fn angles_survive_the_way_to_a_vector_and_back(latitude in -FRAC_PI_2..=FRAC_PI_2, sun in any_sun()) {
        let frame = DialFrame::at_latitude(latitude);
        let back = frame.angles(frame.towards(sun));
        prop_assert!(wrapped(back.hour_angle_rad - sun.hour_angle_rad).abs() < ROUNDING);
        prop_assert!((back.declination_rad - sun.declination_rad).abs() < ROUNDING);
    }
}

#[test]
fn the_presets_stand() {
    for preset in &PRESETS {
        let instrument = preset.instrument();
        assert!(instrument.is_ok(), "{}: {:?}", preset.key, instrument.err());
    }
}

#[test]
fn the_presets_read_the_whole_year_by_the_edge_on_each_side() {
    // At a solstice the pointer must reach one of the two scales with its shadow at the edge.
    for preset in &PRESETS {
        let Ok(instrument) = preset.instrument() else { panic!("a test makes them all") };
        for declination_rad in [23.44_f64.to_radians(), -23.44_f64.to_radians()] {
            let reached =
                AxialEnd::BOTH.map(|edge| graduation_m(&instrument, edge, declination_rad));
            let style =
                (instrument.style_end_m(AxialEnd::South), instrument.style_end_m(AxialEnd::North));
            let outer = if declination_rad > 0.0 { reached[0] } else { reached[1] };
            assert!(
                (style.0..=style.1).contains(&outer),
                "{}: {outer} outside {style:?}",
                preset.key
            );
        }
    }
}

/// A change that makes an instrument impossible.
type Change = fn(&mut InstrumentSpec);

#[test]
fn impossible_instruments_are_refused_by_name() {
    let terrace = PRESETS[0].spec();
    let refused = |change: Change| {
        let mut spec = terrace.clone();
        change(&mut spec);
        Instrument::new(spec).err().map(|error| error.to_string()).unwrap_or_default()
    };
    let cases: [(Change, &str); 8] = [
        (|spec| spec.latitude_deg = 91.0, "latitude"),
        (|spec| spec.longitude_deg = f64::NAN, "longitude"),
        (|spec| spec.radius_m = -1.0, "radius is -1 m; it must be from 0.05 to 50 m"),
        (|spec| spec.plinth_m = 0.0, "plinth is 0 m; it must be from 0.197 to 50 m"),
        (|spec| spec.style_south_m = -6.0, "style's south end"),
        (|spec| spec.divisions = vec![7], "graduation"),
        (|spec| spec.zone_offset_min = 2000, "zone"),
        (|spec| spec.alignment.west_zero_deg = 7.0, "zero error"),
    ];
    for (change, expected) in cases {
        let sentence = refused(change);
        assert!(sentence.contains(expected), "{sentence:?} does not say {expected:?}");
    }
}

proptest! {
    #[test]
    fn a_disc_shrunk_to_a_point_is_the_point(spec in any_spec(), sun in any_sun(), h in 0.01..1.56_f64, z in -0.4..0.4_f64) {
        use noonwedge::core::light::{LimbDarkening, SunDisc, lit_fraction};
        let instrument = made(spec);
        // Below the ground the two describe the wall differently; no light comes from there.
        prop_assume!(instrument.frame().towards(sun).z > 0.0);
        let axial_m = z * instrument.breadth_m();
        for (side, h) in [(Side::West, -h), (Side::East, h)] {
            for limb in [LimbDarkening::Uniform, LimbDarkening::Linear] {
                let disc = SunDisc { centre: sun, semidiameter_rad: 1e-7, limb, horizon: false };
                let share = lit_fraction(&instrument, &disc, side, h, axial_m);
                // Where the disc is cut, the point may be on either side of the edge.
                if !(1e-6..=1.0 - 1e-6).contains(&share) {
                    prop_assert_eq!(share > 0.5, sees_sun(&instrument, sun, side, h, axial_m));
                }
            }
        }
    }
}
