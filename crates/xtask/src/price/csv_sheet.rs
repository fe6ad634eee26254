//! The sheet as comma-separated values: one line for each cut, and one for all together
//! (RFC 4180).

use anyhow::{Context, Result};
use csv::{Terminator, WriterBuilder};
use quantity::{Decimal, Money, Rounding, Share};

use super::{Priced, fixed};

/// Writes the sheet. Units stand in the heading, figures are plain numbers.
///
/// # Errors
/// Only when memory runs out.
pub fn write(priced: &Priced) -> Result<String> {
    let (mass, price) = (priced.mass_unit, priced.price_unit);
    let per = format!("${}", price.symbol());
    let mut lines = vec![vec![
        "cut".to_owned(),
        "product id".to_owned(),
        "kind".to_owned(),
        format!("weight ({})", mass.symbol()),
        "share of side (%)".to_owned(),
        "cost ($)".to_owned(),
        format!("cost ({per})"),
        format!("board price ({per})"),
        "board price is a sample".to_owned(),
        "sales ($)".to_owned(),
        "margin (%)".to_owned(),
        format!("suggested price ({per})"),
    ]];
    let percent = |share: Share, decimals, rounding| fixed(share.percent(), decimals, rounding);
    let to_cent = |number: Decimal, rounding| fixed(number, 2, rounding);
    let money = |money: Money| to_cent(money.units(), Rounding::HalfEven);
    for row in &priced.sheet.rows {
        let product = &priced.catalogue[row.product];
        let is_sample = priced.resolved.shop.board.is_sample(row.product);
        lines.push(vec![
            product.name.clone(),
            product.id.clone(),
            if row.is_by_product {
                "by-product"
            } else {
                "cut"
            }
            .to_owned(),
            fixed(row.weight.in_unit(mass), 3, Rounding::HalfEven),
            percent(row.share, 3, Rounding::HalfEven),
            money(row.cost),
            row.cost_per_mass.map_or_else(String::new, |cost| {
                to_cent(cost.in_unit(price), Rounding::HalfEven)
            }),
            to_cent(row.price.in_unit(price), Rounding::HalfEven),
            if is_sample { "yes" } else { "no" }.to_owned(),
            money(row.sales),
            row.margin
                .filter(|_| !row.is_by_product)
                .map_or_else(String::new, |margin| percent(margin, 1, Rounding::Down)),
            row.suggested.map_or_else(String::new, |suggested| {
                to_cent(suggested.in_unit(price), Rounding::Up)
            }),
        ]);
    }
    let totals = &priced.sheet.totals;
    lines.push(vec![
        "All together".to_owned(),
        String::new(),
        "total".to_owned(),
        fixed(totals.chilled.in_unit(mass), 3, Rounding::HalfEven),
        percent(Share::WHOLE, 3, Rounding::HalfEven),
        money(totals.spend()),
        String::new(),
        String::new(),
        String::new(),
        money(totals.sales + totals.by_products),
        percent(priced.sheet.verdict.margin, 1, Rounding::Down),
        String::new(),
    ]);
    separated(&lines)
}

fn separated(lines: &[Vec<String>]) -> Result<String> {
    let mut writer = WriterBuilder::new()
        .terminator(Terminator::CRLF)
        .from_writer(Vec::new());
    for line in lines {
        writer.write_record(line.iter().map(|cell| guarded(cell)))?;
    }
    let bytes = writer
        .into_inner()
        .map_err(csv::IntoInnerError::into_error)
        .context("The sheet does not fit into memory.")?;
    Ok(String::from_utf8(bytes)?)
}

/// A cell that no spreadsheet takes for a formula: one that begins like a formula and is no number
/// gets an apostrophe in front (OWASP, CSV Injection).
fn guarded(cell: &str) -> String {
    let begins_like_a_formula = cell.starts_with(['=', '+', '-', '@', '\t', '\r']);
    if begins_like_a_formula && cell.parse::<Decimal>().is_err() {
        format!("'{cell}")
    } else {
        cell.to_owned()
    }
}

#[cfg(test)]
mod tests {
    use document::Document;

    use super::*;

    fn sample() -> Priced {
        Priced::from_document(Document::sample()).expect("the sample can be priced")
    }

    #[test]
    fn what_begins_like_a_formula_is_guarded_and_numbers_are_not() {
        for cell in ["=1+1", "+x", "-x", "@sum", "\t=1", "\r=1", "-1-1", "+"] {
            assert_eq!(guarded(cell), format!("'{cell}"));
        }
        for cell in ["-12.50", "+1", "12", "T-bone", "", "'=1"] {
            assert_eq!(guarded(cell), cell);
        }
    }

    #[test]
    fn cells_are_quoted_where_they_must_be_and_lines_end_as_the_standard_says() {
        let lines = [vec![
            "a,b".to_owned(),
            "say \"c\"".to_owned(),
            "-1".to_owned(),
        ]];
        assert_eq!(
            separated(&lines).expect("text"),
            "\"a,b\",\"say \"\"c\"\"\",-1\r\n"
        );
    }

    #[test]
    fn it_reads_back_with_as_many_cells_in_every_line_and_the_total_is_the_sum() {
        let priced = sample();
        let text = write(&priced).expect("text");
        let mut reader = csv::Reader::from_reader(text.as_bytes());
        let heading = reader.headers().expect("a heading").clone();
        assert_eq!(heading.get(3), Some("weight (kg)"));
        assert_eq!(heading.get(7), Some("board price ($/kg)"));
        let lines: Vec<csv::StringRecord> = reader
            .records()
            .collect::<Result<_, _>>()
            .expect("lines of one length");
        let (total, cuts) = lines.split_last().expect("lines");
        assert_eq!(cuts.len(), priced.sheet.rows.len());
        let number = |line: &csv::StringRecord, at: usize| -> Decimal {
            line.get(at).expect("a cell").parse().expect("a number")
        };
        let cost: Decimal = cuts.iter().map(|cut| number(cut, 5)).sum();
        assert_eq!(cost, number(total, 5));
        let sales: Decimal = cuts.iter().map(|cut| number(cut, 9)).sum();
        let apart = (sales - number(total, 9)).abs();
        assert!(
            apart <= Decimal::new(5, 3) * Decimal::from(cuts.len()),
            "{apart}"
        );
    }
}
