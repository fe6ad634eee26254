//! A side as it is typed, and what the core makes of it on this machine.

use crate::visit::write_as_the_browser;
use anyhow::{Context, Result, anyhow};
use carcass::Catalogue;
use document::format::PlanForm;
use document::{Document, MassAmount, PriceAmount};
use pricing::{CostSheet, Outcome, price_side};
use quantity::{Decimal, PriceUnit, Rounding, Share, UnitPrice};

/// What a person types and chooses for a side.
#[derive(Clone, Copy, Debug)]
pub struct Side<'a> {
    /// The side's weight.
    pub weight: &'a str,
    /// `kg` or `lb`: the unit of every weight and price.
    pub weight_unit: &'a str,
    /// The supplier's price.
    pub price: &'a str,
    /// Percent of the way from grain-fed to grass-fed.
    pub grass_percent: u8,
    /// Id of the plan.
    pub plan: &'a str,
    /// Minutes at the bench; the plan's estimate without them.
    pub labour_minutes: Option<&'a str>,
    /// Cost of an hour at the bench.
    pub labour_rate: &'a str,
    /// Target margin in percent.
    pub target_margin: &'a str,
    /// Product ids with the shop's own prices.
    pub board: &'a [(&'a str, &'a str)],
}

impl Default for Side<'_> {
    /// A plain side, in numbers that no sample has.
    fn default() -> Self {
        Self {
            weight: "195",
            weight_unit: "kg",
            price: "8.4",
            grass_percent: 0,
            plan: "boneless",
            labour_minutes: Some("150"),
            labour_rate: "34",
            target_margin: "25",
            board: &[],
        }
    }
}

/// What the strip at the top is to say of a side.
#[derive(Clone, Debug)]
pub struct Figures {
    /// The word.
    pub outcome: &'static str,
    /// The margin with its sign, cut down to a tenth of a percent.
    pub margin: String,
    /// The walk-away price in both units, the one in force first, cut down to the cent.
    pub walk_away: String,
    /// The walk-away price in the unit in force as one would type it.
    pub walk_away_typed: String,
    /// The margin, exact.
    pub exact_margin: Share,
    /// The whole sheet.
    pub sheet: CostSheet,
}

impl Side<'_> {
    /// The side as a saved plan.
    pub fn document(&self) -> Document {
        let per = format!("/{}", self.weight_unit);
        let price = |amount: &str| PriceAmount {
            amount: amount.to_owned(),
            unit: per.clone(),
        };
        let mut document = Document::sample();
        document.deal.weight = MassAmount {
            amount: self.weight.to_owned(),
            unit: self.weight_unit.to_owned(),
        };
        document.deal.price = price(self.price);
        document.deal.grass_percent = self.grass_percent.to_string();
        document.deal.labour_minutes = self.labour_minutes.map(str::to_owned);
        document.plan = PlanForm {
            base: self.plan.to_owned(),
            ..document.plan
        };
        self.labour_rate
            .clone_into(&mut document.shop.labour_per_hour);
        self.target_margin
            .clone_into(&mut document.shop.target_margin_percent);
        document.shop.board = self
            .board
            .iter()
            .map(|(product, amount)| ((*product).to_owned(), price(amount)))
            .collect();
        document
    }

    /// What the core makes of the side on this machine, written as the app writes it.
    ///
    /// # Errors
    /// When the side cannot be priced.
    pub fn figures(&self) -> Result<Figures> {
        write_as_the_browser();
        let catalogue = Catalogue::published().map_err(|error| anyhow!("{error}"))?;
        let resolved = self.document().resolve(&catalogue)?;
        let sheet = price_side(&catalogue, &resolved.deal, &resolved.plan, &resolved.shop)?;
        let verdict = &sheet.verdict;
        let units = match self.weight_unit {
            "lb" => [PriceUnit::PerPound, PriceUnit::PerKilogram],
            _ => [PriceUnit::PerKilogram, PriceUnit::PerPound],
        };
        let [first, second] = units.map(|unit| offer(verdict.walk_away, unit));
        let walk_away_typed = verdict.walk_away.in_unit(units[0]);
        Ok(Figures {
            outcome: match verdict.outcome {
                Outcome::Pays => "Pays",
                Outcome::Thin => "Thin",
                Outcome::FallsShort => "Falls short",
            },
            margin: format!("{} %", amount(verdict.margin.percent(), 1, Rounding::Down)),
            walk_away: if verdict.walk_away.is_positive() {
                format!("{first} {second}")
            } else {
                "none".to_owned()
            },
            walk_away_typed: Rounding::Down.to_cent(walk_away_typed).to_string(),
            exact_margin: verdict.margin,
            sheet,
        })
    }
}

fn offer(price: UnitPrice, unit: PriceUnit) -> String {
    let shown = amount(price.in_unit(unit), 2, Rounding::Down);
    format!("${shown}{}", unit.symbol())
}

/// A number as the app writes it: so many decimals, a true minus sign, and a comma
/// between groups of three digits, as the locale of the tests has it.
pub fn amount(number: Decimal, decimals: u32, rounding: Rounding) -> String {
    let rounded = rounding.to_places(number, decimals);
    let digits = format!("{:.*}", decimals as usize, rounded.abs());
    let (whole, decimals) = match digits.split_once('.') {
        Some((whole, decimals)) => (whole, format!(".{decimals}")),
        None => (digits.as_str(), String::new()),
    };
    let grouped = whole
        .as_bytes()
        .rchunks(3)
        .rev()
        .map(String::from_utf8_lossy)
        .collect::<Vec<_>>()
        .join(",");
    let minus = if rounded < Decimal::ZERO { "−" } else { "" };
    format!("{minus}{grouped}{decimals}")
}

/// The number in a text that the app has written, whatever stands around it.
///
/// # Errors
/// When there is no number in it.
pub fn read_amount(text: &str) -> Result<Decimal> {
    let plain: String = text
        .chars()
        .filter_map(|letter| match letter {
            '−' => Some('-'),
            '0'..='9' | '.' | '-' => Some(letter),
            _ => None,
        })
        .collect();
    plain
        .parse()
        .with_context(|| format!("“{text}” holds no number"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn amounts_are_written_as_people_read_them() {
        let written = |text: &str, rounding| amount(text.parse().expect("a number"), 1, rounding);
        assert_eq!(written("27.99", Rounding::Down), "27.9");
        assert_eq!(written("-0.04", Rounding::HalfEven), "0.0");
        assert_eq!(written("-12.34", Rounding::HalfEven), "−12.3");
        assert_eq!(written("1234567", Rounding::Up), "1,234,567.0");
        assert_eq!(written("1234", Rounding::Up), "1,234.0");
    }

    #[test]
    fn what_was_written_reads_back() {
        assert_eq!(
            read_amount("−$12,345.60").expect("a number"),
            Decimal::new(-1_234_560, 2)
        );
        assert!(read_amount("–").is_err());
    }

    #[test]
    fn a_plain_side_can_be_priced() {
        let figures = Side::default().figures().expect("figures");
        assert!(figures.sheet.rows.len() > 10);
        assert!(figures.walk_away.contains("/kg $"));
    }
}
