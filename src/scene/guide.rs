//! The guides of the court: lines laid over the picture that explain it, each by itself.

/// One guide.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Guide {
    /// The style's line, on to the celestial pole.
    Axis,
    /// The plane of the equator, in which the quadrants lie.
    Equator,
    /// The horizon, with the compass points.
    Horizon,
    /// The angle between the level and the style.
    Latitude,
    /// The Sun's paths across the sky: today, at the equinoxes and at the solstices.
    Paths,
    /// The Sun's angle round the style from the meridian.
    HourAngle,
    /// The Sun's angle from the equator.
    Declination,
    /// The rays of one day through a point of the style: a cone about the axis.
    Cone,
}

impl Guide {
    /// All guides, in the order in which the page offers them.
    pub const ALL: [Self; 8] = [
        Self::Axis,
        Self::Equator,
        Self::Horizon,
        Self::Latitude,
        Self::Paths,
        Self::HourAngle,
        Self::Declination,
        Self::Cone,
    ];

    /// Short name, used in addresses.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Axis => "axis",
            Self::Equator => "equator",
            Self::Horizon => "horizon",
            Self::Latitude => "latitude",
            Self::Paths => "paths",
            Self::HourAngle => "hour",
            Self::Declination => "declination",
            Self::Cone => "cone",
        }
    }

    /// Finds a guide by its key.
    #[must_use]
    pub fn by_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|guide| guide.key() == key)
    }
}

/// Which guides are wanted.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct GuideSet(u8);

impl GuideSet {
    /// Whether a guide is wanted.
    #[must_use]
    pub fn has(self, guide: Guide) -> bool {
        self.0 & (1 << guide as u8) != 0
    }

    /// The same set with a guide, or without it.
    #[must_use]
    pub fn with(self, guide: Guide, on: bool) -> Self {
        let bit = 1 << guide as u8;
        Self(if on { self.0 | bit } else { self.0 & !bit })
    }

    /// The guides wanted.
    pub fn iter(self) -> impl Iterator<Item = Guide> {
        Guide::ALL.into_iter().filter(move |&guide| self.has(guide))
    }
}

/// How strongly each guide is drawn, 0 (not at all) to 1.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Strengths([f64; Guide::ALL.len()]);

impl Strengths {
    /// How strongly one is drawn.
    #[must_use]
    pub fn of(&self, guide: Guide) -> f64 {
        self.0[guide as usize]
    }

    /// Whether none is drawn.
    #[must_use]
    pub fn are_none(&self) -> bool {
        self.0.iter().all(|&strength| strength <= 0.0)
    }

    /// Part of the way to others, `share` from 0 to 1.
    #[must_use]
    pub fn towards(&self, goal: &Self, share: f64) -> Self {
        Self(std::array::from_fn(|i| self.0[i] + (goal.0[i] - self.0[i]) * share))
    }
}

impl From<GuideSet> for Strengths {
    fn from(set: GuideSet) -> Self {
        Self(Guide::ALL.map(|guide| f64::from(u8::from(set.has(guide)))))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_set_holds_what_was_put_in_and_a_fade_lies_between_its_ends() {
        let set = GuideSet::default().with(Guide::Paths, true).with(Guide::Axis, true);
        assert_eq!(set.iter().collect::<Vec<_>>(), [Guide::Axis, Guide::Paths]);
        assert_eq!(set.with(Guide::Axis, false).iter().collect::<Vec<_>>(), [Guide::Paths]);
        let half = Strengths::default().towards(&set.into(), 0.5);
        assert_eq!((half.of(Guide::Paths), half.of(Guide::Horizon)), (0.5, 0.0));
        assert!(Strengths::default().are_none() && !half.are_none());
        for guide in Guide::ALL {
            assert_eq!(Guide::by_key(guide.key()), Some(guide));
        }
    }
}
