//! Prints one moment in words: `cargo run --example moment -- terrace 2026-10-18T06:24:34Z`.
//!
//! The first argument is the key of a preset or the path of an instrument's description in JSON;
//! the second an instant in ISO 8601. Options: `--no-air` leaves refraction out, `--rod METRES`
//! holds a rod at a place on the style, `--minute` rounds the correction to a minute.

use std::process::ExitCode;

use noonwedge::core::day::DayOutline;
use noonwedge::core::instrument::{AxialEnd, Instrument, PRESETS, Preset, Side, file};
use noonwedge::core::ladder::{Ladder, Rounding};
use noonwedge::core::moment::{Conditions, Moment};
use noonwedge::core::pointer::{
    Criterion, Pointer, graduation_m, on_style, place_for_edge_m, scale_at,
};
use noonwedge::core::reading::{NoReading, Reading};
use noonwedge::core::sky::{Air, SunTrack};
use noonwedge::core::time::Instant;
use noonwedge::words::Words;
use noonwedge::words::figures::{clock, degrees, duration, length, signed_clock, signed_degrees};

fn main() -> ExitCode {
    match run() {
        Ok(()) => ExitCode::SUCCESS,
        Err(sentence) => {
            eprintln!("{sentence}");
            ExitCode::FAILURE
        }
    }
}

/// What the command line asks for.
struct Request {
    instrument: Instrument,
    instant: Instant,
    conditions: Conditions,
    rod_m: Option<f64>,
}

fn run() -> Result<(), String> {
    let request = parse(std::env::args().skip(1))?;
    let Request { instrument, instant, conditions, rod_m } = request;
    let mut track = SunTrack::new();
    let moment = Moment::compute(&instrument, instant, &conditions, &mut track);
    tell_instrument(&instrument);
    tell_sun(&moment);
    match &moment.reading {
        Ok(reading) => tell_reading(reading),
        Err(reason) => println!("reading        none: {}", why(*reason)),
    }
    println!("correction     {} in all", signed_clock(moment.corrections.total_s()));
    if let Some(ladder) = &moment.ladder {
        tell_ladder(ladder);
    }
    tell_day(&instrument, &moment, &conditions, &mut track)?;
    tell_scale(&instrument, &moment, rod_m)
}

fn parse(arguments: impl Iterator<Item = String>) -> Result<Request, String> {
    let mut plain = Vec::new();
    let mut conditions = Conditions { air: Some(Air::default()), ..Conditions::default() };
    let mut rod_m = None;
    let mut arguments = arguments;
    while let Some(argument) = arguments.next() {
        match argument.as_str() {
            "--no-air" => conditions.air = None,
            "--minute" => conditions.rounding = Rounding::Minute,
            "--rod" => {
                let given = arguments.next().ok_or("--rod needs a place on the style, metres")?;
                rod_m = Some(given.parse().map_err(|_| format!("rod is {given}, not a number"))?);
            }
            _ => plain.push(argument),
        }
    }
    let [key, instant] = plain.as_slice() else {
        let keys = PRESETS.map(|preset| preset.key).join(", ");
        return Err(format!("usage: moment INSTRUMENT INSTANT; instruments: {keys}, or a file"));
    };
    let instant = instant.parse::<Instant>().map_err(|error| error.to_string())?;
    Ok(Request { instrument: instrument(key)?, instant, conditions, rod_m })
}

fn instrument(key: &str) -> Result<Instrument, String> {
    if let Some(preset) = Preset::by_key(key) {
        return preset.instrument().map_err(|error| error.to_string());
    }
    let text = std::fs::read_to_string(key).map_err(|error| format!("{key}: {error}"))?;
    let spec = file::read(&text).map_err(|faults| {
        let faults: Vec<String> = faults.iter().map(ToString::to_string).collect();
        format!("{key}:\n{}", faults.join("\n"))
    })?;
    Instrument::new(spec).map_err(|error| format!("{key}: {error}"))
}

fn tell_instrument(instrument: &Instrument) {
    let spec = instrument.spec();
    println!(
        "instrument     {}, latitude {:.4}°, longitude {:.4}°",
        spec.name, spec.latitude_deg, spec.longitude_deg
    );
    println!(
        "               R = {:.3} m, wall {:.3} m, breadth {:.3} m, divided to {} s",
        spec.radius_m,
        spec.wall_thickness_m,
        spec.breadth_m,
        instrument.graduation().smallest_s()
    );
}

fn tell_sun(moment: &Moment) {
    let sun = &moment.sun;
    println!("instant        {} (UT1 is taken as UTC: up to 0.9 s)", moment.instant);
    println!(
        "sun            declination {:+.5}°, right ascension {:.5}°, semidiameter {:.2}″",
        sun.sun.declination_rad.to_degrees(),
        sun.sun.right_ascension_rad.to_degrees(),
        sun.semidiameter_rad.to_degrees() * 3600.0
    );
    println!("               equation of time {:+.2} s", sun.sun.equation_of_time_s);
    for (name, place) in [("airless", &sun.airless), ("as seen", &sun.seen)] {
        println!(
            "               {name}: altitude {:.5}°, azimuth {:.5}°, hour angle {:.5}°",
            place.altitude_rad.to_degrees(),
            place.azimuth_rad.to_degrees(),
            place.hour_angle_rad.to_degrees()
        );
    }
}

