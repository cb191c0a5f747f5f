//! Finds room for names beside marks: within a frame, apart from one another and from the marks.

/// Left, top, right, bottom.
pub type Place = [f64; 4];

/// A line from one point to another.
pub(crate) type Segment = [(f64, f64); 2];

/// From a mark's middle to its label, nearest first. Past the first a line joins the two.
const RINGS: [f64; 5] = [12.0, 22.0, 36.0, 54.0, 76.0];
/// To the right first, then left, then the slopes, then straight up and down.
const DIRECTIONS: [(f64, f64); 12] = [
    (1.0, 0.0),
    (-1.0, 0.0),
    (0.8, -0.6),
    (0.8, 0.6),
    (-0.8, -0.6),
    (-0.8, 0.6),
    (0.4, -0.9),
    (0.4, 0.9),
    (-0.4, -0.9),
    (-0.4, 0.9),
    (0.0, -1.0),
    (0.0, 1.0),
];
/// How far out a label may go for one crossing of a line with a label less: words over a line can still be read.
const CROSSING: f64 = 100.0;
/// Around a label, and between two beside one another, which must not read as one.
const CLEAR: f64 = 3.0;
const BETWEEN: f64 = 9.0;
/// Height of a mark, half of it.
const REACH: f64 = 7.0;
/// How near a mark a line may pass and still not seem to be that mark's.
const ON_LINE: f64 = 4.0;

/// Labels found so far.
#[derive(Debug)]
pub(crate) struct Labels {
    frame: Place,
    marks: Vec<(f64, f64)>,
    taken: Vec<Place>,
    lines: Vec<Segment>,
    barred: Vec<Segment>,
}

/// Where a label goes, and the line from its mark if it is not beside it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Found {
    pub place: Place,
    pub line: Option<[(f64, f64); 2]>,
}

impl Labels {
    pub fn new(frame: Place, marks: Vec<(f64, f64)>) -> Self {
        Self { frame, marks, taken: Vec::new(), lines: Vec::new(), barred: Vec::new() }
    }

    /// Adds words that are there already, and lines of the chart that labels had better not lie on.
    pub fn beside(self, taken: Vec<Place>, lines: Vec<Segment>) -> Self {
        Self { taken, lines, ..self }
    }

    /// Adds lines of the chart that no label may lie on.
    pub fn off(self, barred: Vec<Segment>) -> Self {
        Self { barred, ..self }
    }

    /// Finds room for a label of `size` (width, height) near `mark`, no farther from it than `farthest`, over no other mark,
    /// and with no other mark or label on the line that joins the two; `None` if there is none.
    pub fn find(&mut self, mark: (f64, f64), size: (f64, f64), farthest: f64) -> Option<Found> {
        let others = || self.marks.iter().filter(|other| (other.0 - mark.0).hypot(other.1 - mark.1) > 1.0);
        let on_mark = |line| others().any(|(x, y)| crosses(line, [x - ON_LINE, y - ON_LINE, x + ON_LINE, y + ON_LINE]));
        // Without a line a label belongs to the mark it is nearest to.
        let is_nearest = |place| others().all(|other| distance(*other, place) > distance(mark, place));
        let on_label = |line| self.taken.iter().any(|taken| crosses(line, *taken));
        let candidates = RINGS.iter().flat_map(|ring| DIRECTIONS.iter().map(move |direction| (*ring, *direction)));
        let free = candidates
            .filter(|(ring, _)| *ring <= farthest)
            .map(|(ring, direction)| (ring, beside(mark, size, ring, direction)))
            .filter(|(_, found)| self.is_free(found.place))
            .filter(|(_, found)| found.line.map_or_else(|| is_nearest(found.place), |line| !on_mark(line) && !on_label(line)))
            .map(|(ring, found)| (ring + CROSSING * self.crossings(&found), found));
        // Of equals the first, which is the nearest.
        let found = free.reduce(|best, next| if next.0 < best.0 { next } else { best })?.1;
        self.taken.push(found.place);
        self.lines.extend(found.line);
        Some(found)
    }

    /// Returns whether neither a mark nor a label lies in `place`.
    pub fn is_empty(&self, place: Place) -> bool {
        let is_marked = self.marks.iter().any(|(x, y)| overlap([*x, *y, *x, *y], place, REACH));
        let wider = [place[0] - BETWEEN + CLEAR, place[1], place[2] + BETWEEN - CLEAR, place[3]];
        !is_marked && !self.taken.iter().any(|taken| overlap(*taken, wider, CLEAR))
    }

    fn is_free(&self, place: Place) -> bool {
        let [left, top, right, bottom] = place;
        let within = left >= self.frame[0] + CLEAR
            && top >= self.frame[1] + CLEAR
            && right <= self.frame[2] - CLEAR
            && bottom <= self.frame[3] - CLEAR;
        within && self.is_empty(place) && !self.barred.iter().any(|line| crosses(*line, place))
    }

    /// How many lines and labels would cross.
    fn crossings(&self, found: &Found) -> f64 {
        let own = found.line.map_or(0, |line| self.taken.iter().filter(|taken| crosses(line, **taken)).count());
        as_cost(own + self.lines.iter().filter(|line| crosses(**line, found.place)).count())
    }
}

fn as_cost(count: usize) -> f64 {
    u32::try_from(count).map_or(f64::MAX, f64::from)
}

/// A label `ring` away from `mark`.
fn beside((x, y): (f64, f64), (width, height): (f64, f64), ring: f64, (across, down): (f64, f64)) -> Found {
    let near = (x + ring * across, y + ring * down);
    let left = if across > 0.0 {
        near.0
    } else if across < 0.0 {
        near.0 - width
    } else {
        near.0 - width / 2.0
    };
    let top = near.1 - height / 2.0 + down * height / 2.0;
    let line = (ring > RINGS[0]).then_some([(x + REACH * across, y + REACH * down), (near.0 - 3.0 * across, near.1 - 2.0 * down)]);
    Found { place: [left, top, left + width, top + height], line }
}

