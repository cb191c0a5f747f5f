//! The quantile of the normal distribution, and the half-normal as a function of a normal score.
//!
//! Wichura's algorithm AS 241 (Applied Statistics 37, 1988), PPND16: sixteen digits, in plain Rust.

/// Computes the quantile of the standard normal distribution.
#[must_use]
pub fn quantile(share: f64) -> f64 {
    let off = share - 0.5;
    if off < 0.0 { -upper(-off, share) } else { upper(off, 1.0 - share) }
}

/// Maps a standard normal score to the half-normal with scale 1 that has the same share below it. Also returns the
/// derivative.
#[must_use]
pub(crate) fn half_normal(score: f64) -> (f64, f64) {
    let below = 0.5 * libm::erfc(-score / std::f64::consts::SQRT_2);
    let above = 0.5 * libm::erfc(score / std::f64::consts::SQRT_2);
    let value = upper(0.5 * below, 0.5 * above);
    (value, 0.5 * libm::exp(0.5 * (value * value - score * score)))
}

/// Computes the quantile of a share above ½, given both share − ½ and the tail 1 − share: neither can be computed
/// from the other without loss.
fn upper(off: f64, tail: f64) -> f64 {
    let ratio = |r: f64, over: [f64; 8], under: [f64; 8]| {
        let sum = |of: [f64; 8]| of.iter().rev().fold(0.0, |sum, factor| sum * r + factor);
        sum(over) / sum(under)
    };
    if off <= 0.425 {
        return off * ratio(0.180_625 - off * off, NEAR_OVER, NEAR_UNDER);
    }
    let r = (-libm::log(tail)).sqrt();
    if r <= 5.0 { ratio(r - 1.6, MIDDLE_OVER, MIDDLE_UNDER) } else { ratio(r - 5.0, FAR_OVER, FAR_UNDER) }
}

/// Coefficients of AS 241 near the middle, as published; `OVER` is the numerator, `UNDER` the denominator.
const NEAR_OVER: [f64; 8] = [
    3.387_132_872_796_366_5,
    133.141_667_891_784_38,
    1_971.590_950_306_551_3,
    13_731.693_765_509_46,
    45_921.953_931_549_87,
    67_265.770_927_008_7,
    33_430.575_583_588_13,
    2_509.080_928_730_122_7,
];
const NEAR_UNDER: [f64; 8] = [
    1.0,
    42.313_330_701_600_91,
    687.187_007_492_057_9,
    5_394.196_021_424_751,
    21_213.794_301_586_597,
    39_307.895_800_092_71,
    28_729.085_735_721_943,
    5_226.495_278_852_545,
];
/// Coefficients for tails down to e⁻²⁵.
const MIDDLE_OVER: [f64; 8] = [
    1.423_437_110_749_683_5,
    4.630_337_846_156_546,
    5.769_497_221_460_691,
    3.647_848_324_763_204_5,
    1.270_458_252_452_368_4,
    0.241_780_725_177_450_6,
    0.022_723_844_989_269_184,
    7.745_450_142_783_414e-4,
];
const MIDDLE_UNDER: [f64; 8] = [
    1.0,
    2.053_191_626_637_759,
    1.676_384_830_183_803_8,
    0.689_767_334_985_1,
    0.148_103_976_427_480_08,
    0.015_198_666_563_616_457,
    5.475_938_084_995_345e-4,
    1.050_750_071_644_416_9e-9,
];
/// Coefficients for tails beyond.
const FAR_OVER: [f64; 8] = [
    6.657_904_643_501_103,
    5.463_784_911_164_114,
    1.784_826_539_917_291_3,
    0.296_560_571_828_504_87,
    0.026_532_189_526_576_124,
    0.001_242_660_947_388_078_4,
    2.711_555_568_743_487_6e-5,
    2.010_334_399_292_288_1e-7,
];
const FAR_UNDER: [f64; 8] = [
    1.0,
    0.599_832_206_555_887_9,
    0.136_929_880_922_735_8,
    0.014_875_361_290_850_615,
    7.868_691_311_456_133e-4,
    1.846_318_317_510_054_7e-5,
    1.421_511_758_316_446e-7,
    2.044_263_103_389_939_8e-15,
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_quantile_gives_the_values_its_author_published() {
        // Wichura 1988, test values of PPND16.
        for (share, expected) in [(0.25, -0.674_489_750_196_081_7), (0.001, -3.090_232_306_167_813_5), (1e-20, -9.262_340_089_798_408)] {
            assert!((quantile(share) - expected).abs() < 1e-14, "{share}");
        }
        assert!((quantile(0.75) + quantile(0.25)).abs() < 1e-15);
    }

    #[test]
    fn a_half_normal_has_the_same_share_below_it_as_its_score() {
        // P(|Z| < 0.674…) = 1/2, P(|Z| < 1.959…) = 0.95 and its score is the quantile of 0.95 (any table).
        let (middle, slope) = half_normal(0.0);
        assert!((middle - 0.674_489_750_196_081_7).abs() < 1e-14);
        assert!((half_normal(1.644_853_626_951_472_7).0 - 1.959_963_984_540_054).abs() < 1e-13);
        let (left, right) = (half_normal(-1e-5).0, half_normal(1e-5).0);
        assert!(((right - left) / 2e-5 - slope).abs() < 1e-9);
        assert!(half_normal(-30.0).0 > 0.0 && (half_normal(-5.0).0 / 3.592_4e-7 - 1.0).abs() < 1e-3);
        assert!((half_normal(8.0).0 - 8.0).abs() < 0.1);
    }
}
