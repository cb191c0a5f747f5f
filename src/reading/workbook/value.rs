//! What a cell of a workbook holds, and the text that it becomes in a column of some kind.

use crate::quantity::Day;
use crate::reading::specification::Kind;
use chrono::NaiveDate;

const DAY: i64 = 86_400_000;

/// A cell's value.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Value {
    Blank,
    Text(String),
    Number(f64),
    /// A number shown as a percentage: 0.1 is 10 %.
    Percent(f64),
    Boolean(bool),
    /// A day, and the milliseconds of it that have gone by.
    Moment(Day, i64),
    /// A time of day, or a time span, in milliseconds.
    Span {
        milliseconds: i64,
        is_elapsed: bool,
    },
    /// What the spreadsheet shows where a formula fails.
    Error(String),
    /// A formula whose value was not kept.
    Unworked,
}

/// The first day of a workbook's serial days.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) enum Epoch {
    /// Day 1 is 1900-01-01, and day 60 the 29 February 1900 that never was.
    #[default]
    Of1900,
    /// Day 0 is 1904-01-01.
    Of1904,
}

impl Epoch {
    fn day(self, serial: i64) -> Option<Day> {
        let before = match self {
            Self::Of1900 if serial < 60 => (1899, 12, 31),
            Self::Of1900 => (1899, 12, 30),
            Self::Of1904 => (1904, 1, 1),
        };
        let start = NaiveDate::from_ymd_opt(before.0, before.1, before.2)?;
        start.checked_add_signed(chrono::TimeDelta::try_days(serial)?).map(Day::from_date)
    }
}

/// The value of a serial number of days that is shown as a date or a time. A time of day has no day; a date before 1900 is a number.
pub(super) fn moment(serial: f64, is_elapsed: bool, epoch: Epoch) -> Value {
    // Far past any date, and far below where milliseconds are lost.
    if !(-3e6..3e6).contains(&serial) {
        return Value::Number(serial);
    }
    #[allow(clippy::cast_possible_truncation)]
    let milliseconds = (serial * 86_400_000.0).round() as i64;
    if is_elapsed || (0..DAY).contains(&milliseconds) {
        return Value::Span { milliseconds, is_elapsed };
    }
    let day = (serial >= 0.0).then(|| epoch.day(milliseconds.div_euclid(DAY))).flatten();
    day.map_or(Value::Number(serial), |day| Value::Moment(day, milliseconds.rem_euclid(DAY)))
}

/// The value of `2026-09-03` or `2026-09-03T18:30:00`.
pub(super) fn iso_moment(text: &str) -> Option<Value> {
    let (day, time) = text.split_once('T').unwrap_or((text, ""));
    let mut parts =
        time.trim_end_matches('Z').splitn(3, ':').map(|part| if part.is_empty() { Some(0.0) } else { part.parse::<f64>().ok() });
    let mut next = || parts.next().unwrap_or(Some(0.0));
    let time = milliseconds(next()?, next()?, next()?)?;
    Some(Value::Moment(Day::parse(day)?, time))
}

/// The value of a duration `PT18H30M00S`; hours may be past 24.
pub(super) fn iso_span(text: &str) -> Option<Value> {
    let (sign, rest) = text.strip_prefix('-').map_or((1, text), |rest| (-1, rest));
    let mut parts = [0.0; 3];
    let mut rest = rest.strip_prefix("PT")?;
    for (part, unit) in parts.iter_mut().zip(['H', 'M', 'S']) {
        if let Some((number, after)) = rest.split_once(unit) {
            (*part, rest) = (number.parse().ok()?, after);
        }
    }
    let [hours, minutes, seconds] = parts;
    let milliseconds = sign * milliseconds(hours, minutes, seconds)?;
    rest.is_empty().then_some(Value::Span { milliseconds, is_elapsed: !(0..DAY).contains(&milliseconds) })
}

#[allow(clippy::cast_possible_truncation)]
fn milliseconds(hours: f64, minutes: f64, seconds: f64) -> Option<i64> {
    let sum = (hours * 3600.0 + minutes * 60.0 + seconds) * 1000.0;
    (0.0..1e14).contains(&sum).then(|| sum.round() as i64)
}

