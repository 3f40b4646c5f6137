//! The page at work: signals become messages, messages change the state, a frame shows it.

use wasm_bindgen::JsValue;
use web_sys::{HtmlDialogElement, HtmlElement};

use super::address_bar::{self, AddressBar};
use super::browser_zones::BrowserZones;
use super::controls::{Controls, instrument_of_key};
use super::editor::Editor;
use super::find::by_id;
use super::marks::set_hidden;
use super::pictures::{Picture, Pictures, Scene};
use super::save::{self, Format};
use super::shell::Program;
use super::signal::Signal;
use super::texts::Texts;
use super::{language, storage, wall_clock};
use crate::page::choice::Shelf;
use crate::page::dirty::Dirty;
use crate::page::keys::Move;
use crate::page::marks::Marks;
use crate::page::message::Message;
use crate::page::state::{Notice, Shown, State};
use crate::page::turns::Turns;
use crate::page::update::{lens_at_edge_s, sentence, update};
use crate::page::workings::Workings;
use crate::page::{address, caption};
use crate::scene::camera::Camera;
use crate::scene::{day_strip, lens};
use crate::words::Words;

/// Longest time that one frame may let pass, seconds: after a pause the Sun does not leap.
const LONGEST_FRAME_S: f64 = 0.1;
/// How long the page must stand still before the reading is announced, milliseconds.
const SETTLED_MS: f64 = 700.0;
/// A camera that has moved again within this time is in motion, milliseconds; once it has stood
/// for so long, the court is painted as finely as it can be.
const IN_MOTION_MS: f64 = 120.0;
/// How often the texts are written while the page moves, milliseconds.
const WRITE_EVERY_MS: f64 = 120.0;
/// How often fields and descriptions are renewed while the page moves, milliseconds.
const DESCRIBE_EVERY_MS: f64 = 1000.0;

/// The page.
pub(super) struct App {
    state: State,
    workings: Workings,
    words: Words,
    /// The language's tag.
    tag: String,
    pictures: Pictures,
    texts: Texts,
    controls: Controls,
    editor: Editor,
    kept: Shelf,
    address_bar: AddressBar,
    caution: HtmlDialogElement,
    notices: [HtmlElement; 2],
    dirty: Dirty,
    in_sight: bool,
    last_ms: Option<f64>,
    marks: Marks,
    turns: Turns,
    /// The camera of the last frame, whether it had moved and when it last did, and whether it is
    /// in motion.
    camera: Option<Camera>,
    moved: bool,
    turned_ms: f64,
    in_motion: bool,
    /// What waits for its turn.
    late: Dirty,
    /// When reading and ladder were last written.
    written_ms: [f64; 2],
    fields_ms: f64,
    /// Whether the fields have fallen behind while the page moved.
    fields_late: bool,
    described_ms: f64,
    announce_at_ms: Option<f64>,
}

impl App {
    /// Builds the page from its address, in a language.
    pub(super) fn new(tag: &str, words: Words) -> Result<Self, JsValue> {
        language::speak(tag, &words)?;
        set_hidden(&by_id("loading")?, true);
        let mut state = State::first();
        let refused = |error| JsValue::from_str(&format!("{error}"));
        let zones = Box::new(BrowserZones::default());
        let mut workings = Workings::with_zones(&state.shown, zones).map_err(refused)?;
        take_kept(&mut state, &words);
        let kept = state.shown.shelf.clone();
        update(&mut state, Message::Address(address_bar::read()), &mut workings, &words);
        // A visit begins with its address: there is nothing before it to go back to.
        state.settle();
        let caution: HtmlDialogElement = by_id("caution")?;
        if !storage::caution_was_read() {
            caution.show_modal()?;
        }
        Ok(Self {
            pictures: Pictures::new()?,
            texts: Texts::new()?,
            controls: Controls::new(&words)?,
            editor: Editor::new(&words)?,
            kept,
            address_bar: AddressBar::default(),
            caution,
            notices: [by_id("notice-list")?, by_id("dismiss")?],
            dirty: Dirty::ALL,
            in_sight: true,
            last_ms: None,
            marks: Marks::default(),
            turns: Turns::default(),
            camera: None,
            moved: false,
            turned_ms: f64::NEG_INFINITY,
            in_motion: false,
            late: Dirty::NOTHING,
            written_ms: [f64::NEG_INFINITY; 2],
            fields_ms: f64::NEG_INFINITY,
            fields_late: false,
            described_ms: f64::NEG_INFINITY,
            announce_at_ms: None,
            state,
            workings,
            words,
            tag: tag.to_owned(),
        })
    }

