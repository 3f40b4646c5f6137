//! The guides laid over the picture: full where they are seen, broken where stone hides them, left
//! out under the ground.

use glam::{DVec2, DVec3};

use super::body::Body;
use super::cast::Caster;
use super::easel::{Easel, Shapes};
use super::guides::{Guides, Kind, Line};
use super::label::Labels;
use super::ray::{BESIDE, arrow, dot};
use super::view::View;
use crate::scene::drawing::{Colour, Stroke};
use crate::scene::guide::Guide;
use crate::scene::palette::Palette;

/// Dash and gap of hidden lines, pixels.
const DASH: (f64, f64) = (5.0, 5.0);
/// How strong a hidden line is beside one that is seen.
const HIDDEN: f64 = 0.6;
/// Width of the casing on either side of a line, pixels.
const CASING_PX: f64 = 1.3;
/// Stone that hides a point by less than this counts for nothing, radii.
const SLACK: f64 = 0.012;
/// How often the place where a line goes behind stone is halved.
const HALVINGS: u32 = 5;

/// How a point of a line stands to the eye.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Sight {
    Seen,
    Hidden,
    /// Under the ground.
    Under,
}

/// The parts of a line that are seen and those that are hidden.
#[derive(Debug, Default)]
struct Parts {
    seen: Vec<Vec<DVec3>>,
    hidden: Vec<Vec<DVec3>>,
}

