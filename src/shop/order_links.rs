//! The orders an hours entry names: an id, several joined by `+`, `&`, `/`, a comma or `and`, or a hand-over date.

use super::orders::{Orders, Status};
use crate::ids::{Id, IdVec, Names, Order, Text};
use crate::quantity::Day;
use crate::reading::folding;
use crate::reading::format::Evidence;
use crate::reading::format::date::{self, DateStyle, Written};
use crate::reading::nearest::nearest;
use crate::reading::{Advice, Table};
use std::borrow::Cow;
use std::collections::{BTreeMap, HashMap};

/// Turns order cells into numbered sets of orders; equal sets get one number.
pub(super) struct Linker<'a> {
    orders: &'a Orders,
    /// How hand-over dates are written; several styles where nothing tells which.
    dates: Vec<DateStyle>,
    /// By id, folded.
    by_folded: HashMap<String, Id<Order>>,
    /// By id without `#` or `order` before it; `None` where two are alike.
    by_bare: HashMap<String, Option<Id<Order>>>,
    handed_over: BTreeMap<Day, Vec<Id<Order>>>,
    /// The largest number of the orders that are numbered alike, by the letters before it.
    last_number: HashMap<String, u64>,
    /// Whether some order has no date that can be read, which is a problem already.
    is_one_undated: bool,
    numbers: HashMap<Vec<Id<Order>>, usize>,
    links: Vec<Vec<Id<Order>>>,
}

/// The set of orders that a cell names.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Linked {
    /// The number of the set.
    pub number: usize,
    /// The orders as ids joined by `+`, where the cell has them otherwise.
    pub read_as: Option<String>,
}

/// Why a cell names no order.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum NoLink {
    /// A part of it is none: what is wrong, in words that follow the cell, and what to write instead.
    Unknown(&'static str, Advice),
    /// Its number comes after those of all orders that are numbered alike: it is of a later export.
    Later,
    /// A part of it is a date, and some order has none that can be read, which is a problem already.
    Undated,
    /// A part of it is a date, and nothing tells which of several.
    OneOfSeveral(String, Vec<(DateStyle, Day)>),
}

impl<'a> Linker<'a> {
    /// Looks orders up by id and by hand-over date. Dates are written as `shop.toml` fixes for the column, else as those of the orders,
    /// else as the cells themselves show: in the one style that reads them, or that makes each of them a hand-over date.
    pub fn new(orders: &'a Orders, cells: &Names<Text>, fixed: Option<DateStyle>) -> Self {
        let mut handed_over: BTreeMap<Day, Vec<Id<Order>>> = BTreeMap::new();
        for (order, head) in orders.heads.pairs() {
            let Some(day) = head.day else { continue };
            let that_day = handed_over.entry(day).or_default();
            if head.status == Status::Done {
                that_day.push(order);
            }
        }
        let by_folded = orders.ids.pairs().map(|(order, id)| (folding::name(id), order)).collect();
        let mut by_bare: HashMap<String, Option<Id<Order>>> = HashMap::new();
        for (order, id) in orders.ids.pairs() {
            by_bare.entry(folding::name(bare(id))).and_modify(|known| *known = None).or_insert(Some(order));
        }
        let mut last_number: HashMap<String, u64> = HashMap::new();
        for (letters, number) in orders.ids.iter().filter_map(numbered) {
            let last = last_number.entry(letters).or_insert(number);
            *last = number.max(*last);
        }
        let is_one_undated = orders.heads.iter().any(|head| head.day.is_none());
        let (numbers, links) = (HashMap::new(), Vec::new());
        let mut linker = Self { orders, dates: Vec::new(), by_folded, by_bare, handed_over, last_number, is_one_undated, numbers, links };
        linker.dates = match fixed.or(orders.dates) {
            Some(style) => vec![style],
            None => linker.styles(cells),
        };
        linker
    }

