//! The same question has the same answer, whichever command it is put to.

use super::{CARD, by_hand, json};
use crate::demo::SHOP;
use crate::harness::repository;
use fairdozen::costing::{MinutesBy, Options, cost};
use fairdozen::period::{last_year, latest_month};
use fairdozen::pricing::next_list::{Wanted, next_list};
use fairdozen::pricing::order_size::Smallest;
use fairdozen::pricing::season::next_start;
use fairdozen::quantity::Period;
use fairdozen::review::Review;
use fairdozen::shop::load::{Folder, Skipped};
use std::collections::BTreeMap;
use std::path::Path;

/// From how many pieces on an order pays its set-up at today's list, by the review of the latest month and by the next list.
fn smallest_by_both(folder: &Path, minutes: MinutesBy) -> [Option<Smallest>; 2] {
    let shop = Folder::open(folder).load(&Skipped::new()).shop.unwrap();
    let options = Options { minutes, ..Options::default() };
    let costed = cost(&shop, options).unwrap();
    let review = Review::of(&shop, &costed, Period::of(latest_month(&shop).unwrap())).unwrap();
    let wanted = Wanted {
        target: shop.settings.target.unwrap(),
        floor: shop.settings.floor,
        tiers: None,
        keep: false,
        max_rise: None,
        unassigned: true,
        costs: BTreeMap::new(),
        season: last_year(&shop),
        starts: next_start(&shop),
    };
    let list = next_list(&shop, &costed, options, &wanted).unwrap();
    [review.smallest_order, Some(list.instead.smallest)]
}

#[test]
fn the_smallest_order_of_the_review_is_that_of_the_price_list() {
    for minutes in [MinutesBy::Card, MinutesBy::Learned { trend: false }] {
        let [review, list] = smallest_by_both(&repository(SHOP), minutes);
        assert_eq!(review, list, "{minutes:?}");
        assert!(review.is_some(), "{minutes:?}");
    }
}

/// 3.00 less 4 minutes at 6.00 an hour leaves 2.60, 9.00 less 12 minutes 7.80; three acorns and a gate leave 15.60. Twenty minutes
/// of planning cost 2.00: an eighth of that, half a piece, so that one is enough. At 40.00 an hour the four leave 2.00 and planning
/// costs 13.33: from 27 pieces on.
#[test]
fn a_quote_of_the_usual_mix_has_the_same_smallest_order() {
    for (target, pieces) in [("6.00", 1), ("40.00", 27)] {
        let shop = by_hand(target);
        let [review, list] = smallest_by_both(shop.path(), MinutesBy::Card);
        let quoted = json(shop.path(), "quote", &[&["12 acorn, 4 gate"][..], &CARD].concat());
        assert_eq!((review.and_then(Smallest::pieces), list.and_then(Smallest::pieces)), (Some(pieces), Some(pieces)), "{target}");
        assert_eq!(quoted["smallest_order"], pieces, "{target}");
    }
}
