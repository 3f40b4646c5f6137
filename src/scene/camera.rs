//! The camera: where a person stands in the court, how far, and what is kept in the frame.
//!
//! Azimuth is the bearing of the eye as seen from the target, from north through east; elevation
//! is its height above the target, positive up. Both in radians; lengths in metres, site frame.

use std::f64::consts::{FRAC_PI_2, PI, TAU};

use glam::{DVec2, DVec3};

use crate::core::instrument::{AxialEnd, Instrument, Side};

/// A place from which the instrument is shown.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Standpoint {
    /// In front of the low end, a little west of the meridian, as visitors stand.
    #[default]
    Visitor,
    /// East of the wall and level with it: its slope is seen as the angle that it is.
    FromSide,
    /// Above the steps, looking up the slope with a quadrant on either hand.
    OnSteps,
    /// Along the style: the quadrants are true circles.
    AlongPole,
    /// Square to the west quadrant's reading face.
    SquareWest,
    /// Square to the east quadrant's reading face.
    SquareEast,
    /// High above, as a bird sees the plan of it.
    Above,
    /// Bent over the stone where the shadow's edge lies; the stand moves on with it in steps.
    BesideEdge,
}

impl Standpoint {
    /// Every standpoint, in the order in which the page offers them.
    pub const ALL: [Self; 8] = [
        Self::Visitor,
        Self::FromSide,
        Self::OnSteps,
        Self::AlongPole,
        Self::SquareWest,
        Self::SquareEast,
        Self::Above,
        Self::BesideEdge,
    ];

    /// Short name, used in addresses and as the end of the catalogue's keys.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Visitor => "visitor",
            Self::FromSide => "side",
            Self::OnSteps => "steps",
            Self::AlongPole => "pole",
            Self::SquareWest => "west",
            Self::SquareEast => "east",
            Self::Above => "above",
            Self::BesideEdge => "edge",
        }
    }

    /// Finds a standpoint by its key.
    #[must_use]
    pub fn by_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|standpoint| standpoint.key() == key)
    }
}

/// How much each part of the instrument counts when the picture is composed, 0 to 1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::scene) struct Interest {
    pub(in crate::scene) west: f64,
    pub(in crate::scene) wall: f64,
    pub(in crate::scene) east: f64,
}

impl Interest {
    const WHOLE: Self = Self { west: 1.0, wall: 1.0, east: 1.0 };

    /// A quadrant alone.
    fn of(side: Side, share: f64) -> Self {
        let [west, east] = match side {
            Side::West => [share, 0.0],
            Side::East => [0.0, share],
        };
        Self { west, wall: 0.0, east }
    }

    /// How much the part counts that counts most.
    pub(in crate::scene) fn greatest(self) -> f64 {
        self.west.max(self.wall).max(self.east)
    }

    fn blended(self, other: Self, t: f64) -> Self {
        Self {
            west: mix(self.west, other.west, t),
            wall: mix(self.wall, other.wall, t),
            east: mix(self.east, other.east, t),
        }
    }
}

/// A standpoint that can be turned about its target, magnified and blended with another.
///
/// It is a view camera: at standing heights its image plane stays upright, so that walls are
/// drawn plumb; as the eye rises the plane tilts until it is square to the line of sight.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Camera {
    azimuth_rad: f64,
    elevation_rad: f64,
    distance_m: f64,
    target: DVec3,
    /// The point that the picture is composed about: parts of no interest count as if they were there.
    about: DVec3,
    /// Target and distance to which turning leads back.
    orbit: (DVec3, f64),
    /// Lowest `z` of the eye.
    floor_m: f64,
    /// 1 sets the image plane square to the line of sight at any elevation.
    square: f64,
    /// Turn of the picture about its centre, clockwise.
    roll_rad: f64,
    interest: Interest,
    zoom: f64,
    /// Offset of the picture in the frame, as a fraction of its width and height.
    shift: DVec2,
}

impl Camera {
    /// Smallest and largest magnification, 1 showing the whole subject.
    pub const ZOOM: (f64, f64) = (0.5, 24.0);
    /// Turning by this angle takes most of a standpoint's own framing away, radians.
    const EASE_RAD: f64 = 0.35;
    /// Elevations between which an upright image plane tilts to be square, radians.
    const TILT_RAD: (f64, f64) = (0.35, 0.95);

