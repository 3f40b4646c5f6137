//! A quantity of an instrument as a person writes it: `2.9`, `31° 36′ N`, `+03:30`.

use std::str::FromStr;

use crate::core::decimal;
use crate::core::field::{FieldError, quoted};
use crate::core::instrument::{InstrumentSpec, Kind, Quantity};
use crate::core::time::CivilOffset;

/// Reads what is typed; the value is in the file's unit.
///
/// # Errors
/// When it is no such quantity at all, told with the range beside the other values of `spec`.
pub fn parse(quantity: &Quantity, text: &str, spec: &InstrumentSpec) -> Result<f64, FieldError> {
    let value = match quantity.kind {
        Kind::Plain => number(text).map(|number| number / quantity.per_file_unit),
        Kind::Latitude => angle(text, ['n', 's']),
        Kind::Longitude => angle(text, ['e', 'w']),
        Kind::Offset => offset(text),
    };
    value.ok_or_else(|| {
        let form = match quantity.kind {
            Kind::Plain => "",
            Kind::Latitude => ", like 31.6 or 31 36 00 N",
            Kind::Longitude => ", like 48.35 or 48 21 00 E",
            Kind::Offset => ", like +03:30",
        };
        FieldError::new(quantity.name, quoted(text), quantity.allowed(spec) + form)
    })
}

/// Writes a value of the file's unit as a person would, without its unit.
#[must_use]
pub fn written(quantity: &Quantity, value: f64) -> String {
    match quantity.kind {
        // In range, as an instrument has it.
        Kind::Offset => CivilOffset::from_minutes(value as i32).unwrap_or_default().to_string(),
        _ => ((value * quantity.per_file_unit * 1e9).round() / 1e9).to_string(),
    }
}

/// An angle in degrees, minutes and seconds: `31° 36′ 00″ N`.
#[must_use]
pub fn degrees_minutes_seconds(quantity: &Quantity, degrees: f64) -> String {
    let letter = match (quantity.kind, degrees < 0.0) {
        (Kind::Latitude, false) => 'N',
        (Kind::Latitude, true) => 'S',
        (_, false) => 'E',
        (_, true) => 'W',
    };
    let tenths = (degrees.abs() * 36_000.0).round() as u64;
    let (seconds, tenth) = (tenths / 10, tenths % 10);
    let (whole, minutes, seconds) = (seconds / 3600, seconds / 60 % 60, seconds % 60);
    let fraction = if tenth == 0 { String::new() } else { format!(".{tenth}") };
    format!("{whole}° {minutes:02}′ {seconds:02}{fraction}″ {letter}")
}

/// A number with a point or a comma, either minus, and the digits of any language.
fn number(text: &str) -> Option<f64> {
    let plain = decimal::with_ascii_digits(text.trim()).replace('−', "-").replace([',', '٫'], ".");
    decimal::parse(&plain)
}

/// Degrees, perhaps minutes and seconds, perhaps a letter for the side.
fn angle(text: &str, sides: [char; 2]) -> Option<f64> {
    let text = text.trim().to_ascii_lowercase();
    let side = text.chars().next_back().filter(|last| sides.contains(last));
    let plain = side.map_or(text.as_str(), |side| text.trim_end_matches(side));
    let marks = |c: char| c.is_whitespace() || "°ºd′'’m″\"”:".contains(c);
    let parts: Option<Vec<f64>> =
        plain.split(marks).filter(|part| !part.is_empty()).map(number).collect();
    let parts = parts?;
    let negative = plain.trim_start().starts_with(['-', '−']);
    let below_sixty = parts.iter().skip(1).all(|part| (0.0..60.0).contains(part));
    let whole_but_last = parts.iter().rev().skip(1).all(|part| part.fract() == 0.0);
    if !(1..=3).contains(&parts.len()) || !below_sixty || !whole_but_last {
        return None;
    }
    // A letter and a sign at once would be a riddle.
    if negative && side.is_some() {
        return None;
    }
    let size = parts.iter().rev().fold(0.0, |sum, part| sum / 60.0 + part.abs());
    Some(if negative || side == Some(sides[1]) { -size } else { size })
}

