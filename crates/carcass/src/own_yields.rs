//! The shop's own yields laid over the published ones.
//!
//! A catalogue with a way's own shares is a catalogue like any other: plans,
//! what-ifs, draws and the search for the best plan take their figures from it
//! and know nothing of where they come from. What is the shop's own is marked
//! ([`Mark::Own`]) and is told for each end of the stock ([`Way::own`]), since a
//! shop that has only cut grass-fed sides knows nothing of its own about the
//! others.

use quantity::Share;

use crate::catalogue::{Catalogue, Mark, ProductId, Way, WayId};
use crate::stock::Stock;

/// One end of the stock, as the data files give shares for it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum StockEnd {
    /// Grain-fed throughout.
    Grain,
    /// Grass-fed throughout.
    Grass,
}

impl StockEnd {
    /// Both, grain-fed first.
    pub const BOTH: [Self; 2] = [Self::Grain, Self::Grass];

    /// How far `stock` lies at this end: the two sum to the whole.
    pub fn part_of(self, stock: Stock) -> Share {
        match self {
            Self::Grain => stock.share_of_grass().complement(),
            Self::Grass => stock.share_of_grass(),
        }
    }
}

/// At which ends of the stock the shares of a way are the shop's own.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct OwnEnds {
    /// In grain-fed stock.
    pub grain: bool,
    /// In grass-fed stock.
    pub grass: bool,
}

impl OwnEnds {
    /// Whether anything of it counts at `stock`.
    pub fn counts_at(self, stock: Stock) -> bool {
        StockEnd::BOTH
            .into_iter()
            .any(|end| self.at(end) && end.part_of(stock) > Share::ZERO)
    }

    /// Whether the shares at this end are own ones.
    pub const fn at(self, end: StockEnd) -> bool {
        match end {
            StockEnd::Grain => self.grain,
            StockEnd::Grass => self.grass,
        }
    }
}

/// Why own shares cannot take the place of the published ones.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OwnSharesError {
    /// There are more or fewer of them than outputs of the way.
    Count {
        /// Outputs of the way.
        outputs: usize,
        /// Shares given.
        shares: usize,
    },
    /// One lies outside 0 to 1.
    OutOfRange,
    /// They do not sum to exactly one.
    NotAWhole,
}

impl core::fmt::Display for OwnSharesError {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match self {
            Self::Count { outputs, shares } => write!(
                f,
                "The way gives {outputs} things and {shares} own shares were given: give one for each."
            ),
            Self::OutOfRange => write!(f, "An own share must lie between 0 and 100 %."),
            Self::NotAWhole => write!(f, "The own shares of a way must sum to exactly 100 %."),
        }
    }
}

impl core::error::Error for OwnSharesError {}

impl Way {
    /// The shares of its outputs at one end of the stock, in their order.
    pub fn shares_at(&self, end: StockEnd) -> impl Iterator<Item = Share> {
        self.outputs.iter().map(move |output| match end {
            StockEnd::Grain => output.grain,
            StockEnd::Grass => output.grass,
        })
    }

    /// The shares of its outputs at `stock`, on the straight line between the
    /// ends, in their order.
    pub fn shares(&self, stock: Stock) -> impl Iterator<Item = Share> + Clone {
        self.outputs
            .iter()
            .map(move |output| stock.between(output.grain, output.grass))
    }
}

impl Catalogue {
    /// Puts the shop's own shares in the place of those that `way` has at one
    /// end of the stock.
    ///
    /// # Errors
    /// [`OwnSharesError`] when they are not one share for each output, none
    /// below nothing, together exactly the whole; the catalogue then stays as
    /// it is.
    pub fn set_own_shares(
        &mut self,
        way: WayId,
        end: StockEnd,
        shares: &[Share],
    ) -> Result<(), OwnSharesError> {
        let outputs = self[way].outputs.len();
        if outputs != shares.len() {
            return Err(OwnSharesError::Count {
                outputs,
                shares: shares.len(),
            });
        }
        if !shares.iter().all(|share| share.is_part_of_whole()) {
            return Err(OwnSharesError::OutOfRange);
        }
        if shares.iter().copied().sum::<Share>() != Share::WHOLE {
            return Err(OwnSharesError::NotAWhole);
        }
        if let Some(way) = self.way_mut(way) {
            for (output, share) in way.outputs.iter_mut().zip(shares) {
                output.mark = Mark::Own;
                match end {
                    StockEnd::Grain => output.grain = *share,
                    StockEnd::Grass => output.grass = *share,
                }
            }
            match end {
                StockEnd::Grain => way.own.grain = true,
                StockEnd::Grass => way.own.grass = true,
            }
        }
        Ok(())
    }

    /// Puts the shop's own coefficient of variation in the place of the one
    /// published for the group that `product` moves with; below nothing counts
    /// as nothing.
    pub fn set_own_group_spread(&mut self, product: ProductId, cv: Share) {
        let group = self[product].variation;
        self.spread.set_own_group(group, cv.max(Share::ZERO));
    }

