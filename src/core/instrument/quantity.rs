//! Every number that describes an instrument: where it stands in a file, its unit, its range and
//! its step. One table serves the file, what is typed, and the check of an instrument.

use super::{EndFaces, Graduation, InstrumentSpec};
use crate::core::field::{FieldError, quoted};

/// Longest style, in radii of the quadrants.
const LONGEST_STYLE_R: f64 = 40.0;
/// Largest radius, metres.
const MOST_RADIUS_M: f64 = 50.0;
/// Shortest half of a style that carries anything, metres; a plumb end asks for more.
const SHORTEST_STYLE_M: f64 = 0.01;
/// Longest name, characters.
const LONGEST_NAME: usize = 80;

/// How a quantity is written by a person.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A number.
    Plain,
    /// Degrees north or south, perhaps with minutes and seconds.
    Latitude,
    /// Degrees east or west, perhaps with minutes and seconds.
    Longitude,
    /// Whole minutes, as `±hh:mm`.
    Offset,
}

/// A number of the description.
#[derive(Debug)]
pub struct Quantity {
    /// Group and name in a file, with the file's unit: `quadrants.radius_m`.
    pub path: &'static str,
    /// What it is called in a sentence.
    pub name: &'static str,
    /// The unit in which people give it.
    pub unit: &'static str,
    /// How many of that unit make one of the file's.
    pub per_file_unit: f64,
    /// How it is written.
    pub kind: Kind,
    /// The widest range there is, in the file's unit; the other values may narrow it.
    pub range: (f64, f64),
    /// A sensible step, in the unit people use.
    pub step: f64,
    /// What it is when a file does not say, in the file's unit.
    pub usual: Option<f64>,
    place: Place,
}

/// How a number of the description is read and written.
#[derive(Debug)]
struct Place {
    read: fn(&InstrumentSpec) -> f64,
    write: fn(&mut InstrumentSpec, f64),
}

/// What a quantity may be beside the others, in the file's unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limits {
    /// The least value.
    pub min: f64,
    /// The greatest value.
    pub max: f64,
    /// What else would help, as the end of a sentence.
    pub or: &'static str,
}

/// The place of a field of the description.
macro_rules! place {
    ($($field:ident).+) => {
        Place { read: |spec| spec.$($field).+, write: |spec, value| spec.$($field).+ = value }
    };
}

