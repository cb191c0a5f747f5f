//! The ladder against all ladders there are.

use super::endings::Endings;
use super::ladder::{Ladder, LadderDesign, NoLadder, Rules, Score, best, best_of_row, by_fair_price, price_together};
use crate::quantity::Factor;
use crate::quantity::Percent;
use crate::quantity::millionths::Money;
use proptest::prelude::*;
use std::collections::BTreeMap;

fn cents(cents: i128) -> Money {
    Money(cents * 10_000)
}

fn design(name: &str, pieces: i64, old: i128, needs: i128, tier: usize) -> LadderDesign {
    LadderDesign { name: name.into(), pieces, old: cents(old), tier: Some(tier), needs: cents(needs), floor_needs: None }
}

fn rules(max_rise: Option<i64>) -> Rules {
    Rules {
        kept: Factor { numerator: 97, divisor: 100 },
        endings: Endings::of(&[0, 25, 50, 75].map(cents), "USD", &[]),
        max_rise: max_rise.map(|percent| Percent(percent * 1_000_000)),
    }
}

/// Every cut of the designs in a row and every choice of rising prices up to a high one, tried in turn.
fn by_trial(all: &[LadderDesign], tiers: usize, rules: &Rules) -> Option<Score> {
    let order = by_fair_price(all);
    let prices: Vec<Money> = (1..=48).map(|place| rules.endings.price(place)).collect();
    let mut least: Option<Score> = None;
    let mut ends = Vec::new();
    go(&order, all, rules, &prices, tiers.min(all.len()), &mut ends, &mut least);
    least
}

/// Every cut of what is left, at every higher price.
fn go(
    order: &[usize],
    all: &[LadderDesign],
    rules: &Rules,
    prices: &[Money],
    left: usize,
    ends: &mut Vec<(Vec<usize>, Money)>,
    least: &mut Option<Score>,
) {
    if left == 0 {
        if order.is_empty() {
            let score =
                ends.iter().try_fold(Score::default(), |sum, (designs, price)| Some(sum + plain_score(all, designs, *price, rules)?));
            if let Some(mut score) = score {
                score.out_of_place += strays(all, ends, rules);
                *least = Some(least.map_or(score, |known| known.min(score)));
            }
        }
        return;
    }
    for end in 1..=order.len() {
        for (at, price) in prices.iter().enumerate() {
            ends.push((order[..end].to_vec(), *price));
            go(&order[end..], all, rules, &prices[at + 1..], left - 1, ends, least);
            ends.pop();
        }
    }
}

/// The score of one tier as the design page says it, in fractions.
fn plain_score(all: &[LadderDesign], designs: &[usize], price: Money, rules: &Rules) -> Option<Score> {
    let Factor { numerator, divisor } = rules.kept;
    let up = |missing: i128| if missing <= 0 { 0 } else { (missing + divisor - 1) / divisor };
    let of = |figure: &dyn Fn(&LadderDesign) -> i128| designs.iter().map(|design| figure(&all[*design])).sum::<i128>();
    let brought = of(&|one| price.0 * i128::from(one.pieces)) * numerator;
    let mut short = up(of(&|one| one.needs.0 * i128::from(one.pieces)) * divisor - brought);
    short += of(&|one| one.floor_needs.map_or(0, |needs| up((needs.0 * divisor - price.0 * numerator) * i128::from(one.pieces))));
    match rules.max_rise {
        None if short > 0 => return None,
        Some(rise) => {
            let within = |one: &LadderDesign| price.0 * Percent::WHOLE <= one.old.0 * (Percent::WHOLE + i128::from(rise.0));
            if !designs.iter().all(|design| within(&all[*design])) {
                return None;
            }
        }
        None => {}
    }
    let mut together: BTreeMap<usize, i64> = BTreeMap::new();
    for tier in designs.iter().filter_map(|design| all[*design].tier) {
        *together.entry(tier).or_default() += 1;
    }
    let narrow = |sum: i128| i64::try_from(sum).unwrap();
    Some(Score {
        short: narrow(short),
        out_of_place: i64::try_from(
            designs.iter().filter(|design| price < all[**design].old && price.0 < fair(all, **design, rules)).count(),
        )
        .unwrap(),
        movement: narrow(of(&|one| (price.0 - one.old.0).abs() * i128::from(one.pieces))),
        moved: i64::try_from(designs.len()).unwrap() - together.values().max().copied().unwrap_or(0),
        prices: narrow(price.0 * i128::try_from(designs.len()).unwrap()),
    })
}