    fn take(&mut self, signal: Signal) {
        match signal {
            Signal::Ask(message) => self.ask(message),
            Signal::Size(picture, size) => {
                self.pictures.resize(picture, size);
                // The handles lie over the strips, whose axes have moved.
                self.dirty |= picture.dirty() | Dirty::TEXT;
            }
            Signal::InSight(in_sight) => {
                self.in_sight = in_sight;
                self.last_ms = None;
            }
            Signal::LeftField => self.dirty |= Dirty::CONTROLS,
            Signal::DragLens(px) => self.drag_lens(px),
            Signal::Instrument(key) => {
                if let Some(choice) = instrument_of_key(&key, &self.state.shown.shelf) {
                    self.ask(Message::Instrument(choice));
                }
            }
            Signal::Language(tag, words) => self.turn_to(&tag, words),
            Signal::Save(picture, format) => self.save(picture, format),
            Signal::Help(open) => self.help(open),
            Signal::TellAddress => {
                self.address_bar.write(address::of_page(&self.state.shown, self.state.presenting))
            }
        }
    }

    fn ask(&mut self, message: Message) {
        self.dirty |= update(&mut self.state, message, &mut self.workings, &self.words);
    }

    /// Turns to a language, if its words have come and no other has been chosen since.
    fn turn_to(&mut self, tag: &str, words: Option<Words>) {
        if !language::is_chosen(tag) {
            return;
        }
        let Some(words) = words else {
            // The list is there: it has just been asked.
            let _: Result<(), JsValue> = language::choose(&self.tag);
            self.dirty |= self.state.tell(self.words.say("error.language").to_owned());
            return;
        };
        self.tag = tag.to_owned();
        storage::remember_language(tag);
        self.words = words;
        // The elements are there, as they were at the start.
        let _: Result<(), JsValue> = language::speak(tag, &self.words)
            .and_then(|()| self.controls.speak(&self.words))
            .and_then(|()| self.editor.speak(&self.words));
        self.dirty |= Dirty::ALL;
    }

    fn drag_lens(&mut self, px: f64) {
        let view = self.pictures.lens_view(&self.state, &self.words);
        let by_s = px * lens::seconds_per_px(self.workings.instrument(), &view);
        let here_s = self.state.shown.lens_s.unwrap_or_else(|| lens_at_edge_s(&self.workings));
        self.ask(Message::Lens(Move::To(here_s - by_s)));
    }

    fn save(&mut self, picture: Option<Picture>, format: Format) {
        let shown = self.state.on_screen(&mut self.workings);
        let beside = match (shown.noon, shown.rod) {
            (true, _) => Picture::Noon,
            (false, Some(_)) => Picture::Scale,
            (false, None) => Picture::Lens,
        };
        let picture = picture.unwrap_or(beside);
        let (camera, guides) = (self.state.camera(&self.workings), self.state.guides());
        let scene = Scene::new(&shown, &camera, guides, &self.workings, &self.words, false);
        let caption = caption::parts(&self.words, &self.workings);
        let drawing = self.pictures.captioned(picture, &scene, &caption);
        let name = format!("noonwedge-{}-{}", picture.id(), self.workings.now().date);
        let saved = drawing.map(|drawing| save::save(&drawing, format, &name));
        if !matches!(saved, Some(Ok(()))) {
            self.dirty |= self.state.tell(self.words.say("error.save").to_owned());
        }
    }

    fn help(&mut self, open: bool) {
        match (open, self.caution.open()) {
            // A dialog that is already open can't be opened, and need not be.
            (true, false) => drop(self.caution.show_modal()),
            (false, open) => {
                if open {
                    self.caution.close();
                }
                storage::remember_caution_read();
            }
            (true, true) => {}
        }
    }