/// A row of the table.
const fn row(
    path: &'static str,
    name: &'static str,
    (unit, per_file_unit): (&'static str, f64),
    range: (f64, f64),
    (step, usual): (f64, Option<f64>),
    place: Place,
) -> Quantity {
    Quantity { path, name, unit, per_file_unit, kind: Kind::Plain, range, step, usual, place }
}

const METRES: (&str, f64) = ("m", 1.0);
const MILLIMETRES: (&str, f64) = ("mm", 1000.0);
const DEGREES: (&str, f64) = ("°", 1.0);
const ARCMINUTES: (&str, f64) = ("′", 60.0);
const ZERO: Option<f64> = Some(0.0);
const MOST_STYLE_M: f64 = LONGEST_STYLE_R * MOST_RADIUS_M;

/// Every quantity; what others must fit comes before them.
#[rustfmt::skip]
pub static QUANTITIES: [Quantity; 17] = [
    Quantity {
        kind: Kind::Latitude,
        ..row("site.latitude_deg", "latitude", DEGREES, (-90.0, 90.0), (0.01, None), place!(latitude_deg))
    },
    Quantity {
        kind: Kind::Longitude,
        ..row("site.longitude_deg", "longitude", DEGREES, (-180.0, 180.0), (0.01, None), place!(longitude_deg))
    },
    row("site.elevation_m", "height of the site", METRES, (-500.0, 9000.0), (10.0, ZERO), place!(elevation_m)),
    Quantity {
        kind: Kind::Offset,
        ..row("clock.zone_offset_min", "zone offset", ("min", 1.0), (-720.0, 840.0), (15.0, None),
            Place { read: |spec| spec.zone_offset_min.into(), write: |spec, value| spec.zone_offset_min = value as i32 })
    },
    row("quadrants.radius_m", "radius", METRES, (0.05, MOST_RADIUS_M), (0.05, None), place!(radius_m)),
    row("quadrants.breadth_m", "quadrant breadth", METRES, (0.01, 20.0), (0.01, None), place!(breadth_m)),
    row("quadrants.plinth_m", "plinth", METRES, (0.0, 50.0), (0.05, None), place!(plinth_m)),
    row("quadrants.foot_gap_m", "foot gap", MILLIMETRES, (0.0, MOST_RADIUS_M / 4.0), (1.0, ZERO), place!(foot_gap_m)),
    row("gnomon.wall_thickness_m", "wall thickness", METRES, (0.001, 20.0), (0.01, None), place!(wall_thickness_m)),
    row("gnomon.style_south_m", "style's south end", METRES, (-MOST_STYLE_M, 0.0), (0.05, None), place!(style_south_m)),
    row("gnomon.style_north_m", "style's north end", METRES, (0.0, MOST_STYLE_M), (0.05, None), place!(style_north_m)),
    row("alignment.gnomon_azimuth_deg", "gnomon azimuth error", ARCMINUTES, (-5.0, 5.0), (1.0, ZERO), place!(alignment.gnomon_azimuth_deg)),
    row("alignment.gnomon_altitude_deg", "gnomon altitude error", ARCMINUTES, (-5.0, 5.0), (1.0, ZERO), place!(alignment.gnomon_altitude_deg)),
    row("alignment.west_zero_deg", "west quadrant's zero error", ARCMINUTES, (-5.0, 5.0), (1.0, ZERO), place!(alignment.west_zero_deg)),
    row("alignment.east_zero_deg", "east quadrant's zero error", ARCMINUTES, (-5.0, 5.0), (1.0, ZERO), place!(alignment.east_zero_deg)),
    row("alignment.west_radius_error_m", "west quadrant's radius error", MILLIMETRES, (-MOST_RADIUS_M / 20.0, MOST_RADIUS_M / 20.0), (1.0, ZERO), place!(alignment.west_radius_error_m)),
    row("alignment.east_radius_error_m", "east quadrant's radius error", MILLIMETRES, (-MOST_RADIUS_M / 20.0, MOST_RADIUS_M / 20.0), (1.0, ZERO), place!(alignment.east_radius_error_m)),
];

impl PartialEq for Quantity {
    fn eq(&self, other: &Self) -> bool {
        self.path == other.path
    }
}

impl Quantity {
    /// The quantity at a path.
    #[must_use]
    pub fn by_path(path: &str) -> Option<&'static Self> {
        QUANTITIES.iter().find(|quantity| quantity.path == path)
    }

    /// Its value, in the file's unit.
    #[must_use]
    pub fn get(&self, spec: &InstrumentSpec) -> f64 {
        (self.place.read)(spec)
    }

    /// Sets its value, in the file's unit.
    pub fn set(&self, spec: &mut InstrumentSpec, value: f64) {
        (self.place.write)(spec, value);
    }

    /// What it may be beside the other values of a description, in the file's unit.
    #[must_use]
    pub fn limits(&self, spec: &InstrumentSpec) -> Limits {
        let (mut min, mut max) = self.range;
        let mut or = "";
        let latitude_rad = spec.latitude_deg.to_radians();
        match self.path {
            "quadrants.foot_gap_m" => max = spec.radius_m / 4.0,
            // The quadrants lean with the equator: their lower corner must not be under the paving.
            "quadrants.plinth_m" => min = spec.breadth_m / 2.0 * latitude_rad.sin().abs(),
            "alignment.west_radius_error_m" | "alignment.east_radius_error_m" => {
                max = spec.radius_m / 20.0;
                min = -max;
            }
            "gnomon.style_north_m" => (min, max, or) = style_reach(spec, latitude_rad),
            "gnomon.style_south_m" => {
                let (least, most, words) = style_reach(spec, -latitude_rad);
                (min, max, or) = (-most, -least, words);
            }
            _ => {}
        }
        Limits { min, max, or }
    }

    /// Whether a value may stand beside the others of a description.
    #[must_use]
    pub fn allows(&self, spec: &InstrumentSpec, value: f64) -> bool {
        let Limits { min, max, .. } = self.limits(spec);
        let (widest_min, widest_max) = self.range;
        let whole = self.kind != Kind::Offset || value.fract() == 0.0;
        let fits = |min: f64, max: f64| (min..=max).contains(&value);
        fits(min, max) && fits(widest_min, widest_max) && whole
    }

    /// Why a value may not stand beside the others, in the words and the unit of people.
    #[must_use]
    pub fn refusal(&self, spec: &InstrumentSpec, value: f64) -> FieldError {
        let value = with_unit(value * self.per_file_unit, self.unit);
        FieldError::new(self.name, value, self.allowed(spec))
    }

    /// What is allowed, in the unit of people, and what else would help.
    #[must_use]
    pub fn allowed(&self, spec: &InstrumentSpec) -> String {
        self.bounds(spec) + self.limits(spec).or
    }

    /// The range, in the unit of people: "from 0.05 to 50 m".
    fn bounds(&self, spec: &InstrumentSpec) -> String {
        let [min, max] = self.ends(spec, self.unit);
        format!("from {min} to {max}")
    }

    /// The least and the most it may be, in the unit of people, whose name stands behind the most.
    #[must_use]
    pub fn ends(&self, spec: &InstrumentSpec, unit: &str) -> [String; 2] {
        let Limits { min, max, .. } = self.limits(spec);
        if self.kind == Kind::Offset {
            return ["−12:00", "+14:00"].map(str::to_owned);
        }
        let (min, max) = inward(min * self.per_file_unit, max * self.per_file_unit);
        [min.to_string(), with_unit(max, unit)]
    }

    /// The refusal of a value in a file, in the file's unit.
    pub(super) fn refusal_in_file(&self, spec: &InstrumentSpec, value: f64) -> FieldError {
        let Limits { min, max, or } = self.limits(spec);
        let (min, max) = inward(min, max);
        let whole = if self.kind == Kind::Offset { " in whole minutes" } else { "" };
        FieldError::new(self.path, value, format!("from {min} to {max}{whole}{or}"))
    }
}

