//! The court: the instrument in perspective, in stone and shadow.
//!
//! # Draw order
//!
//! Later paint covers earlier paint, so the order must put what is nearer to the eye later. It is
//! found from the geometry, never by sorting depths:
//!
//! - Everything stands on the platform, and the eye is above it. What lies below that level is
//!   painted first: distance and paving, which are a picture of their own, then the shadow there,
//!   the wall's base and the platform.
//! - Above it, upright planes `x = const` (across the wall) cut the instrument into slices: those
//!   of the west quadrant, the wall's parapet, steps and parapet, those of the east quadrant, the
//!   staff. A plane hides nothing on the eye's side of it, so slices are painted from either far
//!   end towards the eye's own `x`: exact, however the eye stands.
//! - A slice of a quadrant is a piece of stone and of the support under it. The plane of the
//!   stone's underside parts them: the part on the eye's side comes last. (A steep quadrant rests
//!   with its low end too; then three parts meet in an edge, and three planes decide.) Each part
//!   is convex: faces turned away are left out, and the rest do not overlap.
//! - Neighbouring slices that show the same sides form a run. Within a run faces of one kind can't
//!   hide each other: they lie on a curved surface that is seen from one side throughout. So a run
//!   is painted kind by kind, and neighbours of one tone become one mark.
//! - Divisions and numerals lie on the slices: marks are painted with their run, a numeral after
//!   the last run it spans.
//! - Ray, ring and labels are laid over the picture at the end.

mod body;
mod cast;
mod compass;
mod convex;
mod distance;
mod easel;
mod flight;
mod graduation;
mod ground;
mod label;
mod light;
mod numeral;
mod plan;
mod quadrant;
mod ray;
mod rod;
mod run;
mod scale;
mod staff;
mod stone;
mod support;
mod surface;
#[cfg(test)]
mod tests;
mod view;
mod wall;

use glam::{DVec2, DVec3};

use crate::core::instrument::{Instrument, Side};
use crate::core::moment::Moment;
use crate::core::pointer::Pointer;
use crate::scene::camera::Camera;
use crate::scene::drawing::Drawing;
use crate::scene::palette::Palette;
use crate::words::Words;

use body::{Body, bodies};
use cast::Caster;
use compass::Compass;
use easel::Easel;
use graduation::Engraving;
use label::Labels;
use light::Light;
use plan::{Arm, Plan};
use quadrant::Quadrant;
use ray::Ray;
use rod::Rod;
use staff::Staff;
use surface::Surface;
use view::View;
use wall::Wall;

/// What the court is drawn with, besides the instrument and the moment.
#[derive(Clone, Copy, Debug)]
pub struct CourtView<'a> {
    /// Width and height, CSS pixels.
    pub size: DVec2,
    /// Where the eye is.
    pub camera: &'a Camera,
    /// Colours.
    pub palette: &'a Palette,
    /// Words of the labels.
    pub words: &'a Words,
    /// The rod on the style, if one is held there.
    pub pointer: Option<&'a Pointer>,
    /// Size of the labels, CSS pixels.
    pub label_px: f64,
}

/// Draws what lies behind and under the instrument over an emptied drawing: sky, hills, paving.
/// It changes with the standpoint and the light of day, hardly with the moment.
pub fn draw_land(
    drawing: &mut Drawing,
    instrument: &Instrument,
    moment: &Moment,
    court: &CourtView<'_>,
) {
    drawing.restart(court.size);
    let plan = Plan::new(instrument);
    let view = View::new(court.camera, &plan, court.size);
    let light = Light::new(&plan, moment, court.palette);
    let mut easel = Easel::new(drawing, &view);
    ground::paint_land(&mut easel, &plan, &light);
    Compass::new(&plan).paint(&mut easel, &light);
}

/// Draws the instrument and the shadows about it, which stand over the land, over an emptied
/// drawing.
pub fn draw(
    drawing: &mut Drawing,
    instrument: &Instrument,
    moment: &Moment,
    court: &CourtView<'_>,
) {
    drawing.restart(court.size);
    let plan = Plan::new(instrument);
    let view = View::new(court.camera, &plan, court.size);
    paint(&mut Easel::new(drawing, &view), &plan, instrument, moment, court);
}

/// Paints the court on an easel set up for it.
fn paint(
    easel: &mut Easel<'_>,
    plan: &Plan,
    instrument: &Instrument,
    moment: &Moment,
    court: &CourtView<'_>,
) {
    let light = Light::new(plan, moment, court.palette);
    let staff = Staff::new(plan);
    let mut bodies = bodies(plan);
    bodies.push(staff.body());
    let caster = light.sun_is_up().then(|| Caster::new(&bodies, light.to_sun, plan.unit));
    let scene = Scene {
        instrument,
        plan,
        light: &light,
        bodies: &bodies,
        caster: caster.as_ref(),
        staff,
        compass: Compass::new(plan),
        rod: court.pointer.map(|pointer| Rod::new(instrument, plan, pointer, moment)),
    };
    scene.paint(easel);
    scene.paint_labels(easel, moment, court);
}

