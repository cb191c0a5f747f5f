//! Takes what each row of the orders log charges out of it: pieces of a design, or a charge that stands in the design's place.

use super::charge::{KINDS, Kind, Named};
use super::kinds::{LIKE_A_CHARGE, UNCLEAR_CHARGE};
use crate::ids::{Id, IdVec, Names, Text};
use crate::reading::format::word::key;
use crate::reading::{Problem, Table};
use std::collections::{BTreeMap, BTreeSet};

/// What each row of the orders log charges, and for what design.
#[derive(Debug, Default)]
pub struct Charges {
    /// Each row's kind; `None` where it could not be read, which is a problem already.
    pub kind: Vec<Option<Kind>>,
    /// Each row's design as written; blank where the text names a charge.
    pub design: Vec<Option<Id<Text>>>,
    /// The texts.
    pub names: Names<Text>,
}

/// What a text of the design column is taken for.
enum Meant {
    Design,
    Charge(Kind),
    /// Only the maker knows which of these charges it is, if any.
    Asked(BTreeSet<Kind>),
    Unclear,
}

impl Charges {
    /// Takes the kind and design columns out of the orders. A cookie row whose design is a charge that no card lists is that charge, by
    /// its name or by the shop's `own` word; what only looks like one, and a payment, are problems.
    pub fn take(
        table: &mut Table,
        is_on_card: impl Fn(&str) -> bool,
        has_card: bool,
        own: &BTreeMap<String, String>,
        problems: &mut Vec<Problem>,
    ) -> Self {
        let (design, names) = table.text("design");
        let stated = table.wholes("kind");
        let kinds = stated.iter().map(|kind| KINDS.get(usize::try_from(kind.unwrap_or(0)).ok()?).copied()).collect();
        let mut charges = Self { kind: kinds, design, names };
        let meant = charges.meant(table, is_on_card, own);
        let mut counted: BTreeMap<Id<Text>, (Kind, usize)> = BTreeMap::new();
        for (row, stated) in stated.into_iter().enumerate() {
            if table.is_wrong(row, "kind") {
                charges.kind[row] = None;
            }
            let (Some(Kind::Cookie), Some(text)) = (charges.kind[row], charges.design[row]) else { continue };
            let name = charges.names.text(text);
            match &meant[text] {
                Meant::Design => continue,
                Meant::Charge(kind) => {
                    counted.entry(text).or_insert((*kind, 0)).1 += 1;
                    if *kind == Kind::Cookie {
                        continue;
                    }
                    charges.kind[row] = Some(*kind);
                }
                // She says under kind that it is a cookie.
                Meant::Asked(_) if stated.is_some() => continue,
                Meant::Asked(kinds) => {
                    problems.push(question(table, row, name, kinds, has_card));
                    charges.kind[row] = None;
                }
                Meant::Unclear => {
                    let what = "may be a payment for these cookies, or money of its own";
                    let problem = table.problem(&UNCLEAR_CHARGE, row, "design", what).found(name);
                    problems.push(problem.instead(
                        "remove the row if it pays for the cookies above it; if you kept it from a cancelled order, write deposit kept under kind",
                    ));
                    charges.kind[row] = None;
                }
            }
            charges.design[row] = None;
        }
        for (text, (kind, cells)) in counted {
            let read_as = if kind == Kind::Cookie { "a cookie".to_owned() } else { format!("a {} charge", kind.word()) };
            table.note_word("design", charges.names.text(text), &read_as, cells);
        }
        charges
    }

    /// What each text stands for. The name of a charge among other words is a design's where every row has several pieces of it.
    fn meant(&self, table: &Table, is_on_card: impl Fn(&str) -> bool, own: &BTreeMap<String, String>) -> IdVec<Text, Meant> {
        // Rows with several pieces, and others.
        let mut rows = IdVec::<Text, (usize, usize)>::filled((0, 0), self.names.len());
        for (row, text) in self.design.iter().enumerate() {
            let Some(text) = text else { continue };
            match table.whole_at("quantity", row) {
                Some(2..) => rows[*text].0 += 1,
                _ => rows[*text].1 += 1,
            }
        }
        let meant = |(text, name)| match Named::of(name, own).filter(|_| !is_on_card(name)) {
            None => Meant::Design,
            Some(Named::Charge(kind)) => Meant::Charge(kind),
            Some(Named::Remarked(kind)) if rows[text].0 == 0 => Meant::Charge(kind),
            Some(Named::Contains(_)) if rows[text].1 == 0 => Meant::Design,
            Some(Named::Remarked(kind) | Named::Slip(kind)) => Meant::Asked(BTreeSet::from([kind])),
            Some(Named::Contains(kinds)) => Meant::Asked(kinds),
            Some(Named::Unclear) => Meant::Unclear,
        };
        self.names.pairs().map(meant).collect()
    }

    /// The designs that rows name.
    #[must_use]
    pub fn designs(&self) -> BTreeSet<&str> {
        self.design.iter().flatten().map(|text| self.names.text(*text)).collect()
    }
}

