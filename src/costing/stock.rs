//! The stock of one item, day by day, under a cost flow: `latest`, moving weighted `average`, or `fifo`.
//!
//! Within a day the purchases come first, as one layer at their average landed price; then returns, use, and the
//! count. FIFO and the moving average are the textbook's (`OpenStax`, *Principles of Accounting* 1, ch. 10.3); tests
//! run both against its worked example.

use crate::quantity::{Amount, Day, TooLarge, ratio};
use crate::shop::settings::CostFlow;
use std::collections::{BTreeMap, BTreeSet, VecDeque};

/// An amount of an item and its cost, in millionths of the main unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Quantity {
    /// Amount in the item's base unit.
    pub amount: Amount,
    /// Its cost.
    pub cost: i128,
}

impl Quantity {
    /// Adds more.
    ///
    /// # Errors
    /// [`TooLarge`] where the sum does not fit.
    pub fn add(&mut self, more: Self) -> Result<(), TooLarge> {
        self.amount = self.amount.plus(more.amount)?;
        self.cost = self.cost.checked_add(more.cost).ok_or(TooLarge)?;
        Ok(())
    }

    /// Computes the cost of `amount` at this quantity's price; zero if there is no price.
    fn priced(self, amount: Amount) -> Result<i128, TooLarge> {
        if self.amount.0 == 0 { Ok(0) } else { ratio::multiply_divide(self.cost, amount.0, self.amount.0) }
    }
}

/// Movements of an item, by day.
#[derive(Debug, Clone, Default)]
pub struct Movements {
    /// Bought, at landed cost.
    pub bought: BTreeMap<Day, Quantity>,
    /// Returned, with the money given back.
    pub returned: BTreeMap<Day, Quantity>,
    /// Used.
    pub used: BTreeMap<Day, Amount>,
    /// Counted at the day's end.
    pub counted: BTreeMap<Day, Amount>,
}

/// The difference between the logs and a count, since the count before.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Gap {
    /// The count before, whose day is not included.
    pub after: Option<Day>,
    /// The count's own day, included.
    pub through: Day,
    /// Amount missing; negative if the count found more than the logs say.
    pub missing: Amount,
    /// Its cost.
    pub cost: i128,
}

impl Gap {
    /// Whether uses of this day are charged for it.
    #[must_use]
    pub fn covers(&self, day: Day) -> bool {
        day <= self.through && self.after.is_none_or(|after| day > after)
    }
}

/// The stock ledger of an item. Costs are in millionths of the main unit.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Run {
    /// Cost of each day's use.
    pub issued: BTreeMap<Day, i128>,
    /// Differences that counts found.
    pub gaps: Vec<Gap>,
    /// Costs that no use can carry, by day.
    pub unassigned: Vec<(Day, i128)>,
    /// Use beyond the stock, at the price it was costed at, by day.
    pub shortfalls: Vec<(Day, Quantity)>,
    /// Value of the opening stock (counted before anything was bought or used), at the first landed price.
    pub opening: i128,
    /// Closing stock.
    pub left: Quantity,
}

impl Movements {
    /// Runs the item's movements through its stock.
    ///
    /// # Errors
    /// [`TooLarge`] where a cost does not fit.
    pub(super) fn run(&self, flow: CostFlow) -> Result<Run, TooLarge> {
        let days: BTreeSet<Day> =
            self.bought.keys().chain(self.returned.keys()).chain(self.used.keys()).chain(self.counted.keys()).copied().collect();
        let mut stock = Stock { movements: self, flow, layers: VecDeque::new(), run: Run::default(), begun: false, counted: None };
        for day in days {
            stock.pass(day)?;
        }
        for layer in stock.layers {
            stock.run.left.add(layer)?;
        }
        Ok(stock.run)
    }

    /// Returns the latest purchase on or before a day, else the first after it: its price is the price in force.
    #[must_use]
    pub fn latest(&self, day: Day) -> Quantity {
        self.bought.range(..=day).next_back().or_else(|| self.bought.iter().next()).map_or_else(Quantity::default, |(_, bought)| *bought)
    }

    /// Returns the last purchase: its price is today's.
    #[must_use]
    pub fn last(&self) -> Quantity {
        self.bought.values().next_back().copied().unwrap_or_default()
    }

    /// Whether it was ever bought; if not, it costs zero.
    pub(super) fn has_price(&self) -> bool {
        !self.bought.is_empty()
    }
}

struct Stock<'a> {
    movements: &'a Movements,
    flow: CostFlow,
    layers: VecDeque<Quantity>,
    run: Run,
    /// Whether anything was bought or used yet.
    begun: bool,
    /// The last count.
    counted: Option<Day>,
}