impl Guides<'_> {
    /// Lays the lines over the picture; answers with the seen parts, of which texts keep clear.
    pub(super) fn paint(
        &self,
        easel: &mut Easel<'_>,
        bodies: &[Body],
        palette: &Palette,
    ) -> Vec<[DVec2; 2]> {
        if let Some(plane) = self.plane() {
            let strength = self.strengths.of(Guide::Equator);
            easel.fill(self.above_ground(plane), palette.guide.faded(0.13 * strength));
        }
        if let Some(face) = self.hour_face() {
            let strength = self.strengths.of(Guide::Equator);
            easel.fill(self.above_ground(face), palette.guide.faded(0.3 * strength));
        }
        if let Some(face) = self.latitude_face(easel.view.eye) {
            let strength = self.strengths.of(Guide::Latitude);
            easel.fill(self.above_ground(face), palette.guide.faded(0.3 * strength));
        }
        let mut drawn = Vec::new();
        // What is finest first: the Sun's own lines come to lie on top.
        for kind in [Kind::Faint, Kind::Thin, Kind::Main, Kind::Sun] {
            for guide in Guide::ALL {
                let lines = self.lines.iter().filter(|it| it.guide == guide && it.kind == kind);
                let parts = self.parts(lines, bodies, easel.view.eye);
                self.stroke(easel, (guide, kind), &parts, palette);
                let bare = kind == Kind::Faint || kind == Kind::Thin && guide != Guide::Paths;
                if !bare {
                    let pairs = parts.seen.iter().flat_map(|part| part.windows(2));
                    drawn.extend(pairs.filter_map(|pair| easel.view.segment(pair[0], pair[1])));
                }
            }
        }
        self.paint_dots(easel, palette);
        drawn
    }

    fn stroke(
        &self,
        easel: &mut Easel<'_>,
        (guide, kind): (Guide, Kind),
        parts: &Parts,
        palette: &Palette,
    ) {
        let strength = self.strengths.of(guide);
        let (width, opacity) = match kind {
            Kind::Faint => (0.8, 0.35),
            Kind::Thin if guide == Guide::Paths => (1.4, 0.9),
            Kind::Thin => (0.9, 0.75),
            Kind::Main => (1.9, 1.0),
            Kind::Sun => (2.2, 1.0),
        };
        let width = width * easel.pen.max(0.9);
        let colour = self.colour(kind, palette).faded(opacity * strength);
        let broken = Stroke {
            dash: Some(DASH),
            ..Stroke::solid(colour.faded(HIDDEN * opacity * strength), width)
        };
        easel.stroke_given(&gathered(easel.view, &parts.hidden), broken);
        let seen = gathered(easel.view, &parts.seen);
        if matches!(kind, Kind::Main | Kind::Sun) {
            let casing = palette.paper.faded(0.7 * strength);
            easel.stroke_given(&seen, Stroke::solid(casing, width + 2.0 * CASING_PX));
        }
        easel.stroke_given(&seen, Stroke::solid(colour, width));
    }

    fn colour(&self, kind: Kind, palette: &Palette) -> Colour {
        if kind == Kind::Sun { palette.accent } else { palette.guide }
    }

    /// The celestial pole, and the Sun.
    fn paint_dots(&self, easel: &mut Easel<'_>, palette: &Palette) {
        let strength = self.strengths.of(Guide::Axis);
        let pole = self.pole().map(|points| points.map(|point| easel.view.project(point)));
        if let Some([Some(pole), Some(before)]) = pole {
            let (colour, casing) = (palette.guide.faded(strength), palette.paper.faded(strength));
            if self.has_dome() {
                dot(easel, pole, 4.0, (colour, casing), CASING_PX);
            } else {
                let casing = Stroke::solid(casing, 2.0 * CASING_PX);
                arrow(easel, pole, pole - before, (colour, casing));
            }
        }
        let strength = self.dome_strength();
        if let Some(sun) = self.sun().and_then(|sun| easel.view.project(sun)) {
            let colours = (palette.accent.faded(strength), palette.paper.faded(strength));
            dot(easel, sun, 7.0, colours, 2.0);
        }
    }

    /// Keeps texts and their lines off the Sun.
    pub(super) fn keep_clear(&self, easel: &Easel<'_>, labels: &mut Labels<'_>) {
        if let Some(sun) = self.sun().and_then(|sun| easel.view.project(sun)) {
            labels.keep_whole(sun, 10.0);
        }
    }

    /// Sets the texts.
    pub(super) fn write(
        &self,
        easel: &mut Easel<'_>,
        bodies: &[Body],
        labels: &mut Labels<'_>,
        palette: &Palette,
    ) {
        let eye = easel.view.eye;
        // What belongs to the moment first: where room is scarce, the rest gives way.
        for kind in [Kind::Sun, Kind::Main, Kind::Thin] {
            for sign in self.signs.iter().filter(|sign| sign.kind == kind) {
                // The text of the wedge's angle would float where the stone hides it.
                let bodies = if sign.guide == Guide::Latitude { bodies } else { &[] };
                let seen = |anchor: &&DVec3| self.sight(bodies, **anchor, eye) == Sight::Seen;
                let anchors = sign.anchors.iter().filter(seen);
                let points: Vec<DVec2> =
                    anchors.filter_map(|&anchor| easel.view.project(anchor)).collect();
                let look = (self.colour(kind, palette), self.strengths.of(sign.guide));
                let texts = sign.texts.each_ref().map(String::as_str);
                labels.beside_any(easel.drawing, &points, texts, &BESIDE, look);
            }
        }
    }

    /// A convex or star-shaped outline without what is under the ground.
    fn above_ground(&self, outline: Vec<DVec3>) -> Vec<DVec3> {
        let level = self.ground();
        let next = outline.iter().cycle().skip(1);
        let mut kept = Vec::with_capacity(outline.len() + 2);
        for (&from, &to) in outline.iter().zip(next) {
            if from.z >= level {
                kept.push(from);
            }
            if (from.z >= level) != (to.z >= level) {
                kept.push(from.lerp(to, (level - from.z) / (to.z - from.z)));
            }
        }
        kept
    }

    fn sight(&self, bodies: &[Body], point: DVec3, eye: DVec3) -> Sight {
        if point.z < self.ground() - 1e-9 {
            Sight::Under
        } else if Caster::blocked(bodies, point, eye, SLACK * self.unit()) {
            Sight::Hidden
        } else {
            Sight::Seen
        }
    }

    /// Cuts lines where they go behind stone, or into the ground.
    fn parts<'a>(
        &self,
        lines: impl Iterator<Item = &'a Line>,
        bodies: &[Body],
        eye: DVec3,
    ) -> Parts {
        let mut parts = Parts::default();
        for line in lines {
            let Some(&first) = line.points.first() else { continue };
            let (mut last, mut sight) = (first, self.sight(bodies, first, eye));
            let mut run = vec![first];
            for &point in &line.points[1..] {
                let next = self.sight(bodies, point, eye);
                if next != sight {
                    let change = self.change(bodies, eye, (last, sight), point);
                    run.push(change);
                    parts.keep(sight, std::mem::replace(&mut run, vec![change]));
                }
                run.push(point);
                (last, sight) = (point, next);
            }
            parts.keep(sight, run);
        }
        parts
    }

    /// Where between two points the sight of the first ends.
    fn change(
        &self,
        bodies: &[Body],
        eye: DVec3,
        (mut from, sight): (DVec3, Sight),
        mut to: DVec3,
    ) -> DVec3 {
        for _ in 0..HALVINGS {
            let middle = (from + to) / 2.0;
            if self.sight(bodies, middle, eye) == sight {
                from = middle;
            } else {
                to = middle;
            }
        }
        (from + to) / 2.0
    }
}

impl Parts {
    fn keep(&mut self, sight: Sight, run: Vec<DVec3>) {
        match sight {
            Sight::Seen => self.seen.push(run),
            Sight::Hidden => self.hidden.push(run),
            Sight::Under => {}
        }
    }
}

fn gathered(view: &View, parts: &[Vec<DVec3>]) -> Shapes {
    let mut shapes = Shapes::default();
    for part in parts {
        shapes.polyline(view, part.iter().copied());
    }
    shapes
}