    /// The camera of a standpoint, for an hour angle of the Sun: only that beside the edge asks for it.
    #[must_use]
    pub fn for_standpoint(
        standpoint: Standpoint,
        instrument: &Instrument,
        hour_angle_rad: f64,
    ) -> Self {
        let stand = Stand::new(instrument);
        match standpoint {
            Standpoint::Visitor => stand.visitor(),
            Standpoint::FromSide => stand.beside_wall(),
            Standpoint::OnSteps => stand.on_steps(),
            Standpoint::AlongPole => stand.along_pole(),
            Standpoint::SquareWest => stand.square(Side::West),
            Standpoint::SquareEast => stand.square(Side::East),
            Standpoint::Above => stand.above(),
            Standpoint::BesideEdge => stand.beside_edge(hour_angle_rad),
        }
    }

    /// Turned by hand: `dx_rad` moves the near side of the instrument to the right, `dy_rad`
    /// raises the eye. A standpoint's close framing gives way to the whole instrument.
    #[must_use]
    pub fn orbited(self, dx_rad: f64, dy_rad: f64) -> Self {
        let keep = (-dx_rad.hypot(dy_rad) / Self::EASE_RAD).exp();
        let distance_m = mix(self.orbit.1, self.distance_m, keep);
        let target = self.orbit.0.lerp(self.target, keep);
        let about = self.orbit.0.lerp(self.about, keep);
        let lowest_rad = ((self.floor_m - target.z) / distance_m).clamp(-1.0, 1.0).asin();
        Self {
            azimuth_rad: (self.azimuth_rad + dx_rad).rem_euclid(TAU),
            elevation_rad: (self.elevation_rad + dy_rad).min(FRAC_PI_2).max(lowest_rad),
            distance_m,
            target,
            about,
            square: self.square * keep,
            roll_rad: self.roll_rad * keep,
            interest: Interest::WHOLE.blended(self.interest, keep),
            ..self
        }
    }

    /// Magnified about a point of the frame, given as its offset from the centre in fractions of
    /// width and height; that point stays where it is.
    #[must_use]
    pub fn zoomed(self, factor: f64, about: DVec2) -> Self {
        let zoom = (self.zoom * factor).clamp(Self::ZOOM.0, Self::ZOOM.1);
        let shift = about + (self.shift - about) * (zoom / self.zoom);
        let reach = DVec2::splat(0.5 * (zoom - 1.0).max(0.0));
        Self { zoom, shift: shift.clamp(-reach, reach), ..self }
    }

    /// Part of the way to another camera, `t` from 0 to 1; the azimuth takes the shorter way.
    #[must_use]
    pub fn blended(self, other: Self, t: f64) -> Self {
        if t <= 0.0 {
            return self;
        }
        if t >= 1.0 {
            return other;
        }
        let turn = (other.azimuth_rad - self.azimuth_rad + PI).rem_euclid(TAU) - PI;
        Self {
            azimuth_rad: (self.azimuth_rad + turn * t).rem_euclid(TAU),
            elevation_rad: mix(self.elevation_rad, other.elevation_rad, t),
            distance_m: geometric(self.distance_m, other.distance_m, t),
            target: self.target.lerp(other.target, t),
            about: self.about.lerp(other.about, t),
            orbit: (self.orbit.0.lerp(other.orbit.0, t), geometric(self.orbit.1, other.orbit.1, t)),
            floor_m: mix(self.floor_m, other.floor_m, t),
            square: mix(self.square, other.square, t),
            roll_rad: mix(self.roll_rad, other.roll_rad, t),
            interest: self.interest.blended(other.interest, t),
            zoom: geometric(self.zoom, other.zoom, t),
            shift: self.shift.lerp(other.shift, t),
        }
    }

    /// Bearing of the eye from the target, radians in [0, 2π).
    #[must_use]
    pub fn azimuth_rad(&self) -> f64 {
        self.azimuth_rad
    }

    /// Elevation of the eye above the target, radians.
    #[must_use]
    pub fn elevation_rad(&self) -> f64 {
        self.elevation_rad
    }

    /// Magnification, 1 showing the whole subject.
    #[must_use]
    pub fn zoom(&self) -> f64 {
        self.zoom
    }

    /// The point looked at, site frame.
    #[must_use]
    pub fn target(&self) -> DVec3 {
        self.target
    }

