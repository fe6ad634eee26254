//! What a side loses while it hangs.
//!
//! The first day in the cooler takes one share of the hot weight, every day
//! after it a smaller share of what then hangs, so the losses compound:
//!
//! ```text
//! lost = 1 − (1 − first day) · (1 − per day)^(days − 1)
//! ```
//!
//! First night 1–2 % (Kansas State University 1972), 4–6 % in 14 days (Purdue
//! University, Lemenager): worked to 1.5 % on day one and 0.2 to 0.35 % a day
//! after it, thin cover at the high end. Grain-fed sides stand at the low end,
//! grass-fed sides at the high end, and any stock between them on the straight
//! line. Past 14 days no published total was read: an estimate.
//!
//! Meat hangs cold, in a room the inspector has seen: local codes decide.

use core::fmt;
use std::collections::BTreeMap;
use wording::{say, text};

use quantity::Share;

use crate::catalogue::{Catalogue, Mark};
use crate::packing::packed;
use crate::stock::Stock;
use crate::table::{DataError, DataFile, rows};

/// The longest time, in days, that the model of cooler shrink reaches.
pub const LONGEST_DAYS: u32 = 35;

/// Days for which a published total was read.
const PUBLISHED_DAYS: u32 = 14;

/// Why a loss cannot be told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HangingError {
    /// More days than the models reach.
    TooLong {
        /// The days asked for.
        days: u32,
        /// The most that can be told.
        longest: u32,
    },
    /// A loss that leaves nothing or makes weight.
    Loss(Share),
    /// A part for which no loss is published.
    Unpublished,
}

impl fmt::Display for HangingError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooLong { days, longest } => f.write_str(&say!(
                "{days} days are more than the published losses reach: 0 to {longest} days, or a \
                 loss of your own",
                days,
                longest
            )),
            Self::Loss(share) => f.write_str(&say!(
                "a loss of {percent} % must be 0 % or more and less than 100 %",
                share.percent().round_dp(2).normalize()
            )),
            Self::Unpublished => f.write_str(text!(
                "no loss in dry-ageing is published for this part: give a loss of your own"
            )),
        }
    }
}

impl core::error::Error for HangingError {}

/// Refuses a loss that leaves nothing or makes weight.
pub(crate) fn sound(loss: Share) -> Result<Share, HangingError> {
    if loss >= Share::ZERO && loss < Share::WHOLE {
        Ok(loss)
    } else {
        Err(HangingError::Loss(loss))
    }
}

/// How fast a side loses weight in the cooler.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CoolerShrink {
    first_day: Share,
    per_day: Share,
    /// How well it is known; `None` for the shop's own figures.
    mark: Option<Mark>,
}

packed!(CoolerShrink {
    first_day,
    per_day,
    mark
});

/// What a side has lost since it was weighed hot.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct HangingLoss {
    /// Days it hung, the day of the first night counted as one.
    pub days: u32,
    /// Share of the hot weight.
    pub lost: Share,
    /// How well it is known; `None` for the shop's own figures.
    pub mark: Option<Mark>,
}

impl CoolerShrink {
    /// The shop's own figures: the share of the hot weight lost on the first
    /// day, and of what then hangs on each day after it.
    ///
    /// # Errors
    /// [`HangingError::Loss`] for a share below 0 or from 1.
    pub fn own(first_day: Share, per_day: Share) -> Result<Self, HangingError> {
        Ok(Self {
            first_day: sound(first_day)?,
            per_day: sound(per_day)?,
            mark: None,
        })
    }

    /// Share of the hot weight lost on the first day.
    pub const fn first_day(self) -> Share {
        self.first_day
    }

    /// Share of what hangs lost on each day after the first.
    pub const fn per_day(self) -> Share {
        self.per_day
    }

    /// What is lost after `days`, the day of the first night counted as one.
    ///
    /// # Errors
    /// [`HangingError::TooLong`] past [`LONGEST_DAYS`].
    pub fn after(self, days: u32) -> Result<HangingLoss, HangingError> {
        if days > LONGEST_DAYS {
            return Err(HangingError::TooLong {
                days,
                longest: LONGEST_DAYS,
            });
        }
        let left = match days {
            0 => Share::WHOLE,
            _ => (1..days).fold(self.first_day.complement(), |left, _| {
                left * self.per_day.complement()
            }),
        };
        Ok(HangingLoss {
            days,
            lost: left.complement(),
            mark: self.mark.map(|mark| match days {
                0..=PUBLISHED_DAYS => mark,
                _ => Mark::Estimate,
            }),
        })
    }
}

/// Cooler shrink of the two stock presets, from `hanging.csv`.
#[derive(Clone, Copy, Debug)]
pub(crate) struct ShrinkByStock {
    grain: CoolerShrink,
    grass: CoolerShrink,
}

