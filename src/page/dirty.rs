//! What a message has put out of date.

use std::ops::{BitOr, BitOrAssign};

use super::state::Shown;

/// A set of parts of the page that have to be drawn or written again.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Dirty(u32);

impl Dirty {
    /// Nothing.
    pub const NOTHING: Self = Self(0);
    /// The lens.
    pub const LENS: Self = Self(1 << 1);
    /// The day strip.
    pub const DAY: Self = Self(1 << 2);
    /// The year strip.
    pub const YEAR: Self = Self(1 << 3);
    /// The close view of the declination scale.
    pub const SCALE: Self = Self(1 << 4);
    /// The reading in words and figures, and the labels of the handles.
    pub const FIGURES: Self = Self(1 << 5);
    /// The ladder, or what stands in its place.
    pub const LADDER: Self = Self(1 << 18);
    /// Everything written.
    pub const TEXT: Self = Self::FIGURES.and(Self::LADDER);
    /// The state of buttons, switches and lists.
    pub const CONTROLS: Self = Self(1 << 6);
    /// The page's address.
    pub const ADDRESS: Self = Self(1 << 7);
    /// The messages to the reader.
    pub const NOTICES: Self = Self(1 << 8);
    /// The Sun and what follows from it.
    pub const MOMENT: Self = Self(1 << 9);
    /// The pass through noon.
    pub const NOON: Self = Self(1 << 10);
    /// The court's sheets, from the lowest up.
    pub const LAND: Self = Self(1 << 12);
    /// See [`Layer::Ground`](crate::scene::court::Layer::Ground).
    pub const GROUND: Self = Self(1 << 13);
    /// See [`Layer::Back`](crate::scene::court::Layer::Back).
    pub const BACK: Self = Self(1 << 14);
    /// See [`Layer::Middle`](crate::scene::court::Layer::Middle).
    pub const MIDDLE: Self = Self(1 << 15);
    /// See [`Layer::Front`](crate::scene::court::Layer::Front).
    pub const FRONT: Self = Self(1 << 16);
    /// See [`Layer::Signs`](crate::scene::court::Layer::Signs).
    pub const SIGNS: Self = Self(1 << 17);
    /// The whole picture of the court.
    pub const COURT: Self = Self::LAND
        .and(Self::GROUND)
        .and(Self::BACK)
        .and(Self::MIDDLE)
        .and(Self::FRONT)
        .and(Self::SIGNS);
    /// All pictures.
    pub const PICTURES: Self =
        Self::COURT.and(Self::LENS).and(Self::DAY).and(Self::YEAR).and(Self::SCALE).and(Self::NOON);
    /// Everything.
    pub const ALL: Self = Self((1 << 20) - 1);

    /// Both sets together.
    #[must_use]
    pub const fn and(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }

    /// What both sets hold.
    #[must_use]
    pub const fn only(self, other: Self) -> Self {
        Self(self.0 & other.0)
    }

    /// This set without what the other holds.
    #[must_use]
    pub const fn without(self, other: Self) -> Self {
        Self(self.0 & !other.0)
    }

    /// Whether any part of `other` is in this set.
    #[must_use]
    pub fn has(self, other: Self) -> bool {
        self.0 & other.0 != 0
    }

    /// Whether nothing is out of date.
    #[must_use]
    pub fn is_nothing(self) -> bool {
        self == Self::NOTHING
    }

    /// What differs on the page between two states of what it shows.
    #[must_use]
    pub fn between(before: &Shown, after: &Shown) -> Self {
        if before == after {
            return Self::NOTHING;
        }
        let stone = before.instrument != after.instrument || before.travel != after.travel;
        if stone || before.theme != after.theme {
            return Self::ALL;
        }
        let mut dirty = Self::ADDRESS;
        let mut when = |differs: bool, parts: Self| {
            if differs {
                dirty |= parts;
            }
        };
        // Court and strips are drawn again only when their marks have moved, which shows once
        // the moment is worked out.
        let moment = Self::MOMENT | Self::LENS | Self::SCALE | Self::NOON | Self::TEXT;
        when(before.instant != after.instant, moment);
        when(before.refraction != after.refraction, Self::MOMENT | Self::PICTURES);
        when(before.refraction != after.refraction, Self::TEXT | Self::CONTROLS);
        when(before.rounding != after.rounding, Self::MOMENT | Self::TEXT | Self::CONTROLS);
        when(before.shelf != after.shelf, Self::CONTROLS);
        when(before.speed != after.speed, Self::CONTROLS);
        when(before.view != after.view, Self::COURT);
        let standpoint = before.view.standpoint != after.view.standpoint;
        when(standpoint, Self::CONTROLS | Self::TEXT);
        when(before.guides != after.guides, Self::COURT | Self::CONTROLS | Self::TEXT);
        when(before.lens_s != after.lens_s, Self::LENS | Self::TEXT);
        let rod = Self::COURT | Self::SCALE | Self::LENS | Self::TEXT | Self::CONTROLS;
        when(before.rod != after.rod, rod);
        let light = Self::MOMENT
            | Self::COURT
            | Self::LENS
            | Self::SCALE
            | Self::NOON
            | Self::TEXT
            | Self::CONTROLS;
        when(before.limb != after.limb, light);
        when(before.limits != after.limits, Self::LENS | Self::TEXT | Self::CONTROLS);
        when(before.noon != after.noon, Self::NOON | Self::TEXT | Self::CONTROLS);
        let seen = Self::SCALE | Self::TEXT | Self::CONTROLS;
        when(before.least_cover != after.least_cover, seen);
        dirty
    }
}

impl BitOr for Dirty {
    type Output = Self;

    fn bitor(self, other: Self) -> Self {
        self.and(other)
    }
}

impl BitOrAssign for Dirty {
    fn bitor_assign(&mut self, other: Self) {
        self.0 |= other.0;
    }
}
