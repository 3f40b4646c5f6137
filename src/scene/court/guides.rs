//! The lines and texts of the guides, in the court's frame.

use std::f64::consts::{FRAC_PI_2, PI, TAU};

use glam::DVec3;

use super::plan::{Arm, Plan};
use super::ray::touched;
use crate::core::instrument::{Instrument, SOLSTICE_DECLINATION_DEG, Side};
use crate::core::moment::Moment;
use crate::core::sky::Direction;
use crate::scene::guide::{Guide, Strengths};
use crate::words::{Words, figures};

/// Radius of the sky dome about the point of the style that the ray touches, in radii of the
/// instrument.
pub(super) const DOME: f64 = 1.65;
/// Radius to which the equator's plane is drawn about the style's edges.
const PLANE: f64 = 1.32;
/// Radius of the arc of the hour angle.
const HOUR_ARC: f64 = 0.62;
/// Radius of the arc of the latitude, as a share of the free length of the wall's foot, and how far
/// the style's leg of it is drawn beyond.
const LATITUDE_ARC: f64 = 0.78;
const LATITUDE_LEG: f64 = 1.15;
/// How far the axis is drawn beyond the style.
const BEYOND: f64 = 0.35;
/// The hour of a quadrant that is singled out, the fourth from its foot: its ends, radians.
const HOUR_RAD: [f64; 2] = [PI / 4.0, PI / 3.0];
/// Points of a long curve.
const POINTS: u32 = 48;
/// The slope of a style that differs by less from the latitude is called that, radians: half a
/// minute of arc, as it is written.
const TRUE_RAD: f64 = 0.000_145;

/// What a line is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    /// What the guide is there for.
    Main,
    /// What helps to see where it stands.
    Thin,
    /// What only gives a body to others: the dome.
    Faint,
    /// What belongs to the Sun of this moment.
    Sun,
}

/// A line of a guide.
#[derive(Debug)]
pub(super) struct Line {
    pub(super) guide: Guide,
    pub(super) kind: Kind,
    pub(super) points: Vec<DVec3>,
}

/// A text of a guide, and the points beside which it may stand.
#[derive(Debug)]
pub(super) struct Sign {
    pub(super) guide: Guide,
    pub(super) kind: Kind,
    /// What it says, and what it says where room is scarce.
    pub(super) texts: [String; 2],
    pub(super) anchors: Vec<DVec3>,
}

/// The guides of one moment.
#[derive(Debug)]
pub(super) struct Guides<'a> {
    pub(super) plan: &'a Plan,
    words: &'a Words,
    pub(super) strengths: Strengths,
    /// The sky's axes: towards the equator's highest point, west, and towards the raised pole.
    sky: [DVec3; 3],
    /// The Sun's hour angle, west positive, and declination, positive towards the raised pole.
    sun_rad: (f64, f64),
    /// Its declination as it is, which is what the year strip tells, positive north.
    declination_rad: f64,
    /// Hour angle and declination about the style as it was built, counted alike.
    pub(super) on_dial_rad: (f64, f64),
    /// The point of the style that the ray touches: ray, dome, axis and cone have it in common.
    pub(super) apex: DVec3,
    /// Whether the style points at the pole.
    is_true: bool,
    pub(super) lines: Vec<Line>,
    pub(super) signs: Vec<Sign>,
}

