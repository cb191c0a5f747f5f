//! Rows in words.

use rust_decimal::Decimal;

use super::draw::amounts::AmountStyle;
use super::draw::row::{Figure, Row};
use super::form::series::Series;

/// More rows than this are counted, not said.
const MOST: usize = 60;

/// Without empty lines, and not more than a listener bears.
pub(super) fn said(rows: impl Iterator<Item = String>) -> Vec<String> {
    let mut rows: Vec<_> = rows.filter(|line| !line.is_empty()).collect();
    let more = rows.len().saturating_sub(MOST);
    rows.truncate(MOST);
    if more > 0 {
        rows.push(format!("and {more} more"));
    }
    rows
}

/// `name: part, part`, without the empty ones.
pub(super) fn line<'a>(name: &str, parts: impl IntoIterator<Item = &'a str>) -> String {
    let parts: Vec<_> = parts.into_iter().map(one_line).filter(|part| !part.is_empty()).collect();
    if parts.is_empty() { one_line(name) } else { format!("{}: {}", one_line(name), parts.join(", ")) }
}

/// A row's name, its group, each figure after the heading of its column, what `more` there is to it, and its note.
pub(super) fn row(row: &Row, group: &str, columns: &[String], more: Vec<String>) -> String {
    let headings = columns.iter().map(String::as_str).chain(std::iter::repeat(""));
    let figures = row.figures.iter().zip(headings).flat_map(|(figure, heading)| figure_in_words(figure, heading));
    let parts: Vec<String> = [group.to_owned()].into_iter().chain(figures).chain(more).chain([row.note.clone()]).collect();
    line(&row.name, parts.iter().map(String::as_str))
}

fn figure_in_words(Figure { text, word, .. }: &Figure, heading: &str) -> [String; 2] {
    let figure = if text.trim().is_empty() { String::new() } else { format!("{heading} {text}") };
    [figure, word.as_ref().map_or_else(String::new, |(word, _)| word.clone())]
}

/// `ingredients $0.41`, for what its series says in words.
pub(super) fn amount(series: Option<&Series>, amount: Decimal, amounts: &AmountStyle) -> String {
    series
        .filter(|series| series.is_said)
        .map_or_else(String::new, |series| format!("{} {}", series.name, amounts.write(amount, amounts.decimals)))
}

/// `from $7.20 to $11.30 (90 %)`.
pub(super) fn range(range: Option<(Decimal, Decimal)>, amounts: &AmountStyle) -> String {
    let Some((low, high)) = range else { return String::new() };
    let write = |amount| amounts.write(amount, amounts.decimals);
    format!("from {} to {} (90 %)", write(low), write(high))
}

/// Neither line breaks nor marks that turn the direction of what follows; letters that the picture's font lacks stay, for
/// these words are read in another.
pub(super) fn one_line(text: &str) -> String {
    let is_mark = |letter: char| matches!(letter, '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{2069}');
    let shown = |letter: &char| letter.is_whitespace() || !(letter.is_control() || is_mark(*letter));
    text.chars().filter(shown).collect::<String>().split_whitespace().collect::<Vec<_>>().join(" ")
}