impl Value {
    /// Whether nothing is in the cell.
    pub(super) fn is_blank(&self) -> bool {
        match self {
            Self::Blank => true,
            Self::Text(text) => text.trim().is_empty(),
            _ => false,
        }
    }

    /// The text in a column of a kind, or under no column, and whether it was rounded to six decimals.
    ///
    /// The column's kind settles what a format on screen leaves open: a whole number among days is a serial day; a time among minutes is
    /// a time span, because spreadsheets turn a typed `1:35` into one; a time span among times is a time of day. Money, prices and minutes
    /// that a formula gave more than six decimals are rounded to six, half away from zero, as everywhere such an amount is divided.
    pub(super) fn text(&self, kind: Option<Kind>, epoch: Epoch) -> (String, bool) {
        let text = match (self, kind) {
            (Self::Blank, _) => String::new(),
            (Self::Text(text) | Self::Error(text), _) => text.trim().to_owned(),
            (Self::Number(number), Some(Kind::Day)) => serial_day(*number, epoch).unwrap_or_else(|| decimal(*number, 0)),
            (Self::Number(number), Some(Kind::Money(_) | Kind::Price(_) | Kind::Minutes)) => {
                let exact = decimal(*number, 0);
                let (text, is_rounded) = rounded(&exact).map_or((exact, false), |rounded| (rounded, true));
                return (no_thousands(text), is_rounded);
            }
            (Self::Number(number), Some(Kind::Number(_) | Kind::Size(_) | Kind::Pieces(_) | Kind::Percent)) => {
                no_thousands(decimal(*number, 0))
            }
            (Self::Number(number), _) => decimal(*number, 0),
            (Self::Percent(number), _) => format!("{} %", decimal(*number, 2)),
            (Self::Boolean(boolean), _) => boolean.to_string(),
            (Self::Moment(day, _), Some(Kind::Day)) | (Self::Moment(day, 0), _) => day.to_string(),
            (Self::Moment(_, time), Some(Kind::Time | Kind::TimeOrSpan)) => clock(*time),
            (Self::Moment(day, time), _) => format!("{day} {}", clock(*time)),
            (Self::Span { milliseconds, .. }, Some(Kind::Time | Kind::TimeOrSpan)) if (0..DAY).contains(milliseconds) => {
                clock(*milliseconds)
            }
            (Self::Span { milliseconds, .. }, Some(Kind::Minutes)) => elapsed(*milliseconds),
            (Self::Span { milliseconds, is_elapsed }, _) => {
                if *is_elapsed {
                    elapsed(*milliseconds)
                } else {
                    clock(*milliseconds)
                }
            }
            (Self::Unworked, _) => "=".to_owned(),
        };
        (text, false)
    }
}

impl Value {
    /// Whether a number has more decimals than are shown of it.
    pub(super) fn has_more_than(&self, decimals: usize) -> bool {
        self.shown_in_full().is_some_and(|text| text.split_once('.').is_some_and(|(_, found)| found.len() > decimals))
    }

    /// Whether a number has more digits than the text that is shown of it.
    pub(super) fn has_more_than_in(&self, shown: &str) -> bool {
        let digits = |text: &str| text.chars().filter(char::is_ascii_digit).skip_while(|digit| *digit == '0').count();
        // A number as 1.2E+06 is shown on purpose.
        let is_plain = !shown.contains(['E', 'e']);
        self.shown_in_full().is_some_and(|text| is_plain && digits(text.trim_end_matches('0')) > digits(shown))
    }

    /// All digits of a number, as a percentage where it is one.
    fn shown_in_full(&self) -> Option<String> {
        match self {
            Self::Number(number) => Some(decimal(*number, 0)),
            Self::Percent(number) => Some(decimal(*number, 2)),
            _ => None,
        }
    }
}

/// A number among days, as the day it counts to, where it lies in the years 1954 to 2118.
fn serial_day(number: f64, epoch: Epoch) -> Option<String> {
    #[allow(clippy::cast_possible_truncation)]
    let serial = (20_000.0..80_000.0).contains(&number).then(|| number.floor() as i64)?;
    epoch.day(serial).map(|day| day.to_string())
}

/// A number of three decimals with a fourth, so that none looks like thousands: 1.125 as 1.1250.
fn no_thousands(text: String) -> String {
    let decimals = text.split_once('.').map_or(0, |(_, decimals)| decimals.len());
    if decimals == 3 { text + "0" } else { text }
}

