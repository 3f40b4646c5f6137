//! What is shown, as the part of the page's address after `#`: `i=great&t=2026-06-21T08:00:00Z`.
//! An instrument of the person's own travels whole, as `dial=` and what its file holds.
//!
//! Only what differs from a first visit is written. A field that can't be used is refused with a
//! reason and keeps its last good value; all others are taken.

use std::rc::Rc;
use std::str::FromStr;

use glam::DVec2;

use super::choice::Choice;
use super::rod::{MOST_COVER, Rod, THICKNESSES_M};
use super::speed::Speed;
use super::state::Shown;
use super::travel::{POLES_DEG, Travel, Way};
use super::view::{View, ZOOM};
use crate::core::decimal;
use crate::core::field::{FieldError, in_range, quoted};
use crate::core::instrument::file::{self, Layout};
use crate::core::instrument::{PRESETS, Preset};
use crate::core::ladder::Rounding;
use crate::core::light::LimbDarkening;
use crate::core::pointer::Pointer;
use crate::core::time::Instant;
use crate::scene::camera::Standpoint;
use crate::scene::guide::{Guide, GuideSet};
use crate::scene::palette::Theme;

/// The fields, in the order in which they are written.
const FIELDS: [&str; 21] = [
    "i",
    "dial",
    "travel",
    "travel-as",
    "t",
    "air",
    "limb",
    "round",
    "theme",
    "speed",
    "view",
    "turn",
    "zoom",
    "show",
    "lens",
    "limits",
    "noon",
    "rod",
    "rod-mm",
    "eye",
    PRESENT,
];
/// The field of a page that presents: of the page, not of what it shows.
const PRESENT: &str = "present";
const PRESENT_ON: &str = "present=1";
/// The longest address that is looked at, bytes.
const LONGEST: usize = 4000;
/// Where a rod may be, metres; the instrument narrows it further.
const ANY_STYLE_M: (f64, f64) = (-1000.0, 1000.0);

/// What came out of an address.
#[derive(Clone, Debug)]
pub struct Read {
    /// What to show.
    pub shown: Shown,
    /// Whether the page is to present it.
    pub presenting: bool,
    /// What could not be used, and why.
    pub refused: Vec<FieldError>,
}

/// Reads an address, with or without its `#`. `last` is what was shown before.
#[must_use]
pub fn read(text: &str, last: &Shown) -> Read {
    let text = text.strip_prefix('#').unwrap_or(text);
    let mut read = Read { shown: Shown::first(), presenting: false, refused: Vec::new() };
    read.shown.shelf = last.shelf.clone();
    if text.len() > LONGEST {
        let given = format!("{} bytes long", text.len());
        read.refused.push(FieldError::new("address", given, "4000 bytes long at most"));
        read.shown = last.clone();
        return read;
    }
    for part in text.split('&').filter(|part| !part.is_empty()) {
        let (key, value) = part.split_once('=').unwrap_or((part, ""));
        let value = decoded(value);
        if key == "dial" {
            let own = file::read(&value).map(|spec| Choice::Own(Rc::new(spec)));
            read.refused.extend(
                put(&mut read.shown.instrument, &last.instrument, own).err().unwrap_or_default(),
            );
        } else if key == PRESENT {
            read.presenting = value == "1";
            if value != "1" && value != "0" {
                let allowed = one_of(["1", "0"]);
                read.refused.push(FieldError::new(PRESENT, quoted(&value), allowed));
            }
        } else if let Err(refused) = take(&mut read.shown, last, key, &value) {
            read.refused.push(refused);
        }
    }
    read
}

