//! What does not change from side to side.

use litemap::LiteMap;

use carcass::{Catalogue, ProductId};
use quantity::{Share, UnitPrice};

use crate::allocation::AllocationMethod;
use crate::ending::PriceRounding;
use crate::packaging::Packaging;
use crate::price_rule::PriceRule;
use crate::sale_loss::SaleLoss;
use crate::working_time::Labour;

/// What the shop charges for each product. A by-product's price is what it
/// brings; below zero it is what its removal costs.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct PriceBoard {
    own: LiteMap<ProductId, UnitPrice>,
}

impl PriceBoard {
    /// Sets the shop's own price.
    pub fn set(&mut self, product: ProductId, price: UnitPrice) {
        self.own.insert(product, price);
    }

    /// Goes back to the sample price.
    pub fn clear(&mut self, product: ProductId) {
        self.own.remove(&product);
    }

    /// The price in force: the shop's own, else the invented sample.
    pub fn price(&self, catalogue: &Catalogue, product: ProductId) -> UnitPrice {
        self.own
            .get(&product)
            .copied()
            .unwrap_or_else(|| catalogue.sample_price(product))
    }

    /// Whether the price in force is the invented sample.
    pub fn is_sample(&self, product: ProductId) -> bool {
        !self.own.contains_key(&product)
    }

    /// The shop's own prices, in product order.
    pub fn own_prices(&self) -> impl Iterator<Item = (ProductId, UnitPrice)> {
        self.own.iter().map(|(&product, &price)| (product, price))
    }
}

/// What the shop is: its rates, its aims, its board.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Shop {
    /// What an hour of work costs.
    pub labour: Labour,
    /// Margin on sales that a side should make.
    pub target_margin: Share,
    /// What the packs cost.
    pub packaging: Packaging,
    /// Losses between block and till of every cut without its own.
    pub losses: SaleLoss,
    /// Losses of single cuts.
    pub own_losses: LiteMap<ProductId, SaleLoss>,
    /// How joint cost is divided over the cuts.
    pub method: AllocationMethod,
    /// Prices charged today.
    pub board: PriceBoard,
    /// What may be done to the price of a cut where that is not everything.
    pub rules: LiteMap<ProductId, PriceRule>,
    /// How suggested prices are rounded for the card.
    pub rounding: PriceRounding,
}

impl Shop {
    /// The losses of a cut between block and till.
    pub fn losses_of(&self, product: ProductId) -> SaleLoss {
        self.own_losses
            .get(&product)
            .copied()
            .unwrap_or(self.losses)
    }
}

#[cfg(test)]
mod tests {
    use quantity::Decimal;

    use super::*;
    use crate::any_side::{CATALOGUE, plain_side};

    #[test]
    fn a_cut_with_losses_of_its_own_leaves_the_others_alone() {
        let mut shop = plain_side().shop;
        let product = |id| CATALOGUE.product_id(id).expect("a product");
        let (ground, stew) = (product("ground-beef"), product("stew-beef"));
        let own = SaleLoss {
            unsold: Share::from_percent(Decimal::from(11)),
            ..SaleLoss::default()
        };
        shop.own_losses.insert(ground, own);
        assert_eq!(shop.losses_of(ground), own);
        assert_eq!(shop.losses_of(stew), shop.losses);
        assert!(!shop.losses.unsold.fraction().is_zero());
    }

    #[test]
    fn an_own_price_stands_until_it_is_cleared() {
        let product = CATALOGUE.product_id("ground-beef").expect("a product");
        let sample = CATALOGUE.sample_price(product);
        let own = UnitPrice::from_per_kg(Decimal::from(7));
        let mut board = PriceBoard::default();
        assert_eq!(board.price(&CATALOGUE, product), sample);
        assert!(board.is_sample(product));

        board.set(product, own);
        assert_eq!(board.price(&CATALOGUE, product), own);
        assert!(!board.is_sample(product));
        assert_eq!(board.own_prices().collect::<Vec<_>>(), [(product, own)]);

        board.clear(product);
        assert_eq!(board.price(&CATALOGUE, product), sample);
        assert!(board.is_sample(product));
    }
}
