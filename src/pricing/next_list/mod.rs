//! Next season's price list: the ladder for a season's fair prices, what it pays, and what it puts at risk.

mod at_risk;
mod ladder;
mod list;
mod maker;
mod rows;

use super::alternatives::{AtToday, alternatives};
use super::cost::{Season, Smallest};
use super::error::PricingError;
use super::figures::{Both, Totals};
use super::lines::Line;
use super::season::Reference;
use super::what_if::Compared;
use crate::costing::{Costed, Options};
use crate::ids::{Design, Id};
use crate::quantity::millionths::Money;
use crate::shop::Shop;
pub use at_risk::{MayLose, Orders};
pub use list::{DesignRow, FairParts, NextList, TierRow, Unsold};
pub use maker::Wanted;
use maker::{Maker, Sold};
use std::collections::{BTreeMap, BTreeSet};

/// Makes the list. `costed` is the shop as it was, costed with `options`.
///
/// # Errors
/// [`PricingError`], which says why there is none.
pub fn next_list(shop: &Shop, costed: &Costed, options: Options, wanted: &Wanted) -> Result<NextList, PricingError> {
    let reference = Reference { period: wanted.season, day: wanted.starts, unassigned: wanted.unassigned, costs: &wanted.costs };
    let season = Season::at_present(shop, costed, reference)?;
    let mut sold = Vec::new();
    for (design, pieces) in season.sold.pairs().filter(|(_, pieces)| **pieces > 0) {
        if let Some(old_price) = season.old_price[design] {
            sold.push(Sold { design, pieces: *pieces, old_price, piece: season.piece(design)? });
        }
    }
    if sold.is_empty() {
        return Err(PricingError::NothingSold);
    }
    if !season.has_hours() {
        return Err(PricingError::NoHours);
    }
    let kept = season.kept().ok_or(PricingError::NothingKept)?;
    let maker = Maker { shop, wanted, season: &season, kept, day: wanted.starts };
    let (ladder, tier_names) = maker.ladder(&sold)?;
    let mut rows = Vec::new();
    for (step, name) in ladder.steps.iter().zip(&tier_names) {
        for at in &step.designs {
            let row = maker.row(&sold[*at], name, step.price)?;
            rows.push(DesignRow { under_floor: step.under_floor.contains(at), ..row });
        }
    }
    let compared = maker.compared(costed, options, |row| row.new_price, &rows)?;
    let all_in = both_all_in(&compared);
    // A raise is a raise over today's list, not over what the season began with.
    let today = maker.compared(costed, options, |row| row.old_price, &rows)?;
    let today_all_in = both_all_in(&today).after;
    let compared = Compared { before: today.after, unassigned: (today.unassigned.1, compared.unassigned.1), ..compared };
    let wage_before = today_all_in.wage();
    let mut tiers = Vec::new();
    for (step, name) in ladder.steps.iter().zip(&tier_names) {
        let members: Vec<&DesignRow> = rows.iter().filter(|row| row.new_tier == *name).collect();
        tiers.push(maker.tier(&members, step, &compared, wage_before)?);
    }
    rows::fill_fewer_hours(kept, &mut tiers)?;
    let today = rows.iter().map(|row| AtToday {
        tier: row.old_tier.clone().unwrap_or_else(|| row.key.clone()),
        pieces: row.pieces,
        price: row.old_price,
        piece: row.piece,
    });
    let new_prices: BTreeMap<Id<Design>, Money> = rows.iter().map(|row| (row.design, row.new_price)).collect();
    let old_names: BTreeSet<String> = rows.iter().filter_map(|row| row.old_tier.clone()).collect();
    Ok(NextList {
        target: wanted.target,
        floor: wanted.floor,
        unsold: maker.unsold(&rows, &tiers),
        gone: old_names.into_iter().filter(|name| !tier_names.contains(name)).collect(),
        orders: at_risk::orders(&compared, wage_before, &all_in)?,
        smallest: season.smallest_order(|design| new_prices.get(&design).copied(), wanted.target)?.unwrap_or(Smallest::Never),
        alternatives: alternatives(&season, kept, &today.collect::<Vec<AtToday>>(), wanted.target)?,
        search_thinned: ladder.thinned,
        season,
        rows,
        tiers,
        all_in,
        today: today_all_in,
    })
}

/// The sums of both, with what is unassigned.
fn both_all_in(compared: &Compared) -> Both {
    let sum = |lines: &[Line]| Totals::of(lines.iter());
    Both { before: sum(&compared.before).all_in(&compared.unassigned.0), after: sum(&compared.after).all_in(&compared.unassigned.1) }
}
