//! What a subprimal loses when it is dry-aged.
//!
//! Two figures: how much of its weight evaporates, and how much less of it can
//! be sold than if it had aged in its bag, since a dry crust is cut away:
//!
//! ```text
//! saleable lost = 1 − saleable dry ÷ saleable wet
//! ```
//!
//! Published after 14, 21, 28 and 35 days (Dashdorj et al. 2016, table 1), on
//! the straight line between those days. From no loss at day 0 to the figure
//! of day 14 the straight line is an estimate: no earlier day is published.
//!
//! Dry-ageing can need approval: ask the local inspector.

use std::collections::BTreeMap;

use quantity::{Decimal, Share};

use crate::catalogue::{Catalogue, Kind, Mark, Output, PartId, ProductId, WayId};
use crate::hanging::{HangingError, sound};
use crate::packing::packed;
use crate::table::{DataError, DataFile, rows};

/// What dry-ageing takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct AgeingLoss {
    /// Share of what could be sold without it that cannot be sold: evaporated
    /// or cut away. What the weight of the aged cuts is to be cut by.
    pub saleable_lost: Share,
    /// Share of the start weight that evaporates; `None` where only the whole
    /// loss is known.
    pub shrink: Option<Share>,
    /// How well it is known; `None` for the shop's own figure.
    pub mark: Option<Mark>,
}

impl AgeingLoss {
    /// The shop's own figure for everything that is lost, crust included.
    ///
    /// # Errors
    /// [`HangingError::Loss`] for a share below 0 or from 1.
    pub fn own(saleable_lost: Share) -> Result<Self, HangingError> {
        Ok(Self {
            saleable_lost: sound(saleable_lost)?,
            shrink: None,
            mark: None,
        })
    }
}

/// Losses published for one day.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct AgeingPoint {
    /// Days of ageing.
    pub days: u32,
    /// Share of the start weight that evaporates.
    pub shrink: Share,
    /// Share of the start weight that can be sold, dry-aged.
    pub saleable_dry: Share,
    /// Share of the start weight that can be sold, aged in its bag.
    pub saleable_wet: Share,
    /// How well it is known.
    pub mark: Mark,
}

packed!(AgeingPoint {
    days,
    shrink,
    saleable_dry,
    saleable_wet,
    mark
});

impl AgeingPoint {
    /// No loss, where all ageing starts.
    const START: Self = Self {
        days: 0,
        shrink: Share::ZERO,
        saleable_dry: Share::WHOLE,
        saleable_wet: Share::WHOLE,
        mark: Mark::Estimate,
    };

    fn saleable_lost(&self) -> Option<Share> {
        self.saleable_dry
            .fraction()
            .checked_div(self.saleable_wet.fraction())
            .map(|kept| Share::from_fraction(kept).complement())
    }
}

/// Losses of one group of subprimals in dry-ageing, from `ageing.csv`.
#[derive(Clone, Debug)]
pub struct DryAgeing {
    /// Id of the group in the data files.
    pub id: String,
    /// Name shown.
    pub name: String,
    group: usize,
    source: usize,
    points: Vec<AgeingPoint>,
}

packed!(DryAgeing {
    id,
    name,
    group,
    source,
    points
});

impl DryAgeing {
    /// The published days, rising.
    pub fn points(&self) -> &[AgeingPoint] {
        &self.points
    }

    /// Index of its source among [`Catalogue::sources`].
    pub const fn source(&self) -> usize {
        self.source
    }

    /// What is lost after `days`.
    ///
    /// # Errors
    /// [`HangingError::TooLong`] past the last published day.
    pub fn after(&self, days: u32) -> Result<AgeingLoss, HangingError> {
        let too_long = HangingError::TooLong {
            days,
            longest: self.points.last().map_or(0, |point| point.days),
        };
        if days == 0 {
            return Ok(AgeingLoss {
                saleable_lost: Share::ZERO,
                shrink: Some(Share::ZERO),
                mark: Some(Mark::Read),
            });
        }
        let mut before = AgeingPoint::START;
        for point in &self.points {
            if days <= point.days {
                return between(&before, point, days).ok_or(too_long);
            }
            before = *point;
        }
        Err(too_long)
    }
}

/// The loss on the straight line from one published day to the next.
fn between(before: &AgeingPoint, after: &AgeingPoint, days: u32) -> Option<AgeingLoss> {
    let from = Decimal::from(before.days);
    let way = (Decimal::from(days) - from).checked_div(Decimal::from(after.days) - from)?;
    let on_line = |start: Share, end: Share| start + (end - start) * Share::from_fraction(way);
    Some(AgeingLoss {
        saleable_lost: on_line(before.saleable_lost()?, after.saleable_lost()?),
        shrink: Some(on_line(before.shrink, after.shrink)),
        mark: Some(if days == after.days {
            after.mark
        } else if before.days == 0 {
            Mark::Estimate
        } else {
            Mark::Derived
        }),
    })
}

