//! What programs read otherwise than before the house was rebuilt, and why. All else must be the same to the last digit.

use Minutes::{Any, Learned};

/// By which minutes an answer splits the hours of whole orders.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Minutes {
    /// By those on the card, or equally; a change in these answers is in the others, too.
    Any,
    /// By those learned from the logs.
    Learned,
}

impl Minutes {
    /// Whether a change that is in answers by `self` is in those by `other`.
    pub fn holds_for(self, other: Self) -> bool {
        self == Self::Any || self == other
    }
}

/// Commands, the fields that changed (of JSON, or columns of CSV), by which minutes, and why.
///
/// A field is named by where it stands in an object, lists passed over: `rows.surplus`, or `surplus` wherever it stands. After `where`
/// stands which objects or rows it changed in: `row where file = counts.csv`.
pub type Change = (&'static [&'static str], &'static [&'static str], Minutes, &'static str);

/// The table.
pub const CHANGED: &[Change] = &[
    (&["wage", "review"], &["surplus", "full_cost_per_piece"], Any, "they rest on lines with known hours, as hourly pay does"),
    (&["wage", "review"], &["certainty"], Any, "it is new: how sure the verdict is"),
    (
        &["check", "wage"],
        &["problems.group", "problems.at_stake"],
        Any,
        "they are new: problems of one kind are one group, the dearest first",
    ),
    (&["check", "wage"], &["problems.what", "problems.instead"], Any, "every problem is said in plain words"),
    (
        &["check", "wage"],
        &["problems.found", "problems.column"],
        Any,
        "what a group counts by is a value of its own, no longer in the text",
    ),
    (
        &["check", "wage"],
        &["problems.row where file = counts.csv", "problems.line where file = counts.csv"],
        Any,
        "a usage gap names the row that found it",
    ),
    (
        &["wage", "review"],
        &["one_more_piece_wage where set_priced_share = 1.000000"],
        Any,
        "pieces priced by the set alone have no price of their own, so what one more brings is unknown: it was taken to be nothing",
    ),
    (
        &["check"],
        &["tables", "assumptions", "proposals"],
        Any,
        "they are new: what each table was understood to be, what is assumed, and what that suggests for shop.toml",
    ),
    (&["check"], &["warnings"], Any, "an item that was never bought is not also said to be short"),
    (
        &["tiers"],
        &["search_thinned", "smallest_order_at_old_prices"],
        Any,
        "they are new: whether every price was tried, and from which size an order pays at today's prices",
    ),
    (&["whatif"], &["smallest_order"], Any, "it is new: from which size an order pays, beside a minimum that is tried"),
    (&["minutes"], &["diagnostics.method"], Learned, "it is new: sampled, or the Gaussian at the mode"),
    (&["minutes"], FIT, Learned, DRAWS),
    (&["export", "wage", "review", "whatif"], SPLIT, Learned, DRAWS),
    (&["wage", "review", "whatif"], PAY, Learned, DRAWS),
    (&["tiers", "quote"], PRICES, Learned, DRAWS),
];

/// Groups of problems that are new, and why: lists and counts of problems are compared without them.
pub const NEW_GROUPS: &[(&str, &str)] = &[
    ("card-fees", "check says how many orders bear card fees, and why"),
    ("row-twice", "a row that stands twice in one file is warned of"),
    ("overlapping-hours", "two entries of one person that overlap by the clock are warned of"),
];

/// Lists that hold the same in another order, or the same thing twice no longer, and why: commands, the list, by which minutes.
pub const AS_SETS: &[(&[&str], &str, Minutes, &str)] = &[
    (&["check", "wage"], "problems", Any, "the dearest come first, and an item that was never bought is not also said to be short"),
    (&["tiers"], "rows", Learned, "they stand in order of fair price, which changed"),
];

const DRAWS: &str =
    "noise has a floor, and the sampler starts elsewhere and tunes otherwise, so its draws are others of the same posterior";

/// What the draws say of minutes.
const FIT: &[&str] = &[
    "minutes_per_piece",
    "minutes_low",
    "minutes_high",
    "set_up_minutes",
    "minutes_per_colour",
    "change_per_year",
    "noise",
    "time_next",
    "far_off.expected",
    "diagnostics.draws",
    "diagnostics.r_hat",
    "diagnostics.ess_bulk",
    "diagnostics.ess_tail",
];

/// Hours of whole orders as they are split, and what follows them.
const SPLIT: &[&str] = &[
    "owner_minutes",
    "helper_minutes",
    "minutes",
    "minutes_decorate",
    "minutes_no_stage",
    "minutes_naming_order",
    "minutes_naming_neither",
    "helper_pay",
    "overhead",
    "owner_pay",
    "pay",
];

/// What an hour earned, and what follows it.
const PAY: &[&str] = &["wage_per_hour", "wage_low", "wage_high", "one_more_piece_wage", "fair_price", "surplus"];

/// What prices must be for the target, and what they pay.
const PRICES: &[&str] = &[
    "minutes_per_piece",
    "minutes_low",
    "minutes_high",
    "owner_minutes",
    "fair_price",
    "fair_low",
    "fair_high",
    "chance_of_target",
    "charge_more",
    "more_pieces",
    "smallest_order",
    "wage_per_hour",
    "wage_low",
    "wage_high",
    "may_lose_for_pay",
    "may_lose_for_wage",
];