/// Takes one field, or puts its last good value in its place.
fn take(shown: &mut Shown, last: &Shown, key: &str, value: &str) -> Result<(), FieldError> {
    match key {
        "i" => put(&mut shown.instrument, &last.instrument, preset(value).map(Choice::BuiltIn)),
        "travel" => {
            let latitude = number("latitude of the journey (travel)", value, POLES_DEG, "°");
            let before = shown.travel.unwrap_or(Travel::at_home(&shown.instrument));
            let travel = latitude.map(|latitude_deg| Some(Travel { latitude_deg, ..before }));
            put(&mut shown.travel, &last.travel, travel)
        }
        "travel-as" => {
            let travel = shown.travel.unwrap_or(Travel::at_home(&shown.instrument));
            let refused = || {
                FieldError::new(
                    "way of travelling (travel-as)",
                    quoted(value),
                    one_of(Way::ALL.map(Way::key)),
                )
            };
            let way = Way::by_key(value).ok_or_else(refused);
            put(&mut shown.travel, &last.travel, way.map(|way| Some(Travel { way, ..travel })))
        }
        "t" => put(&mut shown.instant, &last.instant, instant(value)),
        "air" => put(&mut shown.refraction, &last.refraction, switch("refraction (air)", value)),
        "limb" => put(&mut shown.limb, &last.limb, limb(value)),
        "round" => put(&mut shown.rounding, &last.rounding, rounding(value)),
        "theme" => put(&mut shown.theme, &last.theme, theme(value)),
        "speed" => put(&mut shown.speed, &last.speed, speed(value)),
        "view" => put(&mut shown.view.standpoint, &last.view.standpoint, standpoint(value)),
        "turn" => put(&mut shown.view.turn_rad, &last.view.turn_rad, turn(value)),
        "zoom" => {
            let mut zoomed = (shown.view.zoom, shown.view.about);
            let outcome = put(&mut zoomed, &(last.view.zoom, last.view.about), zoom(value));
            (shown.view.zoom, shown.view.about) = zoomed;
            outcome
        }
        "show" => put(&mut shown.guides, &last.guides, guides(value)),
        "lens" => put(&mut shown.lens_s, &last.lens_s, lens(value).map(Some)),
        "limits" => {
            put(&mut shown.limits, &last.limits, switch("limits of the soft edge (limits)", value))
        }
        "noon" => put(&mut shown.noon, &last.noon, switch("pass through noon (noon)", value)),
        "rod" => {
            let place = number("place of the rod (rod)", value, ANY_STYLE_M, "m");
            let rod = place.map(|axial_m| Some(Rod { axial_m, ..held(shown.rod) }));
            put(&mut shown.rod, &last.rod, rod)
        }
        "rod-mm" => {
            let (thinnest, thickest) = Pointer::DIAMETER_M;
            let limits = (thinnest * 1000.0, thickest * 1000.0);
            let rod = number("thickness of the rod (rod-mm)", value, limits, "mm")
                .map(|mm| Some(Rod { diameter_m: mm / 1000.0, ..held(shown.rod) }));
            put(&mut shown.rod, &last.rod, rod)
        }
        "eye" => {
            let limits = (0.0, MOST_COVER * 100.0);
            let seen = number("what the eye sees (eye)", value, limits, "%");
            put(&mut shown.least_cover, &last.least_cover, seen.map(|per_cent| per_cent / 100.0))
        }
        _ => Err(FieldError::new("the name of a field", quoted(&decoded(key)), one_of(FIELDS))),
    }
}

/// Sets a field, or keeps its last good value and passes the refusal on.
fn put<T: Clone, E>(field: &mut T, last: &T, value: Result<T, E>) -> Result<(), E> {
    match value {
        Ok(value) => {
            *field = value;
            Ok(())
        }
        Err(refused) => {
            *field = last.clone();
            Err(refused)
        }
    }
}

/// The rod that is held, or a finger at the middle.
fn held(rod: Option<Rod>) -> Rod {
    rod.unwrap_or(Rod { axial_m: 0.0, diameter_m: THICKNESSES_M[2] })
}

fn preset(value: &str) -> Result<&'static Preset, FieldError> {
    let refused =
        || FieldError::new("instrument (i)", quoted(value), one_of(PRESETS.map(|p| p.key)));
    Preset::by_key(value).ok_or_else(refused)
}

fn instant(value: &str) -> Result<Instant, FieldError> {
    Instant::from_str(value).map_err(|_| {
        let allowed = "an instant like 2026-10-18T06:24:34Z, from 1700 to 2200";
        FieldError::new("instant (t)", quoted(value), allowed)
    })
}

fn switch(field: &'static str, value: &str) -> Result<bool, FieldError> {
    match value {
        "on" => Ok(true),
        "off" => Ok(false),
        _ => Err(FieldError::new(field, quoted(value), one_of(["on", "off"]))),
    }
}

fn limb(value: &str) -> Result<LimbDarkening, FieldError> {
    match value {
        "even" => Ok(LimbDarkening::Uniform),
        "dark" => Ok(LimbDarkening::Linear),
        _ => {
            Err(FieldError::new("limb of the Sun (limb)", quoted(value), one_of(["even", "dark"])))
        }
    }
}

