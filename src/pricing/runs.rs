//! Things in a row divided into runs, each put at one of a few rising places, at the least score: exact, by dynamic
//! programming.
//!
//! With the price ladder the things are designs by fair price, the runs tiers and the places prices. With places that
//! cost nothing it is optimal one-dimensional clustering (Fisher 1958; Wang and Song 2011), whose published answers it
//! is tested against.

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
/// it may not stand. It is called with starts ascending and, for each, ends ascending.
pub fn best_runs<S>(
    count: usize,
    parts: usize,
    places: usize,
    nothing: S,
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
        let below: Vec<Vec<Option<(S, u32)>>> =
            (1..parts).map(|part| least_below(&best[at(part, start)..at(part, start) + places])).collect();
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

/// For each place the least of those below it, the lowest of equals.
fn least_below<S: Copy + PartialOrd>(scores: &[Option<S>]) -> Vec<Option<(S, u32)>> {
    let mut least: Option<(S, u32)> = None;
    let mut below = Vec::with_capacity(scores.len());
    for (place, score) in (0..).zip(scores) {
        below.push(least);
        if let Some(score) = score
            && least.is_none_or(|(known, _)| *score < known)
        {
            least = Some((*score, place));
        }
    }
    below
}
