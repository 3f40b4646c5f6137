//! JSON read into values: as much of it as the words and the instruments' files need.
//!
//! Numbers stay as they are written, so that a number read is the very number that was written;
//! fields stay in their order.

use crate::core::decimal;
use crate::core::field::quoted;

/// How deep lists and objects may stand in each other.
const DEEPEST: u32 = 64;

/// A value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Json {
    /// Nothing.
    Null,
    /// True or false.
    Bool(bool),
    /// A number, as it is written.
    Number(String),
    /// A text.
    Text(String),
    /// A list.
    List(Vec<Json>),
    /// Fields with their values, in their order.
    Object(Vec<(String, Json)>),
}

/// Where a text stops being JSON; both count from one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotJson {
    /// The line.
    pub line: usize,
    /// The byte in it.
    pub column: usize,
}

impl Json {
    /// Reads a text.
    ///
    /// # Errors
    /// The place at which it is no longer JSON.
    pub fn parse(text: &str) -> Result<Self, NotJson> {
        let mut reader = Reader { bytes: text.as_bytes(), at: 0 };
        let value = reader.value(0);
        reader.skip_space();
        match value {
            Some(value) if reader.at == reader.bytes.len() => Ok(value),
            _ => Err(reader.place()),
        }
    }

    /// The field of an object; of several with one name, the last.
    #[must_use]
    pub fn get(&self, name: &str) -> Option<&Self> {
        let Self::Object(fields) = self else { return None };
        fields.iter().rev().find(|(field, _)| field == name).map(|(_, value)| value)
    }

    /// The text.
    #[must_use]
    pub fn text(&self) -> Option<&str> {
        match self {
            Self::Text(text) => Some(text),
            _ => None,
        }
    }

    /// The number, if it is finite.
    #[must_use]
    pub fn number(&self) -> Option<f64> {
        let Self::Number(written) = self else { return None };
        decimal::parse(written)
    }

    /// The value for a sentence about it, cut short; of what holds other values, its kind.
    #[must_use]
    pub fn shown(&self) -> String {
        match self {
            Self::Text(text) | Self::Number(text) => quoted(text),
            Self::Null => "null".to_owned(),
            Self::Bool(is) => is.to_string(),
            Self::List(_) => "a list".to_owned(),
            Self::Object(_) => "an object".to_owned(),
        }
    }
}

/// A text as JSON writes it.
#[must_use]
pub fn written(plain: &str) -> String {
    let mut json = String::from("\"");
    for letter in plain.chars() {
        match letter {
            '"' | '\\' => json.extend(['\\', letter]),
            '\n' => json.push_str("\\n"),
            // No other control character says anything to a reader.
            control if control.is_control() => json.push(' '),
            plain => json.push(plain),
        }
    }
    json.push('"');
    json
}

/// A text on its way to a value. Each method leaves `at` behind what it has read, or where it
/// had to stop.
struct Reader<'a> {
    bytes: &'a [u8],
    at: usize,
}