fn rounding(value: &str) -> Result<Rounding, FieldError> {
    match value {
        "none" => Ok(Rounding::None),
        "minute" => Ok(Rounding::Minute),
        _ => Err(FieldError::new("rounding (round)", quoted(value), one_of(["none", "minute"]))),
    }
}

fn theme(value: &str) -> Result<Theme, FieldError> {
    let refused =
        || FieldError::new("light (theme)", quoted(value), one_of(Theme::ALL.map(Theme::key)));
    Theme::ALL.into_iter().find(|theme| theme.key() == value).ok_or_else(refused)
}

fn speed(value: &str) -> Result<Speed, FieldError> {
    let refused = || FieldError::new("speed", quoted(value), one_of(Speed::ALL.map(Speed::key)));
    Speed::by_key(value).ok_or_else(refused)
}

fn standpoint(value: &str) -> Result<Standpoint, FieldError> {
    let keys = || one_of(Standpoint::ALL.map(Standpoint::key));
    let found = Standpoint::ALL.into_iter().find(|standpoint| standpoint.key() == value);
    found.ok_or_else(|| FieldError::new("standpoint (view)", quoted(value), keys()))
}

/// Guides with commas between.
fn guides(value: &str) -> Result<GuideSet, FieldError> {
    let found = value
        .split(',')
        .try_fold(GuideSet::default(), |set, key| Some(set.with(Guide::by_key(key)?, true)));
    let allowed = || format!("some of {}", Guide::ALL.map(Guide::key).join(", "));
    found.ok_or_else(|| FieldError::new("guides (show)", quoted(value), allowed()))
}

/// Degrees to the right and upwards.
fn turn(value: &str) -> Result<DVec2, FieldError> {
    let allowed = "two numbers of degrees from -180 to 180, like 12.5,-3";
    let refused = || FieldError::new("turn", quoted(value), allowed);
    let [right, up] = numbers(value).ok_or_else(refused)?;
    let half_turn = (-180.0, 180.0);
    in_range("turn", right, half_turn, "°")?;
    in_range("turn", up, half_turn, "°")?;
    Ok(DVec2::new(right.to_radians(), up.to_radians()))
}

/// A factor, and the point that stands still, in hundredths of the picture from its middle.
fn zoom(value: &str) -> Result<(f64, DVec2), FieldError> {
    let allowed = "a factor and a place, like 2.5,10,-20";
    let refused = || FieldError::new("zoom", quoted(value), allowed);
    let [zoom, x, y] = numbers(value).ok_or_else(refused)?;
    in_range("zoom", zoom, ZOOM, "times")?;
    let place = (-10_000.0, 10_000.0);
    in_range("zoom", x, place, "%")?;
    in_range("zoom", y, place, "%")?;
    Ok((zoom, DVec2::new(x, y) / 100.0))
}

/// So many numbers with commas between.
fn numbers<const N: usize>(value: &str) -> Option<[f64; N]> {
    let numbers: Option<Vec<f64>> = value.split(',').map(decimal::parse).collect();
    numbers?.try_into().ok()
}

/// The middle of the lens, written as a time of day.
fn lens(value: &str) -> Result<f64, FieldError> {
    let refused = || {
        FieldError::new(
            "place of the lens (lens)",
            quoted(value),
            "a time from 06:00:00 to 18:00:00",
        )
    };
    let time = super::typed::time(value).map_err(|_| refused())?;
    let seconds = f64::from(chrono::Timelike::num_seconds_from_midnight(&time));
    if (21_600.0..=64_800.0).contains(&seconds) { Ok(seconds) } else { Err(refused()) }
}

fn number(
    field: &'static str,
    value: &str,
    limits: (f64, f64),
    unit: &str,
) -> Result<f64, FieldError> {
    let refused = || {
        let (min, max) = limits;
        FieldError::new(field, quoted(value), format_args!("from {min} to {max} {unit}"))
    };
    in_range(field, decimal::parse(value).ok_or_else(refused)?, limits, unit)
}

/// "one of a, b or c".
fn one_of<const N: usize>(keys: [&str; N]) -> String {
    format!("one of {}", keys.join(", "))
}

/// Turns `%2F` and the like back into letters.
fn decoded(text: &str) -> String {
    let bytes = text.as_bytes();
    let mut plain = Vec::with_capacity(bytes.len());
    let mut rest = bytes;
    while let [first, after @ ..] = rest {
        let byte = match after {
            [high, low, ..] if *first == b'%' => hex(*high, *low),
            _ => None,
        };
        plain.push(byte.unwrap_or(*first));
        rest = if byte.is_some() { after.get(2..).unwrap_or_default() } else { after };
    }
    String::from_utf8_lossy(&plain).into_owned()
}

