//! One row of a wage table: a group's figures, its hourly wage and that of one more piece, its fair price and its
//! verdict.

use super::certainty::{Certainty, Interval};
use super::key::Key;
use super::lacking::Lacking;
use super::sums::Sums;
use super::verdict::Verdict;
use crate::costing::facts::{Figure, Figures};
use crate::costing::minutes_each::MinutesFrom;
use crate::quantity::millionths::{MILLION, Minutes, Money, Share};
use crate::quantity::{TooLarge, ratio};

impl Row {
    /// Whether it holds only deliveries or kept deposits.
    #[must_use]
    pub(crate) fn has_no_cookies(&self) -> bool {
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
    /// All sums over its lines, out-of-pocket costs among them.
    pub figures: Figures,
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
    /// What its hours lack, if it is an order without a verdict for that.
    pub lacking: Option<Lacking>,
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
    /// Out-of-pocket costs, in the order of [`Figure::COSTS`].
    pub costs: [Money; Figure::COSTS.len()],
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
    pub(crate) fn full_cost(&self) -> Option<Money> {
        (self.revenue - self.surplus()?).each_of(self.pieces)
    }
}

/// What rows are judged by: the target, and the source of minutes.
#[derive(Debug, Clone, Copy)]
pub(super) struct Judge {
    /// The target wage.
    pub target: Option<Money>,
    /// Source of the minutes per piece.
    pub minutes_from: MinutesFrom,
}

impl Judge {
    /// Computes the row of a group.
    ///
    /// # Errors
    /// [`TooLarge`] where a figure does not fit.
    pub(super) fn row(&self, key: String, tier: Option<String>, sums: &Sums) -> Result<Row, TooLarge> {
        let all = &sums.all;
        let (pieces, revenue) = (all.pieces()?, all.money(Figure::Revenue));
        let (wage, one_more) = (sums.known.wage(), one_more_piece(&sums.cookies));
        Ok(Row {
            key,
            group: None,
            tier,
            orders: sums.orders,
            pieces,
            list_value: all.money(Figure::ListValue),
            revenue,
            figures: *all,
            owner_minutes: all.minutes(Figure::OwnerMinutes),
            helper_minutes: all.minutes(Figure::HelperMinutes),
            owner_pay: all.money(Figure::OwnerPay),
            hours_known: match pieces {
                0 => share(i128::from(sums.known_lines), i128::from(sums.lines))?,
                _ => share(sums.known[Figure::Pieces], all[Figure::Pieces])?,
            },
            minutes_from: self.minutes_from,
            wage_per_hour: wage,
            interval: None,
            one_more_piece_wage: one_more,
            set_priced_share: share(all[Figure::SetPricedPieces], all[Figure::Pieces])?,
            price_per_piece: revenue.each_of(pieces),
            fair_price: self.fair_price(&sums.known)?,
            verdict: self.verdict(sums, wage, one_more),
            lacking: None,
            incomplete: sums.incomplete_lines > 0,
            known: self.known(sums)?,
        })
    }

    fn known(&self, sums: &Sums) -> Result<Known, TooLarge> {
        let known = &sums.known;
        Ok(Known {
            orders: sums.known_orders,
            pieces: known.pieces()?,
            list_value: known.money(Figure::ListValue),
            revenue: known.money(Figure::Revenue),
            costs: known.costs(),
            owner_minutes: known.minutes(Figure::OwnerMinutes),
            time: self.time(known)?.filter(|_| sums.known_lines > 0),
        })
    }

    /// Computes the owner's minutes at the target wage.
    fn time(&self, figures: &Figures) -> Result<Option<Money>, TooLarge> {
        self.target.map(|target| target.per_hour_for(figures.minutes(Figure::OwnerMinutes))).transpose()
    }

    /// Computes the revenue per piece needed for the target wage (formula: DEVELOPERS.md, "Fair price").
    fn fair_price(&self, known: &Figures) -> Result<Option<Money>, TooLarge> {
        let (pieces, Some(time)) = (known.pieces()?, self.time(known)?) else { return Ok(None) };
        let (revenue, percent) = (known[Figure::Revenue], known[Figure::PercentFees]);
        let cost = (known.sum(&Figure::COSTS) + time).0 - percent;
        // If the percentage takes all revenue, no price is enough.
        let is_possible = percent == 0 || (revenue != 0 && revenue != percent && (revenue > 0) == (revenue > percent));
        if pieces <= 0 || !is_possible {
            return Ok(None);
        }
        let needed = if percent == 0 { cost } else { ratio::multiply_divide(cost, revenue, revenue - percent)? };
        Ok(Money(needed).each_of(pieces))
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
        cookies.sum(&[Figure::Ingredients, Figure::Packaging]) - cookies.sum(&[Figure::OrderIngredients, Figure::OrderPackaging]);
    if cookies[Figure::ListValue] == 0 && cookies[Figure::SetPricedPieces] > 0 {
        // Priced as a set only: the price of one more piece is unknown.
        return None;
    }
    let left = cookies[Figure::ListValue] - cookies[Figure::ListFees] - materials.0 - cookies[Figure::PieceHelperPay];
    Money(left).an_hour(cookies.minutes(Figure::PieceMinutes))
}

fn share(part: i128, whole: i128) -> Result<Share, TooLarge> {
    if whole == 0 { Ok(Money::ZERO) } else { ratio::multiply_divide(part, MILLION, whole).map(Money) }
}