/// The score of a whole ladder, added up from its steps.
fn score_of(ladder: &Ladder, all: &[LadderDesign], rules: &Rules) -> Score {
    let steps: Vec<(Vec<usize>, Money)> = ladder.steps.iter().map(|step| (step.designs.clone(), step.price)).collect();
    let sum = steps.iter().map(|(designs, price)| plain_score(all, designs, *price, rules).unwrap()).fold(Score::default(), |a, b| a + b);
    Score { out_of_place: sum.out_of_place + strays(all, &steps, rules), ..sum }
}

/// The list price that pays the target, rounded up.
fn fair(all: &[LadderDesign], design: usize, rules: &Rules) -> i128 {
    let Factor { numerator, divisor } = rules.kept;
    (all[design].needs.0 * divisor + numerator - 1).div_euclid(numerator)
}

/// Meeting places of tiers where the design on one side is farther from its own price than from the other side's, by more than a quarter
/// and by both of its own.
fn strays(all: &[LadderDesign], steps: &[(Vec<usize>, Money)], rules: &Rules) -> i64 {
    let by_both = |design: usize, farther: &dyn Fn(i128) -> bool| farther(fair(all, design, rules)) && farther(all[design].old.0);
    let strays = |pair: &[(Vec<usize>, Money)]| {
        let ((low, below), (high, above)) = (&pair[0], &pair[1]);
        by_both(low[low.len() - 1], &|amount| (amount - below.0) * 4 > (above.0 - amount) * 5)
            || by_both(high[0], &|amount| (above.0 - amount) * 4 > (amount - below.0) * 5)
    };
    i64::try_from(steps.windows(2).filter(|pair| strays(pair)).count()).unwrap()
}

