//! Dates as the trade writes them on a board, and how old a board is.
//!
//! A date is a year, a month and a day (`2026-03-09`, ISO 8601). Days are
//! counted in the proleptic Gregorian calendar by Howard Hinnant's
//! `days_from_civil` (*chrono-Compatible Low-Level Date Algorithms*; from
//! memory): the year is taken to begin in March, so that the leap day is its
//! last, and 400 years are 146 097 days. Today is an argument: nothing here
//! reads a clock.

use core::fmt;
use core::str::FromStr;
use wording::say;

/// A day of the calendar, from 0000-01-01 to 9999-12-31.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct CalendarDate {
    year: u16,
    month: u8,
    day: u8,
}

/// Why a text is not a date.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum DateError {
    /// It is not written as a date.
    NotADate {
        /// What was typed.
        typed: String,
    },
    /// The calendar has no such day.
    NoSuchDay {
        /// What was typed.
        typed: String,
    },
}

impl fmt::Display for DateError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotADate { typed } => f.write_str(&say!(
                "“{typed}” is not a date: write year-month-day, such as 2026-03-09.",
                typed
            )),
            Self::NoSuchDay { typed } => f.write_str(&say!(
                "“{typed}” is no day of the calendar: check the month and the day.",
                typed
            )),
        }
    }
}

impl core::error::Error for DateError {}

/// The most characters of a refused text that a message repeats.
const LONGEST_QUOTE: usize = 40;

impl FromStr for CalendarDate {
    type Err = DateError;

    /// Reads `2026-03-09` and nothing else.
    fn from_str(text: &str) -> Result<Self, DateError> {
        let typed = || text.chars().take(LONGEST_QUOTE).collect::<String>();
        let Some((year, month, day)) = split(text) else {
            return Err(DateError::NotADate { typed: typed() });
        };
        let date = Self { year, month, day };
        if day == 0 || day > date.days_of_month() {
            return Err(DateError::NoSuchDay { typed: typed() });
        }
        Ok(date)
    }
}

/// Four digits, two digits, two digits, with a hyphen between.
fn split(text: &str) -> Option<(u16, u8, u8)> {
    let is_digits = |part: &str, count: usize| {
        part.len() == count && part.bytes().all(|byte| byte.is_ascii_digit())
    };
    let mut parts = text.split('-');
    let (year, month, day) = (parts.next()?, parts.next()?, parts.next()?);
    if parts.next().is_some() || !is_digits(year, 4) || !is_digits(month, 2) || !is_digits(day, 2) {
        return None;
    }
    Some((year.parse().ok()?, month.parse().ok()?, day.parse().ok()?))
}

impl CalendarDate {
    /// Days of its month; none where there is no such month.
    const fn days_of_month(self) -> u8 {
        match self.month {
            1 | 3 | 5 | 7 | 8 | 10 | 12 => 31,
            4 | 6 | 9 | 11 => 30,
            2 if self.year.is_multiple_of(4)
                && (!self.year.is_multiple_of(100) || self.year.is_multiple_of(400)) =>
            {
                29
            }
            2 => 28,
            _ => 0,
        }
    }

    /// The number of the day in one unbroken count. A year is taken to begin in
    /// March, so that leap days fall at its end.
    fn day_number(self) -> i64 {
        let (month, year_begun) = if self.month > 2 {
            (i64::from(self.month) - 3, i64::from(self.year))
        } else {
            (i64::from(self.month) + 9, i64::from(self.year) - 1)
        };
        // Months from March have 31, 30, 31, 30, 31 days, over and over.
        let day_of_year = (153 * month + 2) / 5 + i64::from(self.day);
        year_begun * 365 + year_begun.div_euclid(4) - year_begun.div_euclid(100)
            + year_begun.div_euclid(400)
            + day_of_year
    }

    /// The month, from 1.
    pub const fn month(self) -> u8 {
        self.month
    }

