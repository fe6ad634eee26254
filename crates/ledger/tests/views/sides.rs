//! Closed sides as a browser has kept them.

use carcass::{Catalogue, Stock, break_down};
use decision::spread::normal_deviates;
use quantity::{Decimal, Mass, Rounding, Share, UnitPrice};
use scale::{ClosedTest, ClosedWeights, KeptMoney, Tag, products};

use crate::page::{Page, published};

/// An invented side that was cut by the boneless plan.
pub struct Side<'a> {
    /// Its lot number.
    pub lot: &'a str,
    /// Who sold it.
    pub supplier: &'a str,
    /// The day of receipt.
    pub received: &'a str,
    /// How the animal was finished.
    pub stock: Stock,
    /// Which of all draws its weights are.
    pub draw: u64,
    /// How many times what is drawn it gives of steak of the strip loin.
    pub strip_loin: f64,
}

impl Default for Side<'_> {
    fn default() -> Self {
        Self {
            lot: "A17",
            supplier: "Invented Farm",
            received: "2026-03-09",
            stock: Stock::GRAIN,
            draw: 0,
            strip_loin: 1.0,
        }
    }
}

impl Side<'_> {
    /// The closed test that it was.
    pub fn closed(&self, catalogue: &Catalogue) -> ClosedTest {
        let plan = &catalogue.plan("boneless").expect("a plan").plan;
        let side = break_down(catalogue, Mass::from_kg(180.into()), 1, plan, self.stock);
        let pieces: Vec<_> = products(&side).collect();
        let mut deviates = vec![0.0; pieces.len()];
        normal_deviates(11, self.draw, &mut deviates);
        let mut weights: Vec<Mass> = pieces
            .iter()
            .zip(deviates)
            .map(|((_, product, node), deviate)| {
                let spread = catalogue.spread_of(*product);
                let cv = spread.map_or(Decimal::ZERO, |group| group.cv.fraction());
                let by = Decimal::try_from(deviate).expect("a number");
                let by = (Decimal::ONE + cv * by).max(Decimal::ZERO);
                let times = if catalogue[*product].id.starts_with("strip-loin") {
                    Decimal::try_from(self.strip_loin).expect("a number")
                } else {
                    Decimal::ONE
                };
                let grams = Rounding::HalfEven.to_places(node.weight.kg() * by * times, 3);
                Mass::from_kg(grams)
            })
            .collect();
        // What is left is what the heaviest gave, so that the side closes.
        let missing = Mass::from_kg(180.into()) - weights.iter().copied().sum::<Mass>();
        let heaviest = weights.iter_mut().max().expect("pieces");
        *heaviest += missing;
        let weights = ClosedWeights::all_found(weights);
        let tag = Tag {
            lot: self.lot.to_owned(),
            supplier: self.supplier.to_owned(),
            received: self.received.parse().ok(),
            ..Tag::default()
        };
        let money = KeptMoney {
            paid: UnitPrice::from_per_kg(11.into()),
            walk_away: UnitPrice::from_per_kg(Decimal::new(115, 1)),
            margin: Share::from_percent(28.into()),
        };
        let of = (self.stock, 1);
        ClosedTest::of(catalogue, &side, of, &weights, tag, Some(money))
    }
}

/// A page whose browser has kept these sides.
pub fn page_with<'a>(sides: impl IntoIterator<Item = Side<'a>>) -> Page {
    let catalogue = published();
    let mut page = Page::new();
    for (place, side) in sides.into_iter().enumerate() {
        let text = side.closed(&catalogue).to_text();
        page.store.insert(format!("test.{}", place + 1), text);
    }
    page.reload();
    page
}

/// So many ordinary sides.
pub fn ordinary(count: u64) -> Vec<Side<'static>> {
    (0..count)
        .map(|draw| Side {
            draw,
            ..Side::default()
        })
        .collect()
}