packed!(ShrinkByStock { grain, grass });

impl ShrinkByStock {
    /// Reads the file: `grain` first, `grass` second.
    pub(crate) fn read(
        file: DataFile,
        sources: &BTreeMap<String, usize>,
    ) -> Result<Self, DataError> {
        let columns = &[
            "stock",
            "first_day_pct",
            "per_day_pct",
            "source",
            "mark",
            "note",
        ];
        let mut read = Vec::new();
        for row in rows(file, columns)? {
            row.reference("source", sources)?;
            let loss = |column| {
                sound(Share::from_percent(row.number(column)?))
                    .map_err(|error| row.error(format!("“{column}”: {error}")))
            };
            let shrink = CoolerShrink {
                first_day: loss("first_day_pct")?,
                per_day: loss("per_day_pct")?,
                mark: Some(Mark::read(&row)?),
            };
            read.push((row.required("stock")?, shrink));
        }
        match read.as_slice() {
            [(one, grain), (other, grass)] if one == "grain" && other == "grass" => Ok(Self {
                grain: *grain,
                grass: *grass,
            }),
            _ => Err(DataError {
                file: file.name,
                line: None,
                message: text!("the file must hold “grain” and “grass”, in this order").to_owned(),
            }),
        }
    }
}

impl Catalogue {
    /// How fast a side of `stock` loses weight in the cooler.
    pub fn cooler_shrink(&self, stock: Stock) -> CoolerShrink {
        let ShrinkByStock { grain, grass } = self.shrink;
        CoolerShrink {
            first_day: stock.between(grain.first_day, grass.first_day),
            per_day: stock.between(grain.per_day, grass.per_day),
            mark: grain.mark,
        }
    }
}

#[cfg(test)]
mod tests {
    use std::sync::LazyLock;

    use proptest::prelude::*;
    use quantity::Decimal;

    use super::*;

    static CATALOGUE: LazyLock<Catalogue> =
        LazyLock::new(|| Catalogue::published().expect("published data"));

    fn percent(hundredths: i64) -> Share {
        Share::from_percent(Decimal::new(hundredths, 2))
    }

    fn lost(stock: Stock, days: u32) -> Share {
        CATALOGUE
            .cooler_shrink(stock)
            .after(days)
            .expect("within reach")
            .lost
    }

    #[test]
    fn the_first_days_by_hand() {
        assert_eq!(lost(Stock::GRAIN, 0), Share::ZERO);
        assert_eq!(lost(Stock::GRAIN, 1), percent(150));
        // 1 − 0.985 · 0.998 and 1 − 0.985 · 0.9965²
        assert_eq!(lost(Stock::GRAIN, 2).fraction(), Decimal::new(1697, 5));
        assert_eq!(
            lost(Stock::GRASS, 3).fraction(),
            Decimal::new(2_188_293_375, 11)
        );
    }

    #[test]
    fn half_way_stock_loses_half_way_a_day() {
        let half = Stock::grass_share(Share::from_percent(Decimal::from(50)));
        let shrink = CATALOGUE.cooler_shrink(half);
        assert_eq!(shrink.first_day(), percent(150));
        assert_eq!(shrink.per_day().percent(), Decimal::new(275, 3));
    }

    #[test]
    fn what_is_past_the_published_days_is_an_estimate() {
        let shrink = CATALOGUE.cooler_shrink(Stock::GRAIN);
        let mark = |days| shrink.after(days).expect("within reach").mark;
        assert_eq!(mark(14), Some(Mark::Derived));
        assert_eq!(mark(15), Some(Mark::Estimate));
        let error = shrink.after(36).expect_err("beyond reach");
        assert!(error.to_string().contains("0 to 35 days"), "{error}");
    }

    #[test]
    fn own_figures_replace_the_model() {
        let own = CoolerShrink::own(percent(32), Share::ZERO).expect("sound");
        let loss = own.after(10).expect("within reach");
        assert_eq!(loss.lost, percent(32));
        assert_eq!(loss.mark, None);
        for unsound in [Share::WHOLE, percent(-1)] {
            let error = CoolerShrink::own(unsound, Share::ZERO).expect_err("unsound");
            assert_eq!(error, HangingError::Loss(unsound));
            assert!(CoolerShrink::own(Share::ZERO, unsound).is_err());
        }
    }

    proptest! {
        #[test]
        fn a_day_more_and_thinner_cover_lose_more(
            days in 1_u32..LONGEST_DAYS,
            thousandths in 0_i64..1000,
        ) {
            let at = |grass: i64| Stock::grass_share(Share::from_fraction(Decimal::new(grass, 3)));
            let stock = at(thousandths);
            prop_assert!(lost(stock, days + 1) > lost(stock, days));
            prop_assert!(lost(at(thousandths + 1), days + 1) > lost(stock, days + 1));
        }
    }
}
