//! The textbook variances between two sides, in pay and minutes. Each is a difference of sums rounded alike, so that
//! a group's variances add up to its change without a rest.
//!
//! Definitions (Horngren et al., *Cost Accounting*; Drury, *Management and Cost Accounting*; `OpenStax`, *Principles
//! of Accounting 2*, ch. 8): quantity = (all pieces now × its share then − pieces then) × unit then; mix = (pieces
//! now − all pieces now × its share then) × unit then, at each design's own unit and not the average's; price =
//! amount now × (price now − price then), on what was used and not on what was bought; use = (amount now − amount
//! then for as many pieces) × price then.

use super::part::Part;
use super::side::{Group, Side, Sums};
use super::standard::{Standard, StandardFrom, Standards};
use crate::costing::figure::Figure;
use crate::ids::{Id, Item};
use crate::quantity::millionths::{Minutes, Money};
use crate::quantity::{TooLarge, ratio};
use std::collections::{BTreeMap, BTreeSet};

/// The variance of one part in one group, before the owner's time is valued.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Variance {
    /// The group.
    pub group: Group,
    /// The part.
    pub part: Part,
    /// Owner's pay.
    pub pay: Money,
    /// The owner's minutes; for the part of the target, the minutes now.
    pub minutes: Minutes,
}

/// The variance of one item, in pay.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct ItemVariance {
    /// Price variance.
    pub price: Money,
    /// Use variance.
    pub used: Money,
}

/// All variances.
#[derive(Debug, Default)]
pub struct Variances {
    /// By group and part.
    pub cells: Vec<Variance>,
    /// By ingredient.
    pub items: BTreeMap<Id<Item>, ItemVariance>,
    /// Whose average was each design's standard.
    pub sources: BTreeMap<Group, StandardFrom>,
}

impl Variances {
    /// Computes the variances from `then` to `now`, groups and parts in order.
    ///
    /// # Errors
    /// [`TooLarge`] where a figure does not fit.
    pub fn between(then: &Side, now: &Side) -> Result<Self, TooLarge> {
        let standards = Standards::of(then)?;
        let pieces = (standards.pieces(), now.designs(None)?.figures[Figure::Pieces]);
        let nothing = Sums::default();
        let mut groups: Vec<Group> = then.groups.keys().chain(now.groups.keys()).copied().collect();
        groups.sort_unstable();
        groups.dedup();
        let mut variances = Self::default();
        for group in groups {
            let (before, after) = (then.groups.get(&group).unwrap_or(&nothing), now.groups.get(&group).unwrap_or(&nothing));
            match group {
                Group::Design(_) => {
                    let standard = standards.of_design(before, after);
                    variances.sources.insert(group, standard.source);
                    variances.of_design(group, (before, after), &standard, pieces)?;
                }
                Group::Delivery => variances.of_whole(group, Part::Delivery, before, after),
                Group::KeptDeposits => variances.of_whole(group, Part::KeptDeposits, before, after),
                Group::Unassigned => {
                    variances.note(group, Part::Unassigned, after.pay() - before.pay(), after.minutes() - before.minutes());
                }
            }
            variances.note(group, Part::Target, Money::ZERO, after.minutes());
        }
        Ok(variances)
    }

    fn of_design(
        &mut self,
        group: Group,
        (then, now): (&Sums, &Sums),
        standard: &Standard<'_>,
        (all_then, all_now): (i128, i128),
    ) -> Result<(), TooLarge> {
        let flexed = standard.flexed(now.figures[Figure::Pieces])?;
        let before = then.pay_of_pieces();
        // All pieces now at the mix of then; if nothing was sold then, there is no mix.
        let in_proportion = |sum: i128, flexed: i128| match all_then {
            0 => Ok(flexed),
            _ => ratio::multiply_divide(sum, all_now, all_then),
        };
        let pay = Money(in_proportion(before.0, flexed.pay_of_pieces().0)?);
        let minutes = Minutes(in_proportion(then.minutes().0, flexed.minutes().0)?);
        let zero = Minutes::ZERO;
        self.note(group, Part::Prices, now.charged() - flexed.charged(), zero);
        self.note(group, Part::Mix, flexed.pay_of_pieces() - pay, flexed.minutes() - minutes);
        self.note(group, Part::Volume, pay - before, minutes - then.minutes());
        self.note(
            group,
            Part::PieceMinutes,
            Money::ZERO,
            now.figures.minutes(Figure::PieceMinutes) - flexed.figures.minutes(Figure::PieceMinutes),
        );
        self.note(group, Part::SetUpMinutes, Money::ZERO, now.set_up_minutes() - flexed.set_up_minutes());
        self.of_ingredients(group, now, standard, &flexed)?;
        for (part, cost) in [(Part::Packaging, Figure::Packaging), (Part::Fees, Figure::Fees), (Part::HelperPay, Figure::HelperPay)] {
            self.note(group, part, flexed.figures.money(cost) - now.figures.money(cost), zero);
        }
        self.note(group, Part::RushAndTips, now.rush_and_tips() - then.rush_and_tips(), zero);
        self.note(group, Part::DiscountsAndRefunds, then.discounts_and_refunds() - now.discounts_and_refunds(), zero);
        self.of_overhead(group, then, now);
        Ok(())
    }

    /// Adds price and use variances by item; ingredients that belong to no item have no price, and are all use.
    fn of_ingredients(&mut self, group: Group, now: &Sums, standard: &Standard<'_>, flexed: &Sums) -> Result<(), TooLarge> {
        let mut all = ItemVariance { price: Money::ZERO, used: flexed.other_ingredients() - now.other_ingredients() };
        let items: BTreeSet<Id<Item>> = flexed.items.keys().chain(now.items.keys()).copied().collect();
        for item in items {
            let used = now.items.get(&item).copied().unwrap_or_default();
            let at_then = standard.at_its_price(item, used)?;
            let flexed = flexed.items.get(&item).map_or(0, |flexed| flexed.cost);
            let of_item = ItemVariance { price: Money(at_then - used.cost), used: Money(flexed - at_then) };
            all.add(of_item);
            self.items.entry(item).or_default().add(of_item);
        }
        self.note(group, Part::IngredientPrices, all.price, Minutes::ZERO);
        self.note(group, Part::IngredientUse, all.used, Minutes::ZERO);
        Ok(())
    }

    /// Adds a group whose whole change is one part, besides its overhead.
    fn of_whole(&mut self, group: Group, part: Part, then: &Sums, now: &Sums) {
        self.note(group, part, now.pay_before_overhead() - then.pay_before_overhead(), now.minutes() - then.minutes());
        self.of_overhead(group, then, now);
    }

    fn of_overhead(&mut self, group: Group, then: &Sums, now: &Sums) {
        self.note(group, Part::Overhead, then.figures.money(Figure::Overhead) - now.figures.money(Figure::Overhead), Minutes::ZERO);
    }

    fn note(&mut self, group: Group, part: Part, pay: Money, minutes: Minutes) {
        self.cells.push(Variance { group, part, pay, minutes });
    }
}

impl ItemVariance {
    fn add(&mut self, more: Self) {
        self.price += more.price;
        self.used += more.used;
    }
}