    fn let_time_pass(&mut self, now_ms: f64) {
        if !self.state.is_moving() || !self.in_sight {
            self.last_ms = None;
            return;
        }
        let last_ms = self.last_ms.replace(now_ms).unwrap_or(now_ms);
        let seconds = ((now_ms - last_ms) / 1000.0).clamp(0.0, LONGEST_FRAME_S);
        self.ask(Message::Tick(seconds, wall_clock::now()));
    }

    /// Notes whether the camera is in motion.
    fn watch_camera(&mut self, now_ms: f64) {
        let camera = self.state.camera(&self.workings);
        let moved = self.camera.replace(camera) != Some(camera);
        let lately = now_ms - self.turned_ms <= IN_MOTION_MS;
        if moved {
            // Frames may be longer than that on a slow machine.
            self.in_motion = lately || self.moved;
            self.turned_ms = now_ms;
        } else if self.in_motion && !lately {
            self.in_motion = false;
            self.dirty |= Dirty::COURT;
        }
        self.moved = moved;
    }

    /// Shows what is out of date.
    fn show(&mut self, mut dirty: Dirty, now_ms: f64) {
        let shown = self.state.on_screen(&mut self.workings);
        // A turn of the camera shows on all sheets of the court at once.
        let mut in_turns = self.state.playing && !dirty.has(Dirty::COURT);
        if dirty.has(Dirty::MOMENT) {
            dirty |= self.state.refresh(&mut self.workings, &shown);
            in_turns &= !dirty.has(Dirty::LAND);
            let (moved, creeping) = self.marks_moved();
            dirty |= moved;
            in_turns &= creeping;
        }
        dirty |= std::mem::take(&mut self.late);
        if in_turns {
            let now = self.turns.take(dirty);
            self.late = dirty.without(now);
            dirty = now;
        }
        let camera = self.state.camera(&self.workings);
        let guides = self.state.guides();
        let covered = !self.state.presenting;
        let scene = Scene::new(&shown, &camera, guides, &self.workings, &self.words, covered);
        self.pictures.draw(dirty, &scene, self.in_motion);
        if dirty.has(Dirty::CONTROLS) {
            self.controls.show(&self.words, &self.state);
            self.editor.show(&self.words, &self.state);
        }
        if dirty.has(Dirty::DAY | Dirty::YEAR) {
            self.controls.show_handles(&self.workings, &mut self.pictures);
        }
        if dirty.has(Dirty::TEXT | Dirty::CONTROLS) {
            self.write(&shown, dirty, now_ms);
        }
        if dirty.has(Dirty::NOTICES) {
            self.show_notices();
        }
        if dirty.has(Dirty::ADDRESS) {
            self.address_bar.touch(now_ms);
        }
    }

    /// The pictures on which something has visibly moved, and whether everything creeps.
    fn marks_moved(&mut self) -> (Dirty, bool) {
        let width_px = self.pictures.size(Picture::Day).x;
        let axis = day_strip::axis(self.workings.instrument(), width_px);
        let (court, zoom) = (self.pictures.size(Picture::Court), self.state.shown.view.zoom);
        let now = Marks::at(&self.workings, court, zoom, &axis);
        let creeping = self.marks.creep_to(&now);
        let (dirty, drawn) = self.marks.moved_to(now);
        self.marks = drawn;
        (dirty, creeping)
    }