    /// The styles that the dates among cells may be written in.
    fn styles(&self, cells: &Names<Text>) -> Vec<DateStyle> {
        let unnamed = cells.iter().filter(|cell| self.order(cell).is_none());
        let parts = unnamed.flat_map(|cell| cell.split(['+', '&', ',']).map(str::trim));
        let parts: Vec<&str> = parts.filter(|part| self.order(part).is_none()).collect();
        match date::evidence(&parts.iter().copied()) {
            Evidence::None => vec![DateStyle::YearMonthDay],
            Evidence::Found { style, .. } => vec![style],
            Evidence::Open { styles, .. } => {
                let is_date = |part: &&&str| styles.iter().any(|style| date::read(part, *style).is_some());
                let are_handed_over = |style: &DateStyle| {
                    let is_one = |part: &&str| date::read(part, *style).is_some_and(|day| self.handed_over.contains_key(&day));
                    parts.iter().filter(is_date).all(is_one)
                };
                let fitting: Vec<DateStyle> = styles.iter().copied().filter(are_handed_over).collect();
                if fitting.len() == 1 { fitting } else { styles }
            }
        }
    }

    /// The order of an id, whatever its letter case and blanks.
    fn order(&self, id: &str) -> Option<Id<Order>> {
        self.orders.ids.find(id).or_else(|| self.by_folded.get(&folding::name(id)).copied())
    }

    /// The order of an id that has `#` or `order` before it in the cell or in the orders alone.
    fn bare_order(&self, text: &str) -> Option<Id<Order>> {
        self.by_bare.get(&folding::name(bare(text))).copied().flatten()
    }

    /// Returns the set that a cell names: an id as written; else ids and hand-over dates that are joined.
    ///
    /// # Errors
    /// Where a part of it names no order, or may be two orders or a date.
    pub fn link(&mut self, text: &str) -> Result<Linked, NoLink> {
        let mut set = Vec::new();
        let mut is_plain = true;
        if let Some(order) = self.order(text) {
            set.push(order);
        } else if self.is_later(text) {
            return Err(NoLink::Later);
        } else {
            let joined = joined(text);
            is_plain = matches!(joined, Cow::Borrowed(_));
            for part in joined.split(['+', '&', ',']).map(str::trim) {
                is_plain &= self.add(part, &mut set)?;
            }
        }
        set.sort_unstable();
        set.dedup();
        let read_as = (!is_plain).then(|| set.iter().map(|order| self.orders.ids.text(*order)).collect::<Vec<_>>().join("+"));
        let next = self.links.len();
        let number = *self.numbers.entry(set.clone()).or_insert(next);
        if number == next {
            self.links.push(set);
        }
        Ok(Linked { number, read_as })
    }

    /// Whether an id is numbered as the orders are, and after all of them.
    fn is_later(&self, text: &str) -> bool {
        let is_date = self.dates.iter().any(|style| date::written(text, *style).is_some());
        !is_date && numbered(text).is_some_and(|(letters, number)| self.last_number.get(&letters).is_some_and(|last| number > *last))
    }

    /// Adds the orders that a part of a cell names; whether it has them as the orders do.
    fn add(&self, part: &str, set: &mut Vec<Id<Order>>) -> Result<bool, NoLink> {
        if let Some(order) = self.order(part) {
            set.push(order);
            return Ok(true);
        }
        let two: Option<Vec<Id<Order>>> = part.split('/').map(str::trim).map(|id| self.order(id).or_else(|| self.bare_order(id))).collect();
        let two = two.filter(|orders| orders.len() == 2);
        let written: Vec<(DateStyle, Option<Written>)> = self.dates.iter().map(|style| (*style, date::written(part, *style))).collect();
        if two.is_some() && written.iter().any(|(_, written)| written.is_some()) {
            let advice = "write the two orders with + between them, or the date with its year, as 2026-09-03";
            return Err(NoLink::Unknown("may be two orders or a date", advice.into()));
        }
        if let Some(two) = two {
            set.extend(two);
            return Ok(false);
        }
        let day =
            |(style, written): (DateStyle, Option<Written>)| if let Some(Written::Day(day)) = written { Some((style, day)) } else { None };
        let (styles, days) = (written.len(), written.into_iter().filter_map(day).collect::<Vec<(DateStyle, Day)>>());
        if let Some((_, day)) = days.first() {
            if days.len() < styles || days.iter().any(|(_, other)| other != day) {
                return Err(NoLink::OneOfSeveral(part.to_owned(), days));
            }
            let unknown = || {
                let advice = format!("no order was handed over on {day}: write its name, or leave the cell blank");
                if self.is_one_undated { NoLink::Undated } else { NoLink::Unknown(NOT_AN_ORDER, advice.into()) }
            };
            set.extend(self.handed_over.get(day).ok_or_else(unknown)?);
            return Ok(true);
        }
        set.push(self.bare_order(part).ok_or_else(|| NoLink::Unknown(NOT_AN_ORDER, self.advice(part)))?);
        Ok(false)
    }

