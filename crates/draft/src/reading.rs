//! From typed text to a plan: each field is read on its own, so that one slip
//! names one field and leaves the others alone.

mod carcass;
pub mod each;
mod plan;
mod shop;

use ::carcass::hanging::LONGEST_DAYS;
use ::carcass::{Catalogue, HangingError};
use document::format::{BasisForm, ChargeAmountForm, ChargeForm, DealForm, FORMAT, StockFromForm};
use document::{Document, MassAmount, PriceAmount, VERSION};
use litemap::LiteMap;
use pricing::deal::MOST_SIDES;
use quantity::{Decimal, Mass, MassUnit, PriceUnit, Share, TypedError, UnitPrice, typed};
use wording::{say, text};

use self::plan::days;
use crate::{Basis, Draft, Entry, Field};

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
    let plan = reading.plan(catalogue);
    match (deal, shop) {
        (Some(deal), Some(shop)) if reading.faults.is_empty() => Ok(Document {
            format: FORMAT.to_owned(),
            version: VERSION,
            name: String::new(),
            currency: draft.currency,
            deal,
            plan,
            shop,
        }),
        _ => Err(reading.faults),
    }
}

/// The mass that a field's text stands for.
///
/// # Errors
/// What is wrong with the text, and what would be right.
pub fn mass(entry: &Entry) -> Result<(Mass, MassUnit), TypedError> {
    typed::mass(&entry.text, entry.units.mass())
}

/// The price that a field's text stands for.
///
/// # Errors
/// What is wrong with the text, and what would be right.
pub fn price(entry: &Entry) -> Result<(UnitPrice, PriceUnit), TypedError> {
    typed::unit_price(&entry.text, entry.units.price())
}

/// The price of a by-product, which may be below zero: what its removal costs.
///
/// # Errors
/// What is wrong with the text, and what would be right.
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

    /// A weight, refused with `empty` where it is nothing.
    fn weight_above_nothing(&mut self, field: Field, empty: &str) -> Option<MassAmount> {
        self.field(field, |entry| {
            let (mass, unit) = mass(entry).map_err(|error| error.to_string())?;
            if mass.is_positive() {
                Ok(MassAmount::new(mass, unit))
            } else {
                Err(empty.to_owned())
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
        let weight = self.weight_above_nothing(
            Field::Weight,
            text!("A side of no weight cannot be priced: type a weight above 0, such as 180."),
        );
        let sides = self.field(Field::Sides, |entry| {
            typed::number(&entry.text)
                .map_err(|error| error.to_string())?
                .to_string()
                .parse::<u32>()
                .ok()
                .filter(|sides| (1..=MOST_SIDES).contains(sides))
                .ok_or_else(|| {
                    say!("“{typed}” is not a count of sides: type a whole number from 1 to {most_sides}.", entry.text.trim(), MOST_SIDES)
                })
        });
        let price = self.price(Field::Price);
        let basis = self.basis();
        let carcass = self.carcass();
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
            // Without measures there is no grade to go by.
            stock_from: match carcass {
                Some(_) => self.draft.stock_from,
                None => StockFromForm::Preset,
            },
            carcass,
            age: self.draft.age,
            labour_minutes: labour_minutes?,
        })
    }

    fn basis(&mut self) -> Option<BasisForm> {
        if self.draft.basis == Basis::Cold {
            return Some(BasisForm::Cold);
        }
        let hung = self.draft.entry(&Field::DaysHung).own;
        // Days hung stand in for the sample of the shrink, not for a typed one.
        let shrink = (!hung || self.draft.entry(&Field::Shrink).own).then(|| {
            self.percent(Field::Shrink, |share| {
                (share >= Share::WHOLE).then_some(text!(
                    "is 100 % or more, which leaves nothing to cut: type a number such as 1.5."
                ))
            })
        });
        let days = hung.then(|| {
            self.field(Field::DaysHung, |entry| {
                let days = days(entry)?;
                if days > LONGEST_DAYS {
                    let error = HangingError::TooLong {
                        days,
                        longest: LONGEST_DAYS,
                    };
                    return Err(error.to_string());
                }
                Ok(days)
            })
        });
        let dressing = (self.draft.basis == Basis::Live).then(|| {
            self.percent(Field::Dressing, |share| {
                (share.fraction().is_zero() || share > Share::WHOLE).then_some(text!(
                    "cannot be a dressing share: type a number above 0 and up to 100, such as 61.5."
                ))
            })
        });
        // What is wanted and cannot be read is noted.
        let (shrink_percent, days_hung) = (noted(shrink)?, noted(days)?);
        Some(match noted(dressing)? {
            None => BasisForm::Hot {
                shrink_percent,
                days_hung,
            },
            Some(dressing_percent) => BasisForm::Live {
                dressing_percent,
                shrink_percent,
                days_hung,
            },
        })
    }

    /// The charges typed in; one of zero is left out.
    fn charges(&mut self) -> Option<Vec<ChargeForm>> {
        let named = [
            (Field::Kill, text!("Kill and inspection")),
            (Field::Haul, text!("Haul")),
            (Field::CutAndWrap, text!("Cut and wrap")),
            (Field::Rebate, text!("Rebate")),
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
}

/// Splits what is not wanted from what is wanted and could not be read.
#[expect(
    clippy::option_option,
    reason = "not wanted, not readable and read are three things"
)]
fn noted<T>(read: Option<Option<T>>) -> Option<Option<T>> {
    match read {
        None => Some(None),
        Some(read) => read.map(Some),
    }
}

