//! The five invented instruments of Larkmoor Court, chosen for what each of them teaches.

use super::{Alignment, EndFaces, Instrument, InstrumentSpec, Script, SummerTime};
use crate::core::field::FieldError;

/// An instrument that comes with the project.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Preset {
    /// Short name, used in addresses.
    pub key: &'static str,
    name: &'static str,
    /// Latitude and longitude, degrees.
    place_deg: (f64, f64),
    zone_offset_min: i32,
    summer_time: SummerTime,
    radius_m: f64,
    wall_thickness_m: f64,
    breadth_m: f64,
    plinth_m: f64,
    /// South and north end, axial metres.
    style_m: (f64, f64),
    divisions: &'static [u32],
    numerals: Script,
}

/// Every instrument that comes with the project; the first is the one shown at the start.
pub const PRESETS: [Preset; 5] = [
    Preset {
        key: "terrace",
        name: "Terrace dial",
        place_deg: (31.60, 48.35),
        zone_offset_min: 210,
        summer_time: SummerTime::Never,
        radius_m: 2.90,
        wall_thickness_m: 0.60,
        breadth_m: 0.75,
        plinth_m: 0.55,
        style_m: (-4.95, 2.60),
        divisions: &[4, 15, 3],
        numerals: Script::Roman,
    },
    Preset {
        key: "great",
        name: "Great dial",
        place_deg: (31.60, 48.35),
        zone_offset_min: 210,
        summer_time: SummerTime::Never,
        radius_m: 14.20,
        wall_thickness_m: 2.90,
        breadth_m: 2.60,
        plinth_m: 2.10,
        style_m: (-23.80, 10.40),
        divisions: &[4, 15, 6, 5],
        numerals: Script::Roman,
    },
    Preset {
        key: "schoolyard",
        name: "Schoolyard dial",
        place_deg: (-34.20, 20.80),
        zone_offset_min: 120,
        summer_time: SummerTime::Never,
        radius_m: 0.60,
        wall_thickness_m: 0.05,
        breadth_m: 0.18,
        plinth_m: 0.20,
        style_m: (-0.52, 0.98),
        divisions: &[4, 15],
        numerals: Script::Western,
    },
    Preset {
        key: "north-lawn",
        name: "North lawn dial",
        place_deg: (63.10, 11.40),
        zone_offset_min: 60,
        summer_time: SummerTime::LastSundays,
        radius_m: 1.10,
        wall_thickness_m: 0.20,
        breadth_m: 0.30,
        plinth_m: 0.24,
        style_m: (-0.78, 2.40),
        divisions: &[12, 5],
        numerals: Script::Roman,
    },
    Preset {
        key: "shoreline",
        name: "Shoreline dial",
        place_deg: (8.20, -77.10),
        zone_offset_min: -300,
        summer_time: SummerTime::Never,
        radius_m: 1.80,
        wall_thickness_m: 0.30,
        breadth_m: 0.45,
        plinth_m: 0.35,
        style_m: (-1.45, 1.45),
        divisions: &[4, 15],
        numerals: Script::Roman,
    },
];

impl Preset {
    /// Its latitude and longitude, degrees.
    #[must_use]
    pub fn place_deg(&self) -> (f64, f64) {
        self.place_deg
    }

    /// The instrument's description.
    #[must_use]
    pub fn spec(&self) -> InstrumentSpec {
        InstrumentSpec {
            name: self.name.to_owned(),
            latitude_deg: self.place_deg.0,
            longitude_deg: self.place_deg.1,
            elevation_m: 0.0,
            zone_offset_min: self.zone_offset_min,
            summer_time: self.summer_time,
            time_zone: None,
            radius_m: self.radius_m,
            wall_thickness_m: self.wall_thickness_m,
            breadth_m: self.breadth_m,
            plinth_m: self.plinth_m,
            style_south_m: self.style_m.0,
            style_north_m: self.style_m.1,
            end_faces: EndFaces::Upright,
            foot_gap_m: 0.0,
            divisions: self.divisions.to_vec(),
            numerals: self.numerals,
            alignment: Alignment::default(),
        }
    }

    /// The instrument itself.
    ///
    /// # Errors
    /// None for the presets as they stand: a test makes every one of them.
    pub fn instrument(&self) -> Result<Instrument, FieldError> {
        Instrument::new(self.spec())
    }

    /// Finds a preset by its key.
    #[must_use]
    pub fn by_key(key: &str) -> Option<&'static Self> {
        PRESETS.iter().find(|preset| preset.key == key)
    }
}
