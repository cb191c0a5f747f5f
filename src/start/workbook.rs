//! A new shop as one workbook: a sheet for each table, and one for the settings.

use super::example;
use crate::quantity::{Day, number};
use crate::reading::{ColumnSpecification, Kind, TableSpecification};
use crate::shop::settings::specification::SETTINGS;
use crate::shop::settings::{DEFAULT_STAGES, SHEET};
use crate::shop::specification::{HOURS, TABLES};
use chrono::Datelike;
use rust_decimal::prelude::ToPrimitive;
use rust_xlsxwriter::{
    ColNum, Color, DataValidation, DataValidationErrorStyle, DocProperties, ExcelDateTime, Format, Note, RowNum, Workbook, Worksheet,
    XlsxError,
};

/// The workbook's file name.
pub const WORKBOOK: &str = "shop.xlsx";

/// The last row of a sheet.
const LAST_ROW: RowNum = 1_048_575;
/// Characters of the widest column: what is longer runs over, or is cut on screen alone.
const WIDEST: usize = 60;
/// Grey of an example.
const PALE: u32 = 0x0080_8080;
/// Columns of the settings' sheet.
const SETTING_HEADINGS: [&str; 3] = ["setting", "value", "meaning"];

/// The bytes of the workbook, the same ones each time.
///
/// # Errors
/// Where the writer refuses, which it does not with names and texts within its limits.
pub fn workbook(currency: &str) -> Result<Vec<u8>, XlsxError> {
    let mut workbook = Workbook::new();
    // Without one the clock would be asked.
    let created = ExcelDateTime::from_ymd(2026, 1, 1)?;
    workbook.set_properties(&DocProperties::new().set_creation_datetime(&created));
    for table in TABLES {
        fill(workbook.add_worksheet().set_name(table.name)?, table)?;
    }
    fill_settings(workbook.add_worksheet().set_name(SHEET)?, currency)?;
    workbook.save_to_buffer()
}

/// Headings with what they mean, the example row, and what each column's cells may hold.
fn fill(sheet: &mut Worksheet, table: &TableSpecification) -> Result<(), XlsxError> {
    let example: Vec<String> = example::row(table).collect();
    for (at, (column, example)) in (0..).zip(table.columns.iter().zip(&example)) {
        let format = format_of(column.kind);
        heading(sheet, at, column.name, column.name.len().max(example.len()).max(column.example.len()))?;
        sheet.set_column_format(at, &format)?;
        let required = if column.filled { " (in every row)" } else { "" };
        sheet.insert_note(
            0,
            at,
            &Note::new(format!("{}{required}. Example: {}", column.meaning, column.example)).add_author_prefix(false),
        )?;
        let pale = format.set_italic().set_font_color(Color::RGB(PALE));
        cell(sheet, (1, at), column.kind, example, &pale)?;
        let words = words(table, column);
        if !words.is_empty() {
            sheet.add_data_validation(1, at, LAST_ROW, at, &one_of(&words)?)?;
        }
    }
    sheet.set_freeze_panes(1, 0)?;
    Ok(())
}

/// A bold heading over a column wide enough for so many characters.
fn heading(sheet: &mut Worksheet, at: ColNum, text: &str, characters: usize) -> Result<(), XlsxError> {
    sheet.write_string_with_format(0, at, text, &Format::new().set_bold())?;
    let width = u32::try_from(characters.min(WIDEST)).unwrap_or(0) + 3;
    sheet.set_column_width(at, width)?;
    Ok(())
}

/// How a column shows what is typed into it. Text stays as typed: an order 007 keeps its noughts.
fn format_of(kind: Kind) -> Format {
    match kind {
        Kind::Text | Kind::Orders | Kind::Unit | Kind::Choice(..) => Format::new().set_num_format("@"),
        Kind::Day => Format::new().set_num_format("yyyy-mm-dd"),
        Kind::Time | Kind::TimeOrSpan => Format::new().set_num_format("hh:mm"),
        Kind::Money(_) => Format::new().set_num_format("0.00"),
        _ => Format::new(),
    }
}

/// Writes a cell of the example as its kind: a day as a day, a number as a number.
fn cell(sheet: &mut Worksheet, (row, at): (RowNum, ColNum), kind: Kind, text: &str, format: &Format) -> Result<(), XlsxError> {
    let number = number::plain(text).filter(|_| !matches!(kind, Kind::Text | Kind::Orders)).and_then(|number| number.to_f64());
    match (Day::parse(text).filter(|_| kind == Kind::Day), number) {
        (Some(day), _) => {
            let date = day.date();
            let (year, month, day) = (date.year(), date.month(), date.day());
            let date = ExcelDateTime::from_ymd(
                u16::try_from(year).unwrap_or(0),
                u8::try_from(month).unwrap_or(0),
                u8::try_from(day).unwrap_or(0),
            )?;
            sheet.write_datetime_with_format(row, at, &date, format)?;
        }
        (None, Some(number)) => drop(sheet.write_number_with_format(row, at, number, format)?),
        (None, None) => drop(sheet.write_string_with_format(row, at, text, format)?),
    }
    Ok(())
}

/// The words a column's cells may hold; none where it has no list.
fn words(table: &TableSpecification, column: &ColumnSpecification) -> Vec<&'static str> {
    match column.kind {
        Kind::Choice(words, _) => words.to_vec(),
        Kind::Text if table.name == HOURS.name && column.name == "stage" => DEFAULT_STAGES.iter().map(|(stage, _)| *stage).collect(),
        _ => Vec::new(),
    }
}

/// A drop-down list. Another word is asked about and not refused: the settings may know it.
fn one_of(words: &[&str]) -> Result<DataValidation, XlsxError> {
    let list = DataValidation::new().allow_list_strings(words)?;
    list.set_error_style(DataValidationErrorStyle::Warning)
        .set_error_message("This word is not in the list. Keep it if it is one of your own.")
}

/// Each setting with its value, default or blank, and what it means.
fn fill_settings(sheet: &mut Worksheet, currency: &str) -> Result<(), XlsxError> {
    // A value stays as typed: 2.9 % is no 0.029.
    let text = Format::new().set_num_format("@");
    for (at, (name, characters)) in (0..).zip(SETTING_HEADINGS.iter().zip([26, 26, 80])) {
        heading(sheet, at, name, characters)?;
        sheet.set_column_format(at, &text)?;
    }
    for (row, setting) in (1..).zip(SETTINGS) {
        let value = if setting.key == "currency" { currency } else { setting.default };
        let words = setting.words();
        let example = if words.is_empty() { format!(", as {}", setting.example.trim_matches(['"', '[', ']'])) } else { String::new() };
        for (at, cell) in (0..).zip([setting.key, value, &format!("{}{example}", setting.meaning)]) {
            sheet.write_string_with_format(row, at, cell, &text)?;
        }
        if !words.is_empty() {
            sheet.add_data_validation(row, 1, row, 1, &one_of(&words)?)?;
        }
    }
    sheet.set_freeze_panes(1, 0)?;
    Ok(())
}
