//! The rows of an `.ods` sheet (`OpenDocument` 1.2, part 1, chapter 9), read from the XML of its content.

use super::Sheet;
use super::feed::{Feed, SheetCell, SheetRow};
use super::package::{Fault, MOST_COLUMNS, MOST_ROWS, archive};
use super::value::{Value, iso_moment, iso_span};
use super::xlsx::attribute;
use quick_xml::Reader;
use quick_xml::escape::resolve_predefined_entity;
use quick_xml::events::{BytesStart, Event};
use std::collections::BTreeSet;
use std::io::{BufRead, BufReader};

/// Elements within a cell that are not what it says: notes and drawings.
const BESIDE: [&str; 2] = ["office:annotation", "draw:"];

/// A reader of XML in which an empty element begins and ends like any other.
struct Xml<R> {
    reader: Reader<R>,
    buffer: Vec<u8>,
}

impl<R: BufRead> Xml<R> {
    fn event(&mut self) -> Result<Event<'_>, Fault> {
        self.buffer.clear();
        self.reader.read_event_into(&mut self.buffer).map_err(|_| Fault::Broken)
    }

    /// Passes over the rest of an element that has begun.
    fn skip(&mut self, element: &BytesStart) -> Result<(), Fault> {
        self.reader.read_to_end_into(element.name(), &mut Vec::new()).map(drop).map_err(|_| Fault::Broken)
    }
}

/// Calls `each` with the content of a workbook.
fn with_content<T>(bytes: &[u8], each: impl FnOnce(Xml<&mut dyn BufRead>) -> Result<T, Fault>) -> Result<T, Fault> {
    let mut archive = archive(bytes)?;
    let mut part = BufReader::new(archive.by_name("content.xml").map_err(|_| Fault::Broken)?);
    let mut reader = Reader::from_reader(&mut part as &mut dyn BufRead);
    reader.config_mut().expand_empty_elements = true;
    each(Xml { reader, buffer: Vec::new() })
}

/// Lists the sheets.
pub(super) fn sheets(bytes: &[u8]) -> Result<Vec<Sheet>, Fault> {
    if is_protected(bytes) {
        return Err(Fault::OtherKind);
    }
    with_content(bytes, |mut xml| {
        let (mut sheets, mut style, mut hidden) = (Vec::new(), None, BTreeSet::new());
        loop {
            let element = match xml.event()? {
                Event::Start(element) => element.into_owned(),
                Event::Eof => return Ok(sheets),
                _ => continue,
            };
            match element.name().as_ref() {
                "style:style" => style = attribute(&element, "style:name"),
                "style:table-properties" if attribute(&element, "table:display").as_deref() == Some("false") => hidden.extend(style.take()),
                "table:table" => {
                    let is_hidden = attribute(&element, "table:style-name").is_some_and(|style| hidden.contains(&style));
                    sheets.extend(attribute(&element, "table:name").map(|name| Sheet { name, is_hidden }));
                    xml.skip(&element)?;
                }
                _ => {}
            }
        }
    })
}

/// Whether the parts are encrypted.
fn is_protected(bytes: &[u8]) -> bool {
    let Ok(mut archive) = archive(bytes) else { return false };
    let manifest = archive.by_name("META-INF/manifest.xml").ok().and_then(|part| std::io::read_to_string(part).ok());
    manifest.is_some_and(|text| text.contains("encryption-data"))
}

/// Reads the rows of a sheet.
pub(super) fn rows(bytes: &[u8], sheet: &str, feed: &mut Feed) -> Result<(), Fault> {
    with_content(bytes, |mut xml| {
        loop {
            let element = match xml.event()? {
                Event::Start(element) if element.name().as_ref() == "table:table" => element.into_owned(),
                Event::Eof => return Err(Fault::Broken),
                _ => continue,
            };
            if attribute(&element, "table:name").as_deref() == Some(sheet) {
                return table(&mut xml, feed);
            }
            xml.skip(&element)?;
        }
    })
}

/// How often an element is repeated, or how far it spans.
fn count(element: &BytesStart, name: &str) -> u32 {
    attribute(element, name).and_then(|count| count.parse().ok()).unwrap_or(1).max(1)
}

fn is_hidden(element: &BytesStart) -> bool {
    matches!(attribute(element, "table:visibility").as_deref(), Some("collapse" | "filter"))
}

fn table<R: BufRead>(xml: &mut Xml<R>, feed: &mut Feed) -> Result<(), Fault> {
    let (mut number, mut column) = (0_u32, 0_u32);
    loop {
        let element = match xml.event()? {
            Event::Start(element) => element.into_owned(),
            Event::End(element) if element.name().as_ref() == "table:table" => return Ok(()),
            Event::Eof => return Err(Fault::Broken),
            _ => continue,
        };
        match element.name().as_ref() {
            "table:table-column" => {
                let after = column.saturating_add(count(&element, "table:number-columns-repeated"));
                if is_hidden(&element) {
                    feed.hidden_columns.push((column, after - 1));
                }
                column = after;
            }
            "table:table-row" => {
                let cells = row(xml)?;
                let repeated = count(&element, "table:number-rows-repeated");
                let row = SheetRow { number, cells, is_hidden: is_hidden(&element) };
                if !row.cells.is_empty() {
                    // A row past the bounds is refused where it is fed.
                    for number in number..number.saturating_add(repeated).min(MOST_ROWS + 1) {
                        feed.row(SheetRow { number, ..row.clone() })?;
                        if feed.is_sated() {
                            return Ok(());
                        }
                    }
                }
                number = number.saturating_add(repeated);
            }
            // Rows and columns may stand in groups, and these among the table's own elements.
            "table:table-row-group"
            | "table:table-rows"
            | "table:table-header-rows"
            | "table:table-column-group"
            | "table:table-columns"
            | "table:table-header-columns" => {}
            _ => xml.skip(&element)?,
        }
    }
}

