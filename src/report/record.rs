//! Records for programs, in JSON or CSV from the same structures: names in a stable order, money and minutes as decimal strings,
//! null or an empty cell for what is not known.

use super::csv_text::{Cell, csv};
use crate::reading::formula::guarded;
use serde::Serialize;
use serde_json::Value;
use std::borrow::Cow;

/// A text that came from a file.
pub type Text<'a> = Cow<'a, str>;

/// What records are written for: a text from a file that a spreadsheet would run as a formula is guarded in CSV.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    /// JSON.
    Json,
    /// CSV.
    Csv,
}

impl Form {
    /// A text as this form holds it.
    #[must_use]
    pub fn text(self, text: &str) -> Text<'_> {
        if self == Self::Csv { guarded(text) } else { Cow::Borrowed(text) }
    }

    /// The same of a text there may be.
    #[must_use]
    pub fn known<'a>(self, text: Option<&'a String>) -> Option<Text<'a>> {
        text.map(|text| self.text(text))
    }
}

/// A record, pretty-printed, with a last line break.
#[must_use]
pub fn json(record: &impl Serialize) -> String {
    // Only maps whose keys are no text cannot be written, and no record has one.
    serde_json::to_string_pretty(record).unwrap_or_default() + "\n"
}

/// Records as CSV under their [`headings`].
#[must_use]
pub fn records<R: Serialize + Default>(rows: impl IntoIterator<Item = R>) -> String {
    let cell = |(_, value)| match value {
        Value::Null => Cell::Unknown,
        Value::String(text) => Cell::Figure(text),
        other => Cell::Figure(other.to_string()),
    };
    csv(&headings::<R>(), rows.into_iter().map(|row| fields(&row).into_iter().map(cell).collect()))
}

/// The names of a record's fields, in their order; those of a record `before` within it end in `_before`.
#[must_use]
pub fn headings<R: Serialize + Default>() -> Vec<String> {
    fields(&R::default()).into_iter().map(|(name, _)| name).collect()
}

fn fields(record: &impl Serialize) -> Vec<(String, Value)> {
    let Ok(Value::Object(object)) = serde_json::to_value(record) else { return Vec::new() };
    let flat = |(name, value): (String, Value)| match value {
        Value::Object(inner) => inner.into_iter().map(|(of, value)| (format!("{of}_{name}"), value)).collect(),
        value => vec![(name, value)],
    };
    object.into_iter().flat_map(flat).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::millionths::Money;

    #[derive(Default, Serialize)]
    struct Inner {
        pay: Money,
    }

    #[derive(Default, Serialize)]
    struct Outer<'a> {
        key: Text<'a>,
        pieces: Option<i64>,
        before: Inner,
        after: Inner,
    }

    #[test]
    fn a_record_is_the_same_in_both_forms() {
        let record = |form: Form| Outer { key: form.text("=1"), before: Inner { pay: Money(-3_500_000) }, ..Outer::default() };
        let headings = "key,pieces,pay_before,pay_after\n";
        assert_eq!(records([record(Form::Csv)]), format!("{headings}'=1,,-3.500000,0.000000\n"));
        assert_eq!(records::<Outer<'_>>([]), headings);
        let read: Value = serde_json::from_str(&json(&record(Form::Json))).unwrap();
        assert_eq!(read, serde_json::json!({ "key": "=1", "pieces": null, "before": { "pay": "-3.500000" }, "after": { "pay": "0.000000" } }));
    }
}
