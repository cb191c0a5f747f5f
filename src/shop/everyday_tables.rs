//! Everyday words for the tables, as sheets and files are named.

use super::specification::TABLES;
use crate::reading::TableSpecification;

/// Tables with their everyday words, in small letters.
const NAMES: &[(&str, &[&str])] = &[
    ("orders", &["order", "sale", "sales", "sold", "invoice", "invoices", "pickups", "bookings"]),
    ("purchases", &["purchase", "ingredients", "supplies", "receipts", "shopping", "groceries", "bought"]),
    ("hours", &["hour", "time", "times", "timesheet", "timer", "time log", "work", "work log", "labour", "labor", "minutes"]),
    ("overheads", &["overhead", "expenses", "bills", "fixed costs", "running costs", "business costs"]),
    ("counts", &["count", "stock", "inventory", "stocktake", "pantry"]),
    ("designs", &["design", "cookies", "products", "catalogue", "catalog", "menu"]),
    ("recipes", &["recipe"]),
    ("items", &["item", "ingredients", "supplies"]),
    ("tiers", &["tier", "price", "prices", "price list", "pricing"]),
];

/// The tables that a name has a word of, its own included.
#[must_use]
pub(super) fn tables_called(name: &str) -> Vec<&'static TableSpecification> {
    let words: Vec<String> = name.split(|letter: char| !letter.is_alphabetic()).map(str::to_lowercase).collect();
    let text = format!(" {} ", words.join(" "));
    let is_in = |word: &&str| text.contains(&format!(" {word} "));
    let has_word = |table: &&TableSpecification| {
        let everyday = NAMES.iter().filter(|(of, _)| *of == table.name).flat_map(|(_, words)| *words);
        everyday.chain([&table.name]).any(is_in)
    };
    TABLES.iter().filter(has_word).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_heard_in_everyday_words() {
        let called = |name: &str| tables_called(name).iter().map(|table| table.name).collect::<Vec<_>>();
        assert_eq!(called("Cookie sales 2026"), ["orders"]);
        assert_eq!(called("my-Time_Log"), ["hours"]);
        assert_eq!(called("Ingredients"), ["purchases", "items"]);
        assert_eq!(called("Salesforce"), [""; 0]);
    }
}
