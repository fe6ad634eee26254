//! Sides and batches for the tests of the record.

use carcass::Stock;
use quantity::{Decimal, Mass};

use crate::any_side::CATALOGUE;
use crate::closed_test::ClosedTest;
use crate::grinding_log::Batch;
use crate::kept_way::KeptWay;
use crate::tag::{Claim, Tag};

/// Tenths of a kilogram.
pub(crate) fn kg(tenths: i64) -> Mass {
    Mass::from_kg(Decimal::new(tenths, 1))
}

/// A side that gave suet and fat trim, and was accepted with a gap.
pub(crate) fn side(lot: &str, supplier: &str) -> ClosedTest {
    ClosedTest {
        tag: Tag {
            lot: lot.to_owned(),
            supplier: supplier.to_owned(),
            celsius: Some(Decimal::new(32, 1)),
            claims: vec![Claim {
                what: "=grass-fed".to_owned(),
                document: "12".to_owned(),
            }],
            ..Tag::default()
        },
        stock: Stock::GRAIN,
        sides: 1,
        chilled: kg(1800),
        unexplained: kg(-5),
        was_accepted: true,
        is_left_out: false,
        money: None,
        ways: ["kidney-fat-raw", "flank-steak"]
            .iter()
            .filter_map(|way| CATALOGUE.way_id(way))
            .map(|way| {
                let outputs = CATALOGUE[way].outputs.iter().map(|_| kg(50));
                KeptWay::new(&CATALOGUE, way, outputs.collect())
            })
            .collect(),
    }
}

/// A batch of these lots, with tenths of a kilogram of each.
pub(crate) fn batch(code: &str, lots: &[(&str, i64)]) -> Batch {
    Batch {
        code: code.to_owned(),
        product: "ground-lean".to_owned(),
        ground: (
            "2026-03-09".parse().expect("a date"),
            "07:45".parse().expect("a time"),
        ),
        by: "Jo, Mo".to_owned(),
        cleaned: None,
        lots: lots
            .iter()
            .map(|(lot, tenths)| ((*lot).to_owned(), kg(*tenths)))
            .collect(),
    }
}