    /// What to write for an id that is none. A number is never a slip of another number, so only letters are corrected.
    fn advice(&self, part: &str) -> Advice {
        let digits = |id: &str| id.chars().filter(char::is_ascii_digit).collect::<String>();
        let (wanted, has_letters) = (digits(part), part.contains(char::is_alphabetic));
        let near = || nearest(part, self.orders.ids.iter().filter(|id| digits(id) == wanted));
        match has_letters.then(near).flatten() {
            Some(near) => Advice::DidYouMean(near.to_owned()),
            None => "spell it as orders.csv does, add it there if it is missing, or leave the cell blank".into(),
        }
    }
}

/// Notes in an hours log the cells whose orders are joined or introduced otherwise than ids are.
pub(super) fn note_orders(
    table: &mut Table,
    texts: &[Option<Id<Text>>],
    names: &Names<Text>,
    linked: &IdVec<Text, Result<Linked, NoLink>>,
) {
    let mut cells = IdVec::<Text, usize>::filled(0, names.len());
    texts.iter().flatten().for_each(|text| cells[*text] += 1);
    for (text, name) in names.pairs() {
        if let Ok(Linked { read_as: Some(read_as), .. }) = &linked[text] {
            table.note_word("order", name, read_as, cells[text]);
        }
    }
}

const NOT_AN_ORDER: &str = "is not an order of orders.csv";

/// A cell with `+` for each `and`.
fn joined(text: &str) -> Cow<'_, str> {
    let is_and = |word: &str| word.eq_ignore_ascii_case("and");
    if text.split_whitespace().any(is_and) {
        let words: Vec<&str> = text.split_whitespace().map(|word| if is_and(word) { "+" } else { word }).collect();
        return Cow::Owned(words.join(" "));
    }
    Cow::Borrowed(text)
}

/// The letters of an id, folded, and the number at its end; `None` where it has no number, or signs between that join ids.
fn numbered(id: &str) -> Option<(String, u64)> {
    let id = bare(id);
    let letters = id.trim_end_matches(|c: char| c.is_ascii_digit());
    let is_one = !letters.contains(['+', '&', ',', '/']) && !letters.contains(|c: char| c.is_ascii_digit());
    let number = id[letters.len()..].parse().ok()?;
    is_one.then(|| (folding::name(letters), number))
}

/// An id without `#`, `no.` and `order` before it.
fn bare(id: &str) -> &str {
    let mut rest = id.trim();
    loop {
        let sign = rest.strip_prefix(['#', '№']);
        let word = || {
            let word = rest.split(|c: char| !c.is_ascii_alphabetic()).next()?;
            let is_word = ["order", "orders", "ord", "no", "nr"].iter().any(|known| known.eq_ignore_ascii_case(word));
            is_word.then(|| rest[word.len()..].trim_start_matches('.'))
        };
        match sign.or_else(word).map(str::trim_start) {
            Some(shorter) if !shorter.is_empty() => rest = shorter,
            _ => return rest,
        }
    }
}