/// How far the style may reach up its slope from the quadrants' middle, for the northern end at a
/// latitude, or the southern end at the opposite one: least, most, and what else would help.
fn style_reach(spec: &InstrumentSpec, latitude_rad: f64) -> (f64, f64, &'static str) {
    let longest_m = LONGEST_STYLE_R * spec.radius_m;
    if latitude_rad < 0.0 {
        // Downwards it may run until it meets the paving.
        let height_m = spec.radius_m * latitude_rad.cos() + spec.plinth_m;
        return (0.0, (height_m / latitude_rad.sin().abs()).min(longest_m), "");
    }
    if spec.end_faces == EndFaces::Square {
        return (SHORTEST_STYLE_M, longest_m, "");
    }
    // A plumb end must stand behind the quadrants' feet, which lie `R tan |φ|` up the slope; else
    // light passes under the style. Square faces lean out and always do.
    let least_m = spec.radius_m * latitude_rad.tan() + spec.breadth_m / 2.0;
    let or =
        ", for a plumb end to stand behind the quadrants' feet; or the ends must be cut square";
    (least_m, longest_m, or)
}

/// The quantities that are out of range or do not fit the others.
pub(super) fn unfit(spec: &InstrumentSpec) -> impl Iterator<Item = &'static Quantity> {
    QUANTITIES.iter().filter(|quantity| !quantity.allows(spec, quantity.get(spec)))
}

/// What is wrong with the parts of a description that are not numbers, each with its path.
pub(super) fn unfit_texts(spec: &InstrumentSpec) -> Vec<(&'static str, FieldError)> {
    let mut faults = Vec::new();
    let name = spec.name.trim();
    let plain = |c: char| !c.is_control();
    if name.is_empty() || spec.name.chars().count() > LONGEST_NAME || !name.chars().all(plain) {
        let allowed = format!("1 to {LONGEST_NAME} characters in one line");
        faults.push(("name", FieldError::new("name", quoted(&spec.name), allowed)));
    }
    if let Some(zone) = &spec.time_zone
        && !is_zone_name(zone)
    {
        let allowed = "a name of the form Area/City";
        faults.push(("clock.time_zone", FieldError::new("time zone", quoted(zone), allowed)));
    }
    if let Err(refused) = Graduation::new(&spec.divisions) {
        faults.push(("quadrants.divisions", refused));
    }
    faults
}

/// Whether a text could be the name of a time zone.
#[must_use]
fn is_zone_name(text: &str) -> bool {
    let fits = |byte: u8| byte.is_ascii_alphanumeric() || b"/_+-".contains(&byte);
    (1..=64).contains(&text.len()) && text.bytes().all(fits)
}

/// Limits with three decimals at most, rounded so that what is named is allowed.
fn inward(min: f64, max: f64) -> (f64, f64) {
    let hardly = 1e-9;
    let (min, max) = ((min * 1000.0 - hardly).ceil(), (max * 1000.0 + hardly).floor());
    // Nothing added makes a plain zero of a negative one.
    (min / 1000.0 + 0.0, max / 1000.0 + 0.0)
}

/// A number with its unit.
fn with_unit(value: f64, unit: &str) -> String {
    // Millimetres and minutes of arc come out of a multiplication.
    let value = (value * 1e9).round() / 1e9;
    let space = if matches!(unit, "°" | "′") { "" } else { " " };
    format!("{value}{space}{unit}")
}
