//! The instrument: a wall in the meridian and two quadrants, checked when it is made.

mod alignment;
mod graduation;
mod presets;
mod spec;
mod summer_time;

pub use alignment::Alignment;
pub use graduation::{Graduation, Level};
pub use presets::{PRESETS, Preset};
pub use spec::{EndFaces, InstrumentSpec};
pub use summer_time::SummerTime;

use crate::core::dial::DialFrame;
use crate::core::field::{FieldError, in_range};
use crate::core::sky::Site;
use crate::core::time::CivilOffset;

/// Declination of the Sun at a solstice, degrees, rounded up over 1700–2200.
pub const SOLSTICE_DECLINATION_DEG: f64 = 23.48;

/// Depth of a wall with square ends below its style, in radii of the quadrants: beyond their feet.
/// Only near the poles, where such a wall would never come down, is it less than the height.
pub const WALL_DEPTH_R: f64 = 1.5;

/// One of the two quadrants, by the side of the wall on which it stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Side {
    /// West of the wall: read in the morning.
    West,
    /// East of the wall: read in the afternoon.
    East,
}

impl Side {
    /// Both sides, west first.
    pub const BOTH: [Self; 2] = [Self::West, Self::East];

    /// −1 for west, +1 for east: the sign of `x`, and of the readings on that quadrant.
    #[must_use]
    pub fn sign(self) -> f64 {
        match self {
            Self::West => -1.0,
            Self::East => 1.0,
        }
    }

    /// The side whose style edge throws the shadow at this hour angle.
    #[must_use]
    pub fn at_hour_angle(hour_angle_rad: f64) -> Self {
        if hour_angle_rad < 0.0 { Self::West } else { Self::East }
    }
}

/// An end of the quadrants (and of the style), named by where it points in both hemispheres.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum AxialEnd {
    /// Towards the north celestial pole.
    North,
    /// Towards the south celestial pole.
    South,
}

impl AxialEnd {
    /// Both ends, north first.
    pub const BOTH: [Self; 2] = [Self::North, Self::South];

    /// +1 for north, −1 for south: the sign of the axial coordinate.
    #[must_use]
    pub fn sign(self) -> f64 {
        match self {
            Self::North => 1.0,
            Self::South => -1.0,
        }
    }
}

/// A masonry equatorial sundial that could stand: every dimension is in range and fits the others.
///
/// Axial coordinates run along the style towards the north pole, in metres, with zero at the
/// middle of the quadrants.
#[derive(Clone, Debug, PartialEq)]
pub struct Instrument {
    spec: InstrumentSpec,
    site: Site,
    offset: CivilOffset,
    graduation: Graduation,
    frame: DialFrame,
}

impl Instrument {
    /// Checks a description and makes the instrument of it.
    ///
    /// # Errors
    /// The first value that is out of range, or does not fit the others.
    pub fn new(spec: InstrumentSpec) -> Result<Self, FieldError> {
        let site = Site::from_degrees(spec.latitude_deg, spec.longitude_deg, spec.elevation_m)?;
        let offset = CivilOffset::from_minutes(spec.zone_offset_min)
            .map_err(|error| FieldError { field: "zone offset", ..error.into() })?;
        let graduation = Graduation::new(&spec.divisions)?;
        check_dimensions(&spec)?;
        spec.alignment.check(spec.radius_m)?;
        let frame = DialFrame::as_built(site.latitude_rad(), &spec.alignment);
        Ok(Self { spec, site, offset, graduation, frame })
    }

    /// The description this instrument was made from, in the units a person types.
    #[must_use]
    pub fn spec(&self) -> &InstrumentSpec {
        &self.spec
    }

    /// Where it stands.
    #[must_use]
    pub fn site(&self) -> &Site {
        &self.site
    }

    /// Zone time minus universal time, without summer time.
    #[must_use]
    pub fn zone_offset(&self) -> CivilOffset {
        self.offset
    }

    /// How the quadrants are divided.
    #[must_use]
    pub fn graduation(&self) -> &Graduation {
        &self.graduation
    }

    /// The dial axes as the masonry stands, alignment errors included.
    #[must_use]
    pub fn frame(&self) -> &DialFrame {
        &self.frame
    }

    /// Nominal radius of the quadrants, for which the divisions were cut, metres.
    #[must_use]
    pub fn radius_m(&self) -> f64 {
        self.spec.radius_m
    }

    /// Radius to which a quadrant was really built, metres.
    #[must_use]
    pub fn built_radius_m(&self, side: Side) -> f64 {
        self.spec.radius_m + self.spec.alignment.radius_error_m(side)
    }