/// An offset in minutes, from `+03:30`, `UTC-5` or `3:30`.
fn offset(text: &str) -> Option<f64> {
    let upper = decimal::with_ascii_digits(text.trim()).to_ascii_uppercase();
    let plain = upper.strip_prefix("UTC").unwrap_or(&upper).trim();
    let (sign, size) = match plain.chars().next()? {
        '+' => ('+', plain.get(1..)?),
        '-' => ('-', plain.get(1..)?),
        '−' => ('-', plain.strip_prefix('−')?),
        _ => ('+', plain),
    };
    let (hours, minutes) = size.split_once(':').unwrap_or((size, "00"));
    let padded = format!("{sign}{hours:0>2}:{minutes}");
    let offset = CivilOffset::from_str(&padded).ok()?;
    Some(offset.minutes().into())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::core::instrument::PRESETS;

    fn read(path: &str, text: &str) -> Option<f64> {
        let Some(quantity) = Quantity::by_path(path) else { panic!("{path} is a quantity") };
        parse(quantity, text, &PRESETS[0].spec()).ok()
    }

    #[test]
    fn latitudes_are_read_as_people_write_them() {
        for text in [
            "31.6",
            "31,6",
            "31.6 N",
            "31 36 0 N",
            "31°36′",
            "31° 36' 00\" n",
            "31:36:00",
            "31°36.0′N",
        ] {
            let value = read("site.latitude_deg", text);
            assert!(value.is_some_and(|it| (it - 31.6).abs() < 1e-12), "{text}: {value:?}");
        }
        for text in ["-34.2", "−34.2", "34.2 S", "34 12 S", "-34 12 00"] {
            let value = read("site.latitude_deg", text);
            assert!(value.is_some_and(|it| (it + 34.2).abs() < 1e-12), "{text}: {value:?}");
        }
        for text in ["", "N", "31 60", "31.5 20", "1 2 3 4", "-31 S", "31 E", "north", "nan", "inf"]
        {
            assert_eq!(read("site.latitude_deg", text), None, "{text}");
        }
        assert_eq!(read("site.longitude_deg", "77 6 0 W"), Some(-77.1));
    }

    #[test]
    fn what_is_written_is_read_again() {
        for preset in &PRESETS {
            let spec = preset.spec();
            for quantity in &crate::core::instrument::QUANTITIES {
                let value = quantity.get(&spec);
                let text = written(quantity, value);
                assert_eq!(parse(quantity, &text, &spec).ok(), Some(value), "{}", quantity.path);
            }
        }
        let Some(latitude) = Quantity::by_path("site.latitude_deg") else { panic!("a quantity") };
        assert_eq!(degrees_minutes_seconds(latitude, -34.2), "34° 12′ 00″ S");
        assert_eq!(degrees_minutes_seconds(latitude, 31.123_45), "31° 07′ 24.4″ N");
    }

    #[test]
    fn offsets_and_lengths_in_people_s_units() {
        assert_eq!(read("clock.zone_offset_min", "UTC+3:30"), Some(210.0));
        assert_eq!(read("clock.zone_offset_min", "−5"), Some(-300.0));
        assert_eq!(read("clock.zone_offset_min", "15:00"), None);
        assert_eq!(read("quadrants.foot_gap_m", "25"), Some(0.025));
        let Some(radius) = Quantity::by_path("quadrants.radius_m") else { panic!("a quantity") };
        let told = parse(radius, "wide", &PRESETS[0].spec()).err().map(|it| it.to_string());
        assert_eq!(told.as_deref(), Some("radius is “wide”; it must be from 0.05 to 50 m"));
    }
}
