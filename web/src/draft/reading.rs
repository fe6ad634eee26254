//! From typed text to a plan: each field is read on its own, so that one slip
//! names one field and leaves the others alone.

use litemap::LiteMap;

use carcass::Catalogue;
use document::format::{
    BasisForm, ChargeAmountForm, ChargeForm, DealForm, FORMAT, LossForm, PackagingForm, PlanForm,
    RoundingForm, RuleForm, ShopForm, SplitForm,
};
use document::{Document, MassAmount, PriceAmount, VERSION};
use pricing::Endings;
use pricing::deal::MOST_SIDES;
use quantity::{Decimal, Mass, MassUnit, PriceUnit, Share, TypedError, UnitPrice, typed};

use super::{Basis, Draft, Entry, Field};

/// What each field that cannot be read says.
pub type Faults = LiteMap<Field, String>;

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
    let splits = reading.splits();
    match (deal, shop) {
        (Some(deal), Some(shop)) if reading.faults.is_empty() => Ok(Document {
            format: FORMAT.to_owned(),
            version: VERSION,
            name: String::new(),
            deal,
            plan: PlanForm {
                base: draft.plan.clone(),
                ways: draft.ways.clone(),
                splits,
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

    fn per_hour(&mut self, field: Field) -> Option<String> {
        self.field(field, |entry| {
            typed::labour_rate(&entry.text)
                .map(|rate| plain(rate.per_hour()))
                .map_err(|error| error.to_string())
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
        let sides = self.field(Field::Sides, |entry| {
            typed::number(&entry.text)
                .map_err(|error| error.to_string())?
                .to_string()
                .parse::<u32>()
                .ok()
                .filter(|sides| (1..=MOST_SIDES).contains(sides))
                .ok_or_else(|| {
                    format!(
                        "“{}” is not a count of sides: type a whole number from 1 to {MOST_SIDES}.",
                        entry.text.trim()
                    )
                })
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
            sides: sides?,
            weight: weight?,
            basis: basis?,
            price: price?,
            charges: charges?,
            grass_percent: self.draft.grass_percent.min(100).to_string(),
            age: self.draft.age,
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

    /// The charges typed in; one of zero is left out.
    fn charges(&mut self) -> Option<Vec<ChargeForm>> {
        let named = [
            (Field::Kill, "Kill and inspection"),
            (Field::Haul, "Haul"),
            (Field::CutAndWrap, "Cut and wrap"),
            (Field::Rebate, "Rebate"),
        ];
        let mut charges = Vec::new();
        let mut all_read = true;
        for (field, what) in named {
            let sign = if field == Field::Rebate { "-" } else { "" };
            match self.field(field, |entry| charge(entry, sign)) {
                Some(Some(amount)) => charges.push(ChargeForm {
                    what: what.to_owned(),
                    amount,
                }),
                Some(None) => {}
                None => all_read = false,
            }
        }
        all_read.then_some(charges)
    }

    /// Losses between block and till of every cut.
    fn losses(&mut self) -> Option<LossForm> {
        let share = |reading: &mut Self, field: Field| {
            reading.percent(field, |share| {
                (share >= Share::WHOLE).then_some(
                    "is 100 % or more, which leaves nothing to sell: type a number such as 4.",
                )
            })
        };
        let purge = share(self, Field::Purge);
        let unsold = share(self, Field::Unsold);
        let marked_down = share(self, Field::MarkedDown);
        let discount = share(self, Field::Discount);
        Some(LossForm {
            purge: purge?,
            unsold: unsold?,
            marked_down: marked_down?,
            discount: discount?,
        })
    }

    /// An optional price: `None` where nothing is typed or it cannot be read.
    fn bound(&mut self, field: Field) -> Option<PriceAmount> {
        if self.draft.entry(&field).own {
            self.price(field)
        } else {
            None
        }
    }

    /// What may be done to suggested prices, where something is typed.
    fn rules(&mut self, catalogue: &Catalogue) -> LiteMap<String, RuleForm> {
        let mut rules = LiteMap::new();
        for (_, product) in catalogue.products() {
            let id = &product.id;
            let pin = self.bound(Field::Pin(id.clone()));
            let floor = self.bound(Field::Floor(id.clone()));
            let cap = self.bound(Field::Cap(id.clone()));
            let rule = match pin {
                Some(price) => RuleForm::Pinned(price),
                None if floor.is_none() && cap.is_none() => continue,
                None => RuleForm::Between { floor, cap },
            };
            rules.insert(id.clone(), rule);
        }
        rules
    }

    fn endings(&mut self) -> Option<String> {
        self.field(Field::Endings, |entry| {
            if entry.own {
                Endings::typed(&entry.text).map_err(|error| error.to_string())?;
            }
            Ok(entry.text.clone())
        })
    }

    /// The second ways with the share that goes by each.
    fn splits(&mut self) -> LiteMap<String, SplitForm> {
        let mut splits = LiteMap::new();
        for (part, way) in &self.draft.second_ways {
            let percent = self.percent(Field::SplitPercent(part.clone()), |share| {
                (share > Share::WHOLE).then_some("is more than all of it: type 0 to 100.")
            });
            if let Some(percent) = percent {
                let way = way.clone();
                splits.insert(part.clone(), SplitForm { way, percent });
            }
        }
        splits
    }

    fn board_price(&mut self, catalogue: &Catalogue, id: &str) -> Option<PriceAmount> {
        let product = catalogue.product_id(id)?;
        let read = if catalogue[product].kind.is_by_product() {
            by_product_price
        } else {
            price
        };
        self.field(Field::Board(id.to_owned()), |entry| {
            read(entry)
                .map(|(price, unit)| PriceAmount::new(price, unit))
                .map_err(|error| error.to_string())
        })
    }

    fn shop(&mut self, catalogue: &Catalogue) -> Option<ShopForm> {
        let labour_per_hour = self.per_hour(Field::LabourRate);
        let target_margin_percent = self.percent(Field::TargetMargin, |share| {
            (share >= Share::WHOLE).then_some(
                "is 100 % or more, which leaves nothing to pay for the side: type a number below 100, such as 28.",
            )
        });
        let packaging = self.price(Field::Packaging);
        let losses = self.losses();
        let on_cost_percent = self.percent(Field::OnCost, |_| None);
        let overhead_per_hour = self.per_hour(Field::Overhead);
        let endings = self.endings();
        let rules = self.rules(catalogue);
        let mut board = LiteMap::new();
        let mut own_losses = LiteMap::new();
        let mut own_minutes = LiteMap::new();
        let typed: Vec<Field> = self.draft.typed_fields().cloned().collect();
        for field in typed {
            match &field {
                Field::Board(id) => {
                    if let Some(amount) = self.board_price(catalogue, id) {
                        board.insert(id.clone(), amount);
                    }
                }
                Field::CutUnsold(id) => {
                    let unsold = self.percent(field.clone(), |share| {
                        (share >= Share::WHOLE)
                            .then_some("is 100 % or more, which leaves nothing to sell.")
                    });
                    if let (Some(unsold), Some(losses)) = (unsold, &losses) {
                        let loss = LossForm {
                            unsold,
                            ..losses.clone()
                        };
                        own_losses.insert(id.clone(), loss);
                    }
                }
                Field::WayMinutes(id) => {
                    let minutes = self.field(field.clone(), |entry| {
                        typed::minutes(&entry.text)
                            .map(|minutes| plain(minutes.minutes()))
                            .map_err(|error| error.to_string())
                    });
                    if let Some(minutes) = minutes {
                        own_minutes.insert(id.clone(), minutes);
                    }
                }
                _ => {}
            }
        }
        Some(ShopForm {
            labour_per_hour: labour_per_hour?,
            on_cost_percent: on_cost_percent?,
            overhead_per_hour: overhead_per_hour?,
            own_minutes,
            target_margin_percent: target_margin_percent?,
            packaging: PackagingForm::PerWeight(packaging?),
            losses: losses?,
            own_losses,
            method: self.draft.method,
            board,
            rules,
            rounding: RoundingForm {
                endings: endings?,
                to: self.draft.round_to,
                unit: if self.draft.round_per_100g {
                    PriceUnit::Per100Gram
                } else {
                    self.draft.units.price()
                }
                .symbol()
                .to_owned(),
            },
        })
    }
}

/// A charge: with a unit of weight in its text it is one by weight, otherwise
/// once for all. `None` for a charge of nothing.
fn charge(entry: &Entry, sign: &str) -> Result<Option<ChargeAmountForm>, String> {
    if let Ok(money) = typed::money(&entry.text) {
        let amount = format!("{sign}{}", plain(money.units()));
        return Ok((!money.is_zero()).then_some(ChargeAmountForm::Flat(amount)));
    }
    let (price, unit) = price(entry).map_err(|error| error.to_string())?;
    let mut amount = PriceAmount::new(price, unit);
    amount.amount.insert_str(0, sign);
    Ok((!price.is_zero()).then_some(ChargeAmountForm::PerWeight(amount)))
}

/// The text of a number as a document keeps it.
fn plain(number: Decimal) -> String {
    number.normalize().to_string()
}
