//! Things in a row divided into runs, each put at one of a few rising places, at the least score: exact, by dynamic
//! programming.
//!
//! With the price ladder the things are designs by fair price, the runs tiers and the places prices. With places that
//! cost nothing it is optimal one-dimensional clustering (Fisher 1958; Wang and Song 2011), whose published answers it
//! is tested against.

use std::ops::Range;

/// A division.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Runs<S> {
    /// Each run's end, exclusive, and its place.
    pub runs: Vec<(usize, usize)>,
    /// The score.
    pub score: S,
}

/// Where a best score came from: the run's start and the place of the run before.
type From = (u32, u32);

/// The division of `count` things into exactly `parts` runs with strictly rising places below `places`, at the least
/// score; the earliest of equals. `None` where there is none.
///
/// `weigh` fills in the score of the run from its first to its second argument (exclusive) at each place, `None` where
/// it may not stand. It is called with starts ascending and, for each, ends ascending. `link` gives, for a run that begins at
/// its first argument and stands at the place that is its second, the lower places where the run before is well put;
/// elsewhere `penalty` is added.
pub fn best_runs<S>(
    count: usize,
    parts: usize,
    places: usize,
    (nothing, penalty): (S, S),
    link: impl Fn(usize, usize) -> Range<usize>,
    mut weigh: impl FnMut(usize, usize, &mut [Option<S>]),
) -> Option<Runs<S>>
where
    S: Copy + PartialOrd + std::ops::Add<Output = S>,
{
    if parts == 0 || parts > count {
        return None;
    }
    let at = |part: usize, end: usize| ((part - 1) * (count + 1) + end) * places;
    let mut best: Vec<Option<S>> = vec![None; parts * (count + 1) * places];
    let mut from: Vec<From> = vec![(0, 0); best.len()];
    let mut run: Vec<Option<S>> = vec![None; places];
    for start in 0..count {
        // The least over lower places of all runs before: final by now, since those start earlier.
        let below = |part: usize| {
            let least = Least::of(&best[at(part, start)..at(part, start) + places]);
            let of = |place: usize| {
                let range = link(start, place);
                let near = least.within(range.start..range.end.min(place));
                let any = least.within(0..place).map(|(score, before)| (score + penalty, before));
                match (near, any) {
                    (Some(near), Some(any)) if any.0 < near.0 => Some(any),
                    (near, any) => near.or(any),
                }
            };
            (0..places).map(of).collect::<Vec<Option<(S, u32)>>>()
        };
        let below: Vec<_> = if start == 0 { Vec::new() } else { (1..parts).map(below).collect() };
        for end in start + 1..=count {
            run.fill(None);
            weigh(start, end, &mut run);
            for part in 1..=parts.min(end) {
                if (part == 1) != (start == 0) {
                    continue;
                }
                for place in 0..places {
                    let Some(own) = run[place] else { continue };
                    let (score, before) = match part {
                        1 => (nothing + own, 0),
                        _ => match below[part - 2][place] {
                            Some((score, before)) => (score + own, before),
                            None => continue,
                        },
                    };
                    let cell = at(part, end) + place;
                    if best[cell].is_none_or(|known| score < known) {
                        best[cell] = Some(score);
                        from[cell] = (u32::try_from(start).ok()?, before);
                    }
                }
            }
        }
    }
    let last = at(parts, count);
    let mut found: Option<(S, usize)> = None;
    for place in 0..places {
        if let Some(score) = best[last + place]
            && found.is_none_or(|(known, _)| score < known)
        {
            found = Some((score, place));
        }
    }
    let (score, mut place) = found?;
    let (mut runs, mut end) = (Vec::with_capacity(parts), count);
    for part in (1..=parts).rev() {
        runs.push((end, place));
        let (start, before) = from[at(part, end) + place];
        (end, place) = (start as usize, before as usize);
    }
    runs.reverse();
    Some(Runs { runs, score })
}

/// The least score of any range of places, the lowest of equals: tables of ranges whose lengths are powers of two.
struct Least<S> {
    tables: Vec<Vec<Option<(S, u32)>>>,
}

impl<S: Copy + PartialOrd> Least<S> {
    fn of(scores: &[Option<S>]) -> Self {
        let mut tables: Vec<Vec<Option<(S, u32)>>> =
            vec![(0..).zip(scores).map(|(place, score)| score.map(|score| (score, place))).collect()];
        let mut half = 1;
        while 2 * half <= scores.len() {
            let last = &tables[tables.len() - 1];
            let table = (0..=scores.len() - 2 * half).map(|at| Self::less(last[at], last[at + half])).collect();
            tables.push(table);
            half *= 2;
        }
        Self { tables }
    }

    fn less(one: Option<(S, u32)>, other: Option<(S, u32)>) -> Option<(S, u32)> {
        match (one, other) {
            (Some(one), Some(other)) if other.0 < one.0 => Some(other),
            (one, other) => one.or(other),
        }
    }

    fn within(&self, range: Range<usize>) -> Option<(S, u32)> {
        let length = range.end.checked_sub(range.start).filter(|length| *length > 0)?;
        let level = length.ilog2() as usize;
        let table = &self.tables[level];
        Self::less(table[range.start], table[range.end - (1 << level)])
    }
}
