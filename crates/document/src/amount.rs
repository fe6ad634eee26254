//! Amounts with the unit the user chose.

use quantity::{Decimal, Mass, MassUnit, PriceUnit, Rounding, UnitPrice, typed};
use serde::{Deserialize, Serialize};
use wording::key;

use crate::{DocumentError, Wrong};

/// A mass as text and unit: `{"amount": "430", "unit": "lb"}`.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MassAmount {
    /// Plain decimal number.
    pub amount: String,
    /// `kg` or `lb`.
    pub unit: String,
}

/// A price as text and unit: `{"amount": "3.81", "unit": "/lb"}`.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PriceAmount {
    /// Plain decimal number; below zero for what costs money to be rid of.
    pub amount: String,
    /// `/kg`, `/lb` or `/100 g`.
    pub unit: String,
}

/// The unit of the price at the field `at`.
pub(crate) fn price_unit(at: &str, unit: &str) -> Result<PriceUnit, DocumentError> {
    unit.strip_prefix('/')
        .and_then(PriceUnit::from_symbol)
        .ok_or_else(|| {
            DocumentError::bad(
                format!("{at}.unit"),
                Wrong::Unit {
                    found: unit.to_owned(),
                    wanted: key!("/kg, /lb or /100 g"),
                },
            )
        })
}

/// The text of a number, without idle zeros, within what the readers take.
pub(crate) fn text(number: Decimal) -> String {
    Rounding::HalfEven
        .to_places(number, typed::MOST_PLACES)
        .normalize()
        .to_string()
}

/// The plain number in `text`, which may be below zero.
pub(crate) fn signed_number(at: &str, text: &str) -> Result<Decimal, DocumentError> {
    match text.strip_prefix('-') {
        Some(positive) => typed::number(positive).map(|number| -number),
        None => typed::number(text),
    }
    .map_err(|error| DocumentError::bad(at, Wrong::Number(error)))
}

/// The plain number in `text`, zero or more.
pub(crate) fn number(at: &str, text: &str) -> Result<Decimal, DocumentError> {
    typed::number(text).map_err(|error| DocumentError::bad(at, Wrong::Number(error)))
}

impl MassAmount {
    /// A mass in the unit it is to be shown in; one in grams or ounces is kept
    /// in kilograms or pounds, since a document knows no others.
    pub fn new(mass: Mass, unit: MassUnit) -> Self {
        let unit = match unit {
            MassUnit::Gram => MassUnit::Kilogram,
            MassUnit::Ounce => MassUnit::Pound,
            kept => kept,
        };
        Self {
            amount: text(mass.in_unit(unit)),
            unit: unit.symbol().to_owned(),
        }
    }

    /// The unit.
    ///
    /// # Errors
    /// [`DocumentError::BadValue`] at the field `at`.
    pub fn mass_unit(&self, at: &str) -> Result<MassUnit, DocumentError> {
        match MassUnit::from_symbol(&self.unit) {
            Some(unit @ (MassUnit::Kilogram | MassUnit::Pound)) => Ok(unit),
            _ => Err(DocumentError::bad(
                format!("{at}.unit"),
                Wrong::Unit {
                    found: self.unit.clone(),
                    wanted: key!("kg or lb"),
                },
            )),
        }
    }

    /// The mass.
    ///
    /// # Errors
    /// [`DocumentError::BadValue`] at the field `at`.
    pub fn mass(&self, at: &str) -> Result<Mass, DocumentError> {
        let unit = self.mass_unit(at)?;
        number(&format!("{at}.amount"), &self.amount).map(|amount| Mass::from_unit(amount, unit))
    }
}

impl PriceAmount {
    /// A price in the unit it is to be shown in.
    pub fn new(price: UnitPrice, unit: PriceUnit) -> Self {
        Self {
            amount: text(price.in_unit(unit)),
            unit: unit.symbol().to_owned(),
        }
    }

    /// The unit.
    ///
    /// # Errors
    /// [`DocumentError::BadValue`] at the field `at`.
    pub fn price_unit(&self, at: &str) -> Result<PriceUnit, DocumentError> {
        price_unit(at, &self.unit)
    }

    /// The price, zero or more.
    ///
    /// # Errors
    /// [`DocumentError::BadValue`] at the field `at`.
    pub fn price(&self, at: &str) -> Result<UnitPrice, DocumentError> {
        let unit = self.price_unit(at)?;
        number(&format!("{at}.amount"), &self.amount)
            .map(|amount| UnitPrice::from_unit(amount, unit))
    }

    /// The price, which may be below zero.
    ///
    /// # Errors
    /// [`DocumentError::BadValue`] at the field `at`.
    pub fn signed_price(&self, at: &str) -> Result<UnitPrice, DocumentError> {
        let unit = self.price_unit(at)?;
        signed_number(&format!("{at}.amount"), &self.amount)
            .map(|amount| UnitPrice::from_unit(amount, unit))
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    const MASS_UNITS: [MassUnit; 2] = [MassUnit::Kilogram, MassUnit::Pound];
    const PRICE_UNITS: [PriceUnit; 3] = [
        PriceUnit::PerKilogram,
        PriceUnit::PerPound,
        PriceUnit::Per100Gram,
    ];

    proptest! {
        #[test]
        fn an_amount_reads_back_in_the_unit_it_was_given_in(
            thousandths in 0_i64..1_000_000_000_000,
            unit in 0_usize..6,
        ) {
            let amount = Decimal::new(thousandths, 3);
            let mass = Mass::from_unit(amount, MASS_UNITS[unit % 2]);
            let written = MassAmount::new(mass, MASS_UNITS[unit % 2]);
            prop_assert_eq!(written.mass("mass"), Ok(mass));

            let price = UnitPrice::from_unit(amount, PRICE_UNITS[unit % 3]);
            let written = PriceAmount::new(price, PRICE_UNITS[unit % 3]);
            prop_assert_eq!(written.price("price"), Ok(price));
            let owed = PriceAmount::new(-price, PRICE_UNITS[unit % 3]);
            prop_assert_eq!(owed.signed_price("price"), Ok(-price));
        }

        #[test]
        fn only_a_signed_price_may_be_below_zero(cents in 1_i64..1_000_000) {
            let owed = PriceAmount::new(
                UnitPrice::from_per_kg(Decimal::new(-cents, 2)),
                PriceUnit::PerKilogram,
            );
            let refused = matches!(owed.price("price"), Err(DocumentError::BadValue { .. }));
            prop_assert!(refused);
        }
    }
}
