//! Chooses what to time next: the batches of one design whose minutes would take the most error out of a season's.
//!
//! Preposterior analysis (Raiffa and Schlaifer, "Applied Statistical Decision Theory", 1961; Chaloner and Verdinelli,
//! "Bayesian Experimental Design: A Review", Statistical Science 10, 1995): the loss is Σ pieces × E|minutes' error|,
//! and a timing is worth the fall of the loss that is expected of it. Absolute errors are the draws' own; a timing
//! scales them as it scales the standard deviations, which follow from the draws' covariance by linear Bayes
//! (Goldstein and Wooff, "Bayes Linear Statistics", 2007). So nothing is simulated, and a timing is worth what it says
//! of all designs, not of its own alone.
//!
//! The batches are chosen greedily, each given those before it: whoever times only one or two has timed the best, and
//! three are as good as the best of all triples to within a hundredth (a test). Losses of this kind are nearly
//! supermodular, which is why (Chamon and Ribeiro, "Approximate Supermodularity Bounds for Experimental Design", NIPS
//! 2017).

use super::learned::{Draw, Estimate};
use super::model::{DEGREES_OF_FREEDOM, count};
use crate::ids::{Design, Id};

/// The expected effect of timing a batch of one design, after those chosen before it.
#[derive(Debug, Clone, PartialEq)]
pub struct Timing {
    /// The design.
    pub design: Id<Design>,
    /// Pieces of the batch to time: as in a usual order.
    pub pieces: f64,
    /// Minutes by which Σ pieces sold × |estimate − true minutes| would fall, over all designs.
    pub narrowing: f64,
    /// Width of the design's own 90 % interval now, and as expected after this batch and those before it.
    pub own: (f64, f64),
}

/// Most designs whose timing is considered, those with the largest losses first.
const CONSIDERED: usize = 24;
/// Most designs whose losses are computed, the largest first: a timing says little of the others.
const COUNTED: usize = 200;

/// A design that might be timed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Candidate {
    /// The design.
    pub design: Id<Design>,
    /// Pieces of it in a usual order.
    pub batch: f64,
    /// Pieces sold in the season that prices are set by.
    pub sold: f64,
}

/// Chooses the designs to time, each given those before it, from posterior draws and the noise of timed batches. If
/// there are many candidates, only the designs with the largest losses are considered.
#[must_use]
pub fn timings(draws: &[Draw], timed_noise: f64, candidates: &[Candidate]) -> Vec<Timing> {
    let mut beliefs: Vec<Belief> = candidates.iter().map(|candidate| Belief::of(draws, *candidate)).collect();
    beliefs.sort_by(|one, other| other.loss().total_cmp(&one.loss()).then(one.candidate.design.cmp(&other.candidate.design)));
    beliefs.truncate(COUNTED);
    let mut joint = Joint::of(draws, beliefs, timed_noise);
    let mut left: Vec<usize> = (0..joint.covariances.len()).filter(|at| joint.beliefs[*at].candidate.batch > 0.0).collect();
    let mut chosen = Vec::with_capacity(left.len());
    while !left.is_empty() {
        let gains = left.iter().map(|at| joint.gain(*at)).enumerate();
        // The first of equals, which has the largest loss.
        let (place, gain) = gains.fold((0, f64::NEG_INFINITY), |best, next| if next.1 > best.1 { next } else { best });
        let at = left.remove(place);
        joint.condition(at);
        let Belief { candidate, width, .. } = joint.beliefs[at];
        let own = (width, width * joint.beliefs[at].ratio(joint.variances[at]));
        chosen.push(Timing { design: candidate.design, pieces: candidate.batch, narrowing: gain.max(0.0), own });
    }
    chosen
}

/// What the draws say of a design's minutes.
#[derive(Debug, Clone, Copy)]
struct Belief {
    candidate: Candidate,
    mean: f64,
    variance: f64,
    /// Mean distance of the draws from their median: the expected error of the estimate.
    error: f64,
    /// Width of the 90 % interval.
    width: f64,
}

impl Belief {
    fn of(draws: &[Draw], candidate: Candidate) -> Self {
        let number = count(draws.len().max(1));
        let each = || draws.iter().map(|draw| draw.each[candidate.design]);
        let mean = each().sum::<f64>() / number;
        let estimate = Estimate::of(each().collect());
        Self {
            candidate,
            mean,
            variance: each().map(|minutes| (minutes - mean) * (minutes - mean)).sum::<f64>() / number,
            error: each().map(|minutes| (minutes - estimate.median).abs()).sum::<f64>() / number,
            width: estimate.high - estimate.low,
        }
    }

