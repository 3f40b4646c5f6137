//! Texts and values broken on purpose, the same ones in every run.

use serde_json::{Map, Value, json};

/// Numbers without a seed from outside: every run tries the same.
#[derive(Debug)]
pub struct Dice(pub u64);

impl Dice {
    /// A number from nought, below that of the sides.
    pub fn roll(&mut self, sides: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 % sides.max(1) as u64) as usize
    }
}

/// A text with some bytes changed, taken out, doubled or cut off.
pub fn bitten(text: &str, dice: &mut Dice) -> String {
    let mut bytes = text.as_bytes().to_vec();
    for _ in 0..=dice.roll(4) {
        let at = dice.roll(bytes.len());
        match dice.roll(4) {
            0 if at < bytes.len() => bytes[at] = b" \"{}[],:.-+eE09axn%&=\xc3\x00"[dice.roll(23)],
            1 if at < bytes.len() => drop(bytes.remove(at)),
            2 => bytes.truncate(at),
            _ => bytes.insert(at, b"0123456789-.eE\"{}[],%"[dice.roll(21)]),
        }
    }
    String::from_utf8_lossy(&bytes).into_owned()
}

/// A description with one part taken out, moved in, or given another value.
pub fn upset(value: &Value, dice: &mut Dice) -> Value {
    let strange = [
        json!(null),
        json!(true),
        json!(-1),
        json!(1e308),
        json!(-0.0),
        json!(1e-320),
        json!(""),
        json!("x"),
        json!([]),
        json!([[]]),
        json!({}),
        json!({"a": {"b": 1}}),
        json!(u64::MAX),
        json!([0]),
        json!([60, 60, 60]),
        json!("\u{0}\u{202e}"),
    ];
    let mut next = value.clone();
    let deep = dice.roll(2) + 1;
    unsettle(&mut next, deep, strange[dice.roll(strange.len())].clone(), dice);
    next
}

/// Puts something strange so many levels down, or gives a field there another name.
fn unsettle(here: &mut Value, deep: usize, strange: Value, dice: &mut Dice) {
    match here {
        Value::Object(fields) if deep > 0 && !fields.is_empty() => {
            let names: Vec<String> = fields.keys().cloned().collect();
            let name = &names[dice.roll(names.len())];
            if dice.roll(6) == 0 {
                rename(fields, name, dice);
            } else if let Some(inside) = fields.get_mut(name) {
                unsettle(inside, deep - 1, strange, dice);
            }
        }
        _ => *here = strange,
    }
}

fn rename(fields: &mut Map<String, Value>, name: &str, dice: &mut Dice) {
    if let Some(value) = fields.remove(name)
        && dice.roll(2) == 0
    {
        fields.insert(format!("{name}_"), value);
    }
}