fn some_designs() -> impl Strategy<Value = Vec<LadderDesign>> {
    let one = (1_i64..40, 40_i128..700, 40_i128..900, 0_usize..3, prop::option::of(30_i128..700));
    prop::collection::vec(one, 1..5).prop_map(|all| {
        let of = |(at, (pieces, old, needs, tier, floor)): (usize, (i64, i128, i128, usize, Option<i128>))| LadderDesign {
            floor_needs: floor.map(|floor| cents(floor.min(needs))),
            // Odd fractions of a cent, as worked-out needs have.
            needs: Money(needs * 10_000 + 3_337),
            ..design(&format!("design {at}"), pieces, old, needs, tier)
        };
        all.into_iter().enumerate().map(of).collect()
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]

    /// Every division into tiers and every rising row of prices, against the one found.
    #[test]
    fn no_ladder_is_better_than_the_one_found(all in some_designs(), tiers in 1_usize..4, cap in prop::option::of(0_i64..80)) {
        let rules = rules(cap);
        let found = best(&all, tiers, &rules);
        match by_trial(&all, tiers, &rules) {
            None => prop_assert_eq!(found, Err(NoLadder::Capped)),
            Some(least) => {
                let ladder = found.unwrap();
                prop_assert_eq!(ladder.score, least);
                prop_assert_eq!(score_of(&ladder, &all, &rules), least);
                prop_assert_eq!(ladder.steps.len(), tiers.min(all.len()));
                prop_assert!(ladder.steps.windows(2).all(|pair| pair[0].price < pair[1].price));
            }
        }
    }

    /// The same where the row of prices is too long to be tried whole.
    #[test]
    fn candidates_alone_find_it_too(all in some_designs(), tiers in 1_usize..4, cap in prop::option::of(0_i64..80)) {
        let rules = rules(cap);
        let (few, whole) = (best_of_row(&all, tiers, &rules, 0), best(&all, tiers, &rules));
        if let (Ok(few), Ok(whole)) = (&few, &whole) {
            prop_assert_eq!((few.thinned, whole.thinned), (tiers.min(all.len()) > 1, false));
        }
        prop_assert_eq!(few.map(|ladder| ladder.score), whole.map(|ladder| ladder.score));
    }

    /// Names decide ties, so the order the designs come in changes nothing.
    #[test]
    fn the_order_of_designs_changes_nothing(all in some_designs(), tiers in 1_usize..4, turn in 0_usize..4) {
        let rules = rules(None);
        let named = |all: &[LadderDesign]| -> Vec<(Vec<String>, Money)> {
            let ladder = best(all, tiers, &rules).unwrap();
            ladder.steps.iter().map(|step| (step.designs.iter().map(|design| all[*design].name.clone()).collect(), step.price)).collect()
        };
        let mut turned = all.clone();
        turned.rotate_left(turn % all.len());
        prop_assert_eq!(named(&all), named(&turned));
    }
}

#[test]
fn prices_that_pay_stay_and_those_that_do_not_rise_no_further_than_they_must() {
    // 0.97 of the price is kept: 2.91 of 3.00 is enough for 2.90; 4.50 leaves 4.365, and 4.60 needs 4.75.
    let all = [design("moth", 10, 300, 290, 0), design("kite", 10, 450, 460, 1)];
    let ladder = best(&all, 2, &rules(None)).unwrap();
    assert_eq!(ladder.steps.iter().map(|step| step.price).collect::<Vec<_>>(), [cents(300), cents(475)]);
    assert_eq!(i128::from(ladder.score.movement), cents(25).0 * 10);
}

/// Prices far above what they need are left where they are.
#[test]
fn well_paid_tiers_do_not_fall() {
    let ladder = best(&[design("acorn", 12, 300, 150, 0), design("gate", 4, 900, 390, 1)], 2, &rules(None)).unwrap();
    assert_eq!(ladder.score, Score { prices: 12_000_000, ..Score::default() });
}

/// Without the rule, a moth at 15.25 would pay for foxes that need 17.25: less is moved that way.
#[test]
fn a_cheap_design_is_not_put_among_dear_ones_to_pay_for_them() {
    let all = [design("kite", 70, 475, 488, 0), design("moth", 80, 650, 771, 1), design("fox", 250, 1100, 1673, 2)];
    let ladder = best(&all, 2, &rules(None)).unwrap();
    assert_eq!(ladder.steps.iter().map(|step| step.designs.len()).collect::<Vec<_>>(), [2, 1]);
    assert_eq!(ladder.steps[1].price, cents(1725));
}

/// A kite that stands nearer to the foxes would keep their capped price down: it stays below, since what is short comes first.
#[test]
fn nearness_never_makes_a_capped_ladder_shorter_of_its_target() {
    let all = [design("moth", 1, 300, 300, 0), design("kite", 1, 800, 800, 1), design("fox", 10, 900, 2000, 1)];
    let ladder = best(&all, 2, &rules(Some(30))).unwrap();
    assert_eq!(ladder.steps.iter().map(|step| step.designs.len()).collect::<Vec<_>>(), [2, 1]);
    assert_eq!(ladder.steps.iter().map(|step| step.price).collect::<Vec<_>>(), [cents(375), cents(1150)]);
    assert_eq!((ladder.score.out_of_place, Some(ladder.score)), (1, by_trial(&all, 2, &rules(Some(30)))));
}

/// Acorns at 4.75 lie between moths at 3.25 and scenes: moths need not fall for acorns to stand nearer to the scenes.
#[test]
fn no_tier_falls_for_another_to_be_near() {
    let all = [design("moth", 1200, 325, 290, 0), design("acorn", 700, 475, 450, 1), design("scene", 300, 650, 630, 2)];
    let ladder = best(&all, 2, &rules(None)).unwrap();
    assert_eq!(ladder.steps[0].price, cents(325));
    assert_eq!((ladder.score.out_of_place, Some(ladder.score)), (0, by_trial(&all, 2, &rules(None))));
}

#[test]
fn a_capped_ladder_says_what_it_falls_short_by() {
    let all = [design("moth", 10, 300, 290, 0), design("fox", 4, 1000, 1940, 1)];
    let ladder = best(&all, 2, &rules(Some(15))).unwrap();
    // 11.50 leaves 11.155 of the 19.40 needed, four times.
    assert_eq!((ladder.steps[1].price, ladder.steps[1].short), (cents(1150), Money(4 * 8_245_000)));
    assert_eq!(ladder.steps[0].short, Money::ZERO);
    // Three designs of one price cannot have three prices within nothing above it but by falling.
    let alike: Vec<LadderDesign> = ["a", "b", "c"].iter().map(|name| design(name, 1, 50, 10, 0)).collect();
    assert_eq!(best(&alike, 3, &rules(Some(0))), Err(NoLadder::Capped));
}

#[test]
fn the_floor_lifts_a_tier_whose_mean_would_pay() {
    let mut all = vec![design("moth", 90, 300, 200, 0), design("heron", 10, 300, 600, 0)];
    assert_eq!(best(&all, 1, &rules(None)).unwrap().steps[0].price, cents(300));
    all[1].floor_needs = Some(cents(480));
    assert_eq!(best(&all, 1, &rules(None)).unwrap().steps[0].price, cents(500));
    assert_eq!(price_together(&all, &[0, 1], &rules(None)).unwrap().price, cents(500));
}

#[test]
fn more_tiers_than_allare_as_many_as_designs() {
    let ladder = best(&[design("moth", 1, 300, 200, 0)], 8, &rules(None)).unwrap();
    assert_eq!(ladder.steps.len(), 1);
    let nothing = Rules { kept: Factor { numerator: 0, divisor: 1 }, ..rules(None) };
    assert_eq!(best(&[design("moth", 1, 300, 200, 0)], 1, &nothing), Err(NoLadder::NothingKept));
}
