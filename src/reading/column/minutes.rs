//! Columns of minutes: three questions, each asked of all cells alike: the decimal mark, what `1:35` is, what a plain number counts.

use super::{ColumnReader, odd};
use crate::reading::format::minutes::{self, PlainNumbers, TwoParts};
use crate::reading::format::money::millionths;
use crate::reading::format::number::{self, Mark, bounded};
use crate::reading::format::{Format, Style, Wrong, time};
use crate::reading::problem_kind::NOT_MINUTES;
use crate::reading::specification::Least;
use crate::reading::table_settings::{FileFormats, Reading};
use rust_decimal::{Decimal, RoundingStrategy};
use std::fmt;
use std::marker::PhantomData;

/// How the minutes of a column are written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Answers {
    mark: Mark,
    two: TwoParts,
    plain: PlainNumbers,
}

impl Answers {
    fn read(self, text: &str) -> Option<Decimal> {
        minutes::read(text, self.mark, self.two, self.plain)
    }
}

/// A length of time, in words that say themselves: `1 h 35 min`.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Length(Decimal);

impl fmt::Display for Length {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let minutes = self.0.round_dp(6);
        let (hours, rest) = ((minutes / Decimal::from(60)).trunc(), minutes % Decimal::from(60));
        let (whole, seconds) = (rest.trunc(), (rest.fract() * Decimal::from(60)).round_dp(3).normalize());
        let parts = [(hours, "h"), (whole, "min"), (seconds, "s")].into_iter().filter(|(amount, _)| !amount.is_zero());
        let parts: Vec<String> = parts.map(|(amount, unit)| format!("{amount} {unit}")).collect();
        if parts.is_empty() { f.write_str("0 min") } else { f.write_str(&parts.join(" ")) }
    }
}

/// One question over the cells of the column, the others as given.
struct Question<S> {
    others: Answers,
    style: PhantomData<S>,
}

impl<S> Question<S> {
    fn new(others: Answers) -> Self {
        Self { others, style: PhantomData }
    }
}

/// What may be asked of a column of minutes.
trait Answer: Style {
    fn among(self, others: Answers) -> Answers;
    fn concerns(text: &str) -> bool;
}

impl Answer for Mark {
    fn among(self, others: Answers) -> Answers {
        Answers { mark: self, ..others }
    }

    fn concerns(text: &str) -> bool {
        number::depends(text)
    }
}

impl Answer for TwoParts {
    fn among(self, others: Answers) -> Answers {
        Answers { two: self, ..others }
    }

    fn concerns(text: &str) -> bool {
        minutes::is_in_two_parts(text)
    }
}

impl Answer for PlainNumbers {
    fn among(self, others: Answers) -> Answers {
        Answers { plain: self, ..others }
    }

    fn concerns(text: &str) -> bool {
        Mark::ALL.iter().any(|mark| number::read(text, *mark).is_some_and(|number| !number.is_zero()))
    }
}

impl<S: Answer> Format for Question<S> {
    type Style = S;
    type Plain = Length;
    type Value = i64;

    fn depends(&self, text: &str) -> bool {
        S::concerns(text)
    }

    fn plain(&self, text: &str, style: S) -> Option<Length> {
        style.among(self.others).read(text).map(Length)
    }

    fn read(&self, text: &str, style: S) -> Result<i64, Wrong> {
        read(text, style.among(self.others))
    }

    fn written(&self, plain: &Length, _: S) -> String {
        plain.to_string()
    }
}

/// What numbers without a unit count, beside cells that say hours by themselves.
struct BesideHours(Answers);

impl Format for BesideHours {
    type Style = PlainNumbers;
    type Plain = Length;
    type Value = i64;

    fn depends(&self, text: &str) -> bool {
        PlainNumbers::concerns(text)
    }

    fn plain(&self, text: &str, style: PlainNumbers) -> Option<Length> {
        let number = number::read(text, self.0.mark);
        if number.is_some_and(|number| !number.is_zero() && !minutes::is_likely(number, style)) {
            return None;
        }
        style.among(self.0).read(text).map(Length)
    }

    fn read(&self, text: &str, style: PlainNumbers) -> Result<i64, Wrong> {
        read(text, style.among(self.0))
    }

    fn written(&self, plain: &Length, _: PlainNumbers) -> String {
        plain.to_string()
    }
}

/// Reads a cell in millionths of a minute. A start and an end in one cell are the minutes between them.
fn read(text: &str, answers: Answers) -> Result<i64, Wrong> {
    let spanned = || time::range(text).map(|(start, end)| Decimal::from((end - start).rem_euclid(24 * 60 * 60)) / Decimal::from(60));
    let minutes = answers.read(text).or_else(spanned);
    let minutes =
        minutes.ok_or_else(|| (&NOT_MINUTES, "is not a number of minutes".into(), "write minutes as 95, or 1 h 35 min".into()))?;
    let minutes = bounded(minutes, Least::Nil)?;
    let is_plain = number::read(text, answers.mark).is_some();
    let stored = if is_plain { minutes } else { minutes.round_dp_with_strategy(6, RoundingStrategy::MidpointAwayFromZero) };
    millionths(stored)
}

