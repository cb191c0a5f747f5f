//! An answer without what changed on purpose, and its digest.

use super::changed::{AS_SETS, CHANGED, Minutes, NEW_GROUPS};
use serde_json::Value;

/// What a command printed for programs, without what changed on purpose; JSON over many lines, so that two can be compared.
pub fn reduced(command: &str, minutes: Minutes, printed: &str) -> String {
    let changed = CHANGED.iter().filter(|(commands, _, by, _)| commands.contains(&command) && by.holds_for(minutes));
    let fields: Vec<&str> = changed.flat_map(|(_, fields, _, _)| *fields).copied().collect();
    let sets = AS_SETS.iter().filter(|(commands, _, by, _)| commands.contains(&command) && by.holds_for(minutes));
    let sets: Vec<&str> = sets.map(|(_, list, _, _)| *list).collect();
    match serde_json::from_str(printed) {
        Ok(value) => format!("{:#}", without(without_new_groups(value), "", &fields, &sets)),
        Err(_) => printed.split_inclusive(FILE).map(|table| columns_without(table, &fields)).collect(),
    }
}

/// Ends each of several CSV files of one answer.
pub const FILE: &str = "--\n";

/// An answer without the problems of groups that are new, and its count of assumptions without theirs.
fn without_new_groups(mut answer: Value) -> Value {
    let is_new = |problem: &Value| NEW_GROUPS.iter().any(|(group, _)| problem["group"] == *group);
    let Some(problems) = answer.get_mut("problems").and_then(Value::as_array_mut) else { return answer };
    let assumed = problems.iter().filter(|problem| is_new(problem) && problem["severity"] == "assumed").count();
    problems.retain(|problem| !is_new(problem));
    if let Some(count) = answer.get("assumed").and_then(Value::as_u64) {
        answer["assumed"] = (count - u64::try_from(assumed).unwrap()).into();
    }
    answer
}

/// A value without some fields, and with some lists as sets.
fn without(value: Value, path: &str, fields: &[&str], sets: &[&str]) -> Value {
    match value {
        Value::Object(object) => {
            let inner = |name: &str| if path.is_empty() { name.to_owned() } else { format!("{path}.{name}") };
            let cell = |name: &str| object.get(name).and_then(Value::as_str);
            let kept = object.iter().filter(|(name, _)| !fields.iter().any(|field| is_named(&inner(name), field, cell)));
            Value::Object(kept.map(|(name, value)| (name.clone(), without(value.clone(), &inner(name), fields, sets))).collect())
        }
        Value::Array(values) => {
            let mut values: Vec<Value> = values.into_iter().map(|value| without(value, path, fields, sets)).collect();
            if sets.contains(&path) {
                values.sort_by_cached_key(Value::to_string);
                values.dedup();
            }
            Value::Array(values)
        }
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
    let kept = |fields: &[&str]| without(serde_json::from_str(value).unwrap(), "", fields, &["problems"]).to_string();
    let problems = r#"{"assumed": 3, "problems": [{"group": "row-twice", "severity": "warning"}, {"group": "card-fees", "severity": "assumed"}, {"group": "long-timer"}]}"#;
    let without_new = without_new_groups(serde_json::from_str(problems).unwrap()).to_string();
    assert_eq!(without_new, r#"{"assumed":2,"problems":[{"group":"long-timer"}]}"#);
    assert_eq!(kept(&["surplus", "problems"]), r#"{"rows":[{"key":"a"}]}"#);
    assert_eq!(
        kept(&["rows.surplus", "problems.row"]),
        r#"{"surplus":1,"rows":[{"key":"a"}],"problems":[{"file":"b"},{"file":"counts.csv","line":5}]}"#
    );
    let but_counts = kept(&["rows", "plus", "row where file = counts.csv", "problems.line"]);
    assert_eq!(but_counts, r#"{"surplus":1,"problems":[{"file":"b","row":4},{"file":"counts.csv"}]}"#);
    assert_eq!(columns_without("key,surplus,b\n1,2,3\n4,5,6\n", &["surplus", "b where key = 4"]), "key,b\n1,3\n4,\n");
}
