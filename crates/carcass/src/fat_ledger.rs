//! The fat ledger: every trim of a side with its weight and its fat content.
//!
//! Lean trim and fat trim come off all over the side, each with a fat content
//! of its own. The ledger gathers them so that [`crate::blend`] can make grind
//! of the wanted fat content out of them, and holds the classes that grind is
//! sold by.

use core::fmt;
use std::collections::BTreeMap;

use quantity::{Decimal, Mass, Share, typed};

use crate::breakdown::{Breakdown, What};
use crate::catalogue::{Catalogue, Mark, ProductId};
use crate::table::{DataError, DataFile, rows};

/// A class that grind is sold by.
#[derive(Clone, Debug)]
pub struct GrindClass {
    /// Id in the data files.
    pub id: String,
    /// The cut that grind of this class is sold as.
    pub product: ProductId,
    /// Name shown.
    pub name: String,
    /// The most fat it may hold.
    pub most_fat: Share,
    /// Index of its source among [`Catalogue::sources`].
    pub source: usize,
    /// How well the limit is known.
    pub mark: Mark,
    /// What else to know about it.
    pub note: Option<String>,
}

/// Reads the classes, leanest first.
pub(crate) fn read_classes(
    file: DataFile,
    sources: &BTreeMap<String, usize>,
    products: &BTreeMap<String, usize>,
) -> Result<Vec<GrindClass>, DataError> {
    let columns = &[
        "class",
        "product",
        "name",
        "most_fat_pct",
        "source",
        "mark",
        "note",
    ];
    let mut classes: Vec<GrindClass> = Vec::new();
    for row in rows(file, columns)? {
        let class = GrindClass {
            id: row.required("class")?,
            product: ProductId(row.reference("product", products)?),
            name: row.required("name")?,
            most_fat: Share::from_percent(row.number("most_fat_pct")?),
            source: row.reference("source", sources)?,
            mark: Mark::read(&row)?,
            note: row.optional_text("note"),
        };
        if classes.iter().any(|other| other.id == class.id) {
            return Err(row.error(format!("“{}” is defined twice", class.id)));
        }
        if classes.iter().any(|other| other.product == class.product) {
            return Err(row.error("another class is sold as this product already"));
        }
        let before = classes.last().map_or(Share::ZERO, |last| last.most_fat);
        if class.most_fat <= before || class.most_fat > Share::WHOLE {
            return Err(row.error("“most_fat_pct” must rise from above 0 to at most 100"));
        }
        classes.push(class);
    }
    Ok(classes)
}

impl Catalogue {
    /// The classes that grind is sold by, leanest first.
    pub fn grind_classes(&self) -> &[GrindClass] {
        &self.grind_classes
    }

    /// The class that is sold as `product`, where it is one.
    pub fn grind_class_of(&self, product: ProductId) -> Option<&GrindClass> {
        self.grind_classes
            .iter()
            .find(|class| class.product == product)
    }
}

/// A trim: an amount of one fat content.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Trim {
    /// Where it comes from: the index of its node in the breakdown, or what
    /// the caller knows it by.
    pub node: usize,
    /// Its weight.
    pub weight: Mass,
    /// The share of it that is fat.
    pub fat: Share,
}

impl Trim {
    /// The weight of the fat in it.
    pub fn fat_weight(&self) -> Mass {
        self.weight * self.fat
    }
}

/// Why trims cannot be blended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BlendError {
    /// A weight below zero or beyond what any field takes.
    Weight(Mass),
    /// A fat content outside 0 to 100 %.
    Fat(Share),
}

impl fmt::Display for BlendError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Weight(weight) => write!(
                f,
                "a weight of {} kg must be 0 kg or more and at most {} kg",
                weight.kg().normalize(),
                typed::LARGEST
            ),
            Self::Fat(share) => write!(
                f,
                "a fat content of {} % must be 0 to 100 %",
                share.percent().normalize()
            ),
        }
    }
}

impl core::error::Error for BlendError {}

pub(crate) fn sound_weight(weight: Mass) -> Result<Mass, BlendError> {
    if (Decimal::ZERO..=typed::LARGEST).contains(&weight.kg()) {
        Ok(weight)
    } else {
        Err(BlendError::Weight(weight))
    }
}

