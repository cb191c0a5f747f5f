//! Columns of numbers in the styles of five locales of the Unicode CLDR, alone and mixed with odd cells.

use super::super::Table;
use super::super::cells::{Cells, Known};
use super::super::specification::{Least, TableSpecification};
use super::*;
use crate::quantity::millionths::Money;
use proptest::prelude::*;
use std::collections::BTreeMap;

/// How a locale writes numbers.
#[derive(Debug, Clone)]
struct Locale {
    decimal: String,
    group: String,
    /// Patterns of a number, a percentage, money, and money in books, as the Unicode Technical Standard 35 writes them.
    number: String,
    percent: String,
    money: String,
    accounting: String,
    currency: String,
    symbol: String,
}

fn locales() -> Vec<Locale> {
    let bytes = include_bytes!("../../../fixtures/cldr/number_patterns.csv");
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(&bytes[..]);
    let locales: Vec<Locale> = reader
        .records()
        .map(|record| {
            let record = record.unwrap();
            let of = |at: usize| record[at].to_owned();
            let (number, percent, money, accounting) = (of(4), of(5), of(6), of(7));
            Locale { decimal: of(1), group: of(2), number, percent, money, accounting, currency: of(8), symbol: of(9) }
        })
        .collect();
    assert_eq!(locales.len(), 5);
    locales
}

impl Locale {
    /// Writes a number by a pattern; with `grouped`, in the groups of the pattern. The decimals are the number's own.
    fn write(&self, value: Decimal, pattern: &str, grouped: bool) -> String {
        let (positive, negative) = pattern.split_once(';').map_or((pattern, None), |(positive, negative)| (positive, Some(negative)));
        let used = if value.is_sign_negative() { negative.unwrap_or(positive) } else { positive };
        let is_of_number = |c: char| matches!(c, '#' | '0' | ',' | '.');
        let start = used.find(is_of_number).unwrap();
        let end = used.rfind(is_of_number).unwrap() + 1;
        let shape = used[start..end].split('.').next().unwrap();
        let mut sizes = shape.rsplit(',').map(str::len);
        let (last, between) = (sizes.next().unwrap(), sizes.next().unwrap());
        // Where a pattern marks thousands once only, the groups before are as the last one.
        let between = if shape.matches(',').count() > 1 { between } else { last };
        let text = value.abs().to_string();
        let (whole, decimals) = text.split_once('.').unwrap_or((&text, ""));
        let mut groups = Vec::new();
        let (mut rest, mut size) = (whole, last);
        while grouped && rest.len() > size {
            let (before, group) = rest.split_at(rest.len() - size);
            groups.insert(0, group);
            (rest, size) = (before, between);
        }
        groups.insert(0, rest);
        let mut number = groups.join(&self.group);
        if !decimals.is_empty() {
            number = format!("{number}{}{decimals}", self.decimal);
        }
        let minus = if value.is_sign_negative() && negative.is_none() { "-" } else { "" };
        let (before, after) = (&used[..start], &used[end..]);
        format!("{minus}{before}{number}{after}").replace('¤', &self.symbol)
    }
}

/// Reads a file of one column, named `price`, of the table `orders`.
fn read(kind: Kind, cells: &[String], reading: &Reading) -> (Table, Vec<Problem>) {
    let column =
        ColumnSpecification { name: "price", also: None, kind, required: true, filled: true, carried: false, meaning: "", example: "" };
    let columns = Box::leak(Box::new([column]));
    let specification = TableSpecification { name: "orders", is_log: true, meaning: "", everyday: &[], columns };
    let text = format!("price\n\"{}\"\n", cells.join("\"\n\""));
    let mut problems = Vec::new();
    let cells = Cells::of_csv("orders.csv", text.as_bytes(), Known { specification: &specification, columns: &BTreeMap::new() });
    let table = Table::read(&specification, &cells, reading, &BTreeSet::new(), &mut problems);
    (table, problems)
}

fn said(kind: Kind, cells: &[&str], formats: &[(&str, &str)]) -> (Vec<Option<Decimal>>, Vec<String>, Option<(String, usize)>) {
    let cells: Vec<String> = cells.iter().map(|cell| (*cell).to_owned()).collect();
    let formats = formats.iter().map(|(column, format)| ((*column).to_owned(), (*format).to_owned())).collect();
    let (mut table, problems) = read(kind, &cells, &Reading { formats, currency: "USD".into(), ..Reading::default() });
    let found = table.understood[0].format.clone().map(|format| (format, table.understood[0].deciding));
    (table.numbers("price"), problems.iter().map(ToString::to_string).collect(), found)
}

