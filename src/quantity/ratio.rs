//! Exact multiplication and division of integers, checked and rounded half away from zero.

use ethnum::I256;

/// A figure does not fit the integer that holds it: some number in the logs is absurdly large.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("a total in this shop is too large to be held exactly; look for a mistyped number")]
pub struct TooLarge;

/// `a × b ÷ divisor`, rounded half away from zero.
///
/// # Errors
/// [`TooLarge`] if the result does not fit 128 bits or the divisor is 0.
pub(crate) fn multiply_divide(a: i128, b: i128, divisor: i128) -> Result<i128, TooLarge> {
    if divisor == 0 {
        return Err(TooLarge);
    }
    match a.checked_mul(b) {
        Some(product) => divide(product, divisor),
        None => divide_wide(I256::from(a) * I256::from(b), I256::from(divisor)),
    }
}

/// `a ÷ divisor`, rounded half away from zero.
///
/// # Errors
/// [`TooLarge`] if the divisor is 0.
pub fn divide(a: i128, divisor: i128) -> Result<i128, TooLarge> {
    let quotient = a.checked_div(divisor).ok_or(TooLarge)?;
    let remainder = (a % divisor).unsigned_abs();
    let away = i128::from(remainder >= divisor.unsigned_abs() - remainder && remainder != 0);
    Ok(if (a < 0) == (divisor < 0) { quotient + away } else { quotient - away })
}

fn divide_wide(a: I256, divisor: I256) -> Result<i128, TooLarge> {
    let quotient = a / divisor;
    let remainder = (a % divisor).abs();
    let away = I256::from(i8::from(remainder != 0 && remainder >= divisor.abs() - remainder));
    let rounded = if (a < 0) == (divisor < 0) { quotient + away } else { quotient - away };
    i128::try_from(rounded).map_err(|_| TooLarge)
}

/// Narrows to the 64 bits a column holds.
///
/// # Errors
/// [`TooLarge`] where it does not fit.
pub fn narrow(value: i128) -> Result<i64, TooLarge> {
    i64::try_from(value).map_err(|_| TooLarge)
}

/// A figure is doubted from this many times what is usual, or this part of it.
const FAR: i128 = 8;

/// Whether a figure is so far from what is usual that it is likelier a slip of the pen. Neither may be 0 or less.
#[must_use]
pub(crate) fn is_far(figure: i128, usual: i128) -> bool {
    figure > 0 && usual > 0 && (figure >= usual.saturating_mul(FAR) || figure.saturating_mul(FAR) <= usual)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn halves_round_away_from_zero() {
        for (a, divisor, expected) in
            [(5, 2, 3), (-5, 2, -3), (5, -2, -3), (-5, -2, 3), (4, 3, 1), (-4, 3, -1), (0, 7, 0), (1, 3, 0), (2, 3, 1)]
        {
            assert_eq!(divide(a, divisor), Ok(expected), "{a} ÷ {divisor}");
        }
    }

    #[test]
    fn nil_divisors_and_overflow_are_errors_not_panics() {
        assert_eq!(divide(1, 0), Err(TooLarge));
        assert_eq!(divide(i128::MIN, -1), Err(TooLarge));
        assert_eq!(multiply_divide(i128::MAX, 2, 1), Err(TooLarge));
        assert_eq!(multiply_divide(i128::MAX, 6, 12), Ok(i128::MAX / 2 + 1));
        assert_eq!(narrow(i128::from(i64::MAX) + 1), Err(TooLarge));
    }

    proptest! {
        /// The narrow path is checked against the wide one.
        #[test]
        fn narrow_and_wide_paths_agree(a in -1_000_000_000_000_i128..1_000_000_000_000, b in -1_000_000_i128..1_000_000, d in 1_i128..1_000_000_000) {
            prop_assert_eq!(multiply_divide(a, b, d), divide_wide(I256::from(a) * I256::from(b), I256::from(d)));
        }
    }

    #[test]
    fn far_is_eight_times_or_an_eighth() {
        assert_eq!([31, 32, 1, 0].map(|figure| is_far(figure, 4)), [false, true, false, false]);
        assert_eq!([5, 6].map(|figure| is_far(figure, 40)), [true, false]);
    }
}
