//! The limits of the soft edge, marked on the stone with the times at which they stand.

use glam::DVec2;

use super::Lens;
use super::captions::Penumbra;
use crate::core::instrument::Side;
use crate::scene::drawing::{Anchor, Stroke, TextStyle};
use crate::scene::lettering::{label, text_width};
use crate::words::figures::{clock, duration};

/// A limit of the soft edge: its name, its place in half widths from half light towards the
/// light, and whether its words stand on the lit side of it.
const LIMITS: [(&str, f64, bool); 2] =
    [("lens.outer-limit", 1.0, true), ("lens.umbra-limit", -1.0, false)];

impl Lens<'_> {
    /// Marks where the whole disc is seen, half of it and nothing, each with its time.
    pub(super) fn draw_limits(&mut self, penumbra: Penumbra) {
        for side in Side::BOTH {
            for (key, place, on_lit_side) in LIMITS {
                self.draw_limit(self.penumbra_on(side), key, place, on_lit_side);
            }
        }
        self.name_half_light(penumbra);
        self.name_between(penumbra);
    }

    /// One limit: a line down the stone, its name, and its time below the name.
    fn draw_limit(&mut self, penumbra: Penumbra, key: &str, place: f64, on_lit_side: bool) {
        let unit = self.layout.unit;
        // On either quadrant the light lies away from the wall.
        let outwards = penumbra.side.sign();
        let time = penumbra.middle_s + place * outwards * penumbra.half_s;
        let Some((from_s, to_s)) = self.window.visible_s(penumbra.side) else { return };
        if !(from_s..=to_s).contains(&time) {
            return;
        }
        let px = self.window.px(penumbra.side, time);
        let light = if on_lit_side { 1.0 } else { 0.0 };
        let (top, bottom) = (self.layout.top, self.layout.bottom);
        // Broken where the words of half light may stand.
        let pieces = [(top, top + 33.0 * unit), (top + 52.0 * unit, bottom)];
        let lines = pieces.map(|(from, to)| [DVec2::new(px, from), DVec2::new(px, to)]);
        let dash = Some((6.0 * unit, 3.0 * unit));
        let stroke = Stroke { dash, ..Stroke::solid(self.cut(light), 1.3 * unit) };
        self.drawing.lines(lines, stroke);
        let outside = if on_lit_side { outwards } else { -outwards };
        let name = self.view.words.say(key).to_owned();
        for both in [true, false] {
            for (towards, halo) in [(outside, true), (-outside, false)] {
                let name = both.then_some(&name);
                if self.name_limit(
                    (px, towards),
                    name,
                    &self.view.words.figure(&clock(time)),
                    (light, halo),
                ) {
                    return;
                }
            }
        }
    }

    /// The name of a limit, if wanted, and its time below, to one side of its line.
    fn name_limit(
        &mut self,
        (px, towards): (f64, f64),
        name: Option<&String>,
        time: &str,
        (light, with_halo): (f64, bool),
    ) -> bool {
        let unit = self.layout.unit;
        let anchor = if towards > 0.0 { Anchor::Start } else { Anchor::End };
        // Over the soft edge the stone has no one colour.
        let halo = with_halo.then_some((self.stone(light), 3.0 * unit));
        let colour = self.cut(light);
        let style = TextStyle { halo, ..label(self.view.label_px, colour, anchor) };
        let at = |drop: f64| DVec2::new(px + 5.0 * unit * towards, self.layout.top + drop * unit);
        let rows: Vec<_> = match name {
            Some(name) => {
                vec![(at(15.0), name.clone(), style), (at(30.0), time.to_owned(), style)]
            }
            None => vec![(at(15.0), time.to_owned(), style)],
        };
        self.letters.set_all(self.drawing, &rows)
    }

    /// Half light and its time, on the lit side of its line.
    fn name_half_light(&mut self, penumbra: Penumbra) {
        let unit = self.layout.unit;
        let px = self.window.px(penumbra.side, penumbra.middle_s);
        let outwards = penumbra.side.sign();
        let anchor = if outwards > 0.0 { Anchor::Start } else { Anchor::End };
        let at = DVec2::new(px + 6.0 * unit * outwards, self.layout.top + 46.0 * unit);
        let words = self.view.words;
        let time = clock(penumbra.middle_s);
        let texts = [
            words.fill("lens.half-light-at", &[("time", &time)]),
            words.figure(&time).into_owned(),
        ];
        let style = label(self.view.label_px, self.view.palette.cut, anchor);
        let _ = texts.iter().any(|text| self.set_on_stone(at, text, 0.85, style));
    }

    /// How long the soft edge takes to pass, between its limits.
    fn name_between(&mut self, penumbra: Penumbra) {
        let px = self.window.px(penumbra.side, penumbra.middle_s);
        let half = penumbra.half_s * self.window.px_per_s;
        let words = self.view.words;
        let time = duration(self.view.words, 2.0 * penumbra.half_s);
        let text = words.fill("lens.penumbra", &[("time", &time)]);
        let style = label(self.view.label_px, self.view.palette.cut, Anchor::Middle);
        let room = 2.0 * half - 10.0 * self.layout.unit;
        let width = text_width(&text, style.typeface, style.size);
        if width < room {
            let at = DVec2::new(px, self.layout.top + 15.0 * self.layout.unit);
            self.letters.set(self.drawing, at, &text, style);
        }
    }
}
