//! Reproducible random numbers: the same on any machine and for any number of threads.
//!
//! A fixed generator (`ChaCha` with eight rounds) with one stream per use; normal draws by Marsaglia's polar method
//! (1964), with the logarithm in plain Rust, because the system's differs between machines.

use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{Rng, SeedableRng};

/// A stream of random numbers.
#[derive(Debug, Clone)]
pub struct Random {
    generator: ChaCha8Rng,
    spare: Option<f64>,
}

impl Random {
    /// Starts the stream of this number under a seed.
    #[must_use]
    pub fn new(seed: u64, stream: u64) -> Self {
        let mut generator = ChaCha8Rng::seed_from_u64(seed);
        generator.set_stream(stream);
        Self { generator, spare: None }
    }

    /// Draws uniformly from the open interval from 0 to 1.
    pub fn uniform(&mut self) -> f64 {
        #[expect(clippy::cast_precision_loss, reason = "53 bits fit exactly")]
        let bits = (self.generator.next_u64() >> 11) as f64;
        (bits + 0.5) / 9_007_199_254_740_992.0
    }

    /// Draws a whole number below `end`, which is at least 1.
    pub fn below(&mut self, end: usize) -> usize {
        let end = u64::try_from(end).unwrap_or(u64::MAX).max(1);
        usize::try_from((u128::from(self.generator.next_u64()) * u128::from(end)) >> 64).unwrap_or(0)
    }

    /// Draws from the standard normal distribution.
    pub fn normal(&mut self) -> f64 {
        if let Some(spare) = self.spare.take() {
            return spare;
        }
        loop {
            let (one, other) = (2.0 * self.uniform() - 1.0, 2.0 * self.uniform() - 1.0);
            let square = one * one + other * other;
            if square > 0.0 && square < 1.0 {
                let scale = (-2.0 * libm::log(square) / square).sqrt();
                self.spare = Some(other * scale);
                return one * scale;
            }
        }
    }

    /// Draws from Student's t: a normal over the root of a mean of squares. `freedom` is whole.
    pub fn student(&mut self, freedom: u32) -> f64 {
        let normal = self.normal();
        let squares: f64 = (0..freedom).map(|_| self.normal()).map(|z| z * z).sum();
        normal / (squares / f64::from(freedom)).sqrt()
    }
}
