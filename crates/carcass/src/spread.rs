//! How far sides, and the cuts of one side, differ from one another.
//!
//! `spread.csv` says how the saleable share differs between sides, by how much
//! is known of the side, and how meat and fat go together. `groups.csv` says how
//! a group of cuts differs at one weight of the side. What a figure of these
//! stands for in a draw is told where it is drawn.

use std::collections::BTreeMap;

use quantity::{Decimal, Share};

use crate::catalogue::{Catalogue, Mark, ProductId, Source};
use crate::expected_yield::YieldModel;
use crate::packing::packed;
use crate::table::{DataError, DataFile, Row, rows};

/// A published standard deviation.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SpreadFigure {
    /// The figure used, as a share of the chilled side.
    pub value: Share,
    /// The lowest figure that the sources give.
    pub low: Share,
    /// The highest figure that the sources give.
    pub high: Share,
    source: usize,
    /// How well it is known.
    pub mark: Mark,
}

impl SpreadFigure {
    /// The shop's own figure in place of the published one.
    pub(crate) const fn set_own(&mut self, value: Share) {
        self.value = value;
        self.low = value;
        self.high = value;
        self.mark = Mark::Own;
    }
}

/// How the cuts of one group differ at one weight of the side.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct GroupSpread {
    /// Name of the group.
    pub name: String,
    /// Coefficient of variation.
    pub cv: Share,
    pub(crate) source: usize,
    /// How well it is known.
    pub mark: Mark,
}

/// How far sides differ.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Spread {
    /// Standard deviation of the saleable share where nothing is known of the
    /// side but that it was fed.
    pub unknown: SpreadFigure,
    /// The same within one herd.
    pub herd: SpreadFigure,
    /// The same once fat depth and weight are known.
    pub known: SpreadFigure,
    /// Correlation of the share of meat with the share of fat.
    pub lean_fat_correlation: Decimal,
    /// Share of saleable gained for one yield grade leaner.
    pub saleable_per_grade: Share,
    /// Share of bone gained for one yield grade leaner; fat trim gives up what
    /// both gain.
    pub bone_per_grade: Share,
    groups: Vec<GroupSpread>,
}

packed!(SpreadFigure {
    value,
    low,
    high,
    source,
    mark
});
packed!(GroupSpread {
    name,
    cv,
    source,
    mark
});
packed!(Spread {
    unknown,
    herd,
    known,
    lean_fat_correlation,
    saleable_per_grade,
    bone_per_grade,
    groups
});

impl Spread {
    /// The shop's own spread of a group in place of the published one.
    pub(crate) fn set_own_group(&mut self, group: usize, cv: Share) {
        if let Some(group) = self.groups.get_mut(group) {
            group.cv = cv;
            group.mark = Mark::Own;
        }
    }

    /// Reads the file and takes over what the groups and the yield model say.
    pub(crate) fn read(
        file: DataFile,
        groups: Vec<GroupSpread>,
        yields: &YieldModel,
        sources: &BTreeMap<String, usize>,
    ) -> Result<Self, DataError> {
        let columns = &["figure", "value", "low", "high", "source", "mark", "note"];
        let lines = rows(file, columns)?;
        let line = |figure: &str| {
            let mut named = lines.iter().filter(|row| row.text("figure") == figure);
            match (named.next(), named.next()) {
                (Some(row), None) => Ok(row),
                _ => Err(DataError {
                    file: file.name,
                    line: None,
                    message: format!("“{figure}” must stand there once"),
                }),
            }
        };
        if let Some(row) = lines
            .iter()
            .find(|row| !FIGURES.contains(&row.text("figure")))
        {
            return Err(row.error(format!("“{}” is not a figure", row.text("figure"))));
        }
        let figure = |name: &str| line(name).and_then(|row| read_figure(row, sources));
        let row = line("lean_fat_correlation")?;
        row.reference("source", sources)?;
        Mark::read(row)?;
        let lean_fat_correlation = row.number("value")?;
        if lean_fat_correlation.abs() > Decimal::ONE {
            return Err(row.error("a correlation must be −1 to 1"));
        }
        let (saleable_per_grade, bone_per_grade) = yields.per_grade();
        Ok(Self {
            unknown: figure("saleable_unknown")?,
            herd: figure("saleable_herd")?,
            known: figure("saleable_known")?,
            lean_fat_correlation,
            saleable_per_grade,
            bone_per_grade,
            groups,
        })
    }
}

