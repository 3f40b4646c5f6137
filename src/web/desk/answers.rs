//! What visitors ask, beside the court: the questions, and the answer to the one that is asked.

use wasm_bindgen::JsValue;
use web_sys::{Element, HtmlElement};

use crate::page::answers::{Figure, Question, figures, visitors_own};
use crate::page::state::Shown;
use crate::page::workings::Workings;
use crate::web::find::{all, by_id, document, piece};
use crate::web::marks::{Text, set_expanded, set_hidden};
use crate::words::Words;

/// The elements of the answers.
#[derive(Debug)]
pub(super) struct AnswersView {
    panel: HtmlElement,
    heading: HtmlElement,
    button: HtmlElement,
    questions: Vec<Element>,
    answer: HtmlElement,
    text: Text,
    list: HtmlElement,
    written: Vec<Figure>,
    asked: Option<Question>,
    /// Whether the answer has just come under another question.
    moved: bool,
    /// What was shown before the first question.
    before: Option<Shown>,
    /// What the page was last taken to for a question.
    told: Option<Shown>,
}

impl AnswersView {
    /// Finds the elements, and puts the panel into the court.
    pub(super) fn new() -> Result<Self, JsValue> {
        let panel: HtmlElement = by_id("answers")?;
        if let Some(court) = document()?.query_selector(".court")? {
            court.prepend_with_node_1(&panel)?;
        }
        Ok(Self {
            panel,
            heading: by_id("answers-heading")?,
            button: by_id("ask")?,
            questions: all("[data-question]")?,
            answer: by_id("answer")?,
            text: Text::new("answer-text")?,
            list: by_id("answer-figures")?,
            written: Vec::new(),
            asked: None,
            moved: false,
            before: None,
            told: None,
        })
    }

    /// Opens the panel and leads the reader there.
    pub(super) fn open(&mut self) {
        set_hidden(&self.panel, false);
        // It can have the focus.
        drop(self.heading.focus());
    }

    /// Puts the panel away and leads the reader back; tells what was shown before the first question.
    pub(super) fn close(&mut self) -> Option<Shown> {
        set_hidden(&self.panel, true);
        // It can have the focus.
        drop(self.button.focus());
        self.back()
    }

    /// Takes a question, or puts it away if it is the one that is asked; tells from what it is to be
    /// answered.
    pub(super) fn ask(&mut self, question: Question, shown: &Shown) -> Option<Shown> {
        if self.asked == Some(question) {
            self.asked = None;
            return None;
        }
        self.asked = Some(question);
        let before = self.before.get_or_insert_with(|| shown.clone());
        Some(visitors_own(before, self.told.as_ref(), shown))
    }

    /// Remembers what the page shows for the question.
    pub(super) fn has_shown(&mut self, told: &Shown) {
        self.told = Some(told.clone());
    }

    /// What was shown before the first question.
    pub(super) fn back(&mut self) -> Option<Shown> {
        (self.asked, self.told) = (None, None);
        self.before.take()
    }

    /// Shows the answer, with figures for what the page shows.
    pub(super) fn show(&mut self, words: &Words, workings: &Workings) -> Result<(), JsValue> {
        for button in &self.questions {
            let key = button.get_attribute("data-question");
            let is_asked = self.asked.is_some_and(|it| key.as_deref() == Some(it.key()));
            set_expanded(button, is_asked);
            // The answer stands under its question.
            if is_asked && button.next_element_sibling().as_ref() != Some(self.answer.as_ref()) {
                button.after_with_node_1(&self.answer)?;
                self.moved = true;
            }
        }
        set_hidden(&self.answer, self.asked.is_none());
        let Some(question) = self.asked else { return Ok(()) };
        self.text.set(&question.told(words, workings));
        if std::mem::take(&mut self.moved)
            && let Some(button) = self.answer.previous_element_sibling()
        {
            button.scroll_into_view();
        }
        let figures = figures(question, words, workings);
        if figures != self.written {
            self.list.set_text_content(None);
            for Figure { name, value } in &figures {
                let line = piece("div", "")?;
                line.append_child(&*piece("dt", name)?)?;
                line.append_child(&*piece("dd", value)?)?;
                self.list.append_child(&line)?;
            }
            self.written = figures;
        }
        Ok(())
    }
}
