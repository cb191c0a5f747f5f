//! Hours and costs not tied to an order, by what they are for.

use crate::costing::Costed;
use crate::costing::unassigned::{OfSource, Source, Unassigned};
use crate::quantity::{Month, Period};
use crate::shop::Shop;

/// The purpose of hours or costs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum For {
    /// An overhead, by its name.
    Overhead(String),
    /// A stage of work, by its name; `None` where the hours name no stage.
    Stage(Option<String>),
    /// An item of the stock, by its name.
    Item(String),
}

/// Hours or costs of one purpose that no order carries.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Untied {
    /// Their purpose.
    pub what: For,
    /// The first and last month they lie in.
    pub months: (Month, Month),
    /// Their amount.
    pub amount: Unassigned,
}

/// Lists what is not tied to an order in a period: the dearest first, hours after costs.
#[must_use]
pub(crate) fn untied(shop: &Shop, costed: &Costed, period: Period) -> Vec<Untied> {
    let named = |OfSource { source, days: (first, last), amount }: OfSource| Untied {
        what: match source {
            Source::Overhead(what) => For::Overhead(what),
            Source::Hours(stage) => For::Stage(stage.map(|stage| shop.hours.stages.text(stage).to_owned())),
            Source::Item(item) => For::Item(shop.item_names.text(item).to_owned()),
        },
        months: (first.month(), last.month()),
        amount,
    };
    let mut untied: Vec<Untied> = costed.unassigned.by_source(period).into_iter().map(named).collect();
    untied.retain(|untied| untied.amount != Unassigned::default());
    untied.sort_by_key(|untied| (-untied.amount.cost().0.abs(), -(untied.amount.owner_minutes + untied.amount.helper_minutes)));
    untied
}
