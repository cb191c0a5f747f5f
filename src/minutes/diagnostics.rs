//! Convergence diagnostics: whether the chains agree, and how many independent draws they are worth.
//!
//! Rank-normalised split R-hat, and effective sample sizes of bulk and tails: Vehtari, Gelman, Simpson, Carpenter and
//! Bürkner, "Rank-Normalization, Folding, and Localization" (Bayesian Analysis 16, 2021), with Geyer's (1992) initial
//! monotone sequence of paired autocorrelations.

use super::model::count;
use super::normal::quantile as normal_quantile;

/// Computes R-hat of one quantity over chains of equal length: the greater of those of the bulk and of the folded
/// draws.
#[must_use]
pub fn r_hat(chains: &[Vec<f64>]) -> f64 {
    let folded = {
        let middle = quantile(&mut chains.concat(), 0.5);
        chains.iter().map(|chain| chain.iter().map(|x| (x - middle).abs()).collect()).collect::<Vec<Vec<f64>>>()
    };
    let plain = |chains: &[Vec<f64>]| {
        let (within, total) = variances(&split(&normal_scores(chains)));
        (total / within).sqrt()
    };
    plain(chains).max(plain(&folded))
}

/// Computes the effective sample size of the bulk.
#[must_use]
pub fn ess_bulk(chains: &[Vec<f64>]) -> f64 {
    ess(&split(&normal_scores(chains)))
}

/// Computes the effective sample size of the tails: the lesser of those of the 5 % and 95 % quantiles.
#[must_use]
pub fn ess_tail(chains: &[Vec<f64>]) -> f64 {
    let mut all = chains.concat();
    let at = |all: &mut [f64], share: f64| {
        let point = quantile(all, share);
        let below: Vec<Vec<f64>> = chains.iter().map(|chain| chain.iter().map(|x| if *x <= point { 1.0 } else { 0.0 }).collect()).collect();
        ess(&split(&below))
    };
    at(&mut all, 0.05).min(at(&mut all, 0.95))
}

/// Computes a quantile by linear interpolation; sorts the numbers.
#[must_use]
pub fn quantile(numbers: &mut [f64], share: f64) -> f64 {
    numbers.sort_unstable_by(f64::total_cmp);
    sorted_quantile(numbers, share)
}

/// Computes a quantile of sorted numbers; zero if there are none.
#[must_use]
pub fn sorted_quantile(sorted: &[f64], share: f64) -> f64 {
    let Some(last) = sorted.len().checked_sub(1) else { return 0.0 };
    let place = share * count(last);
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a place among the numbers")]
    let at = (place.floor() as usize).min(last);
    let next = sorted[(at + 1).min(last)];
    sorted[at] + (place - count(at)) * (next - sorted[at])
}

/// Splits each chain in two halves, leaving out the middle draw of an odd number.
fn split(chains: &[Vec<f64>]) -> Vec<Vec<f64>> {
    chains
        .iter()
        .flat_map(|chain| {
            let half = chain.len() / 2;
            [chain[..half].to_vec(), chain[chain.len() - half..].to_vec()]
        })
        .collect()
}

/// Computes normal scores of the ranks over all chains; equal draws share their mean rank.
fn normal_scores(chains: &[Vec<f64>]) -> Vec<Vec<f64>> {
    let mut order: Vec<(f64, usize, usize)> = Vec::new();
    for (at, chain) in chains.iter().enumerate() {
        order.extend(chain.iter().enumerate().map(|(place, x)| (*x, at, place)));
    }
    order.sort_unstable_by(|one, other| one.0.total_cmp(&other.0).then((one.1, one.2).cmp(&(other.1, other.2))));
    let mut scores: Vec<Vec<f64>> = chains.iter().map(|chain| vec![0.0; chain.len()]).collect();
    let all = count(order.len());
    let mut start = 0;
    for equal in order.chunk_by(|one, other| one.0.total_cmp(&other.0).is_eq()) {
        let rank = count(start) + 0.5 * (count(equal.len()) + 1.0);
        start += equal.len();
        let score = normal_quantile((rank - 0.375) / (all + 0.25));
        for (_, chain, place) in equal {
            scores[*chain][*place] = score;
        }
    }
    scores
}

