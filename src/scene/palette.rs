//! The colours of a theme. `www/style.css` carries the same values for the page around the
//! drawings; a test keeps the two alike.

use super::drawing::Colour;

/// One theme's colours, named by what they are for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Palette {
    /// The page behind everything.
    pub paper: Colour,
    /// Panels on the page.
    pub panel: Colour,
    /// Text and main lines.
    pub ink: Colour,
    /// Text of second rank.
    pub ink_2: Colour,
    /// Lines that separate.
    pub rule: Colour,
    /// Lines that only decorate.
    pub hair: Colour,
    /// The one accent: what is read, what is held.
    pub accent: Colour,
    /// What explains: the guides over the court; the page's focus ring.
    pub guide: Colour,
    /// Text on the accent.
    pub on_accent: Colour,
    /// Stone in full sun.
    pub lit: Colour,
    /// Stone in grazing light.
    pub mid: Colour,
    /// Stone in shade.
    pub shade: Colour,
    /// Stone in deep shade.
    pub deep: Colour,
    /// The quadrant's surface in full shadow.
    pub umbra: Colour,
    /// Engraving in the sun.
    pub cut: Colour,
    /// Engraving in full shadow, on the lens.
    pub cut_umbra: Colour,
    /// Engraving in shade, on the court.
    pub cut_shade: Colour,
    /// Paving in the sun.
    pub ground: Colour,
    /// Paving in shadow.
    pub ground_shade: Colour,
    /// Sky high up.
    pub sky_high: Colour,
    /// Sky at the horizon.
    pub sky_low: Colour,
    /// Far hills.
    pub hill_far: Colour,
    /// Near hills.
    pub hill_near: Colour,
}

/// The themes of the page.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Theme {
    /// Paper and sunlit stone.
    #[default]
    Day,
    /// For a dark room.
    Night,
    /// Highest contrast, for a tablet in sunlight.
    Glare,
}

impl Theme {
    /// All themes, in the order in which the page offers them.
    pub const ALL: [Self; 3] = [Self::Day, Self::Night, Self::Glare];

    /// Short name, used in addresses and style sheets.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Day => "day",
            Self::Night => "night",
            Self::Glare => "glare",
        }
    }

    /// The colours of this theme.
    #[must_use]
    pub const fn palette(self) -> &'static Palette {
        match self {
            Self::Day => &DAY,
            Self::Night => &NIGHT,
            Self::Glare => &GLARE,
        }
    }
}

const DAY: Palette = Palette {
    paper: Colour::hex(0xf7f3ea),
    panel: Colour::hex(0xfffdf7),
    ink: Colour::hex(0x2a241d),
    ink_2: Colour::hex(0x5f5546),
    rule: Colour::hex(0x8d806a),
    hair: Colour::hex(0xd9cfbc),
    accent: Colour::hex(0xa8351f),
    guide: Colour::hex(0x1f4e79),
    on_accent: Colour::hex(0xfffdf7),
    lit: Colour::hex(0xf6e8c9),
    mid: Colour::hex(0xdccaa4),
    shade: Colour::hex(0x8b817f),
    deep: Colour::hex(0x645c60),
    umbra: Colour::hex(0x897f7d),
    cut: Colour::hex(0x1d1611),
    cut_umbra: Colour::hex(0x1d1611),
    cut_shade: Colour::hex(0x1d1611),
    ground: Colour::hex(0xe2d6bd),
    ground_shade: Colour::hex(0x978d84),
    sky_high: Colour::hex(0xb7cbd1),
    sky_low: Colour::hex(0xf4ecdb),
    hill_far: Colour::hex(0xb9bfae),
    hill_near: Colour::hex(0xa5af9a),
};

const NIGHT: Palette = Palette {
    paper: Colour::hex(0x16130f),
    panel: Colour::hex(0x1f1b16),
    ink: Colour::hex(0xefe3cc),
    ink_2: Colour::hex(0xb9ab92),
    rule: Colour::hex(0x857963),
    hair: Colour::hex(0x3a332a),
    accent: Colour::hex(0xf08a5d),
    guide: Colour::hex(0x9cc7e8),
    on_accent: Colour::hex(0x16130f),
    lit: Colour::hex(0xcdb68a),
    mid: Colour::hex(0xa08c68),
    shade: Colour::hex(0x4d4850),
    deep: Colour::hex(0x332f38),
    umbra: Colour::hex(0x4f4a52),
    cut: Colour::hex(0x0d0a08),
    cut_umbra: Colour::hex(0xefe3cc),
    cut_shade: Colour::hex(0xd9ccb4),
    ground: Colour::hex(0x8d8069),
    ground_shade: Colour::hex(0x453f40),
    sky_high: Colour::hex(0x31424b),
    sky_low: Colour::hex(0x6f6a5c),
    hill_far: Colour::hex(0x4b4f45),
    hill_near: Colour::hex(0x3e443b),
};

const GLARE: Palette = Palette {
    paper: Colour::hex(0xffffff),
    panel: Colour::hex(0xffffff),
    ink: Colour::hex(0x000000),
    ink_2: Colour::hex(0x262626),
    rule: Colour::hex(0x3d3d3d),
    hair: Colour::hex(0x8a8a8a),
    accent: Colour::hex(0x8a1200),
    guide: Colour::hex(0x00317a),
    on_accent: Colour::hex(0xffffff),
    lit: Colour::hex(0xffffff),
    mid: Colour::hex(0xe4ddcf),
    shade: Colour::hex(0x87818c),
    deep: Colour::hex(0x5b5661),
    umbra: Colour::hex(0x8d8890),
    cut: Colour::hex(0x000000),
    cut_umbra: Colour::hex(0x000000),
    cut_shade: Colour::hex(0x000000),
    ground: Colour::hex(0xf3efe6),
    ground_shade: Colour::hex(0x76717a),
    sky_high: Colour::hex(0xe9eef0),
    sky_low: Colour::hex(0xffffff),
    hill_far: Colour::hex(0xd6d6d0),
    hill_near: Colour::hex(0xc4c6bf),
};
