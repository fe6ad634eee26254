//! The record as files that a spreadsheet opens: CSV by RFC 4180. Units stand in
//! the heading, and no cell is run as a formula.

use pricing::spreadsheet_text::guarded;
use quantity::{Mass, MassUnit, Rounding};

use crate::closed_test::ClosedTest;
use crate::grinding_log::GrindingLog;
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
    }
    for test in tests {
        let tag = &test.tag;
        let date = |date: Option<pricing::CalendarDate>| {
            date.map(|date| date.to_string()).unwrap_or_default()
        };
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
            date(tag.killed),
            date(tag.received),
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
        ]);
    }
    file(&lines)
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
    use super::*;
    use crate::any_record::{batch, side};

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

        let tests = [side("A1", "North")];
        let text = write_sides(&tests, MassUnit::Kilogram);
        let mut reader = csv::Reader::from_reader(text.as_bytes());
        let line = reader
            .records()
            .next()
            .expect("a line")
            .expect("one length");
        assert_eq!(line.get(9), Some("'=grass-fed (12)"));
        assert_eq!(line.get(12), Some("-0.500"));
    }
}
