//! What the page shows and does: one value.

use super::choice::{Choice, Shelf};
use super::coast::Coast;
use super::dial_time::DialTime;
use super::dirty::Dirty;
use super::edit::Editor;
use super::glide::{Glide, STANDPOINT_S};
use super::history::History;
use super::rod::Rod;
use super::speed::Speed;
use super::tick::Carry;
use super::travel::Travel;
use super::view::View;
use super::workings::Workings;
use crate::core::instrument::PRESETS;
use crate::core::ladder::Rounding;
use crate::core::light::LimbDarkening;
use crate::core::moment::Conditions;
use crate::core::sky::Air;
use crate::core::time::Instant;
use crate::scene::camera::{Camera, Standpoint};
use crate::scene::guide::{GuideSet, Strengths};
use crate::scene::palette::Theme;

/// The instant of a first visit: a clear mid-morning on the terrace, 9:52:47 by the Sun there.
const FIRST_INSTANT_MS: i64 = 1_792_304_674_000;

/// Part of the Sun's disc that a rod must hide for an eye to see its shadow, 0 to 1: an assumption,
/// without a source.
const LEAST_COVER: f64 = 0.03;

/// Everything the page shows that undo brings back; an address can name all but the shelf.
#[derive(Clone, Debug, PartialEq)]
pub struct Shown {
    /// The instrument.
    pub instrument: Choice,
    /// The person's own instruments.
    pub shelf: Shelf,
    /// Where it has gone from its site; `None` while nobody travels.
    pub travel: Option<Travel>,
    /// The instant.
    pub instant: Instant,
    /// Whether the air bends the light.
    pub refraction: bool,
    /// How bright the Sun's disc is towards its limb.
    pub limb: LimbDarkening,
    /// How the corrections are rounded.
    pub rounding: Rounding,
    /// The colours.
    pub theme: Theme,
    /// How fast it plays.
    pub speed: Speed,
    /// From where the court is seen.
    pub view: View,
    /// Which guides are laid over the court.
    pub guides: GuideSet,
    /// Middle of the lens, local apparent time in seconds; `None` follows the shadow's edge.
    pub lens_s: Option<f64>,
    /// Whether the limits of the soft edge are marked in the lens.
    pub limits: bool,
    /// Whether the pass through noon stands in the lens's place.
    pub noon: bool,
    /// The rod on the style, when one is held there.
    pub rod: Option<Rod>,
    /// Part of the Sun's disc that the rod must hide for the eye to see its shadow, 0 to 1.
    pub least_cover: f64,
}

impl Shown {
    /// What a first visit shows.
    #[must_use]
    pub fn first() -> Self {
        Self {
            instrument: Choice::BuiltIn(&PRESETS[0]),
            shelf: Shelf::default(),
            travel: None,
            instant: first_instant(),
            refraction: true,
            limb: LimbDarkening::default(),
            rounding: Rounding::None,
            theme: Theme::Day,
            speed: Speed::default(),
            view: View::from(Standpoint::ALL[0]),
            guides: GuideSet::default(),
            lens_s: None,
            limits: false,
            noon: false,
            rod: None,
            least_cover: LEAST_COVER,
        }
    }

    /// The conditions under which the moment is computed.
    #[must_use]
    pub fn conditions(&self) -> Conditions {
        Conditions {
            air: self.refraction.then(Air::default),
            rounding: self.rounding,
            limb: self.limb,
        }
    }
}

/// The instant of a first visit.
fn first_instant() -> Instant {
    // In range by construction; were it not, the beginning of the era in use is.
    Instant::from_unix_ms(FIRST_INSTANT_MS).unwrap_or(Instant::FIRST)
}

/// Something the page has to tell, beside what it shows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Notice(pub String);

