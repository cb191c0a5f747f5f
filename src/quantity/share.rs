//! Divides a total into whole parts that add up to it, by largest remainder.
//!
//! Each part gets the whole units of its exact share; the units left over go, one each, to the parts
//! with the largest remainders (Hamilton's method, as in apportionment). Ties go to the earlier part, so
//! callers put parts in an order that does not depend on the order of rows.

use super::ratio::TooLarge;
use ethnum::{I256, U256};
use std::cmp::Reverse;

/// Divides `total` in proportion to `weights`, none of them negative: one part per weight, in their order. A negative total is divided
/// like its positive mirror image. `None` if all weights are 0.
///
/// # Errors
/// [`TooLarge`] where the weights' sum does not fit 128 bits.
pub(crate) fn by_weight(total: i128, weights: &[i128]) -> Result<Option<Vec<i128>>, TooLarge> {
    debug_assert!(weights.iter().all(|&weight| weight >= 0), "weights are never negative");
    let mut base: u128 = 0;
    for weight in weights {
        base = base.checked_add(weight.unsigned_abs()).ok_or(TooLarge)?;
    }
    if base == 0 {
        return Ok(None);
    }
    let size = total.unsigned_abs();
    // Every weight is at most the base, so one check covers every product.
    let fits = size.checked_mul(base).is_some();
    let mut parts = Vec::with_capacity(weights.len());
    let mut remainders = Vec::with_capacity(weights.len());
    let mut given: u128 = 0;
    for weight in weights {
        let (part, remainder) = exact_part(size, weight.unsigned_abs(), base, fits);
        given += part;
        parts.push(part);
        remainders.push(remainder);
    }
    let left = usize::try_from(size - given).map_err(|_| TooLarge)?;
    for index in largest(&remainders, left) {
        parts[index] += 1;
    }
    let sign = if total < 0 { -1 } else { 1 };
    parts.into_iter().map(|part| i128::try_from(part).map(|p| p * sign).map_err(|_| TooLarge)).collect::<Result<_, _>>().map(Some)
}

/// Divides `total` into `count` equal parts; the first parts get the units left over. `None` if `count` is 0.
///
/// # Errors
/// As [`by_weight`].
pub fn equally(total: i128, count: usize) -> Result<Option<Vec<i128>>, TooLarge> {
    by_weight(total, &vec![1; count])
}

/// Rounds exact parts, numerators over one positive divisor, to whole numbers that add up to `total`. The total lies less than one
/// unit from their exact sum, or one unit where the sums it was taken from were rounded apart: then the largest part bears that unit.
/// A part that comes out even stays as it is.
///
/// # Errors
/// [`TooLarge`] where a part does not fit 128 bits.
pub(crate) fn to_total(total: i128, numerators: &[I256], divisor: I256) -> Result<Vec<i128>, TooLarge> {
    let mut parts = Vec::with_capacity(numerators.len());
    let mut left = total;
    for numerator in numerators {
        let part = i128::try_from(numerator.div_euclid(divisor)).map_err(|_| TooLarge)?;
        left = left.checked_sub(part).ok_or(TooLarge)?;
        parts.push(part);
    }
    let remainders: Vec<I256> = numerators.iter().map(|numerator| numerator.rem_euclid(divisor)).collect();
    let uneven = remainders.iter().filter(|remainder| **remainder != I256::ZERO).count();
    for index in largest(&remainders, usize::try_from(left).unwrap_or_default().min(uneven)) {
        parts[index] += 1;
        left -= 1;
    }
    if left != 0 {
        let index = (0..parts.len()).max_by_key(|at| (parts[*at].abs(), Reverse(*at))).ok_or(TooLarge)?;
        parts[index] = parts[index].checked_add(left).ok_or(TooLarge)?;
    }
    Ok(parts)
}

fn exact_part(size: u128, weight: u128, base: u128, fits: bool) -> (u128, u128) {
    if fits {
        let product = size * weight;
        (product / base, product % base)
    } else {
        let product = U256::from(size) * U256::from(weight);
        ((product / U256::from(base)).as_u128(), (product % U256::from(base)).as_u128())
    }
}

