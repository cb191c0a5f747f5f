//! What the stages that an order lacks usually take (DESIGN §4, "At their usual time").
//!
//! A stage's minutes over the orders that have it, divided by what it is shared by, times the same of the order. By
//! minutes per piece that is set-up + colours + pieces × minutes each, scaled by what was logged ÷ what was expected.

use super::hours_known::HoursKnown;
use super::lines::{Lines, Span};
use super::splitter::Splitter;
use crate::ids::{Id, Order, Stage};
use crate::quantity::TooLarge;
use crate::quantity::millionths::{Minutes, Money};
use crate::quantity::ratio::multiply_divide;
use std::collections::{BTreeMap, HashMap};

/// The work an order lacks, at its usual time.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct UsualTime {
    /// The owner's minutes.
    pub owner_minutes: Minutes,
    /// Pay for the helpers' part of it.
    pub helper_pay: Money,
}

/// What the orders that have a stage took in it, in millionths.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct StageSums {
    /// The owner's minutes.
    pub owner_minutes: i128,
    /// Helper pay.
    pub helper_pay: i128,
}

/// Computes the usual time of the work that each order lacks, for orders that lack any.
///
/// # Errors
/// [`TooLarge`] where a figure does not fit.
pub(super) fn usual_time(
    lines: &Lines,
    splitter: &Splitter<'_>,
    known: &HoursKnown,
    logged: &BTreeMap<Option<Id<Stage>>, StageSums>,
) -> Result<BTreeMap<Id<Order>, UsualTime>, TooLarge> {
    let done: Vec<&Span> = lines.spans.iter().filter(|span| span.is_done()).collect();
    let mut bases = Bases { splitter, known, done: &done, found: HashMap::new() };
    let mut usual = BTreeMap::new();
    for span in &done {
        let lacks = &known.lacks[span.order];
        let mut lacking: Vec<(Option<Id<Stage>>, Of)> =
            lacks.stages.iter().chain(&lacks.of_delivery).map(|stage| (Some(*stage), Of::Having)).collect();
        if lacks.hours {
            // Without any hours it lacks all kinds of work, each in the measure that orders with hours have it.
            let is_other = |stage: &Option<Id<Stage>>| !known.has(*stage, span.order) && !lacking.iter().any(|(of, _)| of == stage);
            let others: Vec<Option<Id<Stage>>> = logged.keys().copied().filter(is_other).collect();
            lacking.extend(others.into_iter().map(|stage| (stage, Of::Named)));
        }
        if lacking.is_empty() {
            continue;
        }
        let mut time = UsualTime::default();
        for (stage, of) in lacking {
            let Some(sums) = logged.get(&stage) else { continue };
            let (base, own) = (bases.total(stage, of)?, splitter.base(stage, span)?);
            if base > 0 {
                time.owner_minutes += Minutes(multiply_divide(sums.owner_minutes, own, base)?);
                time.helper_pay += Money(multiply_divide(sums.helper_pay, own, base)?);
            }
        }
        usual.insert(span.order, time);
    }
    Ok(usual)
}

/// The orders that a stage's minutes are spread over.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
enum Of {
    /// Those that have the stage.
    Having,
    /// All that entries name: only some of them take the stage.
    Named,
}

/// Sums of what stages are shared by, worked out once each.
struct Bases<'a> {
    splitter: &'a Splitter<'a>,
    known: &'a HoursKnown,
    done: &'a [&'a Span],
    found: HashMap<(Option<Id<Stage>>, Of), i128>,
}

impl Bases<'_> {
    fn total(&mut self, stage: Option<Id<Stage>>, of: Of) -> Result<i128, TooLarge> {
        if let Some(found) = self.found.get(&(stage, of)) {
            return Ok(*found);
        }
        let mut total = 0_i128;
        for span in self.done {
            let counts = match of {
                Of::Having => self.known.has(stage, span.order),
                Of::Named => self.known.is_named(span.order),
            };
            if counts {
                total = total.checked_add(self.splitter.base(stage, span)?).ok_or(TooLarge)?;
            }
        }
        self.found.insert((stage, of), total);
        Ok(total)
    }
}
