//! A weigh-in as text, so that it comes back after a reload or a cut-off.
//!
//! ```text
//! weigh-in 1
//! w <product> <way or -> <gross> <kg, lb or g> <tare>
//! m <way> <minutes>
//! t <way> <started> <stopped or ->
//! end <lines>
//! ```

use carcass::Catalogue;
use quantity::{MassUnit, Minutes};
use wording::key;

use crate::form::{FormError, Record, Writer, written};
use crate::weighing::{Line, MOST_TIMES, MOST_WEIGHINGS, Spent, WeighIn, Weighing};

/// What the first line begins with.
const KIND: &str = "weigh-in";

/// The version that is written, and the newest that is read.
const VERSION: u32 = 1;

/// The most bytes of the text.
pub const LARGEST_BYTES: usize = 256 * 1024;

/// A weigh-in that was read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ReadBack {
    /// What the whole lines say.
    pub weigh_in: WeighIn,
    /// The line at which the writing was cut off, where it was: that line is
    /// lost, those before it are not.
    pub cut_off: Option<usize>,
}

impl WeighIn {
    /// As text.
    pub fn to_text(&self, catalogue: &Catalogue) -> String {
        let mut writer = Writer::new(KIND, VERSION);
        for (line, weighing) in self.weighings() {
            writer.line([
                "w",
                &catalogue[line.product].id,
                line.way.map_or("", |way| &catalogue[way].id),
                &written(weighing.gross()),
                weighing.unit().symbol(),
                &written(weighing.tare()),
            ]);
        }
        for (way, spent) in self.times() {
            let way = &catalogue[*way].id;
            match spent {
                Spent::Typed(minutes) => writer.line(["m", way, &written(minutes.minutes())]),
                Spent::Timed { from, to } => writer.line([
                    "t",
                    way,
                    &from.to_string(),
                    &to.map(|to| to.to_string()).unwrap_or_default(),
                ]),
            }
        }
        writer.finish()
    }

    /// What a text holds.
    ///
    /// # Errors
    /// [`FormError`] names the line and says what should stand there.
    pub fn of_text(catalogue: &Catalogue, text: &str) -> Result<ReadBack, FormError> {
        let most = MOST_WEIGHINGS + MOST_TIMES;
        let record = Record::of(text, KIND, VERSION, LARGEST_BYTES, most)?;
        let mut weigh_in = Self::default();
        for mut words in record.lines() {
            let mark = words.plain(key!("w, m or t"))?;
            match mark {
                "w" => {
                    let product = words.read(key!("a product"), |id| catalogue.product_id(id))?;
                    let way = words.read_if_any(key!("a way or -"), |id| catalogue.way_id(id))?;
                    let gross = words.number(key!("a weight"))?;
                    let unit = words.read(key!("kg, lb or g"), MassUnit::from_symbol)?;
                    let tare = words.number(key!("a tare"))?;
                    let is_taken = Weighing::new(gross, unit, tare)
                        .and_then(|weighing| weigh_in.add(Line { product, way }, weighing));
                    is_taken
                        .map_err(|_| words.bad(key!("a tare below the weight"), &written(tare)))?;
                }
                "m" => {
                    let way = words.read(key!("a way"), |id| catalogue.way_id(id))?;
                    let minutes = Minutes::from_minutes(words.number(key!("minutes"))?);
                    let is_taken = weigh_in.spend(way, minutes);
                    is_taken.map_err(|_| words.bad(key!("one of the first times"), mark))?;
                }
                "t" => {
                    let way = words.read(key!("a way"), |id| catalogue.way_id(id))?;
                    let stamp = |word: &str| word.parse::<u64>().ok();
                    let from = words.read(key!("a time in milliseconds"), stamp)?;
                    let to = words.read_if_any(key!("a time in milliseconds or -"), stamp)?;
                    let mut is_taken = weigh_in.start(way, from);
                    if let Some(to) = to {
                        is_taken = is_taken.and_then(|()| weigh_in.stop(way, to));
                    }
                    is_taken
                        .map_err(|_| words.bad(key!("a time that ends after its start"), mark))?;
                }
                other => return Err(words.bad(key!("w, m or t"), other)),
            }
            words.end()?;
        }
        Ok(ReadBack {
            weigh_in,
            cut_off: record.cut_off,
        })
    }
}

#[cfg(test)]
mod tests {
    use carcass::{ProductId, WayId};
    use proptest::prelude::*;
    use quantity::Decimal;

    use super::*;
    use crate::any_side::CATALOGUE;

    /// The text of version 1 as it stands: it must always be read.
    const VERSION_1: &str = "weigh-in 1
w stew-beef - 6.12 kg 0.2
w fat-trim kidney-fat-raw 4.5 lb 0
m kidney-fat-raw 7.5
t kidney-fat-raw 1778328000000 1778328060000
t kidney-fat-raw 1778328090000 -
end 5
";

