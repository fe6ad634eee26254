//! What a graded carcass is expected to give.
//!
//! One yield grade leaner gives 4.0 to 4.6 points more saleable meat of the
//! chilled side (Kansas State University 1996 and 1976) and about one point
//! more bone (1976). The model starts at the grain-fed preset, which stands at
//! a yield grade of about 3.2, and goes along the middle slope:
//!
//! ```text
//! saleable = preset saleable + 4.3 · (3.2 − YG)
//! bone     = preset bone     + 1.0 · (3.2 − YG)
//! fat trim = what these two leave of the side
//! ```
//!
//! Fat trim thus falls by 5.3 points a grade. The published 5.6 goes with the
//! upper slope of 4.6, the other two together with it; on the middle slope
//! three shares that sum to one leave no other figure.
//!
//! The share is of the chilled side, mostly boneless. Which way the carcass
//! was finished is not told by its grade: the matching point between the stock
//! presets has the same saleable share, not the same fat and bone.

use std::collections::BTreeMap;

use quantity::{Decimal, Share};

use crate::catalogue::{Catalogue, Mark};
use crate::grade::YieldGrade;
use crate::packing::packed;
use crate::stock::{Stock, StockPreset};
use crate::table::{DataError, DataFile, Row, rows};

/// The model, from `yield-grade.csv` and the stock presets.
#[derive(Clone, Debug)]
pub(crate) struct YieldModel {
    /// Grade at which the grain-fed preset stands.
    anchor: Decimal,
    saleable: Share,
    bone: Share,
    /// Saleable share of the grass-fed preset.
    grass_saleable: Share,
    saleable_slope: Slope,
    bone_slope: Share,
    mark: Mark,
}

packed!(YieldModel {
    anchor,
    saleable,
    bone,
    grass_saleable,
    saleable_slope,
    bone_slope,
    mark
});

/// Share gained for one grade leaner.
#[derive(Clone, Copy, Debug)]
struct Slope {
    low: Share,
    middle: Share,
    high: Share,
}

packed!(Slope { low, middle, high });

/// The share that `slope` makes of `share` at `leaner` grades below the anchor.
fn along(share: Share, slope: Share, leaner: Decimal) -> Share {
    share + slope * Share::from_fraction(leaner)
}

/// What a graded carcass is expected to give, as shares of the chilled side.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ExpectedYield {
    /// The grade reckoned with, within 1.0 to 5.9.
    pub grade: YieldGrade,
    /// Whether the carcass graded beyond 1.0 to 5.9, so that the nearer end
    /// stands in for it.
    pub is_limited: bool,
    /// Saleable share, mostly boneless.
    pub saleable: Share,
    /// Saleable share by the published slope that gives less.
    pub saleable_low: Share,
    /// Saleable share by the published slope that gives more.
    pub saleable_high: Share,
    /// Fat trim with kidney fat.
    pub fat: Share,
    /// Bone and waste.
    pub bone: Share,
    /// Where between the stock presets the saleable share is the same.
    pub stock: StockMatch,
    /// How well it is known.
    pub mark: Mark,
}

/// Where between the two stock presets a saleable share lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StockMatch {
    /// At this point.
    Between(Stock),
    /// Below the grain-fed preset, by this share of the side.
    BelowGrain(Share),
    /// Above the grass-fed preset, by this share of the side.
    AboveGrass(Share),
}

impl StockMatch {
    /// The matching point, or the nearer preset where there is none.
    pub const fn nearest(self) -> Stock {
        match self {
            Self::Between(stock) => stock,
            Self::BelowGrain(_) => Stock::GRAIN,
            Self::AboveGrass(_) => Stock::GRASS,
        }
    }
}

impl YieldModel {
    /// Share of saleable and of bone gained for one grade leaner, on the middle
    /// slope.
    pub(crate) const fn per_grade(&self) -> (Share, Share) {
        (self.saleable_slope.middle, self.bone_slope)
    }

    /// Reads the file and links it to the presets, grain-fed first.
    pub(crate) fn read(
        file: DataFile,
        presets: &[StockPreset],
        sources: &BTreeMap<String, usize>,
    ) -> Result<Self, DataError> {
        let fault = |message: &str| DataError {
            file: file.name,
            line: None,
            message: message.to_owned(),
        };
        let [grain, grass] = presets else {
            return Err(fault("two stock presets are needed"));
        };
        let columns = &["figure", "value", "low", "high", "source", "mark", "note"];
        let mut figures: BTreeMap<String, Row> = BTreeMap::new();
        for row in rows(file, columns)? {
            row.reference("source", sources)?;
            Mark::read(&row)?;
            let (low, value, high) = (
                row.number("low")?,
                row.number("value")?,
                row.number("high")?,
            );
            if !(Decimal::ZERO < low && low <= value && value <= high) {
                return Err(row.error("“low”, “value” and “high” must rise from above 0"));
            }
            figures.insert(row.required("figure")?, row);
        }
        let row = |figure: &str| {
            figures
                .get(figure)
                .ok_or_else(|| fault(&format!("the figure “{figure}” is missing")))
        };
        let points =
            |figure: &str, column: &str| row(figure)?.number(column).map(Share::from_percent);
        let model = Self {
            anchor: row("grain_grade")?.number("value")?,
            saleable: grain.saleable,
            bone: grain.bone,
            grass_saleable: grass.saleable,
            saleable_slope: Slope {
                low: points("saleable_per_grade", "low")?,
                middle: points("saleable_per_grade", "value")?,
                high: points("saleable_per_grade", "high")?,
            },
            bone_slope: points("bone_per_grade", "value")?,
            mark: Mark::read(row("saleable_per_grade")?)?,
        };
        if grain.saleable >= grass.saleable {
            return Err(fault("the grass-fed preset must sell the larger share"));
        }
        let closes = [YieldGrade::LEANEST, YieldGrade::FATTEST]
            .into_iter()
            .map(|grade| model.expect(grade))
            .all(|end| {
                [end.saleable_low, end.saleable_high, end.fat, end.bone]
                    .into_iter()
                    .all(Share::is_part_of_whole)
            });
        if closes {
            Ok(model)
        } else {
            Err(fault("a share would leave 0 to 100 % at grade 1.0 or 5.9"))
        }
    }