impl<'a> Guides<'a> {
    /// The guides that are drawn at all.
    pub(super) fn new(
        instrument: &Instrument,
        plan: &'a Plan,
        moment: &Moment,
        words: &'a Words,
        strengths: Strengths,
    ) -> Self {
        let site = instrument.site();
        let axis = |h, d| plan.to_court(Direction::from_hour_angle(h, d, site).vector);
        let seen = &moment.sun.seen;
        let sky = [axis(0.0, 0.0), axis(FRAC_PI_2, 0.0), axis(0.0, FRAC_PI_2) * plan.sigma];
        let on_dial_rad =
            (moment.on_dial.hour_angle_rad, moment.on_dial.declination_rad * plan.sigma);
        let mut guides = Self {
            plan,
            words,
            strengths,
            sky,
            sun_rad: (seen.hour_angle_rad, seen.declination_rad * plan.sigma),
            declination_rad: moment.sun.sun.declination_rad,
            on_dial_rad,
            apex: touched(plan, moment, on_dial_rad),
            is_true: sky[2].distance(plan.s()) < TRUE_RAD,
            lines: Vec::new(),
            signs: Vec::new(),
        };
        for guide in Guide::ALL.into_iter().filter(|&guide| strengths.of(guide) > 0.0) {
            match guide {
                Guide::Axis => guides.axis(),
                Guide::Equator => guides.equator(),
                Guide::Horizon => guides.horizon(),
                Guide::Latitude => guides.latitude(),
                Guide::Paths => guides.paths(),
                Guide::HourAngle => guides.hour_angle(),
                Guide::Declination => guides.declination(),
                Guide::Cone => guides.cone(),
            }
        }
        guides
    }

    pub(super) fn line(&mut self, guide: Guide, kind: Kind, points: Vec<DVec3>) {
        self.lines.push(Line { guide, kind, points });
    }

    fn sign(&mut self, guide: Guide, kind: Kind, text: String, anchors: Vec<DVec3>) {
        self.signs.push(Sign { guide, kind, texts: [text.clone(), text], anchors });
    }

    /// A text of the catalogue with an angle in it.
    pub(super) fn angle_text(&self, key: &str, angle_rad: f64) -> String {
        self.words.fill(key, &[("angle", &figures::degrees(angle_rad))])
    }

    /// The direction of a place in the sky.
    fn towards(&self, hour_angle_rad: f64, declination_rad: f64) -> DVec3 {
        let (sin_h, cos_h) = hour_angle_rad.sin_cos();
        let (sin_d, cos_d) = declination_rad.sin_cos();
        let [m, w, p] = self.sky;
        m * (cos_d * cos_h) + w * (cos_d * sin_h) + p * sin_d
    }

    /// The point of the dome in that direction.
    fn on_dome(&self, hour_angle_rad: f64, declination_rad: f64) -> DVec3 {
        self.apex + self.towards(hour_angle_rad, declination_rad) * self.dome()
    }

    fn dome(&self) -> f64 {
        DOME * self.plan.unit
    }

    /// Radius of the instrument, metres.
    pub(super) fn unit(&self) -> f64 {
        self.plan.unit
    }

    /// Level under which nothing is drawn.
    pub(super) fn ground(&self) -> f64 {
        self.plan.ground
    }

    /// The Sun on the dome, while any of it can be up.
    pub(super) fn sun(&self) -> Option<DVec3> {
        let sun = self.on_dome(self.sun_rad.0, self.sun_rad.1);
        (self.has_dome() && sun.z >= self.apex.z).then_some(sun)
    }

    /// How strongly the Sun on the dome is drawn: as the guides are that show it.
    pub(super) fn dome_strength(&self) -> f64 {
        self.strengths.of(Guide::Paths).max(self.strengths.of(Guide::Declination))
    }

    /// Whether anything is drawn on the dome.
    pub(super) fn has_dome(&self) -> bool {
        self.dome_strength() > 0.0
    }

    /// Where the line to the celestial pole ends, and a point of it before.
    pub(super) fn pole(&self) -> Option<[DVec3; 2]> {
        let end = self.axis_end();
        (self.strengths.of(Guide::Axis) > 0.0).then_some([end, self.apex.lerp(end, 0.9)])
    }

    /// Where the line to the pole ends: the style's own, for a dial built true.
    fn axis_end(&self) -> DVec3 {
        if self.is_true { self.style_end() } else { self.apex + self.raised_pole() * self.dome() }
    }

    /// The end of the style's line, up in the sky.
    fn style_end(&self) -> DVec3 {
        let plan = self.plan;
        let beyond = plan.style.1 + BEYOND * plan.unit - plan.leaning(self.apex).y;
        self.apex + plan.s() * self.dome().max(beyond)
    }

    /// Towards the pole that stands over the horizon.
    fn raised_pole(&self) -> DVec3 {
        let [_, _, pole] = self.sky;
        if pole.z < 0.0 { -pole } else { pole }
    }

