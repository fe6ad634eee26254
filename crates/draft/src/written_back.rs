//! A saved plan as a draft, so that a file of one plan can be taken in again:
//! every amount stands in its field as if it had been typed there.
//!
//! A document can say more than there are fields for, such as a fifth charge.
//! What has no field is refused by its place, since leaving it out would change
//! the answer without a word.

use document::format::{
    BasisForm, ChargeAmountForm, ChargeForm, DealForm, GrindAmountForm, LossForm, MeasureAmount,
    PackagingForm, PlanForm, RuleForm, ShopForm,
};
use document::{Document, DocumentError, MassAmount, PriceAmount, Wrong};

use crate::words::Chosen;
use crate::{Basis, Draft, Entry, Field, Units};

/// The charges that have a field, with what they are called in a document: in
/// the language of whoever wrote it.
const CHARGES: [(Field, [&str; 3]); 3] = [
    (
        Field::Kill,
        wording::in_every_language("Kill and inspection"),
    ),
    (Field::Haul, wording::in_every_language("Haul")),
    (
        Field::CutAndWrap,
        wording::in_every_language("Cut and wrap"),
    ),
];

impl Draft {
    /// The draft that reads as this document. What the catalogue makes of it is
    /// for [`Document::resolve`] to say.
    ///
    /// # Errors
    /// [`DocumentError::BadValue`] at what there is no field for.
    pub fn of_document(document: &Document) -> Result<Self, DocumentError> {
        let (deal, plan, shop) = (&document.deal, &document.plan, &document.shop);
        let mut draft = Self {
            units: units_of(&shop.rounding.unit)
                .or_else(|| units_of(&deal.weight.unit))
                .unwrap_or_default(),
            currency: document.currency,
            stock_from: deal.stock_from,
            age: deal.age,
            plan: plan.base.clone(),
            ways: plan.ways.clone(),
            method: shop.method,
            round_to: shop.rounding.to,
            round_per_100g: shop.rounding.unit == "/100 g",
            ..Self::default()
        };
        draft.put_deal(deal)?;
        draft.put_charges(&deal.charges)?;
        draft.put_plan(plan);
        draft.put_shop(shop)?;
        Ok(draft)
    }

    /// Puts a text without a unit of its own into a field.
    fn put(&mut self, field: Field, text: &str) {
        self.type_into(field, text.to_owned());
    }

    /// Puts an amount into a field, in the units it was given in: bare where
    /// these are units that can be in force, else with its unit.
    fn put_amount(&mut self, field: Field, amount: &str, unit: &str) {
        let (text, units) = match units_of(unit) {
            Some(units) => (amount.to_owned(), units),
            None => (format!("{amount} {unit}"), self.units),
        };
        let entry = Entry {
            text,
            units,
            own: true,
        };
        self.fields.insert(field, entry);
    }

    fn put_mass(&mut self, field: Field, mass: &MassAmount) {
        self.put_amount(field, &mass.amount, &mass.unit);
    }

    fn put_price(&mut self, field: Field, price: &PriceAmount) {
        self.put_amount(field, &price.amount, &price.unit);
    }

    /// A length or an area always says its unit.
    fn put_measure(&mut self, field: Field, measure: &MeasureAmount) {
        self.put(field, &format!("{} {}", measure.amount, measure.unit));
    }