/// Asks whether a row is the charge that its design looks like.
fn question(table: &Table, row: usize, text: &str, kinds: &BTreeSet<Kind>, has_card: bool) -> Problem {
    let words: Vec<&str> = kinds.iter().map(|kind| kind.word()).collect();
    let lines: Vec<String> = words.iter().map(|word| format!("{} = \"{word}\"", key(text))).collect();
    let otherwise = if has_card { "add it to designs.csv".to_owned() } else { format!("{} = \"cookie\"", key(text)) };
    let problem = table.problem(&LIKE_A_CHARGE, row, "design", format!("looks like a {} charge", words.join(" or "))).found(text);
    let problem = problem.instead(format!("write {} under [words] in shop.toml; or, if it is a design, {otherwise}", lines.join(" or ")));
    problem.to_paste("words", lines[0].clone())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::reading::table::Reading;
    use crate::reading::{Cells, Known};
    use crate::shop::specification::ORDERS;

    fn taken(rows: &[&str], card: &str) -> (Vec<(Option<Kind>, String)>, Vec<String>) {
        let text = format!("order,date,kind,design,quantity,price\n{}\n", rows.join("\n"));
        let mut problems = Vec::new();
        let cells = Cells::of_csv("orders.csv", text.as_bytes(), Known { specification: &ORDERS, columns: &BTreeMap::new() });
        let mut table = Table::read(&ORDERS, &cells, &Reading::default(), &BTreeSet::new(), &mut problems);
        let own = BTreeMap::from([("Porch drop".to_owned(), "delivery".to_owned())]);
        let charges = Charges::take(&mut table, |name| name == card, !card.is_empty(), &own, &mut problems);
        let text = |row: usize| charges.design[row].map_or("", |text| charges.names.text(text)).to_owned();
        let rows = (0..table.rows()).map(|row| (charges.kind[row], text(row))).collect();
        (rows, problems.iter().map(ToString::to_string).collect())
    }

    #[test]
    fn charges_written_as_designs_are_charges() {
        let rows = ["1,2026-09-01,,Rush fee,,8", "1,2026-09-01,,Sales Tax:,,1", "1,2026-09-01,,leaf,2,4", "1,2026-09-01,tip,Delivery,,4"];
        let (charges, problems) = taken(&rows, "");
        let kinds: Vec<_> = charges.iter().map(|(kind, design)| (kind.unwrap(), design.as_str())).collect();
        assert_eq!(kinds, [(Kind::Rush, ""), (Kind::Tax, ""), (Kind::Cookie, "leaf"), (Kind::Tip, "Delivery")]);
        assert_eq!(problems, [""; 0]);
    }

    #[test]
    fn a_design_of_the_card_is_a_design_whatever_its_name() {
        assert_eq!(taken(&["1,2026-09-01,,postage,2,4"], "postage").0, [(Some(Kind::Cookie), "postage".to_owned())]);
        assert_eq!(taken(&["1,2026-09-01,,postage,,4"], "").0, [(Some(Kind::Delivery), String::new())]);
    }

    #[test]
    fn a_payment_asks_what_it_is() {
        let (charges, problems) = taken(&["1,2026-09-01,,Deposit,1,20"], "");
        assert_eq!(charges, [(None, String::new())]);
        assert!(problems[0].starts_with("orders.csv, row 2, column design: 'Deposit' may be a payment for these cookies"), "{problems:?}");
    }

    #[test]
    fn a_charge_with_a_remark_or_in_her_own_words_is_that_charge() {
        let rows = ["1,2026-09-01,,Delivery (20 mi),1,8", "1,2026-09-01,,Porch drop,,8", "1,2026-09-01,,Delivery truck,12,4"];
        let (charges, problems) = taken(&rows, "");
        let kinds: Vec<_> = charges.iter().map(|(kind, design)| (kind.unwrap(), design.as_str())).collect();
        assert_eq!(kinds, [(Kind::Delivery, ""), (Kind::Delivery, ""), (Kind::Cookie, "Delivery truck")]);
        assert_eq!(problems, [""; 0]);
    }

    #[test]
    fn what_only_looks_like_a_charge_asks() {
        let line = "write Delivry = \"delivery\" under [words] in shop.toml; or, if it is a design,";
        let expected = format!("orders.csv, row 2, column design: 'Delivry' looks like a delivery charge; {line}");
        let (charges, problems) = taken(&["1,2026-09-01,,Delivry,1,12"], "");
        assert_eq!((charges, problems), (vec![(None, String::new())], vec![format!("{expected} Delivry = \"cookie\"")]));
        assert_eq!(taken(&["1,2026-09-01,,Delivry,1,12"], "leaf").1, [format!("{expected} add it to designs.csv")]);
        assert_eq!(taken(&["1,2026-09-01,cookie,Delivry,1,12"], "").0, [(Some(Kind::Cookie), "Delivry".to_owned())]);
        for asked in ["Delivery truck,1,12", "Delivery truck,,12", "Delivery (20 mi),2,8"] {
            assert_eq!(taken(&[&format!("1,2026-09-01,,{asked}")], "").1.len(), 1, "{asked}");
        }
        let two = taken(&["1,2026-09-01,,Delivery + tip,1,12"], "").1;
        assert!(
            two[0].contains("looks like a delivery or tip charge; write \"Delivery + tip\" = \"delivery\" or \"Delivery + tip\" = \"tip\""),
            "{two:?}"
        );
    }
}