    fn axis(&mut self) {
        let low = self.plan.style.0 - BEYOND * self.plan.unit;
        let low = self.plan.point(self.apex.x, 0.0, low);
        let (style, end) = (self.style_end(), self.axis_end());
        self.line(Guide::Axis, Kind::Main, straight(low, style, POINTS));
        if !self.is_true {
            self.line(Guide::Axis, Kind::Thin, straight(self.apex, end, POINTS));
            let text = self.words.say("guide.style").to_owned();
            self.sign(Guide::Axis, Kind::Thin, text, vec![style, self.apex.lerp(style, 0.92)]);
        }
        let [_, _, pole] = self.sky;
        let north = (self.plan.sigma > 0.0) == (pole.z >= 0.0);
        // The pole itself is a point of the dome; without one the line only leads there.
        let key = match (self.has_dome(), north) {
            (true, true) => "guide.pole.north",
            (true, false) => "guide.pole.south",
            (false, true) => "guide.to-pole.north",
            (false, false) => "guide.to-pole.south",
        };
        let text = self.words.say(key);
        self.sign(Guide::Axis, Kind::Main, text.to_owned(), vec![end, self.apex.lerp(end, 0.92)]);
    }

    /// The corners of the plane: half a circle about either edge of the style.
    pub(super) fn plane(&self) -> Option<Vec<DVec3>> {
        let plan = self.plan;
        let at = |turn: f64| {
            let (sin, cos) = turn.sin_cos();
            let edge = if turn <= PI { plan.half_wall } else { -plan.half_wall };
            plan.point(edge + PLANE * plan.unit * sin, PLANE * plan.unit * cos, 0.0)
        };
        // A step beyond half a turn is on the other edge.
        let turns = (0..=POINTS).map(|k| f64::from(k) / f64::from(POINTS) * PI);
        let west = turns.clone().map(|turn| turn + PI + 1e-12);
        let drawn = self.strengths.of(Guide::Equator) > 0.0;
        drawn.then(|| turns.chain(west).map(at).collect())
    }

    fn equator(&mut self) {
        let plan = self.plan;
        let Some(mut rim) = self.plane() else { return };
        rim.extend(rim.first().copied());
        let anchors = [14, 82, 8, 88, 20, 76].iter().filter_map(|&k| rim.get(k).copied()).collect();
        // Two pieces, each no longer than other curves.
        let second = rim.split_off(POINTS as usize + 1);
        let joint = rim.last().copied();
        self.line(Guide::Equator, Kind::Main, rim);
        self.line(Guide::Equator, Kind::Main, joint.into_iter().chain(second).collect());
        // A line an hour, as on the quadrants.
        for side in Side::BOTH {
            for hour in 0..=12 {
                let (sin, cos) = (f64::from(hour) * PI / 12.0).sin_cos();
                let at = |r: f64| {
                    let x = side.sign() * (plan.half_wall + r * plan.unit * sin);
                    plan.point(x, r * plan.unit * cos, 0.0)
                };
                self.line(Guide::Equator, Kind::Thin, straight(at(0.0), at(PLANE), 8));
            }
        }
        let [from, to] = HOUR_RAD;
        let angle = format!("{:.0}°", (to - from).to_degrees());
        let text = self.words.fill("guide.plane.hour", &[("angle", &angle)]);
        let face = self.hour_face().unwrap_or_default();
        if let (Some(style), Some(border)) = (face.first(), face.get(face.len() / 2)) {
            // Within, about the middle.
            let within = [0.55, 0.75, 0.95].map(|share| style.lerp(*border, share));
            self.sign(Guide::Equator, Kind::Main, text, within.to_vec());
        }
        let key = if self.is_true { "guide.plane" } else { "guide.plane-false" };
        let text = self.words.say(key).to_owned();
        self.sign(Guide::Equator, Kind::Main, text, anchors);
    }