    /// Writes the texts, in play no oftener than they can be read.
    fn write(&mut self, shown: &Shown, dirty: Dirty, now_ms: f64) {
        let hurried = self.state.is_moving() && !dirty.has(Dirty::CONTROLS);
        // Controls stand among the texts, and change what is to be written.
        let wanted = if dirty.has(Dirty::CONTROLS) { Dirty::TEXT } else { dirty };
        let mut due = Dirty::NOTHING;
        for (part, written_ms) in
            [Dirty::FIGURES, Dirty::LADDER].into_iter().zip(&mut self.written_ms)
        {
            if !wanted.has(part) {
                continue;
            }
            if hurried && now_ms - *written_ms < WRITE_EVERY_MS {
                self.dirty |= part;
            } else {
                *written_ms = now_ms;
                due |= part;
            }
        }
        let (words, state, workings) = (&self.words, &self.state, &self.workings);
        // Elements of one's own making can be made.
        if due.has(Dirty::FIGURES) {
            let _: Result<(), JsValue> = self.texts.write_figures(words, shown, workings);
            self.announce_at_ms = Some(now_ms + SETTLED_MS);
        }
        if due.has(Dirty::LADDER) {
            let _: Result<(), JsValue> = self.texts.write_steps(words, shown, workings);
        }
        // Fields and handles are there for the hand, which waits until the page is still.
        if !hurried || now_ms - self.fields_ms >= DESCRIBE_EVERY_MS {
            self.fields_ms = now_ms;
            self.fields_late = false;
            self.controls.show_moment(words, state, workings, &mut self.pictures);
            self.editor.show_moment(words, workings);
        } else {
            self.fields_late = true;
        }
    }

    /// Keeps the person's own instruments, if they are not what was kept last.
    fn keep_instruments(&mut self) {
        let shelf = &mut self.state.shown.shelf;
        if *shelf == self.kept {
            return;
        }
        if let Some(text) = storage::instruments() {
            shelf.take_new(&Shelf::read(&text).0, &self.kept);
            self.dirty |= Dirty::CONTROLS;
        }
        self.kept = shelf.clone();
        if !storage::keep_instruments(&shelf.write()) {
            let sentence = self.words.say("error.storage").to_owned();
            if !self.state.notices.contains(&Notice(sentence.clone())) {
                self.dirty |= self.state.tell(sentence);
            }
        }
    }

    fn show_notices(&mut self) {
        let [list, dismiss] = &self.notices;
        let sentences: Vec<&str> =
            self.state.notices.iter().map(|notice| notice.0.as_str()).collect();
        list.set_text_content(Some(&sentences.join("\n")));
        set_hidden(dismiss, sentences.is_empty());
    }

    /// What waits for the page to come to rest.
    fn finish(&mut self, now_ms: f64) {
        if self
            .address_bar
            .write_due(now_ms, || address::of_page(&self.state.shown, self.state.presenting))
        {
            self.keep_instruments();
        }
        let shown = &self.state.shown;
        if self.announce_at_ms.is_none() {
            return;
        }
        let settled =
            !self.state.is_moving() && self.announce_at_ms.is_some_and(|at_ms| now_ms >= at_ms);
        if settled || now_ms - self.described_ms >= DESCRIBE_EVERY_MS {
            self.described_ms = now_ms;
            self.texts.describe(&self.words, shown, &self.workings);
        }
        if settled {
            self.announce_at_ms = None;
            self.texts.announce(&self.words, &self.workings);
        }
    }
}

impl Program for App {
    type Signal = Signal;

    fn frame(&mut self, now_ms: f64, signals: Vec<Signal>) -> bool {
        for signal in signals {
            self.take(signal);
        }
        self.let_time_pass(now_ms);
        if self.fields_late && !self.state.is_moving() {
            self.dirty |= Dirty::FIGURES;
        }
        self.watch_camera(now_ms);
        let dirty = std::mem::take(&mut self.dirty);
        if !dirty.is_nothing() {
            self.show(dirty, now_ms);
        }
        self.finish(now_ms);
        let moving = self.state.is_moving() && self.in_sight;
        moving
            || self.in_motion
            || !self.dirty.is_nothing()
            || !self.late.is_nothing()
            || self.address_bar.is_waiting()
            || self.announce_at_ms.is_some()
    }
}

/// Takes the person's own instruments from where the browser keeps them.
fn take_kept(state: &mut State, words: &Words) {
    let Some(text) = storage::instruments() else { return };
    let (shelf, faults) = Shelf::read(&text);
    state.shown.shelf = shelf;
    if !faults.is_empty() {
        // Full storage would have been told when it was filled.
        let _: bool = storage::keep_unread(&text);
        let sentences: Vec<String> = faults.iter().map(|it| sentence(words, it)).collect();
        state.tell(words.fill("error.stored", &[("sentences", &sentences.join("; "))]));
    }
}
