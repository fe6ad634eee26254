//! The published tables in `tables/`, carried inside the test binary so that
//! a browser can read them as well.

use quantity::Decimal;

use crate::printed::number;

/// A published table: rows of text by column name.
pub struct Table {
    header: csv::StringRecord,
    rows: Vec<csv::StringRecord>,
}

/// One line of a table.
#[derive(Clone, Copy)]
pub struct Line<'a> {
    header: &'a csv::StringRecord,
    row: &'a csv::StringRecord,
}

impl Table {
    /// Reads the text of a file in `tables/`.
    ///
    /// # Panics
    /// When the file is not a well-formed table.
    pub fn read(text: &str) -> Self {
        let mut reader = csv::Reader::from_reader(text.as_bytes());
        let header = match reader.headers() {
            Ok(header) => header.clone(),
            Err(error) => panic!("a table without a header: {error}"),
        };
        let rows = match reader.records().collect() {
            Ok(rows) => rows,
            Err(error) => panic!("a faulty table: {error}"),
        };
        Self { header, rows }
    }

    /// Every line.
    pub fn lines(&self) -> impl Iterator<Item = Line<'_>> {
        self.rows.iter().map(|row| Line {
            header: &self.header,
            row,
        })
    }

    /// The sum of `column` over the lines that `wanted` picks.
    pub fn sum(&self, column: &str, wanted: impl Fn(Line<'_>) -> bool) -> Decimal {
        self.lines()
            .filter(|line| wanted(*line))
            .map(|line| line.number(column))
            .sum()
    }
}

impl<'a> Line<'a> {
    /// The text in `column`.
    ///
    /// # Panics
    /// When there is no such column.
    #[track_caller]
    pub fn text(self, column: &str) -> &'a str {
        match self.header.iter().position(|name| name == column) {
            Some(index) => self.row.get(index).unwrap_or_default(),
            None => panic!("no column “{column}”"),
        }
    }

    /// The number in `column`.
    ///
    /// # Panics
    /// When there is no such column or it holds no number.
    #[track_caller]
    pub fn number(self, column: &str) -> Decimal {
        number(self.text(column))
    }
}