fn numbers(texts: &[&str]) -> Vec<Option<Decimal>> {
    texts.iter().map(|text| text.parse().ok()).collect()
}

const NUMBER: Kind = Kind::Number(Least::Any);

#[test]
fn one_cell_decides_for_the_column() {
    let (values, problems, found) = said(NUMBER, &["1,500", "7", "2,5"], &[]);
    assert_eq!((values, problems), (numbers(&["1.500", "7", "2.5"]), vec![]));
    assert_eq!(found, Some(("decimal comma".into(), 1)));
    let (values, problems, found) = said(NUMBER, &["1,500", "7", "2.5"], &[]);
    assert_eq!((values, problems), (numbers(&["1500", "7", "2.5"]), vec![]));
    assert_eq!(found, Some(("decimal point".into(), 1)));
    assert_eq!(said(NUMBER, &["7", "1'500", "1 500"], &[]), (numbers(&["7", "1500", "1500"]), vec![], None));
}

#[test]
fn an_open_column_asks_once() {
    let (values, problems, found) = said(NUMBER, &["7", "1,500", "2,250"], &[]);
    assert_eq!((values, found), (vec![None; 3], None));
    assert_eq!(
        problems,
        [
            "orders.csv, column price: '1,500' in row 3 is 1500 as decimal point or 1,5 as decimal comma, and no cell of the column tells which; write price = \"decimal point\" or price = \"decimal comma\" under [formats.orders] in shop.toml"
        ]
    );
    let (_, problems, _) = said(NUMBER, &["2.5", "2,5"], &[]);
    assert_eq!(
        problems,
        [
            "orders.csv, column price: '2.5' is one of cells written in two ways, as many in each: '2.5' in row 2 is decimal point, '2,5' in row 3 is decimal comma; write price = \"decimal point\" or price = \"decimal comma\" under [formats.orders] in shop.toml"
        ]
    );
}

#[test]
fn what_the_question_advises_is_read() {
    for (format, expected) in [("decimal point", ["1500", "7"]), ("decimal comma", ["1.500", "7"])] {
        let (values, problems, found) = said(NUMBER, &["1,500", "7"], &[("price", format)]);
        assert_eq!((values, problems, found), (numbers(&expected), vec![], Some((format.to_owned(), 0))));
    }
}

#[test]
fn odd_cells_are_told_in_the_columns_own_style() {
    let (values, problems, found) = said(NUMBER, &["2,5", "1,25", "1.20", "x"], &[]);
    assert_eq!(
        (values, found),
        (vec![Some(Decimal::new(25, 1)), Some(Decimal::new(125, 2)), None, None], Some(("decimal comma".into(), 2)))
    );
    assert_eq!(
        problems,
        [
            "orders.csv, row 4, column price: '1.20' is decimal point, but the rest of the column is decimal comma; write 1,20",
            "orders.csv, row 5, column price: 'x' is not a number; write digits alone, with a comma for decimals, as 1234,50",
        ]
    );
    let (_, problems, _) = said(NUMBER, &["2,5", "3"], &[("Price", "decimal point")]);
    assert_eq!(
        problems,
        ["orders.csv, row 2, column price: '2,5' is decimal comma, but [formats.orders] in shop.toml says decimal point; write 2.5"]
    );
}

#[test]
fn another_currency_is_never_taken_for_a_matter_of_style() {
    let cells = ["4,50 $".to_owned(), "€4.50".to_owned(), "4,75".to_owned()];
    let (_, problems) = read(Kind::Money(Least::Any), &cells, &Reading { currency: "USD".into(), ..Reading::default() });
    let said: Vec<String> = problems.iter().map(ToString::to_string).collect();
    assert_eq!(said, ["orders.csv, row 3, column price: '€4.50' is in €, but the shop's currency is USD; write the amount in USD"]);
}