    /// The point that the picture is composed about, site frame.
    pub(in crate::scene) fn about(&self) -> DVec3 {
        self.about
    }

    /// Where the eye would be if nothing stood in its way, site frame.
    #[must_use]
    pub fn eye(&self) -> DVec3 {
        let (sin, cos) = self.elevation_rad.sin_cos();
        let level = self.towards_eye() * cos;
        let eye = self.target + (level + DVec3::Z * sin) * self.distance_m;
        eye.with_z(eye.z.max(self.floor_m))
    }

    /// Level unit vector from the target towards the eye.
    pub(in crate::scene) fn towards_eye(&self) -> DVec3 {
        let (sin, cos) = self.azimuth_rad.sin_cos();
        DVec3::new(sin, cos, 0.0)
    }

    /// How far the image plane leans back for an eye at this elevation, radians.
    pub(in crate::scene) fn tilt_rad(&self, elevation_rad: f64) -> f64 {
        let (from, to) = Self::TILT_RAD;
        let upright = 1.0 - smoothstep((elevation_rad - from) / (to - from));
        elevation_rad * (1.0 - upright * (1.0 - self.square))
    }

    pub(in crate::scene) fn roll_rad(&self) -> f64 {
        self.roll_rad
    }

    pub(in crate::scene) fn interest(&self) -> Interest {
        self.interest
    }

    pub(in crate::scene) fn shift(&self) -> DVec2 {
        self.shift
    }
}

/// How much of the quadrant is framed beside the edge.
const CLOSE: f64 = 0.3;

/// The measures of an instrument from which its standpoints follow.
struct Stand<'a> {
    instrument: &'a Instrument,
    /// Unit vector along the style, upwards.
    style_up: DVec3,
    /// The style's ends along it: low, high.
    ends_m: (f64, f64),
    orbit: (DVec3, f64),
    floor_m: f64,
}

impl<'a> Stand<'a> {
    fn new(instrument: &'a Instrument) -> Self {
        let frame = instrument.frame();
        let north_up = frame.p.z >= 0.0;
        let end = |end| instrument.style_end_m(end);
        let (south, north) = (end(AxialEnd::South), end(AxialEnd::North));
        let (style_up, ends_m) =
            if north_up { (frame.p, (south, north)) } else { (-frame.p, (-north, -south)) };
        let radius = instrument.radius_m();
        let breadth = 2.0 * radius + instrument.wall_thickness_m();
        let length = (ends_m.1 - ends_m.0) * style_up.truncate().length();
        let height = ends_m.1 * style_up.z - instrument.ground_z_m();
        let span = (1.15 * breadth).max(length).max(height);
        let middle = style_up.with_z(0.0) * (ends_m.0 + ends_m.1) * 0.5;
        let target = (middle * 0.3).with_z(instrument.ground_z_m() * 0.4);
        let floor_m = instrument.ground_z_m() + 0.12 * radius;
        Self { instrument, style_up, ends_m, orbit: (target, 2.1 * span), floor_m }
    }

    /// A camera of the whole instrument at a bearing measured from its low end.
    fn visitor(&self) -> Camera {
        let low = -self.style_up;
        let low_bearing = if low.truncate().length() > 1e-6 { low.x.atan2(low.y) } else { PI };
        // West of the meridian: clockwise of south, anticlockwise of north.
        let west = if low_bearing.cos() < 0.0 { 1.0 } else { -1.0 };
        Camera {
            azimuth_rad: (low_bearing + west * 10.5_f64.to_radians()).rem_euclid(TAU),
            elevation_rad: self.visitor_elevation_rad(),
            distance_m: self.orbit.1,
            target: self.orbit.0,
            about: self.orbit.0,
            orbit: self.orbit,
            floor_m: self.floor_m,
            square: 0.0,
            roll_rad: 0.0,
            interest: Interest::WHOLE,
            zoom: 1.0,
            shift: DVec2::ZERO,
        }
    }

    /// High enough to look down on the quadrants: the more so the less they lean.
    fn visitor_elevation_rad(&self) -> f64 {
        let slope_deg = self.style_up.z.clamp(-1.0, 1.0).asin().to_degrees();
        (7.5 + 0.4 * (31.6 - slope_deg).max(0.0)).to_radians()
    }

