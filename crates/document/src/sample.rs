//! The plan a first visit starts from: an invented side in an invented shop.

use litemap::LiteMap;

use crate::amount::{MassAmount, PriceAmount};
use crate::format::{
    AgeForm, BasisForm, DealForm, Document, FORMAT, LossForm, MethodForm, PackagingForm, PlanForm,
    RoundToForm, RoundingForm, ShopForm, VERSION,
};

impl Document {
    /// An invented side, bought and cut by an invented shop. Every figure is a
    /// stand-in until the user replaces it.
    pub fn sample() -> Self {
        let text = str::to_owned;
        Self {
            format: text(FORMAT),
            version: VERSION,
            name: text("Sample side (invented)"),
            deal: DealForm {
                sides: 1,
                weight: MassAmount {
                    amount: text("180"),
                    unit: text("kg"),
                },
                basis: BasisForm::Cold,
                price: PriceAmount {
                    amount: text("11.40"),
                    unit: text("/kg"),
                },
                charges: Vec::new(),
                grass_percent: text("0"),
                age: AgeForm::Unknown,
                labour_minutes: None,
            },
            plan: PlanForm {
                base: text("boneless"),
                ways: LiteMap::new(),
                splits: LiteMap::new(),
            },
            shop: ShopForm {
                labour_per_hour: text("32"),
                on_cost_percent: text("0"),
                overhead_per_hour: text("0"),
                own_minutes: LiteMap::new(),
                target_margin_percent: text("28"),
                packaging: PackagingForm::PerWeight(PriceAmount {
                    amount: text("0.35"),
                    unit: text("/kg"),
                }),
                losses: LossForm {
                    purge: text("0"),
                    unsold: text("4"),
                    marked_down: text("0"),
                    discount: text("0"),
                },
                own_losses: LiteMap::new(),
                method: MethodForm::NetRealisableValue,
                board: LiteMap::new(),
                rules: LiteMap::new(),
                rounding: RoundingForm {
                    endings: String::new(),
                    to: RoundToForm::Up,
                    unit: text("/kg"),
                },
            },
        }
    }
}

#[cfg(test)]
mod tests {
    use carcass::Catalogue;

    use super::*;
    use crate::DocumentError;

    fn edited(from: &str, to: &str) -> Result<Document, DocumentError> {
        let json = Document::sample().to_json().unwrap();
        assert!(json.contains(from), "{json}");
        Document::from_json(&json.replacen(from, to, 1))
    }

    #[test]
    fn what_is_written_reads_back_and_prices() {
        let catalogue = Catalogue::published().unwrap();
        let sample = Document::sample();
        let read = Document::from_json(&sample.to_json().unwrap()).unwrap();
        assert_eq!(read, sample);
        let resolved = read.resolve(&catalogue).unwrap();
        pricing::price_side(&catalogue, &resolved.deal, &resolved.plan, &resolved.shop).unwrap();
    }

    #[test]
    fn a_newer_version_is_refused_by_its_number() {
        let error = edited("\"version\": 1", "\"version\": 7").unwrap_err();
        assert_eq!(error, DocumentError::Newer { version: 7 });
        assert!(error.to_string().contains("newer Sideworth"));
    }

    #[test]
    fn unknown_fields_and_foreign_files_are_refused() {
        assert!(matches!(
            edited("\"deal\"", "\"tip\": 1, \"deal\""),
            Err(DocumentError::Malformed { .. })
        ));
        assert_eq!(Document::from_json("{}"), Err(DocumentError::NotAPlan));
        assert!(matches!(
            Document::from_json("{\"format\": "),
            Err(DocumentError::Malformed { line: 1, .. })
        ));
        let long = " ".repeat(crate::LARGEST_BYTES + 1);
        assert!(matches!(
            Document::from_json(&long),
            Err(DocumentError::TooLong { .. })
        ));
    }

    #[test]
    fn a_bad_value_is_named_by_its_path() {
        let catalogue = Catalogue::published().unwrap();
        for (from, to, at) in [
            ("\"180\"", "\"0\"", "deal.weight.amount"),
            ("\"180\"", "\"1,2.3\"", "deal.weight.amount"),
            ("\"/kg\"", "\"/st\"", "deal.price.unit"),
            ("\"28\"", "\"100\"", "shop.target_margin_percent"),
            ("\"boneless\"", "\"boneful\"", "plan.base"),
            (
                "\"ways\": {}",
                "\"ways\": {\"no-part\": \"x\"}",
                "plan.ways.no-part",
            ),
            (
                "\"board\": {}",
                "\"board\": {\"tofu\": {\"amount\": \"1\", \"unit\": \"/kg\"}}",
                "shop.board.tofu",
            ),
        ] {
            match edited(from, to).unwrap().resolve(&catalogue) {
                Err(DocumentError::BadValue { at: found, .. }) => assert_eq!(found, at),
                other => panic!("{at}: {other:?}"),
            }
        }
    }
}
