//! The range of an hourly wage and how sure its verdict is, from a group's pay and minutes in each posterior draw.

use super::verdict::Verdict;
use crate::costing::posterior::DrawSums;
use crate::minutes::learned::Estimate;
use crate::minutes::model::count;
use crate::quantity::millionths::Money;
use rust_decimal::prelude::ToPrimitive;

/// How sure a verdict is: the share of draws that agree with it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Certainty {
    /// At least 95 %.
    Sure,
    /// At least 80 %.
    Likely,
    /// Less than 80 %: the logs cannot tell yet.
    Open,
}

/// The 90 % range of an hourly wage.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Interval {
    /// The 5 % quantile.
    pub low: Money,
    /// The 95 % quantile.
    pub high: Money,
    /// How sure the verdict is, if there is one.
    pub certainty: Option<Certainty>,
}

impl Interval {
    /// Computes the range of a group's draws, and how sure its verdict is. `None` if a draw has no minutes.
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
    /// Returns its name in JSON and CSV.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Sure => "sure",
            Self::Likely => "likely",
            Self::Open => "open",
        }
    }

    /// Grades the share of draws that agree.
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
