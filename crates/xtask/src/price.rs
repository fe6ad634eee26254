//! Prices a saved plan with the same core as the app and prints the cost sheet.

mod json_sheet;
mod table;

use std::fs::File;
use std::io::{Read, Write, stdout};
use std::path::Path;

use anyhow::{Context, Result, bail};
use carcass::Catalogue;
use document::{Document, LARGEST_BYTES, Resolved};
use pricing::sheet_file::{Terms, write_sheet};
use pricing::{CostSheet, price_side};
use quantity::{MassUnit, PriceUnit};

/// How a sheet is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Form {
    /// Columns for a person to read.
    Table,
    /// One line for each cut (RFC 4180).
    Csv,
    /// Every figure, exact, for another program (RFC 8259).
    Json,
}

/// Prints the sheet of the plan in a file.
///
/// # Errors
/// When the file cannot be read, is no plan, or holds something that cannot be priced; the
/// sentence names the file and, where there is one, the field at fault.
pub fn price(file: &Path, form: Form) -> Result<()> {
    let text = read(file)?;
    let priced = Priced::from_json(&text).with_context(|| file.display().to_string())?;
    let written = match form {
        Form::Table => table::write(&priced),
        Form::Csv => {
            let terms = Terms {
                board: &priced.resolved.shop.board,
                stock: priced.resolved.deal.stock,
                mass: priced.mass_unit,
                price: priced.price_unit,
                currency: priced.document.currency,
            };
            write_sheet(&priced.catalogue, &priced.sheet, &terms)
        }
        Form::Json => json_sheet::write(&priced)?,
    };
    match stdout().write_all(written.as_bytes()) {
        // Whoever reads may have read enough.
        Err(error) if error.kind() == std::io::ErrorKind::BrokenPipe => Ok(()),
        outcome => outcome.context("The sheet could not be printed."),
    }
}

/// The text of a file that is no longer than a plan can be.
fn read(file: &Path) -> Result<String> {
    let cannot = || format!("{} cannot be read", file.display());
    let mut bytes = Vec::new();
    // One byte more than allowed is enough to see that a file is too long.
    File::open(file)
        .with_context(cannot)?
        .take(LARGEST_BYTES as u64 + 1)
        .read_to_end(&mut bytes)
        .with_context(cannot)?;
    if bytes.len() > LARGEST_BYTES {
        bail!(
            "{} is longer than any plan: a plan has {LARGEST_BYTES} bytes at most.",
            file.display()
        );
    }
    String::from_utf8(bytes)
        .with_context(|| format!("{} is no text, so it is no plan.", file.display()))
}

/// A plan with its figures and the units it was written in.
struct Priced {
    catalogue: Catalogue,
    document: Document,
    resolved: Resolved,
    sheet: CostSheet,
    /// Of weights: the unit of the side's weight.
    mass_unit: MassUnit,
    /// Of prices: the unit of the side's price.
    price_unit: PriceUnit,
}

impl Priced {
    fn from_json(text: &str) -> Result<Self> {
        Self::from_document(Document::from_json(text)?)
    }

    fn from_document(document: Document) -> Result<Self> {
        let catalogue = Catalogue::published()?;
        let resolved = document.resolve(&catalogue)?;
        let sheet = price_side(&catalogue, &resolved.deal, &resolved.plan, &resolved.shop)?;
        Ok(Self {
            mass_unit: document.deal.weight.mass_unit("deal.weight")?,
            price_unit: document.deal.price.price_unit("deal.price")?,
            catalogue,
            document,
            resolved,
            sheet,
        })
    }

    /// The name of the plan that the cut plan starts from.
    fn plan_name(&self) -> &str {
        self.catalogue
            .plan(&self.document.plan.base)
            .map_or(self.document.plan.base.as_str(), |plan| plan.name.as_str())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_wrong_in_a_plan_is_said_with_its_place() {
        let json = Document::sample().to_json().expect("a plan");
        let refused = |from: &str, to: &str| {
            assert!(json.contains(from), "{json}");
            match Priced::from_json(&json.replacen(from, to, 1)) {
                Ok(_) => panic!("{to} was priced"),
                Err(error) => format!("{error:#}"),
            }
        };
        let sample = Document::sample();
        let target = format!("\"{}\"", sample.shop.target_margin_percent);
        let weight = format!("\"{}\"", sample.deal.weight.amount);
        let too_high = refused(&target, "\"100\"");
        assert!(
            too_high.starts_with("shop.target_margin_percent: "),
            "{too_high}"
        );
        let no_weight = refused(&weight, "\"0\"");
        assert!(no_weight.starts_with("deal.weight.amount: "), "{no_weight}");
        let version = format!("\"version\": {}", document::VERSION);
        let newer = refused(&version, "\"version\": 9");
        assert!(newer.contains("version 9"), "{newer}");
    }

    #[test]
    fn a_file_that_is_no_plan_is_named() {
        let folder = std::env::temp_dir().join(format!("sideworth-price-{}", std::process::id()));
        std::fs::create_dir_all(&folder).expect("temporary folder");
        let refused = |name: &str, bytes: &[u8]| {
            let file = folder.join(name);
            std::fs::write(&file, bytes).expect("write");
            format!("{:#}", price(&file, Form::Csv).expect_err("no plan"))
        };
        let long = refused("long.json", &vec![b' '; LARGEST_BYTES + 1]);
        let binary = refused("binary.json", &[0xff, 0xfe, 0x00]);
        let other = refused("other.json", b"{}");
        let missing = price(&folder.join("missing.json"), Form::Table).expect_err("no file");
        std::fs::remove_dir_all(&folder).expect("clean up");
        assert!(
            long.contains("long.json") && long.contains("bytes at most"),
            "{long}"
        );
        assert!(binary.contains("binary.json is no text"), "{binary}");
        assert!(
            other.contains("other.json: ") && other.contains("not a plan"),
            "{other}"
        );
        assert!(
            missing.to_string().contains("missing.json cannot be read"),
            "{missing}"
        );
    }
}
