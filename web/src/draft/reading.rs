//! From typed text to a plan: each field is read on its own, so that one slip
//! names one field and leaves the others alone.

use std::collections::BTreeMap;

use carcass::Catalogue;
use document::format::{
    AgeForm, BasisForm, ChargeAmountForm, ChargeForm, DealForm, FORMAT, LossForm, PackagingForm,
    PlanForm, RoundToForm, RoundingForm, ShopForm,
};
use document::{Document, MassAmount, PriceAmount, VERSION};
use quantity::{Decimal, Mass, MassUnit, PriceUnit, Share, TypedError, UnitPrice, typed};

use super::{Basis, Draft, Entry, Field};

/// What each field that cannot be read says.
pub type Faults = BTreeMap<Field, String>;

/// Reads the draft as a plan.
///
/// # Errors
/// Every field at fault with a sentence that says what would be right.
pub fn read(draft: &Draft, catalogue: &Catalogue) -> Result<Document, Faults> {
    let mut reading = Reading {
        draft,
        faults: Faults::new(),
    };
    let deal = reading.deal();
    let shop = reading.shop(catalogue);
    match (deal, shop) {
        (Some(deal), Some(shop)) if reading.faults.is_empty() => Ok(Document {
            format: FORMAT.to_owned(),
            version: VERSION,
            name: String::new(),
            deal,
            plan: PlanForm {
                base: draft.plan.clone(),
                ways: draft.ways.clone(),
                splits: BTreeMap::new(),
            },
            shop,
        }),
        _ => Err(reading.faults),
    }
}

/// The mass that a field's text stands for.
pub fn mass(entry: &Entry) -> Result<(Mass, MassUnit), TypedError> {
    typed::mass(&entry.text, entry.units.mass())
}

/// The price that a field's text stands for.
pub fn price(entry: &Entry) -> Result<(UnitPrice, PriceUnit), TypedError> {
    typed::unit_price(&entry.text, entry.units.price())
}

/// The price of a by-product, which may be below zero: what its removal costs.
pub fn by_product_price(entry: &Entry) -> Result<(UnitPrice, PriceUnit), TypedError> {
    match entry.text.trim().strip_prefix(['-', '−']) {
        Some(cost) => {
            typed::unit_price(cost, entry.units.price()).map(|(price, unit)| (-price, unit))
        }
        None => price(entry),
    }
}

struct Reading<'a> {
    draft: &'a Draft,
    faults: Faults,
}

