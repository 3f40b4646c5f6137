//! The sheets that lie over one another to make up the court.

/// One sheet: each has its own canvas, so that it is painted only when something on it has changed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Layer {
    /// Sky, hills and paving: they change with the standpoint and the light of day.
    Land,
    /// The shadow on the paving, the platform and the wall's base.
    Ground,
    /// What lies farthest from the eye of west quadrant, wall and east quadrant.
    Back,
    /// What lies between.
    Middle,
    /// What lies nearest.
    Front,
    /// Ray, ring and labels.
    Signs,
}

impl Layer {
    /// All sheets, from the lowest up.
    pub const ALL: [Self; 6] =
        [Self::Land, Self::Ground, Self::Back, Self::Middle, Self::Front, Self::Signs];
}