/// The cells of a row that are not blank.
fn row<R: BufRead>(xml: &mut Xml<R>) -> Result<Vec<SheetCell>, Fault> {
    let (mut cells, mut column) = (Vec::new(), 0_u32);
    loop {
        let element = match xml.event()? {
            Event::Start(element) => element.into_owned(),
            Event::End(element) if element.name().as_ref() == "table:table-row" => return Ok(cells),
            Event::Eof => return Err(Fault::Broken),
            _ => continue,
        };
        let repeated = count(&element, "table:number-columns-repeated");
        match element.name().as_ref() {
            "table:table-cell" => {
                let shown = shown(xml)?;
                let value = value(&element, shown.clone());
                let is_shortened = value.has_more_than_in(&shown);
                let rows = count(&element, "table:number-rows-spanned");
                if !value.is_blank() {
                    for column in column..column.saturating_add(repeated).min(MOST_COLUMNS + 1) {
                        cells.push(SheetCell { column, value: value.clone(), rows, is_shortened });
                    }
                }
            }
            // A cell covered by a merged one shows nothing of its own.
            _ => xml.skip(&element)?,
        }
        column = column.saturating_add(repeated);
    }
}

/// What a cell shows: its paragraphs, each on a line, up to the end of the cell.
fn shown<R: BufRead>(xml: &mut Xml<R>) -> Result<String, Fault> {
    let (mut text, mut paragraphs) = (String::new(), 0);
    loop {
        let element = match xml.event()? {
            Event::Text(part) => {
                text.push_str(&part.xml10_content());
                continue;
            }
            Event::GeneralRef(reference) => {
                let name = reference.xml10_content();
                let letter = reference.resolve_char_ref().ok().flatten();
                match letter {
                    Some(letter) => text.push(letter),
                    None => text.push_str(resolve_predefined_entity(&name).unwrap_or_default()),
                }
                continue;
            }
            Event::Start(element) => element.into_owned(),
            Event::End(element) if element.name().as_ref() == "table:table-cell" => return Ok(text),
            Event::Eof => return Err(Fault::Broken),
            _ => continue,
        };
        let name = element.name();
        let name = name.as_ref();
        match name {
            "text:p" => {
                text.push_str(if paragraphs > 0 { "\n" } else { "" });
                paragraphs += 1;
            }
            "text:s" => text.extend(std::iter::repeat_n(' ', count(&element, "text:c").min(1000) as usize)),
            "text:tab" => text.push('\t'),
            "text:line-break" => text.push('\n'),
            _ if BESIDE.iter().any(|beside| name.starts_with(beside)) => xml.skip(&element)?,
            _ => {}
        }
    }
}

/// The value of a cell, by the type it states; text where it states none that is known.
fn value(element: &BytesStart, shown: String) -> Value {
    let is_formula = attribute(element, "table:formula").is_some();
    if attribute(element, "calcext:value-type").as_deref() == Some("error") || (is_formula && is_error(&shown)) {
        return Value::Error(shown.trim().to_owned());
    }
    let number = || attribute(element, "office:value").and_then(|number| number.parse::<f64>().ok());
    let typed = match attribute(element, "office:value-type").as_deref() {
        Some("float" | "currency") => number().map(Value::Number),
        Some("percentage") => number().map(Value::Percent),
        Some("date") => attribute(element, "office:date-value").and_then(|date| iso_moment(&date)),
        Some("time") => attribute(element, "office:time-value").and_then(|time| iso_span(&time)),
        Some("boolean") => attribute(element, "office:boolean-value").map(|boolean| Value::Boolean(boolean == "true")),
        Some("string") => attribute(element, "office:string-value").map(Value::Text),
        _ if is_formula => Some(Value::Unworked),
        _ => None,
    };
    typed.unwrap_or(Value::Text(shown))
}

/// Whether a formula shows an error: `#REF!`, `#N/A`, `Err:502`.
fn is_error(shown: &str) -> bool {
    let is_sign = |letter: char| letter.is_ascii_uppercase() || matches!(letter, '/' | '0' | '!' | '?');
    let named = shown.strip_prefix('#').is_some_and(|rest| rest.len() > 2 && rest.chars().all(is_sign));
    named || shown.strip_prefix("Err:").is_some_and(|code| !code.is_empty() && code.bytes().all(|byte| byte.is_ascii_digit()))
}