    /// Days from `earlier` to this date; below zero when it comes before.
    pub fn days_since(self, earlier: Self) -> i64 {
        self.day_number() - earlier.day_number()
    }
}

impl fmt::Display for CalendarDate {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

impl fmt::Debug for CalendarDate {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{self}")
    }
}

/// How many days old a board dated `board` is on the day `today`, both written
/// as `2026-03-09`; below zero for a board dated after today.
///
/// # Errors
/// [`DateError`] says which of the two is not a date.
pub fn board_age(board: &str, today: &str) -> Result<i64, DateError> {
    let board: CalendarDate = board.parse()?;
    Ok(today.parse::<CalendarDate>()?.days_since(board))
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn days_between_known_dates() {
        for (earlier, later, days, source) in [
            (
                "1858-11-17",
                "2000-01-01",
                51_544,
                "modified Julian date of 2000-01-01 (M)",
            ),
            (
                "1970-01-01",
                "2000-01-01",
                10_957,
                "946684800 s of POSIX time (M)",
            ),
            (
                "2000-01-01",
                "2400-01-01",
                146_097,
                "the Gregorian cycle (M)",
            ),
            ("2024-02-28", "2024-03-01", 2, "a leap year"),
            ("2100-02-28", "2100-03-01", 1, "a century without leap day"),
            ("2000-02-28", "2000-03-01", 2, "a century with leap day"),
            ("2025-12-31", "2026-01-01", 1, "new year"),
            ("2026-03-09", "2026-03-09", 0, "the same day"),
            (
                "0000-01-01",
                "0000-03-01",
                60,
                "the year nought is a leap year",
            ),
        ] {
            assert_eq!(board_age(earlier, later), Ok(days), "{source}");
            assert_eq!(board_age(later, earlier), Ok(-days), "{source}");
        }
    }

    #[test]
    fn what_is_not_a_date_is_refused_as_typed() {
        for text in [
            "",
            "2026",
            "2026-3-9",
            "2026-03-9",
            "26-03-09",
            "2026/03/09",
            " 2026-03-09",
            "2026-03-09 ",
            "2026-03-09-",
            "+026-03-09",
            "2026-03-0९",
            "20260309",
            "-026-03-09",
        ] {
            let error = text.parse::<CalendarDate>().expect_err(text);
            assert_eq!(
                error,
                DateError::NotADate {
                    typed: text.to_owned()
                }
            );
            assert!(error.to_string().contains("2026-03-09"));
        }
        for text in [
            "2026-00-10",
            "2026-13-10",
            "2026-01-00",
            "2026-01-32",
            "2026-04-31",
            "2026-02-29",
            "2100-02-29",
            "2024-02-30",
        ] {
            let error = board_age("2026-01-01", text).expect_err(text);
            assert_eq!(
                error,
                DateError::NoSuchDay {
                    typed: text.to_owned()
                }
            );
            assert!(error.to_string().contains(text));
        }
    }

    #[test]
    fn every_day_of_four_hundred_years_is_one_after_the_last() {
        let mut last = "1999-12-31".parse::<CalendarDate>().expect("a date");
        for year in 2000..2400 {
            for month in 1..=12 {
                for day in 1..=31 {
                    let text = format!("{year}-{month:02}-{day:02}");
                    let Ok(date) = text.parse::<CalendarDate>() else {
                        assert!(day > 28);
                        continue;
                    };
                    assert_eq!(date.to_string(), text);
                    assert_eq!(format!("{date:?}"), text);
                    assert_eq!(date.days_since(last), 1, "{date}");
                    assert!(date > last);
                    last = date;
                }
            }
        }
    }

    proptest! {
        #[test]
        fn no_text_panics_and_a_date_reads_back(text in "[0-9]{0,5}-?[0-9]{0,3}-?.{0,3}") {
            if let Ok(date) = text.parse::<CalendarDate>() {
                prop_assert_eq!(date.to_string(), text);
            }
        }
    }
}
