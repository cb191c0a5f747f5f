//! New shops: what `start` makes, what it refuses, and that a shop typed into it passes the check.

use crate::harness::{Trial, repository};
use calamine::{Data, Reader, Xlsx};
use fairdozen::cli::Outcome;
use fairdozen::shop::settings::specification::SETTINGS;
use fairdozen::shop::specification::TABLES;
use std::collections::BTreeMap;
use std::io::Cursor;
use std::path::{Path, PathBuf};

/// A place for a new shop.
struct Place(tempfile::TempDir);

impl Place {
    fn new() -> Self {
        Self(tempfile::tempdir().unwrap())
    }

    fn at(&self, name: &str) -> PathBuf {
        self.0.path().join(name)
    }

    fn start(&self, options: &[&str]) -> Outcome {
        let shop = self.at("my-shop");
        fairdozen::cli::run(["fairdozen", "start", shop.to_str().unwrap()].iter().chain(options))
    }

    fn names(&self) -> Vec<String> {
        names(self.0.path())
    }
}

fn names(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> =
        std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect();
    names.sort();
    names
}

fn files(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    names(folder).into_iter().map(|name| (name.clone(), std::fs::read(folder.join(name)).unwrap())).collect()
}

fn check(shop: &Path) -> Outcome {
    fairdozen::cli::run(["fairdozen", "check", shop.to_str().unwrap()])
}

/// Rows that a maker types over the examples: a table's name, its headings as she fills them, and her cells.
const TYPED: [(&str, &str, &str); 9] = [
    ("orders", "order,date,design,quantity,price", "A1,2026-09-05,small five,2 dozen,3.00"),
    ("hours", "date,minutes,stage,order", "2026-09-04,150,decorate,A1"),
    ("purchases", "date,item,size,unit,paid", "2026-08-21,butter,1,lb,4.49"),
    ("overheads", "from,to,what,paid", "2026-01-01,2026-12-31,insurance,312.00"),
    ("counts", "date,item,amount,unit", "2026-09-30,butter,0.5,lb"),
    ("designs", "design,tier", "small five,numeral"),
    ("recipes", "for,item,amount,unit", "small five,butter,10,g"),
    ("items", "item,class", "butter,ingredient"),
    ("tiers", "tier,price", "numeral,3.25"),
];

/// A table's text with its example row typed over: cells she does not fill stay as they are.
fn typed_over(text: &str, headings: &str, cells: &str) -> String {
    let mut reader = csv::ReaderBuilder::new().has_headers(false).from_reader(text.as_bytes());
    let rows: Vec<Vec<String>> = reader.records().map(|row| row.unwrap().iter().map(str::to_owned).collect()).collect();
    let [columns, example] = rows.as_slice() else { panic!("{text}") };
    let mut row = example.clone();
    for (heading, cell) in headings.split(',').zip(cells.split(',')) {
        let at = columns.iter().position(|column| column == heading).unwrap();
        cell.clone_into(&mut row[at]);
    }
    format!("{}\n{}\n", columns.join(","), row.join(","))
}

/// Every set of tables typed into, the others left as they were made: the check finds no error.
fn passes_whatever_is_typed_over(shop: &Path) {
    let made = files(shop);
    assert_eq!(check(shop).code, 0, "{}", check(shop).out);
    for chosen in 0..1_u32 << (TYPED.len() - 1) {
        for (at, (table, headings, cells)) in TYPED.iter().enumerate() {
            let name = format!("{table}.csv");
            let text = std::str::from_utf8(&made[&name]).unwrap();
            // Hours and recipes name what other tables list: with them, those are typed into, too.
            let is_typed = at == 0 || chosen >> (at - 1) & 1 == 1;
            let now = if is_typed { typed_over(text, headings, cells) } else { text.to_owned() };
            std::fs::write(shop.join(name), now).unwrap();
        }
        let outcome = check(shop);
        assert_eq!(outcome.code, 0, "{chosen:b}: {}", outcome.out);
    }
}

#[test]
fn csv_files_pass_the_check_as_made_and_with_rows_typed_over_any_of_them() {
    let place = Place::new();
    let outcome = place.start(&["--csv"]);
    assert_eq!((outcome.code, outcome.err.as_str()), (0, ""));
    let is_step = |line: &&str| line.strip_prefix("  ").is_some_and(|line| line.starts_with(|letter: char| letter.is_ascii_digit()));
    assert_eq!(outcome.out.lines().filter(is_step).count(), 3, "{}", outcome.out);
    assert!(outcome.out.lines().all(|line| line.chars().count() <= 100), "{}", outcome.out);
    assert!(outcome.out.contains("a CSV file for each table. Prices are in USD"), "{}", outcome.out);
    assert_eq!(names(&place.at("my-shop")).len(), TABLES.len() + 1);
    passes_whatever_is_typed_over(&place.at("my-shop"));
    assert_eq!(place.names(), ["my-shop"]);
}

