//! Kinds of problems: those of one kind are shown as one group, with one piece of advice.
//!
//! Each room names its own kinds beside the code that finds them: what can be wrong with a file's bytes and cells stands
//! here.

use serde::Serialize;

/// How much a problem matters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Severity {
    /// The figures cannot be trusted: the command stops.
    Error,
    /// The figures stand, but something looks odd.
    Warning,
    /// Something the logs do not say was assumed.
    Assumed,
}

/// What problems of one kind have in common.
#[derive(Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct ProblemKind {
    /// How much such a problem matters.
    pub severity: Severity,
    /// Its name for programs, in small letters with hyphens.
    pub key: &'static str,
    /// What several of them are, after their number: "dates cannot be read". Blank for a kind of which a shop has at most one.
    pub many: &'static str,
    /// What to do about all of them, as a sentence.
    pub advice: &'static str,
}

impl ProblemKind {
    /// A kind of error.
    #[must_use]
    pub const fn error(key: &'static str, many: &'static str, advice: &'static str) -> Self {
        Self { severity: Severity::Error, key, many, advice }
    }

    /// A kind of warning.
    #[must_use]
    pub const fn warning(key: &'static str, many: &'static str, advice: &'static str) -> Self {
        Self { severity: Severity::Warning, key, many, advice }
    }

    /// A kind of assumption.
    #[must_use]
    pub const fn assumption(key: &'static str, many: &'static str, advice: &'static str) -> Self {
        Self { severity: Severity::Assumed, key, many, advice }
    }

    /// A kind of which a shop has at most one problem, so that it needs no words for many.
    #[must_use]
    pub const fn single(severity: Severity, key: &'static str) -> Self {
        Self { severity, key, many: "", advice: "" }
    }
}

/// A file too large to read.
pub(crate) static FILE_TOO_LARGE: ProblemKind =
    ProblemKind::error("file-too-large", "files are larger than 4 GB", "Keep only the latest years in each.");
/// A quote that is never closed.
pub(crate) static UNCLOSED_QUOTE: ProblemKind = ProblemKind::error(
    "unclosed-quote",
    "files have a quote that is never closed",
    "Close each quote or remove it; check --all names the row where it opens.",
);
/// A cell with rows of its table inside.
pub(crate) static SWALLOWED_ROWS: ProblemKind = ProblemKind::error(
    "swallowed-rows",
    "cells hold rows of their table inside quotes",
    "Remove the stray quote that opens each cell, and the one that closes it; check --all names their lines.",
);
/// A cell of many lines.
pub static CELL_OF_MANY_LINES: ProblemKind = ProblemKind::warning(
    "cell-of-many-lines",
    "cells span more than four lines each",
    "If a stray quote joined rows there, remove it; check --all names the lines.",
);
/// Columns separated by a sign that is not read.
pub(crate) static NOT_COMMAS: ProblemKind = ProblemKind::error(
    "not-commas",
    "files have neither commas, semicolons nor tabs between their columns",
    "Save them as CSV with commas between columns.",
);
/// A file without a heading.
pub(crate) static EMPTY_FILE: ProblemKind =
    ProblemKind::error("empty-file", "files are empty", "Write the headings in the first row; check --all lists them.");
/// A row with more or fewer cells than the headings.
pub(crate) static RAGGED_ROW: ProblemKind = ProblemKind::error(
    "ragged-row",
    "rows have more or fewer cells than there are headings",
    "Put double quotes around a cell that holds the sign between columns, and write that sign for each blank cell.",
);
/// A workbook that cannot be read.
pub(crate) static UNREADABLE_WORKBOOK: ProblemKind =
    ProblemKind::error("unreadable-workbook", "workbooks cannot be read", "Save each as .xlsx from your spreadsheet, without a password.");
/// A workbook beyond the bounds.
pub(crate) static WORKBOOK_TOO_LARGE: ProblemKind =
    ProblemKind::error("workbook-too-large", "workbooks are too large", "Keep only the latest years and no pictures in each.");
/// A cell in which a formula failed.
pub(crate) static ERROR_CELL: ProblemKind =
    ProblemKind::error("error-cell", "cells hold a formula that failed", "Correct each formula, or type the value in its place.");
/// A formula whose value was not kept.
pub(crate) static UNWORKED_FORMULA: ProblemKind = ProblemKind::error(
    "formula-without-value",
    "formulas were saved without their values",
    "Open the workbook in your spreadsheet and save it, so that the values are kept.",
);
/// Bytes that are no text.
pub(crate) static NOT_TEXT: ProblemKind =
    ProblemKind::error("not-text", "files hold bytes that are no text", "Save each as CSV UTF-8 from your spreadsheet.");
/// Bytes that are not UTF-8.
pub(crate) static NOT_UTF8: ProblemKind =
    ProblemKind::error("not-utf8", "rows have letters that are not UTF-8", "Save the file as CSV UTF-8 from your spreadsheet.");
/// Two headings that mean one column.
pub(crate) static TWO_HEADINGS: ProblemKind =
    ProblemKind::error("two-headings", "columns have two headings", "Remove or rename one of each.");