/// Reads the file: the lines of a group stand together and their days rise.
pub(crate) fn read_dry_ageing(
    file: DataFile,
    groups: &BTreeMap<String, usize>,
    sources: &BTreeMap<String, usize>,
) -> Result<Vec<DryAgeing>, DataError> {
    let columns = &[
        "group",
        "name",
        "days",
        "shrink_pct",
        "saleable_dry_pct",
        "saleable_wet_pct",
        "source",
        "mark",
        "note",
    ];
    let mut all: Vec<DryAgeing> = Vec::new();
    for row in rows(file, columns)? {
        let group = row.reference("group", groups)?;
        let source = row.reference("source", sources)?;
        let percent = |column| row.number(column).map(Share::from_percent);
        let point = AgeingPoint {
            days: u32::try_from(row.number("days")?)
                .ok()
                .filter(|&days| days > 0)
                .ok_or_else(|| row.error("“days” must be a whole number above 0"))?,
            shrink: percent("shrink_pct")?,
            saleable_dry: percent("saleable_dry_pct")?,
            saleable_wet: percent("saleable_wet_pct")?,
            mark: Mark::read(&row)?,
        };
        let in_order = Share::ZERO < point.saleable_dry
            && point.saleable_dry <= point.saleable_wet
            && point.saleable_wet <= Share::WHOLE;
        if !in_order {
            return Err(row.error("saleable must be above 0, dry at most wet, wet at most 100"));
        }
        if point.shrink < Share::ZERO || point.shrink > point.saleable_dry.complement() {
            return Err(row.error("“shrink_pct” must be 0 to what is not saleable dry"));
        }
        if all.last().is_none_or(|last| last.group != group) {
            if all.iter().any(|other| other.group == group) {
                return Err(row.error("the lines of a group must stand together"));
            }
            all.push(DryAgeing {
                id: row.required("group")?,
                name: row.required("name")?,
                group,
                source,
                points: Vec::new(),
            });
        }
        if let Some(last) = all.last_mut() {
            if last
                .points
                .last()
                .is_some_and(|before| before.days >= point.days)
            {
                return Err(row.error("“days” must rise within a group"));
            }
            last.points.push(point);
        }
    }
    Ok(all)
}

impl Catalogue {
    /// The groups of subprimals whose losses in dry-ageing are published.
    pub fn dry_ageing(&self) -> &[DryAgeing] {
        &self.dry_ageing
    }

    /// The losses of the group that `product` belongs to, where published.
    pub fn dry_ageing_of(&self, product: ProductId) -> Option<&DryAgeing> {
        let group = self[product].variation;
        self.dry_ageing.iter().find(|ageing| ageing.group == group)
    }

    /// The losses that hold for `part`: those of the group of a cut that one
    /// of its ways gives directly.
    pub fn dry_ageing_of_part(&self, part: PartId) -> Option<&DryAgeing> {
        self[part]
            .ways
            .iter()
            .find_map(|&way| self.dry_ageing_by(way))
    }

    fn dry_ageing_by(&self, way: WayId) -> Option<&DryAgeing> {
        self[way]
            .outputs
            .iter()
            .find_map(|output| match output.output {
                Output::Product(product) if self[product].kind == Kind::Cut => {
                    self.dry_ageing_of(product)
                }
                _ => None,
            })
    }

    /// What `part` loses when it is dry-aged for `days`. Where not each of its
    /// ways gives a cut of the group, the figures were measured on a piece of
    /// it and are an estimate for the whole.
    ///
    /// # Errors
    /// [`HangingError::Unpublished`] for a part of no such group,
    /// [`HangingError::TooLong`] past the last published day.
    pub fn ageing_loss(&self, part: PartId, days: u32) -> Result<AgeingLoss, HangingError> {
        let group = self
            .dry_ageing_of_part(part)
            .ok_or(HangingError::Unpublished)?;
        let mut loss = group.after(days)?;
        if !self[part]
            .ways
            .iter()
            .all(|&way| self.dry_ageing_by(way).is_some())
        {
            loss.mark = Some(Mark::Estimate);
        }
        Ok(loss)
    }
}

#[cfg(test)]
mod tests {
    use std::sync::LazyLock;

    use proptest::prelude::*;

    use super::*;
    use crate::loading::DataSet;

    static CATALOGUE: LazyLock<Catalogue> =
        LazyLock::new(|| Catalogue::published().expect("published data"));

