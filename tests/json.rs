//! Our reading of JSON against a reader in wide use: the same texts are taken, with the same values.

use noonwedge::core::json::{Json, NotJson};
use proptest::prelude::*;
use serde_json::Value;

/// Whether two readings are one.
fn same(ours: &Json, theirs: &Value) -> bool {
    match (ours, theirs) {
        (Json::Null, Value::Null) => true,
        (Json::Bool(ours), Value::Bool(theirs)) => ours == theirs,
        (Json::Number(_), Value::Number(theirs)) => ours.number() == theirs.as_f64(),
        (Json::Text(ours), Value::String(theirs)) => ours == theirs,
        (Json::List(ours), Value::Array(theirs)) => {
            ours.len() == theirs.len() && ours.iter().zip(theirs).all(|(o, t)| same(o, t))
        }
        (Json::Object(fields), Value::Object(theirs)) => {
            let all = theirs.iter().all(|(name, t)| ours.get(name).is_some_and(|o| same(o, t)));
            all && fields.iter().all(|(name, _)| theirs.contains_key(name))
        }
        _ => false,
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(10_000))]

    #[test]
    fn the_same_texts_are_taken_with_the_same_values(
        text in "([ \\[\\]{}:,\"a1]|\"a\":|\\[1,|-?[0-9]{1,3}(\\.[0-9]{0,3})?(e[+-]?[0-9]?)?|true|null|fals|\\\\u[0-9a-f]{3,4}|\\\\[nt\"x/]|é|\\PC){0,12}",
        wrapped in 0..4_usize,
    ) {
        let text = match wrapped {
            0 => text,
            1 => format!("[{text}]"),
            2 => format!("\"{text}\""),
            _ => format!("{{\"a\":{text}}}"),
        };
        match (Json::parse(&text), serde_json::from_str::<Value>(&text)) {
            // Ours keeps a number as written and refuses it where it is used, by its path.
            (Ok(_), Err(error)) if error.to_string().contains("number out of range") => {}
            (Ok(ours), Ok(theirs)) => prop_assert!(same(&ours, &theirs), "{text:?}: {ours:?}"),
            (ours, theirs) => prop_assert_eq!(ours.is_ok(), theirs.is_ok(), "{:?}", text),
        }
    }
}

#[test]
fn the_catalogue_of_words_is_read_like_elsewhere() {
    let text = include_str!("../src/words/en.json");
    let theirs: Value = serde_json::from_str(text).unwrap_or(Value::Null);
    assert!(Json::parse(text).is_ok_and(|ours| same(&ours, &theirs)));
}

#[test]
fn the_place_of_a_fault_is_told_and_depth_has_an_end() {
    let place = |text: &str| Json::parse(text).err().map(|NotJson { line, column }| (line, column));
    assert_eq!(place("{\n  \"a\": 1,\n  \"b\" 2\n}"), Some((3, 7)));
    assert_eq!(place("[1] 2"), Some((1, 5)));
    assert!(Json::parse("1e999").is_ok_and(|it| it.number().is_none()));
    assert_eq!(place(&"[".repeat(100_000)), Some((1, 65)));
    assert_eq!(Json::parse(r#""\ud83d\ude00""#), Ok(Json::Text("😀".to_owned())));
    assert!(Json::parse(r#""\ud83d""#).is_err());
}
