//! Kinds of problems that the tables, the settings and the folder of a shop can have.

use crate::reading::{ProblemKind, Severity};

// The folder and its files.

/// A folder that does not exist or cannot be opened.
pub(crate) static NO_FOLDER: ProblemKind = ProblemKind::single(Severity::Error, "no-folder");
/// A file every shop needs is missing.
pub(crate) static MISSING_FILE: ProblemKind =
    ProblemKind::error("missing-file", "files are missing from the folder", "Create each of them; check --all says how.");
/// A file that cannot be read.
pub(crate) static UNREADABLE_FILE: ProblemKind =
    ProblemKind::error("unreadable-file", "files cannot be read", "Put the files themselves into the folder.");
/// A file that is there twice, in capitals and small letters.
pub(crate) static FILE_TWICE: ProblemKind =
    ProblemKind::error("file-twice", "files are in the folder twice, in capitals and small letters", "Keep one of each.");
/// A CSV file that is not one of the tables.
pub(crate) static UNKNOWN_FILE: ProblemKind = ProblemKind::warning(
    "unknown-file",
    "CSV files are not tables of a shop and were not read",
    "Rename those that should be; leave the rest.",
);
/// A heading that surely seems to be a missing column, which the settings do not say.
pub(crate) static UNMAPPED_HEADING: ProblemKind = ProblemKind::error(
    "unmapped-heading",
    "columns have headings of your own, which shop.toml does not know yet",
    "check --write puts them there; the rest was checked as if they were.",
);
/// A heading that several columns could be, or one of several for a column.
pub(crate) static HEADING_UNCLEAR: ProblemKind = ProblemKind::warning(
    "heading-unclear",
    "headings are not used, because it is not clear which column they are",
    "Write those you mean under [columns] in shop.toml; check --all shows the lines.",
);
/// A sheet that looks like a table, but is not named as one.
pub(crate) static SHEET_UNREAD: ProblemKind = ProblemKind::warning(
    "sheet-unread",
    "sheets look like tables, but are not named as one and were not read",
    "Name each after its table, or map it under [sheets] in shop.toml; check --write does that.",
);
/// A sheet that could be one of several tables, or more of one.
pub(crate) static SHEET_UNCLEAR: ProblemKind = ProblemKind::warning(
    "sheet-unclear",
    "sheets were not read, because it is not clear what they are",
    "Write what each is under [sheets] in shop.toml; check --all shows the lines.",
);
/// Two workbooks with rows of one table.
pub(crate) static TWO_WORKBOOKS: ProblemKind = ProblemKind::single(Severity::Error, "two-workbooks");
/// An order whose rows differ between two files, of which the later counts.
pub(crate) static ORDER_CHANGED: ProblemKind = ProblemKind::assumption(
    "order-changed",
    "orders have other rows in another file",
    "Of each, the rows in the file whose orders run latest count.",
);
/// An order whose rows differ between two files that end the same day.
pub(crate) static ORDER_IN_TWO_FILES: ProblemKind = ProblemKind::error(
    "order-in-two-files",
    "orders have different rows in two files that end the same day",
    "Take each out of the file that is out of date.",
);

/// Rows in a row that repeat earlier ones of the same file.
pub(crate) static BLOCK_TWICE: ProblemKind = ProblemKind::error(
    "rows-twice",
    "stretches of rows repeat earlier rows of the same file",
    "Delete one of each, or name those you meant under [repeats] in shop.toml; check --all shows the rows and the names.",
);
/// An order whose rows all stand twice in one file.
pub(crate) static ORDER_TWICE: ProblemKind = ProblemKind::error(
    "order-twice",
    "orders are written twice in one file",
    "Delete one of each, or name those you meant under [repeats] in shop.toml; check --all shows the rows and the names.",
);
/// One row that stands twice in one file.
pub(crate) static ROW_TWICE: ProblemKind = ProblemKind::warning(
    "row-twice",
    "rows are the same as an earlier row of the same file",
    "Delete those that were written twice by mistake; check --all names the earlier rows.",
);

// shop.toml.

