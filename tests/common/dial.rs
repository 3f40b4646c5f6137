//! A dial for any place.

use noonwedge::core::instrument::{
    Alignment, EndFaces, Instrument, InstrumentSpec, Script, SummerTime,
};

/// A small dial that stands anywhere.
pub fn dial(
    latitude_deg: f64,
    longitude_deg: f64,
    zone_offset_min: i32,
    summer: SummerTime,
) -> Instrument {
    let spec = InstrumentSpec {
        name: "anywhere".into(),
        latitude_deg,
        longitude_deg,
        elevation_m: 0.0,
        zone_offset_min,
        time_zone: None,
        summer_time: summer,
        radius_m: 1.0,
        wall_thickness_m: 0.1,
        breadth_m: 0.2,
        plinth_m: 2.0,
        style_south_m: -0.6,
        style_north_m: 0.6,
        end_faces: EndFaces::Square,
        foot_gap_m: 0.0,
        divisions: vec![4, 15, 3],
        numerals: Script::Roman,
        alignment: Alignment::default(),
    };
    Instrument::new(spec).unwrap_or_else(|error| panic!("{latitude_deg}°: {error}"))
}