    fn ageing_of(product: &str) -> Option<&'static DryAgeing> {
        CATALOGUE.dry_ageing_of(CATALOGUE.product_id(product).expect("a product"))
    }

    fn ribeye(days: u32) -> Result<AgeingLoss, HangingError> {
        ageing_of("ribeye-steak").expect("published").after(days)
    }

    #[test]
    fn a_product_finds_the_losses_of_its_group() {
        assert_eq!(
            ageing_of("ribeye-steak").map(|a| a.id.as_str()),
            Some("ribeye")
        );
        assert_eq!(
            ageing_of("strip-loin-steak").map(|a| a.id.as_str()),
            Some("strip-loin")
        );
        assert!(ageing_of("ground-beef").is_none());
    }

    #[test]
    fn a_part_takes_the_losses_of_its_cuts() {
        let part = |id: &str| CATALOGUE.part_id(id).expect("a part");
        let loss = CATALOGUE.ageing_loss(part("ribeye-roll"), 28);
        assert_eq!(loss, ribeye(28));
        let of_rib = CATALOGUE.ageing_loss(part("rib"), 28).expect("published");
        assert_eq!(of_rib.mark, Some(Mark::Estimate));
        assert_eq!(
            CATALOGUE.ageing_loss(part("brisket"), 28),
            Err(HangingError::Unpublished)
        );
        let parts: Vec<&str> = CATALOGUE
            .parts()
            .filter(|(part, _)| CATALOGUE.dry_ageing_of_part(*part).is_some())
            .map(|(_, part)| part.id.as_str())
            .collect();
        assert_eq!(
            parts,
            [
                "rib",
                "ribeye-roll",
                "loin-rib-section",
                "short-loin",
                "strip-loin"
            ]
        );
    }

    #[test]
    fn between_days_on_the_straight_line_and_marked_so() {
        let half = ribeye(7).expect("within reach");
        assert_eq!(half.shrink, Some(Share::from_percent(Decimal::from(3))));
        assert_eq!(half.mark, Some(Mark::Estimate));
        // Three of seven days from 7.6 to 9.7.
        let later = ribeye(24).expect("within reach");
        let shrink = later.shrink.expect("a shrink").percent();
        assert_eq!(shrink.round_dp(20), Decimal::new(85, 1));
        assert_eq!(later.mark, Some(Mark::Derived));
        assert_eq!(ribeye(28).expect("within reach").mark, Some(Mark::Read));
    }

    #[test]
    fn no_days_lose_nothing_and_too_many_are_refused() {
        let none = ribeye(0).expect("within reach");
        assert_eq!(none.saleable_lost, Share::ZERO);
        assert_eq!(
            ribeye(36),
            Err(HangingError::TooLong {
                days: 36,
                longest: 35
            })
        );
    }

    #[test]
    fn an_own_loss_stands_in_where_it_is_sound() {
        let own = Share::from_percent(Decimal::from(22));
        let loss = AgeingLoss::own(own).expect("sound");
        assert_eq!((loss.saleable_lost, loss.mark), (own, None));
        assert!(AgeingLoss::own(Share::WHOLE).is_err());
    }

    #[test]
    fn a_faulty_line_is_named() {
        for (from, to, wanted) in [
            (
                ",14,6.0,",
                ",0,6.0,",
                "“days” must be a whole number above 0",
            ),
            (",21,7.6,", ",14,7.6,", "“days” must rise within a group"),
            (
                ",6.0,72.2,",
                ",60,72.2,",
                "must be 0 to what is not saleable dry",
            ),
            (",72.2,88.4,", ",89.2,88.4,", "dry at most wet"),
        ] {
            let mut set = DataSet::PUBLISHED;
            assert!(set.ageing.text.contains(from), "{from}");
            // Leaked once a case: the files are static everywhere else.
            set.ageing.text = Box::leak(set.ageing.text.replacen(from, to, 1).into_boxed_str());
            let error = set.load().expect_err("a broken file is refused");
            assert_eq!(error.file, "ageing.csv");
            assert!(error.message.contains(wanted), "{error}");
        }
    }

    proptest! {
        #[test]
        fn a_day_more_evaporates_more_and_a_loss_leaves_something(days in 0_u32..35) {
            for ageing in CATALOGUE.dry_ageing() {
                let [today, tomorrow] = [days, days + 1].map(|days| ageing.after(days));
                let (today, tomorrow) = (today.expect("within"), tomorrow.expect("within"));
                prop_assert!(tomorrow.shrink > today.shrink);
                prop_assert!(tomorrow.saleable_lost >= Share::ZERO);
                prop_assert!(tomorrow.saleable_lost < Share::WHOLE);
            }
        }
    }
}
