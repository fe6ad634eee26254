//! Reading a data file line by line, with errors that name file and line.

use core::fmt;

use quantity::Decimal;

/// A data file: its name for messages, its text.
#[derive(Clone, Copy)]
pub(crate) struct DataFile {
    pub name: &'static str,
    pub text: &'static str,
}

/// What is wrong with a data file, and where.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DataError {
    /// Name of the file.
    pub file: &'static str,
    /// Line in the file, from 1; `None` where the file as a whole is meant.
    pub line: Option<u64>,
    /// What is wrong and what would be right.
    pub message: String,
}

impl fmt::Display for DataError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.line {
            Some(line) => write!(f, "{} line {line}: {}", self.file, self.message),
            None => write!(f, "{}: {}", self.file, self.message),
        }
    }
}

impl core::error::Error for DataError {}

/// One line of a data file.
pub(crate) struct Row {
    file: &'static str,
    pub line: u64,
    fields: csv::StringRecord,
    columns: &'static [&'static str],
}

/// The lines of `file`, whose header must be `columns`.
pub(crate) fn rows(
    file: DataFile,
    columns: &'static [&'static str],
) -> Result<Vec<Row>, DataError> {
    let mut reader = csv::ReaderBuilder::new()
        .trim(csv::Trim::All)
        .from_reader(file.text.as_bytes());
    let header = reader.headers().map_err(|error| from_csv(file, &error))?;
    if header.iter().ne(columns.iter().copied()) {
        return Err(DataError {
            file: file.name,
            line: Some(1),
            message: format!("the header must be “{}”", columns.join(",")),
        });
    }
    reader
        .records()
        .map(|record| {
            let fields = record.map_err(|error| from_csv(file, &error))?;
            Ok(Row {
                file: file.name,
                line: fields.position().map_or(0, csv::Position::line),
                fields,
                columns,
            })
        })
        .collect()
}

fn from_csv(file: DataFile, error: &csv::Error) -> DataError {
    DataError {
        file: file.name,
        line: error.position().map(csv::Position::line),
        message: match error.kind() {
            csv::ErrorKind::UnequalLengths {
                expected_len, len, ..
            } => format!("{len} fields where the header has {expected_len}"),
            _ => error.to_string(),
        },
    }
}

impl Row {
    /// An error about this line.
    pub fn error(&self, message: impl Into<String>) -> DataError {
        DataError {
            file: self.file,
            line: Some(self.line),
            message: message.into(),
        }
    }

    /// The text in `column`, which may be empty.
    pub fn text(&self, column: &str) -> &str {
        self.columns
            .iter()
            .position(|name| *name == column)
            .and_then(|index| self.fields.get(index))
            .unwrap_or_default()
    }

    /// The text in `column`, owned; `None` where it is empty.
    pub fn optional_text(&self, column: &str) -> Option<String> {
        Some(self.text(column))
            .filter(|text| !text.is_empty())
            .map(str::to_owned)
    }

    /// The text in `column`, which must not be empty.
    pub fn required(&self, column: &str) -> Result<String, DataError> {
        self.optional_text(column)
            .ok_or_else(|| self.error(format!("“{column}” is empty")))
    }

    /// The number in `column`; `None` where it is empty.
    pub fn optional_number(&self, column: &str) -> Result<Option<Decimal>, DataError> {
        let text = self.text(column);
        if text.is_empty() {
            return Ok(None);
        }
        match Decimal::from_str_exact(text) {
            Ok(number) if number.abs() <= quantity::typed::LARGEST => Ok(Some(number)),
            _ => Err(self.error(format!("“{column}” must be a plain number, not “{text}”"))),
        }
    }

    /// The number in `column`, which must be there.
    pub fn number(&self, column: &str) -> Result<Decimal, DataError> {
        self.optional_number(column)?
            .ok_or_else(|| self.error(format!("“{column}” is empty")))
    }

    /// The id in `column` looked up among `known`; an error lists what it was.
    pub fn reference(
        &self,
        column: &str,
        known: &std::collections::BTreeMap<String, usize>,
    ) -> Result<usize, DataError> {
        let id = self.text(column);
        known
            .get(id)
            .copied()
            .ok_or_else(|| self.error(format!("“{column}” names “{id}”, which is not defined")))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn error_of(text: &'static str) -> String {
        let file = DataFile {
            name: "test.csv",
            text,
        };
        match rows(file, &["id", "amount"]) {
            Err(error) => error.to_string(),
            Ok(rows) => rows
                .iter()
                .find_map(|row| row.number("amount").err())
                .expect("a faulty file")
                .to_string(),
        }
    }

    #[test]
    fn errors_name_file_and_line() {
        assert_eq!(
            error_of("id,size\n"),
            "test.csv line 1: the header must be “id,amount”"
        );
        assert_eq!(
            error_of("id,amount\na,1\nb\n"),
            "test.csv line 3: 1 fields where the header has 2"
        );
        assert_eq!(
            error_of("id,amount\na,1\nb,two\n"),
            "test.csv line 3: “amount” must be a plain number, not “two”"
        );
        assert_eq!(
            error_of("id,amount\na,\n"),
            "test.csv line 2: “amount” is empty"
        );
    }
}
