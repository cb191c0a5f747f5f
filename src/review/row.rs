//! One row of a wage table: a group's figures, its hourly wage and that of one more piece, its fair price and its
//! verdict.

use super::certainty::{Certainty, Interval};
use super::key::Key;
use super::sums::Sums;
use super::verdict::Verdict;
use crate::costing::facts::{Figure, Figures};
use crate::costing::minutes_each::MinutesFrom;
use crate::quantity::millionths::{MILLION, Minutes, Money, Share};
use crate::quantity::ratio;

impl Row {
    /// Whether it holds only deliveries or kept deposits.
    #[must_use]
    pub fn has_no_cookies(&self) -> bool {
        self.group.is_some_and(Key::has_no_cookies)
    }

    /// Whether the verdict may be acted on: not if the logs cannot tell yet.
    #[must_use]
    pub fn is_conclusive(&self) -> bool {
        self.interval.is_none_or(|interval| interval.certainty != Some(Certainty::Open))
    }
}

/// One row. Money and minutes are at stored precision; what is unknown is `None`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Row {
    /// Name of its group.
    pub key: String,
    /// Its group; `None` for totals.
    pub group: Option<Key>,
    /// The tier, if it is a design or a tier.
    pub tier: Option<String>,
    /// Different orders.
    pub orders: i64,
    /// Pieces sold.
    pub pieces: i64,
    /// Pieces × list price; for deliveries and kept deposits the amount itself.
    pub list_value: Money,
    /// Revenue.
    pub revenue: Money,
    /// Ingredients.
    pub ingredients: Money,
    /// Packaging.
    pub packaging: Money,
    /// Fees.
    pub fees: Money,
    /// Helper pay.
    pub helper_pay: Money,
    /// Overhead.
    pub overhead: Money,
    /// The owner's minutes.
    pub owner_minutes: Minutes,
    /// Helpers' minutes.
    pub helper_minutes: Minutes,
    /// Owner's pay: revenue less out-of-pocket cost.
    pub owner_pay: Money,
    /// Share of pieces whose order has known hours.
    pub hours_known: Share,
    /// Source of the minutes per piece.
    pub minutes_from: MinutesFrom,
    /// Owner's pay ÷ owner's hours, over lines with known hours.
    pub wage_per_hour: Option<Money>,
    /// Range of the wage, if the row's minutes are estimates.
    pub interval: Option<Interval>,
    /// Hourly pay of one more piece.
    pub one_more_piece_wage: Option<Money>,
    /// Share of pieces priced by the set.
    pub set_priced_share: Share,
    /// Revenue per piece.
    pub price_per_piece: Option<Money>,
    /// Revenue per piece needed for the target.
    pub fair_price: Option<Money>,
    /// The verdict.
    pub verdict: Option<Verdict>,
    /// Whether it uses an item without a price.
    pub incomplete: bool,
    /// The lines with known hours: wage, full cost, fair price, surplus and verdict rest on them.
    pub known: Known,
}

/// The figures of a row's lines with known hours.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Known {
    /// Different orders.
    pub orders: i64,
    /// Pieces sold.
    pub pieces: i64,
    /// Pieces × list price.
    pub list_value: Money,
    /// Revenue.
    pub revenue: Money,
    /// Ingredients, packaging, fees, helper pay and overhead.
    pub costs: [Money; 5],
    /// The owner's minutes.
    pub owner_minutes: Minutes,
    /// The owner's minutes at the target wage.
    pub time: Option<Money>,
}

impl Known {
    /// Owner's pay: revenue less out-of-pocket cost.
    #[must_use]
    pub fn owner_pay(&self) -> Money {
        self.revenue - self.costs.into_iter().sum()
    }

    /// Computes the surplus: owner's pay less the owner's time at the target.
    #[must_use]
    pub fn surplus(&self) -> Option<Money> {
        self.time.map(|time| self.owner_pay() - time)
    }

    /// Computes the revenue per piece.
    #[must_use]
    pub fn price(&self) -> Option<Money> {
        self.revenue.each_of(self.pieces)
    }

    /// Computes the full cost per piece: the owner's time at the target included.
    #[must_use]
    pub fn full_cost(&self) -> Option<Money> {
        (self.revenue - self.surplus()?).each_of(self.pieces)
    }
}

/// What rows are judged by: the target, and the source of minutes.
#[derive(Debug, Clone, Copy)]
pub struct Judge {
    /// The target wage.
    pub target: Option<Money>,
    /// Source of the minutes per piece.
    pub minutes_from: MinutesFrom,
}

