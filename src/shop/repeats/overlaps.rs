//! Entries of one person that overlap by the clock.

use crate::reading::{Place, Problem};
use crate::shop::Shop;
use crate::shop::clock::DAY;
use crate::shop::hours::{Entry, worth};
use crate::shop::kinds::OVERLAP;
use crate::shop::sources::Sources;
use crate::shop::specification::HOURS;

/// An entry by the clock.
#[derive(Clone, Copy)]
struct Timed<'a> {
    entry: &'a Entry,
    /// Seconds since the first day there is.
    start: i64,
    end: i64,
}

impl<'a> Timed<'a> {
    fn of(entry: &'a Entry) -> Option<Self> {
        let midnight = i64::from(entry.day.0) * DAY;
        entry.clock.map(|clock| Self { entry, start: midnight + clock.start, end: midnight + clock.end })
    }
}

/// Warns of entries of one person that count the same time twice. What an unattended stage takes may go on beside anything; an entry that
/// is the same as another in everything is a row that stands twice, and is reported as such. The time at the target is at stake.
///
/// Each entry is compared with the one before it that ends last, so that a timer left on through a day is a warning for each entry it
/// covers, and all of them are found in one pass.
pub(crate) fn warn(shop: &Shop, sources: &Sources<'_>, problems: &mut Vec<Problem>) {
    let mut all: Vec<Timed<'_>> = shop.hours.worked().filter_map(Timed::of).collect();
    all.sort_by_key(|timed| (timed.entry.who, timed.start, timed.end, timed.entry.place));
    let mut last: Option<Timed<'_>> = None;
    for timed in all {
        let before = last.filter(|last| last.entry.who == timed.entry.who);
        if let Some((before, twice)) = before.and_then(|before| Some((before, counted_twice(&before, &timed)?))) {
            problems.push(overlap(shop, sources, timed.entry, before.entry.place, twice));
        }
        if before.is_none_or(|before| before.end < timed.end) {
            last = Some(timed);
        }
    }
}

/// Millionths of a minute that both entries count, where they count any: no more than the clock has in both, and no more than their
/// minutes go beyond it, for one may have been worked in a break of the other. `None` for one entry written twice.
fn counted_twice(before: &Timed<'_>, timed: &Timed<'_>) -> Option<i64> {
    let millionths = |seconds: i64| (seconds * 1_000_000 + 30) / 60;
    let shared = before.end.min(timed.end) - timed.start;
    let covered = millionths(before.end.max(timed.end) - before.start);
    let twice = millionths(shared).min(before.entry.minutes + timed.entry.minutes - covered);
    (shared > 0 && twice > 0 && !is_same(before.entry, timed.entry)).then_some(twice)
}

/// Whether two entries differ in their place alone.
fn is_same(one: &Entry, other: &Entry) -> bool {
    let of = |entry: &Entry| (entry.day, entry.minutes, entry.stage, entry.link, entry.design, entry.pieces, entry.who, entry.clock);
    of(one) == of(other)
}

fn overlap(shop: &Shop, sources: &Sources<'_>, entry: &Entry, other: Place, twice: i64) -> Problem {
    let file = || sources.iter().find(|source| source.id == other.source).map_or_else(String::new, |source| format!(" of {}", source.name));
    let file = if other.source == entry.place.source { String::new() } else { file() };
    // Half a minute counts as one.
    let minutes = ((twice + 500_000) / 1_000_000).max(1);
    let count = if minutes == 1 { "1 minute".to_owned() } else { format!("{minutes} minutes") };
    let whose = entry.who.map_or_else(|| "the".to_owned(), |who| format!("{}'s", shop.hours.helpers.text(who)));
    let what = format!("{whose} entry overlaps row {}{file} by {count}", other.row);
    let problem = Problem::of_file(&OVERLAP, &HOURS.file(), what).at(entry.place).column("start");
    let problem = problem.instead("correct the times, or write who did the work");
    worth(twice, &shop.settings).filter(|_| entry.who.is_none()).map_or(problem.clone(), |worth| problem.at_stake(worth))
}
