//! The rows of an `.xlsx` sheet, read by calamine; what calamine does not tell (hidden rows and columns, and whether the workbook asks to
//! be calculated on opening) is read from the parts themselves.

use super::Sheet;
use super::feed::{Feed, SheetCell, SheetRow};
use super::number_format::{Book, Formats};
use super::package::{Fault, archive};
use super::value::{Epoch, Value, iso_moment, iso_span, moment};
use calamine::{DataRef, Dimensions, Reader as _, SheetType, SheetVisible, Xlsx};
use quick_xml::Reader;
use quick_xml::XmlVersion;
use quick_xml::events::{BytesStart, Event};
use std::collections::{BTreeMap, BTreeSet};
use std::io::{BufReader, Cursor, Read};
use std::sync::Arc;

/// Opens a workbook and lists its sheets; charts are none.
pub(super) fn open(bytes: &Arc<[u8]>) -> Result<(Book, Vec<Sheet>), Fault> {
    check_strings(bytes)?;
    let book = Xlsx::new(Cursor::new(Arc::clone(bytes))).map_err(|error| match error {
        calamine::XlsxError::Password => Fault::OtherKind,
        _ => Fault::Broken,
    })?;
    let sheets = book.sheets_metadata().iter().filter(|sheet| sheet.typ == SheetType::WorkSheet);
    let sheets = sheets.map(|sheet| Sheet { name: sheet.name.clone(), is_hidden: sheet.visible != SheetVisible::Visible }).collect();
    Ok((book, sheets))
}

/// Reads the rows of a sheet.
pub(super) fn rows(book: &mut Book, bytes: &[u8], sheet: &str, feed: &mut Feed) -> Result<(), Fault> {
    let broken = |_| Fault::Broken;
    if book.has_1904_epoch() {
        feed.epoch = Epoch::Of1904;
    }
    let epoch = feed.epoch;
    let told = Told::read(bytes, sheet).unwrap_or_default();
    feed.hidden_columns.clone_from(&told.hidden_columns);
    let mut merged = book.merge_cells_by_sheet_name(sheet).map_err(broken)?;
    merged.sort_by_key(|area| area.start.0);
    let formats = Formats::read(book, sheet)?;
    let (mut merged, mut areas) = (merged.into_iter().peekable(), Vec::<Dimensions>::new());
    let mut reader = book.worksheet_cells_reader(sheet).map_err(broken)?;
    let mut row = SheetRow::default();
    while let Some(cell) = reader.next_cell_with_formula_metadata().map_err(broken)? {
        let (number, column) = cell.pos;
        if number != row.number {
            row.cells.sort_by_key(|cell| cell.column);
            feed.row(std::mem::take(&mut row))?;
            if feed.is_sated() {
                return Ok(());
            }
            areas.retain(|area| area.end.0 >= number);
        }
        while let Some(area) = merged.next_if(|area| area.start.0 <= number) {
            areas.push(area);
        }
        row.number = number;
        row.is_hidden = told.hidden_rows.contains(&number);
        let is_formula = cell.formula.is_some();
        let value = match cell.value {
            DataRef::Empty if is_formula => Value::Unworked,
            DataRef::Empty => Value::Blank,
            // Programs that write formulas without working them out write 0, and ask for the work to be done on opening.
            DataRef::Float(0.0) | DataRef::Int(0) if is_formula && told.is_to_be_worked_out => Value::Unworked,
            DataRef::Float(number) if formats.of(cell.pos).is_percentage => Value::Percent(number),
            DataRef::Float(number) => Value::Number(number),
            #[allow(clippy::cast_precision_loss)]
            DataRef::Int(number) => Value::Number(number as f64),
            DataRef::String(text) => Value::Text(text),
            DataRef::SharedString(text) => Value::Text(text.to_owned()),
            DataRef::Bool(boolean) => Value::Boolean(boolean),
            DataRef::DateTime(serial) => moment(serial.as_f64(), serial.is_duration(), epoch),
            DataRef::DateTimeIso(text) => iso_moment(&text).unwrap_or(Value::Text(text)),
            DataRef::DurationIso(text) => iso_span(&text).unwrap_or(Value::Text(text)),
            DataRef::Error(error) => Value::Error(error.to_string()),
        };
        let area = areas.iter().find(|area| area.contains(number, column));
        // A merged area shows its first cell alone.
        let rows = match area {
            Some(area) if area.start != (number, column) => continue,
            Some(area) => area.end.0 - area.start.0 + 1,
            None => 1,
        };
        let is_shortened = formats.of(cell.pos).decimals.is_some_and(|decimals| value.has_more_than(decimals));
        row.cells.push(SheetCell { column, value, rows, is_shortened });
    }
    row.cells.sort_by_key(|cell| cell.column);
    feed.row(row)
}