    fn loss(&self) -> f64 {
        self.candidate.sold * self.error
    }

    /// Computes by how much errors shrink as the variance falls to another.
    fn ratio(&self, variance: f64) -> f64 {
        if self.variance > 0.0 { (variance.max(0.0) / self.variance).sqrt() } else { 1.0 }
    }
}

/// Beliefs with their covariances, as timings change them.
struct Joint {
    beliefs: Vec<Belief>,
    /// Variances by belief.
    variances: Vec<f64>,
    /// Covariances with all beliefs, of each of the first beliefs: those whose timing is considered.
    covariances: Vec<Vec<f64>>,
    /// Variance of the minutes per piece that timing each of the first beliefs would show, about the true ones.
    noises: Vec<f64>,
}

impl Joint {
    fn of(draws: &[Draw], beliefs: Vec<Belief>, timed_noise: f64) -> Self {
        let number = count(draws.len().max(1));
        let considered = &beliefs[..beliefs.len().min(CONSIDERED)];
        let mut covariances = vec![vec![0.0; beliefs.len()]; considered.len()];
        let mut off = vec![0.0; beliefs.len()];
        for draw in draws {
            for (off, belief) in off.iter_mut().zip(&beliefs) {
                *off = draw.each[belief.candidate.design] - belief.mean;
            }
            for (row, own) in covariances.iter_mut().zip(&off) {
                for (covariance, other) in row.iter_mut().zip(&off) {
                    *covariance += own * other / number;
                }
            }
        }
        // One over the Fisher information of Student's t: as much as normal noise of this variance.
        let relative = (DEGREES_OF_FREEDOM + 3.0) / (DEGREES_OF_FREEDOM + 1.0) * timed_noise * timed_noise;
        let noises = considered.iter().map(|belief| relative * (belief.mean * belief.mean + belief.variance)).collect();
        Self { variances: beliefs.iter().map(|belief| belief.variance).collect(), covariances, noises, beliefs }
    }

    /// Computes the fall of a belief's variance if another is timed.
    fn fall(&self, timed: usize, of: usize) -> f64 {
        let total = self.variances[timed] + self.noises[timed];
        if total > 0.0 { self.covariances[timed][of] * self.covariances[timed][of] / total } else { 0.0 }
    }

    /// Computes the fall of the loss if a belief is timed.
    fn gain(&self, timed: usize) -> f64 {
        let of = |(at, belief): (usize, &Belief)| {
            belief.loss() * (belief.ratio(self.variances[at]) - belief.ratio(self.variances[at] - self.fall(timed, at)))
        };
        self.beliefs.iter().enumerate().map(of).sum()
    }