    fn expect(&self, grade: YieldGrade) -> ExpectedYield {
        let held = grade.within_limits();
        let leaner = self.anchor - held.figure();
        let by = |slope| along(self.saleable, slope, leaner);
        let (one, other) = (by(self.saleable_slope.low), by(self.saleable_slope.high));
        let saleable = by(self.saleable_slope.middle);
        let bone = along(self.bone, self.bone_slope, leaner);
        ExpectedYield {
            grade: held,
            is_limited: !grade.is_within_limits(),
            saleable,
            saleable_low: one.min(other),
            saleable_high: one.max(other),
            fat: (saleable + bone).complement(),
            bone,
            stock: self.matching(saleable),
            mark: self.mark,
        }
    }

    fn matching(&self, saleable: Share) -> StockMatch {
        let beyond_grain = saleable - self.saleable;
        if beyond_grain < Share::ZERO {
            return StockMatch::BelowGrain(self.saleable - saleable);
        }
        let span = (self.grass_saleable - self.saleable).fraction();
        match beyond_grain.fraction().checked_div(span) {
            Some(way) if way <= Decimal::ONE => {
                StockMatch::Between(Stock::grass_share(Share::from_fraction(way)))
            }
            _ => StockMatch::AboveGrass(saleable - self.grass_saleable),
        }
    }
}

impl Catalogue {
    /// What a carcass of this yield grade is expected to give, by the model of
    /// [`crate::expected_yield`].
    pub fn expected_yield(&self, grade: YieldGrade) -> ExpectedYield {
        self.yield_model.expect(grade)
    }
}

#[cfg(test)]
mod tests {
    use std::sync::LazyLock;

    use proptest::prelude::*;

    use super::*;

    static CATALOGUE: LazyLock<Catalogue> =
        LazyLock::new(|| Catalogue::published().expect("published data"));

    fn expected(hundredths: i64) -> ExpectedYield {
        CATALOGUE.expected_yield(YieldGrade::from_figure(Decimal::new(hundredths, 2)))
    }

    fn percent(tenths: i64) -> Share {
        Share::from_percent(Decimal::new(tenths, 1))
    }

    #[test]
    fn the_anchor_is_the_grain_fed_preset() {
        let at_anchor = expected(320);
        assert_eq!(at_anchor.saleable, percent(660));
        assert_eq!(at_anchor.fat, percent(195));
        assert_eq!(at_anchor.bone, percent(145));
        assert_eq!(at_anchor.stock, StockMatch::Between(Stock::GRAIN));
    }

    #[test]
    fn one_grade_leaner_moves_by_the_slopes() {
        let leaner = expected(220);
        assert_eq!(leaner.saleable, percent(703));
        assert_eq!(leaner.saleable_low, percent(700));
        assert_eq!(leaner.saleable_high, percent(706));
        assert_eq!(leaner.bone, percent(155));
        assert_eq!(leaner.fat, percent(142));
        let fatter = expected(420);
        assert_eq!(fatter.saleable, percent(617));
        assert_eq!(fatter.saleable_low, percent(614));
        assert_eq!(fatter.saleable_high, percent(620));
    }

    #[test]
    fn a_match_outside_the_presets_is_told_with_its_distance() {
        assert_eq!(expected(220).stock, StockMatch::AboveGrass(percent(13)));
        assert_eq!(expected(420).stock, StockMatch::BelowGrain(percent(43)));
        assert_eq!(expected(220).stock.nearest(), Stock::GRASS);
        assert_eq!(expected(420).stock.nearest(), Stock::GRAIN);
    }

    #[test]
    fn beyond_the_limits_the_nearer_end_stands_in_and_is_told() {
        assert!(expected(40).is_limited);
        assert_eq!(expected(40).saleable, expected(100).saleable);
        assert_eq!(expected(700).grade, YieldGrade::FATTEST);
        assert!(!expected(590).is_limited);
    }

    proptest! {
        #[test]
        fn every_grade_closes_and_lies_in_its_range(hundredths in -1000_i64..2000) {
            let expected = expected(hundredths);
            prop_assert_eq!(expected.saleable + expected.fat + expected.bone, Share::WHOLE);
            prop_assert!(expected.saleable_low <= expected.saleable);
            prop_assert!(expected.saleable <= expected.saleable_high);
            for share in [expected.saleable_low, expected.saleable_high, expected.fat, expected.bone] {
                prop_assert!(share.is_part_of_whole());
            }
        }

        #[test]
        fn the_matching_point_sells_what_is_expected(hundredths in 251_i64..=320) {
            let expected = expected(hundredths);
            let StockMatch::Between(stock) = expected.stock else {
                return Err(TestCaseError::fail("a match between the presets"));
            };
            let [grain, grass] = CATALOGUE.presets() else {
                return Err(TestCaseError::fail("two presets"));
            };
            let sold = stock.between(grain.saleable, grass.saleable);
            // The point is cut to six digits of a span of three points.
            let apart = (sold - expected.saleable).fraction().abs();
            prop_assert!(apart <= Decimal::new(2, 8), "{} apart", apart);
        }
    }
}