/// Indices of the `count` largest remainders, earlier ones first among equals.
fn largest<T: Ord + Copy>(remainders: &[T], count: usize) -> Vec<usize> {
    if count == 0 {
        return Vec::new();
    }
    let mut order: Vec<usize> = (0..remainders.len()).collect();
    let rank = |&index: &usize| (Reverse(remainders[index]), index);
    if count < order.len() {
        order.select_nth_unstable_by_key(count - 1, rank);
        order.truncate(count);
    }
    order
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_dollar_in_three_gives_the_odd_cent_to_the_first() {
        assert_eq!(equally(100, 3), Ok(Some(vec![34, 33, 33])));
        assert_eq!(equally(-100, 3), Ok(Some(vec![-34, -33, -33])));
    }

    #[test]
    fn the_largest_remainder_wins_before_the_earlier_place() {
        // Quotas 1.67, 3.33, 5.00 of 10: the first has the larger remainder.
        assert_eq!(by_weight(10, &[1, 2, 3]), Ok(Some(vec![2, 3, 5])));
        assert_eq!(by_weight(1, &[1, 2]), Ok(Some(vec![0, 1])));
    }

    #[test]
    fn no_base_gives_no_shares() {
        assert_eq!(by_weight(5, &[]), Ok(None));
        assert_eq!(by_weight(5, &[0, 0]), Ok(None));
        assert_eq!(by_weight(0, &[0, 3]), Ok(Some(vec![0, 0])));
    }

    #[test]
    fn sums_past_128_bits_are_an_error() {
        assert_eq!(by_weight(1, &[i128::MAX, i128::MAX, i128::MAX]), Err(TooLarge));
        assert_eq!(by_weight(i128::MAX, &[i128::MAX / 2, i128::MAX / 2]), Ok(Some(vec![i128::MAX / 2 + 1, i128::MAX / 2])));
    }

    fn rounded(total: i128, numerators: &[i128], divisor: i128) -> Vec<i128> {
        let wide: Vec<I256> = numerators.iter().copied().map(I256::from).collect();
        to_total(total, &wide, I256::from(divisor)).unwrap()
    }

    #[test]
    fn parts_go_to_the_largest_remainders_and_nil_stays_nil() {
        // Quotas 0.4, −0.7, 2.6 of 2: floors 0, −1, 2; the remainders 0.4, 0.3, 0.6.
        assert_eq!(rounded(2, &[4, -7, 26], 10), [0, -1, 3]);
        assert_eq!(rounded(3, &[4, 0, 26], 10), [0, 0, 3]);
        assert_eq!(rounded(0, &[0, 0], 10), [0, 0]);
    }

    #[test]
    fn a_unit_that_rounding_put_over_goes_to_the_largest() {
        // 5.0 exactly, but both ends were rounded away from each other: 6, or 4.
        assert_eq!(rounded(6, &[10, 40], 10), [1, 5]);
        assert_eq!(rounded(4, &[10, 40], 10), [1, 3]);
    }

    #[test]
    fn exact_parts_past_128_bits_are_an_error() {
        let most = I256::from(i128::MAX);
        assert_eq!(to_total(0, &[most * most], I256::ONE), Err(TooLarge));
    }

    proptest! {
        #[test]
        fn parts_add_up_and_lie_within_one_of_the_quota(total in -1_000_000_000_i128..1_000_000_000, weights in prop::collection::vec(0_i128..10_000, 1..40)) {
            let base: i128 = weights.iter().sum();
            match by_weight(total, &weights).unwrap() {
                None => prop_assert_eq!(base, 0),
                Some(parts) => {
                    prop_assert_eq!(parts.iter().sum::<i128>(), total);
                    for (part, weight) in parts.iter().zip(&weights) {
                        prop_assert!((part * base - total * weight).abs() < base, "part {part} of weight {weight}");
                    }
                }
            }
        }
    }
}
