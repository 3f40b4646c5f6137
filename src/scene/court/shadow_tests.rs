//! Shadows as they stand on the finished drawing, against the core's: at random cameras and
//! instants, points of the stone and of the paving are looked up in the list of marks.

use glam::{DVec2, DVec3};
use proptest::prelude::*;

use super::body::{Body, bodies, platform};
use super::cast::Caster;
use super::ground::SHADOW;
use super::light::Light;
use super::person::Person;
use super::plan::{Arm, Plan};
use super::staff::Staff;
use super::surface::Surface;
use super::tests::{any_camera, any_instant, moment_of, view_of};
use super::view::View;
use super::{CourtView, Layer, draw_layers};
use crate::core::instrument::{Instrument, PRESETS, Side};
use crate::core::moment::Moment;
use crate::core::shadow::{ground_shadow, sees_sun};
use crate::scene::camera::{Camera, Standpoint};
use crate::scene::drawing::{Colour, Drawing, Mark};
use crate::words::Words;

const SIZE: DVec2 = DVec2::new(876.0, 516.0);
/// A place is taken for lit or shaded if all within so many pixels is, too.
const SURE_PX: f64 = 2.5;
/// Lower than this the Sun is left out, as the sine of its altitude: shadows are endless then.
const LOWEST: f64 = 0.12;
/// How near a colour must be to what it should be, as a share of its distance from the other.
const NEAR: f64 = 0.2;

/// Whether a point is inside contours, by the non-zero rule.
fn inside<'a>(contours: impl Iterator<Item = &'a [DVec2]>, at: DVec2) -> bool {
    let mut winding = 0;
    for contour in contours {
        let next = contour.iter().cycle().skip(1);
        for (&a, &b) in contour.iter().zip(next) {
            if (a.y <= at.y) != (b.y <= at.y) {
                let left = (b - a).perp_dot(at - a) > 0.0;
                winding += i32::from(left == (b.y > a.y)) * if b.y > a.y { 1 } else { -1 };
            }
        }
    }
    winding != 0
}

/// The colour that the fills leave at a pixel; `None` where a gradient lies. Lines and engraving,
/// known by its colours, are left out.
fn colour_at(drawing: &Drawing, at: DVec2, engraving: &[Colour]) -> Option<DVec3> {
    let mut clips: Vec<bool> = Vec::new();
    let mut seen = None;
    for mark in drawing.marks() {
        match mark {
            Mark::Clip { contours } => clips.push(inside(drawing.contours(contours), at)),
            Mark::Unclip => drop(clips.pop()),
            _ if clips.contains(&false) => {}
            Mark::Fill { contours, colour } => {
                if !engraving.contains(colour) && inside(drawing.contours(contours), at) {
                    let share = f64::from(colour.alpha) / 255.0;
                    seen = match seen {
                        _ if share == 1.0 => Some(rgb(*colour)),
                        under => under.map(|under: DVec3| under.lerp(rgb(*colour), share)),
                    };
                }
            }
            Mark::Gradient { contours, .. } => {
                if inside(drawing.contours(contours), at) {
                    seen = None;
                }
            }
            Mark::Line { .. } | Mark::Text { .. } => {}
        }
    }
    seen
}

fn rgb(colour: Colour) -> DVec3 {
    DVec3::from(colour.rgb.map(f64::from))
}

/// One court with its drawing.
struct Court<'a> {
    instrument: &'a Instrument,
    moment: &'a Moment,
    plan: &'a Plan,
    light: &'a Light<'a>,
    view: &'a View,
    drawing: &'a Drawing,
    bodies: Vec<Body>,
    /// Staff and person, whose shadows the core knows nothing of.
    beside: Vec<Body>,
}

