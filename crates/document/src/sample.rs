//! The plan a first visit starts from: an invented side in an invented shop.

use litemap::LiteMap;

use crate::amount::{MassAmount, PriceAmount};
use crate::format::{
    AgeForm, BasisForm, DealForm, Document, FORMAT, LossForm, MethodForm, PackagingForm, PlanForm,
    RoundToForm, RoundingForm, ShopForm, StockFromForm, VERSION,
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
            currency: None,
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
                carcass: None,
                stock_from: StockFromForm::default(),
                age: AgeForm::Unknown,
                labour_minutes: None,
            },
            plan: PlanForm {
                base: text("boneless"),
                ways: LiteMap::new(),
                splits: LiteMap::new(),
                ageing: LiteMap::new(),
                rendering: LiteMap::new(),
                grind: None,
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
    use carcass::{Catalogue, Stock};
    use pricing::WeightBasis;
    use quantity::Share;

    use super::*;
    use crate::json_fault::JsonWrong;
    use crate::{DocumentError, JsonFault};

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
        let error = edited("\"version\": 2", "\"version\": 7").unwrap_err();
        assert_eq!(error, DocumentError::Newer { version: 7 });
        assert!(error.to_string().contains("newer Sideworth"));
    }

    #[test]
    fn unknown_fields_and_foreign_files_are_refused() {
        assert!(matches!(
            edited("\"deal\"", "\"tip\": 1, \"deal\""),
            Err(DocumentError::Malformed(_))
        ));
        assert_eq!(Document::from_json("{}"), Err(DocumentError::NotAPlan));
        assert!(matches!(
            Document::from_json("{\"format\": "),
            Err(DocumentError::Malformed(JsonFault {
                line: 1,
                what: JsonWrong::CutOff,
                ..
            }))
        ));
        let long = " ".repeat(crate::LARGEST_BYTES + 1);
        assert!(matches!(
            Document::from_json(&long),
            Err(DocumentError::TooLong { .. })
        ));
    }

    /// The sample with `more` put before the end of an object.
    fn with(place: &str, more: &str) -> Result<crate::Resolved, DocumentError> {
        let catalogue = Catalogue::published().unwrap();
        edited(place, more)?.resolve(&catalogue)
    }

    #[test]
    fn days_hung_stand_in_for_a_shrink_and_a_typed_one_wins() {
        let catalogue = Catalogue::published().unwrap();
        let basis = |basis: &str| with("\"basis\": \"cold\"", &format!("\"basis\": {basis}"));
        let hung = basis(r#"{"hot": {"days_hung": 14}}"#).unwrap();
        let loss = catalogue.cooler_shrink(hung.deal.stock).after(14).unwrap();
        assert_eq!(hung.deal.basis, WeightBasis::Hot { shrink: loss.lost });
        assert_eq!(hung.derived_shrink, Some(loss));
        let both = basis(r#"{"hot": {"shrink_percent": "2", "days_hung": 14}}"#).unwrap();
        let shrink = Share::from_percent(2.into());
        assert_eq!(both.deal.basis, WeightBasis::Hot { shrink });
        assert_eq!(both.derived_shrink, None);
        for (refused, at) in [
            (r#"{"hot": {}}"#, "deal.basis"),
            (r#"{"hot": {"days_hung": 99}}"#, "deal.basis.days_hung"),
        ] {
            assert_named(basis(refused), at);
        }
    }

    #[test]
    fn a_graded_carcass_sets_the_stock_where_the_user_wants_it_to() {
        let carcass = |more: &str| {
            with(
                "\"grass_percent\": \"0\"",
                &format!(
                    r#""grass_percent": "0", "carcass": {{
                    "hot_weight": {{"amount": "700", "unit": "lb"}},
                    "back_fat": {{"amount": "0.2", "unit": "in"}},
                    "ribeye_area": {{"amount": "12.5", "unit": "in2"}},
                    "kidney_fat_percent": "2"}}{more}"#
                ),
            )
        };
        let beside = carcass("").unwrap();
        let expected = beside.expected_yield.unwrap();
        assert_eq!(beside.deal.stock, Stock::GRAIN);
        assert_ne!(expected.stock.nearest(), Stock::GRAIN);
        let driven = carcass(", \"stock_from\": \"grade\"").unwrap();
        assert_eq!(driven.deal.stock, expected.stock.nearest());
        let alone = with(
            "\"grass_percent\": \"0\"",
            "\"grass_percent\": \"0\", \"stock_from\": \"grade\"",
        );
        assert_named(alone, "deal.stock_from");
    }

    #[test]
    fn ageing_and_grind_are_taken_into_the_plan_or_named() {
        let catalogue = Catalogue::published().unwrap();
        let plan = |more: &str| with("\"splits\": {}", &format!("\"splits\": {{}}, {more}"));
        let aged = plan(r#""ageing": {"ribeye-roll": {"days": 28}}"#).unwrap();
        let ribeye = catalogue.part_id("ribeye-roll").unwrap();
        assert_eq!(
            aged.plan.ageing_of(ribeye).map(|aged| aged.loss),
            catalogue.ageing_loss(ribeye, 28).ok()
        );
        let ground = plan(
            r#""grind": {"with_fat_trim": true, "margin_points": "1", "classes": {
                "lean": {"share_percent": "40"},
                "regular": {"weight": {"amount": "5", "unit": "kg"}}}}"#,
        )
        .unwrap();
        let sheet =
            pricing::price_side(&catalogue, &ground.deal, &ground.plan, &ground.shop).unwrap();
        let classes = sheet.breakdown.ground();
        assert_eq!(classes.len(), 2);
        for class in classes {
            let row = sheet.rows.iter().find(|row| row.product == class.product);
            let weight = row.map(|row| row.weight.kg().round_dp(9));
            assert_eq!(weight, Some(class.weight.kg().round_dp(9)));
        }
        for (refused, at) in [
            (r#""ageing": {"tofu": {"days": 1}}"#, "plan.ageing.tofu"),
            (
                r#""ageing": {"brisket": {"days": 28}}"#,
                "plan.ageing.brisket",
            ),
            (
                r#""ageing": {"ribeye-roll": {"days": 99}}"#,
                "plan.ageing.ribeye-roll",
            ),
            (
                r#""ageing": {"rib": {"days": 28, "loss_percent": "100"}}"#,
                "plan.ageing.rib.loss_percent",
            ),
            (
                r#""grind": {"with_fat_trim": false, "margin_points": "0", "classes": {
                    "blue": {"share_percent": "4"}}}"#,
                "plan.grind.classes.blue",
            ),
            (
                r#""grind": {"with_fat_trim": false, "margin_points": "10", "classes": {
                    "extra-lean": {"share_percent": "4"}}}"#,
                "plan.grind.margin_points",
            ),
        ] {
            assert_named(plan(refused), at);
        }
    }

    #[track_caller]
    fn assert_named(result: Result<crate::Resolved, DocumentError>, at: &str) {
        match result {
            Err(DocumentError::BadValue { at: found, .. }) => assert_eq!(found, at),
            other => panic!("{at}: {other:?}"),
        }
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
