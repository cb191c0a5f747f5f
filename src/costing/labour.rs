//! Minutes and helper pay of each line. Every entry of the hours log goes to the lines it served, at one of three
//! levels:
//!
//! 1. An entry naming a design goes to that design, by pieces: in its order, or over the month's lines of it.
//! 2. An entry naming orders is divided over their lines as its stage is shared.
//! 3. An entry naming neither goes to the orders handed over that day or soon after, else to its month's.
//!
//! Entries that no line can carry are unassigned. Helper pay follows the helper's minutes.

use super::bill::Bill;
use super::estimated_entry::EstimatedEntry;
use super::hours_known::HoursKnown;
use super::lines::Lines;
use super::minutes_each::{MinutesEach, MinutesFrom};
use super::sharing::{Parts, add};
use super::splitter::{EntryKey, Split, Splitter};
use super::unassigned::{Source, Unassigned, UnassignedLog};
use super::usual_time::{StageSums, UsualTime, usual_time};
use crate::ids::{Id, Order, Stage};
use crate::quantity::millionths::{Minutes, Money};
use crate::quantity::{Month, TooLarge, share};
use crate::shop::Shop;
use crate::shop::hours::Entry;
use crate::shop::settings::SharedBy;
use std::collections::BTreeMap;

/// Each line's minutes and helper pay, in millionths.
#[derive(Debug, Default)]
pub struct Labour {
    /// The owner's minutes.
    pub owner_minutes: Vec<i64>,
    /// Helpers' minutes.
    pub helper_minutes: Vec<i64>,
    /// Pay for the helpers' minutes.
    pub helper_pay: Vec<i64>,
    /// The owner's minutes in stages shared by pieces or by minutes: those that one more piece adds.
    pub piece_minutes: Vec<i64>,
    /// Helper pay in those stages.
    pub piece_helper_pay: Vec<i64>,
    /// Minutes by level: of entries naming the design, naming orders, naming neither.
    pub by_level: [Vec<i64>; 3],
    /// The owner's and helpers' minutes by stage; `None` is work without a stage.
    pub by_stage: BTreeMap<Option<Id<Stage>>, Vec<i64>>,
    /// The owner's minutes by month worked and month of hand-over.
    pub by_months: BTreeMap<(Month, Month), Minutes>,
    /// Entries split by learned minutes.
    pub estimated: Vec<EstimatedEntry>,
    /// Whether the line's order has known hours.
    pub known: Vec<bool>,
    /// What each order lacks.
    pub hours_known: HoursKnown,
    /// The usual time of what orders lack, for those that lack any.
    pub usual_time: BTreeMap<Id<Order>, UsualTime>,
    /// By stage: the sums over the orders that have it.
    stage_sums: BTreeMap<Option<Id<Stage>>, StageSums>,
}

impl Labour {
    /// Computes the minutes and helper pay of each line, in the order of `lines`.
    ///
    /// # Errors
    /// [`TooLarge`] where a sum does not fit.
    pub fn of(
        shop: &Shop,
        lines: &Lines,
        bill: &Bill,
        minutes_each: &MinutesEach,
        unassigned: &mut UnassignedLog,
    ) -> Result<Self, TooLarge> {
        let mut labour = Self {
            owner_minutes: lines.zeros(),
            helper_minutes: lines.zeros(),
            helper_pay: lines.zeros(),
            piece_minutes: lines.zeros(),
            piece_helper_pay: lines.zeros(),
            by_level: [lines.zeros(), lines.zeros(), lines.zeros()],
            ..Self::default()
        };
        let splitter = Splitter::new(shop, lines, bill, minutes_each)?;
        labour.hours_known = HoursKnown::of(shop, lines, &splitter);
        let is_known = |line: usize| labour.hours_known.is_known(lines.spans[lines.span[line]].order, lines.kind[line]);
        labour.known = (0..lines.len()).map(is_known).collect();
        let key = |entry: &&Entry| EntryKey::of(entry);
        let mut entries: Vec<&Entry> = shop.hours.worked().collect();
        entries.sort_unstable_by_key(key);
        let summed: Vec<(EntryKey, i128)> = entries
            .chunk_by(|one, other| key(one) == key(other))
            .map(|equal| (key(&equal[0]), equal.iter().map(|entry| i128::from(entry.minutes)).sum()))
            .collect();
        let pay = helper_pay(shop, &summed)?;
        for ((entry, minutes), pay) in summed.into_iter().zip(pay) {
            match splitter.split(&entry, minutes)? {
                Some(split) => {
                    let of_pay = if pay == 0 { Split::default() } else { splitter.split(&entry, pay)?.ok_or(TooLarge)? };
                    labour.take(&entry, &split, &of_pay, shop.hours.shared_by(entry.stage), lines)?;
                    if minutes_each.from == MinutesFrom::Learned {
                        labour.estimated.extend(EstimatedEntry::of(&entry, minutes, pay, &splitter.served(&entry)));
                    }
                }
                None if entry.who.is_none() => {
                    unassigned.note(
                        entry.day,
                        Source::Hours(entry.stage),
                        Unassigned { owner_minutes: Minutes(minutes), ..Unassigned::default() },
                    );
                }
                None => {
                    let amount = Unassigned { helper_minutes: Minutes(minutes), helper_pay: Money(pay), ..Unassigned::default() };
                    unassigned.note(entry.day, Source::Hours(entry.stage), amount);
                }
            }
        }
        labour.usual_time = usual_time(lines, &splitter, &labour.hours_known, &labour.stage_sums)?;
        Ok(labour)
    }