impl Court<'_> {
    /// Whether a colour is that of the light; `None` if it is neither that nor the shadow's.
    fn is_lit(&self, at: DVec2, inks: &[Colour], (lit, dark): (Colour, Colour)) -> Option<bool> {
        let colour = colour_at(self.drawing, at, inks)?;
        let (lit, dark) = (rgb(lit), rgb(dark));
        let reach = NEAR * lit.distance(dark);
        match (colour.distance(lit) < reach, colour.distance(dark) < reach) {
            (true, _) => Some(true),
            (_, true) => Some(false),
            _ => None,
        }
    }

    /// Where the eye sees a point of a face and all round it, if it does, and not at a grazing angle.
    fn sees(&self, point: DVec3, normal: DVec3) -> Option<DVec2> {
        let eye = self.view.eye;
        let sun = point + self.light.to_sun * (50.0 * self.plan.unit);
        if Caster::blocked(&self.beside, point, sun, 0.0) {
            return None;
        }
        // The bodies are cut into chords, which stand a little before or behind the arc.
        let lifted = point + normal * (0.01 * self.plan.unit);
        let sight = (eye - point).normalize();
        let across = sight.any_orthonormal_vector();
        let around = [across, -across, sight.cross(across), across.cross(sight), DVec3::ZERO];
        let reach = 2.0 * SURE_PX / self.view.scale_at(point);
        let hidden = around.into_iter().any(|aside| {
            Caster::blocked(&self.bodies, lifted + aside * reach, eye, 1e-4 * self.plan.unit)
        });
        let square = sight.dot(normal) > 0.15;
        self.view.project(point).filter(|at| {
            square && !hidden && at.cmpgt(DVec2::splat(4.0)).all() && at.cmplt(SIZE - 4.0).all()
        })
    }

    /// What the core says of a point of a quadrant; `None` near a border of the shadow.
    fn core_on_stone(&self, side: Side, angle: f64, s: f64) -> Option<bool> {
        let arm = Arm::new(self.plan, side);
        let px = SURE_PX / self.view.scale_at(arm.surface(angle, s));
        let soft = 1.3 * self.light.semidiameter_rad / self.light.declination_rad.cos();
        // The stone has a rim that the core's bare surface has not.
        let rim = 1.2 * (self.plan.half_slab - self.plan.half_breadth);
        let (turn, shift) = (2.0 * soft + 3.0 * px / arm.radius, rim + 3.0 * px);
        let mut first = None;
        for (i, j) in (-1..=1).flat_map(|i| (-1..=1).map(move |j| (i, j))) {
            let angle = (angle + f64::from(i) * turn).clamp(0.0, std::f64::consts::FRAC_PI_2);
            let s = (s + f64::from(j) * shift) * self.plan.sigma;
            let (sun, signed) = (self.moment.on_dial, angle * side.sign());
            let lit = sees_sun(self.instrument, sun, side, signed, s);
            if *first.get_or_insert(lit) != lit {
                return None;
            }
        }
        first
    }

    /// What the core says of the wall's shadow at a point of the paving, and the bodies of the
    /// quadrants'; `None` near a border of either.
    fn core_on_paving(&self, site: DVec2) -> Option<bool> {
        let ground = self.plan.ground;
        let to_sun = self.moment.sun.seen.vector;
        let across = to_sun.any_orthonormal_vector();
        let down = to_sun.cross(across);
        let at = self.plan.to_court(site.extend(ground));
        let step = SURE_PX / self.view.scale_at(at) * 3.0;
        let mut first = None;
        for k in 0..8 {
            let turn = DVec2::from_angle(f64::from(k) * std::f64::consts::FRAC_PI_4);
            let rim = turn * (1.2 * self.light.semidiameter_rad);
            let sun = (to_sun + across * rim.x + down * rim.y).normalize();
            let outline = ground_shadow(self.instrument, sun)?;
            for site in [site, site + turn * step] {
                let from = self.plan.to_court(site.extend(ground + 1e-6));
                let to = from + self.plan.to_court(sun) * (100.0 * self.plan.unit);
                // The first body is the wall, unless it has two.
                let walls = self.plan.wall.len() / 2 - 1;
                let shaded = inside(std::iter::once(outline.as_slice()), site)
                    || Caster::blocked(&self.bodies[walls..], from, to, 0.0);
                if *first.get_or_insert(!shaded) == shaded {
                    return None;
                }
            }
        }
        first
    }

    fn check_stone(
        &self,
        side: Side,
        (angle, s): (f64, f64),
    ) -> Result<Option<bool>, TestCaseError> {
        let arm = Arm::new(self.plan, side);
        let surface = Surface::new(arm, self.light);
        let (angle, s) = (angle * std::f64::consts::FRAC_PI_2, s * self.plan.half_breadth);
        let normal = arm.normal(angle);
        // Where light only grazes, stone is as dull as in the shadow.
        if normal.dot(self.light.to_sun) < 0.2 {
            return Ok(None);
        }
        let Some(core) = self.core_on_stone(side, angle, s) else { return Ok(None) };
        let Some(at) = self.sees(arm.surface(angle, s), normal) else { return Ok(None) };
        let umbra = self.light.umbra(normal);
        let tones = (self.light.stone_over(umbra, normal), umbra);
        let painted = self.is_lit(at, &surface.inks(), tones);
        prop_assert!(
            painted.is_none_or(|lit| lit == core),
            "{side:?} {angle:.4} rad, {s:.4} m at {at}: the core says lit {core}"
        );
        Ok(painted)
    }

    fn check_paving(&self, place: DVec2) -> Result<Option<bool>, TestCaseError> {
        let site = place * (3.0 * self.plan.unit);
        let point = self.plan.to_court(site.extend(self.plan.ground));
        let (least, most) = self.plan.platform;
        let pad = 0.05 * self.plan.unit;
        let flat = point.truncate();
        if flat.cmpgt(least - pad).all() && flat.cmplt(most + pad).all() {
            return Ok(None);
        }
        let Some(core) = self.core_on_paving(site) else { return Ok(None) };
        let Some(at) = self.sees(point, DVec3::Z) else { return Ok(None) };
        let (paving, shadow) = self.light.paving();
        let lit = self.light.far(paving, 0.06);
        let dark = lit.mixed(shadow, SHADOW * self.light.direct);
        let painted = self.is_lit(at, &[], (lit, dark));
        prop_assert!(
            painted.is_none_or(|lit| lit == core),
            "paving {site} at {at}: the core says lit {core}"
        );
        Ok(painted)
    }
}

