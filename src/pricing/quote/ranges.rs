//! The 90 % ranges of a quote: its sums in every draw of the learned minutes.

use super::answer::{Quote, Weighted};
use crate::ids::{Design, Id};
use crate::minutes::model::count;
use crate::pricing::cost::Season;
use crate::pricing::draws::minutes_range;
use crate::pricing::work::{Work, real};

/// Fills in ranges and chance. A new design is in each draw like one of its tier's others, as often as they are sold, so that how
/// those differ widens the ranges.
pub(super) fn fill_ranges(quote: &mut Quote, season: &Season, designs: &[Weighted], colours: f64) {
    let kept = season.after_fees();
    let drawn = season.drawn(|at, draw, pace| {
        let (mut materials, mut minutes) = (real(season.order_cost.0) / 1e6, Work::of_set_up(pace, colours));
        for (line, designs) in quote.lines.iter().zip(designs) {
            let designs = if line.is_new { std::slice::from_ref(by_turns(designs, at)) } else { designs };
            let pieces = real(line.pieces.into());
            materials += pieces * mean(designs, |design| real(season.materials[design].0) / 1e6);
            minutes += pieces * mean(designs, |design| season.work.of_piece(pace, draw, design));
        }
        (materials, minutes)
    });
    quote.fair = drawn.fair_price(quote.target, kept);
    quote.wage_range = drawn.wage(quote.price, kept);
    quote.chance = drawn.chance(quote.price, kept, quote.target);
    quote.minutes_range = minutes_range(drawn.work().map(|minutes| minutes * season.owners_share()));
}

fn mean(designs: &[(Id<Design>, i64)], of: impl Fn(Id<Design>) -> f64) -> f64 {
    let weight = |weight: i64| real(i128::from(weight));
    let weights: f64 = designs.iter().map(|(_, count)| weight(*count)).sum();
    designs.iter().map(|(design, count)| of(*design) * weight(*count)).sum::<f64>() / weights
}

/// One of some designs: over many turns each as often as its weight, evenly spread (multiples of the golden ratio's fraction).
fn by_turns(designs: &Weighted, turn: usize) -> &(Id<Design>, i64) {
    const GOLDEN: f64 = 0.618_033_988_749_894_9;
    let weights: f64 = designs.iter().map(|(_, weight)| real(i128::from(*weight))).sum();
    let mut left = (count(turn) * GOLDEN).fract() * weights;
    let found = designs.iter().find(|(_, weight)| {
        left -= real(i128::from(*weight));
        left < 0.0
    });
    found.unwrap_or(&designs[designs.len() - 1])
}