    fn put_deal(&mut self, deal: &DealForm) -> Result<(), DocumentError> {
        self.put(Field::Sides, &deal.sides.to_string());
        self.put_mass(Field::Weight, &deal.weight);
        self.put_price(Field::Price, &deal.price);
        let at = "deal.grass_percent";
        self.grass_percent = deal
            .grass_percent
            .parse()
            .ok()
            .filter(|percent| *percent <= 100)
            .ok_or_else(|| DocumentError::bad(at, Wrong::NotAWholePercent))?;
        if let Some(minutes) = &deal.labour_minutes {
            self.put(Field::LabourMinutes, minutes);
        }
        if let Some(carcass) = &deal.carcass {
            self.put_mass(Field::CarcassWeight, &carcass.hot_weight);
            self.put_measure(Field::BackFat, &carcass.back_fat);
            self.put_measure(Field::RibeyeArea, &carcass.ribeye_area);
            self.put(Field::KidneyFat, &carcass.kidney_fat_percent);
        }
        let (shrink, days_hung) = match &deal.basis {
            BasisForm::Cold => (&None, None),
            BasisForm::Hot {
                shrink_percent,
                days_hung,
            } => {
                self.basis = Basis::Hot;
                (shrink_percent, *days_hung)
            }
            BasisForm::Live {
                dressing_percent,
                shrink_percent,
                days_hung,
            } => {
                self.basis = Basis::Live;
                self.put(Field::Dressing, dressing_percent);
                (shrink_percent, *days_hung)
            }
        };
        if let Some(shrink) = shrink {
            self.put(Field::Shrink, shrink);
        }
        if let Some(days) = days_hung {
            self.put(Field::DaysHung, &days.to_string());
        }
        Ok(())
    }

    /// Each charge goes into the field of its name, else into the first that is
    /// free: which field it is in changes no figure.
    fn put_charges(&mut self, charges: &[ChargeForm]) -> Result<(), DocumentError> {
        let named = |charge: &ChargeForm| {
            let (field, _) = CHARGES
                .iter()
                .find(|(_, names)| names.contains(&charge.what.as_str()))?;
            Some(field.clone())
        };
        for (index, charge) in charges.iter().enumerate() {
            let (amount, unit) = match &charge.amount {
                ChargeAmountForm::Flat(amount) => (amount.as_str(), ""),
                ChargeAmountForm::PerWeight(price) => (price.amount.as_str(), price.unit.as_str()),
            };
            let back = amount.strip_prefix('-');
            let fits: Vec<Field> = if back.is_some() {
                vec![Field::Rebate]
            } else {
                let others = CHARGES.iter().map(|(field, _)| field.clone());
                named(charge).into_iter().chain(others).collect()
            };
            let is_named_later = |field: &Field| {
                let later = charges.iter().skip(index + 1);
                named(charge).as_ref() != Some(field)
                    && later.filter_map(named).any(|other| other == *field)
            };
            let free: Vec<&Field> = fits.iter().filter(|field| !self.entry(field).own).collect();
            let field = free
                .iter()
                .find(|field| !is_named_later(field))
                .or(free.first());
            let Some(field) = field.map(|field| (*field).clone()) else {
                return Err(DocumentError::bad(
                    format!("deal.charges[{index}]"),
                    Wrong::NoFieldForCharge,
                ));
            };
            self.put(field, &format!("{}{unit}", back.unwrap_or(amount)));
        }
        Ok(())
    }

    fn put_plan(&mut self, plan: &PlanForm) {
        for (part, split) in &plan.splits {
            self.second_ways.insert(part.clone(), split.way.clone());
            self.put(Field::SplitPercent(part.clone()), &split.percent);
        }
        for (part, ageing) in &plan.ageing {
            self.put(Field::AgeingDays(part.clone()), &ageing.days.to_string());
            if let Some(loss) = &ageing.loss_percent {
                self.put(Field::AgeingLoss(part.clone()), loss);
            }
        }
        for (part, own) in &plan.rendering {
            self.put(Field::RenderingYield(part.clone()), own);
        }
        if let Some(grind) = &plan.grind {
            self.grind_with_fat = grind.with_fat_trim;
            self.put(Field::GrindMargin, &grind.margin_points);
            for (class, amount) in &grind.classes {
                let text = match amount {
                    GrindAmountForm::SharePercent(share) => share.clone(),
                    GrindAmountForm::Weight(weight) => {
                        format!("{} {}", weight.amount, weight.unit)
                    }
                };
                self.put(Field::Grind(class.clone()), &text);
            }
        }
    }