impl Reading<'_> {
    /// What `read` makes of a field; a fault is noted and `None` returned.
    fn field<T>(&mut self, field: Field, read: impl Fn(&Entry) -> Result<T, String>) -> Option<T> {
        match read(&self.draft.entry(&field)) {
            Ok(value) => Some(value),
            Err(fault) => {
                self.faults.insert(field, fault);
                None
            }
        }
    }

    fn price(&mut self, field: Field) -> Option<PriceAmount> {
        self.field(field, |entry| {
            price(entry)
                .map(|(price, unit)| PriceAmount::new(price, unit))
                .map_err(|error| error.to_string())
        })
    }

    /// A percentage as text, refused where `refuse` has something to say.
    fn percent(
        &mut self,
        field: Field,
        refuse: fn(Share) -> Option<&'static str>,
    ) -> Option<String> {
        self.field(field, |entry| {
            let share = typed::percent(&entry.text).map_err(|error| error.to_string())?;
            match refuse(share) {
                Some(reason) => Err(format!("“{}” {reason}", entry.text.trim())),
                None => Ok(plain(share.percent())),
            }
        })
    }

    fn deal(&mut self) -> Option<DealForm> {
        let weight = self.field(Field::Weight, |entry| {
            let (mass, unit) = mass(entry).map_err(|error| error.to_string())?;
            if mass.is_positive() {
                Ok(MassAmount::new(mass, unit))
            } else {
                Err(
                    "A side of no weight cannot be priced: type a weight above 0, such as 180."
                        .to_owned(),
                )
            }
        });
        let price = self.price(Field::Price);
        let basis = self.basis();
        let charges = self.charges();
        let labour_minutes = if self.draft.entry(&Field::LabourMinutes).own {
            self.field(Field::LabourMinutes, |entry| {
                typed::minutes(&entry.text)
                    .map(|minutes| Some(plain(minutes.minutes())))
                    .map_err(|error| error.to_string())
            })
        } else {
            Some(None)
        };
        Some(DealForm {
            sides: 1,
            weight: weight?,
            basis: basis?,
            price: price?,
            charges: charges?,
            grass_percent: self.draft.grass_percent.min(100).to_string(),
            age: AgeForm::Unknown,
            labour_minutes: labour_minutes?,
        })
    }

    fn basis(&mut self) -> Option<BasisForm> {
        let shrink = |reading: &mut Self| {
            reading.percent(Field::Shrink, |share| {
                (share >= Share::WHOLE).then_some(
                    "is 100 % or more, which leaves nothing to cut: type a number such as 1.5.",
                )
            })
        };
        match self.draft.basis {
            Basis::Cold => Some(BasisForm::Cold),
            Basis::Hot => shrink(self).map(|shrink_percent| BasisForm::Hot { shrink_percent }),
            Basis::Live => {
                let shrink = shrink(self);
                let dressing = self.percent(Field::Dressing, |share| {
                    (share.fraction().is_zero() || share > Share::WHOLE).then_some(
                        "cannot be a dressing share: type a number above 0 and up to 100, such as 61.5.",
                    )
                });
                Some(BasisForm::Live {
                    dressing_percent: dressing?,
                    shrink_percent: shrink?,
                })
            }
        }
    }

    /// Both charges; one of zero is left out.
    fn charges(&mut self) -> Option<Vec<ChargeForm>> {
        let flat = self.field(Field::FlatCharge, |entry| {
            typed::money(&entry.text).map_err(|error| error.to_string())
        });
        let by_weight = self.price(Field::WeightCharge);
        let mut charges = Vec::new();
        let flat = flat?;
        if flat.is_positive() {
            charges.push(ChargeForm {
                what: "Charges for the side".to_owned(),
                amount: ChargeAmountForm::Flat(plain(flat.units())),
            });
        }
        let by_weight = by_weight?;
        if by_weight.amount != "0" {
            charges.push(ChargeForm {
                what: "Charges by weight".to_owned(),
                amount: ChargeAmountForm::PerWeight(by_weight),
            });
        }
        Some(charges)
    }

    fn shop(&mut self, catalogue: &Catalogue) -> Option<ShopForm> {
        let labour_per_hour = self.field(Field::LabourRate, |entry| {
            typed::labour_rate(&entry.text)
                .map(|rate| plain(rate.per_hour()))
                .map_err(|error| error.to_string())
        });
        let target_margin_percent = self.percent(Field::TargetMargin, |share| {
            (share >= Share::WHOLE).then_some(
                "is 100 % or more, which leaves nothing to pay for the side: type a number below 100, such as 28.",
            )
        });
        let packaging = self.price(Field::Packaging);
        let unsold_percent = self.percent(Field::Unsold, |share| {
            (share >= Share::WHOLE).then_some(
                "is 100 % or more, which leaves nothing to sell: type a number such as 4.",
            )
        });
        let mut board = BTreeMap::new();
        for product_id in self.draft.board().keys() {
            let Some(product) = catalogue.product_id(product_id) else {
                continue;
            };
            let read = if catalogue[product].kind.is_by_product() {
                by_product_price
            } else {
                price
            };
            let amount = self.field(Field::Board(product_id.clone()), |entry| {
                read(entry)
                    .map(|(price, unit)| PriceAmount::new(price, unit))
                    .map_err(|error| error.to_string())
            });
            if let Some(amount) = amount {
                board.insert(product_id.clone(), amount);
            }
        }
        Some(ShopForm {
            labour_per_hour: labour_per_hour?,
            on_cost_percent: "0".to_owned(),
            overhead_per_hour: "0".to_owned(),
            own_minutes: BTreeMap::new(),
            target_margin_percent: target_margin_percent?,
            packaging: PackagingForm::PerWeight(packaging?),
            losses: LossForm {
                purge: "0".to_owned(),
                unsold: unsold_percent?,
                marked_down: "0".to_owned(),
                discount: "0".to_owned(),
            },
            own_losses: BTreeMap::new(),
            method: self.draft.method,
            board,
            rules: BTreeMap::new(),
            rounding: RoundingForm {
                endings: String::new(),
                to: RoundToForm::Up,
                unit: self.draft.units.price().symbol().to_owned(),
            },
        })
    }
}

/// The text of a number as a document keeps it.
fn plain(number: Decimal) -> String {
    number.normalize().to_string()
}