    /// One hour of the quadrant that is not read now, as a piece of the plane: the style, then along
    /// the reading surface.
    pub(super) fn hour_face(&self) -> Option<Vec<DVec3>> {
        const STEPS: u32 = 6;
        let arm = Arm::new(self.plan, Side::at_hour_angle(self.on_dial_rad.0).other());
        let [from, to] = HOUR_RAD;
        (self.strengths.of(Guide::Equator) > 0.0).then(|| {
            let mut face = vec![arm.point(0.0, 0.0, 0.0)];
            for k in 0..=STEPS {
                let angle = from + (to - from) * f64::from(k) / f64::from(STEPS);
                face.push(arm.surface(angle, 0.0));
            }
            face
        })
    }

    /// A point of the horizon at a bearing from north through east.
    fn on_horizon(&self, bearing_rad: f64, radius: f64) -> DVec3 {
        let (sin, cos) = bearing_rad.sin_cos();
        self.apex + self.plan.to_court(DVec3::new(sin, cos, 0.0)) * (radius * self.dome())
    }

    fn ring(&self) -> Vec<DVec3> {
        (0..=POINTS).map(|k| self.on_horizon(f64::from(k) / f64::from(POINTS) * TAU, 1.0)).collect()
    }

    fn horizon(&mut self) {
        let ring = self.ring();
        // South-east, south-west, and on round: away from the compass points.
        let anchors =
            [18, 30, 6, 42, 21, 27].iter().filter_map(|&k| ring.get(k).copied()).collect();
        self.line(Guide::Horizon, Kind::Main, ring);
        let ticks = (0..24).map(|k| {
            let bearing = f64::from(k) / 24.0 * TAU;
            let inner = if k % 6 == 0 { 0.94 } else { 0.97 };
            vec![self.on_horizon(bearing, inner), self.on_horizon(bearing, 1.0)]
        });
        for tick in ticks.collect::<Vec<_>>() {
            self.line(Guide::Horizon, Kind::Thin, tick);
        }
        let words = self.words;
        for (k, letter) in (0..4).zip(words.say("guide.compass").split_whitespace()) {
            let at = self.on_horizon(f64::from(k) * FRAC_PI_2, 1.0);
            self.sign(Guide::Horizon, Kind::Main, letter.to_owned(), vec![at]);
        }
        self.sign(Guide::Horizon, Kind::Main, words.say("guide.level").to_owned(), anchors);
    }

    /// The slope of the style, radians: the latitude, for a dial built true.
    fn slope_rad(&self) -> f64 {
        self.plan.sin.atan2(self.plan.cos)
    }

    /// Drawn on both sides of the wall, of which an eye sees one.
    fn latitude(&mut self) {
        let slope_rad = self.slope_rad();
        for side in Side::BOTH {
            for leg in self.latitude_legs(side) {
                self.line(Guide::Latitude, Kind::Main, leg);
            }
        }
        let key = if self.is_true { "guide.slope" } else { "guide.slope-false" };
        let text = self.angle_text(key, slope_rad);
        let at = |side, share, reach| self.latitude_point(side, share * slope_rad, reach);
        // In the angle, or else beside one of its legs.
        let places = [(0.5, 0.5), (0.1, 0.4), (1.35, 0.5), (0.5, 0.2), (0.9, 1.0)];
        let anchors = Side::BOTH.map(|side| places.map(|(share, reach)| at(side, share, reach)));
        self.sign(Guide::Latitude, Kind::Main, text, anchors.concat());
    }

    /// The arc, then the level and the style that it spans.
    fn latitude_legs(&self, side: Side) -> [Vec<DVec3>; 3] {
        let slope_rad = self.slope_rad();
        let at = |angle, reach| self.latitude_point(side, angle, reach);
        let leg = |angle| straight(at(angle, 0.0), at(angle, LATITUDE_LEG), 12);
        let arc = (0..=24).map(|k| at(f64::from(k) / 24.0 * slope_rad, 1.0)).collect();
        [arc, leg(0.0), leg(slope_rad)]
    }

    /// The face between the legs on the side of the wall that an eye sees.
    pub(super) fn latitude_face(&self, eye: DVec3) -> Option<Vec<DVec3>> {
        let seen = Side::BOTH.into_iter().find(|side| side.sign() * eye.x > self.plan.half_wall)?;
        (self.strengths.of(Guide::Latitude) > 0.0).then(|| {
            let [mut arc, ..] = self.latitude_legs(seen);
            arc.push(self.latitude_point(seen, 0.0, 0.0));
            arc
        })
    }