#[test]
fn a_format_that_the_column_does_not_have_is_named() {
    let (_, problems, _) = said(NUMBER, &["2,5"], &[("price", "comma")]);
    assert_eq!(
        problems,
        ["shop.toml, key formats.orders.price: 'comma' is not a format of this column; write one of: decimal point, decimal comma"]
    );
    let (table, problems) =
        read(Kind::Text, &["x".into()], &Reading { formats: [("price".into(), "x".into())].into(), ..Reading::default() });
    assert_eq!(problems[0].instead.as_ref().unwrap().to_string(), "remove the line: its cells can be read in one way only");
    assert_eq!(table.rows(), 1);
}

#[test]
fn each_locale_reads_its_own_numbers() {
    let values: Vec<Decimal> = ["0.5", "-1234567.25", "100000", "12.50", "1000"].iter().map(|text| text.parse().unwrap()).collect();
    for locale in locales() {
        for pattern in [&locale.number, &locale.money, &locale.accounting] {
            let cells: Vec<String> = values.iter().map(|value| locale.write(*value, pattern, true)).collect();
            let reading = Reading { currency: locale.currency.clone(), ..Reading::default() };
            let (mut table, problems) = read(Kind::Money(Least::Any), &cells, &reading);
            assert_eq!(problems, [], "{cells:?}");
            let expected: Vec<Option<i64>> =
                values.iter().map(|value| i64::try_from(Money::from_decimal(*value).unwrap().0).ok()).collect();
            assert_eq!(table.millionths("price"), expected, "{cells:?}");
        }
        let cells = [locale.write(Decimal::new(25, 1), &locale.percent, true), locale.write(Decimal::from(1000), &locale.percent, true)];
        let (mut table, problems) = read(Kind::Percent, &cells, &Reading::default());
        assert_eq!(problems, [], "{cells:?}");
        assert_eq!(table.percents("price"), [Some(Percent(2_500_000)), Some(Percent(1_000_000_000))], "{cells:?}");
    }
}

/// Reads rows of a size and a unit, with the headings given.
fn sized(text: &str) -> (Vec<Option<String>>, Vec<Option<String>>, Vec<String>) {
    const fn column(name: &'static str, kind: Kind, required: bool) -> ColumnSpecification {
        ColumnSpecification { name, also: None, kind, required, filled: true, carried: false, meaning: "", example: "1" }
    }
    const SIZED: TableSpecification = TableSpecification {
        name: "purchases",
        is_log: true,
        meaning: "",
        everyday: &[],
        columns: &[column("size", Kind::Size(Least::AboveNil), true), column("unit", Kind::Unit, false)],
    };
    let mut problems = Vec::new();
    let cells = Cells::of_csv("purchases.csv", text.as_bytes(), Known { specification: &SIZED, columns: &BTreeMap::new() });
    let mut table = Table::read(&SIZED, &cells, &Reading::default(), &BTreeSet::new(), &mut problems);
    let (units, names) = table.text("unit");
    let units = units.iter().map(|unit| unit.map(|unit| names.text(unit).to_owned())).collect();
    let sizes = table.numbers("size").iter().map(|size| size.map(|size| size.to_string())).collect();
    (sizes, units, problems.iter().map(ToString::to_string).collect())
}

#[test]
fn a_size_may_bring_its_unit() {
    let some = |texts: &[&str]| texts.iter().map(|text| Some((*text).to_owned())).collect::<Vec<_>>();
    let (sizes, units, problems) = sized("size,unit\n4 lb,\n2,oz\n\"1,000 g\",\n12 ct,\n4 lb,pounds\n0.5 kg,KG\n");
    assert_eq!((sizes, problems), (some(&["4", "2", "1000", "12", "4", "0.5"]), vec![]));
    assert_eq!(units, some(&["lb", "oz", "g", "ct", "pounds", "KG"]));
    let (sizes, units, problems) = sized("size\n4 lb\n12 ct\n");
    assert_eq!((sizes, units, problems), (some(&["4", "12"]), some(&["lb", "ct"]), vec![]));
}

#[test]
fn a_size_without_a_unit_or_with_two_is_an_error() {
    let (_, units, problems) = sized("size,unit\n4 lb,oz\n4,\n2 x 500 g,\n");
    assert_eq!(units, [None, None, None]);
    assert_eq!(
        problems,
        [
            "purchases.csv, row 4, column size: '2 x 500 g' is not a number; write digits alone, with a point for decimals, as 1234.50",
            "purchases.csv, row 2, column unit: 'oz' is not the unit in the size's own cell, 'lb'; keep one of the two",
            "purchases.csv, row 3, column unit: the cell is blank; fill it in, for example 1",
        ]
    );
    let (_, _, problems) = sized("size\n4 lb\n\"1,500 g\"\n");
    assert!(matches!(problems.as_slice(), [asks] if asks.contains("'1,500 g' in row 3 is 1500 as decimal point")), "{problems:?}");
    let (_, _, problems) = sized("size\n4 lb\n4\n");
    assert_eq!(
        problems,
        [
            "purchases.csv, column unit: the column is missing; add it, or write \"your heading\" = \"unit\" under [columns.purchases] in shop.toml"
        ]
    );
}

