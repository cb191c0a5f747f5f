//! Hours as logged: by stage, month and person, with unattended ones apart from work.

use crate::quantity::millionths::Minutes;
use crate::quantity::{Month, Period};
use crate::shop::Shop;
use std::collections::BTreeMap;

/// Minutes of one stage in one month by one person.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Worked {
    /// The stage; `None` where none is written.
    pub stage: Option<String>,
    /// The month it was worked in.
    pub month: Month,
    /// The helper; `None` is the owner.
    pub who: Option<String>,
    /// Whether it is unattended, and so never paid.
    pub waiting: bool,
    /// Minutes logged.
    pub minutes: Minutes,
}

/// Sums the hours logged in a period by stage, month and person, in this order.
#[must_use]
pub(crate) fn stage_hours(shop: &Shop, period: Period) -> Vec<Worked> {
    let mut sums: BTreeMap<(Option<String>, Month, Option<String>, bool), Minutes> = BTreeMap::new();
    for entry in shop.hours.entries.iter().filter(|entry| period.holds(entry.day)) {
        let stage = entry.stage.map(|stage| shop.hours.stages.text(stage).to_owned());
        let who = entry.who.map(|who| shop.hours.helpers.text(who).to_owned());
        let waiting = shop.hours.is_unattended(entry);
        *sums.entry((stage, entry.day.month(), who, waiting)).or_default() += Minutes(entry.minutes.into());
    }
    sums.into_iter().map(|((stage, month, who, waiting), minutes)| Worked { stage, month, who, waiting, minutes }).collect()
}
