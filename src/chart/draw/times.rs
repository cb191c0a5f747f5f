//! An axis of times on a logarithmic scale: its range, its ticks in round minutes and hours, and where a time falls.

use rust_decimal::Decimal;
use rust_decimal::prelude::FromPrimitive;

use super::amounts::AmountStyle;
use super::font::Weight;
use super::text;

/// The shortest and the longest time drawn, in minutes: under a second and nineteen years, which no order takes.
const DRAWN: std::ops::RangeInclusive<f64> = 0.01..=10_000_000.0;
/// Round numbers of minutes up to an hour, then of hours.
const MINUTES: [f64; 11] = [0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 15.0, 30.0];
const HOURS: [f64; 3] = [1.0, 2.0, 5.0];
/// The same for a short axis.
const FINE_MINUTES: [f64; 23] =
    [0.01, 0.015, 0.02, 0.03, 0.05, 0.07, 0.1, 0.15, 0.2, 0.3, 0.5, 0.7, 1.0, 1.5, 2.0, 3.0, 5.0, 7.0, 10.0, 15.0, 20.0, 30.0, 40.0];
const FINE_HOURS: [f64; 6] = [1.0, 1.5, 2.0, 3.0, 5.0, 7.0];
/// With fewer ticks than this the finer ones are taken.
const FEW: usize = 3;
/// From the middle of one label to the next.
const APART: f64 = 14.0;

/// Returns whether a time has a place on any axis: finite, above 0, and no slip of the keyboard.
#[must_use]
pub fn is_drawn(minutes: f64) -> bool {
    DRAWN.contains(&minutes)
}

/// Writes `minutes` as they stand at a tick: `15 min`, `1.5 h`, `1,000 h`.
#[must_use]
pub fn label(minutes: f64) -> String {
    let (number, unit) = if minutes < 60.0 { (minutes, " min") } else { (minutes / 60.0, " h") };
    let number = Decimal::from_f64(number).unwrap_or_default().round_dp(3).normalize();
    AmountStyle::counted(unit, 0).write(number, number.scale())
}

/// From times to shares of the axis' length: 0 at its beginning, 1 at its end.
#[derive(Debug, Clone)]
pub struct Times {
    low: f64,
    high: f64,
    /// Shares and texts.
    pub ticks: Vec<(f64, String)>,
}

impl Times {
    /// Makes a range from the shortest to the longest of `times` with room around them, at least from half to double; `length` is
    /// what the labels of the ticks, in letters of `size`, must find room on. Times that are not [drawn](is_drawn) are no help.
    pub fn new(times: impl Iterator<Item = f64>, length: f64, size: f64) -> Self {
        let logs = times.filter(|time| is_drawn(*time)).map(f64::ln);
        let (low, high) = logs.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), log| (low.min(log), high.max(log)));
        let (low, high) = if low <= high { (low, high) } else { (60_f64.ln(), 60_f64.ln()) };
        let around = (0.05 * (high - low)).max(2_f64.ln() - 0.5 * (high - low)).max(0.1);
        let (low, high) = (low - around, high + around);
        let mut axis = Self { low, high, ticks: Vec::new() };
        axis.ticks = axis.spaced(&ladder(&MINUTES, &HOURS), length, size);
        if axis.ticks.len() < FEW {
            let finer = axis.spaced(&ladder(&FINE_MINUTES, &FINE_HOURS), length, size);
            if finer.len() > axis.ticks.len() {
                axis.ticks = finer;
            }
        }
        axis
    }

    /// Returns where `minutes` fall; outside the range, at its nearer end.
    pub fn share(&self, minutes: f64) -> f64 {
        ((minutes.ln() - self.low) / (self.high - self.low)).clamp(0.0, 1.0)
    }

    /// Returns the shortest and the longest time on the axis, in minutes.
    pub fn ends(&self) -> (Decimal, Decimal) {
        let minutes = |log: f64| Decimal::from_f64(log.exp()).unwrap_or_default();
        (minutes(self.low), minutes(self.high))
    }

    /// Every step of the ladder within the range, or every second, third … one so that labels keep apart. An hour is
    /// always among them if it is within.
    fn spaced(&self, (ladder, hour): &(Vec<f64>, usize), length: f64, size: f64) -> Vec<(f64, String)> {
        (1..ladder.len())
            .map(|nth| {
                let rungs = ladder.iter().enumerate().filter(|(at, _)| at.abs_diff(*hour) % nth == 0).map(|(_, rung)| *rung);
                let within = rungs.filter(|rung| (self.low..=self.high).contains(&rung.ln()));
                within.map(|rung| (self.share(rung), label(rung))).collect::<Vec<_>>()
            })
            .find(|ticks| labels_fit(ticks, length, size))
            .unwrap_or_default()
    }
}

