//! The instrument: a wall in the meridian and two quadrants, checked when it is made.

mod alignment;
pub mod file;
mod fit;
mod graduation;
mod presets;
mod quantity;
mod spec;
mod summer_time;

pub use alignment::Alignment;
pub use fit::fit_others;
pub use graduation::{Graduation, Level};
pub use presets::{PRESETS, Preset};
pub use quantity::{Kind, Limits, QUANTITIES, Quantity};
pub use spec::{EndFaces, InstrumentSpec, Script};
pub use summer_time::SummerTime;

use crate::core::dial::DialFrame;
use crate::core::field::FieldError;
use crate::core::sky::Site;
use crate::core::time::{CivilOffset, Instant, ZoneTable};

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

    /// The other side.
    #[must_use]
    pub fn other(self) -> Self {
        match self {
            Self::West => Self::East,
            Self::East => Self::West,
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
    zone: Option<ZoneTable>,
    graduation: Graduation,
    frame: DialFrame,
}

impl Instrument {
    /// Checks a description and makes the instrument of it.
    ///
    /// # Errors
    /// The first value that is out of range, or does not fit the others.
    pub fn new(spec: InstrumentSpec) -> Result<Self, FieldError> {
        if let Some(unfit) = quantity::unfit(&spec).next() {
            return Err(unfit.refusal(&spec, unfit.get(&spec)));
        }
        if let Some((_, refused)) = quantity::unfit_texts(&spec).into_iter().next() {
            return Err(refused);
        }
        let site = Site::from_degrees(spec.latitude_deg, spec.longitude_deg, spec.elevation_m)?;
        let offset = CivilOffset::from_minutes(spec.zone_offset_min)?;
        let graduation = Graduation::new(&spec.divisions)?;
        let frame = DialFrame::as_built(site.latitude_rad(), &spec.alignment);
        Ok(Self { spec, site, offset, zone: None, graduation, frame })
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

    /// The same stone on the same meridian at another latitude, degrees: level and as it was
    /// built, so that its style misses the pole by [`Self::off_latitude_rad`].
    ///
    /// # Errors
    /// When there is no such latitude.
    pub fn carried_to(&self, latitude_deg: f64) -> Result<Self, FieldError> {
        let spec = &self.spec;
        let site = Site::from_degrees(latitude_deg, spec.longitude_deg, spec.elevation_m)?;
        Ok(Self { site, ..self.clone() })
    }

    /// Latitude for which it is built, radians, north positive: the site's, unless it was carried
    /// elsewhere.
    #[must_use]
    pub fn built_latitude_rad(&self) -> f64 {
        self.spec.latitude_deg.to_radians()
    }

    /// How far north of its site lies the latitude for which it is built, radians in [−π, π]; zero
    /// unless it was carried elsewhere.
    #[must_use]
    pub fn off_latitude_rad(&self) -> f64 {
        self.built_latitude_rad() - self.site.latitude_rad()
    }

    /// Lets the clocks go by the offsets of a named time zone.
    pub fn set_zone(&mut self, zone: Option<ZoneTable>) {
        self.zone = zone;
    }

    /// The offsets of the named time zone, when its name was understood.
    #[must_use]
    pub fn zone(&self) -> Option<&ZoneTable> {
        self.zone.as_ref()
    }

    /// Zone time minus universal time, without summer time.
    #[must_use]
    pub fn zone_offset(&self) -> CivilOffset {
        self.zone.as_ref().map_or(self.offset, ZoneTable::standard)
    }

    /// How far clocks are ahead of zone time at an instant, minutes.
    #[must_use]
    pub fn summer_min(&self, instant: Instant) -> i32 {
        match &self.zone {
            Some(zone) => zone.at(instant).minutes() - zone.standard().minutes(),
            None => self.spec.summer_time.advance_min(instant),
        }
    }

    /// Every number of minutes by which clocks can be ahead of zone time, but none.
    pub fn summer_steps_min(&self) -> impl Iterator<Item = i32> {
        let standard = self.zone_offset().minutes();
        let named = self.zone.iter().flat_map(ZoneTable::offsets);
        let named = named.map(move |offset| offset.minutes() - standard);
        let by_rule = self.zone.is_none().then_some(SummerTime::ADVANCE_MIN);
        named.chain(by_rule).filter(|minutes| *minutes != 0)
    }

    /// Clock time minus universal time at an instant, minutes.
    #[must_use]
    pub fn clock_min(&self, instant: Instant) -> i32 {
        self.zone_offset().minutes() + self.summer_min(instant)
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

    /// The script of the numerals on the quadrants.
    #[must_use]
    pub fn numerals(&self) -> Script {
        self.spec.numerals
    }

    /// `z` of the paving in the site frame, whose origin is the style at the quadrants' middle.
    #[must_use]
    pub fn ground_z_m(&self) -> f64 {
        -(self.spec.radius_m * self.built_latitude_rad().cos() + self.spec.plinth_m)
    }

    /// Arc between the wall and the first usable mark, as an angle, radians.
    #[must_use]
    pub fn foot_gap_rad(&self) -> f64 {
        self.spec.foot_gap_m / self.spec.radius_m
    }
}
