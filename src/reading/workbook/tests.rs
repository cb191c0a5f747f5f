use super::*;
use crate::reading::specification::Least;
use std::io::{Cursor, Write};
use zip::write::SimpleFileOptions;

const fn of(name: &'static str, kind: Kind, required: bool) -> ColumnSpecification {
    ColumnSpecification { kind, ..column(name, required, "", "") }
}

/// The table of the workbooks in `fixtures/workbooks`; customers and notes are no columns of it.
const ORDERS: TableSpecification = TableSpecification {
    name: "orders",
    is_log: true,
    meaning: "",
    everyday: &[],
    columns: &[
        of("order", Kind::Text, true),
        of("date", Kind::Day, true),
        of("design", Kind::Text, false),
        of("quantity", Kind::Pieces(Least::AboveNil), false),
        of("price", Kind::Money(Least::Any), false),
        of("start", Kind::Time, false),
        of("minutes", Kind::Minutes, false),
        of("share", Kind::Percent, false),
    ],
};

fn fixture(name: &str) -> Vec<u8> {
    std::fs::read(std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures/workbooks").join(name)).unwrap()
}

fn read_all(workbook: &[u8], sheet: &str) -> Cells {
    let workbook = Workbook::open("w", &workbook.into()).unwrap();
    assert!(workbook.sheets().iter().any(|known| known.name == sheet), "{workbook:?}");
    (*workbook.cells(sheet, "w, sheet", Known { specification: &ORDERS, columns: &BTreeMap::new() })).clone()
}

fn problems(cells: &Cells) -> Vec<String> {
    cells.problems.iter().map(ToString::to_string).collect()
}

/// Every known column by its name in small letters, with its cells.
fn columns(cells: &Cells) -> BTreeMap<String, Vec<String>> {
    let kept = (0..cells.headings.len()).filter(|at| cells.is_kept(*at));
    kept.map(|at| (cells.headings[at].to_lowercase(), cells.column(at).map(str::to_owned).collect())).collect()
}

fn twin(name: &str) -> BTreeMap<String, Vec<String>> {
    let cells = Cells::of_csv("twin.csv", &fixture(name), Known { specification: &ORDERS, columns: &BTreeMap::new() });
    assert_eq!(problems(&cells), [""; 0]);
    columns(&cells)
}

fn rows(cells: &Cells) -> Vec<u32> {
    cells.places().iter().map(|place| place.row).collect()
}

#[test]
fn every_cell_is_read_as_its_csv_twin() {
    let expected = twin("orders.csv");
    assert_eq!((expected.len(), expected["order"].len()), (8, 3));
    for (name, titles, at, total) in [
        ("openpyxl.xlsx", 1, [3, 4, 5], vec![6]),
        ("xlsxwriter.xlsx", 0, [2, 3, 4], vec![]),
        ("xlsxwriter-1904.xlsx", 0, [2, 3, 4], vec![]),
        ("odfpy.ods", 1, [6, 7, 8], vec![9]),
    ] {
        let cells = read_all(&fixture(name), "Orders");
        assert_eq!((problems(&cells), columns(&cells)), (vec![], expected.clone()), "{name}");
        let left_out: Vec<u32> = cells.left_out.iter().map(|place| place.row).collect();
        assert_eq!((cells.titles, rows(&cells), left_out), (titles, at.to_vec(), total), "{name}");
        assert_eq!((cells.encoding, cells.separator), (None, None));
    }
}

#[test]
fn hidden_rows_and_columns_are_read_and_counted() {
    for (name, hidden) in [("openpyxl.xlsx", (1, 1)), ("odfpy.ods", (1, 1)), ("xlsxwriter.xlsx", (0, 0))] {
        let cells = read_all(&fixture(name), "Orders");
        assert_eq!((cells.sheet.hidden_rows, cells.sheet.hidden_columns), hidden, "{name}");
    }
}

#[test]
fn cells_merged_downwards_hold_for_all_their_rows() {
    for name in ["openpyxl.xlsx", "odfpy.ods"] {
        let cells = read_all(&fixture(name), "merged ");
        assert_eq!((problems(&cells), columns(&cells)), (vec![], twin("merged.csv")), "{name}");
        assert_eq!((cells.sheet.merged, rows(&cells)), (4, vec![2, 3, 4, 5]), "{name}");
    }
}

#[test]
fn failed_and_unworked_formulas_are_named_by_row_and_letter() {
    for name in ["openpyxl.xlsx", "odfpy.ods"] {
        let cells = read_all(&fixture(name), "faults");
        let expected = [
            "w, sheet, row 3, column D (price): the formula was saved without its value; open the workbook in your spreadsheet and save it, so that the values are kept",
            "w, sheet, row 4, column D (price): '#REF!' is a formula that failed; correct the formula, or type the value in its place",
        ];
        // The note of the first row fails too, but is no column.
        assert_eq!((problems(&cells), rows(&cells)), (expected.map(str::to_owned).to_vec(), vec![2]), "{name}");
    }
    // A program that leaves the work to the spreadsheet writes 0 for every formula; a typed 0 is one.
    let cells = read_all(&fixture("unworked.xlsx"), "Orders");
    assert!(problems(&cells).len() == 1 && problems(&cells)[0].contains("row 2, column C (price): the formula"), "{:?}", cells.problems);
    assert_eq!(columns(&cells)["price"], ["0"]);
}

#[test]
fn a_sheet_of_settings_gives_keys_and_values() {
    for name in ["openpyxl.xlsx", "odfpy.ods"] {
        let bytes = fixture(name);
        let workbook = Workbook::open("w", &bytes.as_slice().into()).unwrap();
        let sheets: Vec<(&str, bool)> = workbook.sheets().iter().map(|sheet| (sheet.name.as_str(), sheet.is_hidden)).collect();
        assert_eq!(sheets, [("Orders", false), ("merged ", false), ("faults", false), ("empty", false), ("settings", true)]);
        let (settings, wrong) = workbook.settings("settings", "w, sheet settings");
        let settings: Vec<(u32, &str, &str)> =
            settings.iter().map(|setting| (setting.place.row, setting.key.as_str(), setting.value.as_str())).collect();
        let expected = [
            (2, "currency", "USD"),
            (3, "wage.target", "20"),
            (4, "spares", "10 %"),
            (5, "tips_count", "true"),
            (7, "seasons.spring.from", "2026-02-01"),
        ];
        assert_eq!((settings.as_slice(), wrong), (&expected[..], vec![]), "{name}");
        assert_eq!(problems(&read_all(&bytes, "empty")), ["w, sheet: the sheet is empty; write the headings in its first row"]);
    }
}

#[test]
fn nothing_of_an_unknown_column_is_kept() {
    for name in ["openpyxl.xlsx", "xlsxwriter.xlsx", "odfpy.ods"] {
        let cells = read_all(&fixture(name), "Orders");
        assert!(!format!("{cells:?}").contains("someone"), "{name}");
        assert!(cells.headings.contains(&"Customer".to_owned()) && format!("{cells:?}").contains("paper lantern"));
    }
}

/// A zip archive of parts.
fn package(parts: &[(&str, &str)]) -> Vec<u8> {
    let mut writer = zip::ZipWriter::new(Cursor::new(Vec::new()));
    for (name, text) in parts {
        writer.start_file(*name, SimpleFileOptions::default()).unwrap();
        writer.write_all(text.as_bytes()).unwrap();
    }
    writer.finish().unwrap().into_inner()
}

/// A workbook of one sheet, with what stands before, in and after its rows.
fn one_sheet(before: &str, rows: &str, after: &str) -> Vec<u8> {
    let namespace = "xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\"";
    let relations = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
    let related = |kind: &str, target: &str| {
        format!(
            "<Relationships xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\"><Relationship Id=\"r1\" Type=\"{relations}/{kind}\" Target=\"{target}\"/></Relationships>"
        )
    };
    package(&[
        ("[Content_Types].xml", "<Types/>"),
        ("_rels/.rels", &related("officeDocument", "xl/workbook.xml")),
        (
            "xl/workbook.xml",
            &format!(
                "<workbook {namespace} xmlns:r=\"{relations}\"><sheets><sheet name=\"a &amp; b\" sheetId=\"1\" r:id=\"r1\"/></sheets></workbook>"
            ),
        ),
        ("xl/_rels/workbook.xml.rels", &related("worksheet", "worksheets/sheet1.xml")),
        ("xl/worksheets/sheet1.xml", &format!("<worksheet {namespace}>{before}<sheetData>{rows}</sheetData>{after}</worksheet>")),
    ])
}

fn text_row(number: u32, cells: &[(&str, &str)]) -> String {
    let cell = |(column, text): &(&str, &str)| format!("<c r=\"{column}{number}\" t=\"inlineStr\"><is><t>{text}</t></is></c>");
    format!("<row r=\"{number}\">{}</row>", cells.iter().map(cell).collect::<String>())
}

const HEADED: [(&str, &str); 3] = [("A", "order"), ("B", "date"), ("C", "design")];

#[test]
fn a_merged_area_shows_its_first_cell_alone_and_notes_beside_the_table_are_nothing() {
    let rows = [
        text_row(1, &HEADED),
        text_row(2, &[("A", "A1"), ("B", "2026-09-03"), ("C", "moon"), ("F", "a note")]),
        text_row(3, &[("A", "covered"), ("C", "star")]),
        text_row(4, &[("F", "another note")]),
        text_row(7, &[("A", "A2"), ("B", "2026-09-04"), ("C", "bell")]),
    ];
    let merged = "<mergeCells count=\"1\"><mergeCell ref=\"A2:A4\"/></mergeCells>";
    let hidden = "<cols><col min=\"2\" max=\"5\" hidden=\"1\"/></cols>";
    let rows_with_hidden = rows.concat().replace("<row r=\"7\">", "<row r=\"7\" hidden=\"true\">");
    let cells = read_all(&one_sheet(hidden, &rows_with_hidden, merged), "a & b");
    assert_eq!((problems(&cells), self::rows(&cells)), (vec![], vec![2, 3, 7]));
    assert_eq!(columns(&cells)["order"], ["A1", "A1", "A2"]);
    assert_eq!((cells.sheet.merged, cells.sheet.hidden_rows, cells.sheet.hidden_columns), (1, 1, 2));
}

#[test]
fn what_is_beyond_the_bounds_is_refused() {
    let far = "has more than 1,048,576 rows, 16,384 columns or 50 million filled cells";
    for far_cell in [text_row(2, &[("A", "A1"), ("XFE", "x")]), text_row(1_048_577, &[("A", "A1")])] {
        let cells = read_all(&one_sheet("", &(text_row(1, &HEADED) + &far_cell), ""), "a & b");
        let problems = problems(&cells);
        assert!(problems.len() == 1 && (problems[0].contains(far) || problems[0].contains("cannot be read")), "{problems:?}");
        assert!(cells.places().is_empty());
    }
    let last = text_row(1, &HEADED) + &text_row(1_048_576, &[("A", "A1"), ("B", "2026-09-03"), ("XFD", "x")]);
    assert_eq!(rows(&read_all(&one_sheet("", &last, ""), "a & b")), [1_048_576]);
    // Rows that repeat past the end of a sheet, and a row that repeats past its cells.
    let sheet = |repeated: &str| {
        let headings = "<table:table-row><table:table-cell><text:p>order</text:p></table:table-cell><table:table-cell><text:p>date</text:p></table:table-cell></table:table-row>";
        let cell = "<table:table-cell><text:p>x</text:p></table:table-cell>";
        let content =
            format!("<x><table:table table:name=\"s\">{headings}<table:table-row {repeated}>{cell}</table:table-row></table:table></x>");
        package(&[("mimetype", "application/vnd.oasis.opendocument.spreadsheet"), ("content.xml", &content)])
    };
    assert_eq!(rows(&read_all(&sheet("table:number-rows-repeated=\"3\""), "s")), [2, 3, 4]);
    let endless = read_all(&sheet("table:number-rows-repeated=\"4000000000\""), "s");
    assert!(problems(&endless)[0].contains(far), "{:?}", endless.problems);
}

fn refused(bytes: &[u8]) -> String {
    Workbook::open("w.xlsx", &bytes.into()).err().map(|problem| problem.to_string()).unwrap_or_default()
}

#[test]
fn a_package_that_unpacks_too_far_is_refused_before_it_is_read() {
    let mut writer = zip::ZipWriter::new(Cursor::new(Vec::new()));
    writer.start_file("content.xml", SimpleFileOptions::default()).unwrap();
    let megabyte = vec![b' '; 1 << 20];
    for _ in 0..101 {
        writer.write_all(&megabyte).unwrap();
    }
    let bomb = writer.finish().unwrap().into_inner();
    assert!(bomb.len() < 1 << 20);
    let too_far = "w.xlsx: unpacks to more than 1 GB, or to more than 200 times its size; keep only the latest years and no pictures in it";
    assert_eq!(refused(&bomb), too_far);
    // The same, when it states a small size.
    let stated = u32::try_from(101 << 20).unwrap().to_le_bytes();
    let mut lying = bomb;
    let places: Vec<usize> = lying.windows(4).enumerate().filter(|(_, window)| *window == stated).map(|(at, _)| at).collect();
    assert!(!places.is_empty());
    for at in places {
        lying[at..at + 4].copy_from_slice(&1000_u32.to_le_bytes());
    }
    let said = refused(&lying);
    assert!(said == too_far || said.contains("cannot be read as a workbook"), "{said}");
}

#[test]
fn what_is_no_workbook_says_so() {
    let broken = "w.xlsx: cannot be read as a workbook; open it in your spreadsheet and save it again as .xlsx";
    let other = "w.xlsx is protected by a password or of an older kind; save it as .xlsx without a password";
    assert_eq!((refused(b""), refused(b"order,date\n"), refused(&package(&[("a", "b")]))), (broken.into(), broken.into(), broken.into()));
    assert_eq!(refused(b"\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1"), other);
    assert_eq!(refused(&package(&[("[Content_Types].xml", ""), ("xl/workbook.bin", "")])), other);
    let manifest = "<m><manifest:encryption-data/></m>";
    assert_eq!(refused(&package(&[("content.xml", "?"), ("META-INF/manifest.xml", manifest)])), other);
    assert_eq!(refused(&package(&[("[Content_Types].xml", ""), ("xl/sharedStrings.xml", "<sst uniqueCount=\"99999999999999\">")])), broken);
    let whole = fixture("xlsxwriter.xlsx");
    for length in (0..whole.len()).step_by(97) {
        assert!(!refused(&whole[..length]).is_empty(), "cut to {length} bytes");
    }
    let out_of_order = text_row(1, &HEADED) + &text_row(5, &[("A", "secret")]) + &text_row(3, &[("A", "secret")]);
    let cells = read_all(&one_sheet("", &out_of_order, ""), "a & b");
    assert_eq!(problems(&cells), ["w, sheet: cannot be read as a workbook; open it in your spreadsheet and save it again as .xlsx"]);
    assert!(!format!("{cells:?}").contains("secret"));
}

#[test]
fn columns_have_letters() {
    assert_eq!([0, 25, 26, 701, 702, 16_383].map(letters), ["A", "Z", "AA", "ZZ", "AAA", "XFD"]);
}