/// The byte of two hexadecimal digits.
fn hex(high: u8, low: u8) -> Option<u8> {
    let digit = |byte| char::from(byte).to_digit(16).and_then(|digit| u8::try_from(digit).ok());
    Some(digit(high)? * 16 + digit(low)?)
}

/// Puts what could be taken for another part of an address as `%2F` and the like.
#[must_use]
pub fn encoded(text: &str) -> String {
    let mut safe = String::with_capacity(text.len() * 2);
    for byte in text.bytes() {
        match byte {
            b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' | b'-' | b'_' | b'.' | b'~' | b',' | b':' => {
                safe.push(byte.into());
            }
            other => {
                safe.push('%');
                for digit in [other >> 4, other & 15] {
                    // Half a byte is one hexadecimal digit.
                    safe.extend(char::from_digit(digit.into(), 16));
                }
            }
        }
    }
    safe
}

/// Writes what a page shows, and whether it presents it.
#[must_use]
pub fn of_page(shown: &Shown, presenting: bool) -> String {
    let address = write(shown);
    match (address.as_str(), presenting) {
        (_, false) => address,
        ("", true) => PRESENT_ON.to_owned(),
        (_, true) => address + "&" + PRESENT_ON,
    }
}

/// Writes what differs from a first visit; empty when nothing does.
#[must_use]
pub fn write(shown: &Shown) -> String {
    let first = Shown::first();
    let mut fields: Vec<(&str, String)> = Vec::new();
    let mut when = |differs: bool, key, value: String| {
        if differs {
            fields.push((key, value));
        }
    };
    if shown.instrument != first.instrument {
        match &shown.instrument {
            Choice::BuiltIn(preset) => when(true, "i", preset.key.to_owned()),
            Choice::Own(spec) => when(true, "dial", encoded(&file::write(spec, Layout::Compact))),
        }
    }
    if let Some(Travel { latitude_deg, way }) = shown.travel {
        when(true, "travel", short(latitude_deg, 5));
        when(way != Way::default(), "travel-as", way.key().to_owned());
    }
    when(shown.instant != first.instant, "t", shown.instant.to_string());
    when(shown.refraction != first.refraction, "air", "off".to_owned());
    when(shown.limb != first.limb, "limb", "dark".to_owned());
    when(shown.rounding != first.rounding, "round", "minute".to_owned());
    when(shown.theme != first.theme, "theme", shown.theme.key().to_owned());
    when(shown.speed != first.speed, "speed", shown.speed.key().to_owned());
    let View { standpoint, turn_rad, zoom, about } = shown.view;
    when(standpoint != first.view.standpoint, "view", standpoint.key().to_owned());
    let degrees = |angle: f64| short(angle.to_degrees(), 1);
    let turn = format!("{},{}", degrees(turn_rad.x), degrees(turn_rad.y));
    when(turn != "0,0", "turn", turn);
    let place = about * 100.0;
    let zoomed = format!("{},{},{}", short(zoom, 3), short(place.x, 1), short(place.y, 1));
    when(zoom != 1.0, "zoom", zoomed);
    let guides: Vec<&str> = shown.guides.iter().map(Guide::key).collect();
    when(!guides.is_empty(), "show", guides.join(","));
    if let Some(lens_s) = shown.lens_s {
        when(true, "lens", crate::words::figures::clock(lens_s));
    }
    when(shown.limits, "limits", "on".to_owned());
    when(shown.noon, "noon", "on".to_owned());
    if let Some(rod) = shown.rod {
        when(true, "rod", short(rod.axial_m, 4));
        when(true, "rod-mm", short(rod.diameter_m * 1000.0, 2));
    }
    let eye = short(shown.least_cover * 100.0, 2);
    when(eye != short(first.least_cover * 100.0, 2), "eye", eye);
    let fields: Vec<String> = fields.iter().map(|(key, value)| format!("{key}={value}")).collect();
    fields.join("&")
}

