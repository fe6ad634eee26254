//! How records are kept as text: one record a line, words between blanks.
//!
//! ```text
//! weigh-in 1
//! w ribeye-steak - 6.12 kg 0.2
//! end 1
//! ```
//!
//! The first line names the kind and its version; the last one says how many
//! lines stand between. A text that a cut-off writing left behind has no such
//! end: every whole line before it can still be read. A word holds any text, its
//! blanks and marks encoded as in web forms; nothing at all is written `-`.

use core::fmt;
use std::borrow::Cow;

use form_urlencoded::byte_serialize;
use quantity::{Decimal, typed};
use wording::{Text, key, say};

/// Why a kept text cannot be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FormError {
    /// Line, from 1.
    pub line: usize,
    /// What is wrong with it.
    pub fault: Fault,
}

/// What is wrong with a line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Fault {
    /// The text is longer than any such record.
    TooLong {
        /// The most bytes it may have.
        most: usize,
    },
    /// The text is no such record.
    NotThis {
        /// What its first line must begin with.
        kind: &'static str,
    },
    /// A newer version of this tool wrote it.
    Newer {
        /// The version that is read.
        read: u32,
    },
    /// There are more lines than such a record has.
    TooMany {
        /// The most lines.
        most: usize,
    },
    /// A word cannot stand there.
    Bad {
        /// What should stand there.
        wanted: Text,
        /// What stands there.
        found: String,
    },
    /// A word or a line is missing.
    Missing {
        /// What should stand there.
        wanted: Text,
    },
    /// The end says that lines are missing, or more follows it.
    WrongEnd,
    /// The writing was cut off before the end.
    CutOff,
}

impl fmt::Display for FormError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let fault = match &self.fault {
            Fault::TooLong { most } => say!("the text has more than {most} bytes.", most),
            Fault::NotThis { kind } => say!("the text must begin with “{kind}”.", kind),
            Fault::Newer { read } => say!(
                "a newer Sideworth wrote this, and this one reads up to version {read}: open it with the newer one.",
                read
            ),
            Fault::TooMany { most } => say!("there are more than {most} lines.", most),
            Fault::Bad { wanted, found } => {
                say!("“{found}” must be {wanted}.", found, wanted.said())
            }
            Fault::Missing { wanted } => {
                say!("nothing stands where {wanted} should.", wanted.said())
            }
            Fault::WrongEnd => say!("the end does not fit the lines before it."),
            Fault::CutOff => say!("the text is cut off here: take it from a copy."),
        };
        f.write_str(&say!("Line {line}: {message}", self.line, fault))
    }
}

impl core::error::Error for FormError {}

/// The most characters of a refused word that a message repeats.
const LONGEST_QUOTE: usize = 40;

/// Writes a record.
pub(crate) struct Writer {
    text: String,
    lines: usize,
}

impl Writer {
    pub fn new(kind: &str, version: u32) -> Self {
        Self {
            text: format!("{kind} {version}\n"),
            lines: 0,
        }
    }

    /// Adds a line of words.
    pub fn line<'a>(&mut self, words: impl IntoIterator<Item = &'a str>) {
        for (place, word) in words.into_iter().enumerate() {
            if place > 0 {
                self.text.push(' ');
            }
            self.word(word);
        }
        self.text.push('\n');
        self.lines += 1;
    }

    fn word(&mut self, word: &str) {
        match word {
            "" => self.text.push('-'),
            // A hyphen alone stands for nothing.
            "-" => self.text.push_str("%2D"),
            _ => self.text.extend(byte_serialize(word.as_bytes())),
        }
    }

    /// The record with its end.
    pub fn finish(mut self) -> String {
        let end = format!("end {}\n", self.lines);
        self.text.push_str(&end);
        self.text
    }
}

/// The number of a record, without idle zeros.
pub(crate) fn written(number: Decimal) -> String {
    number.normalize().to_string()
}

/// A record as it is read.
pub(crate) struct Record<'a> {
    lines: Vec<&'a str>,
    /// The line at which a cut-off writing stopped.
    pub cut_off: Option<usize>,
}

