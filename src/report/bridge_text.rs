//! The bridge as a person reads it: what changed since another month or season, in all, by design and by ingredient.

use super::bridge_notes;
use super::layout::{Table, item, wrapped};
use super::words::{Currency, capitalised, period_as_noun};
use crate::quantity::millionths::{MILLION, Money};
use crate::reading::problem::printable;
use crate::review::Bridge;
use crate::review::bridge::{Effect, End, Group, GroupVariance, ItemVariance, Part};
use std::fmt::Write;

impl Part {
    /// The maker's words for it.
    #[must_use]
    pub fn in_words(self) -> &'static str {
        match self {
            Self::Prices => "prices",
            Self::Mix => "a different mix of designs",
            Self::Volume => "pieces sold",
            Self::PieceMinutes => "minutes per piece",
            Self::SetUpMinutes => "set-up minutes",
            Self::IngredientPrices => "ingredient prices",
            Self::IngredientUse => "ingredient use",
            Self::Packaging => "packaging",
            Self::Fees => "card fees",
            Self::HelperPay => "helper pay",
            Self::RushAndTips => "rush charges and tips",
            Self::DiscountsAndRefunds => "discounts and refunds",
            Self::Delivery => "deliveries",
            Self::KeptDeposits => "kept deposits",
            Self::Overhead => "overhead",
            Self::Unassigned => "hours and costs not tied to an order",
            Self::Target => "your target",
        }
    }
}

impl Part {
    /// What a part did to her pay, where a direction can be named: `you worked faster`.
    fn moved_in_words(self, for_the_better: bool) -> &'static str {
        match (self, for_the_better) {
            (Self::Prices, true) => "higher prices",
            (Self::Prices, false) => "lower prices",
            (Self::PieceMinutes, true) => "you worked faster",
            (Self::PieceMinutes, false) => "you worked slower",
            (Self::SetUpMinutes, true) => "less set-up time",
            (Self::SetUpMinutes, false) => "more set-up time",
            (Self::IngredientPrices, true) => "cheaper ingredients",
            (Self::IngredientPrices, false) => "dearer ingredients",
            (Self::IngredientUse, true) => "less of the ingredients used",
            (Self::IngredientUse, false) => "more of the ingredients used",
            _ => self.in_words(),
        }
    }
}

/// Over what the section stands: `What changed since September 2026`.
#[must_use]
pub fn heading(bridge: &Bridge) -> String {
    format!("What changed since {}", name(&bridge.then))
}

/// The section.
#[must_use]
pub fn body(bridge: &Bridge, currency: &Currency) -> String {
    if let Some(why) = nothing_to_compare(bridge) {
        return format!("{}\n", item(&why));
    }
    let mut text = format!("{}\n\n{}", wrapped(&finding(bridge, currency), 0), parts(bridge, currency).text());
    if let Some(designs) = designs(bridge, currency) {
        let _ = write!(text, "\n{}", designs.text());
    }
    text.push('\n');
    for note in notes(bridge, currency) {
        let _ = writeln!(text, "{}", item(&note));
    }
    text
}

/// The change in one sentence, with what moved it most: `October 2026 was $84 worse than September 2026 with your time paid at
/// $20: you worked slower −$120; higher prices +$51.`
#[must_use]
pub fn finding(bridge: &Bridge, currency: &Currency) -> String {
    if let Some(why) = nothing_to_compare(bridge) {
        return why;
    }
    let change = bridge.now.whole.surplus - bridge.then.whole.surplus;
    let size = currency.whole(Money(change.0.abs()));
    let (now, then) = (capitalised(&name(&bridge.now)), name(&bridge.then));
    let is_less = change < Money::ZERO;
    let said = match bridge.target {
        _ if change.0.abs() < MILLION => format!("{now} came out as {then} did, within {}", currency.whole(Money(MILLION))),
        None => format!("{now} left you {size} {} than {then}", if is_less { "less" } else { "more" }),
        Some(target) => {
            let way = if is_less { "worse" } else { "better" };
            format!("{now} was {size} {way} than {then} with your time paid at {}", currency.short(target))
        }
    };
    // What pushed the same way first, then what pushed against it.
    let (with, against): (Vec<_>, Vec<_>) = movers(bridge).into_iter().partition(|(_, effect)| (effect.surplus < Money::ZERO) == is_less);
    let told = |parts: Vec<(Part, Effect)>| {
        let told: Vec<String> = parts.iter().map(|(part, effect)| moved(*part, effect.surplus, currency)).collect();
        told.join(", ")
    };
    let told: Vec<String> = [told(with), told(against)].into_iter().filter(|told| !told.is_empty()).collect();
    if told.is_empty() { format!("{said}.") } else { format!("{said}: {}.", told.join("; ")) }
}

