//! Any text behind the `#` of an address.

#![no_main]

use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| link_fuzz::open(&String::from_utf8_lossy(bytes)));