/// A number with so many decimals at most.
fn short(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    let text = if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.')
    } else {
        text.as_str()
    };
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    /// The sentences of what an address could not say.
    fn refused(text: &str) -> Vec<String> {
        read(text, &Shown::first()).refused.iter().map(ToString::to_string).collect()
    }

    #[test]
    fn a_first_visit_has_no_address_and_no_address_is_a_first_visit() {
        assert_eq!(write(&Shown::first()), "");
        for text in ["", "#", "#&&"] {
            let read = read(text, &Shown::first());
            assert_eq!(read.shown, Shown::first());
            assert!(read.refused.is_empty());
        }
    }

    #[test]
    fn what_is_written_is_read_again() {
        let text = "i=great&travel=-33.5&travel-as=carried&t=2030-06-21T09:00:00Z&air=off&limb=dark&round=minute&theme=night\
                    &speed=hour&view=steps&turn=12.5,-3&zoom=2.5,10,-20&show=axis,paths&lens=9:52:40&limits=on\
                    &noon=on&rod=-0.4321&rod-mm=8&eye=12.5";
        let once = read(text, &Shown::first());
        assert!(once.refused.is_empty(), "{:?}", once.refused);
        assert_eq!(write(&once.shown), text);
        let encoded = text.replace(':', "%3A");
        assert_eq!(read(&encoded, &Shown::first()).shown, once.shown);
    }

    #[test]
    fn a_bad_field_is_named_with_its_value_and_range_and_the_others_are_taken() {
        let mut last = Shown::first();
        last.theme = Theme::Glare;
        let read = read("#i=great&theme=pink&t=1650-01-01T00:00:00Z&rod-mm=900", &last);
        assert_eq!(read.shown.instrument, Choice::BuiltIn(&PRESETS[1]));
        assert_eq!(read.shown.theme, Theme::Glare);
        assert_eq!(read.shown.instant, last.instant);
        assert_eq!(read.shown.rod, None);
        let told: Vec<String> = read.refused.iter().map(ToString::to_string).collect();
        assert_eq!(
            told,
            [
                "light (theme) is “pink”; it must be one of day, night, glare",
                "instant (t) is “1650-01-01T00:00:00Z”; it must be an instant like 2026-10-18T06:24:34Z, \
                 from 1700 to 2200",
                "thickness of the rod (rod-mm) is 900 mm; it must be from 1 to 200 mm",
            ]
        );
    }

    #[test]
    fn each_field_of_the_light_lessons_tells_what_it_can_be() {
        for (text, told) in [
            ("eye=31", "what the eye sees (eye) is 31 %; it must be from 0 to 30 %"),
            ("eye=much", "what the eye sees (eye) is “much”; it must be from 0 to 30 %"),
            ("limb=red", "limb of the Sun (limb) is “red”; it must be one of even, dark"),
            ("limits=yes", "limits of the soft edge (limits) is “yes”; it must be one of on, off"),
            (
                "show=axis,moon",
                "guides (show) is “axis,moon”; it must be some of axis, equator, horizon, latitude, \
                 paths, hour, declination, cone",
            ),
            ("travel=91", "latitude of the journey (travel) is 91 °; it must be from -90 to 90 °"),
            ("travel=up", "latitude of the journey (travel) is “up”; it must be from -90 to 90 °"),
            (
                "travel-as=flown",
                "way of travelling (travel-as) is “flown”; it must be one of built, carried",
            ),
            ("present=yes", "present is “yes”; it must be one of 1, 0"),
            ("noon=", "pass through noon (noon) is “”; it must be one of on, off"),
        ] {
            assert_eq!(refused(text), [told]);
        }
        let read = read("eye=0&limb=even&limits=off&noon=off", &Shown::first());
        assert_eq!(write(&read.shown), "eye=0");
    }

    #[test]
    fn an_unknown_field_is_named_beside_those_there_are() {
        let told = refused("size=3");
        assert_eq!(told.len(), 1);
        assert!(
            told[0]
                .starts_with("the name of a field is “size”; it must be one of i, dial, travel,"),
            "{}",
            told[0]
        );
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(10_000))]

        #[test]
        fn no_text_breaks_the_page(text in "\\PC{0,80}|([a-z-]{1,7}=[-0-9a-zA-Z.:,%+]{0,24}&){0,6}") {
            let read = read(&text, &Shown::first());
            let again = super::read(&write(&read.shown), &Shown::first());
            prop_assert!(again.refused.is_empty(), "{:?}", again.refused);
        }

        #[test]
        fn no_value_of_a_known_field_breaks_the_page(field in 0..FIELDS.len(), value in ".{0,40}") {
            let read = read(&format!("{}={value}", FIELDS[field]), &Shown::first());
            let again = super::read(&write(&read.shown), &Shown::first());
            prop_assert!(again.refused.is_empty(), "{:?}", again.refused);
        }
    }
}
