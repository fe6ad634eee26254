//! Why a document is refused.

use core::fmt;

/// Why a document is refused. Each message says where and what would be right.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum DocumentError {
    /// Longer than any document can be.
    TooLong {
        /// Its size in bytes.
        bytes: usize,
    },
    /// Not JSON, or JSON of another shape.
    Malformed {
        /// Line, from 1.
        line: usize,
        /// Column, from 1.
        column: usize,
        /// What the reader says.
        message: String,
    },
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
        message: String,
    },
}

impl DocumentError {
    /// What is wrong at a field, by its path.
    pub fn bad(at: impl Into<String>, message: impl fmt::Display) -> Self {
        Self::BadValue {
            at: at.into(),
            message: message.to_string(),
        }
    }
}

impl From<serde_json::Error> for DocumentError {
    fn from(error: serde_json::Error) -> Self {
        Self::Malformed {
            line: error.line(),
            column: error.column(),
            message: error.to_string(),
        }
    }
}

impl fmt::Display for DocumentError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooLong { bytes } => write!(
                f,
                "The file has {bytes} bytes; a plan has {} at most.",
                crate::LARGEST_BYTES
            ),
            Self::Malformed { message, .. } => {
                write!(f, "The file cannot be read as a plan: {message}.")
            }
            Self::NotAPlan => write!(
                f,
                "The file is not a plan of this tool: “format” must be “{}”.",
                crate::format::FORMAT
            ),
            Self::Newer { version } => write!(
                f,
                "The plan has version {version}, this tool reads up to {}: open it with a newer Sideworth.",
                crate::VERSION
            ),
            Self::BadValue { at, message } => write!(f, "{at}: {message}"),
        }
    }
}

impl core::error::Error for DocumentError {}