    /// Thickness of the wall, metres.
    #[must_use]
    pub fn wall_thickness_m(&self) -> f64 {
        self.spec.wall_thickness_m
    }

    /// `x` of a style edge, metres.
    #[must_use]
    pub fn style_x_m(&self, side: Side) -> f64 {
        side.sign() * self.spec.wall_thickness_m / 2.0
    }

    /// Breadth of the quadrants along the axis, metres.
    #[must_use]
    pub fn breadth_m(&self) -> f64 {
        self.spec.breadth_m
    }

    /// Axial coordinate of an edge of the quadrants, metres.
    #[must_use]
    pub fn quadrant_edge_m(&self, end: AxialEnd) -> f64 {
        end.sign() * self.spec.breadth_m / 2.0
    }

    /// Axial coordinate of an end of the style, metres.
    #[must_use]
    pub fn style_end_m(&self, end: AxialEnd) -> f64 {
        match end {
            AxialEnd::North => self.spec.style_north_m,
            AxialEnd::South => self.spec.style_south_m,
        }
    }

    /// How the two ends of the wall are cut.
    #[must_use]
    pub fn end_faces(&self) -> EndFaces {
        self.spec.end_faces
    }

    /// `z` of the paving in the site frame, whose origin is the style at the quadrants' middle.
    #[must_use]
    pub fn ground_z_m(&self) -> f64 {
        -(self.spec.radius_m * self.site.latitude_rad().cos() + self.spec.plinth_m)
    }

    /// Arc between the wall and the first usable mark, as an angle, radians.
    #[must_use]
    pub fn foot_gap_rad(&self) -> f64 {
        self.spec.foot_gap_m / self.spec.radius_m
    }
}

/// Ranges within which masonry is built, and the fit of the parts.
fn check_dimensions(spec: &InstrumentSpec) -> Result<(), FieldError> {
    in_range("radius", spec.radius_m, (0.05, 50.0), "m")?;
    in_range("wall thickness", spec.wall_thickness_m, (0.001, 20.0), "m")?;
    in_range("quadrant breadth", spec.breadth_m, (0.01, 20.0), "m")?;
    in_range("foot gap", spec.foot_gap_m, (0.0, spec.radius_m / 4.0), "m")?;
    let latitude_rad = spec.latitude_deg.to_radians();
    // The quadrants lean with the equator: their lower corner must not be under the paving.
    let lowest_plinth = spec.breadth_m / 2.0 * latitude_rad.sin().abs();
    in_range("plinth", spec.plinth_m, (lowest_plinth, 50.0), "m")?;
    // The style may run until it meets the paving.
    let height = spec.radius_m * latitude_rad.cos() + spec.plinth_m;
    let to_ground = if latitude_rad == 0.0 { f64::MAX } else { height / latitude_rad.sin().abs() };
    let longest = 40.0 * spec.radius_m;
    let (south_limit, north_limit) = if latitude_rad >= 0.0 {
        (to_ground.min(longest), longest)
    } else {
        (longest, to_ground.min(longest))
    };
    in_range("style's south end", spec.style_south_m, (-south_limit, 0.0), "m")?;
    in_range("style's north end", spec.style_north_m, (0.0, north_limit), "m")?;
    check_raised_end(spec, latitude_rad)?;
    let length = spec.style_north_m - spec.style_south_m;
    in_range("style's length", length, (0.01, 2.0 * longest), "m").map(|_| ())
}

/// A plumb end face must stand behind the quadrants' feet, which lie `R tan |φ|` up the style's
/// slope; else light passes under the style. Square faces lean out and always do.
fn check_raised_end(spec: &InstrumentSpec, latitude_rad: f64) -> Result<(), FieldError> {
    if spec.end_faces == EndFaces::Square {
        return Ok(());
    }
    let needed_m = spec.radius_m * latitude_rad.tan().abs() + spec.breadth_m / 2.0;
    let (field, reach_m) = if latitude_rad >= 0.0 {
        ("style's north end", spec.style_north_m)
    } else {
        ("style's south end", -spec.style_south_m)
    };
    if reach_m >= needed_m {
        return Ok(());
    }
    Err(FieldError::new(
        field,
        format_args!("{reach_m:.3} m from the middle"),
        format_args!(
            "at least {needed_m:.3} m for a plumb end to stand behind the quadrants' feet, or the \
             ends must be cut square"
        ),
    ))
}