pub(crate) fn sound_fat(fat: Share) -> Result<Share, BlendError> {
    if fat.is_part_of_whole() {
        Ok(fat)
    } else {
        Err(BlendError::Fat(fat))
    }
}

/// Every trim that may be blended.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FatLedger {
    trims: Vec<Trim>,
}

impl FatLedger {
    /// A ledger of these trims.
    ///
    /// # Errors
    /// [`BlendError`] when a weight is below zero or a fat content no share of
    /// a whole.
    pub fn new(trims: Vec<Trim>) -> Result<Self, BlendError> {
        for trim in &trims {
            sound_weight(trim.weight)?;
            sound_fat(trim.fat)?;
        }
        Ok(Self { trims })
    }

    /// The trims of a broken-down side: the products with a known fat content
    /// that `admits` lets in, say grind and fat trim but not stew and suet.
    ///
    /// # Errors
    /// As [`FatLedger::new`].
    pub fn of(
        breakdown: &Breakdown,
        admits: impl Fn(ProductId) -> bool,
    ) -> Result<Self, BlendError> {
        Self::new(
            breakdown
                .nodes()
                .iter()
                .enumerate()
                .filter_map(|(index, node)| match (node.what, node.fat) {
                    (What::Product(product), Some(fat)) if admits(product) => Some(Trim {
                        node: index,
                        weight: node.weight,
                        fat,
                    }),
                    _ => None,
                })
                .collect(),
        )
    }

    /// Every trim, in the order of the breakdown.
    pub fn trims(&self) -> &[Trim] {
        &self.trims
    }

    /// The weight of all trims together.
    pub fn weight(&self) -> Mass {
        self.trims.iter().map(|trim| trim.weight).sum()
    }

    /// The weight of the fat in all trims together.
    pub fn fat_weight(&self) -> Mass {
        self.trims.iter().map(Trim::fat_weight).sum()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::breakdown::{awkward_weight, break_down};
    use crate::catalogue::Kind;
    use crate::loading::DataSet;
    use crate::stock::Stock;

    #[test]
    fn a_side_gives_its_trims_and_only_those_let_in() {
        let catalogue = Catalogue::published().expect("published data");
        let plan = &catalogue.plan("boneless").expect("a named plan").plan;
        let side = break_down(&catalogue, awkward_weight(), 1, plan, Stock::GRAIN);

        let all = FatLedger::of(&side, |_| true).expect("sound trims");
        let known = side
            .nodes()
            .iter()
            .filter(|node| node.fat.is_some() && matches!(node.what, What::Product(_)));
        assert_eq!(all.trims().len(), known.count());

        let ground = catalogue.product_id("ground-beef").expect("a product");
        let lean = FatLedger::of(&side, |product| product == ground).expect("sound trims");
        let listed: Mass = side
            .nodes()
            .iter()
            .filter(|node| node.what == What::Product(ground))
            .map(|node| node.weight)
            .sum();
        assert_eq!(lean.weight(), listed);
        assert!(lean.weight() < all.weight());

        let fat = FatLedger::of(&side, |product| catalogue[product].kind == Kind::Fat)
            .expect("sound trims");
        assert!(fat.fat_weight() > lean.fat_weight());
    }

    #[test]
    fn what_cannot_be_is_refused() {
        let trim = |kg: i64, percent: i64| Trim {
            node: 0,
            weight: Mass::from_kg(Decimal::from(kg)),
            fat: Share::from_percent(Decimal::from(percent)),
        };
        for (bad, named) in [
            (trim(-1, 20), "a weight of -1 kg"),
            (trim(2_000_000_000, 20), "a weight of 2000000000 kg"),
            (trim(1, 101), "a fat content of 101 %"),
            (trim(1, -1), "a fat content of -1 %"),
        ] {
            let error = FatLedger::new(vec![trim(1, 20), bad]).expect_err("refused");
            assert!(error.to_string().starts_with(named), "{error}");
        }
    }

    #[test]
    fn classes_out_of_order_are_refused_with_their_line() {
        let mut set = DataSet::PUBLISHED;
        let text = set.grind_classes.text.replacen(",17,", ",9,", 1);
        // Leaked once a run: the files are static everywhere else.
        set.grind_classes.text = Box::leak(text.into_boxed_str());
        let error = set.load().expect_err("a broken file is refused");
        assert_eq!((error.file, error.line), ("grind-classes.csv", Some(3)));
    }
}