impl<'a> Record<'a> {
    /// The lines of a record of this kind, `bytes` long and `most` lines at the
    /// most.
    pub fn of(
        text: &'a str,
        kind: &'static str,
        version: u32,
        bytes: usize,
        most: usize,
    ) -> Result<Self, FormError> {
        let fault = |line, fault| Err(FormError { line, fault });
        if text.len() > bytes {
            return fault(1, Fault::TooLong { most: bytes });
        }
        let mut lines: Vec<&str> = text.split('\n').collect();
        // What follows the last line break is not a whole line.
        let rest = lines.pop().unwrap_or_default();
        let Some(first) = lines.first() else {
            return fault(1, Fault::NotThis { kind });
        };
        let found = first
            .strip_prefix(kind)
            .and_then(|rest| rest.strip_prefix(' '))
            .and_then(|number| number.parse::<u32>().ok());
        match found {
            Some(found) if found == version => {}
            Some(found) if found > version => return fault(1, Fault::Newer { read: version }),
            _ => return fault(1, Fault::NotThis { kind }),
        }
        lines.remove(0);
        if lines.len() > most.saturating_add(1) {
            return fault(most.saturating_add(2), Fault::TooMany { most });
        }
        let end = lines.iter().position(|line| line.starts_with("end "));
        let cut_off = match end {
            None => Some(lines.len() + 2),
            Some(place) => {
                let says = lines
                    .get(place)
                    .and_then(|line| line.strip_prefix("end "))
                    .and_then(|count| count.parse::<usize>().ok());
                if says != Some(place) || place + 1 != lines.len() || !rest.is_empty() {
                    return fault(place + 2, Fault::WrongEnd);
                }
                lines.truncate(place);
                None
            }
        };
        Ok(Self { lines, cut_off })
    }

    /// Whether it has its end.
    ///
    /// # Errors
    /// [`Fault::CutOff`] where it has none.
    pub fn whole(&self) -> Result<(), FormError> {
        match self.cut_off {
            None => Ok(()),
            Some(line) => Err(FormError {
                line,
                fault: Fault::CutOff,
            }),
        }
    }

    /// An error for a line that is not there.
    pub fn missing(&self, wanted: Text) -> FormError {
        FormError {
            line: self.lines.len() + 2,
            fault: Fault::Missing { wanted },
        }
    }

    /// Its lines.
    pub fn lines(&self) -> impl Iterator<Item = Words<'a>> {
        self.lines.iter().enumerate().map(|(place, line)| Words {
            line: place + 2,
            rest: Some(line),
        })
    }
}

/// The words of a line.
#[derive(Clone)]
pub(crate) struct Words<'a> {
    line: usize,
    /// What is not read yet; `None` behind the last word.
    rest: Option<&'a str>,
}

impl<'a> Words<'a> {
    /// An error at this line.
    pub fn bad(&self, wanted: Text, found: &str) -> FormError {
        FormError {
            line: self.line,
            fault: Fault::Bad {
                wanted,
                found: found.chars().take(LONGEST_QUOTE).collect(),
            },
        }
    }

    /// An error for a word that is not there.
    pub fn missing(&self, wanted: Text) -> FormError {
        FormError {
            line: self.line,
            fault: Fault::Missing { wanted },
        }
    }

    /// Whether the next word is this one.
    pub fn is_marked(&self, mark: &str) -> bool {
        let behind = self.rest.and_then(|rest| rest.strip_prefix(mark));
        behind.is_some_and(|rest| rest.is_empty() || rest.starts_with(' '))
    }

    /// Whether any word follows.
    pub const fn has_more(&self) -> bool {
        self.rest.is_some()
    }

