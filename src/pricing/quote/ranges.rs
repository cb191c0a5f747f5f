//! What the logs fit of a quote: its sums in every draw of learned minutes.

use super::{Like, Quote, Sums};
use crate::ids::{Design, Id};
use crate::minutes::learned::Estimate;
use crate::minutes::model::count;
use crate::pricing::change::Times;
use crate::pricing::work::{Work, real};
use crate::quantity::millionths::{Minutes, Money};

impl Sums<'_> {
    /// What the logs fit: the same sums in every draw. A new design is in each draw like one of its tier's others, as often as they
    /// are sold, so that how those differ widens the ranges.
    pub(super) fn ranges(&self, quote: &mut Quote, colours: f64, kept: Times) {
        let season = self.season;
        let kept = real(kept.numerator) / real(kept.divisor);
        let target = real(quote.target.0) / 1e6;
        let price = real(quote.price.0) / 1e6;
        let owner = real(season.rates.owner.0) / real(season.rates.hands_on.0.max(1));
        let draws: Vec<(f64, f64, f64)> = season
            .draws
            .iter()
            .enumerate()
            .map(|(at, (draw, pace))| {
                let (mut materials, mut minutes) = (real(season.order_cost.0) / 1e6, Work::of_set_up(pace, colours));
                for (line, like) in self.lines.iter().zip(&self.likes) {
                    let like = if line.is_new { std::slice::from_ref(by_turns(like, at)) } else { like };
                    let weights: f64 = like.iter().map(|(_, weight)| real(i128::from(*weight))).sum();
                    let mean = |of: &dyn Fn(Id<Design>) -> f64| {
                        like.iter().map(|(design, weight)| of(*design) * real(i128::from(*weight))).sum::<f64>() / weights
                    };
                    let pieces = real(line.pieces.into());
                    materials += pieces * mean(&|design| real(season.materials[design].0) / 1e6);
                    minutes += pieces * mean(&|design| season.work.of_piece(pace, draw, design));
                }
                let (cost, time) = season.carried(minutes);
                (materials + cost, time, minutes * owner)
            })
            .collect();
        if draws.is_empty() {
            return;
        }
        let range = |of: &dyn Fn(&(f64, f64, f64)) -> f64| Estimate::of(draws.iter().map(of).collect());
        let money = |of: Estimate| Money::from_estimate(of.low).zip(Money::from_estimate(of.high));
        let wage = |(cost, time, _): &(f64, f64, f64)| if *time > 0.0 { (price * kept - cost) / time * 60.0 } else { 0.0 };
        quote.fair = money(range(&|(cost, time, _)| (cost + target * time / 60.0) / kept));
        quote.wage_range = money(range(&wage));
        let minutes = range(&|(_, _, minutes)| *minutes);
        quote.minutes_range = Minutes::from_estimate(minutes.low).zip(Minutes::from_estimate(minutes.high));
        let reached = draws.iter().filter(|draw| wage(draw) >= target).count();
        quote.chance = Money::from_estimate(count(reached) / count(draws.len()));
    }
}

/// One of some designs: over many turns each as often as its weight, evenly spread (multiples of the golden ratio's fraction).
fn by_turns(like: &Like, turn: usize) -> &(Id<Design>, i64) {
    const GOLDEN: f64 = 0.618_033_988_749_894_9;
    let weights: f64 = like.iter().map(|(_, weight)| real(i128::from(*weight))).sum();
    let mut left = (count(turn) * GOLDEN).fract() * weights;
    let found = like.iter().find(|(_, weight)| {
        left -= real(i128::from(*weight));
        left < 0.0
    });
    found.unwrap_or(&like[like.len() - 1])
}
