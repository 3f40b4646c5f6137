//! The pictures of the page: which canvas, and what is drawn on it.

use glam::DVec2;
use wasm_bindgen::JsValue;

use super::find::{by_id, root_says};
use super::page_type;
use super::surface::{Size, Surface};
use crate::page::dirty::Dirty;
use crate::page::state::{Shown, State};
use crate::page::workings::Workings;
use crate::paint::aside::Aside;
use crate::scene::camera::Camera;
use crate::scene::caption;
use crate::scene::court::{self, CourtView, Layer};
use crate::scene::drawing::{Drawing, rectangle};
use crate::scene::guide::Strengths;
use crate::scene::lens::{self, LensView};
use crate::scene::noon::{self, NoonView};
use crate::scene::palette::Palette;
use crate::scene::scale::{self, ScaleView};
use crate::scene::strip::StripView;
use crate::scene::{day_strip, year_strip};
use crate::words::Words;

/// Pixels to a CSS pixel while the court is turned: more can't be told in motion.
const IN_MOTION: f64 = 1.0;

/// A picture of the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Picture {
    /// The court.
    Court,
    /// The lens.
    Lens,
    /// The day strip.
    Day,
    /// The year strip.
    Year,
    /// The declination scale.
    Scale,
    /// The pass through noon.
    Noon,
}

impl Picture {
    /// All pictures.
    pub(super) const ALL: [Self; 6] =
        [Self::Court, Self::Lens, Self::Day, Self::Year, Self::Scale, Self::Noon];

    /// Id of its canvas.
    pub(super) fn id(self) -> &'static str {
        match self {
            Self::Court => "court",
            Self::Lens => "lens",
            Self::Day => "day",
            Self::Year => "year",
            Self::Scale => "scale",
            Self::Noon => "noon-picture",
        }
    }

    /// What is out of date when it has to be drawn.
    pub(super) fn dirty(self) -> Dirty {
        match self {
            Self::Court => Dirty::COURT,
            Self::Lens => Dirty::LENS,
            Self::Day => Dirty::DAY,
            Self::Year => Dirty::YEAR,
            Self::Scale => Dirty::SCALE,
            Self::Noon => Dirty::NOON,
        }
    }
}

/// The canvases.
#[derive(Debug)]
pub(super) struct Pictures {
    /// The court's sheets, from the lowest up.
    court: [Surface; Layer::ALL.len()],
    /// The canvas over them that shows the court in motion, and what stands on it.
    aside: Aside,
    moving: Drawing,
    lens: Surface,
    day: Surface,
    year: Surface,
    scale: Surface,
    noon: Surface,
    /// Size of labels on the pictures, CSS pixels.
    label_px: f64,
}

/// What pictures are drawn from.
#[derive(Debug)]
pub(super) struct Scene<'a> {
    pub(super) shown: &'a Shown,
    pub(super) camera: &'a Camera,
    pub(super) guides: Strengths,
    pub(super) workings: &'a Workings,
    pub(super) words: &'a Words,
    /// Whether the page's buttons lie over the court.
    pub(super) covered: bool,
}

impl<'a> Scene<'a> {
    /// The scene on the screen.
    pub(super) fn new(
        shown: &'a Shown,
        camera: &'a Camera,
        guides: Strengths,
        workings: &'a Workings,
        words: &'a Words,
        covered: bool,
    ) -> Self {
        Self { shown, camera, guides, workings, words, covered }
    }

    fn palette(&self) -> &'static Palette {
        self.shown.theme.palette()
    }
}

impl Pictures {
    /// Finds the canvases.
    pub(super) fn new() -> Result<Self, JsValue> {
        Ok(Self {
            court: sheets()?,
            aside: Aside::new(&by_id("court-aside")?),
            moving: Drawing::default(),
            lens: Surface::new(Picture::Lens.id())?,
            day: Surface::new(Picture::Day.id())?,
            year: Surface::new(Picture::Year.id())?,
            scale: Surface::new(Picture::Scale.id())?,
            noon: Surface::new(Picture::Noon.id())?,
            label_px: page_type::label_px(),
        })
    }

