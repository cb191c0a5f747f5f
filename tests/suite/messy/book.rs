//! Workbooks for trials: sheets of typed cells, written as `.xlsx` by `rust_xlsxwriter` or as the least that an `.ods` may be.

use chrono::{Datelike, NaiveDate};
use rust_xlsxwriter::{ExcelDateTime, Format, Formula, Workbook};
use std::fmt::Write as _;
use std::io::{Cursor, Write as _};
use zip::write::SimpleFileOptions;

/// A cell as a spreadsheet holds it.
#[derive(Debug, Clone)]
pub enum Cell {
    Blank,
    Text(String),
    /// A number and how it is shown, blank for General.
    Number(f64, &'static str),
    Percent(f64),
    Date(NaiveDate),
    /// A time of day in minutes.
    Time(u32),
    /// A time span in minutes.
    Span(u32),
    /// A formula with its value.
    Formula(f64),
    /// A formula that failed.
    Error,
}

/// A sheet.
#[derive(Debug, Clone)]
pub struct Sheet {
    pub name: String,
    pub rows: Vec<Vec<Cell>>,
    /// Rows that are hidden, by their index.
    pub hidden: Vec<usize>,
}

impl Sheet {
    /// A sheet of texts.
    pub fn of_texts(name: &str, rows: &[Vec<&str>]) -> Self {
        let cell = |text: &&str| if text.is_empty() { Cell::Blank } else { Cell::Text((*text).to_owned()) };
        Self { name: name.to_owned(), rows: rows.iter().map(|row| row.iter().map(cell).collect()).collect(), hidden: Vec::new() }
    }
}

/// The bytes of a workbook, `.xlsx` or `.ods` by the ending.
pub fn bytes(sheets: &[Sheet], ending: &str) -> Vec<u8> {
    if ending == "ods" { ods(sheets) } else { xlsx(sheets) }
}

fn xlsx(sheets: &[Sheet]) -> Vec<u8> {
    let mut workbook = Workbook::new();
    let shown = |format: &str| Format::new().set_num_format(format);
    for sheet in sheets {
        let written = workbook.add_worksheet().set_name(&sheet.name).unwrap();
        for (row, cells) in (0_u32..).zip(&sheet.rows) {
            for (at, cell) in (0_u16..).zip(cells) {
                match cell {
                    Cell::Blank => continue,
                    Cell::Text(text) => written.write_string(row, at, text),
                    Cell::Number(number, "") => written.write_number(row, at, *number),
                    Cell::Number(number, format) => written.write_number_with_format(row, at, *number, &shown(format)),
                    Cell::Percent(number) => written.write_number_with_format(row, at, *number, &shown("0.00%")),
                    Cell::Date(day) => {
                        let part = |number: u32| u8::try_from(number).unwrap();
                        let date = ExcelDateTime::from_ymd(u16::try_from(day.year()).unwrap(), part(day.month()), part(day.day())).unwrap();
                        written.write_datetime_with_format(row, at, &date, &shown("m/d/yy"))
                    }
                    Cell::Time(minutes) => written.write_number_with_format(row, at, f64::from(*minutes) / 1440.0, &shown("h:mm AM/PM")),
                    Cell::Span(minutes) => written.write_number_with_format(row, at, f64::from(*minutes) / 1440.0, &shown("[h]:mm")),
                    Cell::Formula(number) => written.write_formula(row, at, Formula::new("=A1").set_result(number.to_string())),
                    Cell::Error => written.write_formula(row, at, Formula::new("=NA()").set_result("#N/A")),
                }
                .unwrap();
            }
        }
        for row in &sheet.hidden {
            written.set_row_hidden(u32::try_from(*row).unwrap()).unwrap();
        }
    }
    workbook.save_to_buffer().unwrap()
}

fn ods(sheets: &[Sheet]) -> Vec<u8> {
    let mut content = String::from("<office:document-content><office:body><office:spreadsheet>");
    for sheet in sheets {
        let _ = write!(content, "<table:table table:name=\"{}\">", escaped(&sheet.name));
        for (at, row) in sheet.rows.iter().enumerate() {
            content.push_str(if sheet.hidden.contains(&at) {
                "<table:table-row table:visibility=\"filter\">"
            } else {
                "<table:table-row>"
            });
            content.extend(row.iter().map(ods_cell));
            content.push_str("</table:table-row>");
        }
        content.push_str("</table:table>");
    }
    content.push_str("</office:spreadsheet></office:body></office:document-content>");
    let mut writer = zip::ZipWriter::new(Cursor::new(Vec::new()));
    writer.start_file("content.xml", SimpleFileOptions::default()).unwrap();
    writer.write_all(content.as_bytes()).unwrap();
    writer.finish().unwrap().into_inner()
}

fn ods_cell(cell: &Cell) -> String {
    let typed = |kind: &str, name: &str, value: &str, shown: &str| {
        format!("<table:table-cell office:value-type=\"{kind}\" office:{name}=\"{value}\"><text:p>{shown}</text:p></table:table-cell>")
    };
    let span = |minutes: u32| format!("PT{:02}H{:02}M00S", minutes / 60, minutes % 60);
    match cell {
        Cell::Blank => "<table:table-cell/>".to_owned(),
        Cell::Text(text) => {
            format!("<table:table-cell office:value-type=\"string\"><text:p>{}</text:p></table:table-cell>", escaped(text))
        }
        Cell::Number(number, _) => typed("float", "value", &number.to_string(), &number.to_string()),
        Cell::Percent(number) => typed("percentage", "value", &number.to_string(), &format!("{:.2}%", number * 100.0)),
        Cell::Date(day) => typed("date", "date-value", &day.format("%Y-%m-%d").to_string(), &day.format("%d.%m.%y").to_string()),
        Cell::Time(minutes) | Cell::Span(minutes) => typed("time", "time-value", &span(*minutes), ""),
        Cell::Formula(number) => typed("float", "value", &number.to_string(), "").replacen('>', " table:formula=\"of:=[.A1]\">", 1),
        Cell::Error => "<table:table-cell table:formula=\"of:=NA()\" office:value-type=\"string\" office:string-value=\"\" \
                        calcext:value-type=\"error\"><text:p>#N/A</text:p></table:table-cell>"
            .to_owned(),
    }
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}
