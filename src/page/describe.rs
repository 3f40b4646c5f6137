//! What each picture shows, in words, for those who don't see it; and what is announced.

use super::counted::spoken;
use super::reason;
use super::rod_panel;
use super::state::Shown;
use super::workings::Workings;
use crate::core::day::StretchKind;
use crate::core::instrument::Side;
use crate::core::ladder::clock_of;
use crate::core::penumbra::half_width_rad;
use crate::core::reading::{Reading, SECONDS_PER_RADIAN};
use crate::words::{Words, figures};

/// Keys of the eight winds, clockwise from north.
const WINDS: [&str; 8] = [
    "describe.wind.n",
    "describe.wind.ne",
    "describe.wind.e",
    "describe.wind.se",
    "describe.wind.s",
    "describe.wind.sw",
    "describe.wind.w",
    "describe.wind.nw",
];

/// What the dial reads, or why it reads nothing: the sentence that is announced.
#[must_use]
pub fn reading(words: &Words, workings: &Workings) -> String {
    match &workings.moment().reading {
        Ok(reading) => {
            let time = spoken(words, f64::from(reading.shown_s));
            words.fill(
                "describe.reading",
                &[("quadrant", quadrant(words, reading)), ("time", &time)],
            )
        }
        Err(why) => reason::sentence(words, workings, *why),
    }
}

/// The name of the quadrant that is read.
fn quadrant<'a>(words: &'a Words, reading: &Reading) -> &'a str {
    words.say(match reading.edge.side {
        Side::West => "describe.quadrant.west",
        Side::East => "describe.quadrant.east",
    })
}

/// The picture of the court.
#[must_use]
pub fn court(words: &Words, workings: &Workings, shown: &Shown) -> String {
    let from = super::labels::standpoint(words, shown.view.standpoint).to_lowercase();
    let name = super::labels::instrument(words, &shown.instrument);
    let (reading, sun) = (reading(words, workings), sun(words, workings));
    let values = [
        ("instrument", name.as_str()),
        ("from", from.as_str()),
        ("reading", reading.as_str()),
        ("sun", &sun),
    ];
    let court = words.fill("describe.court", &values);
    let guides: Vec<String> = shown
        .guides
        .iter()
        .map(|it| words.say(&format!("guide.{}", it.key())).to_owned())
        .collect();
    if guides.is_empty() {
        return court;
    }
    let guides = guides.join(words.say("figures.between"));
    words.fill("describe.court.guides", &[("court", &court), ("guides", &guides)])
}

/// Where the Sun stands.
fn sun(words: &Words, workings: &Workings) -> String {
    let seen = &workings.moment().sun.seen;
    let sector = (seen.azimuth_rad.to_degrees() / 45.0).round().rem_euclid(8.0) as usize;
    // The remainder by eight is below eight.
    let wind = words.say(WINDS[sector]).to_owned();
    let altitude = figures::degrees(seen.altitude_rad.abs());
    let key = if seen.altitude_rad >= 0.0 { "describe.sun.up" } else { "describe.sun.down" };
    words.fill(key, &[("altitude", &altitude), ("wind", &wind)])
}

/// The lens.
#[must_use]
pub fn lens(words: &Words, workings: &Workings, shown: &Shown) -> String {
    let (instrument, moment) = (workings.instrument(), workings.moment());
    let width_rad =
        2.0 * half_width_rad(moment.sun.semidiameter_rad, moment.on_dial.declination_rad);
    let smallest_s = f64::from(instrument.graduation().smallest_s());
    let division = figures::length(words, smallest_s / SECONDS_PER_RADIAN * instrument.radius_m());
    let mut text = words.fill(
        "describe.lens",
        &[
            ("penumbra", &figures::duration(words, width_rad * SECONDS_PER_RADIAN)),
            ("division", &figures::duration(words, smallest_s)),
            ("length", &division),
        ],
    );
    if let Ok(reading) = &moment.reading {
        let [mark, exact] = [f64::from(reading.shown_s), reading.exact_s].map(figures::clock);
        text.push(' ');
        text.push_str(&words.fill("describe.lens.edge", &[("exact", &exact), ("mark", &mark)]));
        if shown.limits {
            text.push(' ');
            let half_s = width_rad / 2.0 * SECONDS_PER_RADIAN;
            text.push_str(&limits(words, reading, half_s));
        }
    }
    if let Some(lens_s) = shown.lens_s {
        text.push(' ');
        text.push_str(&words.fill("describe.lens.moved", &[("time", &figures::clock(lens_s))]));
    }
    text
}

/// Where the limits of the soft edge stand; on either quadrant the light lies away from the wall.
fn limits(words: &Words, reading: &Reading, half_s: f64) -> String {
    let outwards_s = reading.edge.side.sign() * half_s;
    let [outer, umbra] =
        [reading.exact_s + outwards_s, reading.exact_s - outwards_s].map(figures::clock);
    words.fill("describe.lens.limits", &[("outer", &outer), ("umbra", &umbra)])
}

/// The day strip.
#[must_use]
pub fn day(words: &Words, workings: &Workings) -> String {
    let day = workings.day();
    let clock = |at| figures::clock(clock_of(workings.instrument(), at));
    let mut parts: Vec<String> = Vec::new();
    match (day.events.rise, day.events.set) {
        (Some(rise), Some(set)) => parts
            .push(words.fill("describe.day.sun", &[("rise", &clock(rise)), ("set", &clock(set))])),
        _ if day.stretches.is_empty() => parts.push(words.say("describe.day.never-up").to_owned()),
        _ => parts.push(words.say("describe.day.never-down").to_owned()),
    }
    for stretch in &day.stretches {
        let key = match stretch.kind {
            StretchKind::West => "describe.day.west",
            StretchKind::East => "describe.day.east",
            StretchKind::Blind => "describe.day.blind",
            StretchKind::BeyondEnd => "describe.day.beyond-end",
            StretchKind::StyleTooShort => "describe.day.style-too-short",
        };
        let [from, to] = [stretch.from_s, stretch.to_s].map(figures::clock);
        parts.push(words.fill(key, &[("from", &from), ("to", &to)]));
    }
    parts.join(" ")
}

/// The year strip.
#[must_use]
pub fn year(words: &Words, workings: &Workings) -> String {
    let declination = figures::signed_degrees(workings.moment().sun.sun.declination_rad);
    words.fill("describe.year", &[("declination", &declination)])
}

/// The close view of the declination scale.
#[must_use]
pub fn scale(words: &Words, workings: &Workings, shown: &Shown) -> String {
    let Some(rod) = shown.rod else { return String::new() };
    let panel = rod_panel::panel(words, workings, &rod, shown.least_cover);
    let values = [
        ("scale", panel.scale.as_str()),
        ("read", &panel.read),
        ("true", &panel.truth),
        ("why", &panel.sentence),
        ("eye", &panel.eye[0]),
    ];
    words.fill("describe.scale", &values)
}