    /// Takes another size of a canvas; the page's type may have changed as well.
    pub(super) fn resize(&mut self, picture: Picture, size: Size) {
        self.label_px = page_type::label_px();
        if picture == Picture::Court {
            self.court.iter_mut().for_each(|sheet| sheet.resize(size));
        } else {
            self.surface(picture).resize(size);
        }
    }

    fn surface(&mut self, picture: Picture) -> &mut Surface {
        match picture {
            Picture::Court => &mut self.court[0],
            Picture::Lens => &mut self.lens,
            Picture::Day => &mut self.day,
            Picture::Year => &mut self.year,
            Picture::Scale => &mut self.scale,
            Picture::Noon => &mut self.noon,
        }
    }

    /// Draws what is out of date.
    pub(super) fn draw(&mut self, dirty: Dirty, scene: &Scene<'_>, in_motion: bool) {
        for picture in Picture::ALL {
            if picture == Picture::Court {
                self.draw_court(dirty, scene, in_motion);
            } else if dirty.has(picture.dirty()) {
                self.draw_one(picture, scene);
            }
        }
    }

    /// Draws the sheets of the court that are out of date; in motion all of them on one canvas over
    /// them, which a thread of its own paints.
    fn draw_court(&mut self, dirty: Dirty, scene: &Scene<'_>, in_motion: bool) {
        let wanted: Vec<Layer> =
            Layer::ALL.into_iter().filter(|&layer| dirty.has(sheet_dirty(layer))).collect();
        if wanted.is_empty() {
            return;
        }
        let size = self.size(Picture::Court);
        let label_px = self.label_px;
        if in_motion && self.aside.works() && size.min_element() >= 1.0 {
            self.moving.restart(size);
            let mut sheet = |_, draw: &mut dyn FnMut(&mut Drawing)| draw(&mut self.moving);
            // While a tour asks for the reading, the style sheet hides the canvas of signs.
            let signs = usize::from(!root_says("data-tour", "asks"));
            let layers = &Layer::ALL[..Layer::ALL.len() - 1 + signs];
            draw_sheets(scene, (size, true), label_px, layers, &mut sheet);
            self.aside.paint(&self.moving, (size * IN_MOTION).round());
            return;
        }
        draw_sheets(scene, (size, in_motion), label_px, &wanted, &mut |layer, draw| {
            self.court[layer as usize].paint(|drawing, _| draw(drawing));
        });
        self.aside.clear();
    }

    fn draw_one(&mut self, picture: Picture, scene: &Scene<'_>) {
        let label_px = self.label_px;
        self.surface(picture).paint(|drawing, size| list(picture, scene, label_px, size, drawing));
    }

    /// A picture as it stands on the page, on paper and with a caption; `None` while it is hidden.
    pub(super) fn captioned(
        &mut self,
        picture: Picture,
        scene: &Scene<'_>,
        caption: &[String],
    ) -> Option<Drawing> {
        let size = self.size(picture);
        if size.x < 1.0 || size.y < 1.0 {
            return None;
        }
        let palette = scene.palette();
        let mut drawing = Drawing::new(size);
        drawing.fill(rectangle(DVec2::ZERO, size), palette.paper);
        list(picture, scene, self.label_px, size, &mut drawing);
        caption::add(&mut drawing, caption, palette, self.label_px);
        Some(drawing)
    }

    /// Width and height of a picture, CSS pixels.
    pub(super) fn size(&mut self, picture: Picture) -> DVec2 {
        self.surface(picture).css_size()
    }

    /// How a strip is drawn.
    pub(super) fn strip_view<'a>(
        &mut self,
        picture: Picture,
        state: &State,
        words: &'a Words,
    ) -> StripView<'a> {
        let size = self.size(picture);
        StripView { size, palette: state.shown.theme.palette(), words, label_px: self.label_px }
    }

    /// How the lens is drawn.
    pub(super) fn lens_view<'a>(&mut self, state: &State, words: &'a Words) -> LensView<'a> {
        let size = self.size(Picture::Lens);
        lens_view(size, words, &state.shown, self.label_px)
    }
}

