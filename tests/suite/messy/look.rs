//! How a column looks: one way of writing all its cells, rolled once for the column.

use crate::random_shop::dice::Dice;
use chrono::{Datelike, NaiveDate};
use fairdozen::reading::Kind;

/// A way of writing the cells of one column.
pub struct Look {
    kind: Kind,
    date: Date,
    separator: char,
    short_year: bool,
    comma: bool,
    grouping: Option<char>,
    /// Around money: before and after it.
    currency: (&'static str, &'static str),
    parentheses: bool,
    /// Which of several everyday forms.
    form: i64,
}

#[derive(Clone, Copy, PartialEq)]
enum Date {
    Ours,
    MonthFirst,
    DayFirst,
    Words,
}

impl Look {
    /// A column left as it is.
    pub fn plain(kind: Kind) -> Self {
        Self {
            kind,
            date: Date::Ours,
            separator: '-',
            short_year: false,
            comma: false,
            grouping: None,
            currency: ("", ""),
            parentheses: false,
            form: 0,
        }
    }

    /// A column written in a way of its own, but for the order of day and month, in which a maker writes all her dates of numbers.
    pub fn roll(kind: Kind, day_first: bool, dice: &mut Dice) -> Self {
        let in_numbers = if day_first { Date::DayFirst } else { Date::MonthFirst };
        let comma = dice.chance(35);
        let groupings = if comma { [None, Some('.'), Some(' '), Some('\u{a0}')] } else { [None, Some(','), Some('\''), Some(' ')] };
        Self {
            kind,
            date: dice.one(&[Date::Ours, in_numbers, in_numbers, in_numbers, Date::Words]),
            separator: dice.one(&['/', '.', '-']),
            short_year: dice.chance(40),
            comma,
            grouping: dice.one(&groupings),
            currency: dice.one(&[("", ""), ("$", ""), ("$ ", ""), ("US$", ""), ("USD ", ""), ("", " USD"), ("", " $")]),
            parentheses: dice.chance(40),
            form: dice.whole(0, 5),
        }
    }

    /// A cell as this column writes it; `plain` is how ours does.
    pub fn cell(&self, plain: &str) -> String {
        if plain.is_empty() {
            return String::new();
        }
        match self.kind {
            Kind::Day => self.day(plain),
            Kind::Time | Kind::TimeOrSpan => self.time(plain),
            Kind::Money(_) => self.money(plain),
            Kind::Price(_) => self.price(plain),
            Kind::Minutes => self.minutes(plain),
            Kind::Number(_) | Kind::Size(_) => self.number(plain),
            Kind::Pieces(_) => self.pieces(plain),
            _ => plain.to_owned(),
        }
    }

    pub fn number(&self, plain: &str) -> String {
        let (sign, digits) = plain.strip_prefix('-').map_or(("", plain), |digits| ("-", digits));
        let (whole, fraction) = digits.split_once('.').unwrap_or((digits, ""));
        let mut grouped = String::new();
        for (at, digit) in whole.chars().enumerate() {
            if let Some(mark) = self.grouping.filter(|_| at > 0 && (whole.len() - at).is_multiple_of(3)) {
                grouped.push(mark);
            }
            grouped.push(digit);
        }
        let mark = if self.comma { "," } else { "." };
        format!("{sign}{grouped}{}{fraction}", if fraction.is_empty() { "" } else { mark })
    }

    fn money(&self, plain: &str) -> String {
        let (before, after) = self.currency;
        match plain.strip_prefix('-') {
            Some(amount) if self.parentheses => format!("({before}{}{after})", self.number(amount)),
            Some(amount) => format!("-{before}{}{after}", self.number(amount)),
            None => format!("{before}{}{after}", self.number(plain)),
        }
    }

    fn price(&self, plain: &str) -> String {
        match plain.split_once('/') {
            Some((amount, _)) => {
                let per = [" / dozen", "/doz", " per dozen", "/dozen", "/dz", " / dz"][usize::try_from(self.form).unwrap()];
                format!("{}{per}", self.money(amount.trim()))
            }
            None => self.money(plain),
        }
    }

    fn pieces(&self, plain: &str) -> String {
        match (plain.split_once(' '), self.form) {
            (Some((dozens, _)), 0 | 1) => format!("{} dz", self.number(dozens)),
            (Some((dozens, _)), 2) => format!("{} doz", self.number(dozens)),
            (Some((".5" | "0.5", _)), 3) => "half dozen".to_owned(),
            (Some((dozens, _)), _) => format!("{} Dozen", self.number(dozens)),
            (None, 0 | 1) => format!("{plain} pcs"),
            (None, 2) => format!("{plain} ct"),
            (None, _) => plain.to_owned(),
        }
    }

    fn minutes(&self, plain: &str) -> String {
        let Ok(minutes) = plain.parse::<u32>() else {
            return if self.form == 1 { format!("{} min", self.number(plain)) } else { self.number(plain) };
        };
        let (hours, rest) = (minutes / 60, minutes % 60);
        match self.form {
            0 => format!("{minutes} min"),
            1 => format!("{hours}h{rest:02}"),
            2 => format!("{hours} h {rest} min"),
            3 => format!("{hours}:{rest:02}"),
            4 => format!("{hours}:{rest:02}:00"),
            _ => plain.to_owned(),
        }
    }

    fn time(&self, plain: &str) -> String {
        let (hours, minutes) = plain.split_once(':').unwrap();
        let hour: u32 = hours.parse().unwrap();
        let (half, clock) = (if hour < 12 { "am" } else { "pm" }, if hour.is_multiple_of(12) { 12 } else { hour % 12 });
        match self.form {
            0 => format!("{clock}:{minutes}{half}"),
            1 => format!("{clock}:{minutes} {}", half.to_uppercase()),
            2 => format!("{clock}.{minutes} {half}"),
            3 => format!("{hour}h{minutes}"),
            4 => format!("{plain}:00"),
            _ => plain.to_owned(),
        }
    }

    fn day(&self, plain: &str) -> String {
        let day = NaiveDate::parse_from_str(plain, "%Y-%m-%d").unwrap();
        let year = if self.short_year { format!("{:02}", day.year() % 100) } else { day.year().to_string() };
        let separator = self.separator;
        match self.date {
            Date::Ours => plain.to_owned(),
            Date::MonthFirst => format!("{}{separator}{}{separator}{year}", day.month(), day.day()),
            Date::DayFirst => format!("{}{separator}{}{separator}{year}", day.day(), day.month()),
            Date::Words => match self.form {
                0 | 1 => day.format("%-d %b %Y").to_string(),
                2 => day.format("%B %-d, %Y").to_string(),
                3 => day.format("%a %-d %b %Y").to_string(),
                _ => day.format("%b %-d %Y").to_string(),
            },
        }
    }
}