    /// Updates variances and covariances by a timing.
    fn condition(&mut self, timed: usize) {
        let total = self.variances[timed] + self.noises[timed];
        if total <= 0.0 {
            return;
        }
        let with_timed = self.covariances[timed].clone();
        for (variance, covariance) in self.variances.iter_mut().zip(&with_timed) {
            *variance -= covariance * covariance / total;
        }
        for (row, at) in self.covariances.iter_mut().zip(0..) {
            let share = with_timed[at] / total;
            for (covariance, other) in row.iter_mut().zip(&with_timed) {
                *covariance -= share * other;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ids::IdVec;
    use crate::minutes::random::Random;

    /// Draws of designs whose minutes are these functions of independent standard normals.
    fn draws(number: usize, of: impl Fn(&[f64]) -> Vec<f64>) -> Vec<Draw> {
        let mut random = Random::new(3, 0);
        (0..number)
            .map(|_| {
                let scores: Vec<f64> = (0..12).map(|_| random.normal()).collect();
                Draw { each: of(&scores).into_iter().collect::<IdVec<Design, f64>>(), ..Draw::default() }
            })
            .collect()
    }

    fn candidates(sold: &[f64]) -> Vec<Candidate> {
        Id::first(sold.len()).zip(sold).map(|(design, sold)| Candidate { design, batch: 12.0, sold: *sold }).collect()
    }

    fn numbers(timings: &[Timing]) -> Vec<u32> {
        timings.iter().map(|timing| timing.design.number()).collect()
    }

    /// By hand: one design of 10 ± 2 minutes, 100 sold, timed with noise whose information is that of a normal with
    /// standard deviation 0.1 × 10: the variance falls from 4 to 4 × 1.04 ÷ 5.04, since E m² is 104.
    #[test]
    fn one_design_alone_is_the_textbook_update_of_a_normal() {
        let draws = draws(100_000, |scores| vec![10.0 + 2.0 * scores[0]]);
        let noise = 0.1 * (5.0_f64 / 7.0).sqrt();
        let timing = &timings(&draws, noise, &candidates(&[100.0]))[0];
        let after = (1.04_f64 / 5.04).sqrt();
        // The mean distance from the median of a normal is √(2 ÷ π) standard deviations.
        let expected = 100.0 * 2.0 * (2.0 / std::f64::consts::PI).sqrt() * (1.0 - after);
        assert!((timing.narrowing / expected - 1.0).abs() < 0.01, "{timing:?} {expected}");
        assert!((timing.own.0 / (2.0 * 3.29) - 1.0).abs() < 0.01 && (timing.own.1 / timing.own.0 - after).abs() < 0.01);
    }

    /// Two designs of one tier that move together, and a third that no other tells of: once one of the two is timed,
    /// the third is worth more than the other.
    #[test]
    fn a_design_that_another_tells_of_is_not_timed_beside_it() {
        let draws = draws(4000, |z| vec![10.0 + 2.0 * z[0], 10.0 + 2.0 * z[0] + 0.3 * z[1], 10.0 + 1.5 * z[2]]);
        let found = timings(&draws, 0.02, &candidates(&[100.0; 3]));
        assert_eq!((numbers(&found)[1], found.len()), (2, 3), "{found:?}");
        assert!(found[1].narrowing > 3.0 * found[2].narrowing, "{found:?}");
    }

    /// Of designs always sold together only the sum is known: timing one tells both.
    #[test]
    fn timing_one_of_two_sold_together_tells_both() {
        let draws = draws(4000, |z| vec![10.0 + 3.0 * z[0] + 0.2 * z[1], 10.0 - 3.0 * z[0] + 0.2 * z[2]]);
        let found = timings(&draws, 0.02, &candidates(&[100.0; 2]));
        assert!(found[0].narrowing > 10.0 * found[1].narrowing, "{found:?}");
    }

    #[test]
    fn what_is_not_sold_or_known_exactly_is_worth_nothing() {
        let draws = draws(1000, |z| vec![10.0 + z[0], 7.0, 10.0 + z[1]]);
        let found = timings(&draws, 0.1, &candidates(&[0.0, 50.0, 1.0]));
        assert_eq!((found[0].design.number(), found[0].narrowing > 0.0), (2, true));
        assert!(found[1..].iter().all(|timing| timing.narrowing < 0.01 * found[0].narrowing), "{found:?}");
        assert!(timings(&draws, 0.1, &[]).is_empty());
    }

    /// Greedy against all triples, over random tiers: within a hundredth on average, and never more than a tenth worse.
    #[test]
    fn three_chosen_one_by_one_are_nearly_the_best_three_of_all() {
        let (mut greedy, mut best) = (0.0, 0.0);
        for seed in 0..30 {
            let mut random = Random::new(seed, 1);
            let loads: Vec<[f64; 4]> = (0..8).map(|_| [(); 4].map(|()| random.normal())).collect();
            let draws = draws(500, |z| {
                let minutes = |(at, load): (usize, &[f64; 4])| {
                    let common: f64 = load.iter().zip(z).map(|(load, z)| 0.15 * load * z).sum();
                    [3.0, 8.0][at % 2] * libm::exp(common + 0.1 * z[4 + at])
                };
                loads.iter().enumerate().map(minutes).collect()
            });
            let sold: Vec<f64> = (0..8).map(|_| count(5 + random.below(60))).collect();
            let all = candidates(&sold);
            let found = timings(&draws, 0.1, &all)[..3].iter().map(|timing| timing.narrowing).sum::<f64>();
            let beliefs: Vec<Belief> = all.iter().map(|candidate| Belief::of(&draws, *candidate)).collect();
            let mut most = 0.0_f64;
            for triple in (0..8).flat_map(|a| (0..a).flat_map(move |b| (0..b).map(move |c| [a, b, c]))) {
                let mut joint = Joint::of(&draws, beliefs.clone(), 0.1);
                let gains = triple.map(|at| {
                    let gain = joint.gain(at);
                    joint.condition(at);
                    gain
                });
                most = most.max(gains.iter().sum());
            }
            assert!(found > 0.9 * most && found < most + 1e-9, "{seed}: {found} {most}");
            (greedy, best) = (greedy + found, best + most);
        }
        assert!(greedy > 0.99 * best, "{greedy} {best}");
    }
}
