//! The model: an order's minutes from its set-up, its colours and its pieces, with the priors.
//!
//! An observation `i` is a stretch of logged minutes `yᵢ`, expected to take `μᵢ = e^(g tᵢ) Σ aᵢₖ θₖ`: amounts times
//! positive unknowns. The unknowns are the minutes per piece of each design and the *parts* (set-up, minutes per
//! colour, handling a piece); `g` is a trend over the years `t`, if asked for. `log yᵢ` is Student-t with four
//! degrees of freedom about `log μᵢ` with scale σ, so that a timer left on overnight counts for little; `σ² = s² +
//! 0.005²`, since logged minutes are never exact ([`Model::noise`]).
//!
//! Priors: a part is half-normal, and is sampled as the standard normal score with the same share below it, so that a
//! part near zero makes no long tail. `log m_d
//! Normal(level + offset, τ)`: the level is that of the design's tier, the offset is zero or the log of the card's
//! guess. All minutes are in units of the median observation, so that nothing here has a unit and five times the
//! minutes give five times the answer.
//!
//! [`Model::log_density`] is over `log s, log τ, [g], levels, scores of parts, log m`, the *natural* coordinates.

use super::normal::half_normal;

/// Degrees of freedom of the noise: few, so that a timer left on overnight counts for little.
pub(crate) const DEGREES_OF_FREEDOM: f64 = 4.0;

/// Least noise, as a share of an order's minutes: logs are rounded, and nobody works to the second. Where minutes fit
/// the pieces exactly (a rule of thumb in place of a timer), the noise would otherwise shrink without end, and the
/// posterior to a sliver that no sampler can follow. It adds next to nothing to the usual 0.2.
const LEAST_NOISE: f64 = 0.005;

/// A normal prior.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Normal {
    /// Mean.
    pub mean: f64,
    /// Standard deviation.
    pub spread: f64,
}

impl Normal {
    /// Computes the log density, up to a constant, and its derivative.
    fn at(self, x: f64) -> (f64, f64) {
        let z = (x - self.mean) / self.spread;
        (-0.5 * z * z, -z / self.spread)
    }
}

/// Prior of a score.
const SCORE: Normal = Normal { mean: 0.0, spread: 1.0 };

/// Prior centre of a design's log minutes: its level plus an offset.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Centre {
    /// Index of its level.
    pub level: usize,
    /// Added to the level.
    pub offset: f64,
}

/// Observations and priors, in units of the median observation.
#[derive(Debug, Clone, Default)]
pub struct Model {
    /// Prior of log τ, the spread of designs within a level.
    pub spread: Option<Normal>,
    /// Prior of log s, the noise beyond the least.
    pub noise: Option<Normal>,
    /// Prior of the yearly trend, if it is fitted.
    pub trend: Option<Normal>,
    /// Priors of the levels.
    pub levels: Vec<Normal>,
    /// Scale of each part's half-normal.
    pub parts: Vec<f64>,
    /// Centre of each design.
    pub designs: Vec<Centre>,
    /// Log of each observation.
    pub log_minutes: Vec<f64>,
    /// Time of each observation, in years from their mean.
    pub years: Vec<f64>,
    /// End of each observation's terms.
    pub ends: Vec<usize>,
    /// Terms: the index of an unknown (parts, then designs) and its amount.
    pub terms: Vec<(usize, f64)>,
}

/// Indices of the natural coordinates.
impl Model {
    /// Prior of log s, the noise beyond the least.
    pub const NOISE: usize = 0;
    /// Index of log τ.
    pub const SPREAD: usize = 1;

    /// Returns the index of the trend, if it is fitted.
    #[must_use]
    pub(crate) fn trend_at(&self) -> Option<usize> {
        self.trend.map(|_| 2)
    }

    /// Returns the index of the first level.
    #[must_use]
    pub fn levels_at(&self) -> usize {
        2 + usize::from(self.trend.is_some())
    }

    /// Returns the index of the first part; designs follow the parts.
    #[must_use]
    pub fn parts_at(&self) -> usize {
        self.levels_at() + self.levels.len()
    }

    /// Returns the index of the first design.
    #[must_use]
    pub fn designs_at(&self) -> usize {
        self.parts_at() + self.parts.len()
    }

    /// Returns the number of coordinates.
    #[must_use]
    pub fn size(&self) -> usize {
        self.designs_at() + self.designs.len()
    }

    /// Computes the scale σ of the noise of log minutes: the sampled noise and the least noise, added as independent
    /// errors.
    #[must_use]
    pub fn noise(x: &[f64]) -> f64 {
        libm::sqrt(libm::exp(2.0 * x[Self::NOISE]) + LEAST_NOISE * LEAST_NOISE)
    }

    /// Returns the number of observations.
    #[must_use]
    pub fn observations(&self) -> usize {
        self.log_minutes.len()
    }

    /// Adds an observation of minutes (in units of the median) with its terms.
    pub fn observe(&mut self, minutes: f64, years: f64, terms: impl IntoIterator<Item = (usize, f64)>) {
        self.log_minutes.push(libm::log(minutes));
        self.years.push(years);
        self.terms.extend(terms.into_iter().filter(|(_, amount)| *amount > 0.0));
        self.ends.push(self.terms.len());
    }