/// At most three parts, each at least a quarter of the farthest one.
fn movers(bridge: &Bridge) -> Vec<(Part, Effect)> {
    let mut moved = bridge.moved();
    let most = moved.first().map_or(0, |(_, effect)| effect.surplus.0.abs());
    moved.retain(|(_, effect)| effect.surplus.0.abs() >= MILLION && effect.surplus.0.abs() * 4 >= most);
    moved.truncate(3);
    moved
}

/// A part with its change: `you worked faster +$42`, `card fees −$3`.
fn moved(part: Part, change: Money, currency: &Currency) -> String {
    let sign = if change > Money::ZERO { "+" } else { "" };
    format!("{} {sign}{}", part.moved_in_words(change > Money::ZERO), currency.whole(change))
}

/// A period inside a sentence.
#[must_use]
pub fn name(end: &End) -> String {
    match &end.season {
        Some(season) if end.period.month().is_none() => printable(season),
        _ => period_as_noun(end.period),
    }
}

/// Whether both periods have orders to compare.
#[must_use]
pub fn is_comparable(bridge: &Bridge) -> bool {
    nothing_to_compare(bridge).is_none()
}

/// What the surplus is where a wage is aimed at, and where none is.
#[must_use]
pub fn surplus_words(bridge: &Bridge) -> &'static str {
    if bridge.target.is_some() { "above or below your target" } else { "left for your time" }
}

fn nothing_to_compare(bridge: &Bridge) -> Option<String> {
    let then = &bridge.then;
    if then.orders > 0 && bridge.now.orders > 0 {
        return None;
    }
    let (there, here) = (name(then), name(&bridge.now));
    let nothing_in = |end: &End, where_to: &str| match end.left_out {
        0 => format!("Nothing was handed over in {where_to}"),
        _ => format!("No order handed over in {where_to} has known hours"),
    };
    Some(match then.orders {
        0 => format!("{}: there is nothing to compare {here} with.", nothing_in(then, &there)),
        _ => format!("{}: there is nothing to compare with {there}.", nothing_in(&bridge.now, &here)),
    })
}

/// From the base period to this one; parts that changed nothing are left out.
#[must_use]
pub fn parts(bridge: &Bridge, currency: &Currency) -> Table {
    let has_wage = bridge.change.wage.is_some();
    let row = |label: String, surplus: String, wage: String| {
        let mut cells = vec![label, surplus];
        cells.extend(has_wage.then_some(wage));
        cells
    };
    let whole = |end: &End| row(capitalised(&name(end)), currency.exact(end.whole.surplus), currency.known(end.whole.wage));
    let mut rows = vec![whole(&bridge.then)];
    let signed = |money: Money| signed(currency, money);
    for (part, effect) in bridge.moved() {
        let cells = row(format!("  {}", part.in_words()), signed(effect.surplus), effect.wage.map_or_else(String::new, signed));
        if cells[1..].iter().any(|cell| cell.contains(|c: char| ('1'..='9').contains(&c))) {
            rows.push(cells);
        }
    }
    rows.push(whole(&bridge.now));
    let surplus = if bridge.target.is_some() { "above or\nbelow" } else { "left for\nyour time" };
    Table { headings: ["what changed", surplus].into_iter().chain(has_wage.then_some("hourly\npay")).collect(), rows, totals: 1 }
}

/// `+$51.00`, `−$120.33`, `$0.00`.
#[must_use]
pub fn signed(currency: &Currency, money: Money) -> String {
    let text = currency.exact(money);
    if money > Money::ZERO && text.contains(|c: char| ('1'..='9').contains(&c)) { format!("+{text}") } else { text }
}

/// Designs shown in rows of their own.
const SHOWN: usize = 6;

