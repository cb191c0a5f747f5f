//! What an hourly wage may be for all the logs say, and how sure a verdict on it is: from what each draw of the learned
//! minutes makes of a group.

use super::verdict::Verdict;
use crate::costing::posterior::DrawSums;
use crate::minutes::learned::Estimate;
use crate::minutes::model::count;
use crate::quantity::millionths::Money;
use rust_decimal::prelude::ToPrimitive;

/// How sure a verdict is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Certainty {
    /// At least 95 of 100 draws say so.
    Sure,
    /// At least 80 do.
    Likely,
    /// Fewer do.
    Open,
}

/// What an hourly wage may be, for all the logs say.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Interval {
    /// One draw in twenty pays less.
    pub low: Money,
    /// One in twenty pays more.
    pub high: Money,
    /// How sure the verdict is, where there is one.
    pub certainty: Option<Certainty>,
}

impl Interval {
    /// Of a group's draws, with the verdict to be judged. `None` where a draw has no minutes.
    #[must_use]
    pub fn of(draws: &DrawSums, verdict: Option<Verdict>, target: Option<Money>) -> Option<Self> {
        let wages = draws.pay.iter().zip(&draws.minutes).map(|(pay, minutes)| (*minutes > 0.0).then(|| pay / minutes * 60.0));
        let wages = wages.collect::<Option<Vec<f64>>>().filter(|wages| !wages.is_empty())?;
        let share = |holds: &dyn Fn(usize) -> bool| count((0..wages.len()).filter(|draw| holds(*draw)).count()) / count(wages.len());
        let target = target.map(|target| target.decimal().to_f64().unwrap_or_default());
        let reaches = |draw: usize| target.is_some_and(|target| wages[draw] >= target);
        let sure = verdict.map(|verdict| match verdict {
            Verdict::LosesMoney => share(&|draw| draws.pay[draw] < 0.0),
            Verdict::Pays => share(&reaches),
            Verdict::SetUpTooDear | Verdict::Underpaid => share(&|draw| !reaches(draw)),
        });
        let Estimate { low, high, .. } = Estimate::of(wages.clone());
        Some(Self { low: Money::from_estimate(low)?, high: Money::from_estimate(high)?, certainty: sure.map(Certainty::of) })
    }
}

impl Certainty {
    /// The word for it in JSON and CSV.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Sure => "sure",
            Self::Likely => "likely",
            Self::Open => "open",
        }
    }

    /// Of the share of draws that say so.
    fn of(share: f64) -> Self {
        if share >= 0.95 {
            Self::Sure
        } else if share >= 0.8 {
            Self::Likely
        } else {
            Self::Open
        }
    }
}