fn overlap(a: Place, b: Place, clear: f64) -> bool {
    a[0] < b[2] + clear && b[0] < a[2] + clear && a[1] < b[3] + clear && b[1] < a[3] + clear
}

/// From a point to the nearest edge of a place.
fn distance((x, y): (f64, f64), [left, top, right, bottom]: Place) -> f64 {
    (left - x).max(x - right).max(0.0).hypot((top - y).max(y - bottom).max(0.0))
}

/// Steps of three or less along a line, and not fewer than 32.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a length within a picture")]
fn number_of_steps(length: f64) -> u32 {
    (length / 3.0).clamp(32.0, 10_000.0) as u32
}

/// Whether a line passes through a place, looked at in steps far shorter than any label is high.
fn crosses([(x0, y0), (x1, y1)]: [(f64, f64); 2], place: Place) -> bool {
    let steps = number_of_steps((x1 - x0).hypot(y1 - y0));
    (0..=steps).map(|step| f64::from(step) / f64::from(steps)).any(|along| {
        let (x, y) = (x0 + along * (x1 - x0), y0 + along * (y1 - y0));
        overlap([x, y, x, y], place, 1.0)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    const FRAME: Place = [100.0, 100.0, 700.0, 700.0];

    fn inside(place: Place) -> bool {
        place[0] >= FRAME[0] && place[1] >= FRAME[1] && place[2] <= FRAME[2] && place[3] <= FRAME[3]
    }

    #[test]
    fn a_lone_mark_has_its_label_to_the_right_without_a_line() {
        let marks = [(400.0, 400.0)];
        let found = Labels::new(FRAME, marks.to_vec()).find(marks[0], (80.0, 14.0), 54.0).unwrap();
        assert_eq!(found, Found { place: [412.0, 393.0, 492.0, 407.0], line: None });
    }

    #[test]
    fn labels_stay_within_the_frame_at_every_edge_and_corner() {
        for mark in [(100.0, 100.0), (700.0, 100.0), (100.0, 700.0), (700.0, 700.0), (400.0, 100.0), (695.0, 400.0)] {
            let found = Labels::new(FRAME, vec![mark]).find(mark, (180.0, 14.0), 54.0).unwrap();
            assert!(inside(found.place), "{mark:?}: {found:?}");
        }
    }

    #[test]
    fn labels_of_marks_in_one_place_keep_apart_from_one_another_and_from_the_lines() {
        let marks = vec![(400.0, 400.0); 6];
        let mut labels = Labels::new(FRAME, marks.clone());
        let found: Vec<_> = marks.iter().map(|mark| labels.find(*mark, (180.0, 14.0), 54.0).unwrap()).collect();
        for (at, one) in found.iter().enumerate() {
            for other in found.iter().enumerate().filter(|(other, _)| *other != at).map(|(_, other)| other) {
                assert!(!overlap(one.place, other.place, 0.0), "{one:?} {other:?}");
                assert!(!one.line.is_some_and(|line| crosses(line, other.place)), "{one:?} {other:?}");
            }
        }
    }

    #[test]
    fn a_label_goes_where_no_mark_lies() {
        let marks = [(400.0, 400.0), (430.0, 400.0), (460.0, 402.0)];
        let mut labels = Labels::new(FRAME, marks.to_vec());
        let found = labels.find(marks[0], (80.0, 14.0), 54.0).unwrap();
        assert!(found.place[2] < 400.0, "{found:?}");
        assert!(!labels.is_empty([395.0, 395.0, 405.0, 405.0]) && !labels.is_empty(found.place));
        assert!(labels.is_empty([600.0, 600.0, 650.0, 620.0]));
    }

    #[test]
    fn a_clear_label_is_near_and_neither_it_nor_its_line_meets_another_mark_or_label() {
        // A ring of marks closely about the first one, and one gap in it.
        let mut marks = vec![(400.0, 400.0)];
        marks.extend(
            (0..35_u32).map(|at| (f64::from(at * 10)).to_radians()).map(|turn| (400.0 + 24.0 * turn.cos(), 400.0 + 24.0 * turn.sin())),
        );
        let mut labels = Labels::new(FRAME, marks.clone());
        assert_eq!(labels.find(marks[0], (80.0, 14.0), 54.0), None, "no way out");
        let pair = [(400.0, 400.0), (430.0, 400.0)];
        let mut labels = Labels::new(FRAME, pair.to_vec()).beside(Vec::new(), vec![[(300.0, 395.0), (500.0, 395.0)]]);
        let found = labels.find(pair[0], (80.0, 14.0), 36.0).unwrap();
        assert!(!crosses([(300.0, 395.0), (500.0, 395.0)], found.place), "{found:?}");
        assert_eq!(labels.find(pair[0], (80.0, 14.0), 5.0), None, "no ring is as near");
        let fence = (0..9_u32).map(|at| 340.0 + 15.0 * f64::from(at)).map(|x| [(x, 300.0), (x, 500.0)]).collect();
        assert_eq!(Labels::new(FRAME, Vec::new()).off(fence).find(pair[0], (80.0, 14.0), 54.0), None, "no room off the barred lines");
    }

    #[test]
    fn a_label_wider_than_the_frame_has_no_room() {
        assert_eq!(Labels::new(FRAME, Vec::new()).find((400.0, 400.0), (600.0, 14.0), 54.0), None);
    }
}
