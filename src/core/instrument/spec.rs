//! What a person writes down of an instrument, before it is checked.

use super::{Alignment, SummerTime};

/// Description of an instrument in everyday units; [`super::Instrument::new`] checks it, and
/// [`super::file`] writes and reads it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct InstrumentSpec {
    /// What people call it.
    pub name: String,
    /// Latitude of the site, degrees, north positive.
    pub latitude_deg: f64,
    /// Longitude of the site, degrees, east positive.
    pub longitude_deg: f64,
    /// Height of the site above the ellipsoid, metres.
    pub elevation_m: f64,
    /// Zone time minus universal time in winter, minutes.
    pub zone_offset_min: i32,
    /// When the clocks are an hour ahead.
    pub summer_time: SummerTime,
    /// The time zone by its name in the IANA database. Where the name is understood it stands
    /// above the offset and the rule of summer time.
    pub time_zone: Option<String>,
    /// Radius of the quadrants, metres.
    pub radius_m: f64,
    /// Thickness of the wall, metres.
    pub wall_thickness_m: f64,
    /// Breadth of the quadrants along the axis, metres.
    pub breadth_m: f64,
    /// Height of the quadrants' foot above the paving at mid-breadth, metres.
    pub plinth_m: f64,
    /// South end of the style, axial metres from the quadrants' middle (negative).
    pub style_south_m: f64,
    /// North end of the style, axial metres from the quadrants' middle (positive).
    pub style_north_m: f64,
    /// How the ends of the wall are cut.
    pub end_faces: EndFaces,
    /// Arc between the wall and the first usable mark, metres.
    pub foot_gap_m: f64,
    /// Into how many parts an hour is cut, then each of those, and so on: `[4, 15, 3]`.
    pub divisions: Vec<u32>,
    /// The script of the numerals on the quadrants.
    pub numerals: Script,
    /// How the masonry differs from the plan.
    pub alignment: Alignment,
}

/// How the wall is cut off at the two ends of the style.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum EndFaces {
    /// By plumb faces, as masonry usually is.
    #[default]
    Upright,
    /// By faces square to the style, down to the paving or to [`super::WALL_DEPTH_R`].
    Square,
}

impl EndFaces {
    /// Every way, the usual one first.
    pub const ALL: [Self; 2] = [Self::Upright, Self::Square];

    /// Its name in files.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Upright => "upright",
            Self::Square => "square",
        }
    }
}

/// The script in which the hours are cut in the stone.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Script {
    /// XII, I, II, III, IIII.
    #[default]
    Roman,
    /// 12, 1, 2, 3, 4.
    Western,
    /// १२, १, २, ३, ४.
    Devanagari,
    /// ١٢, ١, ٢, ٣, ٤.
    EasternArabic,
}

impl Script {
    /// Every script, the usual one first.
    pub const ALL: [Self; 4] = [Self::Roman, Self::Western, Self::Devanagari, Self::EasternArabic];

    /// Its name in files.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Roman => "roman",
            Self::Western => "western",
            Self::Devanagari => "devanagari",
            Self::EasternArabic => "eastern-arabic",
        }
    }
}
