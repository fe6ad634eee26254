//! The record as files that a spreadsheet opens: CSV by RFC 4180. Units stand in
//! the heading, and no cell is run as a formula.

use carcass::{Catalogue, Kind, Stock};
use pricing::spreadsheet_text::guarded;
use pricing::{Age, CalendarDate};
use quantity::{Mass, MassUnit, Rounding};

use crate::closed_test::ClosedTest;
use crate::grinding_log::GrindingLog;
use crate::lot_code::LotScheme;
use crate::tag::Half;

/// The grinding log as a file, one line for each lot of each batch.
pub fn write_grinding_log(log: &GrindingLog, unit: MassUnit) -> String {
    let mut lines = vec![
        [
            "batch",
            "product id",
            "ground on",
            "at",
            "by",
            "grinder cleaned on",
            "cleaned at",
            "lot",
        ]
        .map(str::to_owned)
        .to_vec(),
    ];
    if let Some(heading) = lines.first_mut() {
        heading.push(format!("weight ({})", unit.symbol()));
    }
    for batch in log.batches() {
        let (date, time) = &batch.ground;
        let (cleaned_on, cleaned_at) = batch
            .cleaned
            .map(|(date, time)| (date.to_string(), time.to_string()))
            .unwrap_or_default();
        for (lot, weight) in &batch.lots {
            lines.push(vec![
                guarded(&batch.code),
                guarded(&batch.product),
                date.to_string(),
                time.to_string(),
                guarded(&batch.by),
                cleaned_on.clone(),
                cleaned_at.clone(),
                guarded(lot),
                Rounding::HalfEven.fixed(weight.in_unit(unit), 3),
            ]);
        }
    }
    file(&lines)
}

/// The sides that were cut as a file, one line for each, its claims in one cell.
pub fn write_sides<'a>(tests: impl IntoIterator<Item = &'a ClosedTest>, unit: MassUnit) -> String {
    let mut lines = vec![
        [
            "lot",
            "supplier",
            "farm",
            "plant",
            "killed on",
            "received on",
            "half",
            "sides",
            "temperature (°C)",
            "claims",
            "unexplained loss accepted",
        ]
        .map(str::to_owned)
        .to_vec(),
    ];
    if let Some(heading) = lines.first_mut() {
        heading.push(format!("weight ({})", unit.symbol()));
        heading.push(format!("unexplained ({})", unit.symbol()));
        heading.extend(["age of the animal", "stock"].map(str::to_owned));
    }
    for test in tests {
        let tag = &test.tag;
        let weight = |mass: Mass| Rounding::HalfEven.fixed(mass.in_unit(unit), 3);
        let claims: Vec<String> = tag
            .claims
            .iter()
            .map(|claim| format!("{} ({})", claim.what, claim.document))
            .collect();
        lines.push(vec![
            guarded(&tag.lot),
            guarded(&tag.supplier),
            guarded(&tag.farm),
            guarded(&tag.plant),
            written(tag.killed),
            written(tag.received),
            match tag.half {
                Half::Untold => "",
                Half::Left => "left",
                Half::Right => "right",
            }
            .to_owned(),
            test.sides.to_string(),
            tag.celsius
                .map(|celsius| Rounding::HalfEven.fixed(celsius, 1))
                .unwrap_or_default(),
            guarded(&claims.join("; ")),
            if test.was_accepted { "yes" } else { "no" }.to_owned(),
            weight(test.chilled),
            weight(test.unexplained),
            match tag.age {
                Age::Under30Months => "under 30 months",
                Age::Over30Months => "30 months and over",
                Age::Unknown => "not known",
            }
            .to_owned(),
            stock(test.stock),
        ]);
    }
    file(&lines)
}

/// How the animal was finished.
fn stock(stock: Stock) -> String {
    if stock == Stock::GRAIN {
        "grain-fed".to_owned()
    } else if stock == Stock::GRASS {
        "grass-fed".to_owned()
    } else {
        let percent = stock.share_of_grass().percent().normalize();
        format!("{percent} % of the way to grass-fed")
    }
}

