//! Logged hours summed by stage or by month, and by who worked.

use super::stage_hours::Worked;
use crate::quantity::Month;
use crate::quantity::millionths::{MILLION, Minutes, Money};
use crate::quantity::ratio;
use std::collections::{BTreeMap, BTreeSet};

/// Minutes of work by some key: the owner's, each helper's and all together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct HoursBy<Key> {
    /// Who helped, by name.
    pub helpers: Vec<String>,
    /// By key: minutes of the owner, of each of `helpers`, and their sum.
    pub rows: Vec<(Key, Vec<Minutes>)>,
    /// The same in all.
    pub total: Vec<Minutes>,
}

/// By stage, most hours first; a stage that is not written is `None`. Waiting is no work.
#[must_use]
pub(crate) fn by_stage(worked: &[Worked]) -> HoursBy<Option<String>> {
    let mut by = HoursBy::of(worked, |of| of.stage.clone());
    by.rows.sort_by_key(|(stage, minutes)| (minutes.last().map(|minutes| -*minutes), stage.clone()));
    by
}

/// By month, in their order.
#[must_use]
pub(crate) fn by_month(worked: &[Worked]) -> HoursBy<Month> {
    HoursBy::of(worked, |of| of.month)
}

/// Minutes spent waiting, never paid.
#[must_use]
pub fn waiting(worked: &[Worked]) -> Minutes {
    worked.iter().filter(|of| of.waiting).map(|of| of.minutes).sum()
}

/// A part of a whole, in millionths.
#[must_use]
pub fn share(part: Minutes, whole: Minutes) -> Money {
    Money(ratio::multiply_divide(part.0, MILLION, whole.0.max(1)).unwrap_or_default())
}

impl<Key: Ord> HoursBy<Key> {
    fn of(worked: &[Worked], key: impl Fn(&Worked) -> Key) -> Self {
        let work = || worked.iter().filter(|of| !of.waiting);
        let helpers: BTreeSet<&str> = work().filter_map(|of| of.who.as_deref()).collect();
        let none = vec![Minutes::ZERO; helpers.len() + 2];
        let mut rows: BTreeMap<Key, Vec<Minutes>> = BTreeMap::new();
        let mut total = none.clone();
        for of in work() {
            let column = of.who.as_deref().and_then(|who| helpers.iter().position(|helper| *helper == who)).map_or(0, |at| at + 1);
            for cells in [rows.entry(key(of)).or_insert_with(|| none.clone()), &mut total] {
                cells[column] += of.minutes;
                cells[helpers.len() + 1] += of.minutes;
            }
        }
        Self { helpers: helpers.into_iter().map(str::to_owned).collect(), rows: rows.into_iter().collect(), total }
    }
}