    /// Returns the owner's and helpers' minutes of a line, in millionths.
    #[must_use]
    pub(crate) fn hands_on(&self, line: usize) -> i128 {
        i128::from(self.owner_minutes[line]) + i128::from(self.helper_minutes[line])
    }

    fn take(&mut self, entry: &EntryKey, split: &Split, of_pay: &Split, by: SharedBy, lines: &Lines) -> Result<(), TooLarge> {
        let stage = self.by_stage.entry(entry.stage).or_insert_with(|| lines.zeros());
        for (line, part) in &split.parts {
            add(stage, *line, *part)?;
            add(&mut self.by_level[split.level], *line, *part)?;
            if entry.who.is_some() {
                add(&mut self.helper_minutes, *line, *part)?;
            } else {
                add(&mut self.owner_minutes, *line, *part)?;
                *self.by_months.entry((entry.day.month(), lines.day(*line).month())).or_default() += Minutes(*part);
            }
        }
        for (line, part) in &of_pay.parts {
            add(&mut self.helper_pay, *line, *part)?;
        }
        let sums = self.stage_sums.entry(entry.stage).or_default();
        let has_it = |line: usize| self.hours_known.has(entry.stage, lines.spans[lines.span[line]].order);
        let of_having = |parts: &Parts| parts.iter().filter(|(line, _)| has_it(*line)).map(|(_, part)| part).sum::<i128>();
        sums.helper_pay += of_having(&of_pay.parts);
        if entry.who.is_none() {
            sums.owner_minutes += of_having(&split.parts);
        }
        if matches!(by, SharedBy::Pieces | SharedBy::Minutes) {
            if entry.who.is_none() {
                for (line, part) in split.of_pieces.as_ref().unwrap_or(&split.parts) {
                    add(&mut self.piece_minutes, *line, *part)?;
                }
            }
            for (line, part) in of_pay.of_pieces.as_ref().unwrap_or(&of_pay.parts) {
                add(&mut self.piece_helper_pay, *line, *part)?;
            }
        }
        Ok(())
    }
}

/// Computes the pay of each entry: a helper's rate × all of the helper's minutes, shared over the entries by minutes,
/// so that it adds up exactly.
fn helper_pay(shop: &Shop, entries: &[(EntryKey, i128)]) -> Result<Vec<i128>, TooLarge> {
    let mut pay = vec![0; entries.len()];
    for (who, helper) in shop.hours.helpers.pairs() {
        let rate = shop.settings.helpers.get(helper).copied().unwrap_or_default();
        let minutes: Vec<i128> = entries.iter().map(|(entry, minutes)| if entry.who == Some(who) { *minutes } else { 0 }).collect();
        let total = rate.per_hour_for(Minutes(minutes.iter().sum()))?;
        for (pay, part) in pay.iter_mut().zip(share::by_weight(total.0, &minutes)?.unwrap_or_default()) {
            *pay += part;
        }
    }
    Ok(pay)
}