impl Reader<'_> {
    fn place(&self) -> NotJson {
        let before = self.bytes.get(..self.at).unwrap_or(self.bytes);
        let line_start = before.iter().rposition(|byte| *byte == b'\n').map_or(0, |at| at + 1);
        let line = before.iter().filter(|byte| **byte == b'\n').count() + 1;
        NotJson { line, column: before.len() - line_start + 1 }
    }

    fn peek(&self) -> Option<u8> {
        self.bytes.get(self.at).copied()
    }

    fn take(&mut self, byte: u8) -> Option<()> {
        (self.peek() == Some(byte)).then(|| self.at += 1)
    }

    fn skip_space(&mut self) {
        while matches!(self.peek(), Some(b' ' | b'\n' | b'\r' | b'\t')) {
            self.at += 1;
        }
    }

    fn word(&mut self, word: &str, value: Json) -> Option<Json> {
        word.bytes().try_for_each(|byte| self.take(byte))?;
        Some(value)
    }

    fn value(&mut self, depth: u32) -> Option<Json> {
        self.skip_space();
        match self.peek()? {
            b'n' => self.word("null", Json::Null),
            b't' => self.word("true", Json::Bool(true)),
            b'f' => self.word("false", Json::Bool(false)),
            b'"' => self.string().map(Json::Text),
            b'[' => self.list(depth + 1),
            b'{' => self.object(depth + 1),
            _ => self.number(),
        }
    }

    fn list(&mut self, depth: u32) -> Option<Json> {
        let mut items = Vec::new();
        self.members(depth, b']', &mut |reader| {
            items.push(reader.value(depth)?);
            Some(())
        })?;
        Some(Json::List(items))
    }

    fn object(&mut self, depth: u32) -> Option<Json> {
        let mut fields = Vec::new();
        self.members(depth, b'}', &mut |reader| {
            let name = reader.string()?;
            reader.skip_space();
            reader.take(b':')?;
            fields.push((name, reader.value(depth)?));
            Some(())
        })?;
        Some(Json::Object(fields))
    }

    /// What stands between an opening that is next and its close, with commas between.
    fn members(
        &mut self,
        depth: u32,
        close: u8,
        member: &mut dyn FnMut(&mut Self) -> Option<()>,
    ) -> Option<()> {
        if depth > DEEPEST {
            return None;
        }
        self.at += 1;
        self.skip_space();
        if self.take(close).is_some() {
            return Some(());
        }
        loop {
            self.skip_space();
            member(self)?;
            self.skip_space();
            if self.take(close).is_some() {
                return Some(());
            }
            self.take(b',')?;
        }
    }

    fn number(&mut self) -> Option<Json> {
        let from = self.at;
        let _: Option<()> = self.take(b'-');
        if self.take(b'0').is_none() {
            self.digits()?;
        }
        if self.take(b'.').is_some() {
            self.digits()?;
        }
        if matches!(self.peek(), Some(b'e' | b'E')) {
            self.at += 1;
            if matches!(self.peek(), Some(b'+' | b'-')) {
                self.at += 1;
            }
            self.digits()?;
        }
        let written = self.bytes.get(from..self.at)?;
        Some(Json::Number(String::from_utf8_lossy(written).into_owned()))
    }

    fn digits(&mut self) -> Option<()> {
        let from = self.at;
        while self.peek().is_some_and(|byte| byte.is_ascii_digit()) {
            self.at += 1;
        }
        (self.at > from).then_some(())
    }

    fn string(&mut self) -> Option<String> {
        self.take(b'"')?;
        let mut text = Vec::new();
        loop {
            match self.peek()? {
                b'"' => {
                    self.at += 1;
                    // Cut from a text at characters of one byte, it is a text again.
                    return String::from_utf8(text).ok();
                }
                b'\\' => {
                    self.at += 1;
                    let letter = self.escaped()?;
                    text.extend_from_slice(letter.encode_utf8(&mut [0; 4]).as_bytes());
                }
                0..=0x1f => return None,
                byte => {
                    text.push(byte);
                    self.at += 1;
                }
            }
        }
    }

    /// What stands behind a backslash.
    fn escaped(&mut self) -> Option<char> {
        let letter = match self.peek()? {
            b'u' => {
                self.at += 1;
                return self.code();
            }
            b'n' => '\n',
            b't' => '\t',
            b'r' => '\r',
            b'b' => '\u{8}',
            b'f' => '\u{c}',
            plain @ (b'"' | b'\\' | b'/') => plain.into(),
            _ => return None,
        };
        self.at += 1;
        Some(letter)
    }

    /// The character of four hexadecimal digits, or of two such halves.
    fn code(&mut self) -> Option<char> {
        let first = self.four()?;
        if !(0xd800..0xdc00).contains(&first) {
            return char::from_u32(first);
        }
        self.take(b'\\')?;
        self.take(b'u')?;
        let second = self.four()?.checked_sub(0xdc00).filter(|low| *low < 0x400)?;
        char::from_u32(0x1_0000 + ((first - 0xd800) << 10) + second)
    }

    fn four(&mut self) -> Option<u32> {
        let mut code = 0;
        for _ in 0..4 {
            code = code * 16 + char::from(self.peek()?).to_digit(16)?;
            self.at += 1;
        }
        Some(code)
    }
}