/// Every figure of the file.
const FIGURES: [&str; 4] = [
    "saleable_unknown",
    "saleable_herd",
    "saleable_known",
    "lean_fat_correlation",
];

fn read_figure(row: &Row, sources: &BTreeMap<String, usize>) -> Result<SpreadFigure, DataError> {
    let percent = |column| row.number(column).map(Share::from_percent);
    let figure = SpreadFigure {
        value: percent("value")?,
        low: percent("low")?,
        high: percent("high")?,
        source: row.reference("source", sources)?,
        mark: Mark::read(row)?,
    };
    let in_order = Share::ZERO <= figure.low
        && figure.low <= figure.value
        && figure.value <= figure.high
        && figure.high <= Share::WHOLE;
    if in_order {
        Ok(figure)
    } else {
        Err(row.error("0 ≤ low ≤ value ≤ high ≤ 100 must hold"))
    }
}

impl Catalogue {
    /// How far sides differ.
    pub const fn spread(&self) -> &Spread {
        &self.spread
    }

    /// How a product differs at one weight of the side; `None` only for a
    /// product of another catalogue.
    pub fn spread_of(&self, product: ProductId) -> Option<&GroupSpread> {
        self.spread.groups.get(self[product].variation)
    }

    /// Where the spread of the saleable share comes from.
    pub fn source_of_spread(&self, figure: &SpreadFigure) -> Option<&Source> {
        self.published_source(figure.source, figure.mark)
    }

    /// Where the spread of a group comes from.
    pub fn source_of_group(&self, group: &GroupSpread) -> Option<&Source> {
        self.published_source(group.source, group.mark)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::loading::DataSet;

    fn with_spread(text: &'static str) -> Result<Catalogue, DataError> {
        let mut set = DataSet::PUBLISHED;
        set.spread.text = text;
        set.load()
    }

    #[test]
    fn more_known_is_less_spread_and_every_figure_has_a_source() {
        let catalogue = Catalogue::published().expect("published data");
        let spread = catalogue.spread();
        assert!(spread.known.value < spread.herd.low);
        assert!(spread.herd.high < spread.unknown.low);
        for figure in [&spread.unknown, &spread.herd, &spread.known] {
            assert!(catalogue.source_of_spread(figure).is_some());
        }
        for (id, product) in catalogue.products() {
            let group = catalogue.spread_of(id).expect("a group");
            assert!(group.cv > Share::ZERO, "{}", product.id);
            assert!(catalogue.source_of_group(group).is_some());
        }
    }

    // Kansas State University 1976 and 1996: 4.0 to 4.6 points a grade, spread
    // of yield grades 0.89 between fed sides and 0.59 within a herd.
    #[test]
    fn the_spread_of_the_saleable_share_is_that_of_the_grade_times_the_slope() {
        let catalogue = Catalogue::published().expect("published data");
        let spread = catalogue.spread();
        for (grades, figure) in [(89, &spread.unknown), (59, &spread.herd)] {
            for (slope, end) in [(40, figure.low), (46, figure.high)] {
                let points = Decimal::new(grades * slope, 3);
                let apart = (points - end.percent()).abs();
                assert!(apart <= Decimal::new(5, 2), "{points} {end:?}");
            }
        }
    }

    #[test]
    fn a_fault_is_named_with_its_line() {
        for (text, line) in [
            (
                "figure,value,low,high,source,mark,note\nsaleable_unknown,4,5,6,koch,R,\n",
                None,
            ),
            (
                "figure,value,low,high,source,mark,note\nmood,4,5,6,koch,R,\n",
                Some(2),
            ),
            (
                "figure,value,low,high,source,mark,note\nsaleable_unknown,4,4,4,koch,R,\nsaleable_herd,3,3,3,koch,R,\nsaleable_known,2,2,2,koch,R,\nlean_fat_correlation,-2,-2,-2,koch,R,\n",
                Some(5),
            ),
            (
                "figure,value,low,high,source,mark,note\nsaleable_unknown,4,5,6,koch,R,\nsaleable_herd,3,3,3,koch,R,\nsaleable_known,2,2,2,koch,R,\nlean_fat_correlation,-1,-1,-1,koch,R,\n",
                Some(2),
            ),
        ] {
            let error = with_spread(text).expect_err("a fault");
            assert_eq!((error.file, error.line), ("spread.csv", line), "{error}");
        }
    }
}
