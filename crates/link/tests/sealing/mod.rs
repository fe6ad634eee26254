//! Links whose length and sum are right, whatever is in them.

use base64::Engine;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;

/// Before the body of a link.
pub const BEGINNING: &str = "s1.";

/// A scope that takes everything in.
pub const PRICES: u8 = 4;

/// Bytes as a link, right or not.
pub fn link_of(bytes: &[u8]) -> String {
    format!("{BEGINNING}{}", URL_SAFE_NO_PAD.encode(bytes))
}

/// A link with this content.
pub fn sealed(content: &[u8]) -> String {
    let mut bytes = number(content.len() as u64);
    bytes.extend(content);
    let sum = crc32fast::hash(&bytes);
    bytes.extend(sum.to_le_bytes());
    link_of(&bytes)
}

/// A number, seven bits a byte, low bits first.
pub fn number(mut left: u64) -> Vec<u8> {
    let mut bytes = Vec::new();
    while left >= 0x80 {
        bytes.push(left.to_le_bytes()[0] | 0x80);
        left >>= 7;
    }
    bytes.push(left.to_le_bytes()[0]);
    bytes
}

/// A name and a value, both as texts.
pub fn pair(name: &str, value: &str) -> Vec<u8> {
    let text = |text: &str| [&*number(text.len() as u64), text.as_bytes()].concat();
    [vec![0], text(name), vec![0], text(value)].concat()
}
