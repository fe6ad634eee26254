//! Why a document is refused.

use core::fmt;

use wording::say;

use crate::json_fault::JsonFault;
use crate::wrong::Wrong;

/// Why a document is refused. Each message says where and what would be right.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum DocumentError {
    /// Longer than any document can be.
    TooLong {
        /// Its size in bytes.
        bytes: usize,
    },
    /// Not JSON, or JSON of another shape.
    Malformed(JsonFault),
    /// JSON, but not a plan of this tool.
    NotAPlan,
    /// Made by a newer version of this tool.
    Newer {
        /// The document's version.
        version: u64,
    },
    /// An amount, id or name that cannot stand there.
    BadValue {
        /// Path of the field, such as `deal.weight`.
        at: String,
        /// What is wrong and what would be right.
        wrong: Wrong,
    },
}

impl DocumentError {
    /// What is wrong at a field, by its path.
    pub fn bad(at: impl Into<String>, wrong: Wrong) -> Self {
        Self::BadValue {
            at: at.into(),
            wrong,
        }
    }

    /// Path of the field that is at fault; empty where the document as a whole is.
    pub fn place(&self) -> &str {
        match self {
            Self::BadValue { at, .. } => at,
            _ => "",
        }
    }
}

impl From<serde_json::Error> for DocumentError {
    fn from(error: serde_json::Error) -> Self {
        Self::Malformed(error.into())
    }
}

impl fmt::Display for DocumentError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&match self {
            Self::TooLong { bytes } => say!(
                "The file has {bytes} bytes; a plan has {most} at most.",
                bytes,
                crate::LARGEST_BYTES
            ),
            Self::Malformed(fault) => {
                say!("The file cannot be read as a plan. {fault}", fault)
            }
            Self::NotAPlan => say!(
                "The file is not a plan of this tool: “format” must be “{format}”.",
                crate::format::FORMAT
            ),
            Self::Newer { version } => say!(
                "The plan has version {version}, this tool reads up to {newest}: open it with a newer Sideworth.",
                version,
                crate::VERSION
            ),
            Self::BadValue { at, wrong } => say!("{place}: {fault}", at, wrong),
        })
    }
}

impl core::error::Error for DocumentError {}

#[cfg(test)]
mod tests {
    use crate::{Document, LARGEST_BYTES};

    #[test]
    fn what_is_wrong_with_a_file_as_a_whole_is_said() {
        let newer = r#"{"format": "sideworth plan", "version": 7}"#;
        for (file, expected) in [
            (
                &*" ".repeat(LARGEST_BYTES + 1),
                "The file has 262145 bytes; a plan has 262144 at most.",
            ),
            (
                "{",
                "The file cannot be read as a plan. Line 1, column 1: the file is cut off here.",
            ),
            (
                "{}",
                "The file is not a plan of this tool: “format” must be “sideworth plan”.",
            ),
            (
                newer,
                "The plan has version 7, this tool reads up to 2: open it with a newer Sideworth.",
            ),
        ] {
            let error = Document::from_json(file).expect_err(expected);
            assert_eq!(error.to_string(), expected);
        }
    }
}