    /// A point of the wall's side: an angle over the level at the style's low end, and a distance
    /// from there as a share of the arc's radius.
    fn latitude_point(&self, side: Side, angle_rad: f64, reach: f64) -> DVec3 {
        let plan = self.plan;
        let [low, _] = plan.style_ends();
        let (sin, cos) = angle_rad.sin_cos();
        let x = side.sign() * (plan.half_wall + 0.004 * plan.unit);
        // As far as the quadrant leaves the wall's foot free.
        let free = plan.point(0.0, -plan.radius(side), -plan.half_slab).y - low.x;
        let free = free.min(plan.style.1 - plan.style.0).max(0.5 * plan.unit);
        let radius = LATITUDE_ARC * free * reach;
        DVec3::new(x, low.x, low.y) + DVec3::new(0.0, cos, sin) * radius
    }

    /// Half the Sun's way over the horizon, as an hour angle; `None` if it never rises.
    pub(super) fn half_day_rad(&self, declination_rad: f64) -> Option<f64> {
        let [m, _, p] = self.sky;
        let (level, swing) = (p.z * declination_rad.sin(), m.z * declination_rad.cos());
        if level <= -swing {
            return None;
        }
        Some(if level >= swing { PI } else { (-level / swing).acos() })
    }

    /// The Sun's way across the sky at a declination.
    fn path(&self, declination_rad: f64) -> Vec<DVec3> {
        let Some(half) = self.half_day_rad(declination_rad) else { return Vec::new() };
        (0..=POINTS)
            .map(|k| (f64::from(k) / f64::from(POINTS) * 2.0 - 1.0) * half)
            .map(|hour_angle| self.on_dome(hour_angle, declination_rad))
            .collect()
    }

    fn paths(&mut self) {
        let solstice = SOLSTICE_DECLINATION_DEG.to_radians() * self.plan.sigma;
        let ways = [
            ("guide.today", Kind::Sun, self.sun_rad.1),
            ("guide.june", Kind::Thin, solstice),
            ("guide.equinoxes", Kind::Thin, 0.0),
            ("guide.december", Kind::Thin, -solstice),
        ];
        let meridian = (0..=24).map(|k| f64::from(k) / 24.0 * PI).map(|turn| {
            let (sin, cos) = turn.sin_cos();
            self.apex + DVec3::new(0.0, cos, sin) * self.dome()
        });
        self.line(Guide::Paths, Kind::Faint, meridian.collect());
        self.line(Guide::Paths, Kind::Faint, self.ring());
        for (key, kind, declination_rad) in ways {
            let path = self.path(declination_rad);
            // About noon, where the paths are far apart.
            let places = [31, 17, 27, 21, 24, 35, 13];
            let anchors = places.iter().filter_map(|&k| path.get(k).copied()).collect();
            self.line(Guide::Paths, kind, path);
            self.sign(Guide::Paths, kind, self.words.say(key).to_owned(), anchors);
        }
    }

    /// On the plane of the quadrants, about the edge of the style that throws the shadow.
    fn hour_angle(&mut self) {
        let plan = self.plan;
        let (hour_angle_rad, _) = self.on_dial_rad;
        let edge = Side::at_hour_angle(hour_angle_rad).sign() * plan.half_wall;
        let at = |angle: f64, r: f64| {
            let (sin, cos) = angle.sin_cos();
            plan.point(edge - r * plan.unit * sin, r * plan.unit * cos, 0.0)
        };
        let arc = |k: u32| at(f64::from(k) / f64::from(POINTS) * hour_angle_rad, HOUR_ARC);
        let anchors = vec![arc(POINTS / 2), arc(POINTS / 4), arc(3 * POINTS / 4)];
        let out = 1.3 * HOUR_ARC;
        self.line(Guide::HourAngle, Kind::Sun, (0..=POINTS).map(arc).collect());
        self.line(Guide::HourAngle, Kind::Thin, straight(at(0.0, 0.0), at(0.0, out), 8));
        let to_sun = straight(at(0.0, 0.0), at(hour_angle_rad, out), 8);
        self.line(Guide::HourAngle, Kind::Thin, to_sun);
        let noon = self.words.say("guide.noon").to_owned();
        self.sign(Guide::HourAngle, Kind::Thin, noon, vec![at(0.0, out), at(0.0, 0.8 * out)]);
        let key = if hour_angle_rad < 0.0 { "guide.hour.east" } else { "guide.hour.west" };
        let short = self.angle_text(key, hour_angle_rad.abs());
        let time = figures::duration(self.words, hour_angle_rad.abs() / TAU * 86_400.0);
        let long = self.words.fill("guide.hour.time", &[("angle", &short), ("time", &time)]);
        let (guide, kind) = (Guide::HourAngle, Kind::Sun);
        self.signs.push(Sign { guide, kind, texts: [long, short], anchors });
    }

