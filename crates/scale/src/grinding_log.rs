//! The grinding log: which lots went into which batch, when and by whom.
//!
//! What a log of raw ground beef holds follows the US rule for shops that grind
//! (9 CFR 320.1(b)(4), from memory): supplier and lot of all source material,
//! names and amounts, date and time of grinding, date and time of cleaning. Local
//! codes decide what a shop has to keep.
//!
//! ```text
//! grinding-log 1
//! b <batch> <product> <date> <time> <by> <cleaned date> <cleaned time> <lot> <kg> …
//! end <lines>
//! ```

use core::fmt;
use core::str::FromStr;
use std::collections::BTreeMap;

use pricing::CalendarDate;
use quantity::{Mass, typed};
use wording::{key, say, text};

use crate::form::{FormError, Record, Writer, written};
use crate::lot_code::lot_key;

/// What the first line begins with.
const KIND: &str = "grinding-log";

/// The version that is written, and the newest that is read.
const VERSION: u32 = 1;

/// The most batches of one log: ten a day for a year.
pub const MOST_BATCHES: usize = 4000;

/// The most lots of a batch.
pub const MOST_LOTS: usize = 100;

/// The most bytes of the text.
pub const LARGEST_BYTES: usize = 1024 * 1024;

/// A time of the day as it was read off a clock at the place.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct TimeOfDay {
    hour: u8,
    minute: u8,
}

impl FromStr for TimeOfDay {
    type Err = ();

    /// Reads `07:45` and nothing else.
    fn from_str(text: &str) -> Result<Self, ()> {
        let (hour, minute) = text.split_once(':').ok_or(())?;
        let two_digits = |text: &str| {
            let is_two = text.len() == 2 && text.bytes().all(|byte| byte.is_ascii_digit());
            is_two.then(|| text.parse::<u8>().ok()).flatten().ok_or(())
        };
        let (hour, minute) = (two_digits(hour)?, two_digits(minute)?);
        if hour < 24 && minute < 60 {
            Ok(Self { hour, minute })
        } else {
            Err(())
        }
    }
}

impl fmt::Display for TimeOfDay {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:02}:{:02}", self.hour, self.minute)
    }
}

/// A day and a time of it.
pub type Moment = (CalendarDate, TimeOfDay);

/// One batch of grind.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Batch {
    /// Its own lot code.
    pub code: String,
    /// Id of the product it is sold as.
    pub product: String,
    /// When it was ground.
    pub ground: Moment,
    /// Who ground it.
    pub by: String,
    /// When the grinder was last cleaned before it.
    pub cleaned: Option<Moment>,
    /// The lot codes that went in, with the weight of each; a batch that was
    /// ground again is a lot too.
    pub lots: Vec<(String, Mass)>,
}

impl Batch {
    /// What went in.
    pub fn weight(&self) -> Mass {
        self.lots.iter().map(|(_, weight)| *weight).sum()
    }
}

/// Why a batch is not taken down.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BatchError {
    /// It has no code.
    NoCode,
    /// Another batch has its code.
    SameCode,
    /// Nothing went in, or a lot without a code or without weight.
    NoLots,
    /// A lot went in that weighs more than a field takes, or with too many
    /// digits.
    OutOfRange,
    /// It names itself as a lot.
    OfItself,
    /// There is no room for another batch, or for so many lots.
    TooMany,
}

impl fmt::Display for BatchError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NoCode => text!("The batch needs a code: it is what stands on its label."),
            Self::SameCode => text!("Another batch has this code: give it one of its own."),
            Self::NoLots => text!("Name every lot that went in, each with its weight."),
            Self::OutOfRange => {
                return f.write_str(&say!(
                    "A weight must be 0 or more and at most {most}, with {places} decimals at most.",
                    typed::LARGEST,
                    typed::MOST_PLACES
                ));
            }
            Self::OfItself => text!("A batch cannot go into itself: name the lots it came of."),
            Self::TooMany => {
                text!("The log is full: hand it out as a file, keep the file, and begin another.")
            }
        })
    }
}

impl core::error::Error for BatchError {}

/// All batches, the first one first.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct GrindingLog {
    batches: Vec<Batch>,
}

impl GrindingLog {
    /// Every batch.
    pub fn batches(&self) -> &[Batch] {
        &self.batches
    }

    /// The batch with this code, whatever its case and the blanks around it.
    pub fn batch(&self, code: &str) -> Option<&Batch> {
        let key = lot_key(code);
        self.batches
            .iter()
            .find(|batch| lot_key(&batch.code) == key)
    }