    /// The next word as it stands, where there is one.
    pub fn next_if_any(&mut self) -> Option<&'a str> {
        let rest = self.rest?;
        // Words are short: a search that is made for long texts takes longer.
        let end = rest.bytes().position(|byte| byte == b' ');
        let (word, behind) = end
            .and_then(|end| Some((rest.get(..end)?, rest.get(end + 1..)?)))
            .map_or((rest, None), |(word, behind)| (word, Some(behind)));
        self.rest = behind;
        Some(word)
    }

    /// The next word as it stands: an id, a mark.
    pub fn plain(&mut self, wanted: Text) -> Result<&'a str, FormError> {
        match self.next_if_any() {
            Some(word) if !word.is_empty() => Ok(word),
            _ => Err(self.missing(wanted)),
        }
    }

    /// The next word as the text it encodes.
    pub fn text(&mut self, wanted: Text) -> Result<String, FormError> {
        let word = self.plain(wanted)?;
        if word == "-" {
            return Ok(String::new());
        }
        decoded(word).ok_or_else(|| self.bad(wanted, word))
    }

    /// The next word as a number, zero or more.
    pub fn number(&mut self, wanted: Text) -> Result<Decimal, FormError> {
        let word = self.plain(wanted)?;
        plain_number(word).ok_or_else(|| self.bad(wanted, word))
    }

    /// The next word as what `read` makes of it.
    pub fn read<T>(
        &mut self,
        wanted: Text,
        read: impl FnOnce(&str) -> Option<T>,
    ) -> Result<T, FormError> {
        let word = self.plain(wanted)?;
        read(word).ok_or_else(|| self.bad(wanted, word))
    }

    /// The next word as what `read` makes of it, or nothing where it is `-`.
    pub fn read_if_any<T>(
        &mut self,
        wanted: Text,
        read: impl FnOnce(&str) -> Option<T>,
    ) -> Result<Option<T>, FormError> {
        let word = self.plain(wanted)?;
        if word == "-" {
            return Ok(None);
        }
        read(word).map(Some).ok_or_else(|| self.bad(wanted, word))
    }

    /// Nothing may follow.
    pub fn end(mut self) -> Result<(), FormError> {
        match self.next_if_any() {
            None => Ok(()),
            Some(word) => Err(self.bad(key!("the end of the line"), word)),
        }
    }
}

/// The most characters of a number.
const LONGEST_NUMBER: usize = 20;

/// The number that was written, zero or more, within what a field takes. Nothing
/// else than digits and a point was.
pub(crate) fn plain_number(word: &str) -> Option<Decimal> {
    short_number(word).or_else(|| long_number(word))
}

/// The most digits of a number that is surely within what a field takes.
const FEW_DIGITS: usize = 9;

/// A number of few digits, as nearly all are: reading any decimal takes many
/// times as long, and a shop keeps tens of thousands.
fn short_number(word: &str) -> Option<Decimal> {
    if word.len() > FEW_DIGITS {
        return None;
    }
    let (mut digits, mut places, mut is_point_past) = (0, 0, false);
    for byte in word.bytes() {
        match byte {
            b'0'..=b'9' => {
                digits = digits * 10 + i64::from(byte - b'0');
                places += u32::from(is_point_past);
            }
            b'.' if !is_point_past => is_point_past = true,
            _ => return None,
        }
    }
    let is_whole = word.as_bytes().first().is_some_and(u8::is_ascii_digit)
        && word.as_bytes().last().is_some_and(u8::is_ascii_digit);
    is_whole.then(|| Decimal::new(digits, places))
}

fn long_number(word: &str) -> Option<Decimal> {
    let is_plain = |byte: u8| byte.is_ascii_digit() || byte == b'.';
    if word.len() > LONGEST_NUMBER || !word.bytes().all(is_plain) {
        return None;
    }
    let number = Decimal::from_str_exact(word).ok()?;
    let fits = number <= typed::LARGEST && number.scale() <= typed::MOST_PLACES;
    fits.then_some(number)
}

