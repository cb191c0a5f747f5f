//! The prices a shop writes: whole amounts and its endings, as one rising row.

use crate::quantity::millionths::{MILLION, Money, minor_decimals};

/// Every price above 0 on the shop's endings, by its place in their row.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Endings {
    /// Rising, below one step, never empty.
    endings: Vec<i128>,
    /// One main unit, or ten, a hundred … where prices are large.
    step: i128,
}

/// The endings of a shop that chose none.
const QUARTERS: [i128; 4] = [0, MILLION / 4, MILLION / 2, MILLION * 3 / 4];

/// Whole prices from this up are not written with endings nobody chose.
const LARGE: i128 = 100 * MILLION;
/// Steps between 0 and the largest price, at the least.
const STEPS: i128 = 20;

impl Endings {
    /// Of a shop's endings: those its currency can write, or whole amounts where it can write none of them. Where a shop chose none,
    /// and its `prices` are all whole and reach a hundred (rupees, rupiah, yen), whole amounts; tens, hundreds and so on where all of
    /// its prices are, as long as the largest is twenty of them.
    #[must_use]
    pub fn of(endings: &[Money], currency: &str, prices: &[Money]) -> Self {
        let decimals = minor_decimals(currency);
        let unit = 10_i128.pow(6 - decimals);
        let largest = prices.iter().map(|price| price.0).max().unwrap_or_default();
        let all_in = |step: i128| prices.iter().all(|price| price.0 % step == 0);
        let chosen = endings.iter().map(|ending| ending.0).ne(QUARTERS) && decimals > 0;
        if !chosen && largest >= LARGE && all_in(MILLION) {
            let steps = std::iter::successors(Some(MILLION), |step| step.checked_mul(10));
            let step = steps.take_while(|step| step.saturating_mul(STEPS) <= largest && all_in(*step)).last();
            return Self { endings: vec![0], step: step.unwrap_or(MILLION) };
        }
        let mut endings: Vec<i128> = endings.iter().map(|ending| ending.0).filter(|ending| ending % unit == 0).collect();
        endings.sort_unstable();
        endings.dedup();
        if endings.is_empty() {
            endings.push(0);
        }
        Self { endings, step: MILLION }
    }

    fn count(&self) -> i128 {
        i128::try_from(self.endings.len()).unwrap_or(1)
    }

    /// The price at a place.
    #[must_use]
    pub fn price(&self, place: i128) -> Money {
        let ending = usize::try_from(place.rem_euclid(self.count())).unwrap_or_default();
        Money(place.div_euclid(self.count()) * self.step + self.endings[ending])
    }

    /// The place of the least price above 0 that is not below an amount.
    #[must_use]
    pub(crate) fn at_least(&self, amount: Money) -> i128 {
        let amount = amount.0.max(1);
        let (whole, rest) = (amount.div_euclid(self.step), amount.rem_euclid(self.step));
        let ending = self.endings.partition_point(|ending| *ending < rest);
        whole * self.count() + i128::try_from(ending).unwrap_or_default()
    }

    /// The place of the greatest price that is not above an amount; that price may be 0 or less.
    #[must_use]
    pub(crate) fn at_most(&self, amount: Money) -> i128 {
        let (whole, rest) = (amount.0.div_euclid(self.step), amount.0.rem_euclid(self.step));
        let ending = self.endings.partition_point(|ending| *ending <= rest);
        whole * self.count() + i128::try_from(ending).unwrap_or_default() - 1
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn cents(cents: i128) -> Money {
        Money(cents * 10_000)
    }

    #[test]
    fn prices_end_as_the_shop_writes_them() {
        let quarters = Endings::of(&[0, 25, 50, 75].map(cents), "USD", &[]);
        for (amount, up, down) in [(301, 325, 300), (325, 325, 325), (376, 400, 375), (1, 25, 0), (0, 25, 0)] {
            assert_eq!(quarters.price(quarters.at_least(cents(amount))), cents(up), "{amount}");
            assert_eq!(quarters.price(quarters.at_most(cents(amount))), cents(down), "{amount}");
        }
        let nines = Endings::of(&[cents(95)], "USD", &[]);
        assert_eq!((nines.price(nines.at_least(cents(300))), nines.price(nines.at_most(cents(300)))), (cents(395), cents(295)));
    }

    #[test]
    fn a_currency_without_decimals_has_whole_prices() {
        let yen = Endings::of(&[0, 25, 50, 75].map(cents), "JPY", &[]);
        assert_eq!(yen.price(yen.at_least(cents(30_010))), cents(30_100));
        assert_eq!(Endings::of(&[cents(50)], "JPY", &[]), Endings::of(&[], "USD", &[]));
        let tens = Endings::of(&[], "JPY", &[cents(45_000), cents(70_000)]);
        let rupiah = Endings::of(&[0, 25, 50, 75].map(cents), "IDR", &[cents(3_250_000), cents(13_250_000)]);
        assert_eq!(rupiah.price(rupiah.at_least(cents(3_250_001))), cents(3_260_000));
        let rupees = Endings::of(&[0, 25, 50, 75].map(cents), "INR", &[cents(19_500), cents(24_000)]);
        assert_eq!(rupees.price(rupees.at_least(cents(19_501))), cents(19_600));
        let chosen = Endings::of(&[cents(50)], "INR", &[cents(19_500), cents(24_000)]);
        assert_eq!(chosen.price(chosen.at_least(cents(19_501))), cents(19_550));
        assert_eq!((tens.price(tens.at_least(cents(45_100))), tens.price(tens.at_most(cents(45_900)))), (cents(46_000), cents(45_000)));
    }

    proptest! {
        #[test]
        fn places_and_prices_go_both_ways(amount in 1_i128..50_000_000, endings in prop::collection::btree_set(0_i128..100, 1..6)) {
            let endings = Endings::of(&endings.into_iter().map(cents).collect::<Vec<_>>(), "USD", &[]);
            let (up, down) = (endings.at_least(Money(amount)), endings.at_most(Money(amount)));
            prop_assert!(endings.price(up) >= Money(amount) && endings.price(up - 1) < Money(amount));
            prop_assert!(endings.price(down) <= Money(amount) && endings.price(down + 1) > Money(amount));
        }
    }
}