/// What calamine does not tell of a sheet.
#[derive(Debug, Default)]
struct Told {
    hidden_rows: BTreeSet<u32>,
    hidden_columns: Vec<(u32, u32)>,
    is_to_be_worked_out: bool,
}

impl Told {
    /// Reads it from the parts; `None` where a part is not where it usually is.
    fn read(bytes: &[u8], sheet: &str) -> Option<Self> {
        let mut archive = archive(bytes).ok()?;
        let (mut id, mut told) = (None, Self::default());
        elements(archive.by_name("xl/workbook.xml").ok()?, |element| match element.local_name().as_ref() {
            "sheet" if attribute(element, "name").as_deref() == Some(sheet) => id = attribute(element, "r:id"),
            "calcPr" => told.is_to_be_worked_out = is_true(attribute(element, "fullCalcOnLoad")),
            _ => {}
        })?;
        let mut targets = BTreeMap::new();
        elements(archive.by_name("xl/_rels/workbook.xml.rels").ok()?, |element| {
            if let (Some(id), Some(target)) = (attribute(element, "Id"), attribute(element, "Target")) {
                targets.insert(id, target);
            }
        })?;
        let target = targets.get(&id?)?;
        let path = target.strip_prefix('/').map_or_else(|| format!("xl/{target}"), str::to_owned);
        let mut row_after = 0;
        elements(archive.by_name(&path).ok()?, |element| match element.local_name().as_ref() {
            "col" if is_true(attribute(element, "hidden")) => {
                let number = |name| attribute(element, name).and_then(|number| number.parse::<u32>().ok()?.checked_sub(1));
                told.hidden_columns.extend(number("min").zip(number("max")));
            }
            "row" => {
                let number = attribute(element, "r").and_then(|number| number.parse::<u32>().ok()?.checked_sub(1)).unwrap_or(row_after);
                row_after = number.saturating_add(1);
                if is_true(attribute(element, "hidden")) {
                    told.hidden_rows.insert(number);
                }
            }
            _ => {}
        })?;
        Some(told)
    }
}

fn is_true(value: Option<String>) -> bool {
    value.is_some_and(|value| value == "1" || value == "true")
}

/// Refuses a list of texts that states more of them than it has bytes, before memory is set aside for it.
fn check_strings(bytes: &[u8]) -> Result<(), Fault> {
    let mut archive = archive(bytes)?;
    let names = archive.file_names().filter_map(|name| name.ok().map(std::borrow::Cow::into_owned));
    let names: Vec<String> = names.filter(|name| name.to_lowercase().ends_with("sharedstrings.xml")).collect();
    for name in names {
        let part = archive.by_name(&name).map_err(|_| Fault::Broken)?;
        let (size, mut stated) = (part.size(), 0);
        let start = part.take(4096);
        // The part is cut off, so that its end is no XML: only its beginning is asked for.
        let _ = elements(start, |element| {
            if element.local_name().as_ref() == "sst" {
                stated = attribute(element, "uniqueCount").and_then(|count| count.parse::<u64>().ok()).unwrap_or(0);
            }
        });
        if stated > size {
            return Err(Fault::Broken);
        }
    }
    Ok(())
}

/// Calls `each` with every element of a part as it begins; `None` where the part is no XML.
fn elements(part: impl Read, mut each: impl FnMut(&BytesStart)) -> Option<()> {
    let mut reader = Reader::from_reader(BufReader::new(part));
    let mut buffer = Vec::new();
    loop {
        buffer.clear();
        match reader.read_event_into(&mut buffer).ok()? {
            Event::Start(element) | Event::Empty(element) => each(&element),
            Event::Eof => return Some(()),
            _ => {}
        }
    }
}

/// The value of an element's attribute.
pub(super) fn attribute(element: &BytesStart, name: &str) -> Option<String> {
    let attribute = element.try_get_attribute(name).ok().flatten()?;
    attribute.normalized_value(XmlVersion::Implicit1_0).ok().map(std::borrow::Cow::into_owned)
}