/// A required column that is missing.
pub(crate) static MISSING_COLUMN: ProblemKind = ProblemKind::error(
    "missing-column",
    "columns are missing",
    "Add each, or map your own heading to it in shop.toml; check --all says how.",
);
/// A column whose cells can be read in several ways, with different values.
pub(crate) static AMBIGUOUS_FORMAT: ProblemKind = ProblemKind::error(
    "ambiguous-format",
    "columns can be read in two ways",
    "Say in shop.toml how each is written; check --all shows the lines to paste.",
);
/// A column that is wholly written otherwise than the settings say.
pub(crate) static CHANGED_FORMAT: ProblemKind = ProblemKind::error(
    "changed-format",
    "columns are written otherwise than shop.toml says",
    "Say in shop.toml how that file is written, or correct its cells; check --all shows the lines to paste.",
);
/// A format that its column does not have.
pub(crate) static UNKNOWN_FORMAT: ProblemKind =
    ProblemKind::error("unknown-format", "formats are not known in their column", "Write one that the column has; check --all lists them.");
/// A cell written in another style than the rest of its column.
pub(crate) static ODD_CELL: ProblemKind = ProblemKind::error(
    "odd-cell",
    "cells are written otherwise than the rest of their column",
    "Write each as the rest is written; check --all says how.",
);
/// A blank cell in a column that needs one.
pub(crate) static BLANK_CELL: ProblemKind = ProblemKind::error("blank-cell", "cells are blank that must be filled in", "Fill them in.");
/// Not a day.
pub(crate) static NOT_A_DATE: ProblemKind =
    ProblemKind::error("not-a-date", "dates cannot be read", "Write them as 2026-09-03; check --all says which day each looks like.");
/// A date without its year, which its neighbours do not give.
pub(crate) static NO_YEAR: ProblemKind = ProblemKind::error(
    "date-without-year",
    "dates have no year",
    "Write their years; where rows run in the order of their dates, the first and the last of each year are enough.",
);
/// Not a time of day.
pub(crate) static NOT_A_TIME: ProblemKind = ProblemKind::error("not-a-time", "times of day cannot be read", "Write them as 18:30.");
/// Not a number.
pub(crate) static NOT_A_NUMBER: ProblemKind =
    ProblemKind::error("not-a-number", "numbers cannot be read", "Write digits alone, with a point for decimals, as 1234.50.");
/// Not a whole number.
pub static NOT_WHOLE: ProblemKind = ProblemKind::error("not-a-whole-number", "numbers are not whole", "Write whole numbers, as 5.");
/// Not an amount of money.
pub(crate) static NOT_MONEY: ProblemKind =
    ProblemKind::error("not-money", "amounts of money cannot be read", "Write digits alone, with a point for decimals, as 1234.50.");
/// Money in a currency that is not the shop's.
pub(crate) static OTHER_CURRENCY: ProblemKind = ProblemKind::error(
    "other-currency",
    "amounts are in another currency than the shop's",
    "Write each in the shop's currency; check --all names the currency found.",
);
/// Two units of one size.
pub(crate) static TWO_UNITS: ProblemKind =
    ProblemKind::error("two-units", "sizes have one unit in their cell and another in the unit column", "Keep one of the two.");
/// Not a number of minutes.
pub(crate) static NOT_MINUTES: ProblemKind =
    ProblemKind::error("not-minutes", "numbers of minutes cannot be read", "Write minutes as 95, or 1 h 35 min.");
/// Not a price.
pub(crate) static NOT_A_PRICE: ProblemKind =
    ProblemKind::error("not-a-price", "prices cannot be read", "Write 4.50 for one piece, or 54/dozen.");
/// Not a number of pieces.
pub(crate) static NOT_PIECES: ProblemKind =
    ProblemKind::error("not-pieces", "numbers of pieces cannot be read", "Write pieces as 24, or dozens as 2 dozen.");
/// Not a percentage.
pub(crate) static NOT_A_PERCENTAGE: ProblemKind =
    ProblemKind::error("not-a-percentage", "percentages cannot be read", "Write them with their sign, as 10 %.");
/// A word the column does not know.
pub(crate) static UNKNOWN_WORD: ProblemKind = ProblemKind::error(
    "unknown-word",
    "words are not known in their column",
    "Write one of the words the column knows, or say under [words] in shop.toml which it is; check --all shows how.",
);
/// A way of paying that is not known.
pub(crate) static UNKNOWN_PAYMENT: ProblemKind = ProblemKind::error(
    "unknown-payment",
    "ways of paying are not known",
    "Say under [payments] in shop.toml how many card charges each makes; check shows the lines to paste.",
);
/// A number below what makes sense.
pub(crate) static TOO_SMALL: ProblemKind =
    ProblemKind::error("too-small", "numbers are 0 or less where that makes no sense", "Correct them; check --all says what each may be.");
/// A number too large to be meant.
pub(crate) static TOO_LARGE: ProblemKind = ProblemKind::error("too-large", "numbers are too large", "Check each for a typing slip.");
/// More decimals than are kept.
pub(crate) static TOO_MANY_DECIMALS: ProblemKind =
    ProblemKind::error("too-many-decimals", "numbers have more than six decimals", "Round them to six decimals or fewer.");
