//! How fast the page plays.

/// Speeds of play, slowest first.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Speed {
    /// As the Sun moves.
    Real,
    /// A minute in a second.
    #[default]
    Minute,
    /// Ten minutes in a second.
    TenMinutes,
    /// An hour in a second.
    Hour,
    /// A day in a second; the time of day stays.
    Day,
    /// A year in a minute; the time of day stays.
    Year,
}

/// How a speed moves the moment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Advance {
    /// So many seconds in a second.
    Seconds(f64),
    /// So many whole days in a second, at the same apparent time of day.
    Days(f64),
}

impl Speed {
    /// All speeds, slowest first.
    pub const ALL: [Self; 6] =
        [Self::Real, Self::Minute, Self::TenMinutes, Self::Hour, Self::Day, Self::Year];

    /// Short name, used in addresses, in lists and for the words.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Real => "real",
            Self::Minute => "minute",
            Self::TenMinutes => "ten-minutes",
            Self::Hour => "hour",
            Self::Day => "day",
            Self::Year => "year",
        }
    }

    /// Finds a speed by its key.
    #[must_use]
    pub fn by_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|speed| speed.key() == key)
    }

    /// How the moment moves.
    #[must_use]
    pub fn advance(self) -> Advance {
        match self {
            Self::Real => Advance::Seconds(1.0),
            Self::Minute => Advance::Seconds(60.0),
            Self::TenMinutes => Advance::Seconds(600.0),
            Self::Hour => Advance::Seconds(3600.0),
            Self::Day => Advance::Days(1.0),
            Self::Year => Advance::Days(365.2425 / 60.0),
        }
    }
}
