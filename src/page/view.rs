//! From where the court is seen: a standpoint, and how a hand has turned and zoomed it since.

use std::f64::consts::{FRAC_PI_2, PI};

use glam::DVec2;

use super::keys::CameraKey;
use crate::core::instrument::Instrument;
use crate::scene::camera::{Camera, Standpoint};

/// How far an arrow key turns the camera, radians.
const KEY_TURN_RAD: f64 = 0.05;
/// How much a key zooms.
const KEY_ZOOM: f64 = 1.15;
/// Least and greatest zoom by hand.
pub const ZOOM: (f64, f64) = (0.4, 24.0);
/// Zooms nearer to one than this are none.
const NO_ZOOM: f64 = 1e-6;

/// A view of the court.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct View {
    /// The standpoint last chosen.
    pub standpoint: Standpoint,
    /// Turned since, radians to the right and upwards.
    pub turn_rad: DVec2,
    /// Brought nearer since, by this factor.
    pub zoom: f64,
    /// The point that stood still meanwhile, from the middle of the picture as a share of its size.
    pub about: DVec2,
}

impl View {
    /// A standpoint as it is.
    #[must_use]
    pub fn from(standpoint: Standpoint) -> Self {
        Self { standpoint, turn_rad: DVec2::ZERO, zoom: 1.0, about: DVec2::ZERO }
    }

    /// The camera for an instrument and an hour angle of the Sun.
    #[must_use]
    pub fn camera(&self, instrument: &Instrument, hour_angle_rad: f64) -> Camera {
        let camera = Camera::for_standpoint(self.standpoint, instrument, hour_angle_rad);
        let turned = if self.turn_rad == DVec2::ZERO {
            camera
        } else {
            camera.orbited(self.turn_rad.x, self.turn_rad.y)
        };
        if self.zoom == 1.0 { turned } else { turned.zoomed(self.zoom, self.about) }
    }

    /// Turned further, radians to the right and upwards, as far as the eye can rise or sink.
    #[must_use]
    pub fn turned(self, by: DVec2, instrument: &Instrument, hour_angle_rad: f64) -> Self {
        let sum = self.turn_rad + by;
        let right = (sum.x + PI).rem_euclid(2.0 * PI) - PI;
        let up = sum.y.clamp(-FRAC_PI_2, FRAC_PI_2);
        let next = Self { turn_rad: DVec2::new(right, up), ..self };
        let elevation_rad = |view: Self| view.camera(instrument, hour_angle_rad).elevation_rad();
        if elevation_rad(next) == elevation_rad(self) {
            // What could not be turned is not saved up.
            return Self { turn_rad: DVec2::new(right, self.turn_rad.y), ..self };
        }
        next
    }

    /// Brought nearer by a further factor about a point.
    #[must_use]
    pub fn zoomed(self, by: f64, about: DVec2) -> Self {
        let zoom = (self.zoom * by).clamp(ZOOM.0, ZOOM.1);
        let by = zoom / self.zoom;
        if (zoom - 1.0).abs() < NO_ZOOM {
            return Self { zoom: 1.0, about: DVec2::ZERO, ..self };
        }
        // Where a point goes under one zoom after the other, written as one zoom.
        let moved = self.about * ((1.0 - self.zoom) * by) + about * (1.0 - by);
        Self { zoom, about: moved / (1.0 - zoom), ..self }
    }

    /// Turned or zoomed by a key.
    #[must_use]
    pub fn by_key(self, key: CameraKey, instrument: &Instrument, hour_angle_rad: f64) -> Self {
        match key {
            CameraKey::Turn(right, up) => {
                self.turned(DVec2::new(right, up) * KEY_TURN_RAD, instrument, hour_angle_rad)
            }
            CameraKey::Zoom(steps) => self.zoomed(KEY_ZOOM.powf(steps), DVec2::ZERO),
            CameraKey::Home => Self::from(self.standpoint),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::core::instrument::PRESETS;

    #[test]
    fn turning_and_zooming_back_leads_home() {
        let Ok(instrument) = PRESETS[0].instrument() else { panic!("a preset") };
        let home = View::from(Standpoint::ALL[0]);
        let away =
            home.turned(DVec2::new(0.3, 0.2), &instrument, 0.7).zoomed(3.0, DVec2::new(0.2, -0.1));
        let back =
            away.turned(DVec2::new(-0.3, -0.2), &instrument, 0.7).zoomed(1.0 / 3.0, DVec2::ZERO);
        assert!((back.turn_rad - home.turn_rad).length() < 1e-12);
        assert_eq!((back.zoom, back.about), (1.0, DVec2::ZERO));
    }

    #[test]
    fn two_zooms_about_one_point_are_one_zoom_about_it() {
        let point = DVec2::new(0.25, -0.4);
        let view = View::from(Standpoint::ALL[0]).zoomed(1.5, point).zoomed(1.2, point);
        assert!((view.about - point).length() < 1e-12, "{view:?}");
        assert!((view.zoom - 1.8).abs() < 1e-12);
    }
}
