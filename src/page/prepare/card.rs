//! The day card in words and figures.

use super::row;
use super::sheet::{Sheet, Table};
use crate::core::almanac::Daylight;
use crate::core::day_card::{DayCard, DeclinationEdge, READABLE_HEIGHT_M};
use crate::core::instrument::{AxialEnd, Instrument, SOLSTICE_DECLINATION_DEG, Side};
use crate::core::ladder::clock_of;
use crate::core::time::Instant;
use crate::page::labels;
use crate::page::ladder_rows::zone_label;
use crate::words::{Words, figures};

/// Stands where nothing is to be told.
const NOTHING: &str = "–";

/// The sheet of a day.
pub(super) fn sheet(words: &Words, instrument: &Instrument, card: &DayCard) -> Sheet {
    let writer = Writer { words, instrument, card };
    let (day, year) =
        (labels::day_and_month(words, card.date), labels::year_and_weekday(words, card.date));
    Sheet {
        title: words.fill("prepare.card.title", &[("day", &day), ("year", &year)]),
        place: String::new(),
        tables: vec![
            writer.sun(),
            writer.quadrants(),
            writer.noon(),
            writer.correction(),
            writer.stands(),
            writer.rod(),
            writer.hours(),
        ],
        notes: Vec::new(),
    }
}

/// What every table of the card is written from.
struct Writer<'a> {
    words: &'a Words,
    instrument: &'a Instrument,
    card: &'a DayCard,
}

