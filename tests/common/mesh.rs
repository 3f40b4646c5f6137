//! The instruments of the traced tables.

use super::table::Row;
use noonwedge::core::dial::DialAngles;
use noonwedge::core::instrument::{
    Alignment, EndFaces, Instrument, InstrumentSpec, Script, Side, SummerTime,
};

/// The instrument of a row. The tables place the quadrants anywhere along the style; here their
/// middle is the origin, so axial values are shifted by the second value, metres.
pub fn instrument(row: &Row) -> (Instrument, f64) {
    let middle_m = f64::midpoint(row.number("zS_m"), row.number("zN_m"));
    let spec = InstrumentSpec {
        name: "mesh".into(),
        latitude_deg: row.number("lat_deg"),
        longitude_deg: 0.0,
        elevation_m: 0.0,
        zone_offset_min: 0,
        summer_time: SummerTime::Never,
        time_zone: None,
        radius_m: row.number("R_m"),
        wall_thickness_m: row.number("w_m"),
        breadth_m: row.number("b_m"),
        // High enough for any of the tables' styles: they have no ground.
        plinth_m: 2.0 * row.number("R_m") + 3.0,
        style_south_m: row.number("t0_m") - middle_m,
        style_north_m: row.number("t1_m") - middle_m,
        end_faces: EndFaces::Square,
        foot_gap_m: 0.0,
        divisions: vec![4, 15, 3],
        numerals: Script::Roman,
        alignment: Alignment::default(),
    };
    let made = Instrument::new(spec).unwrap_or_else(|error| panic!("{}: {error}", row.place()));
    (made, middle_m)
}

pub fn sun(row: &Row) -> DialAngles {
    DialAngles {
        hour_angle_rad: row.number("H_deg").to_radians(),
        declination_rad: row.number("dec_deg").to_radians(),
    }
}

pub fn side(row: &Row) -> Side {
    match row.text("quadrant") {
        Some("west") => Side::West,
        Some("east") => Side::East,
        other => panic!("{}: no quadrant is called {other:?}", row.place()),
    }
}
