//! Reconciles a review with the maker's own books: hours logged and counted, items bought and used, money that is not
//! income.

use super::key::Key;
use super::wage::WageTable;
use crate::costing::figure::Figure;
use crate::costing::{Costed, CostingError, landed};
use crate::ids::{Id, Order};
use crate::period::whole_months;
use crate::quantity::millionths::{Minutes, Money};
use crate::quantity::{Month, Period};
use crate::shop::Shop;
use crate::shop::orders::{Kind, Status};

/// The figures of a reconciliation.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Reconciliation {
    /// The owner's minutes logged in the period, without unattended ones.
    pub logged: Minutes,
    /// Of these, minutes for orders handed over outside the period; only for whole months.
    pub for_others: Option<Minutes>,
    /// Minutes logged outside the period for its orders; only for whole months.
    pub from_others: Option<Minutes>,
    /// Minutes counted: on its orders, and unassigned.
    pub counted: Minutes,
    /// Helpers' minutes on its orders, and unassigned.
    pub helper_minutes: Minutes,
    /// Landed cost of ingredients bought in the period.
    pub ingredients_bought: Money,
    /// Ingredients used by its orders, and unassigned.
    pub ingredients_used: Money,
    /// Landed cost of packaging bought in the period.
    pub packaging_bought: Money,
    /// Packaging used by its orders, and unassigned.
    pub packaging_used: Money,
    /// Closing stock at the end of the logs, at cost; `None` under `latest`, which keeps no value.
    pub stock_left: Option<Money>,
    /// Tips.
    pub tips: Money,
    /// Whether tips are revenue.
    pub tips_count: bool,
    /// Sales tax collected, which is never income.
    pub sales_tax: Money,
    /// Deposits kept from cancelled orders.
    pub deposits_kept: Money,
    /// The owner's minutes logged in the period on quoted and cancelled orders, which are unassigned.
    pub on_orders_not_done: Minutes,
}

impl Reconciliation {
    /// Reconciles a period.
    ///
    /// # Errors
    /// Where polars fails.
    pub fn of(shop: &Shop, costed: &Costed, period: Period, designs: &WageTable) -> Result<Self, CostingError> {
        let mut found = Self { tips_count: shop.settings.tips_count, counted: designs.all_in.owner_minutes, ..Self::default() };
        let worked = shop.hours.entries.iter().filter(|entry| entry.who.is_none() && !shop.hours.is_unattended(entry));
        let worked: Vec<_> = worked.filter(|entry| period.holds(entry.day)).collect();
        found.logged = worked.iter().map(|entry| Minutes(i128::from(entry.minutes))).sum();
        let is_done = |order: &Id<Order>| shop.orders.head(*order).status == Status::Done;
        let not_done = worked.iter().filter(|entry| entry.link.is_some_and(|link| !shop.hours.links[link].iter().any(is_done)));
        found.on_orders_not_done = not_done.map(|entry| Minutes(i128::from(entry.minutes))).sum();
        if whole_months(period).is_some() {
            let holds = |month: &Month| period.holds(month.first());
            let moved = |wanted: (bool, bool)| {
                let cells = costed.by_months.iter().filter(|((worked, served), _)| (holds(worked), holds(served)) == wanted);
                cells.map(|(_, minutes)| *minutes).sum()
            };
            found.for_others = Some(moved((true, false)));
            found.from_others = Some(moved((false, true)));
        }
        found.helper_minutes = designs.all_in.helper_minutes;
        for (purchase, cost) in shop.purchases.rows.iter().zip(landed::costs(shop)?) {
            if period.holds(purchase.day) {
                let packaging = shop.items.is_packaging(shop.item_names.text(purchase.item));
                *(if packaging { &mut found.packaging_bought } else { &mut found.ingredients_bought }) += Money(cost);
            }
        }
        found.ingredients_used = designs.all_in.figures.money(Figure::Ingredients);
        found.packaging_used = designs.all_in.figures.money(Figure::Packaging);
        if costed.cost_flow != crate::shop::settings::CostFlow::Latest {
            found.stock_left = Some(costed.materials.runs.iter().map(|run| Money(run.left.cost)).sum());
        }
        for row in 0..shop.orders.rows() {
            let head = shop.orders.head(shop.orders.order[row]);
            if head.status != Status::Done || !period.holds(head.day) {
                continue;
            }
            let amount = Money(shop.orders.amount(row)?.into());
            match shop.orders.kind[row] {
                Kind::Tip => found.tips += amount,
                Kind::Tax => found.sales_tax += amount,
                _ => {}
            }
        }
        found.deposits_kept = designs.rows.iter().filter(|row| row.group == Some(Key::KeptDeposits)).map(|row| row.revenue).sum();
        Ok(found)
    }
}
