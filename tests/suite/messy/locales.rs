//! One shop written in the numbers and dates of five countries, in three encodings: the figures are the same to the byte.
//!
//! The styles are Unicode CLDR's (`fixtures/cldr`, from the npm packages cldr-numbers-full and cldr-dates-full; licence Unicode-3.0).

use super::answers;
use crate::harness::{Trial, repository};
use chrono::{Datelike, NaiveDate};
use fairdozen::reading::Kind;
use fairdozen::shop::specification::{HOURS, ORDERS};

/// The rows of a file of CLDR, its first line being a comment.
fn rows(file: &str) -> Vec<csv::StringRecord> {
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_path(repository("fixtures/cldr").join(file)).unwrap();
    reader.records().map(Result::unwrap).collect()
}

/// How a country writes.
struct Locale {
    name: String,
    decimal: String,
    group: String,
    /// Digits come in twos beyond the last three.
    in_twos: bool,
    money: String,
    currency: String,
    symbol: String,
    short_date: String,
    medium_date: String,
    months: Vec<String>,
}

impl Locale {
    fn all() -> Vec<Self> {
        let (dates, months) = (rows("date_patterns.csv"), rows("month_names.csv"));
        rows("number_patterns.csv")
            .iter()
            .map(|numbers| {
                let text = |at: usize| numbers[at].to_owned();
                let date = dates.iter().find(|date| date[0] == numbers[0]).unwrap();
                let names =
                    months.iter().find(|names| names[0] == numbers[0] && &names[1] == "format" && &names[2] == "abbreviated").unwrap();
                Self {
                    name: text(0),
                    decimal: text(1),
                    group: text(2),
                    in_twos: numbers[4].starts_with("#,##,"),
                    money: text(6).split(';').next().unwrap().to_owned(),
                    currency: text(8),
                    symbol: text(9),
                    short_date: date[1].to_owned(),
                    medium_date: date[2].to_owned(),
                    months: names.iter().skip(3).map(str::to_owned).collect(),
                }
            })
            .collect()
    }

    fn number(&self, plain: &str) -> String {
        let (whole, fraction) = plain.split_once('.').unwrap_or((plain, ""));
        let begins_group = |left: usize| left == 3 || (left > 3 && (left - 3).is_multiple_of(if self.in_twos { 2 } else { 3 }));
        let digits = whole.chars().enumerate();
        let grouped: String = digits
            .map(|(at, digit)| if at > 0 && begins_group(whole.len() - at) { format!("{}{digit}", self.group) } else { digit.to_string() })
            .collect();
        if fraction.is_empty() { grouped } else { format!("{grouped}{}{fraction}", self.decimal) }
    }

    fn price(&self, plain: &str) -> String {
        let (before, after) = self.money.split_once("0.00").unwrap();
        let before = before.trim_end_matches(['#', ',']);
        format!("{before}{}{after}", self.number(plain)).replace('¤', &self.symbol)
    }

    fn day(&self, pattern: &str, plain: &str) -> String {
        let day = NaiveDate::parse_from_str(plain, "%Y-%m-%d").unwrap();
        let mut text = String::new();
        let mut rest = pattern;
        while let Some(letter) = rest.chars().next() {
            let run = rest.chars().take_while(|next| *next == letter).count();
            let part = match (letter, run) {
                ('d', 1) => day.day().to_string(),
                ('d', _) => format!("{:02}", day.day()),
                ('M', 1) => day.month().to_string(),
                ('M', 2) => format!("{:02}", day.month()),
                ('M', _) => self.months[day.month0() as usize].clone(),
                ('y', 2) => format!("{:02}", day.year() % 100),
                ('y', _) => day.year().to_string(),
                (other, run) => other.to_string().repeat(run),
            };
            text.push_str(&part);
            rest = &rest[letter.len_utf8() * run..];
        }
        text
    }

    /// A table of the plain shop, written this way.
    fn table(&self, name: &str, date_pattern: &str) -> String {
        let specification = if name == "orders" { ORDERS } else { HOURS };
        let mut plain = csv::Reader::from_path(repository("fixtures/plum-lane/plain").join(format!("{name}.csv"))).unwrap();
        let headings = plain.headers().unwrap().clone();
        // Where a comma is the decimal mark, spreadsheets separate cells by semicolons.
        let separator = if self.decimal == "," { b';' } else { b',' };
        let mut writer = csv::WriterBuilder::new().delimiter(separator).from_writer(Vec::new());
        writer.write_record(&headings).unwrap();
        for record in plain.records() {
            let record = record.unwrap();
            let cells = record.iter().zip(&headings).map(|(cell, heading)| {
                let kind = specification.columns.iter().find(|column| column.name == heading).unwrap().kind;
                match kind {
                    _ if cell.is_empty() => String::new(),
                    Kind::Day => self.day(date_pattern, cell),
                    Kind::Price(_) => self.price(cell),
                    Kind::Minutes => self.number(cell),
                    _ => cell.to_owned(),
                }
            });
            writer.write_record(cells).unwrap();
        }
        String::from_utf8(writer.into_inner().unwrap()).unwrap()
    }
}

/// A text in an encoding; `None` where the encoding lacks one of its letters.
fn encoded(text: &str, encoding: &str) -> Option<Vec<u8>> {
    match encoding {
        "UTF-16" => Some([0xFEFF].into_iter().chain(text.encode_utf16()).flat_map(u16::to_le_bytes).collect()),
        "Windows-1252" => {
            let (bytes, _, lacks) = encoding_rs::WINDOWS_1252.encode(text);
            (!lacks).then(|| bytes.into_owned())
        }
        _ => Some(text.as_bytes().to_vec()),
    }
}

#[test]
fn one_shop_in_five_countries_styles_and_three_encodings_gives_the_same_figures() {
    let plain = Trial::new(&[]);
    for file in ["orders.csv", "hours.csv", "shop.toml"] {
        plain.write(file, &std::fs::read(repository("fixtures/plum-lane/plain").join(file)).unwrap());
    }
    let expected = answers(&plain);
    let settings = std::fs::read_to_string(repository("fixtures/plum-lane/plain/shop.toml")).unwrap();
    let mut written = Vec::new();
    for locale in Locale::all() {
        for encoding in ["UTF-8", "UTF-16", "Windows-1252"] {
            let tables = [("orders", &locale.short_date), ("hours", &locale.medium_date)];
            let files: Option<Vec<(&str, Vec<u8>)>> =
                tables.iter().map(|(name, date)| Some((*name, encoded(&locale.table(name, date), encoding)?))).collect();
            let Some(files) = files else { continue };
            let shop = Trial::new(&[("shop.toml", &settings.replace("USD", &locale.currency))]);
            for (name, bytes) in files {
                shop.write(&format!("{name}.csv"), &bytes);
            }
            let check = shop.run("check", &["--all"]);
            assert_eq!(check.code, 0, "{} in {encoding}:\n{}", locale.name, check.out);
            assert_eq!(answers(&shop), expected, "{} in {encoding}", locale.name);
            written.push(format!("{} {encoding}", locale.name));
        }
    }
    // The rupee sign and the narrow blank of French numbers are not in Windows-1252.
    assert!(written.len() >= 13, "{written:?}");
}