/// What a random column holds, and the words around its numbers.
#[derive(Debug, Clone, Copy)]
enum Sort {
    Number,
    Money,
    Price,
    Dozen,
    Pieces,
    Size,
}

fn sorts() -> impl Strategy<Value = Sort> {
    prop_oneof![Just(Sort::Number), Just(Sort::Money), Just(Sort::Price), Just(Sort::Dozen), Just(Sort::Pieces), Just(Sort::Size)]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn a_column_reads_back_or_asks(
        at in 0_usize..5,
        sort in sorts(),
        written in proptest::collection::vec((prop_oneof![-3_000_000_i64..3_000_000, -3_000_i64..3_000], 0_u32..=4, any::<bool>()), 2..9),
    ) {
        let locale = &locales()[at];
        let values: Vec<Decimal> = written
            .iter()
            .map(|(mantissa, scale, _)| match sort {
                Sort::Pieces => Decimal::from(mantissa.abs() / 36),
                Sort::Size => Decimal::new(mantissa.abs(), *scale),
                _ => Decimal::new(*mantissa, *scale),
            })
            .collect();
        let cells: Vec<String> = values.iter().zip(&written).map(|(value, (_, _, grouped))| {
            let of = |pattern: &str| locale.write(*value, pattern, *grouped);
            match sort {
                Sort::Number => of(&locale.number),
                Sort::Money => of(&locale.money),
                Sort::Price => format!("{} each", of(&locale.accounting)),
                Sort::Dozen => format!("{} / dz", of(&locale.money)),
                Sort::Pieces if *grouped => of(&locale.number),
                Sort::Pieces => format!("{} dozen", of(&locale.number)),
                Sort::Size => format!("{} kg", of(&locale.number)),
            }
        }).collect();
        let kind = match sort {
            Sort::Number => NUMBER,
            Sort::Money => Kind::Money(Least::Any),
            Sort::Price | Sort::Dozen => Kind::Price(Least::Any),
            Sort::Pieces => Kind::Pieces(Least::Any),
            Sort::Size => Kind::Size(Least::Any),
        };
        let (mut table, problems) = read(kind, &cells, &Reading { currency: locale.currency.clone(), ..Reading::default() });
        if problems.iter().any(|problem| *problem.kind == AMBIGUOUS_FORMAT) {
            prop_assert_eq!(problems.len(), 1);
            return Ok(());
        }
        prop_assert!(problems.is_empty(), "{:?} {:?}", cells, problems);
        let stored = |value: Decimal| Money::from_decimal(value).unwrap();
        match sort {
            Sort::Number | Sort::Size => {
                prop_assert_eq!(table.numbers("price"), values.iter().copied().map(Some).collect::<Vec<_>>(), "{:?}", cells);
            }
            Sort::Money => {
                let expected: Vec<Option<i64>> = values.iter().map(|value| i64::try_from(stored(*value).0).ok()).collect();
                prop_assert_eq!(table.millionths("price"), expected, "{:?}", cells);
            }
            Sort::Price | Sort::Dozen => {
                let pieces = if matches!(sort, Sort::Dozen) { 12 } else { 1 };
                let expected: Vec<Option<Price>> = values.iter().map(|value| Some(Price { amount: stored(*value), pieces })).collect();
                prop_assert_eq!(table.prices("price"), expected, "{:?}", cells);
            }
            Sort::Pieces => {
                let count = |(value, (_, _, grouped)): (&Decimal, &(i64, u32, bool))| {
                    i64::try_from(value.mantissa()).ok().map(|value| if *grouped { value } else { 12 * value })
                };
                let expected: Vec<Option<i64>> = values.iter().zip(&written).map(count).collect();
                prop_assert_eq!(table.wholes("price"), expected, "{:?}", cells);
            }
        }
    }
}