/// Rows that are meant to stand twice and do not.
pub(crate) static UNUSED_KEEP: ProblemKind =
    ProblemKind::warning("unused-keep", "names under [repeats] are of no rows that stand twice", "Remove them.");
/// A setting that a sheet and `shop.toml` both have.
pub(crate) static SETTING_IN_BOTH: ProblemKind = ProblemKind::assumption(
    "setting-in-both",
    "settings stand in a sheet and in shop.toml",
    "Those in shop.toml count; remove one of each.",
);
/// A sheet of `[sheets]` that no workbook has.
pub(crate) static NO_SUCH_SHEET: ProblemKind =
    ProblemKind::error("no-such-sheet", "sheets under [sheets] are in no workbook", "Write each as its tab does, or remove its line.");
/// A heading of `[columns]` that no file has.
pub(crate) static NO_SUCH_HEADING: ProblemKind =
    ProblemKind::error("no-such-heading", "headings under [columns] are in no file", "Write each as its file does, or remove its line.");

/// Settings that are not TOML.
pub(crate) static NOT_TOML: ProblemKind = ProblemKind::single(Severity::Error, "not-toml");
/// No currency.
pub(crate) static NO_CURRENCY: ProblemKind = ProblemKind::single(Severity::Error, "no-currency");
/// A key that is not a setting.
pub(crate) static UNKNOWN_SETTING: ProblemKind =
    ProblemKind::error("unknown-setting", "keys are not settings", "Correct or remove them; check --all lists the settings.");
/// A key with a value where a section or a list belongs, or the other way round.
pub(crate) static SETTING_SHAPE: ProblemKind =
    ProblemKind::error("setting-shape", "settings have the wrong shape", "Write each as check --all shows it.");
/// A value that cannot be read.
pub(crate) static SETTING_VALUE: ProblemKind =
    ProblemKind::error("setting-value", "settings have a value that cannot be used", "Write each as check --all shows it.");
/// A floor above the target.
pub(crate) static FLOOR_ABOVE_TARGET: ProblemKind = ProblemKind::single(Severity::Warning, "floor-above-target");
/// Fees of a channel no order names.
pub(crate) static UNUSED_FEES: ProblemKind = ProblemKind::warning(
    "unused-fees",
    "channels have fees in shop.toml but no orders",
    "Spell each as the channel column of orders.csv does.",
);

/// A word of the shop's own that no cell says.
pub(crate) static UNUSED_WORD: ProblemKind =
    ProblemKind::warning("unused-word", "words under [words] are read nowhere", "Spell each as the cell does, or remove its line.");

// Designs, items and tiers.

/// A design on the card twice.
pub(crate) static DESIGN_TWICE: ProblemKind =
    ProblemKind::error("design-twice", "designs are in designs.csv twice", "Keep one row of each.");
/// A name listed for two designs.
pub(crate) static NAME_TAKEN: ProblemKind =
    ProblemKind::error("name-taken", "names belong to two designs", "Leave each name with one design.");
/// Designs whose names differ only in case, spacing, punctuation or a plural.
pub(crate) static SIMILAR_DESIGNS: ProblemKind = ProblemKind::warning(
    "similar-designs",
    "designs seem to have several names",
    "Where they are one, keep one name and list the others under also_called in designs.csv.",
);
/// A misspelt tier.
pub(crate) static UNKNOWN_TIER: ProblemKind =
    ProblemKind::error("unknown-tier", "designs have a tier that is not in tiers.csv", "Spell each as tiers.csv does.");
/// A tier without a price.
pub(crate) static TIER_WITHOUT_PRICE: ProblemKind =
    ProblemKind::warning("tier-without-price", "designs have a tier without a price in tiers.csv", "Add their list prices there.");
/// Earlier tiers that cannot be read.
pub(crate) static EARLIER_TIERS: ProblemKind = ProblemKind::error(
    "earlier-tiers",
    "cells of earlier_tiers cannot be read",
    "Write each tier with its last day, separated by semicolons: shape until 2026-05-31.",
);
/// A design no order has.
pub(crate) static NEVER_SOLD: ProblemKind =
    ProblemKind::warning("never-sold", "designs were never sold", "Take those you no longer make out of designs.csv.");