    /// Takes down a batch. One that was taken down is not changed: a log that
    /// can be rewritten proves nothing.
    ///
    /// # Errors
    /// [`BatchError`] says what is missing.
    pub fn add(&mut self, batch: Batch) -> Result<(), BatchError> {
        if batch.code.is_empty() {
            return Err(BatchError::NoCode);
        }
        if self.batch(&batch.code).is_some() {
            return Err(BatchError::SameCode);
        }
        // Only where a batch is new: a log that was kept with such a one is still read.
        let key = lot_key(&batch.code);
        if batch.lots.iter().any(|(lot, _)| lot_key(lot) == key) {
            return Err(BatchError::OfItself);
        }
        self.add_new(batch)?;
        // What could not be read again would be lost.
        if self.to_text().len() > LARGEST_BYTES {
            self.batches.pop();
            return Err(BatchError::TooMany);
        }
        Ok(())
    }

    fn add_new(&mut self, batch: Batch) -> Result<(), BatchError> {
        let is_whole = |(lot, weight): &(String, Mass)| !lot.is_empty() && weight.is_positive();
        let fits = |(_, weight): &(String, Mass)| {
            weight.kg() <= typed::LARGEST && weight.kg().normalize().scale() <= typed::MOST_PLACES
        };
        if batch.lots.is_empty() || !batch.lots.iter().all(is_whole) {
            return Err(BatchError::NoLots);
        }
        if !batch.lots.iter().all(fits) {
            return Err(BatchError::OutOfRange);
        }
        if batch.lots.iter().any(|(lot, _)| *lot == batch.code) {
            return Err(BatchError::OfItself);
        }
        if self.batches.len() >= MOST_BATCHES || batch.lots.len() > MOST_LOTS {
            return Err(BatchError::TooMany);
        }
        self.batches.push(batch);
        Ok(())
    }

    /// Takes down the batches of another log, such as that of another phone, each
    /// where its time puts it: those that are here keep their order. Gives the codes
    /// of those that are left, since another batch here has their code or there is
    /// no room. The same batch is not taken twice.
    pub fn join(&mut self, other: &Self) -> Vec<String> {
        let mut known: BTreeMap<String, Batch> = self
            .batches
            .iter()
            .map(|batch| (lot_key(&batch.code), batch.clone()))
            .collect();
        let mut left = Vec::new();
        for batch in &other.batches {
            let key = lot_key(&batch.code);
            if known.get(&key) == Some(batch) {
                continue;
            }
            let mut before = self.batches.iter();
            let before = before.rposition(|known| known.ground <= batch.ground);
            let is_new = !known.contains_key(&key);
            if is_new && self.add_new(batch.clone()).is_ok() {
                let place = before.map_or(0, |place| place + 1);
                if let Some(behind) = self.batches.get_mut(place..) {
                    behind.rotate_right(1);
                }
                known.insert(key, batch.clone());
            } else {
                left.push(batch.code.clone());
            }
        }
        left
    }

    /// Takes the batch back that was taken down last: a slip that was seen at once.
    /// Nothing was ground from it yet, since that would be a later batch.
    pub fn take_back_last(&mut self) -> Option<Batch> {
        self.batches.pop()
    }

    /// As text.
    pub fn to_text(&self) -> String {
        let mut writer = Writer::new(KIND, VERSION);
        for batch in &self.batches {
            let (date, time) = &batch.ground;
            let (cleaned_date, cleaned_time) = batch
                .cleaned
                .map(|(date, time)| (date.to_string(), time.to_string()))
                .unwrap_or_default();
            let mut words = vec![
                "b".to_owned(),
                batch.code.clone(),
                batch.product.clone(),
                date.to_string(),
                // A colon is a mark of its own in the text of a word.
                time.to_string(),
                batch.by.clone(),
                cleaned_date,
                cleaned_time,
            ];
            for (lot, weight) in &batch.lots {
                words.push(lot.clone());
                words.push(written(weight.kg()));
            }
            writer.line(words.iter().map(String::as_str));
        }
        writer.finish()
    }