/// The number times ten to the power of `shift`, rounded to the 15 significant digits that spreadsheets show (0.1 + 0.2 is 0.3, not the
/// stored 0.30000000000000004), as its shortest decimal text. Only digits are moved: nothing is computed in binary.
pub(super) fn decimal(number: f64, shift: i32) -> String {
    let scientific = format!("{number:.14e}");
    let (mantissa, exponent) = scientific.split_once('e').unwrap_or((&scientific, "0"));
    let (sign, mantissa) = mantissa.strip_prefix('-').map_or(("", mantissa), |rest| ("-", rest));
    let digits: String = mantissa.chars().filter(char::is_ascii_digit).collect();
    let digits = digits.trim_end_matches('0');
    if digits.is_empty() {
        return "0".to_owned();
    }
    // How many digits stand before the point.
    let whole = exponent.parse::<i32>().unwrap_or(0) + shift + 1;
    let length = i32::try_from(digits.len()).unwrap_or(0);
    let zeros = |count: i32| "0".repeat(usize::try_from(count).unwrap_or(0));
    match usize::try_from(whole) {
        Err(_) | Ok(0) => format!("{sign}0.{}{digits}", zeros(-whole)),
        Ok(_) if whole >= length => format!("{sign}{digits}{}", zeros(whole - length)),
        Ok(whole) => format!("{sign}{}.{}", &digits[..whole], &digits[whole..]),
    }
}

/// A decimal of more than six decimals, rounded to six, half away from zero.
fn rounded(decimal: &str) -> Option<String> {
    let (_, decimals) = decimal.split_once('.')?;
    let exact: rust_decimal::Decimal = (decimals.len() > 6).then(|| decimal.parse().ok()).flatten()?;
    let rounded = exact.round_dp_with_strategy(6, rust_decimal::RoundingStrategy::MidpointAwayFromZero);
    Some(rounded.normalize().to_string())
}

/// A time of day, to the second: `18:30` or `18:30:15`.
fn clock(milliseconds: i64) -> String {
    let seconds = ((milliseconds + 500) / 1000).min(DAY / 1000 - 1);
    let (hours, minutes, seconds) = (seconds / 3600, seconds / 60 % 60, seconds % 60);
    if seconds == 0 { format!("{hours:02}:{minutes:02}") } else { format!("{hours:02}:{minutes:02}:{seconds:02}") }
}