/// An item on the card twice.
pub(crate) static ITEM_TWICE: ProblemKind = ProblemKind::error("item-twice", "items are in items.csv twice", "Keep one row of each.");
/// An unknown unit.
pub(crate) static UNKNOWN_UNIT: ProblemKind =
    ProblemKind::error("unknown-unit", "rows have a unit that is not known", "Write g, kg, oz, lb, mL, tsp, tbsp, cup, each or m.");
/// Two prices from one day.
pub(crate) static PRICE_TWICE: ProblemKind =
    ProblemKind::error("price-twice", "prices start on a day that has one already", "Keep one price for each day.");

// Orders.

/// A design that is not on the card.
pub(crate) static UNKNOWN_DESIGN: ProblemKind = ProblemKind::error(
    "unknown-design",
    "rows name a design that is not in designs.csv",
    "Spell each as it stands there, or add it; check --names suggests the nearest.",
);
/// Hours for a design no order has, in a shop without a designs card.
pub(crate) static UNSOLD_DESIGN: ProblemKind =
    ProblemKind::error("design-of-no-order", "rows name a design that no order has", "Spell each as orders.csv does, or leave it blank.");
/// A cookie row without a design.
pub(crate) static NO_DESIGN: ProblemKind = ProblemKind::error("no-design", "cookie rows have no design", "Write the design of each.");
/// A cookie row without a quantity.
pub(crate) static NO_QUANTITY: ProblemKind =
    ProblemKind::error("no-quantity", "cookie rows have no quantity", "Write how many pieces each has.");
/// A cookie row without a price.
pub(crate) static NO_PRICE: ProblemKind = ProblemKind::error(
    "no-price",
    "cookie rows have no price, and no list price holds that day",
    "Write each price (0 if it was free), or add the tier's list price to tiers.csv.",
);
/// Fewer baked than sold.
pub(crate) static FEWER_MADE: ProblemKind =
    ProblemKind::warning("fewer-made", "rows have fewer cookies baked than sold", "Check both numbers.");
/// A price below the list price.
pub(crate) static UNDER_LIST: ProblemKind =
    ProblemKind::warning("under-list-price", "prices are under the list price", "If you meant them, leave them.");
/// Price times quantity beyond what can be held.
pub(crate) static LINE_TOO_LARGE: ProblemKind =
    ProblemKind::error("line-too-large", "rows come to more money than can be worked with", "Check price and quantity for typing slips.");
/// A payment in the design column.
pub(crate) static UNCLEAR_CHARGE: ProblemKind = ProblemKind::error(
    "unclear-charge",
    "rows may be payments or charges",
    "Remove those that pay for cookies already listed; write deposit kept under kind for those you kept.",
);
/// A design that looks like a charge, but has not the name of one.
pub(crate) static LIKE_A_CHARGE: ProblemKind = ProblemKind::error(
    "like-a-charge",
    "rows look like charges, but name none as it is known",
    "Say under [words] in shop.toml what each is; check shows the lines to paste.",
);
/// A charge below 0.
pub(crate) static CHARGE_SIGN: ProblemKind =
    ProblemKind::error("charge-sign", "charges are less than 0", "Write each without a minus, or discount or refund as its kind.");
/// A quantity on a charge.
pub(crate) static CHARGE_QUANTITY: ProblemKind =
    ProblemKind::error("charge-quantity", "charges have a quantity", "Leave the quantity blank and write the whole amount as the price.");
/// A charge without its amount.
pub(crate) static CHARGE_AMOUNT: ProblemKind =
    ProblemKind::error("charge-amount", "charges have no amount", "Write the whole amount as the price, without a minus.");
/// A charge by the dozen.
pub(crate) static CHARGE_BY_DOZEN: ProblemKind =
    ProblemKind::error("charge-by-dozen", "charges have a price by the dozen", "Write the whole amount as the price.");
