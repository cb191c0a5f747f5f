//! Times of day, and a start with its end in one cell.

/// Seconds of a day.
const DAY: i64 = 24 * 60 * 60;
/// Seconds of half a day.
const HALF: i64 = DAY / 2;

/// Half of the day that a clock of twelve hours says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum HalfDay {
    Am,
    Pm,
}

/// What a clock shows.
#[derive(Debug, Clone, Copy)]
struct Face {
    /// As written, 0 to 23.
    hour: i64,
    /// Seconds past the hour.
    past: i64,
    half: Option<HalfDay>,
    /// Whether an hour stands alone, which is a time only beside one that says more.
    bare: bool,
}

impl Face {
    /// Reads `18:30`, `18:30:00`, `6:30pm`, `6.30 p.m.`, `6 pm`, `18h30`, `noon`; a bare `6` too.
    fn parse(text: &str) -> Option<Self> {
        let text = text.trim().to_lowercase();
        match text.as_str() {
            "noon" => return Some(Self { hour: 12, past: 0, half: Some(HalfDay::Pm), bare: false }),
            "midnight" => return Some(Self { hour: 12, past: 0, half: Some(HalfDay::Am), bare: false }),
            _ => {}
        }
        let end = text.rfind(|c: char| c.is_ascii_digit())? + 1;
        let suffix: String = text[end..].chars().filter(|c| !c.is_whitespace() && *c != '.').collect();
        let half = match suffix.as_str() {
            "am" | "a" => Some(HalfDay::Am),
            "pm" | "p" => Some(HalfDay::Pm),
            "" | "h" => None,
            _ => return None,
        };
        let mark = text[..end].find(|c: char| !c.is_ascii_digit()).and_then(|at| text[at..].trim_start().chars().next()).unwrap_or(':');
        let fields: Vec<&str> = text[..end].split(mark).map(|field| if mark == 'h' { field.trim() } else { field }).collect();
        let number = |field: &str, digits: std::ops::RangeInclusive<usize>, most: i64| {
            let shaped = digits.contains(&field.len()) && field.bytes().all(|byte| byte.is_ascii_digit());
            shaped.then(|| field.parse::<i64>().ok()).flatten().filter(|value| *value < most)
        };
        let (hour, past) = match (fields.as_slice(), mark) {
            ([hour], _) => (hour, 0),
            ([hour, minute], ':' | '.' | 'h') => (hour, number(minute, 2..=2, 60)? * 60),
            ([hour, minute, second], ':') => (hour, number(minute, 2..=2, 60)? * 60 + number(second, 2..=2, 60)?),
            _ => return None,
        };
        let hour = number(hour, 1..=2, 24)?;
        if (half.is_some() && !(1..=12).contains(&hour)) || (suffix == "h" && fields.len() > 1) {
            return None;
        }
        Some(Self { hour, past, half, bare: fields.len() == 1 && suffix.is_empty() })
    }

    /// Whether a clock of twelve hours can show it.
    fn is_of_half(self) -> bool {
        (1..=12).contains(&self.hour)
    }

    /// Seconds after midnight, in the half of the day that it says or one given.
    fn seconds(self, half: Option<HalfDay>) -> i64 {
        let hour = match self.half.or(half.filter(|_| self.is_of_half())) {
            None => self.hour,
            Some(HalfDay::Am) => self.hour % 12,
            Some(HalfDay::Pm) => self.hour % 12 + 12,
        };
        hour * 3600 + self.past
    }
}

/// Reads a time of day as seconds after midnight: `18:30`, `18:30:00`, `6:30pm`, `6.30 p.m.`, `6pm`, `18h30`, `noon`. 12:30 am is half
/// past midnight.
#[must_use]
pub fn read(text: &str) -> Option<i64> {
    Face::parse(text).filter(|face| !face.bare).map(|face| face.seconds(None))
}

/// Reads a start and an end in one cell, `6:30-8:05pm`, as seconds after midnight; an end before its start is past midnight.
///
/// Where the end alone says its half of the day, the start lies in the same half, unless it would then be after the end; where the
/// start alone does, the end is when the clock next shows it.
#[must_use]
pub fn range(text: &str) -> Option<(i64, i64)> {
    let lower = text.to_lowercase();
    let words = [" to ", " until ", " till ", " til ", "–", "—", "‑", "-"];
    let (start, end) = words.iter().find_map(|word| lower.split_once(word))?;
    let (start, end) = (Face::parse(start)?, Face::parse(end)?);
    if (start.bare || end.bare) && start.half.is_none() && end.half.is_none() {
        return None;
    }
    let until = end.seconds(None);
    Some(match (start.half, end.half) {
        (None, Some(half)) if start.is_of_half() => {
            let from = start.seconds(Some(half));
            (if from > until { (from + HALF).rem_euclid(DAY) } else { from }, until)
        }
        (Some(_), None) if end.is_of_half() => {
            let from = start.seconds(None);
            (from, (from + (until - from).rem_euclid(HALF)).rem_euclid(DAY))
        }
        _ => (start.seconds(None), until),
    })
}