/// A time span, to the second: `1 h 35 min` or `1:35:12`.
fn elapsed(milliseconds: i64) -> String {
    let sign = if milliseconds < 0 { "-" } else { "" };
    let seconds = (milliseconds.abs() + 500) / 1000;
    let (hours, minutes, seconds) = (seconds / 3600, seconds / 60 % 60, seconds % 60);
    match (hours, seconds) {
        (0, 0) => format!("{sign}{minutes} min"),
        (_, 0) => format!("{sign}{hours} h {minutes} min"),
        _ => format!("{sign}{hours}:{minutes:02}:{seconds:02}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::reading::specification::Least;
    use proptest::prelude::*;

    fn text(value: &Value, kind: Kind) -> String {
        value.text(Some(kind), Epoch::Of1900).0
    }

    #[test]
    fn numbers_are_what_a_spreadsheet_shows_of_them() {
        for (number, expected) in [
            (0.1 + 0.2, "0.3"),
            (4.5, "4.5"),
            (24.0, "24"),
            (-3.5, "-3.5"),
            (0.0, "0"),
            (-0.0, "0"),
            (1_234_567.891, "1234567.891"),
            (1e21, "1000000000000000000000"),
            (1.5e-7, "0.00000015"),
            (1.0 / 3.0, "0.333333333333333"),
            (999_999_999_999_999.9, "1000000000000000"),
        ] {
            assert_eq!(decimal(number, 0), expected);
        }
        assert_eq!((decimal(0.029, 2), decimal(0.1, 2), decimal(1.0, 2)), ("2.9".into(), "10".into(), "100".into()));
    }

    #[test]
    fn days_and_times_are_counted_from_either_epoch() {
        let day = |serial: f64, epoch| moment(serial, false, epoch).text(Some(Kind::Day), epoch).0;
        assert_eq!((day(46268.0, Epoch::Of1900), day(44806.0, Epoch::Of1904)), ("2026-09-03".into(), "2026-09-03".into()));
        assert_eq!((day(59.0, Epoch::Of1900), day(61.0, Epoch::Of1900)), ("1900-02-28".into(), "1900-03-01".into()));
        assert_eq!(day(46_268.999_999_999, Epoch::Of1900), "2026-09-04", "rounded to milliseconds, as shown");
        assert_eq!((text(&Value::Number(46268.0), Kind::Day), text(&Value::Number(7.0), Kind::Day)), ("2026-09-03".into(), "7".into()));
        let evening = moment(0.770_833_333_333_333, false, Epoch::Of1900);
        assert_eq!((text(&evening, Kind::Time), text(&evening, Kind::Minutes)), ("18:30".into(), "18 h 30 min".into()));
        let long = moment(1.065_972_222_222_222, true, Epoch::Of1900);
        assert_eq!((text(&long, Kind::Minutes), text(&long, Kind::Text)), ("25 h 35 min".into(), "25 h 35 min".into()));
        let both = moment(46_268.770_833_333_3, false, Epoch::Of1900);
        assert_eq!(
            (text(&both, Kind::Day), text(&both, Kind::Time), text(&both, Kind::Text)),
            ("2026-09-03".into(), "18:30".into(), "2026-09-03 18:30".into())
        );
        assert_eq!(text(&moment(45.2 / 1440.0, false, Epoch::Of1900), Kind::Minutes), "0:45:12");
        assert_eq!(moment(-1.0, false, Epoch::Of1900), Value::Number(-1.0));
    }

    #[test]
    fn a_day_without_a_time_is_no_time_of_day() {
        assert_eq!(text(&moment(46268.0, false, Epoch::Of1900), Kind::Time), "2026-09-03", "which no reader of times takes");
        assert_eq!(text(&moment(0.0, false, Epoch::Of1900), Kind::Time), "00:00");
    }

    #[test]
    fn written_dates_and_spans_are_read() {
        assert_eq!(iso_moment("2026-09-03"), Some(Value::Moment(Day::parse("2026-09-03").unwrap(), 0)));
        assert_eq!(iso_moment("2026-09-03T18:30:00").map(|value| text(&value, Kind::Text)), Some("2026-09-03 18:30".into()));
        assert_eq!((iso_moment("3 Sep"), iso_moment("2026-09-03Tx")), (None, None));
        assert_eq!(iso_span("PT18H30M00S").map(|value| text(&value, Kind::Text)), Some("18:30".into()));
        assert_eq!(iso_span("PT25H35M00.000S").map(|value| text(&value, Kind::Text)), Some("25 h 35 min".into()));
        assert_eq!((iso_span("PT1M12S").map(|value| text(&value, Kind::Minutes)), iso_span("P1D")), (Some("0:01:12".into()), None));
    }

    #[test]
    fn amounts_of_a_formula_are_rounded_to_six_decimals_and_only_they() {
        let third = Value::Number(50.0 / 12.0);
        assert_eq!(third.text(Some(Kind::Money(Least::Any)), Epoch::Of1900), ("4.166667".into(), true));
        assert_eq!(third.text(Some(Kind::Text), Epoch::Of1900), ("4.16666666666667".into(), false));
        assert_eq!(Value::Number(4.1).text(Some(Kind::Money(Least::Any)), Epoch::Of1900), ("4.1".into(), false));
    }

    proptest! {
        #[test]
        fn what_was_typed_is_what_is_read(whole in 0..100_000_000_u64, decimals in 0..1_000_000_u32, places in 0..=6_usize) {
            let typed = format!("{whole}.{:0places$}", u64::from(decimals) % 10_u64.pow(u32::try_from(places).unwrap()));
            let shortest = if typed.contains('.') { typed.trim_end_matches('0').trim_end_matches('.') } else { &typed };
            prop_assert_eq!(decimal(typed.parse().unwrap(), 0), shortest);
        }

        #[test]
        fn every_minute_of_a_day_is_read(day in 1..70_000_i32, minute in 1..1440_i32) {
            let serial = f64::from(day) + f64::from(minute) / 1440.0;
            let clock = format!("{:02}:{:02}", minute / 60, minute % 60);
            prop_assert_eq!(text(&moment(serial, false, Epoch::Of1900), Kind::Time), clock);
        }
    }
}
