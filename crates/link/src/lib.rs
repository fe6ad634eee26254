//! A plan in the text of a link: all of it stands behind the `#` of an address,
//! which a browser keeps to itself.
//!
//! The text is `s1.` and then bytes in base64url without padding (RFC 4648,
//! section 5):
//!
//! | bytes | what they are |
//! |---|---|
//! | a number | how many bytes come after it |
//! | one byte | the [`Scope`] |
//! | pairs | name and value of everything that the scope takes in, see [`mod@pair`] |
//! | four bytes | CRC-32 (ISO-HDLC) of all bytes before them, low byte first |
//!
//! A pair `told.margin` is no part of the plan: it is the margin that whoever made
//! the link saw, in percent, so that whoever opens it can tell whether they reckon
//! with the same yields.
//!
//! Numbers are written seven bits a byte, low bits first, with the high bit set
//! in all but the last (LEB128). Words, such as the ids of cuts, are written as
//! their places in `data/words.txt`, to which words are only ever added: a link
//! of any released version is read the same for good.

#![forbid(unsafe_code)]

mod bytes;
pub mod pair;
mod scope;
mod words;

use core::fmt;
use wording::text;

use base64::Engine;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use draft::Draft;
use form_urlencoded::Serializer;

use bytes::Bytes;
use pair::{read_pair, write_pair};
pub use scope::Scope;

/// What the text of a link begins with: its kind and version.
const BEGINNING: &str = "s1.";

/// The kind alone.
const KIND: char = 's';

/// The longest text that is looked at. A draft with every field typed in is
/// less than half as long.
const LONGEST: usize = 16 * 1024;

/// Bytes of the checksum.
const CHECKSUM: usize = 4;

/// Why a link is not opened.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LinkError {
    /// It is longer than any plan.
    TooLong,
    /// It is no link to a plan.
    NotAPlan,
    /// A newer version of the app made it.
    Newer,
    /// Its end is missing.
    Incomplete,
    /// It was changed on its way.
    Damaged,
}

impl fmt::Display for LinkError {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str(match self {
            Self::TooLong => text!("This link is far longer than any plan. Nothing of it was read."),
            Self::NotAPlan => text!("This link holds no plan."),
            Self::Newer => {
                text!("This link was made by a newer version of the app. Reload the page to get it, then open the link again.")
            }
            Self::Incomplete => {
                text!("This link is incomplete: its end is missing. Ask for it again, and copy the whole of it.")
            }
            Self::Damaged => text!("This link was changed on its way and cannot be read. Ask for it again."),
        })
    }
}

impl core::error::Error for LinkError {}

/// What a link holds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Shared {
    /// What was meant to go in.
    pub scope: Scope,
    /// The margin that whoever made the link saw, in percent, with one decimal; where
    /// the link tells it.
    pub margin: Option<String>,
    /// Names and values, as a draft is kept.
    pairs: Vec<(String, String)>,
}

/// The text of a link to as much of a draft as the scope takes in.
pub fn write(draft: &Draft, scope: Scope) -> String {
    write_telling(draft, scope, None)
}

/// The same with the margin that it is sent with, in percent, as
/// [`Shared::margin`] has it.
pub fn write_telling(draft: &Draft, scope: Scope, margin: Option<&str>) -> String {
    let mut content = vec![scope.byte()];
    for (name, value) in pairs(&draft.to_text()) {
        if scope.takes(&name) {
            write_pair(&mut content, &name, &value);
        }
    }
    // What leaves something out is seen with another margin by everyone.
    if let Some(margin) = margin.filter(|text| scope == Scope::Prices && is_percent(text)) {
        write_pair(&mut content, MARGIN, margin);
    }
    let mut all = Vec::new();
    bytes::push_number(&mut all, content.len() as u64);
    all.extend(content);
    let checksum = crc32fast::hash(&all);
    all.extend(checksum.to_le_bytes());
    let mut text = BEGINNING.to_owned();
    URL_SAFE_NO_PAD.encode_string(&all, &mut text);
    text
}