/// The page's whole state.
#[derive(Clone, Debug)]
pub struct State {
    /// What is shown, or will be once a glide has ended.
    pub shown: Shown,
    /// Whether the clock runs.
    pub playing: bool,
    /// Whether play is passing through noon: it is slow then, and ends by itself.
    pub noon_pass: bool,
    /// Whether the moment follows the clock on the wall.
    pub following_now: bool,
    /// Whether the page presents: the court and what a room has to see, in large type.
    pub presenting: bool,
    /// Whether motion is to be kept to a minimum.
    pub reduced_motion: bool,
    /// The editor of instruments.
    pub editor: Editor,
    /// Messages not yet dismissed, oldest first.
    pub notices: Vec<Notice>,
    /// What was shown before.
    pub history: History,
    /// The moment's way to where it jumps.
    pub jump: Option<Glide<DialTime>>,
    /// The camera's way to its standpoint.
    pub walk: Option<Glide<Camera>>,
    /// The camera's turning after a hand has let it go.
    pub coast: Option<Coast>,
    /// The guides' way to how strongly they are to be drawn.
    pub fade: Option<Glide<Strengths>>,
    /// Play that has not yet filled a whole step.
    pub carry: Carry,
}

impl State {
    /// A first visit.
    #[must_use]
    pub fn first() -> Self {
        Self {
            shown: Shown::first(),
            playing: false,
            noon_pass: false,
            following_now: false,
            presenting: false,
            reduced_motion: false,
            editor: Editor::default(),
            notices: Vec::new(),
            history: History::default(),
            jump: None,
            walk: None,
            coast: None,
            fade: None,
            carry: Carry::default(),
        }
    }

    /// Forgets where it came from: nothing glides, and there is nothing to go back to.
    pub fn settle(&mut self) {
        self.history = History::default();
        (self.jump, self.walk, self.fade) = (None, None, None);
    }

    /// Whether the page moves by itself.
    #[must_use]
    pub fn is_moving(&self) -> bool {
        self.playing
            || self.jump.is_some()
            || self.walk.is_some()
            || self.coast.is_some()
            || self.fade.is_some()
    }

    /// What stands on the screen: what is shown, but for the glides under way.
    #[must_use]
    pub fn on_screen(&self, workings: &mut Workings) -> Shown {
        let mut seen = self.shown.clone();
        if let Some(jump) = &self.jump {
            let goal = workings.dial_time(self.shown.instant);
            let between = jump.from.towards(&goal, jump.share());
            seen.instant = workings.instant(between).unwrap_or(seen.instant);
        }
        seen
    }

    /// The camera on the screen.
    #[must_use]
    pub fn camera(&self, workings: &Workings) -> Camera {
        let goal = self.shown.view.camera(workings.instrument(), workings.hour_angle_rad());
        self.walk.map_or(goal, |walk| walk.from.blended(goal, walk.share()))
    }

    /// How strongly the guides stand on the screen.
    #[must_use]
    pub fn guides(&self) -> Strengths {
        let goal = Strengths::from(self.shown.guides);
        self.fade.map_or(goal, |fade| fade.from.towards(&goal, fade.share()))
    }

    /// Brings the workings up to date; a camera beside the shadow's edge then goes after it.
    pub fn refresh(&mut self, workings: &mut Workings, seen: &Shown) -> Dirty {
        let from = self.camera(workings);
        workings.refresh(seen);
        let beside_edge = self.shown.view.standpoint == Standpoint::BesideEdge;
        if beside_edge && self.walk_from(from, workings) { Dirty::COURT } else { Dirty::NOTHING }
    }

    /// Lets the camera walk to where it is now to be from where it was, unless motion is reduced.
    /// Tells whether it has any way to go.
    pub fn walk_from(&mut self, from: Camera, workings: &Workings) -> bool {
        let away = from != self.camera(workings);
        if away && !self.reduced_motion {
            self.walk = Some(Glide::new(from, STANDPOINT_S));
        }
        away
    }

    /// Lets the camera stand where it is to be.
    pub fn stand(&mut self) {
        self.walk = None;
        self.coast = None;
    }

    /// Tells something.
    pub fn tell(&mut self, sentence: String) -> Dirty {
        self.notices.push(Notice(sentence));
        Dirty::NOTICES
    }
}