/// Rows of an order that contradict each other.
pub(crate) static ROWS_DISAGREE: ProblemKind = ProblemKind::error(
    "rows-disagree",
    "rows contradict an earlier row of the same order",
    "Write the same on all rows of an order, or on its first row alone.",
);
/// Rows of an order with different dates.
pub(crate) static DATES_DISAGREE: ProblemKind = ProblemKind::error(
    "dates-disagree",
    "rows have another date than an earlier row of the same order",
    "Write the same date on all rows of an order. If it was handed over twice, give each hand-over its own order, as A1a and A1b, and \
     write A1a+A1b in hours.",
);
/// An order without a date.
pub(crate) static NO_DATE: ProblemKind =
    ProblemKind::error("no-date", "orders have no date", "Write the day each was handed over on one of its rows.");
/// A row of a set that gets nothing of its price.
pub(crate) static NO_SHARE_OF_SET: ProblemKind = ProblemKind::warning(
    "no-share-of-set",
    "rows of a set have no price and get none of the set's",
    "Write what the pieces would cost alone, or 0 if they were free.",
);
/// A deposit kept of a finished order.
pub(crate) static DEPOSIT_OF_DONE: ProblemKind = ProblemKind::error(
    "deposit-of-done-order",
    "deposits were kept from orders that were handed over",
    "Write cancelled as each order's status, or remove the row.",
);
/// A finished order without cookies or delivery.
pub(crate) static NOTHING_SOLD: ProblemKind = ProblemKind::error(
    "nothing-sold",
    "orders have neither cookies nor a delivery",
    "Add their cookies, or write quoted or cancelled as their status.",
);
/// A day more than a year past nearly all others.
pub(crate) static FAR_DAY: ProblemKind =
    ProblemKind::warning("far-day", "dates are more than a year past nearly all others", "Check the year of each.");

/// How many orders bear card fees.
pub(crate) static CARD_FEES: ProblemKind = ProblemKind::single(Severity::Assumed, "card-fees");

// Hours.

/// An unknown stage.
pub(crate) static UNKNOWN_STAGE: ProblemKind = ProblemKind::error(
    "unknown-stage",
    "rows name a stage that is not known",
    "Say under [words] in shop.toml which stage each is (check shows the lines to paste); a stage of your own goes under [stages].",
);
/// An unknown helper.
pub(crate) static UNKNOWN_HELPER: ProblemKind = ProblemKind::error(
    "unknown-helper",
    "rows name a helper that is not known",
    "Add their hourly rates under [helpers] in shop.toml, or leave who blank for yourself.",
);
/// Hours for an order that orders.csv does not have.
pub(crate) static UNKNOWN_ORDER: ProblemKind = ProblemKind::error(
    "unknown-order",
    "rows name an order that is not in orders.csv",
    "Spell each as orders.csv does, add the orders that are missing there, or leave the cell blank.",
);
/// Hours for an order after all those that orders.csv has.
pub(crate) static LATER_ORDER: ProblemKind = ProblemKind::warning(
    "later-order",
    "entries are for orders after the last of orders.csv: their minutes wait for them",
    "Add the orders when they are handed over; until then these minutes are in no answer.",
);
/// Hours for a design the order does not have.
pub(crate) static NOT_IN_ORDER: ProblemKind =
    ProblemKind::error("design-not-in-order", "designs are not in the order their row names", "Correct the design or the order.");
/// Hours for a design that the order has under a name that looks the same.
pub(crate) static OTHER_NAME_IN_ORDER: ProblemKind = ProblemKind::error(
    "other-name-in-order",
    "designs stand in their order under another name that looks the same",
    "Where they are one design, list one name under also_called of the other in designs.csv; where it lists no designs yet, check \
     --names shows the rows.",
);
/// A design on a row that names several orders.
pub(crate) static DESIGN_OF_SEVERAL: ProblemKind = ProblemKind::error(
    "design-of-several-orders",
    "rows name a design and several orders",
    "Split each row by order, or leave the design blank.",
);
/// More minutes than lie between start and end.
pub(crate) static PAST_THE_CLOCK: ProblemKind =
    ProblemKind::error("minutes-past-the-clock", "rows have more minutes than lie between start and end", "Correct minutes, start or end.");