impl Linker<'_> {
    /// Returns the sets in sorted order, and for each earlier number its place among them.
    pub fn sorted(mut self) -> (Vec<Vec<Id<Order>>>, Vec<usize>) {
        let mut order: Vec<usize> = (0..self.links.len()).collect();
        order.sort_unstable_by(|one, other| self.links[*one].cmp(&self.links[*other]));
        let mut number = vec![0; order.len()];
        for (place, link) in order.iter().enumerate() {
            number[*link] = place;
        }
        (order.into_iter().map(|link| std::mem::take(&mut self.links[link])).collect(), number)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::reading::Place;
    use crate::shop::order_heads::Head;

    /// What a cell is read as, or what is wrong with it and whether an id is proposed.
    fn read(ids: &[&str], dates: DateStyle, text: &str) -> Result<String, String> {
        let ids: Names<Order> = Names::sorted(ids.iter().copied());
        let head = Head { day: None, status: Status::Done, channel: None, colours: None, payments: None, place: Place::of_row(2, 2) };
        let heads = ids.iter().map(|_| head).collect::<IdVec<Order, Head>>();
        let orders = Orders { ids, heads, dates: Some(dates), ..Orders::default() };
        let mut linker = Linker::new(&orders, &Names::default(), None);
        match linker.link(text) {
            Ok(linked) => Ok(linked.read_as.unwrap_or_else(|| "as written".to_owned())),
            Err(NoLink::Unknown(_, Advice::DidYouMean(near))) => Err(format!("{near}?")),
            Err(NoLink::Unknown(what, Advice::Do(_))) => Err(what.to_owned()),
            Err(other) => panic!("{other:?}"),
        }
    }

    #[test]
    fn ids_are_joined_and_introduced_in_many_ways() {
        let ids = ["1", "226", "227", "A7", "#9", "salt & sea"];
        for (text, expected) in [
            ("226", "as written"),
            ("226+227", "as written"),
            ("226 & 227", "as written"),
            ("226, 227", "as written"),
            ("salt & sea", "as written"),
            ("226 and 227", "226+227"),
            ("226/227", "226+227"),
            ("227 / A7", "227+A7"),
            ("#1", "1"),
            ("Order 226", "226"),
            ("orders #226 and #227", "226+227"),
            ("No. 226", "226"),
            ("order no 226", "226"),
            ("9", "#9"),
        ] {
            assert_eq!(read(&ids, DateStyle::MonthDayYear, text), Ok(expected.to_owned()), "{text}");
        }
        assert_eq!(read(&["9", "#9"], DateStyle::MonthDayYear, "order 9"), Err(NOT_AN_ORDER.to_owned()), "either may be meant");
    }

    #[test]
    fn two_ids_that_make_a_date_ask() {
        let asks = Err("may be two orders or a date".to_owned());
        assert_eq!(read(&["3", "4"], DateStyle::MonthDayYear, "3/4"), asks);
        assert_eq!(read(&["3", "14"], DateStyle::MonthDayYear, "14/3"), Ok("14+3".to_owned()));
    }

    #[test]
    fn an_id_after_all_others_is_of_a_later_export() {
        let ids = Names::<Order>::sorted(["223", "249", "A1", "A9", "moon"]);
        let head = Head { day: None, status: Status::Done, channel: None, colours: None, payments: None, place: Place::of_row(2, 2) };
        let heads = ids.iter().map(|_| head).collect::<IdVec<Order, Head>>();
        let orders = Orders { ids, heads, dates: Some(DateStyle::YearMonthDay), ..Orders::default() };
        let mut linker = Linker::new(&orders, &Names::default(), None);
        for text in ["250", "#253", "A10", "Order A11"] {
            assert_eq!(linker.link(text), Err(NoLink::Later), "{text}");
        }
        // One between the others is missing, one of other letters is numbered otherwise, and a date is no number.
        for text in ["230", "B12", "stars", "2026-05-03", "A9+A10"] {
            assert_ne!(linker.link(text), Err(NoLink::Later), "{text}");
        }
    }

    #[test]
    fn a_number_is_no_slip_of_another() {
        for (text, expected) in [("203", NOT_AN_ORDER), ("AB12", "AB-12?"), ("marches", "march?")] {
            assert_eq!(read(&["223", "A1", "AB-12", "march"], DateStyle::YearMonthDay, text), Err(expected.to_owned()), "{text}");
        }
    }
}
