//! What each table was understood to be, and what that suggests for `shop.toml`, in words.

use super::document::{Block, Content};
use super::words::{and, counted, number};
use crate::reading::encoding::Encoding;
use crate::reading::problem::printable;
use crate::reading::separator::Separator;
use crate::reading::specification::Kind;
use crate::reading::table::{ColumnRead, WordRead};
use crate::shop::load::{FileRead, TableRead};
use crate::shop::settings::Proposal;
use crate::shop::specification::TABLES;
use crate::shop::understand::is_telling;

/// The heading of the list, with the tables the shop does without: "Tables read (not in the folder: counts):"
pub(super) fn understood_as(tables: &[TableRead]) -> String {
    let absent: Vec<&str> = tables.iter().filter(|table| table.files.is_empty()).map(|table| table.table).collect();
    if absent.is_empty() { "Tables read:".to_owned() } else { format!("Tables read (not in the folder: {}):", absent.join(", ")) }
}

/// A table's files and rows, and below them what is not plain in it; nothing where the shop lacks it.
pub(super) fn understood(table: &TableRead) -> Vec<String> {
    if table.files.is_empty() {
        return Vec::new();
    }
    let names: Vec<String> = table.files.iter().map(|file| printable(&file.file)).collect();
    let rows = format!("{} {}", number(table.rows), if table.rows == 1 { "row" } else { "rows" });
    let repeated = match table.repeated {
        0 => String::new(),
        1 => "; 1 row that stands in several counts once".to_owned(),
        count => format!("; {} rows that stand in several count once", number(count)),
    };
    let first = format!("{}: {rows}{repeated}", and(&names));
    let names = table.words.iter().map(|(column, words)| format!("{}, {column}: {}", table.table, read_as(words)));
    [first].into_iter().chain(table.files.iter().flat_map(|file| of_file(table.table, file))).chain(names).collect()
}

/// What is not plain in a file: its columns that were read in a format of their own, and those that are not used.
fn of_file(table: &str, file: &FileRead) -> Vec<String> {
    let name = printable(&file.file);
    let formats = file.understood.iter().filter(|read| is_telling(read)).map(|read| format!("{name}, {}", in_a_format(table, read)));
    let cells =
        file.understood.iter().flat_map(|read| in_other_words(read).map(|said| format!("{name}, {}: {said}", printable(&read.heading))));
    let mut lines: Vec<String> = bytes_of(file).into_iter().map(|said| format!("{name}: {said}")).chain(formats).chain(cells).collect();
    if !file.ignored.is_empty() {
        let columns = if file.ignored.len() == 1 { "column" } else { "columns" };
        lines.push(format!("{name}: {columns} not used and not kept: {}", printable(&file.ignored.join(", "))));
    }
    lines
}

/// How the file was taken apart, where not plainly: letters, separator, titles and TOTAL rows.
fn bytes_of(file: &FileRead) -> Vec<String> {
    let mut said = Vec::new();
    let encoding = file.encoding.filter(|encoding| *encoding != Encoding::Utf8).map(|encoding| format!("written in {encoding}"));
    let separator =
        file.separator.filter(|separator| *separator != Separator::Comma).map(|separator| format!("{separator}s between columns"));
    let how: Vec<String> = encoding.into_iter().chain(separator).collect();
    if !how.is_empty() {
        said.push(how.join(", "));
    }
    if file.titles > 0 {
        said.push(format!("{} above the headings passed over", counted(file.titles, "row", "rows")));
    }
    if !file.left_out.is_empty() {
        let rows: Vec<String> = file.left_out.iter().take(3).map(|place| number(place.row)).collect();
        let more = if file.left_out.len() > rows.len() { ", …" } else { "" };
        let count = counted(file.left_out.len(), "TOTAL row", "TOTAL rows");
        said.push(format!("{count} left out ({} {}{more})", if file.left_out.len() == 1 { "row" } else { "rows" }, rows.join(", ")));
    }
    said
}

/// Most words of a column that are listed.
const WORDS_LISTED: usize = 6;

/// "12 'baking' as bake, 3 'boxing' as pack".
fn read_as(words: &[WordRead]) -> String {
    let mut words: Vec<&WordRead> = words.iter().collect();
    words.sort_by_key(|word| std::cmp::Reverse(word.cells));
    let listed = words.iter().take(WORDS_LISTED);
    let said: Vec<String> =
        listed.map(|word| format!("{} '{}' as {}", number(word.cells), printable(&word.found), printable(&word.read_as))).collect();
    said.join(", ") + if words.len() > WORDS_LISTED { ", …" } else { "" }
}

/// What was read in a column from what stands beside it, and its words that stand for others.
fn in_other_words(read: &ColumnRead) -> impl Iterator<Item = String> {
    let carried = (read.carried > 0).then(|| match read.carried {
        1 => "1 blank cell is as in the row above".to_owned(),
        count => format!("{} blank cells are as in the row above", number(count)),
    });
    let dated = (read.years > 0).then(|| match read.years {
        1 => "1 date without a year has that of the dates around it".to_owned(),
        count => format!("{} dates without a year have that of the dates around them", number(count)),
    });
    let words = (!read.words.is_empty()).then(|| read_as(&read.words));
    [carried, dated, words].into_iter().flatten()
}

/// "Pick-up: 150 dates as month/day/year; 37 can only be so".
fn in_a_format(table: &str, read: &ColumnRead) -> String {
    let columns = TABLES.iter().filter(|of| of.name == table).flat_map(|of| of.columns);
    let (one, many) = match columns.clone().find(|column| column.name == read.column).map(|column| column.kind) {
        Some(Kind::Day) => ("date", "dates"),
        Some(Kind::Time | Kind::TimeOrSpan) => ("time", "times"),
        Some(Kind::Money(_)) => ("amount", "amounts"),
        Some(Kind::Price(_)) => ("price", "prices"),
        _ => ("cell", "cells"),
    };
    let so = match read.deciding {
        0 if read.is_as_others => ", as the other dates are".to_owned(),
        0 => String::new(),
        deciding if deciding == read.cells => "; they can only be so".to_owned(),
        deciding => format!("; {} can only be so", number(deciding)),
    };
    let format = read.format.as_deref().unwrap_or_default();
    format!("{}: {} as {}{so}", printable(&read.heading), counted(read.cells, one, many), printable(format))
}

/// The block to paste, and how it is written; nothing without proposals.
pub(super) fn proposed(proposals: &[Proposal]) -> Vec<Block> {
    if proposals.is_empty() {
        return Vec::new();
    }
    let lead = Block::paragraph("Your headings and formats as lines for shop.toml; check --write puts them there:");
    let lines = block(proposals).into_iter().map(|line| Content::Line(format!("  {line}")).into());
    [lead].into_iter().chain(lines).chain([Content::Line(" ".to_owned()).into()]).collect()
}

/// Proposals as lines of `shop.toml`, each section under its name.
#[must_use]
pub fn block(proposals: &[Proposal]) -> Vec<String> {
    let mut sorted: Vec<&Proposal> = proposals.iter().collect();
    sorted.sort_by_key(|proposal| &proposal.section);
    let mut lines: Vec<String> = Vec::new();
    let mut section = "";
    for proposal in sorted {
        if proposal.section != section {
            section = &proposal.section;
            lines.push(format!("[{section}]"));
        }
        lines.push(proposal.line());
    }
    lines
}

/// The file a table would be.
pub(super) fn file_of(table: &TableRead) -> String {
    format!("{}.csv", table.table)
}