/// Compares a court at some points of its stone and its paving; tells how many were lit, shaded
/// or neither.
fn compare(
    instrument: &Instrument,
    camera: &Camera,
    unix_s: i64,
    places: &[(f64, f64)],
) -> Result<[usize; 3], TestCaseError> {
    let moment = moment_of(instrument, unix_s);
    let mut tally = [0; 3];
    if moment.sun.seen.altitude_rad.sin() < LOWEST {
        return Ok(tally);
    }
    let words = Words::english();
    let court = CourtView { size: SIZE, ..view_of(camera, &words) };
    let mut drawing = Drawing::new(SIZE);
    draw_layers(instrument, &moment, &court, &Layer::ALL[..5], |_, draw| draw(&mut drawing));
    let plan = Plan::new(instrument);
    let light = Light::new(&plan, &moment, court.palette);
    let view = View::new(camera, &plan, SIZE);
    let solid = bodies(&plan).into_iter();
    let staff = Staff::new(&plan);
    let person = Person::new(&plan, &staff).map(|person| person.body());
    let beside: Vec<Body> = [staff.body()].into_iter().chain(person).collect();
    let bodies = solid.chain(beside.clone()).chain([platform(&plan)]).collect();
    let court = Court {
        instrument,
        moment: &moment,
        plan: &plan,
        light: &light,
        view: &view,
        drawing: &drawing,
        bodies,
        beside,
    };
    for &(x, y) in places {
        let paving = court.check_paving(DVec2::new(2.0 * x - 1.0, y))?;
        let stone =
            [court.check_stone(Side::West, (x, y))?, court.check_stone(Side::East, (x, y))?];
        for painted in stone.into_iter().chain([paving]) {
            tally[painted.map_or(2, usize::from)] += 1;
        }
    }
    Ok(tally)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, ..ProptestConfig::default() })]

    #[test]
    fn the_shadow_on_the_drawing_is_the_cores(
        (preset, standpoint, turn, rise) in any_camera(),
        unix_s in any_instant(),
        places in prop::collection::vec((0.0..1.0_f64, -1.0..1.0_f64), 60),
    ) {
        let Ok(instrument) = PRESETS[preset].instrument() else { panic!("a preset is valid") };
        let camera = Camera::for_standpoint(Standpoint::ALL[standpoint], &instrument, 0.7);
        compare(&instrument, &camera.orbited(turn, rise), unix_s, &places)?;
    }
}

/// The comparison above compares: most clear places are found lit or shaded, and both occur.
#[test]
fn lit_and_shaded_places_are_found_on_the_drawing() {
    let grid: Vec<(f64, f64)> = (0..20)
        .flat_map(|i| {
            (0..20).map(move |j| (f64::from(i) / 20.0 + 0.02, f64::from(j) / 10.0 - 0.97))
        })
        .collect();
    let mut sum = [0; 3];
    for preset in &PRESETS {
        let Ok(instrument) = preset.instrument() else { panic!("a preset is valid") };
        let camera = Camera::for_standpoint(Standpoint::Visitor, &instrument, 0.7);
        let longitude_h = instrument.spec().longitude_deg / 15.0;
        for hour in [8.0, 9.5, 14.0, 16.0] {
            let unix_s = 1_790_035_200 + ((hour - longitude_h) * 3600.0) as i64;
            match compare(&instrument, &camera, unix_s, &grid) {
                Ok(tally) => sum = std::array::from_fn(|i| sum[i] + tally[i]),
                Err(error) => panic!("{} at {hour} h: {error}", preset.key),
            }
        }
    }
    let [shaded, lit, unsure] = sum;
    assert!(shaded > 100 && lit > 1500, "{shaded} shaded, {lit} lit, {unsure} unsure");
}