    /// A camera looking from one point at another, square on.
    fn looking(&self, from: DVec3, at: DVec3, square: f64, interest: Interest) -> Camera {
        let away = from - at;
        Camera {
            azimuth_rad: away.x.atan2(away.y).rem_euclid(TAU),
            elevation_rad: away.z.atan2(away.truncate().length()),
            distance_m: away.length(),
            target: at,
            about: at,
            square,
            interest,
            ..self.visitor()
        }
    }

    /// From afar and square to the wall: an upright image plane beside it keeps the wall's angles.
    fn beside_wall(&self) -> Camera {
        const ELEVATION_RAD: f64 = 0.06;
        let east = self.instrument.frame().e;
        Camera {
            azimuth_rad: east.x.atan2(east.y).rem_euclid(TAU),
            elevation_rad: ELEVATION_RAD,
            distance_m: 1.6 * self.orbit.1,
            ..self.visitor()
        }
    }

    fn on_steps(&self) -> Camera {
        let radius = self.instrument.radius_m();
        let m = self.instrument.frame().m;
        // Far enough down the steps to have both quadrants in view.
        let along = (self.ends_m.0 * 0.9).max(-2.2 * radius).min(-1.3 * radius);
        let eye = self.style_up * along + m * (0.5 * radius);
        let eye = eye.with_z(eye.z.max(self.floor_m));
        let at = self.style_up * (0.1 * radius) - m * (0.45 * radius);
        self.looking(eye, at, 0.0, Interest { west: 1.0, wall: 0.35, east: 1.0 })
    }

    fn along_pole(&self) -> Camera {
        let radius = self.instrument.radius_m();
        // Over the style, so that the wall's top does not hide the quadrants' feet.
        let at = self.instrument.frame().m * (0.9 * radius);
        let sin = self.style_up.z;
        // Down the style as far as the ground lets the eye go, if that is far enough to see from.
        let room = if sin > 1e-3 { (at.z - self.floor_m) / sin } else { f64::INFINITY };
        let along = if room > 1.0 * radius {
            -room.min(3.2 * radius)
        } else {
            3.0 * radius + self.ends_m.1.max(0.0)
        };
        let interest = Interest { west: 1.0, wall: 0.0, east: 1.0 };
        let about = self.instrument.frame().m * (-0.5 * radius);
        Camera { about, ..self.looking(at + self.style_up * along, at, 1.0, interest) }
    }

    /// Nearly plumb, so that the slope of the wall can still be told.
    fn above(&self) -> Camera {
        const ELEVATION_RAD: f64 = 1.3;
        Camera { elevation_rad: ELEVATION_RAD, square: 1.0, ..self.visitor() }
    }

    /// Over the stone on the outer side of the place, so that the wall does not stand before it.
    fn beside_edge(&self, hour_angle_rad: f64) -> Camera {
        let side = Side::at_hour_angle(hour_angle_rad);
        let radius = self.instrument.built_radius_m(side);
        let frame = self.instrument.frame();
        let out = frame.e * side.sign();
        let (sin, cos) = stand_rad(hour_angle_rad).sin_cos();
        let inward = frame.m * cos - out * sin;
        let onward = out * cos + frame.m * sin;
        let at = frame.e * self.instrument.style_x_m(side) - inward * radius;
        let away = inward * 0.42 + onward * 0.16 - self.style_up * 0.2;
        let camera = self.looking(at + away * radius, at, 1.0, Interest::of(side, CLOSE));
        Camera { roll_rad: roll_to(&camera, self.style_up), ..camera }
    }

    fn square(&self, side: Side) -> Camera {
        let radius = self.instrument.built_radius_m(side);
        let frame = self.instrument.frame();
        let edge = frame.e * self.instrument.style_x_m(side);
        let out = frame.e * side.sign();
        let at = edge + out * (0.62 * radius) - frame.m * (0.62 * radius);
        let eye = edge + out * (0.24 * radius) + frame.m * (0.95 * radius);
        let camera = self.looking(eye, at, 1.0, Interest::of(side, 1.0));
        Camera { roll_rad: roll_to(&camera, self.style_up), ..camera }
    }
}

