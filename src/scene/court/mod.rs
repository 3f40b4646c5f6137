//! The court: the instrument in perspective, in stone and shadow.
//!
//! # Draw order
//!
//! Later paint covers earlier paint, so the order must put what is nearer to the eye later. It is
//! found from the geometry, never by sorting depths:
//!
//! - Everything stands on the platform, and the eye is above it. What lies below that level is
//!   painted first: distance and paving, then the shadow there, the wall's base and the platform.
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
//! - Guides, ray, ring and labels are laid over the picture at the end; where stone hides a guide,
//!   its line is broken.
//!
//! The order is cut into sheets ([`Layer`]), so that what has not changed need not be painted again.

mod ambient;
mod body;
mod cast;
mod compass;
mod cone;
mod convex;
mod distance;
mod easel;
mod flight;
mod graduation;
mod ground;
mod guide_pen;
mod guides;
mod label;
mod layer;
mod light;
mod person;
mod plan;
mod quadrant;
mod ray;
mod rod;
mod run;
mod scale;
#[cfg(test)]
mod shadow_tests;
mod staff;
mod stone;
mod support;
mod surface;
#[cfg(test)]
mod tests;
mod view;
mod wall;

use std::f64::consts::FRAC_PI_2;

use glam::{DVec2, DVec3};

use crate::core::instrument::{Instrument, Side};
use crate::core::moment::Moment;
use crate::core::pointer::Pointer;
use crate::scene::camera::Camera;
use crate::scene::drawing::Drawing;
use crate::scene::guide::{Guide, Strengths};
use crate::scene::palette::Palette;
use crate::words::Words;

use body::{Body, bodies};
use cast::Caster;
use compass::Compass;
use convex::bounds;
use easel::Easel;
use graduation::Engraving;
use guides::Guides;
use label::Labels;
pub use layer::Layer;
use light::Light;
use person::Person;
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
    /// How strongly each guide is drawn.
    pub guides: Strengths,
    /// Whether the page's buttons lie over an upper corner and the lower edge.
    pub covered: bool,
    /// Whether the picture is in motion, so that what is too fine to be seen then is left out.
    pub in_motion: bool,
}

/// Draws the whole court over an emptied drawing.
pub fn draw(
    drawing: &mut Drawing,
    instrument: &Instrument,
    moment: &Moment,
    court: &CourtView<'_>,
) {
    drawing.restart(court.size);
    draw_layers(instrument, moment, court, &Layer::ALL, |_, draw| draw(drawing));
}

/// Draws some sheets of the court. Each is handed to `sheet` with what adds it to a drawing of the
/// court's size.
pub fn draw_layers(
    instrument: &Instrument,
    moment: &Moment,
    court: &CourtView<'_>,
    layers: &[Layer],
    mut sheet: impl FnMut(Layer, &mut dyn FnMut(&mut Drawing)),
) {
    with_scene(instrument, moment, court, |scene, view| {
        for &layer in layers {
            sheet(layer, &mut |drawing| scene.paint(&mut Easel::new(drawing, view), layer));
        }
    });
}

/// Sets the instrument up under its light and before the eye.
fn with_scene(
    instrument: &Instrument,
    moment: &Moment,
    court: &CourtView<'_>,
    use_it: impl FnOnce(&Scene<'_>, &View),
) {
    let plan = Plan::new(instrument);
    let guides = (!court.guides.are_none())
        .then(|| Guides::new(instrument, &plan, moment, court.words, court.guides));
    let room = guides.as_ref().map(Guides::room).unwrap_or_default();
    let mut view = View::with_room(court.camera, &plan, court.size, &room, court.covered);
    view.in_motion = court.in_motion;
    let light = Light::new(&plan, moment, court.palette);
    let staff = Staff::new(&plan);
    let mut bodies = bodies(&plan);
    let person = Person::new(&plan, &staff);
    bodies.push(staff.body());
    bodies.extend(person.map(|person| person.body()));
    let caster = light.sun_is_up().then(|| Caster::new(&bodies, light.to_sun, plan.unit));
    let scene = Scene {
        instrument,
        moment,
        court,
        plan: &plan,
        light: &light,
        bodies: &bodies,
        caster: caster.as_ref(),
        staff,
        person,
        guides,
        rod: court.pointer.map(|pointer| Rod::new(instrument, &plan, pointer, moment)),
    };
    use_it(&scene, &view);
}

/// The instrument under its light.
struct Scene<'a> {
    instrument: &'a Instrument,
    moment: &'a Moment,
    court: &'a CourtView<'a>,
    plan: &'a Plan,
    light: &'a Light<'a>,
    bodies: &'a [Body],
    caster: Option<&'a Caster<'a>>,
    staff: Staff,
    person: Option<Person>,
    guides: Option<Guides<'a>>,
    rod: Option<Rod<'a>>,
}