/// What the sides gave as a file, one line for each lot: its code by the first of
/// the schemes, what it is and weighs, the side it came off, and its codes by the
/// other schemes in one cell. Losses are no lots.
pub fn write_lots<'a>(
    catalogue: &Catalogue,
    scheme: &LotScheme,
    earlier: &[LotScheme],
    tests: impl IntoIterator<Item = &'a ClosedTest>,
    unit: MassUnit,
) -> String {
    let mut heading = ["lot", "product id", "product", "side", "supplier"]
        .map(str::to_owned)
        .to_vec();
    heading.extend(["killed on", "received on"].map(str::to_owned));
    heading.push(format!("weight ({})", unit.symbol()));
    heading.push("earlier codes".to_owned());
    let mut lines = vec![heading];
    for test in tests {
        let tag = &test.tag;
        let gave = test.gave(catalogue).into_iter();
        for (product, weight) in gave.filter(|(product, _)| catalogue[*product].kind != Kind::Loss)
        {
            let code = scheme.code(catalogue, tag, product);
            let earlier: Vec<String> = earlier
                .iter()
                .map(|scheme| scheme.code(catalogue, tag, product))
                .filter(|earlier| *earlier != code)
                .collect();
            let weight = weight.map(|weight| weight.in_unit(unit));
            lines.push(vec![
                guarded(&code),
                guarded(&catalogue[product].id),
                guarded(&catalogue[product].name),
                guarded(&tag.lot),
                guarded(&tag.supplier),
                written(tag.killed),
                written(tag.received),
                weight.map_or_else(String::new, |weight| Rounding::HalfEven.fixed(weight, 3)),
                guarded(&earlier.join("; ")),
            ]);
        }
    }
    file(&lines)
}

/// A day; nothing where it is not known.
fn written(day: Option<CalendarDate>) -> String {
    day.map(|day| day.to_string()).unwrap_or_default()
}

fn file(lines: &[Vec<String>]) -> String {
    let mut writer = csv::WriterBuilder::new()
        .terminator(csv::Terminator::CRLF)
        .from_writer(Vec::new());
    for line in lines {
        // Memory takes every write, so the way out is never taken.
        if writer.write_record(line).is_err() {
            return String::new();
        }
    }
    let bytes = writer.into_inner().unwrap_or_default();
    String::from_utf8(bytes).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use carcass::ProductId;

    use super::*;
    use crate::any_record::{batch, side};
    use crate::any_side::CATALOGUE;

    #[test]
    fn files_open_as_tables_and_run_nothing() {
        let mut log = GrindingLog::default();
        log.add(batch("=G1", &[("A1", 20), ("A2", 30)]))
            .expect("sound");
        let text = write_grinding_log(&log, MassUnit::Kilogram);
        let mut reader = csv::Reader::from_reader(text.as_bytes());
        assert_eq!(
            reader.headers().expect("a heading").get(8),
            Some("weight (kg)")
        );
        let lines: Vec<csv::StringRecord> = reader
            .records()
            .collect::<Result<_, _>>()
            .expect("one length");
        assert_eq!(lines.len(), 2);
        assert_eq!(lines[0].get(0), Some("'=G1"));
        assert_eq!(lines[1].get(8), Some("3.000"));

        let mut tests = [side("A1", "North")];
        tests[0].tag.age = Age::Over30Months;
        tests[0].stock = Stock::grass_share(quantity::Share::from_percent(35.into()));
        let text = write_sides(&tests, MassUnit::Kilogram);
        let mut reader = csv::Reader::from_reader(text.as_bytes());
        let line = reader
            .records()
            .next()
            .expect("a line")
            .expect("one length");
        assert_eq!(line.get(9), Some("'=grass-fed (12)"));
        assert_eq!(line.get(12), Some("-0.500"));
        assert_eq!(line.get(13), Some("30 months and over"));
        assert_eq!(line.get(14), Some("35 % of the way to grass-fed"));
    }

    #[test]
    fn every_lot_of_a_side_is_a_line_with_all_its_codes() {
        let tests = [side("=A1", "North"), side("A2", "South")];
        let scheme: LotScheme = "{lot}/{cut}".parse().expect("a scheme");
        let earlier: [LotScheme; 2] =
            ["{lot}/{cut}", "{cut}.{lot}"].map(|text| text.parse().expect("a scheme"));
        let text = write_lots(&CATALOGUE, &scheme, &earlier, &tests, MassUnit::Kilogram);
        let mut reader = csv::Reader::from_reader(text.as_bytes());
        let lines: Vec<csv::StringRecord> = reader
            .records()
            .collect::<Result<_, _>>()
            .expect("one length");
        let gave = tests[0].gave(&CATALOGUE);
        let lost = |product: ProductId| CATALOGUE[product].kind == Kind::Loss;
        let lots = gave.keys().filter(|product| !lost(**product)).count();
        assert!(lots > 1 && lots < gave.len());
        assert_eq!(lines.len(), 2 * lots);
        let suet = lines.iter().find(|line| line.get(1) == Some("suet"));
        let suet: Vec<&str> = suet.expect("suet").iter().collect();
        assert_eq!(suet[0], "'=A1/suet");
        assert_eq!(suet[3..5], ["'=A1", "North"]);
        assert_eq!(suet[7..], ["5.000", "suet.=A1"]);
    }
}