/// Takes a sheet of the court and what draws it.
type Sheet<'a> = dyn FnMut(Layer, &mut dyn FnMut(&mut Drawing)) + 'a;

/// Draws some sheets of a court of some size, in motion or not, each handed to `sheet` with what
/// draws it.
fn draw_sheets(
    scene: &Scene<'_>,
    (size, in_motion): (DVec2, bool),
    label_px: f64,
    layers: &[Layer],
    sheet: &mut Sheet<'_>,
) {
    let Scene { shown, camera, guides, workings, words, covered } = *scene;
    let (instrument, moment) = (workings.instrument(), workings.moment());
    let pointer = shown.rod.and_then(|rod| rod.pointer(instrument).ok());
    let view = CourtView {
        size,
        camera,
        palette: scene.palette(),
        words,
        pointer: pointer.as_ref(),
        label_px,
        guides,
        covered,
        in_motion,
    };
    court::draw_layers(instrument, moment, &view, layers, sheet);
}

/// Adds a picture to a drawing of its size.
fn list(picture: Picture, scene: &Scene<'_>, label_px: f64, size: DVec2, drawing: &mut Drawing) {
    let Scene { shown, workings, words, .. } = *scene;
    let palette = scene.palette();
    let (instrument, moment) = (workings.instrument(), workings.moment());
    let pointer = shown.rod.and_then(|rod| rod.pointer(instrument).ok());
    let strip = StripView { size, palette, words, label_px };
    match picture {
        Picture::Court => {
            draw_sheets(scene, (size, false), label_px, &Layer::ALL, &mut |_, draw| draw(drawing));
        }
        Picture::Lens => {
            let view = lens_view(size, words, shown, label_px);
            lens::draw(drawing, instrument, moment, &view);
        }
        Picture::Day => day_strip::draw(drawing, instrument, moment, workings.day(), &strip),
        Picture::Year => year_strip::draw(drawing, instrument, moment, workings.year(), &strip),
        Picture::Scale => {
            if let Some(pointer) = &pointer {
                let least_cover = shown.least_cover;
                let view = ScaleView { size, palette, words, pointer, least_cover, label_px };
                scale::draw(drawing, instrument, moment, &view);
            }
        }
        Picture::Noon => {
            let view = NoonView { size, palette, words, label_px };
            if let Some(pass) = &workings.day().noon {
                noon::draw(drawing, instrument, moment, pass, &view);
            }
        }
    }
}

/// How the lens is drawn.
fn lens_view<'a>(size: DVec2, words: &'a Words, shown: &Shown, label_px: f64) -> LensView<'a> {
    let Shown { lens_s, limits, .. } = *shown;
    let palette = shown.theme.palette();
    LensView { size, palette, words, centre_s: lens_s, label_px, limits }
}

/// The court's canvases, as they lie over one another in the page.
fn sheets() -> Result<[Surface; Layer::ALL.len()], JsValue> {
    let [land, ground, back, middle, front, signs] = Layer::ALL;
    let whole = |layer| Surface::new(sheet_id(layer));
    let fitted = |layer| Ok::<_, JsValue>(whole(layer)?.fitted());
    Ok([
        whole(land)?,
        fitted(ground)?,
        fitted(back)?,
        fitted(middle)?,
        fitted(front)?,
        fitted(signs)?,
    ])
}

/// Id of a sheet's canvas. The lowest is as large as the picture, and stands for all of it.
fn sheet_id(layer: Layer) -> &'static str {
    match layer {
        Layer::Land => Picture::Court.id(),
        Layer::Ground => "court-ground",
        Layer::Back => "court-back",
        Layer::Middle => "court-middle",
        Layer::Front => "court-front",
        Layer::Signs => "court-signs",
    }
}

/// What is out of date when a sheet has to be drawn.
fn sheet_dirty(layer: Layer) -> Dirty {
    match layer {
        Layer::Land => Dirty::LAND,
        Layer::Ground => Dirty::GROUND,
        Layer::Back => Dirty::BACK,
        Layer::Middle => Dirty::MIDDLE,
        Layer::Front => Dirty::FRONT,
        Layer::Signs => Dirty::SIGNS,
    }
}