/// The instrument under its light.
struct Scene<'a> {
    instrument: &'a Instrument,
    plan: &'a Plan,
    light: &'a Light<'a>,
    bodies: &'a [Body],
    caster: Option<&'a Caster<'a>>,
    staff: Staff,
    compass: Compass,
    rod: Option<Rod<'a>>,
}

impl Scene<'_> {
    /// Paints everything in space, from below and from the far sides towards the eye.
    fn paint(&self, easel: &mut Easel<'_>) {
        let eye = easel.view.eye.x;
        let staff_first = self.staff.is_beyond(eye);
        ground::paint_shadow_on_paving(easel, self.plan, self.light, self.bodies);
        if staff_first {
            self.staff.paint(easel, self.light);
        }
        ground::paint_bases(easel, self.plan, self.light, self.bodies, self.caster);
        let wall = Wall::new(self.instrument, self.plan, self.light, self.caster);
        if eye >= self.plan.half_wall {
            self.paint_arm(easel, Side::West);
            self.paint_wall(easel, &wall);
            self.paint_arm(easel, Side::East);
        } else if eye <= -self.plan.half_wall {
            self.paint_arm(easel, Side::East);
            self.paint_wall(easel, &wall);
            self.paint_arm(easel, Side::West);
        } else {
            self.paint_arm(easel, Side::West);
            self.paint_arm(easel, Side::East);
            self.paint_wall(easel, &wall);
        }
        if !staff_first {
            self.staff.paint(easel, self.light);
        }
    }

    /// Lays ray, ring and texts over the picture, the most important first.
    fn paint_labels(&self, easel: &mut Easel<'_>, moment: &Moment, court: &CourtView<'_>) {
        let mut labels = Labels::new(court.palette, court.size, court.label_px);
        if let Some(ray) = Ray::new(self.plan, self.light, moment) {
            ray.paint(easel, self.bodies, &mut labels, court.words);
        }
        let length = self.staff.length_m.to_string();
        let length = court.words.fill("court.staff", &[("length", &length)]);
        self.paint_label(easel, &mut labels, self.staff.top(), &length, (0.0, -1.0));
        let north = court.words.say("court.north");
        self.paint_label(easel, &mut labels, self.compass.letter(), north, (0.0, 0.0));
    }

    /// Sets a text at a point of space that the eye can see.
    fn paint_label(
        &self,
        easel: &mut Easel<'_>,
        labels: &mut Labels<'_>,
        point: DVec3,
        text: &str,
        place: (f64, f64),
    ) {
        let hidden = Caster::blocked(self.bodies, point, easel.view.eye, 0.06 * self.plan.unit);
        if let Some(at) = easel.view.project(point).filter(|_| !hidden) {
            labels.beside(easel.drawing, at, text, &[place]);
        }
    }

    /// The wall, and the rod's half on it: the plane of the style parts them.
    fn paint_wall(&self, easel: &mut Easel<'_>, wall: &Wall<'_>) {
        self.paint_parted(easel, None, |easel| wall.paint(easel));
    }

    /// A quadrant, and the rod's half over it: again the plane of the style parts them.
    fn paint_arm(&self, easel: &mut Easel<'_>, side: Side) {
        self.paint_parted(easel, Some(side), |easel| self.paint_quadrant(easel, side));
    }

    /// Paints what lies under the plane of the style and the rod's half above it, the nearer of
    /// the two later. `arm` is the quadrant over which that half stands, `None` the wall.
    fn paint_parted(
        &self,
        easel: &mut Easel<'_>,
        arm: Option<Side>,
        below: impl FnOnce(&mut Easel<'_>),
    ) {
        let rod = self.rod.as_ref().filter(|rod| arm.is_none_or(|side| side == rod.side));
        let above = self.plan.leaning(easel.view.eye).x > 0.0;
        if let Some(rod) = rod.filter(|_| !above) {
            rod.paint(easel, self.light, arm.is_some());
        }
        below(easel);
        if let Some(rod) = rod.filter(|_| above) {
            rod.paint(easel, self.light, arm.is_some());
        }
    }

    fn paint_quadrant(&self, easel: &mut Easel<'_>, side: Side) {
        let arm = Arm::new(self.plan, side);
        let mut quadrant = Quadrant {
            arm,
            surface: Surface::new(arm, self.light),
            light: self.light,
            caster: self.caster,
            engraving: Engraving::new(self.instrument, arm),
            rod: self.rod.as_ref().filter(|rod| rod.side == side),
            eye: arm.local(easel.view.eye),
        };
        quadrant.paint(easel);
    }
}
