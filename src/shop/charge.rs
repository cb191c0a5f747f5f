//! What a row of the orders log charges, and the everyday names of charges that are no cookies.

use super::kinds::UNCLEAR_CHARGE;
use crate::ids::{Id, IdVec, Names, Text};
use crate::reading::folding;
use crate::reading::{Problem, Table};
use std::collections::{BTreeMap, BTreeSet};

/// What a row charges.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// Pieces of a design.
    Cookie,
    /// What was charged for all the order's cookies together.
    Set,
    /// Delivery.
    Delivery,
    /// A rush charge.
    Rush,
    /// A discount.
    Discount,
    /// A refund.
    Refund,
    /// A tip.
    Tip,
    /// Sales tax, which is never revenue.
    Tax,
    /// A deposit kept from a cancelled order.
    DepositKept,
}

/// Every kind, in the order of [`super::specification::KINDS`].
pub(super) const KINDS: [Kind; 9] =
    [Kind::Cookie, Kind::Set, Kind::Delivery, Kind::Rush, Kind::Discount, Kind::Refund, Kind::Tip, Kind::Tax, Kind::DepositKept];

/// Everyday names of charges, folded. Common practice, no source.
const NAMED: &[(Kind, &[&str])] = &[
    (Kind::Set, &["set", "set price", "cookie set", "price of the set"]),
    (Kind::Delivery, &["delivery", "delivery fee", "delivery charge", "local delivery", "shipping", "shipping fee", "postage"]),
    (Kind::Rush, &["rush", "rush fee", "rush charge", "rush order", "rush order fee", "express fee"]),
    (
        Kind::Discount,
        &[
            "discount",
            "friends discount",
            "family discount",
            "friends and family discount",
            "friends & family discount",
            "coupon",
            "promo code",
        ],
    ),
    (Kind::Refund, &["refund", "partial refund", "refunded"]),
    (Kind::Tip, &["tip", "tips", "gratuity"]),
    (Kind::Tax, &["tax", "sales tax", "vat", "gst", "hst"]),
    (Kind::DepositKept, &["deposit kept", "kept deposit", "deposit forfeited", "forfeited deposit"]),
];

/// Names of payments, which may be of what the cookies' rows charge already.
const UNCLEAR: &[&str] = &["deposit", "deposit paid", "balance", "balance due", "balance paid", "payment", "paid"];

/// What a text in the design column stands for, where it names no design.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Named {
    /// A charge.
    Charge(Kind),
    /// A payment or a charge: only the maker knows.
    Unclear,
}

impl Named {
    fn of(text: &str) -> Option<Self> {
        let name = folding::name(text);
        let name = name.trim_end_matches(':');
        let charge = NAMED.iter().find(|(_, names)| names.contains(&name)).map(|(kind, _)| Self::Charge(*kind));
        charge.or_else(|| UNCLEAR.contains(&name).then_some(Self::Unclear))
    }
}

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

impl Charges {
    /// Takes the kind and design columns out of the orders. A cookie row whose design is a charge that no card lists is that charge;
    /// a payment is a problem.
    pub fn take(table: &mut Table, is_on_card: impl Fn(&str) -> bool, problems: &mut Vec<Problem>) -> Self {
        let (design, names) = table.text("design");
        let named: IdVec<Text, Option<Named>> = names.iter().map(|text| Named::of(text).filter(|_| !is_on_card(text))).collect();
        let kind = table.wholes("kind").into_iter().map(|kind| KINDS.get(usize::try_from(kind.unwrap_or(0)).ok()?).copied());
        let mut charges = Self { kind: kind.collect(), design, names };
        let mut counted: BTreeMap<Id<Text>, (Kind, usize)> = BTreeMap::new();
        for row in 0..table.rows() {
            if table.is_wrong(row, "kind") {
                charges.kind[row] = None;
            }
            let (Some(Kind::Cookie), Some(text)) = (charges.kind[row], charges.design[row]) else { continue };
            match named[text] {
                None => continue,
                Some(Named::Charge(kind)) => {
                    charges.kind[row] = Some(kind);
                    counted.entry(text).or_insert((kind, 0)).1 += 1;
                }
                Some(Named::Unclear) => {
                    let what = "may be a payment for these cookies, or money of its own";
                    let problem = table.problem(&UNCLEAR_CHARGE, row, "design", what).found(charges.names.text(text));
                    problems.push(problem.instead(
                        "remove the row if it pays for the cookies above it; if you kept it from a cancelled order, write deposit kept under kind",
                    ));
                    charges.kind[row] = None;
                }
            }
            charges.design[row] = None;
        }
        for (text, (kind, cells)) in counted {
            let word = KINDS.iter().position(|known| *known == kind).map_or("", |at| super::specification::KINDS[at]);
            table.note_word("design", charges.names.text(text), &format!("a {word} charge"), cells);
        }
        charges
    }

    /// The designs that rows name.
    #[must_use]
    pub fn designs(&self) -> BTreeSet<&str> {
        self.design.iter().flatten().map(|text| self.names.text(*text)).collect()
    }
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
        let charges = Charges::take(&mut table, |name| name == card, &mut problems);
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
    fn every_name_is_folded_and_of_one_kind() {
        let names: Vec<&str> = NAMED.iter().flat_map(|(_, names)| *names).chain(UNCLEAR).copied().collect();
        assert!(names.iter().all(|name| folding::name(name) == *name));
        assert_eq!(names.iter().collect::<BTreeSet<_>>().len(), names.len());
    }
}
