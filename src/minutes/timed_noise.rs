//! The noise of timed batches: how much the minutes per piece of one design vary from batch to batch.
//!
//! A batch of one design, timed on its own, is less noisy than a whole order: no set-up, no other designs, a timer
//! started for it. Only designs timed more than once show how much less. It serves the choice of what to time next
//! ([`super::timing`]) and is estimated from those designs, not within the fit, which takes all minutes to be equally noisy.

use super::model::DEGREES_OF_FREEDOM;
use super::observations::Timed;
use std::collections::BTreeMap;

/// Prior median of the scale: a tenth, half of what is usual of whole orders.
const PRIOR: f64 = 0.1;
/// Prior standard deviation of its log.
const PRIOR_SPREAD: f64 = 0.4;
/// Least and greatest scale.
const RANGE: (f64, f64) = (0.005, 1.0);
/// Halvings of the range: to sixteen digits.
const HALVINGS: usize = 60;

/// Estimates the scale of the noise of timed batches' log minutes, in the terms of the model's Student-t.
///
/// It is the mode of a log-normal prior times the likelihood of the successive differences of each design's log minutes
/// per piece (von Neumann, Annals of Mathematical Statistics 12, 1941): a difference of two batches has twice the
/// variance of one, whatever the design's minutes are and however they drift over the years.
#[must_use]
pub fn timed_noise(timed: &[Timed]) -> f64 {
    let differences = differences(timed);
    let slope = |log: f64| {
        let square = 2.0 * DEGREES_OF_FREEDOM * libm::exp(2.0 * log);
        let prior = -(log - libm::log(PRIOR)) / (PRIOR_SPREAD * PRIOR_SPREAD);
        prior + differences.iter().map(|off| (DEGREES_OF_FREEDOM + 1.0) * off * off / (square + off * off) - 1.0).sum::<f64>()
    };
    // The slope falls throughout: its only zero is the mode.
    let (mut low, mut high) = (libm::log(RANGE.0), libm::log(RANGE.1));
    for _ in 0..HALVINGS {
        let middle = 0.5 * (low + high);
        if slope(middle) > 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    libm::exp(0.5 * (low + high))
}

/// Lists the differences between successive timings of a design, in log minutes per piece.
fn differences(timed: &[Timed]) -> Vec<f64> {
    let mut of_design: BTreeMap<usize, Vec<(f64, f64)>> = BTreeMap::new();
    for batch in timed {
        of_design.entry(batch.design).or_default().push((batch.years, libm::log(batch.minutes / batch.pieces)));
    }
    let successive = |batches: &mut Vec<(f64, f64)>| {
        batches.sort_by(|one, other| one.0.total_cmp(&other.0).then(one.1.total_cmp(&other.1)));
        batches.windows(2).map(|pair| pair[1].1 - pair[0].1).collect::<Vec<f64>>()
    };
    of_design.values_mut().flat_map(successive).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::minutes::model::count;
    use crate::minutes::random::Random;

    /// So many batches of each of so many designs, with noise.
    fn batches(designs: usize, each: usize, noise: f64) -> Vec<Timed> {
        let mut random = Random::new(5, 0);
        let mut timed = Vec::new();
        for design in 0..designs {
            for batch in 0..each {
                let minutes = 12.0 * count(3 + design) * libm::exp(noise * random.normal());
                timed.push(Timed { design, pieces: 12.0, minutes, years: count(batch) / 10.0 });
            }
        }
        timed
    }

    #[test]
    fn without_a_design_timed_twice_it_is_the_prior() {
        for timed in [batches(0, 0, 0.3), batches(9, 1, 0.3)] {
            assert!((timed_noise(&timed) - PRIOR).abs() < 1e-12);
        }
    }

    /// Normal noise of standard deviation s gives Student-t with four degrees of freedom a scale of about 0.8 s.
    #[test]
    fn many_batches_tell_the_noise_and_few_move_it_a_little() {
        for noise in [0.03, 0.1, 0.3] {
            let found = timed_noise(&batches(20, 10, noise)) / noise;
            assert!((0.65..1.0).contains(&found), "{noise}: {found}");
            let few = timed_noise(&batches(2, 2, noise));
            assert!((0.07..0.25).contains(&few), "{noise}: {few}");
        }
    }

    #[test]
    fn a_timer_left_on_counts_for_little() {
        let mut timed = batches(5, 4, 0.1);
        let before = timed_noise(&timed);
        timed[6].minutes *= 10.0;
        let after = timed_noise(&timed);
        assert!(after > before && after < 1.6 * before, "{before} {after}");
    }

    #[test]
    fn pieces_and_units_of_minutes_do_not_matter_and_equal_minutes_are_no_miracle() {
        let timed = batches(3, 4, 0.2);
        let scaled: Vec<Timed> =
            timed.iter().map(|batch| Timed { minutes: 5.0 * batch.minutes, pieces: 2.0 * batch.pieces, ..*batch }).collect();
        assert!((timed_noise(&scaled) - timed_noise(&timed)).abs() < 1e-12);
        let equal = timed_noise(&batches(3, 4, 0.0));
        assert!((RANGE.0..0.05).contains(&equal), "{equal}");
    }
}
