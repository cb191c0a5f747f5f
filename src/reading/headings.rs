//! Headings: which column each heading of a file stands for, and which it could stand for.
//!
//! A heading is a column's where it is its name, regardless of case, blanks, underscores, points and hyphens, or where the shop maps
//! it. Everyday words and near spellings are never taken for a column unasked: they are proposed where one column alone could be
//! meant, and asked about where several could.

use super::folding;
use super::nearest::nearest;
use super::problem::Problem;
use super::problem_kind::{MISSING_COLUMN, TWO_HEADINGS};
use super::specification::TableSpecification;
use std::collections::{BTreeMap, BTreeSet};

/// Headings that could stand for columns which a file has under no heading.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Candidates {
    /// A heading and the column it could stand for, each claimed by no other.
    pub sure: Vec<(String, &'static str)>,
    /// Headings and the columns they could stand for, at least two of one of them.
    pub open: Vec<(Vec<String>, Vec<&'static str>)>,
}

/// Finds each column's heading by its place in the file, and the headings of no column.
pub(crate) fn match_headings(
    specification: &TableSpecification,
    file: &str,
    headings: &[String],
    renamed: &BTreeMap<String, String>,
    problems: &mut Vec<Problem>,
) -> (Vec<Option<usize>>, Vec<String>) {
    let renamed: BTreeMap<String, &String> = renamed.iter().map(|(theirs, ours)| (folding::word(theirs), ours)).collect();
    let mut sources = vec![None; specification.columns.len()];
    let mut ignored = Vec::new();
    for (index, heading) in headings.iter().enumerate() {
        let ours = renamed.get(&folding::word(heading)).map_or(heading, |ours| *ours);
        let Some(column) = specification.column(ours) else {
            if !heading.is_empty() {
                ignored.push(heading.clone());
            }
            continue;
        };
        if sources[column].replace(index).is_some() {
            let problem = Problem::of_file(&TWO_HEADINGS, file, "two headings stand for this column");
            problems.push(problem.column(specification.columns[column].name).instead("remove or rename one of them"));
        }
    }
    if !headings.is_empty() {
        for (column, source) in specification.columns.iter().zip(&sources) {
            if column.required && source.is_none() {
                problems.push(missing_column(specification, file, column.name, &ignored));
            }
        }
    }
    (sources, ignored)
}

/// The problem of a missing column, with the headings that could be it: it advises to rename one that is close to its name, or to map
/// one in `shop.toml`.
#[must_use]
pub(crate) fn missing_column(specification: &TableSpecification, file: &str, column: &str, ignored: &[String]) -> Problem {
    let table = specification.name;
    let mapping = |heading: &str| format!("{} = \"{column}\"", quoted(heading));
    let could_be: Vec<&String> = ignored.iter().filter(|heading| called(specification, heading).contains(&column)).collect();
    let instead = match (could_be.as_slice(), nearest(column, ignored.iter().map(String::as_str))) {
        ([], None) => format!("add it, or write \"your heading\" = \"{column}\" under [columns.{table}] in shop.toml"),
        ([], Some(near)) => format!("rename the heading '{near}', or write {} under [columns.{table}] in shop.toml", mapping(near)),
        ([heading], _) => format!("if '{heading}' is it, write {} under [columns.{table}] in shop.toml", mapping(heading)),
        (headings, _) => {
            let all: Vec<String> = headings.iter().map(|heading| mapping(heading)).collect();
            format!("write the one that is it under [columns.{table}] in shop.toml: {}", all.join(" or "))
        }
    };
    Problem::of_file(&MISSING_COLUMN, file, "the column is missing").column(column).instead(instead)
}

/// The headings of no column that could stand for a column without one.
#[must_use]
pub fn candidates(specification: &TableSpecification, headings: &[String], renamed: &BTreeMap<String, String>) -> Candidates {
    let (sources, ignored) = match_headings(specification, "", headings, renamed, &mut Vec::new());
    let lacking: BTreeSet<&str> =
        specification.columns.iter().zip(sources).filter(|(_, at)| at.is_none()).map(|(column, _)| column.name).collect();
    let mut claimed: Vec<(&String, Vec<&'static str>)> = ignored
        .iter()
        .map(|heading| (heading, claims(specification, heading).into_iter().filter(|column| lacking.contains(column)).collect()))
        .collect();
    // A column's own name, a unit in brackets behind it, leaves no other heading in question.
    let is_name = |heading: &str, column: &str| folding::word(without_brackets(heading)) == folding::word(column);
    let named: BTreeSet<&str> =
        claimed.iter().flat_map(|(heading, columns)| columns.iter().copied().filter(|column| is_name(heading, column))).collect();
    for (heading, columns) in &mut claimed {
        columns.retain(|column| !named.contains(column) || is_name(heading, column));
    }
    claimed.retain(|(_, columns)| !columns.is_empty());
    let mut found = Candidates::default();
    let mut asked = BTreeSet::new();
    for (heading, columns) in &claimed {
        let rivals: Vec<String> = claimed
            .iter()
            .filter(|(_, others)| others.iter().any(|other| columns.contains(other)))
            .map(|(rival, _)| (*rival).clone())
            .collect();
        if let ([column], [_]) = (columns.as_slice(), rivals.as_slice()) {
            found.sure.push(((*heading).clone(), column));
        } else if asked.insert((rivals.clone(), columns.clone())) {
            found.open.push((rivals, columns.clone()));
        }
    }
    found
}

/// The columns a heading could stand for: by their everyday names, or else by a near spelling.
fn claims(specification: &TableSpecification, heading: &str) -> Vec<&'static str> {
    let called = called(specification, heading);
    if !called.is_empty() {
        return called;
    }
    let all: Vec<String> =
        specification.columns.iter().flat_map(|column| [column.name].into_iter().chain(column.also)).map(folding::word).collect();
    let near =
        nearest(&folding::word(without_brackets(heading)), all.iter().map(String::as_str)).and_then(|near| specification.column(near));
    near.map(|column| specification.columns[column].name).into_iter().collect()
}

/// The columns that a heading is an everyday name of.
pub(super) fn called(specification: &TableSpecification, heading: &str) -> Vec<&'static str> {
    let bare = folding::word(without_brackets(heading));
    let is_word = |(_, words): &&(&str, &[&str])| words.iter().any(|word| folding::word(word) == bare);
    let by_word: BTreeSet<&str> = specification.everyday.iter().filter(is_word).map(|(column, _)| *column).collect();
    let is_called = |column: &&str| folding::word(column) == bare || by_word.contains(column);
    specification.columns.iter().map(|column| column.name).filter(is_called).collect()
}

