//! Links whose length and sum are right, over whatever the fuzzer makes of what
//! is in them: it would not guess a sum.

#![no_main]

use base64::Engine;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use libfuzzer_sys::{fuzz_mutator, fuzz_target, fuzzer_mutate};

const BEGINNING: &str = "s1.";

const CHECKSUM: usize = 4;

fuzz_target!(|bytes: &[u8]| link_fuzz::open(&String::from_utf8_lossy(bytes)));

fuzz_mutator!(
    |data: &mut [u8], size: usize, max_size: usize, _seed: u32| {
        let mut content = unsealed(&data[..size]).unwrap_or_default();
        let room = content_that_fits(max_size);
        let length = content.len().min(room);
        content.resize(room, 0);
        let changed = fuzzer_mutate(&mut content, length, room);
        let text = sealed(&content[..changed]);
        data[..text.len()].copy_from_slice(text.as_bytes());
        text.len()
    }
);

/// Bytes of content whose link is no longer than this: four letters for three
/// bytes, among them the sum and at most three of length.
fn content_that_fits(letters: usize) -> usize {
    (letters.saturating_sub(BEGINNING.len()) / 4 * 3).saturating_sub(CHECKSUM + 3)
}

/// The content of a link.
fn unsealed(text: &[u8]) -> Option<Vec<u8>> {
    let body = text.strip_prefix(BEGINNING.as_bytes())?;
    let all = URL_SAFE_NO_PAD.decode(body).ok()?;
    let end_of_length = all.iter().position(|byte| byte & 0x80 == 0)? + 1;
    let content = end_of_length..all.len().checked_sub(CHECKSUM)?;
    all.get(content).map(<[u8]>::to_vec)
}

/// A link with this content.
fn sealed(content: &[u8]) -> String {
    let mut all = Vec::new();
    let mut length = content.len();
    while length >= 0x80 {
        all.push(length as u8 | 0x80);
        length >>= 7;
    }
    all.push(length as u8);
    all.extend(content);
    let sum = crc32fast::hash(&all);
    all.extend(sum.to_le_bytes());
    let mut text = BEGINNING.to_owned();
    URL_SAFE_NO_PAD.encode_string(&all, &mut text);
    text
}