    /// Puts the shop's own standard deviation of the saleable share in the place
    /// of the one published for sides of which nothing is known; below nothing
    /// counts as nothing. Where more is known of a side it strays no further than
    /// this, so a published figure above it gives way too.
    pub fn set_own_saleable_spread(&mut self, deviation: Share) {
        let deviation = deviation.max(Share::ZERO);
        self.spread.unknown.set_own(deviation);
        for more_known in [&mut self.spread.herd, &mut self.spread.known] {
            if more_known.value > deviation {
                more_known.set_own(deviation);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{CutPlan, Output, What, break_down};
    use quantity::{Decimal, Mass};

    fn percent(percent: i64) -> Share {
        Share::from_percent(Decimal::from(percent))
    }

    fn strip_loin(catalogue: &Catalogue) -> (WayId, usize) {
        let part = catalogue.part_id("strip-loin").expect("a part");
        let way = catalogue.reference_way(part).expect("a way");
        (way, catalogue[way].outputs.len())
    }

    /// All in the first output but a tenth in the second.
    fn nine_to_one(outputs: usize) -> Vec<Share> {
        let mut shares = vec![Share::ZERO; outputs];
        shares[0] = percent(90);
        shares[1] = percent(10);
        shares
    }

    #[test]
    fn own_shares_are_cut_by_and_told_at_their_end_alone() {
        let mut catalogue = Catalogue::published().expect("published data");
        let (way, outputs) = strip_loin(&catalogue);
        let published: Vec<Share> = catalogue[way].shares_at(StockEnd::Grass).collect();
        let own = nine_to_one(outputs);
        assert_eq!(catalogue.set_own_shares(way, StockEnd::Grain, &own), Ok(()));
        assert_eq!(
            catalogue[way]
                .shares_at(StockEnd::Grain)
                .collect::<Vec<_>>(),
            own
        );
        assert_eq!(
            catalogue[way]
                .shares_at(StockEnd::Grass)
                .collect::<Vec<_>>(),
            published
        );
        let half = Stock::grass_share(percent(50));
        assert!(catalogue[way].own.counts_at(Stock::GRAIN));
        assert!(catalogue[way].own.counts_at(half));
        assert!(!catalogue[way].own.counts_at(Stock::GRASS));
        assert!(
            catalogue[way].outputs.iter().all(|output| {
                output.mark == Mark::Own && catalogue.source_of(output).is_none()
            })
        );

        let side = break_down(
            &catalogue,
            Mass::from_kg(Decimal::from(100)),
            1,
            &CutPlan::default(),
            Stock::GRAIN,
        );
        let (at, loin) = side
            .nodes()
            .iter()
            .enumerate()
            .find(|(_, node)| matches!(node.what, What::Part { way: it, .. } if it == way))
            .expect("a strip loin");
        let Output::Product(first) = catalogue[way].outputs[0].output else {
            panic!("a product");
        };
        let cut = side
            .nodes()
            .iter()
            .find(|node| node.parent == Some(at) && node.what == What::Product(first))
            .expect("its first cut");
        let apart = cut.share - loin.share * percent(90);
        assert!(apart.fraction().abs() <= Decimal::new(1, 13));
    }

    #[test]
    fn what_is_not_a_whole_is_refused_and_changes_nothing() {
        let mut catalogue = Catalogue::published().expect("published data");
        let (way, outputs) = strip_loin(&catalogue);
        let before = format!("{:?}", catalogue[way]);
        let mut beyond = nine_to_one(outputs);
        beyond[0] = percent(120);
        beyond[1] = percent(-20);
        let mut short = nine_to_one(outputs);
        short[1] = percent(9);
        for (shares, error) in [
            (Vec::new(), OwnSharesError::Count { outputs, shares: 0 }),
            (beyond, OwnSharesError::OutOfRange),
            (short, OwnSharesError::NotAWhole),
        ] {
            assert_eq!(
                catalogue.set_own_shares(way, StockEnd::Grass, &shares),
                Err(error)
            );
        }
        assert_eq!(format!("{:?}", catalogue[way]), before);
    }

    #[test]
    fn an_own_spread_is_that_of_its_group() {
        let mut catalogue = Catalogue::published().expect("published data");
        let product = |id| catalogue.product_id(id).expect("a product");
        let (ground, stew, suet) = (
            product("ground-beef"),
            product("stew-beef"),
            product("suet"),
        );
        let of_fat = catalogue.spread_of(suet).expect("a group").clone();
        catalogue.set_own_group_spread(ground, percent(7));
        for product in [ground, stew] {
            let group = catalogue.spread_of(product).expect("a group");
            assert_eq!((group.cv, group.mark), (percent(7), Mark::Own));
            assert!(catalogue.source_of_group(group).is_none());
        }
        assert_eq!(catalogue.spread_of(suet), Some(&of_fat));
        catalogue.set_own_saleable_spread(percent(2));
        let own = catalogue.spread().unknown;
        assert_eq!(
            (own.value, own.low, own.high),
            (percent(2), percent(2), percent(2))
        );
        assert_eq!(own.mark, Mark::Own);
    }

    #[test]
    fn a_side_of_which_more_is_known_strays_no_further() {
        let published = Catalogue::published().expect("published data");
        let before = published.spread();
        let between = Share::from_fraction(
            (before.herd.value + before.known.value).fraction() / Decimal::from(2),
        );
        for own in [percent(5), between, Share::ZERO] {
            let mut catalogue = published.clone();
            catalogue.set_own_saleable_spread(own);
            let spread = catalogue.spread();
            assert_eq!(spread.unknown.value, own);
            for (now, before) in [(spread.herd, before.herd), (spread.known, before.known)] {
                assert_eq!(now.value, before.value.min(own));
                let is_own = before.value > own;
                assert_eq!(now.mark == Mark::Own, is_own);
            }
            // The kept text brings the same back.
            let mut laid = published.clone();
            laid.lay_own(&catalogue.own_text(&published));
            assert_eq!(laid.spread(), catalogue.spread());
        }
    }
}