/// All rungs in minutes, and which of them is an hour.
fn ladder(minutes: &[f64], hours: &[f64]) -> (Vec<f64>, usize) {
    let decades = (0..6).map(|power| 60.0 * 10_f64.powi(power));
    let hours = decades.flat_map(|decade| hours.iter().map(move |hours| hours * decade));
    (minutes.iter().copied().chain(hours).collect(), minutes.len())
}

fn labels_fit(ticks: &[(f64, String)], length: f64, size: f64) -> bool {
    let half = |text: &str| text::width(text, Weight::Regular, size) / 2.0;
    ticks.windows(2).all(|pair| {
        let [(before, a), (after, b)] = pair else { return true };
        (after - before) * length >= half(a) + half(b) + APART
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn texts(times: &[f64]) -> Vec<String> {
        Times::new(times.iter().copied(), 600.0, 12.5).ticks.into_iter().map(|(_, text)| text).collect()
    }

    #[test]
    fn times_are_written_in_minutes_below_an_hour_and_hours_above() {
        let written = [0.5, 15.0, 30.0, 60.0, 90.0, 120.0, 300.0, 600.0, 60_000.0].map(label);
        assert_eq!(written, ["0.5 min", "15 min", "30 min", "1 h", "1.5 h", "2 h", "5 h", "10 h", "1,000 h"]);
    }

    #[test]
    fn ticks_are_round_times_within_the_range() {
        assert_eq!(texts(&[20.0, 700.0]), ["30 min", "1 h", "2 h", "5 h", "10 h"]);
        assert_eq!(texts(&[15.0, 100.0]), ["15 min", "30 min", "1 h"].map(String::from).to_vec());
    }

    #[test]
    fn every_axis_has_a_few_ticks_and_their_labels_keep_apart() {
        let times = [0.01, 0.3, 1.0, 7.0, 45.0, 60.0, 95.0, 480.0, 2_000.0, 60_000.0, 9_999_999.0];
        for (short, long) in times.iter().flat_map(|short| times.iter().map(move |long| (*short, *long))) {
            let axis = Times::new([short, long].into_iter(), 600.0, 12.5);
            assert!(axis.ticks.len() >= 3, "{short} to {long}: {:?}", axis.ticks);
            assert!(labels_fit(&axis.ticks, 600.0, 12.5), "{short} to {long}: {:?}", axis.ticks);
            assert!([short, long].iter().all(|time| (0.01..=0.99).contains(&axis.share(*time))), "{short} to {long}");
        }
    }

    #[test]
    fn equal_factors_are_equal_lengths() {
        let axis = Times::new([30.0, 600.0].into_iter(), 600.0, 12.5);
        let doubled = [60.0, 120.0, 240.0].map(|time| axis.share(time) - axis.share(time / 2.0));
        assert!(
            doubled.iter().all(|length| (length - (axis.share(2.0 * 60.0) - axis.share(60.0))).abs() < 1e-12 && *length > 0.1),
            "{doubled:?}"
        );
    }

    #[test]
    fn what_is_no_time_has_no_place_and_does_no_harm() {
        let odd = [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 0.0, -0.0, -5.0, 1e-300, 1e300];
        assert!(odd.iter().all(|time| !is_drawn(*time)));
        let axis = Times::new(odd.into_iter(), 600.0, 12.5);
        assert!(axis.ticks.len() >= 3 && (axis.share(60.0) - 0.5).abs() < 1e-9);
        assert!(axis.share(f64::INFINITY) <= 1.0 && axis.share(0.0) >= 0.0);
    }
}