    fn put_shop(&mut self, shop: &ShopForm) -> Result<(), DocumentError> {
        for (field, text) in [
            (Field::LabourRate, &shop.labour_per_hour),
            (Field::OnCost, &shop.on_cost_percent),
            (Field::Overhead, &shop.overhead_per_hour),
            (Field::TargetMargin, &shop.target_margin_percent),
            (Field::Purge, &shop.losses.purge),
            (Field::Unsold, &shop.losses.unsold),
            (Field::MarkedDown, &shop.losses.marked_down),
            (Field::Discount, &shop.losses.discount),
            (Field::Endings, &shop.rounding.endings),
        ] {
            self.put(field, text);
        }
        match &shop.packaging {
            PackagingForm::PerWeight(price) => self.put_price(Field::Packaging, price),
            PackagingForm::PerPack { cost, holds } => {
                self.counts_packs = true;
                self.put(Field::PackCost, cost);
                self.put_mass(Field::PackHolds, holds);
            }
        }
        for (way, minutes) in &shop.own_minutes {
            self.put(Field::WayMinutes(way.clone()), minutes);
        }
        for (product, loss) in &shop.own_losses {
            self.put_losses(product, loss, &shop.losses)?;
        }
        for (product, price) in &shop.board {
            self.put_price(Field::Board(product.clone()), price);
        }
        for (product, rule) in &shop.rules {
            match rule {
                RuleForm::Pinned(price) => self.put_price(Field::Pin(product.clone()), price),
                RuleForm::Between { floor, cap } => {
                    if let Some(floor) = floor {
                        self.put_price(Field::Floor(product.clone()), floor);
                    }
                    if let Some(cap) = cap {
                        self.put_price(Field::Cap(product.clone()), cap);
                    }
                }
            }
        }
        Ok(())
    }

    /// A cut has fields for two losses of its own; the others are the shop's.
    fn put_losses(
        &mut self,
        product: &str,
        loss: &LossForm,
        of_shop: &LossForm,
    ) -> Result<(), DocumentError> {
        for (name, own, common) in [
            ("purge", &loss.purge, &of_shop.purge),
            ("discount", &loss.discount, &of_shop.discount),
        ] {
            if own != common {
                return Err(DocumentError::bad(
                    format!("shop.own_losses.{product}.{name}"),
                    Wrong::NoFieldForLoss {
                        common: common.clone(),
                    },
                ));
            }
        }
        self.put(Field::CutUnsold(product.to_owned()), &loss.unsold);
        self.put(Field::CutMarkedDown(product.to_owned()), &loss.marked_down);
        Ok(())
    }
}

/// The units in force in which a bare number has this unit of weight or price.
fn units_of(unit: &str) -> Option<Units> {
    [Units::Kilograms, Units::Pounds]
        .into_iter()
        .find(|units| units.word() == unit.trim_start_matches('/'))
}

#[cfg(test)]
mod tests {
    use carcass::Catalogue;
    use proptest::prelude::*;

    use document::format::StockFromForm;

    use super::*;
    use crate::reading::read;

    fn catalogue() -> Catalogue {
        Catalogue::published().expect("published data")
    }

    /// What a draft reads as comes back from a draft of that.
    fn comes_back(draft: &Draft, catalogue: &Catalogue) {
        let document = read(draft, catalogue).expect("a plan");
        let back = Draft::of_document(&document).expect("a field for everything");
        assert_eq!(back.currency, draft.currency);
        assert_eq!(read(&back, catalogue).expect("the same plan"), document);
    }

    #[test]
    fn whatever_can_be_typed_and_chosen_comes_back() {
        let catalogue = catalogue();
        let mut draft = Draft::default();
        draft.fill_in_sample();
        comes_back(&draft, &catalogue);
        draft.units = Units::Pounds;
        draft.currency = "CAD".parse().ok();
        draft.basis = Basis::Live;
        draft.grass_percent = 35;
        draft.stock_from = StockFromForm::Grade;
        draft.counts_packs = true;
        draft.grind_with_fat = true;
        draft.ways.insert("rib".to_owned(), "rib-roast".to_owned());
        for (id, text) in [
            ("side-weight", "430 lb"),
            ("side-price", "1,20/100 g"),
            ("sides", "2"),
            ("labour-minutes", "3.5 h"),
            ("labour-rate", "31.25"),
            ("days-hung", "12"),
            ("carcass-weight", "700"),
            ("back-fat", "5 mm"),
            ("ribeye-area", "12.5"),
            ("kidney-fat-share", "2,5"),
            ("haul", "0.10/kg"),
            ("rebate", "15"),
            ("pack-cost", "0.3"),
            ("pack-holds", "600 g"),
            ("endings", "49 99"),
            ("price-t-bone-steak", "12.99/kg"),
            ("price-bones", "-0.10"),
            ("unsold-t-bone-steak", "7"),
            ("pin-flank-steak", "9.5"),
            ("cap-t-bone-steak", "20"),
            ("ageing-days-ribeye-roll", "28"),
            ("grind-lean", "40"),
            ("grind-regular", "5 kg"),
            ("grind-margin", "1"),
        ] {
            let field = Field::of_id(id).expect("a field");
            draft.type_into(field, text.to_owned());
        }
        comes_back(&draft, &catalogue);
        draft.round_per_100g = true;
        draft.basis = Basis::Hot;
        draft.counts_packs = false;
        comes_back(&draft, &catalogue);
    }