    /// Keeps the priors and every `thinning`-th observation. Orders lie in the order of their ids, so all times keep
    /// their part.
    #[must_use]
    pub fn thinned(&self, thinning: usize) -> Self {
        let mut model = Self { log_minutes: Vec::new(), years: Vec::new(), ends: Vec::new(), terms: Vec::new(), ..self.clone() };
        for observation in (0..self.observations()).step_by(thinning) {
            model.log_minutes.push(self.log_minutes[observation]);
            model.years.push(self.years[observation]);
            model.terms.extend_from_slice(self.terms_of(observation));
            model.ends.push(model.terms.len());
        }
        model
    }

    /// Returns the terms of an observation.
    #[must_use]
    pub(crate) fn terms_of(&self, observation: usize) -> &[(usize, f64)] {
        let start = if observation == 0 { 0 } else { self.ends[observation - 1] };
        &self.terms[start..self.ends[observation]]
    }

    /// Computes the unknowns at natural coordinates, parts then designs, each with its derivative along its own
    /// coordinate.
    #[must_use]
    pub fn unknowns(&self, x: &[f64]) -> Vec<(f64, f64)> {
        let parts = x[self.parts_at()..self.designs_at()].iter().zip(&self.parts).map(|(score, scale)| {
            let (value, slope) = half_normal(*score);
            (scale * value, scale * slope)
        });
        let designs = x[self.designs_at()..].iter().map(|log| {
            let minutes = libm::exp(*log);
            (minutes, minutes)
        });
        parts.chain(designs).collect()
    }

    /// Computes the second derivative of an unknown along its own coordinate.
    #[must_use]
    pub(crate) fn second_derivative(&self, unknown: usize, x: &[f64], (value, slope): (f64, f64)) -> f64 {
        match self.parts.get(unknown) {
            // Half-normal: its derivative is ½ e^((value² − score²) ÷ 2), in units of its scale.
            Some(scale) => slope * (value * slope / (scale * scale) - x[self.parts_at() + unknown]),
            None => slope,
        }
    }

    /// Computes the expected minutes of an observation, without the trend.
    #[must_use]
    pub fn expected(&self, observation: usize, unknowns: &[(f64, f64)]) -> f64 {
        sum(self.terms_of(observation), unknowns)
    }

    /// Computes the priors' log density; overwrites the gradient.
    fn log_prior(&self, x: &[f64], gradient: &mut [f64]) -> f64 {
        gradient.fill(0.0);
        let mut total = 0.0;
        let mut believe = |prior: Option<Normal>, at: usize| {
            if let Some(prior) = prior {
                let (log, slope) = prior.at(x[at]);
                total += log;
                gradient[at] += slope;
            }
        };
        believe(self.noise, Self::NOISE);
        believe(self.spread, Self::SPREAD);
        believe(self.trend, 2);
        for (level, prior) in self.levels.iter().enumerate() {
            believe(Some(*prior), self.levels_at() + level);
        }
        for score in self.parts_at()..self.designs_at() {
            believe(Some(SCORE), score);
        }
        let inverse = libm::exp(-x[Self::SPREAD]);
        for (at, centre) in (self.designs_at()..).zip(&self.designs) {
            let level = self.levels_at() + centre.level;
            let z = (x[at] - x[level] - centre.offset) * inverse;
            total -= 0.5 * z * z + x[Self::SPREAD];
            gradient[at] -= z * inverse;
            gradient[level] += z * inverse;
            gradient[Self::SPREAD] += z * z - 1.0;
        }
        total
    }

    /// Computes the log density at natural coordinates, up to a constant; overwrites the gradient.
    pub fn log_density(&self, x: &[f64], gradient: &mut [f64]) -> f64 {
        let mut total = self.log_prior(x, gradient);
        let unknowns = self.unknowns(x);
        let noise = Self::noise(x);
        let square = DEGREES_OF_FREEDOM * noise * noise;
        let trend = self.trend_at().map_or(0.0, |at| x[at]);
        let inverse = 1.0 / square;
        let (mut product, mut start, mut of_noise) = (1.0, 0, 0.0);
        for (observation, end) in self.ends.iter().enumerate() {
            let terms = &self.terms[start..*end];
            start = *end;
            let sum = sum(terms, &unknowns);
            let off = self.log_minutes[observation] - libm::log(sum) - trend * self.years[observation];
            // One logarithm serves several factors, as long as their product stays far from overflow.
            product *= 1.0 + off * off * inverse;
            if product > 1e200 {
                total -= 0.5 * (DEGREES_OF_FREEDOM + 1.0) * libm::log(product);
                product = 1.0;
            }
            let weight = (DEGREES_OF_FREEDOM + 1.0) * off / (square + off * off);
            of_noise += weight * off;
            if let Some(at) = self.trend_at() {
                gradient[at] += weight * self.years[observation];
            }
            let weight = weight / sum;
            for (unknown, amount) in terms {
                gradient[self.parts_at() + unknown] += weight * amount * unknowns[*unknown].1;
            }
        }
        total -= 0.5 * (DEGREES_OF_FREEDOM + 1.0) * libm::log(product);
        let count = count(self.observations());
        // Derivative of log σ by its coordinate.
        let share = libm::exp(2.0 * x[Self::NOISE]) / (noise * noise);
        gradient[Self::NOISE] += share * (of_noise - count);
        total - count * libm::log(noise)
    }
}

#[inline]
fn sum(terms: &[(usize, f64)], unknowns: &[(f64, f64)]) -> f64 {
    terms.iter().map(|(unknown, amount)| amount * unknowns[*unknown].0).sum()
}

/// Converts a count to a float.
#[must_use]
pub fn count(count: usize) -> f64 {
    u32::try_from(count).map_or(f64::from(u32::MAX), f64::from)
}