    /// What a text holds. Of a text that was cut off, the whole batches, with
    /// the line at which it stopped.
    ///
    /// # Errors
    /// [`FormError`] names the line and says what should stand there.
    pub fn of_text(text: &str) -> Result<(Self, Option<usize>), FormError> {
        let record = Record::of(text, KIND, VERSION, LARGEST_BYTES, MOST_BATCHES)?;
        let mut log = Self::default();
        let mut codes = std::collections::BTreeSet::new();
        for mut words in record.lines() {
            words.read(key!("the mark b"), |mark| (mark == "b").then_some(()))?;
            let code = words.text(key!("the code of a batch"))?;
            if !codes.insert(code.clone()) {
                return Err(words.bad(key!("a code of its own"), &code));
            }
            let product = words.text(key!("a product or -"))?;
            let date = words.read(key!("a date"), |date| date.parse().ok())?;
            let time = words.text(key!("a time such as 07:45"))?;
            let time = time
                .parse()
                .map_err(|()| words.bad(key!("a time such as 07:45"), &time))?;
            let by = words.text(key!("a name or -"))?;
            let cleaned_date = words.read_if_any(key!("a date or -"), |date| date.parse().ok())?;
            let cleaned_time = words.text(key!("a time such as 07:45, or -"))?;
            let cleaned = match cleaned_date {
                None if cleaned_time.is_empty() => None,
                None => return Err(words.bad(key!("- where there is no date"), &cleaned_time)),
                Some(date) => {
                    let time = cleaned_time
                        .parse()
                        .map_err(|()| words.bad(key!("a time such as 07:45"), &cleaned_time))?;
                    Some((date, time))
                }
            };
            let mut lots = Vec::new();
            while words.has_more() {
                let lot = words.text(key!("a lot code"))?;
                lots.push((lot, Mass::from_kg(words.number(key!("a weight"))?)));
            }
            let batch = Batch {
                code,
                product,
                ground: (date, time),
                by,
                cleaned,
                lots,
            };
            if batch.code.is_empty() {
                return Err(words.missing(key!("the code of a batch")));
            }
            log.add_new(batch)
                .map_err(|_| words.missing(key!("lots with their weights")))?;
        }
        Ok((log, record.cut_off))
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use quantity::Decimal;

    use super::*;

    fn batch(code: &str, lots: &[(&str, i64)]) -> Batch {
        Batch {
            code: code.to_owned(),
            product: "ground-lean".to_owned(),
            ground: (
                "2026-03-09".parse().expect("a date"),
                "07:45".parse().expect("a time"),
            ),
            by: "Jo".to_owned(),
            cleaned: None,
            lots: lots
                .iter()
                .map(|(lot, grams)| ((*lot).to_owned(), Mass::from_kg(Decimal::new(*grams, 3))))
                .collect(),
        }
    }

    #[test]
    fn a_batch_needs_a_code_of_its_own_and_its_lots() {
        let mut log = GrindingLog::default();
        log.add(batch("G1", &[("A17-trim", 4200)])).expect("sound");
        for (of, error) in [
            (batch("", &[("A", 1)]), BatchError::NoCode),
            (batch("G1", &[("A", 1)]), BatchError::SameCode),
            (batch("G2", &[]), BatchError::NoLots),
            (batch("G2", &[("A", 0)]), BatchError::NoLots),
            (batch("G2", &[("", 5)]), BatchError::NoLots),
            (batch("G2", &[("G2", 5)]), BatchError::OfItself),
            (batch("G2", &[(" g2", 5)]), BatchError::OfItself),
            (batch("G2", &[("A", 1); 101]), BatchError::TooMany),
        ] {
            assert_eq!(log.add(of), Err(error));
        }
        assert_eq!(log.batches().len(), 1);
        assert_eq!(
            log.batches()[0].weight(),
            Mass::from_kg(Decimal::new(42, 1))
        );
        assert_eq!(
            log.take_back_last().map(|it| it.code).as_deref(),
            Some("G1")
        );
        assert_eq!(log.take_back_last(), None);
    }

    #[test]
    fn two_logs_come_together_in_the_order_of_time() {
        let at = |code: &str, time: &str| {
            let mut batch = batch(code, &[("A", 1)]);
            batch.ground.1 = time.parse().expect("a time");
            batch
        };
        let log = |batches: &[(&str, &str)]| {
            let mut log = GrindingLog::default();
            for (code, time) in batches {
                log.add(at(code, time)).expect("sound");
            }
            log
        };
        // The second was written down late: that stays so.
        let mut here = log(&[("G1", "08:00"), ("G2", "07:30"), ("G3", "12:00")]);
        let there = log(&[
            ("H1", "07:00"),
            ("G1", "08:00"),
            ("H2", "09:00"),
            ("g3", "11:00"),
            ("H3", "13:00"),
        ]);
        assert_eq!(here.join(&there), ["g3"]);
        let codes = |log: &GrindingLog| -> Vec<String> {
            log.batches().iter().map(|it| it.code.clone()).collect()
        };
        assert_eq!(codes(&here), ["H1", "G1", "G2", "H2", "G3", "H3"]);
        assert_eq!(here.join(&there), ["g3"]);
        assert_eq!(here.batches().len(), 6);

        let mut full = GrindingLog::default();
        for number in 0..MOST_BATCHES {
            full.add_new(batch(&format!("B{number}"), &[("A", 1)]))
                .expect("sound");
        }
        assert_eq!(full.join(&log(&[("H1", "07:00")])), ["H1"]);
    }

    #[test]
    fn a_log_takes_no_batch_more_than_can_be_read_again() {
        let lots: Vec<(String, i64)> = (0..MOST_LOTS)
            .map(|number| (format!("{number:0>80}"), 1))
            .collect();
        let lots: Vec<(&str, i64)> = lots
            .iter()
            .map(|(lot, grams)| (lot.as_str(), *grams))
            .collect();
        let mut log = GrindingLog::default();
        let refused =
            (0..MOST_BATCHES).find_map(|number| log.add(batch(&format!("B{number}"), &lots)).err());
        assert_eq!(refused, Some(BatchError::TooMany));
        assert!(log.batches().len() > 100, "{}", log.batches().len());
        let (again, _) = GrindingLog::of_text(&log.to_text()).expect("what was kept");
        assert_eq!(again, log);
    }

    #[test]
    fn a_time_is_that_of_a_clock() {
        for text in ["24:00", "07:60", "7:45", "0745", "07:4a", "+7:45", ""] {
            assert!(text.parse::<TimeOfDay>().is_err(), "{text}");
        }
        assert_eq!(
            "23:59".parse::<TimeOfDay>().map(|it| it.to_string()),
            Ok("23:59".to_owned())
        );
    }

    #[test]
    fn a_fault_is_told_with_its_line() {
        let mut log = GrindingLog::default();
        for code in ["G1", "G2"] {
            log.add(batch(code, &[("A", 1)])).expect("sound");
        }
        let text = log.to_text();
        for (from, to, line, fault) in [
            ("b G1", "c G1", 2, "“c” must be the mark b."),
            (
                "2026-03-09",
                "2026-03-32",
                2,
                "“2026-03-32” must be a date.",
            ),
            ("07%3A45", "7", 2, "“7” must be a time such as 07:45."),
            ("b G2", "b G1", 3, "“G1” must be a code of its own."),
            ("0.001", "x", 2, "“x” must be a weight."),
            (
                "end 2",
                "end 3",
                4,
                "the end does not fit the lines before it.",
            ),
            (
                " A 0.001",
                "",
                2,
                "nothing stands where lots with their weights should.",
            ),
            (
                "b G1",
                "b -",
                2,
                "nothing stands where the code of a batch should.",
            ),
            (
                "Jo - - A",
                "Jo - 07%3A45 A",
                2,
                "“07:45” must be - where there is no date.",
            ),
        ] {
            assert!(text.contains(from), "{from} in {text}");
            let error = GrindingLog::of_text(&text.replacen(from, to, 1)).expect_err(from);
            assert_eq!(error.line, line, "{from}: {error}");
            assert_eq!(error.to_string(), format!("Line {line}: {fault}"));
        }
    }

    proptest! {
        #[test]
        fn every_log_comes_back_and_a_cut_off_one_keeps_its_batches(
            batches in prop::collection::vec(
                (prop::collection::vec(("\\PC{1,8}", 1_i64..1_000_000), 1..6), any::<bool>(), "\\PC{0,9}"),
                0..12,
            ),
            at in any::<prop::sample::Index>(),
        ) {
            let mut log = GrindingLog::default();
            for (place, (lots, is_cleaned, by)) in batches.iter().enumerate() {
                let lots: Vec<(&str, i64)> =
                    lots.iter().map(|(lot, grams)| (lot.as_str(), *grams)).collect();
                let mut batch = batch(&format!("batch {place}"), &lots);
                batch.cleaned = is_cleaned.then_some(batch.ground);
                batch.by.clone_from(by);
                log.add(batch).expect("sound");
            }
            let text = log.to_text();
            prop_assert_eq!(GrindingLog::of_text(&text), Ok((log.clone(), None)));
            let cut = &text[..at.index(text.len())];
            if cut.contains('\n') {
                let (kept, cut_off) = GrindingLog::of_text(cut).expect("whole lines");
                prop_assert!(cut_off.is_some());
                prop_assert_eq!(kept.batches(), &log.batches()[..kept.batches().len()]);
            }
        }

        #[test]
        fn no_text_panics(text in "(grinding-log 1\n)?(b( [a-z0-9.:%-]{0,10}){0,12}\n){0,3}(end [0-9]\n)?") {
            let _ = GrindingLog::of_text(&text);
        }
    }
}
