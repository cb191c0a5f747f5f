//! A typed column, read from its cells in the one style that they show or the shop fixes.

use super::column_read::{ColumnRead, Tally};
use super::format::date::{self, DateStyle, Dates, Written};
use super::format::money::{Amounts, Signs};
use super::format::number::{Mark, Numbers};
use super::format::percent::Percents;
use super::format::pieces::{Pieces, Wholes};
use super::format::price::{self, Prices};
use super::format::size::Sizes;
use super::format::word::{self, Forms, Vocabulary};
use super::format::{Evidence, Format, Style, Wrong, time};
use super::formula::unguarded;
use super::problem::{Place, Problem};
use super::problem_kind::{
    AMBIGUOUS_FORMAT, BLANK_CELL, CHANGED_FORMAT, NO_YEAR, NOT_A_TIME, OTHER_CURRENCY, ProblemKind, UNKNOWN_FORMAT, UNKNOWN_PAYMENT,
    UNKNOWN_WORD,
};
use super::specification::{ColumnSpecification, Kind};
use super::table_settings::{Fixed, Reading};
use crate::ids::{Id, Names, Text};
use crate::quantity::{Day, Percent, Price};
use rust_decimal::Decimal;
use std::collections::BTreeSet;

mod minutes;

/// A typed column; a blank cell is `None`.
#[derive(Debug, Clone)]
pub enum Column {
    /// Interned text.
    Text(Vec<Option<Id<Text>>>, Names<Text>),
    /// Days.
    Day(Vec<Option<Day>>),
    /// Money or minutes in millionths.
    Millionths(Vec<Option<i64>>),
    /// Plain numbers.
    Number(Vec<Option<Decimal>>),
    /// Prices a piece.
    Price(Vec<Option<Price>>),
    /// Pieces, small whole numbers, seconds after midnight, or places in a list of words.
    Whole(Vec<Option<i64>>),
    /// Starts in seconds after midnight, each with the end where its cell has one too.
    Span(Vec<Option<(i64, Option<i64>)>>),
    /// Percentages.
    Percent(Vec<Option<Percent>>),
}

/// Reads the cells of one column.
pub(super) struct ColumnReader<'a> {
    /// What to call the file in a problem.
    pub file: &'a str,
    /// The table's name in `shop.toml`.
    pub table: &'a str,
    pub column: &'a ColumnSpecification,
    pub reading: &'a Reading,
    pub places: &'a [Place],
    pub problems: &'a mut Vec<Problem>,
    pub wrong: &'a mut BTreeSet<(usize, &'static str)>,
    pub understood: &'a mut ColumnRead,
    /// What its format in `shop.toml` says already, where that leaves something open: `hours:minutes, `.
    pub kept: String,
}

