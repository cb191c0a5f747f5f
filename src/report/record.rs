//! Records for programs, in JSON or CSV from the same structures: names in a stable order, money and minutes as decimal strings,
//! null or an empty cell for what is not known.

use crate::reading::formula::guarded;
use polars::prelude::PolarsError;
use serde::Serialize;
use serde_json::{Map, Value};
use std::io;
use thiserror::Error;

/// What records are written for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    /// JSON, in which a text is as it was written.
    Json,
    /// CSV, in which a text that a spreadsheet would run as a formula is guarded.
    Csv,
}

impl Form {
    /// Returns a text from a file as this form holds it.
    #[must_use]
    pub fn text(self, text: &str) -> String {
        if self == Self::Csv { guarded(text).into_owned() } else { text.to_owned() }
    }

    /// Returns the same of a text there may be.
    #[must_use]
    pub fn known(self, text: Option<&String>) -> Option<String> {
        text.map(|text| self.text(text))
    }
}

/// Declares a record that is made of something: its fields in the order they are written, each with its type and its value.
macro_rules! record {
    ($(#[$doc:meta])* $visible:vis $name:ident($($of:ident: $kind:ty),+) { $($field:ident: $type:ty = $value:expr,)+ }) => {
        $(#[$doc])*
        #[derive(Debug, Default, serde::Serialize)]
        $visible struct $name {
            $($field: $type,)+
        }

        impl $name {
            fn of($($of: $kind),+) -> Self {
                Self { $($field: $value,)+ }
            }
        }
    };
}
pub(super) use record;

/// Why a record was not written.
#[derive(Debug, Error)]
pub enum WriteError {
    /// As JSON.
    #[error("a record cannot be written as JSON: {0}")]
    Json(#[from] serde_json::Error),
    /// As CSV.
    #[error("a record cannot be written as CSV: {0}")]
    Csv(#[from] csv::Error),
    /// Their frame could not be read.
    #[error("the facts cannot be read from their table: {0}")]
    Frame(#[from] PolarsError),
}

/// Writes a record as JSON, pretty-printed, with a last line break.
///
/// # Errors
/// [`WriteError`] where serde fails.
pub fn json(record: &impl Serialize) -> Result<String, WriteError> {
    Ok(serde_json::to_string_pretty(record)? + "\n")
}

/// Writes records as CSV under their [`headings`].
///
/// # Errors
/// [`WriteError`] where serde or csv fails.
pub fn records<R: Serialize + Default>(rows: impl IntoIterator<Item = R>) -> Result<String, WriteError> {
    let cell = |(_, value)| match value {
        Value::Null => String::new(),
        Value::String(text) => text,
        other => other.to_string(),
    };
    let cells = |row: R| Ok(fields(&row)?.into_iter().map(cell).collect());
    csv(&headings::<R>()?, rows.into_iter().map(cells).collect::<serde_json::Result<Vec<_>>>()?)
}

/// Writes cells under headings as CSV, as many in each row as there are headings.
///
/// # Errors
/// [`WriteError`] where csv fails.
pub fn csv(headings: &[String], rows: impl IntoIterator<Item = Vec<String>>) -> Result<String, WriteError> {
    let mut writer = csv::WriterBuilder::new().from_writer(Vec::new());
    writer.write_record(headings.iter().map(|heading| guarded(heading).into_owned()))?;
    for row in rows {
        writer.write_record(row)?;
    }
    let bytes = writer.into_inner().map_err(|unwritten| csv::Error::from(unwritten.into_error()))?;
    Ok(String::from_utf8(bytes).map_err(|error| csv::Error::from(io::Error::other(error)))?)
}

/// Returns the names of a record's fields, in their order; those of a record `before` within it end in `_before`.
///
/// # Errors
/// [`WriteError`] where serde fails.
pub fn headings<R: Serialize + Default>() -> Result<Vec<String>, WriteError> {
    Ok(fields(&R::default())?.into_iter().map(|(name, _)| name).collect())
}

fn fields(record: &impl Serialize) -> serde_json::Result<Vec<(String, Value)>> {
    let object: Map<String, Value> = serde_json::from_value(serde_json::to_value(record)?)?;
    let flat = |(name, value): (String, Value)| match value {
        Value::Object(inner) => inner.into_iter().map(|(of, value)| (format!("{of}_{name}"), value)).collect(),
        value => vec![(name, value)],
    };
    Ok(object.into_iter().flat_map(flat).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::millionths::Money;

    record! { Inner(pay: Option<Money>) { pay: Option<Money> = pay, } }

    record! {
        Outer(key: &str, form: Form) {
            key: String = form.text(key),
            pieces: Option<i64> = None,
            before: Inner = Inner::of(Some(Money(-3_500_000))),
            after: Inner = Inner::of(None),
        }
    }

    #[test]
    fn a_record_is_the_same_in_both_forms() {
        let record = |form| Outer::of("=1", form);
        let headings = "key,pieces,pay_before,pay_after\n";
        assert_eq!(records([record(Form::Csv)]).unwrap(), format!("{headings}'=1,,-3.500000,\n"));
        assert_eq!(records::<Outer>([]).unwrap(), headings);
        let read: Value = serde_json::from_str(&json(&record(Form::Json)).unwrap()).unwrap();
        assert_eq!(read, serde_json::json!({ "key": "=1", "pieces": null, "before": { "pay": "-3.500000" }, "after": { "pay": null } }));
    }
}