impl ColumnReader<'_> {
    /// Reads a column of minutes, in millionths.
    pub(super) fn minutes<'t>(&mut self, texts: impl Iterator<Item = &'t str> + Clone) -> Vec<Option<i64>> {
        let fixed = self.fixed();
        let names: Vec<&str> = fixed.iter().flat_map(|fixed| fixed.format.split(',')).map(str::trim).collect();
        let known: Vec<&str> = [all::<TwoParts>(), all::<Mark>(), all::<PlainNumbers>()].concat();
        if let Some(fixed) = fixed.filter(|_| names.iter().any(|name| !known.iter().any(|known| known.eq_ignore_ascii_case(name)))) {
            self.refuse_format(fixed, &known);
            return self.unread(texts);
        }
        self.kept = names.iter().flat_map(|name| [name, ", "]).collect();
        let (two_said, plain_said) = minutes::said_by_heading(&self.understood.heading);
        let mut answers = Answers { mark: Mark::Point, two: two_said.unwrap_or(TwoParts::HoursMinutes), plain: PlainNumbers::Minutes };
        let mut found = Vec::new();
        let Some(mark) = self.answer(&Question::<Mark>::new(answers), &names, None, &texts, &mut found) else { return self.unread(texts) };
        answers.mark = mark;
        let Some(two) = self.answer(&Question::<TwoParts>::new(answers), &names, two_said, &texts, &mut found) else {
            return self.unread(texts);
        };
        answers.two = two;
        let plain = PlainNumbers::ALL.iter().copied().find(|style| names.iter().any(|name| PlainNumbers::named(name) == Some(*style)));
        answers.plain = plain.or(plain_said).unwrap_or(PlainNumbers::Minutes);
        // Where 30:15 is minutes and seconds, parts of a minute are logged.
        let may_be_hours = plain.or(plain_said).is_none() && two == TwoParts::HoursMinutes;
        let is_mixed = may_be_hours && texts.clone().any(minutes::says_hours);
        let beside = is_mixed.then_some(BesideHours(answers));
        if let Some(beside) = &beside {
            let Some(plain) = self.answer(beside, &names, None, &texts, &mut found) else { return self.unread(texts) };
            answers.plain = plain;
        } else if answers.plain == PlainNumbers::Hours {
            let plain_numbers = texts.clone().zip(self.places.iter().copied()).filter(|(text, _)| PlainNumbers::concerns(text));
            // Nobody works for 24 hours on end: the heading may be of the table and not of its cells.
            let is_long = |text: &str| answers.read(text).is_some_and(|minutes| minutes >= Decimal::from(24 * 60));
            if let (None, Some(cell)) = (plain, plain_numbers.clone().position(|(text, _)| is_long(text))) {
                self.ask(&Question::<PlainNumbers>::new(answers), PlainNumbers::ALL, &plain_numbers, cell);
                return self.unread(texts);
            }
            if plain.is_some() || plain_numbers.count() > 0 {
                found.push(PlainNumbers::Hours.name());
            }
        } else if plain.is_some() {
            found.push(PlainNumbers::Minutes.name());
        }
        self.understood.format = (!found.is_empty()).then(|| found.join(", "));
        let because = self.because();
        let by_two = Question::<TwoParts>::new(answers);
        let by_mark = Question::<Mark>::new(answers);
        self.values(texts, |text| {
            if let Some((kind, what, advice)) = beside.as_ref().and_then(|beside| odd(beside, text, answers.plain, &because)) {
                let unit = if answers.plain == PlainNumbers::Minutes { "min" } else { "h" };
                return Err((kind, what, format!("{advice}, or {text} {unit} if that is meant")));
            }
            let odd_two = || if minutes::is_in_two_parts(text) { odd(&by_two, text, answers.two, &because) } else { None };
            let odd_mark = || if number::depends(text) { odd(&by_mark, text, answers.mark, &because) } else { None };
            read(text, answers).map_err(|wrong| odd_two().or_else(odd_mark).unwrap_or(wrong))
        })
    }

    /// The answer to one question: as `shop.toml` has it, as the heading says, else as the cells show it. `None`, with a problem, where
    /// none of them tells. What was found is added to the names in `found`.
    fn answer<'t, F: Format>(
        &mut self,
        question: &F,
        names: &[&str],
        said: Option<F::Style>,
        texts: &(impl Iterator<Item = &'t str> + Clone),
        found: &mut Vec<&'static str>,
    ) -> Option<F::Style> {
        let concerned = || texts.clone().any(|text| question.depends(text));
        let fixed = names.iter().find_map(|name| F::Style::named(name)).or_else(|| said.filter(|_| concerned()));
        let formats = fixed.map(|style| (self.column.name.to_owned(), style.name().to_owned()));
        let of_file = self.reading.of_file.as_ref().map(|of| FileFormats { section: of.section.clone(), ..FileFormats::default() });
        let reading = Reading { table: self.table.to_owned(), formats: formats.into_iter().collect(), of_file, ..Reading::default() };
        let deciding = self.understood.deciding;
        let mut reader = ColumnReader {
            file: self.file,
            table: self.table,
            column: self.column,
            reading: &reading,
            places: self.places,
            problems: self.problems,
            wrong: self.wrong,
            understood: self.understood,
            kept: self.kept.clone(),
        };
        reader.understood.format = None;
        let style = reader.style(question, texts);
        self.understood.deciding += deciding;
        if let (Some(style), Some(_)) = (style, self.understood.format.take()) {
            found.push(style.name());
        }
        style
    }
}

fn all<S: Style>() -> Vec<&'static str> {
    S::ALL.iter().map(|style| style.name()).collect()
}
