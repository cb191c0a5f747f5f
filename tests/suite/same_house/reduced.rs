//! An answer without what changed on purpose, and its digest.

use super::changed::{CHANGED, Minutes};
use serde_json::Value;

/// What a command printed for programs, without what changed on purpose; JSON over many lines, so that two can be compared.
pub fn reduced(command: &str, minutes: Minutes, printed: &str) -> String {
    let changed = CHANGED.iter().filter(|(commands, _, by, _)| commands.contains(&command) && by.holds_for(minutes));
    let fields: Vec<&str> = changed.flat_map(|(_, fields, _, _)| *fields).copied().collect();
    match serde_json::from_str(printed) {
        Ok(value) => format!("{:#}", without(value, "", &fields)),
        Err(_) => printed.split_inclusive(FILE).map(|table| columns_without(table, &fields)).collect(),
    }
}

/// Ends each of several CSV files of one answer.
pub const FILE: &str = "--\n";

/// A value without some fields.
fn without(value: Value, path: &str, fields: &[&str]) -> Value {
    match value {
        Value::Object(object) => {
            let inner = |name: &str| if path.is_empty() { name.to_owned() } else { format!("{path}.{name}") };
            let cell = |name: &str| object.get(name).and_then(Value::as_str);
            let kept = object.iter().filter(|(name, _)| !fields.iter().any(|field| is_named(&inner(name), field, cell)));
            Value::Object(kept.map(|(name, value)| (name.clone(), without(value.clone(), &inner(name), fields))).collect())
        }
        Value::Array(values) => Value::Array(values.into_iter().map(|value| without(value, path, fields)).collect()),
        value => value,
    }
}

/// Whether a place in an object or a column of a row is what a field names: the end of it, where the cells beside it are as it says.
fn is_named<'a>(path: &str, field: &str, cell: impl Fn(&str) -> Option<&'a str>) -> bool {
    let (field, condition) = field.split_once(" where ").map_or((field, None), |(field, condition)| (field, condition.split_once(" = ")));
    path.strip_suffix(field).is_some_and(|before| before.is_empty() || before.ends_with('.'))
        && condition.is_none_or(|(column, value)| cell(column) == Some(value))
}

/// CSV without some columns, or without their cells where only some rows changed.
fn columns_without(table: &str, fields: &[&str]) -> String {
    let mut reader = csv::ReaderBuilder::new().has_headers(false).flexible(true).from_reader(table.as_bytes());
    let rows: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
    let Some(headings) = rows.first() else { return String::new() };
    let mut writer = csv::WriterBuilder::new().flexible(true).from_writer(Vec::new());
    for row in &rows {
        let cell = |name: &str| headings.iter().zip(row).find(|(heading, _)| *heading == name).map(|(_, cell)| cell);
        let kept = headings.iter().zip(row).filter(|(heading, _)| !fields.contains(heading));
        let cells = kept.map(|(heading, text)| if fields.iter().any(|field| is_named(heading, field, cell)) { "" } else { text });
        writer.write_record(cells).unwrap();
    }
    String::from_utf8(writer.into_inner().unwrap()).unwrap()
}

/// FNV-1a over 64 bits (Fowler, Noll, Vo): the same on every machine and for every version of the standard library.
pub fn digest(bytes: &[u8]) -> String {
    let hash = bytes.iter().fold(0xcbf2_9ce4_8422_2325_u64, |hash, byte| (hash ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3));
    format!("{hash:016x}")
}

#[test]
fn fields_are_left_out_where_they_are_named_and_nowhere_else() {
    let value = r#"{"surplus": 1, "rows": [{"key": "a", "surplus": 2}], "problems": [{"file": "counts.csv", "row": 4, "line": 5}, {"file": "b", "row": 4}]}"#;
    let kept = |fields: &[&str]| without(serde_json::from_str(value).unwrap(), "", fields).to_string();
    assert_eq!(kept(&["surplus", "problems"]), r#"{"rows":[{"key":"a"}]}"#);
    assert_eq!(
        kept(&["rows.surplus", "problems.row"]),
        r#"{"surplus":1,"rows":[{"key":"a"}],"problems":[{"file":"counts.csv","line":5},{"file":"b"}]}"#
    );
    let but_counts = kept(&["rows", "plus", "row where file = counts.csv", "problems.line"]);
    assert_eq!(but_counts, r#"{"surplus":1,"problems":[{"file":"counts.csv"},{"file":"b","row":4}]}"#);
    assert_eq!(columns_without("key,surplus,b\n1,2,3\n4,5,6\n", &["surplus", "b where key = 4"]), "key,b\n1,3\n4,\n");
}
