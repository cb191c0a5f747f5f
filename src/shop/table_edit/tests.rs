use super::*;
use crate::reading::Cells;
use crate::reading::problem_kind::CELL_OF_MANY_LINES;
use crate::shop::specification::{DESIGNS, TIERS};
use proptest::collection::vec;
use proptest::prelude::*;

fn edit(text: &str, cells: &[(u32, &'static str, &str)]) -> Option<String> {
    let mut edit = TableEdit::of(text.as_bytes(), &DESIGNS, &Renamed::new())?;
    cells.iter().try_for_each(|(line, column, text)| edit.set(*line, column, text))?;
    Some(String::from_utf8(edit.finish()).unwrap())
}

#[test]
fn only_the_cell_changes() {
    let card =
        "\u{FEFF}design ,\"Tier\",notes\r\n\r\n\"moth, night\" , shape,\"two\r\nlines\"\nbell,\"shape\",\"\"\r\rfox,'=a,=b\r\n,,\r\n  \r\n";
    assert_eq!(edit(card, &[(3, "tier", "scene")]).unwrap(), card.replace(" shape,\"two", "scene,\"two"));
    assert_eq!(edit(card, &[(5, "tier", "a, \"b\"")]).unwrap(), card.replace("\"shape\",\"\"", "\"a, \"\"b\"\"\",\"\""));
    assert_eq!(edit(card, &[(5, "tier", "-b")]).unwrap(), card.replace("bell,\"shape\"", "bell,'-b"));
    // What says the same already stays as it is written.
    assert_eq!(edit(card, &[(5, "tier", "shape"), (7, "tier", "=a"), (3, "design", "moth, night")]).unwrap(), card);
    for line in [0, 1, 2, 4, 99] {
        assert_eq!(edit(card, &[(line, "tier", "scene")]), None, "{line}");
    }
    assert_eq!(edit(",,\r\n", &[]), None);
}

#[test]
fn a_column_that_is_missing_is_added_to_every_row() {
    assert_eq!(edit("design\nmoth\nbell", &[(3, "tier", "scene")]).unwrap(), "design,tier\nmoth,\nbell,scene");
    // Blank lines are no rows; rows of commas are, to other programs.
    let card = "\n ,\ndesign,x\r\n\r\n  \nmoth,\"y\"\r\n,\r\n\r\n";
    assert_eq!(edit(card, &[(6, "tier", "scene")]).unwrap(), "\n ,\ndesign,x,tier\r\n\r\n  \nmoth,\"y\",scene\r\n,,\r\n\r\n");
}

#[test]
fn what_a_cell_says_is_read_as_the_shop_reads_it() {
    let edit = TableEdit::of(b"design,also_called,minutes_each\nmoth,\" '=x; \"\"y\"\" \",'-1\n", &DESIGNS, &Renamed::new()).unwrap();
    assert_eq!(edit.text(2, "also_called").unwrap(), "=x; \"y\"");
    assert_eq!(edit.text(2, "minutes_each").unwrap(), "'-1", "figures are not guarded");
    assert_eq!((edit.text(2, "tier").unwrap().as_str(), edit.text(3, "tier")), ("", None));
}

#[test]
fn rows_go_to_the_end_under_her_own_headings_with_her_line_breaks() {
    let renamed = Renamed::from([("Level".to_owned(), "tier".to_owned())]);
    let row = [("tier", "=scene".to_owned()), ("price", "6.50".to_owned()), ("from", "2026-11-01".to_owned())];
    for (before, after) in [
        ("price,Level,why\r\n3,mini,x", "price,Level,why,from\r\n3,mini,x,\r\n6.50,'=scene,,2026-11-01\r\n"),
        ("price,Level\n3,mini\r\r", "price,Level,from\n3,mini,\r\r6.50,'=scene,2026-11-01\r"),
        ("price,Level", "price,Level,from\n6.50,'=scene,2026-11-01\n"),
        ("\"price\",Level\r\n3,mini\n", "\"price\",Level,from\r\n3,mini,\n6.50,'=scene,2026-11-01\n"),
    ] {
        let mut edit = TableEdit::of(before.as_bytes(), &TIERS, &renamed).unwrap();
        edit.push(&row).unwrap();
        assert_eq!(String::from_utf8(edit.finish()).unwrap(), after);
    }
}

/// A cell as a file may hold it: bare, or between quotes with anything in it, and blanks around.
fn cell() -> impl Strategy<Value = String> {
    let quoted = ("[ab ,\r\n'=]{0,5}", "[c ]{0,2}").prop_map(|(text, after)| format!("\"{}\"{after}", text.replace('b', "\"\"")));
    prop_oneof![3 => "[abé '=\t]{0,4}", 1 => "a\"[a\"]{0,2}", 2 => quoted]
}

fn line_break() -> impl Strategy<Value = &'static str> {
    prop::sample::select(vec!["\n", "\r\n", "\r", "\n\n", "\r\n \r\n", "\n\r\n"])
}

/// A designs card by its pieces: its headings in some order and quoting, rows of raw cells, the breaks after each row.
#[derive(Debug, Clone)]
struct Card {
    before: String,
    headings: Vec<&'static str>,
    rows: Vec<Vec<String>>,
    breaks: Vec<&'static str>,
    is_ended: bool,
}

impl Card {
    fn text(&self) -> String {
        let records = std::iter::once(self.headings.join(",")).chain(self.rows.iter().map(|row| row.join(",")));
        let mut text = self.before.clone();
        for (record, line_break) in records.zip(&self.breaks) {
            text.push_str(&record);
            text.push_str(line_break);
        }
        if self.is_ended { text } else { text.trim_end_matches(['\r', '\n', ' ']).to_owned() }
    }
}

fn card() -> impl Strategy<Value = Card> {
    let headings = Just(vec!["design", "\"Tier\" ", "\"also, mine\"", "ALSO_CALLED ", "theme"]).prop_shuffle();
    let rows = vec(vec(cell(), 5), 0..5);
    (prop::sample::select(vec!["", "\u{FEFF}", "\n", "\u{FEFF}\r\n,\r\n"]), headings, rows, vec(line_break(), 6), any::<bool>()).prop_map(
        |(before, headings, mut rows, breaks, is_ended)| {
            for row in &mut rows {
                // No blank rows here, and an end that can be seen.
                row[0].insert(0, 'x');
                row[0].retain(|letter| letter != '"');
                row[0] = row[0].replace([',', '\r', '\n'], "");
                row[4].push('z');
            }
            Card { before: before.to_owned(), headings, rows, breaks, is_ended }
        },
    )
}

fn read(text: &str) -> (Vec<Vec<String>>, Vec<u32>) {
    let cells = Cells::of_csv("designs.csv", text.as_bytes(), Known { specification: &DESIGNS, columns: &Renamed::new() });
    // A cell of many lines is doubtful, and is read all the same.
    assert!(cells.problems.iter().all(|problem| *problem.kind == CELL_OF_MANY_LINES), "{text:?}: {:?}", cells.problems);
    // Columns that are not ours are not kept: that they stay as they are is seen in the bytes.
    let blank = || vec![String::new(); cells.places().len()];
    let column = |at| if cells.is_kept(at) { cells.column(at).map(str::to_owned).collect() } else { blank() };
    let columns: Vec<Vec<String>> = (0..cells.headings.len()).map(column).collect();
    let rows = (0..cells.places().len()).map(|row| columns.iter().map(|column| column[row].clone()).collect()).collect();
    (rows, cells.places().iter().map(|place| place.line).collect())
}

const COLUMNS: [&str; 5] = ["design", "tier", "also_called", "theme", "earlier_tiers"];

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1000))]
    #[test]
    fn edits_change_their_cells_and_no_other_byte(
        card in card(),
        edits in vec((any::<prop::sample::Index>(), 0..5_usize, "[ab,\"\r\n=＠'-]{0,4}"), 0..4),
        pushed in prop::option::of("[ab,\"=]{1,4}"),
    ) {
        let before = card.text();
        let (mut rows, lines) = read(&before);
        let (mut expected, as_it_was) = (card.clone(), rows.clone());
        let mut edit = TableEdit::of(before.as_bytes(), &DESIGNS, &Renamed::new()).unwrap();
        prop_assert_eq!(rows.len(), card.rows.len());
        let place = |column: &str| DESIGNS.column(column).and_then(|wanted| {
            card.headings.iter().position(|heading| DESIGNS.column(heading.trim().trim_matches('"')) == Some(wanted))
        });
        let raw = |text: &str| {
            let cell = guarded(text);
            if cell.contains([',', '"', '\r', '\n']) { format!("\"{}\"", cell.replace('"', "\"\"")) } else { cell.into_owned() }
        };
        let mut earlier: BTreeMap<usize, String> = BTreeMap::new();
        for (row, column, text) in edits.iter().filter(|_| !card.rows.is_empty()) {
            let (row, column, text) = (row.index(rows.len()), COLUMNS[*column], text.trim());
            // What a cell says already stays as it is written.
            let is_said = edit.text(lines[row], column).unwrap() == text;
            edit.set(lines[row], column, text).unwrap();
            match place(column) {
                Some(at) if is_said => {
                    expected.rows[row][at].clone_from(&card.rows[row][at]);
                    rows[row][at].clone_from(&as_it_was[row][at]);
                }
                Some(at) => {
                    expected.rows[row][at] = raw(text);
                    rows[row][at] = guarded(text).trim().to_owned();
                }
                None if is_said && earlier.is_empty() => {}
                None => drop(earlier.insert(row, text.to_owned())),
            }
        }
        if !earlier.is_empty() {
            expected.headings.push("earlier_tiers");
            for (at, row) in rows.iter_mut().enumerate() {
                let text = earlier.get(&at).map_or("", String::as_str);
                expected.rows[at].push(raw(text));
                row.push(guarded(text).trim().to_owned());
            }
        }
        let mut expected = expected.text();
        if let Some(name) = pushed {
            edit.push(&[("design", name.clone())]).unwrap();
            let at = place("design").unwrap();
            let width = card.headings.len() + usize::from(!earlier.is_empty());
            let cells: Vec<String> = (0..width).map(|cell| if cell == at { raw(&name) } else { String::new() }).collect();
            let written = String::from_utf8(edit.finish()).unwrap();
            let tail = written.strip_prefix(&expected);
            prop_assert!(tail.is_some(), "{:?} does not begin with {:?}", written, expected);
            prop_assert_eq!(tail.unwrap().trim_matches(['\r', '\n']), cells.join(","));
            expected = written;
            rows.push((0..width).map(|cell| if cell == at { guarded(&name).into_owned() } else { String::new() }).collect());
        }
        let after = String::from_utf8(edit.finish()).unwrap();
        prop_assert_eq!(&after, &expected);
        prop_assert_eq!(read(&after).0, rows);
    }
}
