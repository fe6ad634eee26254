//! Lot codes by the shop's own scheme.
//!
//! A scheme is a text with names in braces that the tag and the cut fill in:
//! `{received}-{lot}-{item}` makes `20260309-A17-112A`. What is not known leaves
//! nothing behind.

use core::fmt;

use carcass::{Catalogue, ProductId};
use pricing::CalendarDate;
use wording::{say, text};

use crate::tag::{Half, Tag};

/// The most characters of a scheme, and of a code.
pub const LONGEST: usize = 60;

/// What lots are told apart by: whoever types a code minds neither its case nor
/// the blanks around it.
pub fn lot_key(code: &str) -> String {
    code.trim().to_lowercase()
}

/// Something that a tag or a cut fills in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Slot {
    Lot,
    Killed,
    Received,
    Half,
    Cut,
    Item,
}

impl Slot {
    const ALL: [(Self, &'static str); 6] = [
        (Self::Lot, "lot"),
        (Self::Killed, "killed"),
        (Self::Received, "received"),
        (Self::Half, "half"),
        (Self::Cut, "cut"),
        (Self::Item, "item"),
    ];

    /// As it stands in a scheme.
    fn written(self) -> String {
        let known = Self::ALL.iter().find(|(slot, _)| *slot == self);
        format!("{{{}}}", known.map_or("", |(_, name)| name))
    }
}

#[derive(Clone, Debug, PartialEq, Eq)]
enum Piece {
    Text(String),
    Slot(Slot),
}

/// How lot codes are made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LotScheme {
    pieces: Vec<Piece>,
}

/// Why a text is no scheme.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum SchemeError {
    /// Longer than a scheme can be.
    TooLong,
    /// A brace without its other one.
    OpenBrace,
    /// A name in braces that nothing fills in.
    Unknown {
        /// The name.
        name: String,
    },
    /// It leaves the lot number out, so that no code leads back to its side.
    NoLot,
    /// A blank or a control character, which gets lost on a label.
    Blank,
}

impl fmt::Display for SchemeError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let lot = Slot::Lot.written();
        f.write_str(&match self {
            Self::TooLong => say!("A scheme has at most {most} characters.", LONGEST),
            Self::OpenBrace => say!("A brace stands alone: write {lot}.", lot),
            Self::Unknown { name } => say!(
                "“{name}” is not known. Known are {names}.",
                format_args!("{{{name}}}"),
                LotScheme::slots()
            ),
            Self::NoLot => say!(
                "The scheme needs {lot}, or no code leads back to its side.",
                lot
            ),
            Self::Blank => {
                text!("A scheme has no blanks: use - or / between its parts.").to_owned()
            }
        })
    }
}

impl core::error::Error for SchemeError {}

impl Default for LotScheme {
    /// `{received}-{lot}-{cut}`.
    fn default() -> Self {
        let dash = || Piece::Text("-".to_owned());
        Self {
            pieces: vec![
                Piece::Slot(Slot::Received),
                dash(),
                Piece::Slot(Slot::Lot),
                dash(),
                Piece::Slot(Slot::Cut),
            ],
        }
    }
}

impl core::str::FromStr for LotScheme {
    type Err = SchemeError;

    fn from_str(text: &str) -> Result<Self, SchemeError> {
        if text.chars().count() > LONGEST {
            return Err(SchemeError::TooLong);
        }
        if text.contains(|letter: char| letter.is_whitespace() || letter.is_control()) {
            return Err(SchemeError::Blank);
        }
        let mut pieces = Vec::new();
        let mut rest = text;
        while let Some(at) = rest.find(['{', '}']) {
            let (before, from) = rest.split_at(at);
            if !before.is_empty() {
                pieces.push(Piece::Text(before.to_owned()));
            }
            let inside = from.strip_prefix('{').ok_or(SchemeError::OpenBrace)?;
            let (name, behind) = inside.split_once('}').ok_or(SchemeError::OpenBrace)?;
            let (slot, _) = Slot::ALL
                .into_iter()
                .find(|(_, known)| *known == name)
                .ok_or_else(|| SchemeError::Unknown {
                    name: name.to_owned(),
                })?;
            pieces.push(Piece::Slot(slot));
            rest = behind;
        }
        if !rest.is_empty() {
            pieces.push(Piece::Text(rest.to_owned()));
        }
        if pieces.contains(&Piece::Slot(Slot::Lot)) {
            Ok(Self { pieces })
        } else {
            Err(SchemeError::NoLot)
        }
    }
}