/// Whether a text is a time of day, with a fraction of a second or a zone or without, as it follows a date in exports.
pub(super) fn with_zone(text: &str) -> bool {
    let lower = text.trim().to_ascii_lowercase();
    let zone = |at: &usize| {
        let digits = lower[at + 1..].replacen(':', "", 1);
        matches!(digits.len(), 2 | 4) && digits.bytes().all(|byte| byte.is_ascii_digit())
    };
    let clock = lower.rfind(['+', '-']).filter(zone).map_or(lower.as_str(), |at| &lower[..at]).trim_end();
    let clock = ["z", "utc", "gmt"].iter().find_map(|zone| clock.strip_suffix(zone)).unwrap_or(clock).trim_end();
    let whole = match clock.split_once('.') {
        Some((whole, fraction)) if whole.matches(':').count() == 2 && fraction.bytes().all(|byte| byte.is_ascii_digit()) => whole,
        _ => clock,
    };
    read(whole).is_some()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn at(hour: i64, minute: i64) -> i64 {
        (hour * 60 + minute) * 60
    }

    #[test]
    fn times_of_day_are_read() {
        for (text, hour, minute) in [
            ("18:30", 18, 30),
            ("18:30:00", 18, 30),
            ("9:05", 9, 5),
            ("00:00", 0, 0),
            ("6:30pm", 18, 30),
            ("6:30 PM", 18, 30),
            ("6:30 p.m.", 18, 30),
            ("6:30\u{202f}pm", 18, 30),
            ("6pm", 18, 0),
            ("6.30 pm", 18, 30),
            ("6:30p", 18, 30),
            ("18h30", 18, 30),
            ("18 h 30", 18, 30),
            ("18h", 18, 0),
            ("18.30", 18, 30),
            ("12:30am", 0, 30),
            ("12am", 0, 0),
            ("12:30 pm", 12, 30),
            ("noon", 12, 0),
            ("midnight", 0, 0),
        ] {
            assert_eq!(read(text), Some(at(hour, minute)), "{text}");
        }
        assert_eq!(read("18:30:15"), Some(at(18, 30) + 15));
        for wrong in [
            "24:00", "9:5", ":30", "1:60", "6", "18:30pm", "0:30am", "13pm", "18:30h", "", "pm", "18-30", "1:2:3", "18.5", "18:30:60",
            "６pm",
        ] {
            assert_eq!(read(wrong), None, "{wrong}");
        }
    }

    #[test]
    fn a_start_and_its_end_may_share_a_cell() {
        for (text, start, end) in [
            ("6:30-8:05pm", (18, 30), (20, 5)),
            ("6:30 – 8:05 pm", (18, 30), (20, 5)),
            ("18:30 to 20:05", (18, 30), (20, 5)),
            ("18:30-20:05", (18, 30), (20, 5)),
            ("6-8pm", (18, 0), (20, 0)),
            ("11:30-1:05pm", (11, 30), (13, 5)),
            ("11:30-12:15am", (23, 30), (0, 15)),
            ("11:30 pm - 12:15", (23, 30), (0, 15)),
            ("6:30pm-8:05", (18, 30), (20, 5)),
            ("9:30am to 1", (9, 30), (13, 0)),
            ("18:30-8pm", (18, 30), (20, 0)),
            ("10am until noon", (10, 0), (12, 0)),
            ("22:00-1:30", (22, 0), (1, 30)),
        ] {
            assert_eq!(range(text), Some((at(start.0, start.1), at(end.0, end.1))), "{text}");
        }
        for wrong in ["18:30", "6-8", "6:30-", "6:30-8", "6:30-8:05-9pm", "a-b", "2026-09-03"] {
            assert_eq!(range(wrong), None, "{wrong}");
        }
    }

    #[test]
    fn a_time_after_a_date_may_have_a_zone() {
        for text in ["14:05", "14:05:00Z", "14:05:00.123Z", "14:05:00+02:00", "14:05:00 -0500", "2:05 PM", "14:05 UTC", "14:05 GMT+02"] {
            assert!(with_zone(text), "{text}");
        }
        assert!(!with_zone("14:05:00+2") && !with_zone("3 14:05") && !with_zone("14:05.5"));
    }

    proptest! {
        #[test]
        fn a_time_written_in_any_way_reads_back(hour in 0_i64..24, minute in 0_i64..60, way in 0_usize..8) {
            let (of_twelve, half) = ((hour + 11) % 12 + 1, if hour < 12 { "am" } else { "pm" });
            let text = match way {
                0 => format!("{hour}:{minute:02}"),
                1 => format!("{hour:02}:{minute:02}:00"),
                2 => format!("{of_twelve}:{minute:02}{half}"),
                3 => format!("{of_twelve}.{minute:02} {}", half.to_uppercase()),
                4 => format!("{of_twelve}:{minute:02} {}.m.", &half[..1]),
                5 => format!("{hour}h{minute:02}"),
                6 => format!("{hour:02}.{minute:02}"),
                _ => format!("{hour} h {minute:02}"),
            };
            prop_assert_eq!(read(&text), Some(at(hour, minute)), "{}", text);
        }

        #[test]
        fn a_range_of_less_than_half_a_day_reads_back(start in 0_i64..1440, length in 0_i64..720, way in 0_usize..4) {
            let end = (start + length) % 1440;
            let write = |minutes: i64, says_half: bool| {
                let half = if minutes < 720 { "am" } else { "pm" };
                format!("{}:{:02}{}", (minutes / 60 + 11) % 12 + 1, minutes % 60, if says_half { half } else { "" })
            };
            let text = match way {
                0 => format!("{}:{:02}-{}:{:02}", start / 60, start % 60, end / 60, end % 60),
                1 => format!("{}–{}", write(start, true), write(end, true)),
                2 => format!("{} to {}", write(start, false), write(end, true)),
                _ => format!("{} - {}", write(start, true), write(end, false)),
            };
            prop_assert_eq!(range(&text), Some((start * 60, end * 60)), "{}", text);
        }
    }
}