/// The mass of a field as a document keeps it.
fn mass_amount(entry: &Entry) -> Result<MassAmount, String> {
    mass(entry)
        .map(|(mass, unit)| MassAmount::new(mass, unit))
        .map_err(|error| error.to_string())
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

#[cfg(test)]
mod tests {
    use super::*;

    fn read_with(typed: &[(Field, &str)]) -> Result<Document, Faults> {
        let catalogue = Catalogue::published().expect("published data");
        let mut draft = Draft::default();
        draft.fill_in_sample();
        for (field, text) in typed {
            draft.type_into(field.clone(), (*text).to_owned());
        }
        read(&draft, &catalogue)
    }

    #[test]
    fn a_cut_keeps_both_of_its_own_losses_and_the_rest_of_the_shops() {
        let cut = || "t-bone-steak".to_owned();
        let document = read_with(&[
            (Field::CutMarkedDown(cut()), "12"),
            (Field::CutUnsold(cut()), "6,5"),
            (Field::Purge, "1.5"),
        ])
        .expect("a plan");
        let loss = document
            .shop
            .own_losses
            .get("t-bone-steak")
            .expect("a loss");
        assert_eq!(
            (
                loss.unsold.as_str(),
                loss.marked_down.as_str(),
                loss.purge.as_str()
            ),
            ("6.5", "12", "1.5")
        );
        assert_eq!(document.shop.own_losses.len(), 1);
    }

    #[test]
    fn every_field_at_fault_is_named_and_no_other() {
        let faults = read_with(&[
            (Field::Weight, "0"),
            (Field::Price, "dear"),
            (Field::TargetMargin, "100"),
            (Field::CutMarkedDown("t-bone-steak".to_owned()), "200"),
        ])
        .expect_err("faults");
        let named: Vec<String> = faults.keys().map(Field::id).collect();
        assert_eq!(
            named,
            [
                "side-weight",
                "side-price",
                "target-margin",
                "marked-down-t-bone-steak"
            ]
        );
        assert!(faults.values().all(|fault| !fault.is_empty()));
    }

    #[test]
    fn losses_that_leave_nothing_to_sell_are_told_at_a_field() {
        let cut = || "t-bone-steak".to_owned();
        let together = |typed: &[(Field, &str)]| {
            let faults = read_with(typed).expect_err("faults");
            assert_eq!(faults.len(), 1, "{faults:?}");
            let (field, fault) = faults.first().expect("a fault");
            assert_eq!(
                fault,
                "Unsold and marked down come to more than 100 % together: type smaller shares."
            );
            field.clone()
        };
        for (typed, told) in [
            (
                vec![(Field::Unsold, "60"), (Field::MarkedDown, "40.1")],
                Field::MarkedDown,
            ),
            (
                vec![(Field::MarkedDown, "50"), (Field::CutUnsold(cut()), "51")],
                Field::CutUnsold(cut()),
            ),
            (
                vec![
                    (Field::CutUnsold(cut()), "2"),
                    (Field::CutMarkedDown(cut()), "99"),
                ],
                Field::CutMarkedDown(cut()),
            ),
        ] {
            assert_eq!(together(&typed), told);
        }
        assert!(read_with(&[(Field::Unsold, "60"), (Field::MarkedDown, "40")]).is_ok());
    }

    #[test]
    fn whatever_unit_a_weight_is_typed_in_the_plan_can_be_priced() {
        let catalogue = Catalogue::published().expect("published data");
        for unit in ["kg", "lb", "g"] {
            let document = read_with(&[(Field::Weight, &format!("180500 {unit}"))]);
            let resolved = document.expect("a plan").resolve(&catalogue);
            let typed = typed::mass(&format!("180500 {unit}"), MassUnit::Kilogram);
            assert_eq!(
                resolved.map(|it| it.deal.weight).ok(),
                typed.map(|(mass, _)| mass).ok(),
                "{unit}"
            );
        }
    }

    #[test]
    fn charges_are_flat_or_by_weight_and_a_rebate_counts_against_them() {
        let document = read_with(&[
            (Field::Kill, "120"),
            (Field::Haul, "0.10/lb"),
            (Field::Rebate, "30"),
        ])
        .expect("a plan");
        let amounts: Vec<_> = document
            .deal
            .charges
            .iter()
            .map(|charge| &charge.amount)
            .collect();
        assert!(matches!(amounts[0], ChargeAmountForm::Flat(text) if text == "120"));
        assert!(matches!(amounts[1], ChargeAmountForm::PerWeight(price) if price.unit == "/lb"));
        assert!(matches!(amounts[2], ChargeAmountForm::Flat(text) if text == "-30"));
    }
}