/// Computes the mean variance within chains, and the pooled estimate from within and between.
fn variances(chains: &[Vec<f64>]) -> (f64, f64) {
    let length = count(chains.first().map_or(0, Vec::len));
    let mean = |chain: &[f64]| chain.iter().sum::<f64>() / count(chain.len());
    let variance = |chain: &[f64]| {
        let mean = mean(chain);
        chain.iter().map(|x| (x - mean) * (x - mean)).sum::<f64>() / (count(chain.len()) - 1.0)
    };
    let within = chains.iter().map(|chain| variance(chain)).sum::<f64>() / count(chains.len());
    let means: Vec<f64> = chains.iter().map(|chain| mean(chain)).collect();
    (within, within * (length - 1.0) / length + variance(&means))
}

/// Computes the effective sample size of split chains.
fn ess(chains: &[Vec<f64>]) -> f64 {
    let (within, total) = variances(chains);
    let length = chains.first().map_or(0, Vec::len);
    let all = count(length * chains.len());
    if !(within > 0.0 && total.is_finite()) {
        // Constant draws count in full, as in the reference implementations.
        return all;
    }
    let centred: Vec<Vec<f64>> = chains
        .iter()
        .map(|chain| {
            let mean = chain.iter().sum::<f64>() / count(chain.len());
            chain.iter().map(|x| x - mean).collect()
        })
        .collect();
    // Mean over chains of the autocovariance at a lag, with the biased divisor.
    let autocovariance = |lag: usize| {
        let of = |chain: &[f64]| chain.iter().zip(&chain[lag..]).map(|(x, later)| x * later).sum::<f64>() / count(chain.len());
        centred.iter().map(|chain| of(chain)).sum::<f64>() / count(centred.len())
    };
    let correlation = |lag: usize| 1.0 - (within - autocovariance(lag) * count(length) / (count(length) - 1.0)) / total;
    let mut time = 0.0;
    let mut least = f64::INFINITY;
    let mut lag = 0;
    while lag + 1 < length {
        let pair = if lag == 0 { 1.0 + correlation(1) } else { correlation(lag) + correlation(lag + 1) };
        if pair <= 0.0 {
            break;
        }
        least = least.min(pair);
        time += 2.0 * least;
        lag += 2;
    }
    let time = (time - 1.0).max(1.0 / libm::log10(all));
    all / time
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::minutes::random::Random;

    #[test]
    fn quantiles_lie_between_neighbours_in_proportion() {
        assert!((quantile(&mut [4.0, 1.0, 2.0, 3.0], 0.5) - 2.5).abs() < 1e-15);
        assert!((quantile(&mut [5.0], 0.9) - 5.0).abs() < 1e-15);
        assert!((quantile(&mut [0.0, 10.0], 0.05) - 0.5).abs() < 1e-15);
    }

    fn chains(length: usize, mut of: impl FnMut(usize, f64, f64) -> f64) -> Vec<Vec<f64>> {
        (0..4)
            .map(|chain| {
                let mut random = Random::new(11, chain);
                let mut last = 0.0;
                (0..length)
                    .map(|_| {
                        last = of(usize::try_from(chain).unwrap(), last, random.normal());
                        last
                    })
                    .collect()
            })
            .collect()
    }

    #[test]
    fn independent_draws_agree_and_count_in_full() {
        let chains = chains(1000, |_, _, z| z);
        assert!(r_hat(&chains) < 1.005, "{}", r_hat(&chains));
        assert!((3300.0..4700.0).contains(&ess_bulk(&chains)), "{}", ess_bulk(&chains));
        assert!((3000.0..4700.0).contains(&ess_tail(&chains)), "{}", ess_tail(&chains));
    }

    #[test]
    fn draws_that_follow_each_other_count_for_less() {
        // A first-order autoregression of 0.9 is worth (1 − 0.9) ÷ (1 + 0.9) of its draws (a textbook's sum).
        let chains = chains(4000, |_, last, z| 0.9 * last + (1.0_f64 - 0.81).sqrt() * z);
        let expected = 16_000.0 * 0.1 / 1.9;
        assert!((ess_bulk(&chains) / expected - 1.0).abs() < 0.2, "{} for {expected}", ess_bulk(&chains));
    }

    #[test]
    fn chains_in_different_places_or_of_different_width_do_not_agree() {
        assert!(r_hat(&chains(500, |chain, _, z| z + if chain == 0 { 1.0 } else { 0.0 })) > 1.05);
        assert!(r_hat(&chains(500, |chain, _, z| z * if chain == 0 { 3.0 } else { 1.0 })) > 1.02);
    }
}
