//! One row of a wage table: a group's figures, its two wages, its fair price and its verdict.

use super::certainty::{Certainty, Interval};
use super::key::Key;
use super::sums::Sums;
use super::verdict::Verdict;
use crate::costing::facts::{Figure, Figures};
use crate::costing::minutes_each::MinutesFrom;
use crate::quantity::millionths::{MILLION, Minutes, Money};
use crate::quantity::ratio;

impl Row {
    /// Whether it holds deliveries or kept deposits, and no cookies.
    #[must_use]
    pub fn has_no_cookies(&self) -> bool {
        self.group.is_some_and(Key::has_no_cookies)
    }

    /// Whether the verdict may be acted on: not where it is too close to call.
    #[must_use]
    pub fn is_conclusive(&self) -> bool {
        self.interval.is_none_or(|interval| interval.certainty != Some(Certainty::Open))
    }
}

/// A share of one, in millionths.
pub type Share = Money;

/// One row. Money and minutes at stored precision; what is unknown is `None`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Row {
    /// What the row is of, by name.
    pub key: String,
    /// The same by id; `None` of totals.
    pub group: Option<Key>,
    /// The tier, of a design or a tier.
    pub tier: Option<String>,
    /// Different orders.
    pub orders: i64,
    /// Pieces sold.
    pub pieces: i64,
    /// Pieces × list price; the amount itself of deliveries and kept deposits.
    pub list_value: Money,
    /// What was brought in.
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
    /// Revenue less out-of-pocket cost.
    pub owner_pay: Money,
    /// Share of pieces whose order's hours are known.
    pub hours_known: Share,
    /// Where minutes a piece came from.
    pub minutes_from: MinutesFrom,
    /// Owner's pay ÷ owner's hours, of lines with known hours.
    pub wage_per_hour: Option<Money>,
    /// What the logs fit, where minutes were learned and the row's are estimated.
    pub interval: Option<Interval>,
    /// What one more piece would pay an hour.
    pub one_more_piece_wage: Option<Money>,
    /// Share of pieces priced by the set.
    pub set_priced_share: Share,
    /// Revenue a piece.
    pub price_per_piece: Option<Money>,
    /// Revenue a piece needs for the target.
    pub fair_price: Option<Money>,
    /// What it says.
    pub verdict: Option<Verdict>,
    /// Whether something in it has no price.
    pub incomplete: bool,
    /// The lines with known hours, which wage, full cost, fair price, surplus and verdict rest on.
    pub known: Known,
}

/// A row's lines with known hours.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Known {
    /// Different orders.
    pub orders: i64,
    /// Pieces sold.
    pub pieces: i64,
    /// Pieces × list price.
    pub list_value: Money,
    /// What was brought in.
    pub revenue: Money,
    /// Ingredients, packaging, fees, helper pay and overhead.
    pub costs: [Money; 5],
    /// The owner's minutes.
    pub owner_minutes: Minutes,
    /// The owner's minutes at the target wage.
    pub time: Option<Money>,
}

impl Known {
    /// Revenue less out-of-pocket cost.
    #[must_use]
    pub fn owner_pay(&self) -> Money {
        self.revenue - self.costs.into_iter().sum()
    }

    /// Over a fair wage, or short of it where negative.
    #[must_use]
    pub fn surplus(&self) -> Option<Money> {
        self.time.map(|time| self.owner_pay() - time)
    }

    /// What a piece brought in.
    #[must_use]
    pub fn price(&self) -> Option<Money> {
        self.revenue.each_of(self.pieces)
    }

    /// The list price a piece needs for a fair price: more than that where discounts take some of it.
    #[must_use]
    pub fn list_price_for(&self, fair_price: Money) -> Option<Money> {
        let (fair, list, revenue) = (fair_price.0, self.list_value.0, self.revenue.0);
        (revenue > 0 && list > 0).then(|| ratio::multiply_divide(fair, list, revenue).ok().map(Money)).flatten()
    }

    /// What a piece cost, the owner's time at the target included.
    #[must_use]
    pub fn full_cost(&self) -> Option<Money> {
        (self.revenue - self.surplus()?).each_of(self.pieces)
    }
}

/// What rows are judged by.
#[derive(Debug, Clone, Copy)]
pub struct Judge {
    /// The wage aimed at.
    pub target: Option<Money>,
    /// Where minutes a piece came from.
    pub minutes_from: MinutesFrom,
}

impl Judge {
    /// The row of a group.
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

    /// Revenue a piece needs for the target wage (DEVELOPERS.md, "fair price").
    fn fair_price(&self, known: &Figures) -> Option<Money> {
        let pieces = i64::try_from(known[Figure::Pieces]).ok().filter(|pieces| *pieces > 0)?;
        let fixed_fees = known[Figure::Fees] - known[Figure::PercentFees];
        let cost = known[Figure::Ingredients] + known[Figure::Packaging] + known[Figure::HelperPay] + known[Figure::Overhead] + fixed_fees;
        let cost = Money(cost) + self.at_target(Minutes(known[Figure::OwnerMinutes]))?;
        let (revenue, percent) = (known[Figure::Revenue], known[Figure::PercentFees]);
        if percent == 0 {
            return cost.each_of(pieces);
        }
        // Where the percentage takes all that came in, no price is enough.
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

/// Price less percentage fee, its own materials and helper pay, over the minutes one more piece takes: those of
/// stages shared by pieces or by minutes. No set-up, per-colour or per-order part.
fn one_more_piece(cookies: &Figures) -> Option<Money> {
    let materials =
        cookies[Figure::Ingredients] - cookies[Figure::OrderIngredients] + cookies[Figure::Packaging] - cookies[Figure::OrderPackaging];
    if cookies[Figure::ListValue] == 0 && cookies[Figure::SetPricedPieces] > 0 {
        // Priced by the set alone: nobody knows what one more would bring.
        return None;
    }
    let left = cookies[Figure::ListValue] - cookies[Figure::ListFees] - materials - cookies[Figure::PieceHelperPay];
    Money(left).an_hour(Minutes(cookies[Figure::PieceMinutes]))
}

fn share(part: i128, whole: i128) -> Share {
    if whole == 0 { Money::ZERO } else { Money(ratio::multiply_divide(part, MILLION, whole).unwrap_or_default()) }
}