impl Scene<'_> {
    /// Paints one sheet. All of them, one after the other, go from below and from the far sides
    /// towards the eye.
    fn paint(&self, easel: &mut Easel<'_>, layer: Layer) {
        let (back, middle, front) = self.masonry(easel.view.eye.x);
        match layer {
            Layer::Land => self.paint_land(easel),
            Layer::Ground => self.paint_ground(easel),
            Layer::Back => self.paint_part(easel, back),
            Layer::Middle => self.paint_part(easel, middle),
            Layer::Front => {
                self.paint_part(easel, front);
                if !self.staff.is_beyond(easel.view.eye.x) {
                    self.paint_scale(easel);
                }
            }
            Layer::Signs => self.paint_signs(easel),
        }
    }

    /// Quadrants and wall (`None`) from the far sides towards the eye.
    fn masonry(&self, eye: f64) -> (Option<Side>, Option<Side>, Option<Side>) {
        let (west, east) = (Some(Side::West), Some(Side::East));
        if eye >= self.plan.half_wall {
            (west, None, east)
        } else if eye <= -self.plan.half_wall {
            (east, None, west)
        } else {
            (west, east, None)
        }
    }

    fn paint_land(&self, easel: &mut Easel<'_>) {
        ground::paint_land(easel, self.plan, self.light);
        Compass::new(self.plan).paint(easel, self.light);
    }

    fn paint_ground(&self, easel: &mut Easel<'_>) {
        ground::paint_shadow_on_paving(easel, self.plan, self.light, self.bodies);
        if self.staff.is_beyond(easel.view.eye.x) {
            self.paint_scale(easel);
        }
        ground::paint_bases(easel, self.plan, self.light, self.bodies, self.caster);
    }

    /// Paints what tells the size: staff and person, the nearer of the two later.
    fn paint_scale(&self, easel: &mut Easel<'_>) {
        let before = easel.view.eye.y > self.staff.foot().y;
        if let Some(person) = self.person.filter(|_| before) {
            person.paint(easel, self.light);
        }
        self.staff.paint(easel, self.light);
        if let Some(person) = self.person.filter(|_| !before) {
            person.paint(easel, self.light);
        }
    }

    /// Paints a quadrant, or the wall.
    fn paint_part(&self, easel: &mut Easel<'_>, part: Option<Side>) {
        match part {
            Some(side) => self.paint_arm(easel, side),
            None => self.paint_wall(easel),
        }
    }

    /// Lays ray, ring and texts over the picture, the most important first.
    fn paint_signs(&self, easel: &mut Easel<'_>) {
        let court = self.court;
        let leftwards = court.words.right_to_left();
        let mut labels = Labels::new(
            court.palette,
            self.light.inks(),
            court.size,
            court.label_px,
            court.covered,
            leftwards,
        );
        // Where the type is large for a room, so are lines and arrows.
        easel.pen *= (court.label_px / label::SMALLEST_PX).sqrt().clamp(1.0, 1.5);
        let mut lines = Vec::new();
        let under_dome = self.guides.as_ref().is_some_and(|guides| guides.sun().is_some());
        if let Some(guides) = &self.guides {
            lines = guides.paint(easel, self.bodies, court.palette);
            if !self.staff.is_beyond(easel.view.eye.x) {
                // They stand before whatever is drawn on the stone.
                self.paint_scale(easel);
            }
            guides.keep_clear(easel, &mut labels);
        }
        self.keep_off_stone(easel, &mut labels);
        self.note_compass(easel, &mut labels);
        let ray = Ray::new(self.plan, self.light, self.moment, under_dome);
        let to_sun =
            ray.as_ref().and_then(|ray| ray.paint(easel, self.bodies, &mut labels, court.words));
        lines.into_iter().for_each(|line| labels.keep_off(line));
        self.note_quadrants(easel, &mut labels);
        if let (Some(ray), Some(to_sun)) = (&ray, to_sun) {
            ray.note_sun(easel, &mut labels, court.words, to_sun);
        }
        if let Some(guides) = &self.guides {
            guides.write(easel, self.bodies, &mut labels, court.palette);
        }
        if let Some(rod) = &self.rod {
            self.note_rod(easel, &mut labels, rod);
        }
        let length = self.staff.length_m.to_string();
        let length = court.words.fill("court.staff", &[("length", &length)]);
        let places = [(0.0, -1.0), (1.0, 0.0), (-1.0, 0.0)];
        self.paint_label(easel, &mut labels, self.staff.top(), &length, &places);
    }

    /// The compass's letter; no text comes to lie on the needle.
    fn note_compass(&self, easel: &mut Easel<'_>, labels: &mut Labels<'_>) {
        // The horizon's own letters tell more.
        if self.court.guides.of(Guide::Horizon) > 0.0 {
            return;
        }
        let compass = Compass::new(self.plan);
        let places = [(0.0, 0.0), (0.0, -1.0), (1.0, 0.0), (-1.0, 0.0)];
        let north = self.court.words.say("court.north");
        if self.paint_label(easel, labels, compass.letter(), north, &places) {
            let mut needle = Vec::new();
            easel.view.polygon(&mut compass.tips().into_iter(), &mut needle);
            labels.keep_out(bounds(&needle));
        }
    }

    /// Says at the upper end of each quadrant which one it is: above it, or else outside.
    fn note_quadrants(&self, easel: &mut Easel<'_>, labels: &mut Labels<'_>) {
        let Some(foot) = easel.view.project(DVec3::ZERO) else { return };
        for side in Side::BOTH {
            let arm = Arm::new(self.plan, side);
            let rim = DVec3::new(0.0, self.plan.cos, self.plan.sin) * self.plan.half_slab;
            let inner = arm.point(arm.radius, 0.0, 0.0);
            let outer = arm.point(arm.outer(), 0.0, 0.0);
            let corners = [inner - rim, inner + rim, outer - rim, outer + rim];
            let end = inner.midpoint(outer) + DVec3::Z * (0.02 * self.plan.unit);
            // That of the farther one may look out over a wall that hides all else of it.
            let farther = easel.view.eye.x * side.sign() < 0.0;
            let within = arm.surface(0.8, 0.0) + arm.normal(0.8) * (0.02 * self.plan.unit);
            if self.sight(easel, end).is_none() || farther && self.sight(easel, within).is_none() {
                continue;
            }
            let mut seen = Vec::new();
            easel.view.polygon(&mut corners.into_iter(), &mut seen);
            let (low, high) = bounds(&seen);
            let middle = low.midpoint(high);
            let out = (middle.x - foot.x).signum();
            let aside = DVec2::new(if out < 0.0 { low.x } else { high.x }, middle.y);
            let above = DVec2::new(middle.x, low.y);
            let (long, short) = match side {
                Side::West => ("court.west", "court.west.short"),
                Side::East => ("court.east", "court.east.short"),
            };
            for key in [long, short] {
                let text = self.court.words.say(key);
                if labels.beside(easel.drawing, above, text, &[(0.0, -1.0)])
                    || labels.beside(easel.drawing, aside, text, &[(out, 0.0)])
                {
                    break;
                }
            }
        }
    }

    /// Sets a text at a point of space, if the eye can see it and there is room; tells whether.
    fn paint_label(
        &self,
        easel: &mut Easel<'_>,
        labels: &mut Labels<'_>,
        point: DVec3,
        text: &str,
        places: &[(f64, f64)],
    ) -> bool {
        let at = self.sight(easel, point);
        at.is_some_and(|at| labels.beside(easel.drawing, at, text, places))
    }

    /// The picture of a point, if the eye can see it.
    fn sight(&self, easel: &Easel<'_>, point: DVec3) -> Option<DVec2> {
        let hidden = Caster::blocked(self.bodies, point, easel.view.eye, 0.06 * self.plan.unit);
        easel.view.project(point).filter(|_| !hidden)
    }

    /// Names the rod, and its shadow where there is one to be seen.
    fn note_rod(&self, easel: &mut Easel<'_>, labels: &mut Labels<'_>, rod: &Rod<'_>) {
        let view = easel.view;
        let CourtView { words, palette, .. } = *self.court;
        let mut note = |point: DVec3, key: &str, places: &[(f64, f64)]| {
            if let Some(at) = self.sight(easel, point) {
                let text = words.say(key);
                labels.beside_any(easel.drawing, &[at], [text, text], places, (palette.ink, 1.0));
            }
        };
        note(rod.end(), "court.rod", &ray::BESIDE);
        let seen = |&(point, normal): &(DVec3, DVec3)| view.faces(point, normal);
        let shadow = rod.shadow_at().filter(|_| self.light.direct > 0.0).filter(seen);
        if let Some((point, _)) = shadow {
            // It is small: a line leads to it, and nothing lies on it.
            note(point, "court.rod-shadow", &[]);
        }
    }

    /// Keeps texts off the style's edges, the middle of the reading surfaces, where the numerals are,
    /// and what tells the size.
    fn keep_off_stone(&self, easel: &Easel<'_>, labels: &mut Labels<'_>) {
        const STEPS: u32 = 8;
        let mut keep_off = |from, to| {
            if let Some(line) = easel.view.segment(from, to) {
                labels.keep_off(line);
            }
        };
        keep_off(self.staff.foot(), self.staff.top());
        if let Some(person) = self.person {
            let [foot, head] = person.upright();
            keep_off(foot, head);
        }
        for side in Side::BOTH {
            let x = side.sign() * self.plan.half_wall;
            let [low, high] = self.plan.style_ends().map(|end| DVec3::new(x, end.x, end.y));
            keep_off(low, high);
            let arm = Arm::new(self.plan, side);
            let at = |k: u32| arm.surface(f64::from(k) / f64::from(STEPS) * FRAC_PI_2, 0.0);
            for k in 0..STEPS {
                keep_off(at(k), at(k + 1));
            }
        }
    }

    /// The wall, and the rod's half on it: the plane of the style parts them.
    fn paint_wall(&self, easel: &mut Easel<'_>) {
        let wall = Wall::new(self.instrument, self.plan, self.light, self.caster);
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