/// An end beside the start and another in its own column.
pub(crate) static TWO_ENDS: ProblemKind = ProblemKind::error("two-ends", "rows have two ends that differ", "Write each end once.");
/// No minutes.
pub(crate) static NO_MINUTES: ProblemKind =
    ProblemKind::error("no-minutes", "rows have no minutes", "Write the minutes, or both start and end.");
/// A start equal to its end.
pub(crate) static NO_TIME: ProblemKind =
    ProblemKind::warning("no-time", "rows end when they start", "Correct start or end, or write the minutes.");
/// A timer left on.
pub(crate) static LONG_TIMER: ProblemKind =
    ProblemKind::warning("long-timer", "timers ran for more than 12 hours", "If one was left on, write the minutes you worked.");
/// Two entries of one person at the same time.
pub(crate) static OVERLAP: ProblemKind = ProblemKind::warning(
    "overlapping-hours",
    "entries overlap another of the same person by the clock",
    "Correct the times, or write who did the work; check --all names the other row of each.",
);

// The other tables.

/// A count of one item twice on a day.
pub(crate) static COUNTED_TWICE: ProblemKind =
    ProblemKind::error("counted-twice", "items were counted twice on one day", "Write one row with the whole amount.");
/// An overhead that ends before it begins.
pub(crate) static ENDS_EARLY: ProblemKind =
    ProblemKind::error("ends-before-start", "overheads end before they start", "Swap from and to, or correct the year.");
/// Goods bought for less than nothing, or returned for money.
pub(crate) static MIXED_SIGNS: ProblemKind = ProblemKind::error(
    "mixed-signs",
    "purchases have packs and paid with different signs",
    "Make both negative for goods returned, both positive for goods bought.",
);
/// A recipe's item that was never bought and is on no card, but whose name is close to a known one.
pub(crate) static UNKNOWN_ITEM: ProblemKind = ProblemKind::error(
    "unknown-item",
    "recipe rows name an item that is not known",
    "Spell each as purchases.csv, items.csv or the recipe does; check --all suggests the nearest.",
);
/// A yield or an extra where none belongs.
pub(crate) static YIELD_OF_DESIGN: ProblemKind = ProblemKind::error(
    "yield-of-design",
    "rows have a yield or an extra but are not part of a recipe",
    "Leave both blank for designs, every order and every delivery.",
);
/// A unit of yield without a yield.
pub(crate) static YIELD_UNIT_ALONE: ProblemKind =
    ProblemKind::error("yield-unit-alone", "rows have a yield_unit but no yield", "Write yields and yield_unit on the same row.");
/// Rows of a recipe that contradict each other.
pub(crate) static RECIPE_DISAGREES: ProblemKind = ProblemKind::error(
    "recipe-disagrees",
    "rows contradict an earlier row of the same recipe",
    "Write yields and extra on one row of a recipe alone.",
);

// A price list to try.

/// A row for a tier and a design at once.
pub(crate) static TIER_AND_DESIGN: ProblemKind =
    ProblemKind::error("tier-and-design", "rows name both a tier and a design", "Leave one of the two blank.");
/// A price without a tier or design.
pub(crate) static PRICE_OF_NOTHING: ProblemKind =
    ProblemKind::error("price-of-nothing", "prices have no tier and no design", "Write a tier, or a design under design.");
/// A name that is neither a tier nor a design.
pub(crate) static UNKNOWN_IN_LIST: ProblemKind = ProblemKind::error(
    "unknown-in-list",
    "rows name neither a tier nor a design of the shop",
    "Spell each as designs.csv and tiers.csv do.",
);
/// A list without a price.
pub(crate) static EMPTY_LIST: ProblemKind = ProblemKind::single(Severity::Error, "empty-list");
/// A table that cannot be changed.
pub(crate) static CANNOT_CHANGE: ProblemKind = ProblemKind::single(Severity::Error, "cannot-change");