/// Angle of the quadrant, from its foot at the wall, at which to stand for an edge at an hour angle:
/// the middle of its half hour, so that the picture holds still meanwhile. By night the end of the
/// quadrant that the Sun has left, or will come to.
fn stand_rad(hour_angle_rad: f64) -> f64 {
    const HALF_HOUR_RAD: f64 = FRAC_PI_2 / 12.0;
    let half_hours = (hour_angle_rad.abs() / HALF_HOUR_RAD).floor().clamp(0.0, 11.0);
    (half_hours + 0.5) * HALF_HOUR_RAD
}

/// Roll that sets a direction upright in the picture of a camera square to its line of sight.
fn roll_to(camera: &Camera, upright: DVec3) -> f64 {
    let (sin, cos) = camera.elevation_rad.sin_cos();
    let level = camera.towards_eye();
    let up = DVec3::Z * cos - level * sin;
    let right = DVec3::Z.cross(level);
    -upright.dot(right).atan2(upright.dot(up))
}

fn mix(from: f64, to: f64, t: f64) -> f64 {
    from + (to - from) * t
}

/// Interpolates two positive numbers by their ratio.
fn geometric(from: f64, to: f64, t: f64) -> f64 {
    from * (to / from).powf(t)
}

/// Rises smoothly from 0 at 0 to 1 at 1.
fn smoothstep(x: f64) -> f64 {
    let x = x.clamp(0.0, 1.0);
    x * x * (3.0 - 2.0 * x)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::core::instrument::PRESETS;

    fn each_camera(mut check: impl FnMut(&Instrument, Camera)) {
        for preset in &PRESETS {
            let Ok(instrument) = preset.instrument() else { panic!("a preset is valid") };
            for standpoint in Standpoint::ALL {
                check(&instrument, Camera::for_standpoint(standpoint, &instrument, 0.7));
            }
        }
    }

    #[test]
    fn a_blend_ends_in_its_ends_and_stays_between() {
        each_camera(|instrument, camera| {
            let other = Camera::for_standpoint(Standpoint::Visitor, instrument, 0.7);
            assert_eq!(camera.blended(other, 0.0), camera);
            assert_eq!(camera.blended(other, 1.0), other);
            let near = camera.blended(other, 1e-9).eye().distance(camera.eye());
            assert!(near < 1e-6 * camera.distance_m, "jumps by {near} m");
            let half = camera.blended(other, 0.5);
            let (least, most) = (camera.zoom.min(other.zoom), camera.zoom.max(other.zoom));
            assert!((least..=most).contains(&half.zoom));
        });
    }

    #[test]
    fn the_point_under_the_finger_stays_when_zooming() {
        each_camera(|_, camera| {
            let about = DVec2::new(0.2, -0.1);
            let zoomed = camera.zoomed(3.0, about).zoomed(2.0, about);
            // A picture point at `about` had offset `about − shift` at zoom 1.
            let before = (about - camera.shift) / camera.zoom;
            let after = (about - zoomed.shift) / zoomed.zoom;
            assert!(before.distance(after) < 1e-12);
            assert_eq!(camera.zoomed(3.0, about).zoomed(1e-9, about).shift, DVec2::ZERO);
        });
    }

    #[test]
    fn the_eye_never_goes_under_the_ground() {
        each_camera(|instrument, camera| {
            for steps in 0..40 {
                let camera = (0..steps).fold(camera, |camera, _| camera.orbited(0.05, -0.1));
                assert!(camera.eye().z > instrument.ground_z_m());
                assert!(camera.elevation_rad <= FRAC_PI_2);
            }
        });
    }

    #[test]
    fn the_image_plane_is_upright_at_standing_heights_and_square_from_above() {
        each_camera(|instrument, _| {
            let camera = Camera::for_standpoint(Standpoint::Visitor, instrument, 0.7);
            assert_eq!(camera.tilt_rad(0.2), 0.0);
            assert!((camera.tilt_rad(1.2) - 1.2).abs() < 1e-12);
            for step in 0..1000 {
                let elevation = f64::from(step) * FRAC_PI_2 / 1000.0;
                let jump =
                    camera.tilt_rad(elevation + FRAC_PI_2 / 1000.0) - camera.tilt_rad(elevation);
                assert!((0.0..0.01).contains(&jump), "{jump} at {elevation}");
            }
        });
    }

    #[test]
    fn standpoints_are_found_by_their_keys() {
        for standpoint in Standpoint::ALL {
            assert_eq!(Standpoint::by_key(standpoint.key()), Some(standpoint));
        }
        assert_eq!(Standpoint::by_key("moon"), None);
    }
}