/// A heading without what stands in brackets at its end, as a unit does: `Price ($)` is `Price`.
fn without_brackets(heading: &str) -> &str {
    heading.strip_suffix(')').and_then(|open| open.rsplit_once('(')).map_or(heading, |(name, _)| name.trim_end())
}

/// A heading as a key of `shop.toml`.
#[must_use]
pub fn quoted(heading: &str) -> String {
    let escaped = heading.chars().flat_map(|c| match c {
        '"' | '\\' => vec!['\\', c],
        c if c.is_control() => format!("\\u{:04X}", u32::from(c)).chars().collect(),
        c => vec![c],
    });
    format!("\"{}\"", escaped.collect::<String>())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shop::specification::{HOURS, ORDERS, PURCHASES};

    fn of(table: &TableSpecification, headings: &[&str]) -> Candidates {
        let headings: Vec<String> = headings.iter().map(|heading| (*heading).to_owned()).collect();
        candidates(table, &headings, &BTreeMap::new())
    }

    #[test]
    fn everyday_words_and_near_spellings_are_proposed() {
        let found = of(&ORDERS, &["Order #", "Pick-up", "Cookie", "Qty.", "Price each ($)", "Statis", "Customer", "Notes"]);
        let sure: Vec<(&str, &str)> = found.sure.iter().map(|(heading, column)| (heading.as_str(), *column)).collect();
        let expected = [
            ("Order #", "order"),
            ("Pick-up", "date"),
            ("Cookie", "design"),
            ("Qty.", "quantity"),
            ("Price each ($)", "price"),
            ("Statis", "status"),
        ];
        assert_eq!((sure.as_slice(), found.open.len()), (&expected[..], 0));
    }

    #[test]
    fn two_headings_for_one_column_are_asked_about_and_a_column_that_is_there_is_not() {
        let found = of(&ORDERS, &["order", "Pick-up", "Due date", "design"]);
        assert_eq!(found.open, [(vec!["Pick-up".to_owned(), "Due date".to_owned()], vec!["date"])]);
        assert_eq!(found.sure, []);
        assert_eq!(of(&ORDERS, &["order", "date", "Pick-up"]), Candidates::default());
        let found = of(&HOURS, &["Order(s)", "Which"]);
        assert_eq!((found.sure.len(), found.open.len()), (2, 0), "an order's own name leaves the design: {found:?}");
        assert_eq!(of(&PURCHASES, &["Order date", "Total"]).sure, [("Total".to_owned(), "paid")]);
    }

    #[test]
    fn a_missing_column_names_every_heading_that_could_be_it() {
        let said = |headings: &[&str]| {
            let headings: Vec<String> = headings.iter().map(|heading| (*heading).to_owned()).collect();
            missing_column(&ORDERS, "orders.csv", "date", &headings).to_string()
        };
        assert_eq!(
            said(&["Pick-up", "Customer"]),
            "orders.csv, column date: the column is missing; if 'Pick-up' is it, write \"Pick-up\" = \"date\" under [columns.orders] in shop.toml"
        );
        assert!(said(&["Pick-up", "Due date"]).ends_with("in shop.toml: \"Pick-up\" = \"date\" or \"Due date\" = \"date\""));
        assert!(said(&["Customer"]).ends_with("add it, or write \"your heading\" = \"date\" under [columns.orders] in shop.toml"));
    }

    #[test]
    fn a_heading_is_a_key_of_toml_whatever_is_in_it() {
        for heading in ["Pick-up", "a \"b\" \\c", "a\u{7}b", "é #"] {
            let text = format!("{} = 1", quoted(heading));
            let document: toml_edit::DocumentMut = text.parse().unwrap_or_else(|error| panic!("{text}: {error}"));
            assert!(document.contains_key(heading), "{text}");
        }
    }
}