/// Columns of the designs' table, and the parts in each.
const COLUMNS: [(&str, &[Part]); 5] = [
    ("pieces\nand mix", &[Part::Volume, Part::Mix]),
    ("prices", &[Part::Prices]),
    ("your\ntime", &[Part::PieceMinutes, Part::SetUpMinutes]),
    ("ingre-\ndients", &[Part::IngredientPrices, Part::IngredientUse]),
    ("the rest", &[]),
];

/// The designs that moved it most, the others together; `None` where none moved.
#[must_use]
pub fn designs(bridge: &Bridge, currency: &Currency) -> Option<Table> {
    let designs = bridge.designs_moved();
    if designs.is_empty() {
        return None;
    }
    let columns = |designs: &[&GroupVariance]| {
        let mut sums = [Money::ZERO; COLUMNS.len()];
        for (part, effect) in designs.iter().flat_map(|design| &design.parts) {
            let at = COLUMNS.iter().position(|(_, parts)| parts.contains(part)).unwrap_or(COLUMNS.len() - 1);
            sums[at] += effect.surplus;
        }
        sums
    };
    let row = |label: String, designs: &[&GroupVariance]| {
        let pieces = designs.iter().fold((0, 0), |sum, design| (sum.0 + design.pieces.0, sum.1 + design.pieces.1));
        let whole = designs.iter().map(|design| design.change.surplus).sum();
        let mut cells = vec![label, pieces.0.to_string(), pieces.1.to_string(), signed(currency, whole)];
        cells.extend(columns(designs).map(|money| signed(currency, money)));
        cells
    };
    let shown = if designs.len() <= SHOWN + 1 { designs.len() } else { SHOWN };
    let mut rows: Vec<Vec<String>> = designs[..shown].iter().map(|design| row(design_name(design), &[design])).collect();
    if shown < designs.len() {
        rows.push(row(format!("{} others", designs.len() - shown), &designs[shown..]));
    }
    rows.push(row("all designs".to_owned(), &designs));
    let beside: Vec<&GroupVariance> = bridge.groups.iter().filter(|group| !matches!(group.group, Group::Design(_))).collect();
    let all: Vec<&GroupVariance> = bridge.groups.iter().collect();
    let totals = if beside.iter().any(|group| group.change.surplus != Money::ZERO) { 3 } else { 1 };
    if totals > 1 {
        let without_pieces = |mut cells: Vec<String>| {
            cells[1..3].fill(String::new());
            cells
        };
        rows.push(without_pieces(row("deliveries and the rest".to_owned(), &beside)));
        rows.push(without_pieces(row("total".to_owned(), &all)));
    }
    let headings = ["design", "pieces\nthen", "pieces\nnow", "total\nchange"].into_iter().chain(COLUMNS.map(|(heading, _)| heading));
    Some(Table { headings: headings.collect(), rows, totals })
}

pub(super) fn design_name(design: &GroupVariance) -> String {
    match &design.group {
        Group::Design(name) => printable(name),
        _ => String::new(),
    }
}

/// The ingredients behind prices and use, where they moved as much as one of the main unit.
fn ingredients(bridge: &Bridge, currency: &Currency) -> Option<String> {
    let told = |part: Part, of: fn(&ItemVariance) -> Money| {
        let whole = bridge.part(part).surplus;
        let mut items: Vec<(&String, Money)> = bridge.items.iter().map(|(item, effect)| (item, of(effect))).collect();
        items.sort_by_key(|(_, change)| -change.0.abs());
        items.retain(|(_, change)| change.0.abs() * 10 >= MILLION);
        items.truncate(3);
        let items: Vec<String> =
            items.into_iter().map(|(item, change)| format!("{} {}", printable(item), signed(currency, change))).collect();
        (whole.0.abs() >= MILLION && !items.is_empty()).then(|| format!("{}: {}.", capitalised(part.in_words()), items.join(", ")))
    };
    let told: Vec<String> =
        [told(Part::IngredientPrices, |item| item.price), told(Part::IngredientUse, |item| item.used)].into_iter().flatten().collect();
    (!told.is_empty()).then(|| told.join(" "))
}

/// Which ingredients moved, how to read the parts, and what they leave out.
#[must_use]
pub fn notes(bridge: &Bridge, currency: &Currency) -> Vec<String> {
    ingredients(bridge, currency).into_iter().chain(bridge_notes::notes(bridge, currency)).collect()
}
