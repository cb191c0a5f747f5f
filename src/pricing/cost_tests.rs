//! The smallest order worth its set-up, worked out by hand.

use super::cost::{Mix, Smallest, WholeOrder, smallest};
use crate::quantity::millionths::{MILLION, Minutes, Money};

fn dollars(cents: i128) -> Money {
    Money(cents * 10_000)
}

fn minutes(whole: i128) -> Minutes {
    Minutes(whole * MILLION)
}

#[test]
fn an_hour_of_set_up_wants_ten_pieces_that_leave_two_dollars_each() {
    // Worked by hand: (2 + 20) ÷ (4.00 − 0.80 − 3 minutes at 20 an hour) = 22 ÷ 2.20 = 10.
    let order = WholeOrder { cost: dollars(200), minutes: minutes(60) };
    let mix = Mix { pieces: 1, kept: dollars(400), cost: dollars(80), minutes: minutes(3) };
    assert_eq!(smallest(&order, &mix, dollars(2000)), Ok(Smallest::From { pieces: 10, mixes: 10 * MILLION }));
    let dearer = WholeOrder { cost: dollars(201), ..order };
    assert_eq!(smallest(&dearer, &mix, dollars(2000)).map(Smallest::pieces), Ok(Some(11)));
}

#[test]
fn a_piece_that_brings_no_more_than_it_takes_pays_at_no_size() {
    let order = WholeOrder { cost: dollars(200), minutes: minutes(60) };
    let mix = Mix { pieces: 1, kept: dollars(180), cost: dollars(80), minutes: minutes(3) };
    assert_eq!(smallest(&order, &mix, dollars(2000)), Ok(Smallest::Never));
    assert_eq!(smallest(&order, &Mix { pieces: 0, ..mix }, dollars(0)), Ok(Smallest::Never));
    // Without a wage every piece leaves a dollar.
    assert_eq!(smallest(&order, &mix, dollars(0)).map(Smallest::pieces), Ok(Some(2)));
}

#[test]
fn one_piece_is_the_least_even_without_set_up() {
    let mix = Mix { pieces: 1, kept: dollars(180), cost: dollars(80), minutes: minutes(0) };
    assert_eq!(smallest(&WholeOrder::default(), &mix, dollars(2000)).map(Smallest::pieces), Ok(Some(1)));
}
