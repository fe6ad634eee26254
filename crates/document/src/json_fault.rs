//! Why a text is not the JSON (RFC 8259) that it should be.

use core::fmt;

use serde_json::error::Category;
use wording::say;

/// Why a text is not the JSON that it should be, and where.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct JsonFault {
    /// Line, from 1.
    pub line: usize,
    /// Column, from 1; 0 where a line has just begun.
    pub column: usize,
    /// What is wrong there.
    pub what: JsonWrong,
}

/// What is wrong at a place of a JSON text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum JsonWrong {
    /// It breaks the rules of JSON.
    Syntax,
    /// It ends before it is whole.
    CutOff,
    /// It is JSON, but something is missing, unknown or of another kind.
    Content {
        /// What the reader says, in English: it names fields as the file does.
        says: String,
    },
}

impl From<serde_json::Error> for JsonFault {
    fn from(error: serde_json::Error) -> Self {
        let what = match error.classify() {
            Category::Syntax => JsonWrong::Syntax,
            Category::Eof => JsonWrong::CutOff,
            Category::Data | Category::Io => {
                let whole = error.to_string();
                // The place is told apart from it.
                let says = whole
                    .rsplit_once(" at line ")
                    .map(|(says, _)| says.to_owned());
                JsonWrong::Content {
                    says: says.unwrap_or(whole),
                }
            }
        };
        Self {
            line: error.line(),
            column: error.column(),
            what,
        }
    }
}

impl fmt::Display for JsonFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { line, column, what } = self;
        f.write_str(&match what {
            JsonWrong::Syntax => say!(
                "Line {line}, column {column}: this breaks the rules of JSON.",
                line,
                column
            ),
            JsonWrong::CutOff => say!(
                "Line {line}, column {column}: the file is cut off here.",
                line,
                column
            ),
            JsonWrong::Content { says } => say!(
                "Line {line}, column {column}: something is missing here or does not belong here (“{says}”).",
                line,
                column,
                says
            ),
        })
    }
}

impl core::error::Error for JsonFault {}

#[cfg(test)]
mod tests {
    use super::*;

    fn said(text: &str) -> String {
        let read: Result<[u32; 2], _> = serde_json::from_str(text);
        JsonFault::from(read.expect_err(text)).to_string()
    }

    #[test]
    fn each_kind_of_fault_is_said_with_its_place() {
        assert_eq!(
            said("[1,\n 2;3]"),
            "Line 2, column 3: this breaks the rules of JSON."
        );
        assert_eq!(
            said("[1,\n 2"),
            "Line 2, column 2: the file is cut off here."
        );
        assert_eq!(
            said("[1,\n \"2 at line 7\"]"),
            "Line 2, column 14: something is missing here or does not belong here \
             (“invalid type: string \"2 at line 7\", expected u32”)."
        );
    }
}