impl<'a> ColumnReader<'a> {
    /// Reads the column: the one place that knows how each kind is read.
    pub fn column<'t>(&mut self, texts: impl Iterator<Item = &'t str> + Clone) -> Column {
        if let (Kind::Text | Kind::Unit | Kind::Choice(..) | Kind::Payments | Kind::Time | Kind::TimeOrSpan, Some(fixed)) =
            (self.column.kind, self.fixed())
        {
            self.refuse_format(fixed, &[]);
        }
        if let (Kind::Orders, Some(fixed)) = (self.column.kind, self.fixed()) {
            match DateStyle::named(fixed.format) {
                Some(style) => self.understood.format = Some(style.name().to_owned()),
                None => self.refuse_format(fixed, &DateStyle::ALL.iter().map(|style| style.name()).collect::<Vec<_>>()),
            }
        }
        match self.column.kind {
            Kind::Text | Kind::Orders | Kind::Unit => {
                let mut names = Names::default();
                let values = self.values(texts, |text| Ok(names.intern(unguarded(text))));
                Column::Text(values, names)
            }
            Kind::Day => Column::Day(self.days(texts)),
            Kind::Time => Column::Whole(self.values(texts, |text| time::read(text).ok_or_else(not_a_time))),
            Kind::TimeOrSpan => Column::Span(self.values(texts, |text| {
                let span = || time::range(text).map(|(start, end)| (start, Some(end)));
                time::read(text).map(|start| (start, None)).or_else(span).ok_or_else(not_a_time)
            })),
            Kind::Minutes => Column::Millionths(self.minutes(texts)),
            Kind::Money(least) => Column::Millionths(self.styled(&Amounts { signs: self.signs(), least }, texts)),
            Kind::Number(least) => Column::Number(self.styled(&Numbers { least }, texts)),
            Kind::Size(least) => Column::Number(self.styled(&Sizes { least }, texts)),
            Kind::Price(least) => {
                let mut tally = Tally::default();
                texts.clone().filter(|text| price::is_free(text)).for_each(|text| tally.note(text, "0"));
                let prices = self.styled(&Prices { signs: self.signs(), least }, texts);
                self.understood.words = tally.words();
                Column::Price(prices)
            }
            Kind::Pieces(least) => Column::Whole(self.styled(&Pieces { least }, texts)),
            Kind::Whole => Column::Whole(self.styled(&Wholes, texts)),
            Kind::Percent => Column::Percent(self.styled(&Percents, texts)),
            Kind::Payments => Column::Whole(self.payments(texts)),
            Kind::Choice(words, forms) => Column::Whole(self.choices(texts, words, forms)),
        }
    }

    /// Reads days. A date without its year has that of its neighbours, where the column's order leaves one alone.
    fn days<'t>(&mut self, texts: impl Iterator<Item = &'t str> + Clone) -> Vec<Option<Day>> {
        let written = self.styled(&Dates, texts.clone());
        let days = date::dated(&written);
        let mut found = 0;
        for (row, (text, place)) in texts.zip(self.places).enumerate() {
            if !matches!(written[row], Some(Written::WithoutYear { .. })) {
                continue;
            }
            if days[row].is_some() {
                found += 1;
                continue;
            }
            let what = "has no year, and the dates before and after it do not leave one alone";
            self.problems.push(self.problem(&NO_YEAR, *place, what).found(text).instead("write its year too"));
            self.wrong.insert((row, self.column.name));
        }
        self.understood.years = found;
        days
    }

    /// Reads words of a list, each as its place in it.
    fn choices<'t>(&mut self, texts: impl Iterator<Item = &'t str>, words: &'static [&'static str], forms: Forms) -> Vec<Option<i64>> {
        let vocabulary = Vocabulary { words, forms, own: &self.reading.words };
        let mut tally = Tally::default();
        let values = self.values(texts, |text| {
            let unknown = || (&UNKNOWN_WORD, "is not a word this column knows".into(), vocabulary.advice(text));
            let found = vocabulary.find(text).ok_or_else(unknown)?;
            if !found.is_plain {
                tally.note(text, words[found.at]);
            }
            Ok(i64::try_from(found.at).unwrap_or_default())
        });
        self.understood.words = tally.words();
        self.add_lines(&UNKNOWN_WORD, |text| Some(("words", vocabulary.line(text)?)));
        values
    }

    /// Gives the problems of a kind in this column the line of `shop.toml` that would settle each.
    fn add_lines(&mut self, kind: &ProblemKind, line: impl Fn(&str) -> Option<(&'static str, String)>) {
        let of_kind = |problem: &&mut Problem| problem.kind == kind && problem.column.as_deref() == Some(self.column.name);
        for problem in self.problems.iter_mut().filter(of_kind) {
            problem.line = problem.found.as_deref().and_then(&line);
        }
    }

    /// Reads numbers of card charges, or how an order was paid.
    fn payments<'t>(&mut self, texts: impl Iterator<Item = &'t str>) -> Vec<Option<i64>> {
        let own = &self.reading.payments;
        let mut tally = Tally::default();
        let values = self.values(texts, |text| {
            let Some(charges) = word::payments(text, own) else {
                if !text.contains(char::is_alphabetic) {
                    return Wholes.read(text, Mark::Point);
                }
                return Err((&UNKNOWN_PAYMENT, "is not a way of paying this column knows".into(), word::payments_advice(text)));
            };
            tally.note(text, &format!("{charges} card {}", if charges == 1 { "charge" } else { "charges" }));
            Ok(charges)
        });
        self.understood.words = tally.words();
        self.add_lines(&UNKNOWN_PAYMENT, |text| Some(("payments", word::payments_line(text))));
        values
    }

    fn signs(&self) -> Signs {
        Signs::of(&self.reading.currency)
    }

    /// Reads cells in the style of their column. Where that is open, the column asks once and its cells are left unread.
    fn styled<'t, F: Format>(&mut self, format: &F, texts: impl Iterator<Item = &'t str> + Clone) -> Vec<Option<F::Value>> {
        let Some(style) = self.style(format, &texts) else { return self.unread(texts) };
        let because = self.because();
        self.values(texts, |text| {
            // Another currency stays wrong in any style.
            let said = |wrong: Wrong| odd(format, text, style, &because).filter(|_| *wrong.0 != OTHER_CURRENCY).unwrap_or(wrong);
            format.read(text, style).map_err(said)
        })
    }

    /// Why a cell must be written in the column's style, in words before the style's name.
    fn because(&self) -> String {
        match self.fixed() {
            Some(Fixed { section, .. }) => format!("[formats.{section}] in shop.toml says"),
            None => "the rest of the column is".to_owned(),
        }
    }

    /// The style of the column: as `shop.toml` has it, else as its cells show it. `None`, with a problem, where neither tells.
    fn style<'t, F: Format>(&mut self, format: &F, texts: &(impl Iterator<Item = &'t str> + Clone)) -> Option<F::Style> {
        let dependent = texts.clone().zip(self.places.iter().copied()).filter(|(text, _)| format.depends(text));
        let evidence = format.evidence(&dependent.clone().map(|(text, _)| text));
        if let Some(fixed) = self.fixed() {
            let Some(style) = F::Style::named(fixed.format) else {
                self.refuse_format(fixed, &F::Style::ALL.iter().map(|style| style.name()).collect::<Vec<_>>());
                return None;
            };
            self.understood.format = Some(style.name().to_owned());
            if let Evidence::Found { style: shown, deciding, .. } = evidence {
                self.understood.deciding = if shown == style { deciding } else { 0 };
                if shown != style && self.is_other(format, fixed, (style, shown), &dependent) {
                    return None;
                }
            }
            return Some(style);
        }
        match evidence {
            Evidence::None => F::Style::ALL.first().copied(),
            Evidence::Found { style, deciding, .. } => {
                self.understood.format = Some(style.name().to_owned());
                self.understood.deciding = deciding;
                Some(style)
            }
            Evidence::Open { styles, cell } => {
                self.ask(format, &styles, &dependent, cell);
                None
            }
        }
    }

    /// Whether one of a table's files is wholly written in another style than `shop.toml` says: that is one problem and not one of each cell.
    fn is_other<'t, F: Format>(
        &mut self,
        format: &F,
        fixed: Fixed<'_>,
        (style, shown): (F::Style, F::Style),
        cells: &(impl Iterator<Item = (&'t str, Place)> + Clone),
    ) -> bool {
        let Some(file) = &self.reading.of_file else { return false };
        let is_read = |text: &str, style| format.plain(text, style).is_some();
        if cells.clone().any(|(text, _)| !is_read(text, shown)) {
            return false;
        }
        let mut others = cells.clone().filter(|(text, _)| !is_read(text, style));
        let Some((text, place)) = others.next() else { return false };
        let (count, of) = (others.count() + 1, cells.clone().count());
        let (shown, style) = (shown.name(), style.name());
        let what = format!(
            "in row {} is {shown}, as {count} of the column's {of} cells can only be, but [formats.{}] in shop.toml says {style}",
            place.row, fixed.section
        );
        let (name, section) = (self.column.name, &file.section);
        let advice =
            format!("write {name} = \"{shown}\" under [formats.{section}] if all of the file is written so, else correct those cells");
        let problem = Problem::of_file(&CHANGED_FORMAT, self.file, what).column(name).found(text).instead(advice);
        self.understood.is_open = true;
        self.understood.format = None;
        self.problems.push(problem);
        true
    }

    /// The format that `shop.toml` fixes for the column.
    fn fixed(&self) -> Option<Fixed<'a>> {
        let fixed = self.reading.fixed(self.column, &self.understood.heading)?;
        Some(if fixed.section.is_empty() { Fixed { section: self.table, ..fixed } } else { fixed })
    }

    /// Asks in which of several styles the column is written.
    fn ask<'t, F: Format>(
        &mut self,
        format: &F,
        styles: &[F::Style],
        cells: &(impl Iterator<Item = (&'t str, Place)> + Clone),
        open: usize,
    ) {
        self.understood.is_open = true;
        let Some((text, place)) = cells.clone().nth(open) else { return };
        let said: Option<Vec<String>> = styles
            .iter()
            .map(|style| Some(format!("{} as {}", format.written(&format.plain(text, *style)?, *style), style.name())))
            .collect();
        let what = match said {
            Some(said) => format!("in row {} is {}, and no cell of the column tells which", place.row, said.join(" or ")),
            // As many cells can only be read in one style as only in another.
            None => {
                let only = |style: F::Style| {
                    let is_other = |text: &str| styles.iter().any(|other| format.plain(text, *other).is_none());
                    let mut cells = cells.clone();
                    cells.find(|(text, _)| format.plain(text, style).is_some() && is_other(text))
                };
                let said = styles.iter().filter_map(|style| only(*style).map(|(text, place)| (text, place.row, style.name())));
                let said: Vec<String> = said.map(|(text, row, name)| format!("'{text}' in row {row} is {name}")).collect();
                format!("is one of cells written in two ways, as many in each: {}", said.join(", "))
            }
        };
        let lines: Vec<String> = styles.iter().map(|style| format!("{} = \"{}{}\"", self.column.name, self.kept, style.name())).collect();
        let alone = self.reading.of_file.as_ref();
        let alone = alone.map_or_else(String::new, |of| format!(", or under [formats.{}] for this file alone", of.section));
        let advice = format!("write {} under [formats.{}] in shop.toml{alone}", lines.join(" or "), self.table);
        let problem = Problem::of_file(&AMBIGUOUS_FORMAT, self.file, what).column(self.column.name).found(text);
        self.problems.push(problem.instead(advice));
    }

    /// Leaves all cells unread, for a reason that is a problem already.
    fn unread<'t, T>(&mut self, texts: impl Iterator<Item = &'t str>) -> Vec<Option<T>> {
        let filled = texts.enumerate().filter(|(_, text)| !text.is_empty());
        self.wrong.extend(filled.map(|(row, _)| (row, self.column.name)));
        (0..self.places.len()).map(|_| None).collect()
    }

    fn values<'t, T>(&mut self, texts: impl Iterator<Item = &'t str>, mut read: impl FnMut(&'t str) -> Result<T, Wrong>) -> Vec<Option<T>> {
        let mut values = Vec::with_capacity(self.places.len());
        for (row, (text, place)) in texts.zip(self.places).enumerate() {
            if text.is_empty() {
                if self.column.filled && !self.wrong.contains(&(row, self.column.name)) {
                    let advice = format!("fill it in, for example {}", self.column.example);
                    self.problems.push(self.problem(&BLANK_CELL, *place, "the cell is blank").instead(advice));
                }
                values.push(None);
                continue;
            }
            match read(text) {
                Ok(value) => values.push(Some(value)),
                Err((kind, what, advice)) => {
                    self.problems.push(self.problem(kind, *place, &what).found(text).instead(advice));
                    self.wrong.insert((row, self.column.name));
                    values.push(None);
                }
            }
        }
        values
    }

    fn problem(&self, kind: &'static ProblemKind, place: Place, what: &str) -> Problem {
        Problem::of_file(kind, self.file, what).at(place).column(self.column.name)
    }

    /// Reports a format in `shop.toml` that the column does not have; `known` are those it has.
    fn refuse_format(&mut self, fixed: Fixed<'_>, known: &[&str]) {
        let problem = Problem::of_file(&UNKNOWN_FORMAT, "shop.toml", "is not a format of this column");
        let problem = problem.column(&format!("formats.{}.{}", fixed.section, fixed.key)).found(fixed.format);
        let problem = problem.instead(match known {
            [] => "remove the line: its cells can be read in one way only".to_owned(),
            known => format!("write one of: {}", known.join(", ")),
        });
        if !self.problems.contains(&problem) {
            self.problems.push(problem);
        }
    }
}

fn not_a_time() -> Wrong {
    (&NOT_A_TIME, "is not a time of day".into(), "write it as 18:30".into())
}

/// What is wrong with a cell that cannot be read in its column's style, but in another.
fn odd<F: Format>(format: &F, text: &str, style: F::Style, because: &str) -> Option<Wrong> {
    if format.plain(text, style).is_some() {
        return None;
    }
    let (other, plain) = F::Style::ALL.iter().find_map(|other| Some((other, format.plain(text, *other)?)))?;
    let what = format!("is {}, but {because} {}", other.name(), style.name());
    Some((&super::problem_kind::ODD_CELL, what.into(), format!("write {}", format.written(&plain, style))))
}

#[cfg(test)]
mod tests;
#[cfg(test)]
mod times_tests;