    fn with_charges(charges: &[(&str, &str)]) -> Result<Draft, DocumentError> {
        let mut document = Document::sample();
        document.deal.charges = charges
            .iter()
            .map(|(what, amount)| ChargeForm {
                what: (*what).to_owned(),
                amount: ChargeAmountForm::Flat((*amount).to_owned()),
            })
            .collect();
        Draft::of_document(&document)
    }

    #[test]
    fn a_charge_goes_where_its_name_says_in_any_language_and_none_is_dropped() {
        let [_, haul, _] = wording::in_every_language("Haul");
        let draft = with_charges(&[("Stamps", "3"), (haul, "40"), ("Bonus", "-9")]).expect("fits");
        let held = |field| draft.entry(&field).text;
        assert_eq!(held(Field::Kill), "3");
        assert_eq!(held(Field::Haul), "40");
        assert_eq!(held(Field::CutAndWrap), "0");
        assert_eq!(held(Field::Rebate), "9");
        let first = with_charges(&[("Stamps", "3"), ("Kill and inspection", "90")]).expect("fits");
        assert_eq!(first.entry(&Field::Kill).text, "90");
        assert_eq!(first.entry(&Field::Haul).text, "3");
        let twice = with_charges(&[("Bonus", "-9"), ("Bonus", "-1")]).expect_err("no field");
        let left = "there is no field left for this charge";
        assert_eq!(twice.to_string(), format!("deal.charges[1]: {left}"));
        let four = [("a", "1"), ("b", "1"), ("c", "1"), ("d", "1")];
        let four = with_charges(&four).expect_err("no field");
        assert_eq!(four.to_string(), format!("deal.charges[3]: {left}"));
    }

    #[test]
    fn what_has_no_field_is_refused_by_its_place() {
        let refused = |edit: fn(&mut Document)| {
            let mut document = Document::sample();
            edit(&mut document);
            Draft::of_document(&document)
                .expect_err("no field")
                .to_string()
        };
        let half = refused(|document| document.deal.grass_percent = "37.5".to_owned());
        assert_eq!(
            half,
            "deal.grass_percent: it must be a whole number from 0 to 100"
        );
        let drip = refused(|document| {
            let mut loss = document.shop.losses.clone();
            loss.purge = "2".to_owned();
            document
                .shop
                .own_losses
                .insert("t-bone-steak".to_owned(), loss);
        });
        assert_eq!(
            drip,
            "shop.own_losses.t-bone-steak.purge: a single cut has no field for it: \
             it must be “0”, as in shop.losses"
        );
    }

    proptest! {
        #[test]
        fn amounts_and_their_units_come_back(
            weight in 1_u32..100_000,
            price in 1_u32..10_000,
            per in 0_usize..3,
            in_pounds in any::<bool>(),
            grass_percent in 0_u8..=100,
        ) {
            let mut draft = Draft { grass_percent, ..Draft::default() };
            if in_pounds {
                draft.units = Units::Pounds;
            }
            draft.type_into(Field::Weight, format!("{}.{}", weight / 10, weight % 10));
            let unit = ["", "/lb", "/100 g"][per];
            draft.type_into(Field::Price, format!("{}.{:02}{unit}", price / 100, price % 100));
            comes_back(&draft, &catalogue());
        }
    }
}