/// The text that a word encodes.
fn decoded(word: &str) -> Option<String> {
    if word
        .bytes()
        .all(|byte| byte.is_ascii_alphanumeric() || byte == b'-')
    {
        return Some(word.to_owned());
    }
    let mut pairs = form_urlencoded::parse(word.as_bytes());
    let (text, value) = pairs.next()?;
    let is_one_word = value.is_empty() && pairs.next().is_none() && !word.contains(['=', '&']);
    is_one_word.then(|| Cow::into_owned(text))
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn read(text: &str) -> Result<(Vec<Vec<String>>, Option<usize>), FormError> {
        let record = Record::of(text, "kind", 2, 1000, 5)?;
        let lines = record
            .lines()
            .map(|mut line| {
                let mut words = Vec::new();
                while let Some(word) = line.next_if_any() {
                    words.push(decoded(word).unwrap_or_default());
                }
                words
            })
            .collect();
        Ok((lines, record.cut_off))
    }

    #[test]
    fn what_is_wrong_is_told_with_its_line() {
        let fault = |text: &str| {
            let error = read(text).expect_err(text);
            (error.line, error.fault)
        };
        assert_eq!(fault(""), (1, Fault::NotThis { kind: "kind" }));
        assert_eq!(fault("kind two\n"), (1, Fault::NotThis { kind: "kind" }));
        assert_eq!(fault("kind 3\nend 0\n"), (1, Fault::Newer { read: 2 }));
        assert_eq!(fault("kind 2\na\nend 2\n"), (3, Fault::WrongEnd));
        assert_eq!(fault("kind 2\na\nend 1\nb\n"), (3, Fault::WrongEnd));
        assert_eq!(
            fault("kind 2\na\na\na\na\na\na\nend 6\n"),
            (7, Fault::TooMany { most: 5 })
        );
        assert_eq!(fault(&"k".repeat(1001)), (1, Fault::TooLong { most: 1000 }));
    }

    #[test]
    fn every_fault_is_said_with_its_line() {
        let wanted = key!("a weight");
        let found = "heavy".to_owned();
        for (fault, said) in [
            (
                Fault::TooLong { most: 9 },
                "the text has more than 9 bytes.",
            ),
            (
                Fault::NotThis { kind: "weigh-in" },
                "the text must begin with “weigh-in”.",
            ),
            (
                Fault::Newer { read: 2 },
                "a newer Sideworth wrote this, and this one reads up to version 2: open it with the newer one.",
            ),
            (Fault::TooMany { most: 9 }, "there are more than 9 lines."),
            (Fault::Bad { wanted, found }, "“heavy” must be a weight."),
            (
                Fault::Missing { wanted },
                "nothing stands where a weight should.",
            ),
            (Fault::WrongEnd, "the end does not fit the lines before it."),
            (
                Fault::CutOff,
                "the text is cut off here: take it from a copy.",
            ),
        ] {
            let error = FormError { line: 7, fault };
            assert_eq!(error.to_string(), format!("Line 7: {said}"));
        }
    }

    #[test]
    fn what_was_cut_off_keeps_its_whole_lines() {
        let text = "kind 2\na b\nc\nend 2\n";
        assert_eq!(read(text).expect("whole").1, None);
        let (lines, cut_off) = read(&text[..text.len() - 1]).expect("cut off");
        assert_eq!((lines.len(), cut_off), (2, Some(4)));
        let (lines, cut_off) = read("kind 2\na b\nc").expect("cut off");
        assert_eq!(
            (lines, cut_off),
            (vec![vec!["a".to_owned(), "b".to_owned()]], Some(3))
        );
    }

    proptest! {
        #[test]
        fn any_words_come_back(
            words in prop::collection::vec("\\PC{0,12}|[ =&%+-]{0,3}|\n", 1..6),
        ) {
            let mut writer = Writer::new("kind", 2);
            writer.line(words.iter().map(String::as_str));
            let text = writer.finish();
            let record = Record::of(&text, "kind", 2, 10_000, 5).expect("a record");
            let mut line = record.lines().next().expect("a line");
            for word in &words {
                prop_assert_eq!(&line.text(key!("a claim")).expect("a word"), word);
            }
            prop_assert_eq!(line.end(), Ok(()));
        }

        #[test]
        fn a_short_number_is_what_a_long_one_would_be(word in "[0-9.-]{0,9}") {
            let short = short_number(&word);
            if let Some(short) = short {
                let long = long_number(&word).map(|long| (long, long.scale()));
                prop_assert_eq!(Some((short, short.scale())), long);
            }
            let is_usual = word.starts_with(|first: char| first.is_ascii_digit())
                && word.parse::<f64>().is_ok() && !word.ends_with('.');
            prop_assert_eq!(short.is_some(), is_usual);
        }

        #[test]
        fn no_text_panics(text in "(kind 2\n)?([a-z%+=&-]{0,4} ?){0,4}\n?(end [0-9]\n)?\\PC{0,9}") {
            let _ = read(&text);
        }
    }
}