    /// On the dome, along the Sun's hour circle.
    fn declination(&mut self) {
        let (hour_angle_rad, declination_rad) = self.sun_rad;
        let at = |share: f64| self.on_dome(hour_angle_rad, share * declination_rad);
        let arc: Vec<DVec3> = (0..=16).map(|k| at(f64::from(k) / 16.0)).collect();
        let anchors = vec![at(0.5), at(0.2), at(0.9)];
        let (equator, sun) = (at(0.0), at(1.0));
        self.line(Guide::Declination, Kind::Sun, arc);
        self.line(Guide::Declination, Kind::Thin, straight(self.apex, equator, 16));
        self.line(Guide::Declination, Kind::Thin, straight(self.apex, sun, 16));
        let angle = figures::signed_degrees(self.declination_rad);
        let text = self.words.fill("guide.off-equator", &[("angle", &angle)]);
        self.sign(Guide::Declination, Kind::Sun, text, anchors);
    }

    /// What the frame has to make room for, each point with how much it counts.
    pub(super) fn room(&self) -> Vec<(DVec3, f64)> {
        // The latitude's arc is on the wall; ticks and spokes reach no farther than rims.
        let needs = |line: &&Line| match line.guide {
            Guide::Latitude => false,
            Guide::Equator | Guide::Horizon => line.kind == Kind::Main,
            _ => true,
        };
        let lines = self.lines.iter().filter(needs);
        let points = lines.flat_map(|line| {
            let strength = self.strengths.of(line.guide);
            line.points.iter().step_by(2).map(move |&point| (point, strength))
        });
        points.filter(|(point, _)| point.z > self.plan.ground).collect()
    }
}

