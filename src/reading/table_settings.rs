//! How a shop writes one of its tables, where `shop.toml` says so.

use super::folding;
use super::specification::ColumnSpecification;
use std::collections::BTreeMap;

/// How a shop writes its tables, where it says so.
#[derive(Debug, Clone, Default)]
pub struct Reading {
    /// The table's name in `shop.toml`; blank where that is the name it has by its specification.
    pub table: String,
    /// The shop's own headings of this table, each with the column it stands for.
    pub columns: BTreeMap<String, String>,
    /// The formats of this table's columns, by column or heading, each the name of a [`Style`](super::format::Style).
    pub formats: BTreeMap<String, String>,
    /// The formats of one of the table's files alone, which come first; `None` where the table is one file.
    pub of_file: Option<FileFormats>,
    /// The shop's own words, each with the word of ours it stands for.
    pub words: BTreeMap<String, String>,
    /// Ways of paying in the shop's own words, each with its card charges.
    pub payments: BTreeMap<String, i64>,
    /// ISO 4217 code of its currency; blank where it is not known, and any currency's sign is passed over.
    pub currency: String,
}

/// The section of `shop.toml` with the formats of one file: `[formats."orders-2025.csv"]`.
#[derive(Debug, Clone, Default)]
pub struct FileFormats {
    /// Its name below `formats`, in quotes.
    pub section: String,
    /// Its formats, by column or heading.
    pub formats: BTreeMap<String, String>,
}

/// A format that `shop.toml` fixes.
#[derive(Debug, Clone, Copy)]
pub struct Fixed<'a> {
    /// The name of its section, below `formats`.
    pub section: &'a str,
    /// Its key there: a column, or a heading.
    pub key: &'a str,
    /// The name of a [`Style`](super::format::Style).
    pub format: &'a str,
}

impl Reading {
    /// The format that `shop.toml` fixes for the cells under a heading: what it says of their file comes before what it says of all, and
    /// what it says of the heading before what it says of the column.
    #[must_use]
    pub fn fixed(&self, column: &ColumnSpecification, heading: &str) -> Option<Fixed<'_>> {
        let of_file = self.of_file.iter().map(|of| (of.section.as_str(), &of.formats));
        let names = [Some(heading), Some(column.name), column.also].into_iter().flatten().filter(|name| !name.is_empty());
        of_file.chain([(self.table.as_str(), &self.formats)]).find_map(|(section, formats)| {
            let named = |name: &str| formats.iter().find(|(key, _)| folding::word(key) == folding::word(name));
            names.clone().find_map(named).map(|(key, format)| Fixed { section, key, format })
        })
    }
}