/// The example of an order is no order, and that of a design no card.
#[test]
fn examples_are_never_counted() {
    let place = Place::new();
    place.start(&["--csv"]);
    let shop = place.at("my-shop");
    let orders = std::fs::read_to_string(shop.join("orders.csv")).unwrap();
    std::fs::write(shop.join("orders.csv"), format!("{orders}A1,2026-09-05,,gate,10,2.00,,,,,,\n")).unwrap();
    let outcome = fairdozen::cli::run(["fairdozen", "wage", shop.to_str().unwrap(), "--json"]);
    let table: serde_json::Value = serde_json::from_str(&outcome.out).unwrap_or_else(|_| panic!("{}", outcome.err));
    assert_eq!((&table["all_in"]["revenue"], &table["total"]["pieces"]), (&"20.000000".into(), &10.into()));
    assert_eq!((&table["unassigned"]["owner_minutes"], &table["prepaid"]["overhead"]), (&"0.000000".into(), &"0.000000".into()));
}

fn sheets(bytes: Vec<u8>) -> BTreeMap<String, Vec<Vec<Data>>> {
    let mut workbook: Xlsx<_> = Xlsx::new(Cursor::new(bytes)).unwrap();
    let names = workbook.sheet_names();
    let rows = |name: &String| workbook.worksheet_range(name).unwrap().rows().map(<[Data]>::to_vec).collect();
    names.iter().map(rows).collect::<Vec<_>>().into_iter().zip(&names).map(|(rows, name)| (name.clone(), rows)).collect()
}

/// A cell as the reading of workbooks makes it a text.
fn text(cell: &Data) -> String {
    match cell {
        Data::DateTime(day) => {
            let (year, month, day, ..) = day.to_ymd_hms_milli();
            format!("{year}-{month:02}-{day:02}")
        }
        other => other.to_string(),
    }
}

/// The workbook's sheets, written as CSV files, are a shop that passes the check with rows typed over any of its examples.
#[test]
fn a_workbook_has_a_sheet_for_each_table_and_one_of_settings() {
    let place = Place::new();
    let outcome = place.start(&["--currency", "eur"]);
    assert_eq!((outcome.code, outcome.err.as_str()), (0, ""));
    assert!(outcome.out.contains("shop.xlsx, with a sheet for each table. Prices are in EUR."), "{}", outcome.out);
    assert_eq!(names(&place.at("my-shop")), ["shop.xlsx"]);
    let bytes = std::fs::read(place.at("my-shop").join("shop.xlsx")).unwrap();
    let sheets = sheets(bytes.clone());
    assert_eq!(sheets.len(), TABLES.len() + 1);
    let twin = Trial::new(&[("shop.toml", "currency = \"EUR\"\n")]);
    for table in TABLES {
        let rows = &sheets[table.name];
        let headings: Vec<String> = rows[0].iter().map(text).collect();
        assert_eq!((headings, rows.len()), (table.columns.iter().map(|column| column.name.to_owned()).collect(), 2));
        let lines = rows.iter().map(|row| row.iter().map(text).collect::<Vec<_>>().join(",") + "\n");
        twin.write(&table.file(), lines.collect::<String>().as_bytes());
    }
    passes_whatever_is_typed_over(twin.path());
    let settings = &sheets["settings"];
    assert_eq!(settings.len(), SETTINGS.len() + 1);
    assert_eq!(settings[0].iter().map(text).collect::<Vec<_>>(), ["setting", "value", "meaning"]);
    for (setting, row) in SETTINGS.iter().zip(&settings[1..]) {
        let value = if setting.key == "currency" { "EUR" } else { setting.default };
        assert_eq!((text(&row[0]).as_str(), text(&row[1]).as_str()), (setting.key, value));
        assert!(text(&row[2]).starts_with(setting.meaning), "{row:?}");
    }
    // Zip files carry times to two seconds.
    std::thread::sleep(std::time::Duration::from_millis(2100));
    let again = Place::new();
    again.start(&["--currency", "EUR"]);
    assert_eq!(std::fs::read(again.at("my-shop").join("shop.xlsx")).unwrap(), bytes, "the clock is in the workbook");
}

#[test]
fn the_sample_is_the_demo_shop() {
    let place = Place::new();
    let outcome = place.start(&["--sample"]);
    assert_eq!((outcome.code, outcome.err.as_str()), (0, ""));
    let demo = repository("fixtures/ninebell-quay");
    let shop = files(&place.at("my-shop"));
    // Reviews of it may stand beside its tables.
    let is_of_shop = |name: &String| demo.join(name).is_file() && name != "README.md";
    let tables: Vec<String> = names(&demo).into_iter().filter(is_of_shop).collect();
    assert_eq!(shop.keys().cloned().collect::<Vec<_>>(), tables);
    assert!(shop.iter().all(|(name, bytes)| *bytes == std::fs::read(demo.join(name)).unwrap()));
}