/// A straight line in so many steps.
pub(super) fn straight(from: DVec3, to: DVec3, steps: u32) -> Vec<DVec3> {
    (0..=steps).map(|k| from.lerp(to, f64::from(k) / f64::from(steps))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::core::instrument::{InstrumentSpec, PRESETS};
    use crate::core::moment::Conditions;
    use crate::core::sky::SunTrack;
    use crate::core::time::Instant;
    use crate::scene::guide::GuideSet;
    use proptest::prelude::*;

    /// A square-ended instrument built true at a latitude.
    fn at_latitude(latitude_deg: f64) -> Option<Instrument> {
        let mut spec: InstrumentSpec = PRESETS[0].spec();
        spec.latitude_deg = latitude_deg;
        spec.end_faces = crate::core::instrument::EndFaces::Square;
        spec.style_south_m = -0.4;
        spec.style_north_m = 0.4;
        spec.plinth_m = 1.0;
        Instrument::new(spec).ok()
    }

    fn check(latitude_deg: f64, unix_s: i64) -> Result<(), TestCaseError> {
        let Some(instrument) = at_latitude(latitude_deg) else { panic!("an instrument") };
        let plan = Plan::new(&instrument);
        let instant = Instant::from_unix_ms_saturating(unix_s * 1000);
        let moment =
            Moment::compute(&instrument, instant, &Conditions::default(), &mut SunTrack::new());
        let words = Words::english();
        let all = Guide::ALL.into_iter().fold(GuideSet::default(), |set, it| set.with(it, true));
        let guides = Guides::new(&instrument, &plan, &moment, &words, all.into());
        let points = |guide: Guide| {
            let lines = guides.lines.iter().filter(move |line| line.guide == guide);
            lines.map(|line| &line.points)
        };
        for guide in Guide::ALL {
            prop_assert!(points(guide).next().is_some());
            prop_assert!(points(guide).all(|line| line.len() <= 64));
            prop_assert!(points(guide).flatten().all(|point| point.is_finite()), "{guide:?}");
        }
        let anchors = guides.signs.iter().flat_map(|sign| &sign.anchors);
        prop_assert!(anchors.into_iter().all(|point| point.is_finite()));

        // The Sun of the moment is where the light comes from, and on the path of today.
        let to_sun = plan.to_court(moment.sun.seen.vector);
        let (hour_angle, declination) = guides.sun_rad;
        prop_assert!(guides.towards(hour_angle, declination).distance(to_sun) < 1e-9);
        let (radius, apex) = (guides.dome(), guides.apex);
        for way in [declination, 0.0, 0.4, -0.4] {
            for point in guides.path(way).into_iter().map(|point| point - apex) {
                prop_assert!((point.length() - radius).abs() < 1e-9 * radius);
                prop_assert!((point.dot(guides.sky[2]) - way.sin() * radius).abs() < 1e-9 * radius);
                prop_assert!(point.z > -1e-9 * radius, "under the horizon by {}", point.z);
            }
        }
        // The path is missing only if the Sun does not rise, and goes full circle if it does not set.
        let noon = guides.towards(0.0, declination).z;
        prop_assert_eq!(guides.path(declination).is_empty(), noon <= 0.0);
        let midnight = guides.towards(PI, declination).z;
        let half = guides.half_day_rad(declination).unwrap_or(0.0);
        prop_assert!((half == PI) == (midnight >= 0.0) || midnight.abs() < 1e-9);

        // The axis is parallel to the style and points at the pole that is up.
        let Some(axis) = points(Guide::Axis).next() else { panic!("an axis") };
        let along = (axis[axis.len() - 1] - axis[0]).normalize();
        prop_assert!(along.distance(plan.s()) < 1e-9);
        prop_assert!(along.distance(guides.sky[2]) < 1e-9 && along.z >= 0.0);

        // The latitude's arc spans the latitude.
        let Some(arc) = points(Guide::Latitude).next() else { panic!("an arc") };
        let foot = guides.latitude_point(Side::West, 0.0, 0.0);
        let (from, to) = (arc[0] - foot, arc[arc.len() - 1] - foot);
        let spans = from.cross(to).length().atan2(from.dot(to));
        prop_assert!((spans - latitude_deg.abs().to_radians()).abs() < 1e-9, "{spans}");

        // The arc of the hour angle spans it and lies in the quadrants' plane; that of the
        // declination ends at the Sun.
        let Some(arc) = points(Guide::HourAngle).next() else { panic!("an arc") };
        prop_assert!(arc.iter().all(|&point| plan.leaning(point).y.abs() < 1e-9));
        let length: f64 = arc.windows(2).map(|pair| pair[0].distance(pair[1])).sum();
        let spans = length / (HOUR_ARC * plan.unit);
        prop_assert!((spans - hour_angle.abs()).abs() < 1e-3 * (1.0 + hour_angle.abs()));
        let Some(arc) = points(Guide::Declination).next() else { panic!("an arc") };
        prop_assert!(((arc[arc.len() - 1] - apex) / radius).distance(to_sun) < 1e-9);
        prop_assert!(((arc[0] - apex) / radius).dot(guides.sky[2]).abs() < 1e-9);

        // East is where the Sun rises, whichever way round the frame is.
        let east = plan.to_court(DVec3::X);
        prop_assert!(guides.towards(-FRAC_PI_2, 0.0).distance(east) < 1e-9);
        Ok(())
    }

    proptest! {
        #[test]
        fn guides_show_the_sky_anywhere_at_any_time(
            latitude_deg in prop_oneof![
                -89.9..89.9_f64, Just(0.0), Just(90.0), Just(-90.0), Just(23.4), Just(-66.5),
            ],
            unix_s in 1_767_225_600_i64..1_798_761_600,
        ) {
            check(latitude_deg, unix_s)?;
        }
    }
}