impl fmt::Display for LotScheme {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for piece in &self.pieces {
            match piece {
                Piece::Text(text) => f.write_str(text)?,
                Piece::Slot(slot) => f.write_str(&slot.written())?,
            }
        }
        Ok(())
    }
}

impl LotScheme {
    /// The names in braces that a scheme can have, with a blank between them.
    pub fn slots() -> String {
        Slot::ALL.map(|(slot, _)| slot.written()).join(" ")
    }

    /// Whether two cuts of one side never have the same code, as far as their ids
    /// fit in.
    pub fn tells_cuts_apart(&self) -> bool {
        self.pieces.contains(&Piece::Slot(Slot::Cut))
    }

    /// The code of a cut of a side, without blanks and at most [`LONGEST`]
    /// characters long.
    pub fn code(&self, catalogue: &Catalogue, tag: &Tag, product: ProductId) -> String {
        let day = |date: Option<CalendarDate>| {
            date.map_or_else(String::new, |date| date.to_string().replace('-', ""))
        };
        let product = &catalogue[product];
        let code: String = self
            .pieces
            .iter()
            .map(|piece| match piece {
                Piece::Text(text) => text.clone(),
                Piece::Slot(Slot::Lot) => tag.lot.clone(),
                Piece::Slot(Slot::Killed) => day(tag.killed),
                Piece::Slot(Slot::Received) => day(tag.received),
                Piece::Slot(Slot::Half) => match tag.half {
                    Half::Untold => String::new(),
                    Half::Left => "L".to_owned(),
                    Half::Right => "R".to_owned(),
                },
                Piece::Slot(Slot::Cut) => product.id.clone(),
                Piece::Slot(Slot::Item) => product.item.clone().unwrap_or_default(),
            })
            .collect();
        code.chars()
            .filter(|letter| !letter.is_whitespace() && !letter.is_control())
            .take(LONGEST)
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::any_side::CATALOGUE;

    fn tag() -> Tag {
        Tag {
            lot: "A 17".to_owned(),
            received: "2026-03-09".parse().ok(),
            half: Half::Right,
            ..Tag::default()
        }
    }

    #[test]
    fn a_scheme_is_filled_in_from_tag_and_cut() {
        let product = CATALOGUE.product_id("ribeye-roast").expect("a product");
        for (scheme, code) in [
            ("{lot}", "A17"),
            ("{received}-{lot}-{cut}", "20260309-A17-ribeye-roast"),
            ("S/{lot}{half}/{item}", "S/A17R/112A"),
            ("{killed}{lot}", "A17"),
        ] {
            let read: LotScheme = scheme.parse().expect(scheme);
            assert_eq!(read.to_string(), scheme);
            assert_eq!(read.code(&CATALOGUE, &tag(), product), code);
        }
        assert!(LotScheme::default().tells_cuts_apart());
        assert_eq!(LotScheme::default().to_string(), "{received}-{lot}-{cut}");
    }

    #[test]
    fn what_is_no_scheme_is_told() {
        let error = |text: &str| text.parse::<LotScheme>().expect_err(text);
        assert_eq!(error("{received}"), SchemeError::NoLot);
        assert_eq!(error("{lot"), SchemeError::OpenBrace);
        assert_eq!(error("lot}"), SchemeError::OpenBrace);
        assert_eq!(error("{lot} {cut}"), SchemeError::Blank);
        assert_eq!(error(&"x".repeat(61)), SchemeError::TooLong);
        let unknown = error("{lot}{moon}").to_string();
        assert!(unknown.contains("“{moon}”") && unknown.contains("{received}"));
        assert!(error("lot}").to_string().contains("write {lot}"));
        let name = "moon".to_owned();
        assert_eq!(error("{lot}{moon}"), SchemeError::Unknown { name });
    }

    proptest! {
        #[test]
        fn no_scheme_panics_and_a_code_fits_a_label(scheme in "[a-z{}-]{0,20}(\\{lot\\})?", lot in "\\PC{0,90}") {
            if let Ok(scheme) = scheme.parse::<LotScheme>() {
                let product = CATALOGUE.product_id("ribeye-roast").expect("a product");
                let code = scheme.code(&CATALOGUE, &Tag { lot, ..tag() }, product);
                prop_assert!(code.chars().count() <= LONGEST);
                prop_assert!(!code.contains(char::is_whitespace));
            }
        }
    }
}