#[test]
fn exports_are_copied_by_bytes_and_checked() {
    let place = Place::new();
    let orders = b"order,date,design,quantity,price\r\nA1,2026-09-05,gate,10,2.00\r\n";
    std::fs::write(place.at("orders.csv"), orders).unwrap();
    std::fs::write(place.at("hours.csv"), "date,minutes,order\n2026-09-04,soon,A1\n").unwrap();
    let from = |names: &[&str]| -> Outcome {
        let paths: Vec<PathBuf> = names.iter().map(|name| place.at(name)).collect();
        let mut options = vec!["--currency", "GBP", "--from"];
        options.extend(paths.iter().map(|path| path.to_str().unwrap()));
        place.start(&options)
    };
    let outcome = from(&["orders.csv", "hours.csv"]);
    assert_eq!(outcome.code, 1, "{}", outcome.out);
    assert!(outcome.out.starts_with("2 files of yours are copied to ") && outcome.out.contains("Prices are in GBP."), "{}", outcome.out);
    assert!(outcome.out.contains("hours.csv, row 2, column minutes: 'soon'"), "{}", outcome.out);
    let shop = place.at("my-shop");
    assert_eq!(names(&shop), ["hours.csv", "orders.csv", "shop.toml"]);
    assert_eq!(std::fs::read(shop.join("orders.csv")).unwrap(), orders);
    std::fs::remove_dir_all(&shop).unwrap();
    std::fs::write(place.at("hours.csv"), "date,minutes,order\n2026-09-04,50,A1\n").unwrap();
    assert_eq!(from(&["orders.csv", "hours.csv"]).code, 0);
    std::fs::remove_dir_all(&shop).unwrap();

    std::fs::create_dir(place.at("old")).unwrap();
    std::fs::write(place.at("old/Orders.csv"), orders).unwrap();
    std::fs::write(place.at("shop.toml"), "currency = \"USD\"\n").unwrap();
    for (names, says) in [
        (&["orders.csv", "old/Orders.csv"][..], "two files would be called Orders.csv in the new shop"),
        (&["orders.csv", "shop.toml"], "two files would be called shop.toml"),
        (&["gone.csv"], "gone.csv cannot be read: it is not there; nothing was written"),
        (&["old"], "is a folder, not a file; nothing was written"),
    ] {
        let refused = from(names);
        assert_eq!((refused.code, refused.out.as_str(), refused.err.lines().count()), (2, "", 1), "{names:?}");
        assert!(refused.err.contains(says), "{names:?}: {}", refused.err);
        assert!(!shop.exists());
    }
}

#[test]
fn nothing_is_ever_written_over() {
    let place = Place::new();
    let shop = place.at("my-shop");
    std::fs::create_dir(&shop).unwrap();
    assert_eq!(place.start(&[]).code, 0, "an empty folder is filled");
    let before = files(&shop);
    for options in [&[][..], &["--csv"], &["--sample"]] {
        let refused = place.start(options);
        let says = format!("{} is not empty, so nothing was written; name a new folder\n", shop.display());
        assert_eq!((refused.code, refused.out.as_str(), refused.err), (2, "", says), "{options:?}");
    }
    assert_eq!(files(&shop), before);
    std::fs::write(place.at("file"), "").unwrap();
    for (path, says) in [("file", "it is a file, not a folder"), ("no/shop", "there is no folder ")] {
        let refused = fairdozen::cli::run(["fairdozen", "start", place.at(path).to_str().unwrap()]);
        assert_eq!(refused.code, 2);
        assert!(refused.err.contains(says), "{}", refused.err);
    }
    let wrong = place.start(&["--currency", "EURO"]);
    assert!(wrong.code == 2 && wrong.err.contains("write a currency as its code of three letters"), "{}", wrong.err);
    assert_eq!(place.names(), ["file", "my-shop"]);
}

/// A card that holds no more than its example gets the designs' rows when a list is written, and says so.
#[test]
fn the_next_list_fills_a_card_without_rows() {
    let place = Place::new();
    place.start(&["--csv"]);
    let shop = place.at("my-shop");
    let add = |name: &str, row: &str| {
        let text = std::fs::read_to_string(shop.join(name)).unwrap();
        std::fs::write(shop.join(name), format!("{text}{row}\n")).unwrap();
    };
    add("orders.csv", "A1,2026-03-10,,acorn,12,3.00,,,,,,");
    add("hours.csv", "2026-03-09,90,,,decorate,A1,,,");
    let words = ["fairdozen", "tiers", shop.to_str().unwrap(), "--target", "20", "--tiers", "1", "--write"];
    let outcome = fairdozen::cli::run(words);
    assert_eq!(outcome.code, 0, "{}", outcome.err);
    assert!(outcome.out.contains("Your designs and their tiers are in designs.csv."), "{}", outcome.out);
    let card = std::fs::read_to_string(shop.join("designs.csv")).unwrap();
    assert!(card.lines().nth(1).unwrap().starts_with("EXAMPLE:") && card.lines().nth(2).unwrap().starts_with("acorn,tier 1,"), "{card}");
    assert_eq!(check(&shop).code, 0, "{}", check(&shop).out);
}