impl Writer<'_> {
    fn say(&self, key: &str) -> String {
        self.words.say(key).to_owned()
    }

    fn clock(&self, at: Instant) -> String {
        figures::clock(clock_of(self.instrument, at))
    }

    /// "9:52", whatever the seconds.
    fn minutes(&self, at: Instant) -> String {
        let mut text = self.clock(at);
        text.truncate(text.rfind(':').unwrap_or(text.len()));
        text
    }

    /// A table with names of its columns.
    fn table(&self, caption: &str, head: &[&str], rows: Vec<Vec<String>>) -> Table {
        let head =
            head.iter().map(|key| if key.is_empty() { String::new() } else { self.say(key) });
        Table { caption: self.say(caption), head: head.collect(), rows, note: String::new() }
    }

    /// Rise, noon and set.
    fn sun(&self) -> Table {
        let events = self.card.events;
        let names = ["prepare.card.rise", "prepare.card.noon", "prepare.card.set"];
        let at = [events.rise, events.transit, events.set];
        let rows = names.iter().zip(at).zip(self.card.declination_rad);
        let rows = rows.map(|((name, at), declination_rad)| {
            let clock = at.map_or(NOTHING.to_owned(), |at| self.clock(at));
            let declination = declination_rad.map_or(NOTHING.to_owned(), figures::signed_degrees);
            row([self.words.say(name), &clock, &declination])
        });
        let head = ["", "prepare.clock", "prepare.declination"];
        let mut table = self.table("prepare.card.sun", &head, rows.collect());
        let altitude = figures::degrees(self.card.noon_altitude_rad);
        let key = match events.daylight {
            Daylight::Crosses => "prepare.card.sun.note",
            Daylight::NeverSets => "prepare.card.sun.up",
            Daylight::NeverRises => "prepare.card.sun.down",
        };
        table.note = self.words.fill(key, &[("altitude", &altitude)]);
        table
    }

    /// When each quadrant reads.
    fn quadrants(&self) -> Table {
        let rows = self.card.readings.iter().map(|span| {
            row([self.quadrant(span.side), &self.clock(span.from), &self.clock(span.to)])
        });
        let head = ["", "prepare.from", "prepare.to"];
        let mut table = self.table("prepare.card.quadrants", &head, rows.collect());
        if table.rows.is_empty() {
            table = Table { head: Vec::new(), ..table };
            table.note = self.say("prepare.card.quadrants.none");
        }
        table
    }

    fn quadrant(&self, side: Side) -> &str {
        self.words.say(match side {
            Side::West => "prepare.west",
            Side::East => "prepare.east",
        })
    }

    /// Apparent noon and the intervals about it.
    fn noon(&self) -> Table {
        let mut rows = Vec::new();
        if let Some(pass) = &self.card.noon {
            let (soft, blind) = (pass.soft, pass.blind);
            for (key, from, to) in [
                ("prepare.card.soft", soft.0, soft.1),
                ("prepare.card.blind", blind.0, blind.1),
                ("prepare.card.meridian", pass.meridian, pass.meridian),
            ] {
                let length_s = to.seconds_since(from);
                // With the Sun down there is no shadow to be soft or missing.
                let sun_is_down = self.card.events.daylight == Daylight::NeverRises;
                if sun_is_down && length_s != 0.0 {
                    continue;
                }
                // An interval under half a second is a moment.
                let (until, length) = if length_s < 0.5 {
                    (NOTHING.to_owned(), NOTHING.to_owned())
                } else {
                    (self.clock(to), together(figures::duration(self.words, length_s)))
                };
                rows.push(row([self.words.say(key), &self.clock(from), &until, &length]));
            }
        }
        let head = ["", "prepare.from", "prepare.to", "prepare.length"];
        self.table("prepare.card.intervals", &head, rows)
    }

    /// From the dial to the clock.
    fn correction(&self) -> Table {
        let corrections = &self.card.corrections;
        let signed = |seconds| figures::signed_clock(seconds);
        let mut rows = vec![
            row([self.words.say("prepare.card.equation"), &signed(corrections.to_mean_s)]),
            row([&zone_label(self.words, self.instrument), &signed(corrections.to_zone_s)]),
        ];
        if corrections.summer_s != 0.0 {
            rows.push(row([self.words.say("ladder.summer"), &signed(corrections.summer_s)]));
        }
        let total = signed(corrections.total_s());
        rows.push(row([self.words.say("prepare.card.total"), &total]));
        let change =
            figures::with_unit(self.words, &signed_tenths(self.card.change_s), "figures.s");
        rows.push(row([self.words.say("prepare.card.change"), &change]));
        self.table("prepare.card.correction", &[], rows)
    }

    /// Where to stand, and when.
    fn stands(&self) -> Table {
        let rows = self.card.stands.iter().map(|stand| {
            let on = self.words.say(match stand.on {
                AxialEnd::North => "prepare.card.stand.north",
                AxialEnd::South => "prepare.card.stand.south",
            });
            row([self.quadrant(stand.side), on, &self.minutes(stand.from), &self.minutes(stand.to)])
        });
        let head = ["", "prepare.card.stand.on", "prepare.from", "prepare.to"];
        let mut table = self.table("prepare.card.stands", &head, rows.collect());
        let empty = table.rows.is_empty();
        if empty {
            table.head.clear();
        }
        let key = if empty { "prepare.card.stands.none" } else { "prepare.card.stands.note" };
        table.note =
            self.words.fill(key, &[("height", &figures::length(self.words, READABLE_HEIGHT_M))]);
        table
    }

    /// Whether the declination can be read, and at which edge.
    fn rod(&self) -> Table {
        let rows = self.card.edges.iter().map(|edge| {
            let name = self.words.say(match edge.edge {
                AxialEnd::North => "prepare.card.edge.north",
                AxialEnd::South => "prepare.card.edge.south",
            });
            row([name, &self.place_of_rod(edge), &self.range_of_rod(edge)])
        });
        let head = ["", "prepare.card.rod.place", "prepare.card.rod.range"];
        let rows: Vec<_> = rows.collect();
        let mut table = self.table("prepare.card.rod", &head, rows);
        table.note = self.say("prepare.card.rod.note");
        table
    }

    /// Where the rod is to be held for an edge at noon.
    fn place_of_rod(&self, edge: &DeclinationEdge) -> String {
        if !edge.is_on_style {
            return self.say("prepare.card.rod.short");
        }
        let length = together(figures::length(self.words, edge.from_zero_m.abs()));
        let key = if edge.from_zero_m < 0.0 {
            "prepare.card.rod.south-of-zero"
        } else {
            "prepare.card.rod.north-of-zero"
        };
        self.words.fill(key, &[("length", &length)])
    }

    /// Which of the Sun's declinations can be read at an edge.
    fn range_of_rod(&self, edge: &DeclinationEdge) -> String {
        let solstice_rad = SOLSTICE_DECLINATION_DEG.to_radians();
        let (low, high) = edge.range_rad;
        if low <= -solstice_rad && high >= solstice_rad {
            return self.say("prepare.card.range.all");
        }
        let [from, to] = [low, high].map(|it| it.clamp(-solstice_rad, solstice_rad));
        let [from, to] = [from, to].map(|it| together(figures::signed_degrees(it)));
        self.words.fill("prepare.card.range", &[("from", &from), ("to", &to)])
    }

    /// The Sun by the hour.
    fn hours(&self) -> Table {
        let rows = self.card.hours.iter().map(|hour| {
            let (altitude, azimuth) =
                (figures::degrees(hour.altitude_rad), figures::degrees(hour.azimuth_rad));
            row([&self.minutes(hour.instant), &altitude, &azimuth])
        });
        let head = ["prepare.clock", "prepare.altitude", "prepare.azimuth"];
        let mut table = self.table("prepare.card.hours", &head, rows.collect());
        if table.rows.is_empty() {
            table.head.clear();
            table.note = self.say("prepare.card.hours.none");
        }
        table
    }
}

/// A text that is not broken into lines.
pub(super) fn together(text: String) -> String {
    text.replace(' ', "\u{a0}")
}

/// A number with its sign and a tenth.
pub(super) fn signed_tenths(value: f64) -> String {
    let sign = if value < -0.05 { '−' } else { '+' };
    format!("{sign}{:.1}", value.abs())
}
