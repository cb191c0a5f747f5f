//! The range that most amounts lie in, so that a few far out do not flatten the rest.

use rust_decimal::Decimal;

/// Fewer amounts than this have no quarters to speak of.
const FEW: usize = 8;
/// Beyond this many widths of the middle half an amount is far out: the outer fences of John W. Tukey, "Exploratory
/// Data Analysis" (1977), from memory.
const WIDTHS: i64 = 3;

/// Finds the least and the greatest of `amounts` that are not far out; 0 to 0 for none. Where the middle half is all one
/// amount, nothing is far out.
pub fn within(mut amounts: Vec<Decimal>) -> (Decimal, Decimal) {
    amounts.sort_unstable();
    let (Some(least), Some(greatest)) = (amounts.first(), amounts.last()) else { return (Decimal::ZERO, Decimal::ZERO) };
    let (lower, upper) = (amounts[amounts.len() / 4], amounts[amounts.len() - 1 - amounts.len() / 4]);
    let reach = upper.saturating_sub(lower).saturating_mul(Decimal::from(WIDTHS));
    if amounts.len() < FEW || reach.is_zero() {
        return (*least, *greatest);
    }
    let fences = lower.saturating_sub(reach)..=upper.saturating_add(reach);
    let mut inside = amounts.iter().filter(|amount| fences.contains(amount));
    let first = inside.next().unwrap_or(least);
    (*first, *inside.next_back().unwrap_or(first))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(amounts: &[i64]) -> (i64, i64) {
        let (low, high) = within(amounts.iter().copied().map(Decimal::from).collect());
        (low.try_into().unwrap(), high.try_into().unwrap())
    }

    #[test]
    fn what_is_far_out_on_either_side_is_left_out() {
        assert_eq!(of(&[10, 12, 14, 16, 18, 20, 22, 24]), (10, 24));
        // Quarters at 14 and 20: the fences stand at −4 and 38.
        assert_eq!(of(&[-4, 12, 14, 16, 18, 20, 22, 38]), (-4, 38));
        assert_eq!(of(&[-5, 12, 14, 16, 18, 20, 22, 39]), (12, 22));
    }

    #[test]
    fn few_amounts_or_equal_ones_all_count() {
        assert_eq!(of(&[]), (0, 0));
        assert_eq!(of(&[7]), (7, 7));
        assert_eq!(of(&[1, 2, 3, 4000]), (1, 4000));
        assert_eq!(of(&[5, 5, 5, 5, 5, 5, 5, 5, 900]), (5, 900));
        assert_eq!(within(vec![Decimal::MIN, Decimal::MAX]), (Decimal::MIN, Decimal::MAX));
        assert_eq!(within([vec![Decimal::MIN; 5], vec![Decimal::MAX; 5]].concat()), (Decimal::MIN, Decimal::MAX));
    }
}
