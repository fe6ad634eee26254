//! What a link costs that was made to cost much. The only test of its program,
//! since it counts the memory of all of it.

mod sealing;

use draft::Draft;
use link::{LinkError, read};
use peak_alloc::PeakAlloc;

use sealing::{BEGINNING, PRICES, number, pair, sealed};

#[global_allocator]
static MEMORY: PeakAlloc = PeakAlloc;

/// Bytes that opening a link may take at a time, whatever it says.
const MOST: usize = 2 * 1024 * 1024;

/// As much content as fits into a link.
const ROOM: usize = 12 * 1024 - 16;

/// A content that is one thing again and again.
fn full_of(thing: impl Fn(usize) -> Vec<u8>) -> String {
    let mut content = vec![PRICES];
    for index in 0.. {
        let next = thing(index);
        if content.len() + next.len() > ROOM {
            break;
        }
        content.extend(next);
    }
    sealed(&content)
}

#[test]
fn no_link_takes_much_memory() {
    // Two words, the second of them among the longest, in four bytes each.
    let long_names = |index: usize| {
        let (beginning, word) = (42 + index % 12, 56 + index / 12 % 260);
        let place = |place: usize| number(place as u64);
        [place(beginning), place(word), vec![0x1f, 0]].concat()
    };
    let links = [
        ("long names", full_of(long_names)),
        ("one name", full_of(|_| vec![13, 16, 0])),
        (
            "short names",
            full_of(|index| pair(&format!("way.{index}"), "")),
        ),
        (
            "one long text",
            sealed(&[vec![PRICES], pair("draft.plan", &"&".repeat(ROOM - 20))].concat()),
        ),
        (
            "one megabyte",
            format!("{BEGINNING}{}", "A".repeat(1_000_000)),
        ),
    ];
    let before = Draft::default();
    for (what, text) in links {
        let used = MEMORY.current_usage();
        MEMORY.reset_peak_usage();
        let read = read(&text);
        let opened = read.as_ref().map(|shared| shared.onto(&before));
        let peak = MEMORY.peak_usage().saturating_sub(used);
        println!("{what}: {} letters, at most {peak} bytes", text.len());
        assert!(peak < MOST, "{what}: {peak} bytes");
        match read {
            Ok(_) => assert!(matches!(opened, Ok(Some(_)))),
            Err(why) => assert_eq!((what, why), ("one megabyte", LinkError::TooLong)),
        }
    }
}