impl Judge {
    /// Computes the row of a group.
    #[must_use]
    pub fn row(&self, key: String, tier: Option<String>, sums: &Sums) -> Row {
        let all = &sums.all;
        let pieces = i64::try_from(all[Figure::Pieces]).unwrap_or(i64::MAX);
        let revenue = Money(all[Figure::Revenue]);
        let owner_pay = Money(all[Figure::OwnerPay]);
        let owner_minutes = Minutes(all[Figure::OwnerMinutes]);
        let has_known = sums.known_lines > 0;
        let wage = Money(sums.known[Figure::OwnerPay]).an_hour(Minutes(sums.known[Figure::OwnerMinutes]));
        let one_more = one_more_piece(&sums.cookies);
        Row {
            key,
            group: None,
            tier,
            orders: sums.orders,
            pieces,
            list_value: Money(all[Figure::ListValue]),
            revenue,
            ingredients: Money(all[Figure::Ingredients]),
            packaging: Money(all[Figure::Packaging]),
            fees: Money(all[Figure::Fees]),
            helper_pay: Money(all[Figure::HelperPay]),
            overhead: Money(all[Figure::Overhead]),
            owner_minutes,
            helper_minutes: Minutes(all[Figure::HelperMinutes]),
            owner_pay,
            hours_known: match pieces {
                0 => share(i128::from(sums.known_lines), i128::from(sums.lines)),
                _ => share(sums.known[Figure::Pieces], all[Figure::Pieces]),
            },
            minutes_from: self.minutes_from,
            wage_per_hour: wage,
            interval: None,
            one_more_piece_wage: one_more,
            set_priced_share: share(all[Figure::SetPricedPieces], all[Figure::Pieces]),
            price_per_piece: revenue.each_of(pieces),
            fair_price: self.fair_price(&sums.known),
            verdict: self.verdict(sums, wage, one_more),
            incomplete: sums.incomplete_lines > 0,
            known: self.known(sums, has_known),
        }
    }

    fn known(&self, sums: &Sums, has_known: bool) -> Known {
        let known = &sums.known;
        let owner_minutes = Minutes(known[Figure::OwnerMinutes]);
        Known {
            orders: sums.known_orders,
            pieces: i64::try_from(known[Figure::Pieces]).unwrap_or(i64::MAX),
            list_value: Money(known[Figure::ListValue]),
            revenue: Money(known[Figure::Revenue]),
            costs: Figure::COSTS.map(|figure| Money(known[figure])),
            owner_minutes,
            time: self.at_target(owner_minutes).filter(|_| has_known),
        }
    }

    fn at_target(&self, minutes: Minutes) -> Option<Money> {
        self.target?.per_hour_for(minutes).ok()
    }

    /// Computes the revenue per piece needed for the target wage (formula: DEVELOPERS.md, "Fair price").
    fn fair_price(&self, known: &Figures) -> Option<Money> {
        let pieces = i64::try_from(known[Figure::Pieces]).ok().filter(|pieces| *pieces > 0)?;
        let fixed_fees = known[Figure::Fees] - known[Figure::PercentFees];
        let cost = known[Figure::Ingredients] + known[Figure::Packaging] + known[Figure::HelperPay] + known[Figure::Overhead] + fixed_fees;
        let cost = Money(cost) + self.at_target(Minutes(known[Figure::OwnerMinutes]))?;
        let (revenue, percent) = (known[Figure::Revenue], known[Figure::PercentFees]);
        if percent == 0 {
            return cost.each_of(pieces);
        }
        // If the percentage takes all revenue, no price is enough.
        let is_possible = revenue != 0 && (revenue > 0) == (revenue > percent);
        let needed = is_possible.then(|| ratio::multiply_divide(cost.0, revenue, revenue - percent).ok()).flatten()?;
        Money(needed).each_of(pieces)
    }

    fn verdict(&self, sums: &Sums, wage: Option<Money>, one_more: Option<Money>) -> Option<Verdict> {
        if sums.known_lines == 0 {
            return None;
        }
        if sums.known[Figure::OwnerPay] < 0 {
            return Some(Verdict::LosesMoney);
        }
        let target = self.target?;
        Some(if wage? >= target {
            Verdict::Pays
        } else if one_more.is_some_and(|one_more| one_more >= target) {
            Verdict::SetUpTooDear
        } else {
            Verdict::Underpaid
        })
    }
}

/// Computes the hourly pay of one more piece (formula: DEVELOPERS.md, "One more piece"): list value less percentage
/// fee, its own materials and helper pay, ÷ the owner's minutes in stages shared by pieces or by minutes. No set-up,
/// per-colour or per-order part.
fn one_more_piece(cookies: &Figures) -> Option<Money> {
    let materials =
        cookies[Figure::Ingredients] - cookies[Figure::OrderIngredients] + cookies[Figure::Packaging] - cookies[Figure::OrderPackaging];
    if cookies[Figure::ListValue] == 0 && cookies[Figure::SetPricedPieces] > 0 {
        // Priced as a set only: the price of one more piece is unknown.
        return None;
    }
    let left = cookies[Figure::ListValue] - cookies[Figure::ListFees] - materials - cookies[Figure::PieceHelperPay];
    Money(left).an_hour(Minutes(cookies[Figure::PieceMinutes]))
}

fn share(part: i128, whole: i128) -> Share {
    if whole == 0 { Money::ZERO } else { Money(ratio::multiply_divide(part, MILLION, whole).unwrap_or_default()) }
}