fn tell_reading(reading: &Reading) {
    println!(
        "reading        {} on the {} quadrant (exactly {:.2} s past midnight)",
        clock(f64::from(reading.shown_s)),
        side_name(reading.edge.side),
        reading.exact_s
    );
    let parts: Vec<String> = reading
        .counted
        .iter()
        .map(|(level, count)| {
            format!("{count} × {}", duration(&Words::english(), f64::from(level.division_s)))
        })
        .collect();
    println!("counted        {}", parts.join(" + "));
}

fn tell_ladder(ladder: &Ladder) {
    let steps = &ladder.corrections;
    println!("ladder         local apparent time     {}", clock(ladder.read_s));
    let mut running_s = ladder.read_s;
    for (name, step_s) in [
        ("equation of time", steps.to_mean_s),
        ("to zone meridian", steps.to_zone_s),
        ("summer time", steps.summer_s),
        ("rounding", ladder.rounding_s),
    ] {
        running_s += step_s;
        println!("               {name:<17}{:>7} {}", signed_clock(step_s), clock(running_s));
    }
    let rest = &ladder.residual;
    println!(
        "               true clock time  {:>7} {}",
        signed_clock(ladder.residual_s()),
        clock(ladder.true_clock_s)
    );
    println!(
        "               left over: division {:+.2} s, refraction {:+.2} s, alignment {:+.2} s, \
         rounding {:+.2} s, place {:+.2} s",
        rest.division_s, rest.refraction_s, rest.alignment_s, rest.rounding_s, rest.place_s
    );
}

fn tell_day(
    instrument: &Instrument,
    moment: &Moment,
    conditions: &Conditions,
    track: &mut SunTrack,
) -> Result<(), String> {
    let shift_min = instrument.clock_min(moment.instant);
    let local = moment.instant.civil() + chrono::TimeDelta::minutes(shift_min.into());
    let day = DayOutline::compute(instrument, local.date(), conditions, track)
        .map_err(|error| error.to_string())?;
    println!("day            {}", day.date);
    let shown = |instant: Option<Instant>| instant.map_or("none".into(), |i| i.to_string());
    println!("               rises {}", shown(day.events.rise));
    println!("               transit {}", shown(day.events.transit));
    println!("               sets {}", shown(day.events.set));
    for stretch in &day.stretches {
        println!(
            "               {} to {} apparent time: {:?}",
            clock(stretch.from_s),
            clock(stretch.to_s),
            stretch.kind
        );
    }
    if let Some(noon) = &day.noon {
        println!("noon           meridian {}", noon.meridian);
        println!(
            "               blind {:.1} s: {} to {}",
            noon.blind_s(),
            noon.blind.0,
            noon.blind.1
        );
        println!(
            "               no full shadow {:.1} s: {} to {}",
            noon.soft_s(),
            noon.soft.0,
            noon.soft.1
        );
    }
    Ok(())
}

fn tell_scale(instrument: &Instrument, moment: &Moment, rod_m: Option<f64>) -> Result<(), String> {
    let side = Side::at_hour_angle(moment.on_dial.hour_angle_rad);
    let disc = (moment.sun.semidiameter_rad, Pointer::FINGER_M);
    println!(
        "declination    {} in the dial's axes",
        signed_degrees(moment.on_dial.declination_rad)
    );
    for edge in AxialEnd::BOTH {
        let zero_m = graduation_m(instrument, edge, 0.0);
        println!("{edge:?} edge     scale zero at {zero_m:+.4} m on the style");
        for criterion in [Criterion::Middle, Criterion::LastTrace] {
            let place_m = place_for_edge_m(instrument, side, edge, criterion, moment.on_dial, disc);
            let reach =
                if on_style(instrument, place_m) { "" } else { " (the style is too short)" };
            println!(
                "               {criterion:?}: rod at {place_m:+.4} m reads {}{reach}",
                signed_degrees(scale_at(instrument, edge, place_m))
            );
        }
    }
    let Some(rod_m) = rod_m else { return Ok(()) };
    let rod = Pointer::new(instrument, rod_m, Pointer::FINGER_M).map_err(|e| e.to_string())?;
    let shadow = rod.shadow(instrument, side, &moment.disc());
    println!(
        "rod            at {rod_m:+.4} m: shadow at {:+.4} m, from {:+.4} to {:+.4} m, \
         covers {:.0} % of the Sun; rod {} thick",
        shadow.shadow_m,
        shadow.patch_m.0,
        shadow.patch_m.1,
        shadow.peak_cover * 100.0,
        length(&Words::english(), rod.diameter_m())
    );
    for edge in AxialEnd::BOTH {
        println!(
            "               scale of the {edge:?} edge reads {}",
            signed_degrees(scale_at(instrument, edge, rod_m))
        );
    }
    Ok(())
}

fn side_name(side: Side) -> &'static str {
    match side {
        Side::West => "western",
        Side::East => "eastern",
    }
}

fn why(reason: NoReading) -> String {
    match reason {
        NoReading::Night { altitude_rad } => {
            format!("night, the Sun is {} high", degrees(altitude_rad))
        }
        NoReading::SunUnderHorizon { altitude_rad } => {
            format!("the Sun is under the horizon, {} high", degrees(altitude_rad))
        }
        NoReading::BeyondQuadrantEnd { side, would_show_s } => format!(
            "the Sun is up, but above the end of the {} quadrant; its arc would show {}",
            side_name(side),
            clock(would_show_s)
        ),
        NoReading::Blind { from_noon_s } => {
            format!("the edge is {from_noon_s:+.1} s from XII, inside the blind interval")
        }
        NoReading::StyleTooShort { end, missing_m } => {
            format!(
                "the style is {} too short at its {end:?} end",
                length(&Words::english(), missing_m)
            )
        }
    }
}