impl Stock<'_> {
    fn pass(&mut self, day: Day) -> Result<(), TooLarge> {
        let movements = self.movements;
        if let Some(bought) = movements.bought.get(&day) {
            self.begun = true;
            self.enter(*bought)?;
        }
        if let Some(returned) = movements.returned.get(&day) {
            self.begun = true;
            self.give_back(day, *returned)?;
        }
        if let Some(used) = movements.used.get(&day).filter(|used| used.0 > 0) {
            self.begun = true;
            self.issue(day, *used)?;
        }
        if let Some(counted) = movements.counted.get(&day) {
            self.count(day, *counted)?;
        }
        Ok(())
    }

    fn enter(&mut self, more: Quantity) -> Result<(), TooLarge> {
        match self.layers.back_mut() {
            Some(pool) if self.flow == CostFlow::Average => pool.add(more)?,
            _ => self.layers.push_back(more),
        }
        Ok(())
    }

    fn in_stock(&self) -> Result<Amount, TooLarge> {
        self.layers.iter().try_fold(Amount::ZERO, |sum, layer| sum.plus(layer.amount))
    }

    /// Removes up to `amount`, oldest or newest layers first, at their cost.
    fn take(&mut self, amount: Amount, newest_first: bool) -> Result<Quantity, TooLarge> {
        let mut taken = Quantity::default();
        while taken.amount < amount {
            let layer = if newest_first { self.layers.back_mut() } else { self.layers.front_mut() };
            let Some(layer) = layer else { break };
            let part = Amount(layer.amount.0.min(amount.0 - taken.amount.0));
            if part == layer.amount {
                taken.add(*layer)?;
                if newest_first {
                    self.layers.pop_back()
                } else {
                    self.layers.pop_front()
                };
            } else {
                let cost = layer.priced(part)?;
                taken.add(Quantity { amount: part, cost })?;
                layer.add(Quantity { amount: Amount(-part.0), cost: -cost })?;
            }
        }
        Ok(taken)
    }

    /// Removes returned goods from the newest layers at their cost. A refund that differs from that cost adjusts the
    /// value of the newest stock.
    fn give_back(&mut self, day: Day, returned: Quantity) -> Result<(), TooLarge> {
        let taken = self.take(returned.amount, true)?;
        let lost = taken.cost - returned.cost;
        if self.flow == CostFlow::Latest || lost == 0 {
            return Ok(());
        }
        match self.layers.back_mut() {
            Some(newest) => newest.cost += lost,
            None => self.run.unassigned.push((day, lost)),
        }
        Ok(())
    }

    fn issue(&mut self, day: Day, used: Amount) -> Result<(), TooLarge> {
        let latest = self.movements.latest(day);
        let taken = self.take(used, false)?;
        if self.flow == CostFlow::Latest {
            self.run.issued.insert(day, latest.priced(used)?);
            return Ok(());
        }
        let short = Amount(used.0 - taken.amount.0);
        let beyond = latest.priced(short)?;
        if short.0 > 0 {
            self.run.shortfalls.push((day, Quantity { amount: short, cost: beyond }));
        }
        self.run.issued.insert(day, taken.cost + beyond);
        Ok(())
    }

    fn count(&mut self, day: Day, counted: Amount) -> Result<(), TooLarge> {
        if !self.begun {
            // Opening stock; a later count before any movement replaces it.
            let first = self.movements.bought.values().next().copied().unwrap_or_default();
            let cost = first.priced(counted)?;
            self.run.opening = cost;
            self.layers.clear();
            if counted.0 > 0 {
                self.enter(Quantity { amount: counted, cost })?;
            }
            self.counted = Some(day);
            return Ok(());
        }
        let latest = self.movements.latest(day);
        let missing = Amount(self.in_stock()?.0 - counted.0);
        let cost = if missing.0 > 0 {
            let taken = self.take(missing, false)?;
            if self.flow == CostFlow::Latest { latest.priced(missing)? } else { taken.cost }
        } else {
            let found = Quantity { amount: Amount(-missing.0), cost: latest.priced(Amount(-missing.0))? };
            if found.amount.0 > 0 {
                self.enter(found)?;
            }
            -found.cost
        };
        let after = self.counted.replace(day);
        if missing.0 == 0 {
            return Ok(());
        }
        let used = self.movements.used.range(..=day).any(|(used_on, used)| after.is_none_or(|after| *used_on > after) && used.0 > 0);
        if used {
            self.run.gaps.push(Gap { after, through: day, missing, cost });
        } else {
            self.run.unassigned.push((day, cost));
        }
        Ok(())
    }
}