/// What the text of a link holds.
///
/// # Errors
/// When it cannot be read; the error says why in words for a person.
pub fn read(text: &str) -> Result<Shared, LinkError> {
    if text.len() > LONGEST {
        return Err(LinkError::TooLong);
    }
    let body = body(text)?;
    // A letter of the last group may be missing; what is whole before it tells
    // how much should be there.
    let whole = URL_SAFE_NO_PAD.decode(body).or_else(|_| {
        let group = body.len() / 4 * 4;
        let head = body.get(..group).unwrap_or_default();
        URL_SAFE_NO_PAD.decode(head)
    });
    let all = whole.map_err(|_| LinkError::Damaged)?;
    let mut reader = Bytes::new(&all);
    let length = reader.number().ok_or(LinkError::Incomplete)?;
    let length = usize::try_from(length).map_err(|_| LinkError::Damaged)?;
    let rest = reader.rest();
    let wanted = length.checked_add(CHECKSUM).ok_or(LinkError::Damaged)?;
    if wanted > LONGEST {
        return Err(LinkError::Damaged);
    }
    if rest.len() < wanted {
        return Err(LinkError::Incomplete);
    }
    let sum_at = all.len() - CHECKSUM;
    let (summed, checksum) = all.split_at(sum_at);
    if rest.len() > wanted || crc32fast::hash(summed).to_le_bytes() != checksum {
        return Err(LinkError::Damaged);
    }
    let mut reader = Bytes::new(rest.get(..length).unwrap_or_default());
    let scope = reader
        .byte()
        .and_then(Scope::of_byte)
        .ok_or(LinkError::Newer)?;
    let mut pairs = Vec::new();
    let mut margin = None;
    while !reader.is_empty() {
        // The sum is right, so what is not known is of a newer version.
        let (name, value) = read_pair(&mut reader).ok_or(LinkError::Newer)?;
        let is_whole = scope == Scope::Prices;
        if name == MARGIN && is_whole && margin.is_none() && is_percent(&value) {
            margin = Some(value);
        } else if name != MARGIN && scope.takes(&name) {
            pairs.push((name, value));
        } else {
            return Err(LinkError::Damaged);
        }
    }
    let shared = Shared {
        scope,
        margin,
        pairs,
    };
    match shared.onto(&Draft::default()) {
        Some(_) => Ok(shared),
        None => Err(LinkError::Newer),
    }
}

fn body(text: &str) -> Result<&str, LinkError> {
    if let Some(body) = text.strip_prefix(BEGINNING) {
        return Ok(body);
    }
    if !text.is_empty() && BEGINNING.starts_with(text) {
        return Err(LinkError::Incomplete);
    }
    let version = text
        .strip_prefix(KIND)
        .and_then(|rest| rest.split_once('.'))
        .and_then(|(version, _)| version.parse::<u32>().ok());
    match version {
        Some(version) if version > 1 => Err(LinkError::Newer),
        _ => Err(LinkError::NotAPlan),
    }
}

impl Shared {
    /// A draft with what the link holds in place of its own; what the link was
    /// not meant to hold stays. `None` where it would be no draft.
    pub fn onto(&self, draft: &Draft) -> Option<Draft> {
        let kept = pairs(&draft.to_text());
        let mut text = Serializer::new(String::new());
        let tells_currency = self.pairs.iter().any(|(name, _)| name == CURRENCY);
        let stays = |name: &str| {
            // Amounts of no currency are in that of whoever opens them.
            !self.scope.takes(name) || (name == CURRENCY && !tells_currency)
        };
        text.extend_pairs(kept.iter().filter(|(name, _)| stays(name)));
        text.extend_pairs(self.pairs.iter());
        Draft::of_text(&text.finish())
    }
}

/// The name of the margin that was told.
const MARGIN: &str = "told.margin";

/// Whether a text can be a margin in percent with one decimal.
fn is_percent(text: &str) -> bool {
    let amount = text.strip_prefix('-').unwrap_or(text);
    let (whole, tenths) = amount.split_once('.').unwrap_or((amount, "0"));
    let is_number = |digits: &str, most: usize| {
        (1..=most).contains(&digits.len()) && digits.bytes().all(|it| it.is_ascii_digit())
    };
    is_number(whole, 9) && is_number(tenths, 1)
}

/// The name of the currency in a kept draft.
const CURRENCY: &str = "draft.currency";

/// Names and values of a kept draft.
fn pairs(text: &str) -> Vec<(String, String)> {
    form_urlencoded::parse(text.as_bytes())
        .into_owned()
        .collect()
}
