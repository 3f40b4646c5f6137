//! The camera going on by itself after a hand has turned it and let go.

use glam::DVec2;

/// Time in which it loses all but a third of its speed, seconds.
const SLOWING_S: f64 = 0.32;
/// Slower than this it stands, radians a second: a third of a pixel a frame.
const STANDS: f64 = 0.04;
/// It goes no faster than this, radians a second.
const FASTEST: f64 = 5.0;

/// A turning that slows down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Coast {
    /// Radians a second to the right and upwards.
    speed: DVec2,
}

impl Coast {
    /// Sets out; `None` with hardly any speed.
    #[must_use]
    pub fn new(speed: DVec2) -> Option<Self> {
        (speed.length() > STANDS).then(|| Self { speed: speed.clamp_length_max(FASTEST) })
    }

    /// How far it comes in a time, radians, and how it goes on from there.
    #[must_use]
    pub fn after(self, seconds: f64) -> (DVec2, Option<Self>) {
        let kept = (-seconds / SLOWING_S).exp();
        (self.speed * (SLOWING_S * (1.0 - kept)), Self::new(self.speed * kept))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_comes_as_far_in_many_frames_as_in_few_and_then_stands() {
        let run = |frames_a_second: u32| {
            let (mut way, mut coast) = (DVec2::ZERO, Coast::new(DVec2::new(2.0, -1.0)));
            let mut frames = 0;
            while let Some(it) = coast {
                let (by, next) = it.after(1.0 / f64::from(frames_a_second));
                (way, coast, frames) = (way + by, next, frames + 1);
            }
            (way, frames)
        };
        let ((slow, frames), (fast, _)) = (run(30), run(120));
        assert!((slow - fast).length() < 0.01 && frames < 60, "{slow} {fast} {frames}");
        assert!((fast.x - 2.0 * SLOWING_S).abs() < 0.02 && fast.y < 0.0);
    }

    #[test]
    fn hardly_any_speed_is_none_and_there_is_a_fastest() {
        assert_eq!(Coast::new(DVec2::splat(0.02)), None);
        let way = |speed: f64| Coast::new(DVec2::X * speed).map(|it| it.after(0.1).0);
        assert_eq!(way(1e6), way(FASTEST));
    }
}