    fn any_weigh_in() -> impl Strategy<Value = WeighIn> {
        let products: Vec<ProductId> = CATALOGUE.products().map(|(id, _)| id).collect();
        let ways: Vec<WayId> = CATALOGUE.ways().map(|(id, _)| id).collect();
        let units = [MassUnit::Kilogram, MassUnit::Pound, MassUnit::Gram];
        let weighing = (
            prop::sample::select(products),
            prop::option::of(prop::sample::select(ways.clone())),
            0_i64..10_000_000,
            0_i64..=1000,
            prop::sample::select(units.to_vec()),
        );
        let time = (
            prop::sample::select(ways),
            any::<bool>(),
            0_u64..2_000_000_000_000,
            prop::option::of(0_u64..100_000_000),
        );
        (
            prop::collection::vec(weighing, 0..60),
            prop::collection::vec(time, 0..20),
        )
            .prop_map(|(weighings, times)| {
                let mut weigh_in = WeighIn::default();
                for (product, way, thousandths, of_thousand, unit) in weighings {
                    let gross = Decimal::new(thousandths, 3);
                    let tare = Decimal::new(thousandths * of_thousand / 1000, 3);
                    let weighing = Weighing::new(gross, unit, tare).expect("a reading");
                    weigh_in.add(Line { product, way }, weighing).expect("room");
                }
                for (way, typed, from, lasts) in times {
                    if typed {
                        let minutes = Minutes::from_minutes(Decimal::from(from % 1000));
                        weigh_in.spend(way, minutes).expect("room");
                    } else if weigh_in.start(way, from).is_ok()
                        && let Some(lasts) = lasts
                    {
                        weigh_in.stop(way, from + lasts).expect("it runs");
                    }
                }
                weigh_in
            })
    }

    #[test]
    fn the_first_version_is_read_and_written_the_same() {
        let read = WeighIn::of_text(&CATALOGUE, VERSION_1).expect("a weigh-in");
        assert_eq!(read.cut_off, None);
        assert_eq!(read.weigh_in.weighings().len(), 2);
        assert_eq!(read.weigh_in.to_text(&CATALOGUE), VERSION_1);
    }

    #[test]
    fn a_fault_is_told_with_its_line() {
        for (text, line, fault) in [
            (
                VERSION_1.replacen("weigh-in 1", "weigh-in 2", 1),
                1,
                "a newer Sideworth wrote this, and this one reads up to version 1: open it with the newer one.",
            ),
            (
                VERSION_1.replacen("stew-beef", "stew", 1),
                2,
                "“stew” must be a product.",
            ),
            (
                VERSION_1.replacen("0.2", "7", 1),
                2,
                "“7” must be a tare below the weight.",
            ),
            (
                VERSION_1.replacen("kidney-fat-raw 4.5", "nothing 4.5", 1),
                3,
                "“nothing” must be a way or -.",
            ),
            (
                VERSION_1.replacen("4.5 lb 0", "4.5 lb 0 0", 1),
                3,
                "“0” must be the end of the line.",
            ),
            (
                VERSION_1.replacen("7.5", "-7.5", 1),
                4,
                "“-7.5” must be minutes.",
            ),
            (
                VERSION_1.replacen("1778328060000", "5", 1),
                5,
                "“t” must be a time that ends after its start.",
            ),
            (
                VERSION_1.replacen("1778328090000 -", "1778328090000", 1),
                6,
                "nothing stands where a time in milliseconds or - should.",
            ),
            (
                VERSION_1.replacen("end 5", "end 6", 1),
                7,
                "the end does not fit the lines before it.",
            ),
        ] {
            let error = WeighIn::of_text(&CATALOGUE, &text).expect_err(&text);
            assert_eq!(error.line, line, "{error}");
            assert_eq!(error.to_string(), format!("Line {line}: {fault}"));
        }
    }

    proptest! {
        #[test]
        fn every_weigh_in_comes_back(weigh_in in any_weigh_in()) {
            let text = weigh_in.to_text(&CATALOGUE);
            let read = WeighIn::of_text(&CATALOGUE, &text);
            prop_assert_eq!(read, Ok(ReadBack { weigh_in, cut_off: None }));
        }

        #[test]
        fn a_cut_off_text_keeps_every_whole_weighing(
            weigh_in in any_weigh_in(),
            at in any::<prop::sample::Index>(),
        ) {
            let text = weigh_in.to_text(&CATALOGUE);
            let at = at.index(text.len());
            let cut = &text[..at];
            let whole_lines = cut.matches('\n').count();
            match WeighIn::of_text(&CATALOGUE, cut) {
                Ok(read) => {
                    prop_assert_eq!(read.cut_off, Some(whole_lines + 1));
                    let kept = read.weigh_in.weighings();
                    prop_assert_eq!(kept, &weigh_in.weighings()[..kept.len()]);
                    prop_assert!(kept.len() == weigh_in.weighings().len().min(whole_lines - 1));
                }
                Err(error) => prop_assert!(whole_lines == 0, "{}", error),
            }
        }

        #[test]
        fn no_text_panics(text in "(weigh-in 1\n)?([wmt]( [a-z0-9.-]{0,9}){0,6}\n){0,3}\\PC{0,20}") {
            let _ = WeighIn::of_text(&CATALOGUE, &text);
        }
    }
}
