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
    /// Names where the whole disc is seen, half of it and nothing, each with its time.
    pub(super) fn draw_limits(&mut self, penumbra: Penumbra) {
        for side in Side::BOTH {
            for (key, place, on_lit_side) in LIMITS {
                self.draw_limit(self.penumbra_on(side), key, place, on_lit_side);
            }
        }
        self.name_half_light(penumbra);
        self.name_between(penumbra);
    }

    /// The time of a limit, and where it stands; `None` when it is out of view.
    fn limit(&self, penumbra: Penumbra, place: f64) -> Option<(f64, f64)> {
        // On either quadrant the light lies away from the wall.
        let time = penumbra.middle_s + place * penumbra.side.sign() * penumbra.half_s;
        let (from_s, to_s) = self.window.visible_s(penumbra.side)?;
        let seen = (from_s..=to_s).contains(&time);
        seen.then(|| (time, self.window.px(penumbra.side, time)))
    }

    /// The lines of the limits down the stone.
    pub(super) fn draw_limit_lines(&mut self) {
        let unit = self.layout.unit;
        if !self.view.limits || self.penumbra().is_none() {
            return;
        }
        for (side, (_, place, lit)) in
            Side::BOTH.into_iter().flat_map(|side| LIMITS.map(|limit| (side, limit)))
        {
            let Some((_, px)) = self.limit(self.penumbra_on(side), place) else { continue };
            let stroke = Stroke::solid(self.cut(if lit { 1.0 } else { 0.0 }), 1.3 * unit);
            self.draw_dashes((px, self.layout.top), (6.0 * unit, 3.0 * unit), stroke);
        }
    }

    /// The name of a limit, and its time below the name.
    fn draw_limit(&mut self, penumbra: Penumbra, key: &str, place: f64, on_lit_side: bool) {
        let Some((time, px)) = self.limit(penumbra, place) else { return };
        let outwards = penumbra.side.sign();
        let light = if on_lit_side { 1.0 } else { 0.0 };
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
        let base = self.layout.first_line();
        let at = |drop: f64| DVec2::new(px + 5.0 * unit * towards, base + drop * unit);
        let rows: Vec<_> = match name {
            Some(name) => {
                vec![(at(0.0), name.clone(), style), (at(13.5), time.to_owned(), style)]
            }
            None => vec![(at(0.0), time.to_owned(), style)],
        };
        self.letters.set_all(self.drawing, &rows)
    }

    /// Half light and its time, beside its line.
    fn name_half_light(&mut self, penumbra: Penumbra) {
        let words = self.view.words;
        let time = clock(penumbra.middle_s);
        let named = words.fill("lens.half-light-at", &[("time", &time)]);
        self.set_beside_half_light(penumbra, &[&named, &words.figure(&time)]);
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
            let at = DVec2::new(px, self.layout.first_line());
            self.letters.set(self.drawing, at, &text, style);
        }
    }
}
