//! No text in any field and no button, known or not, stops the ledger.

use proptest::prelude::*;

use crate::sides::{Side, page_with};

const VIEWS: [&str; 6] = [
    "weigh-in", "tests", "yields", "standing", "record", "bought",
];

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn any_text_anywhere_is_answered(
        typed in prop::collection::vec("\\PC{0,16}", 1..6),
        pressed in "([a-z]{1,9}(-[a-z]{1,9})?( \\PC{0,9})?|\\PC{0,16})",
        view in 0_usize..6,
    ) {
        let mut page = page_with([Side::default()]);
        page.press(&format!("view {}", VIEWS[view]));
        let names: Vec<String> = page
            .piece
            .lines()
            .filter_map(|line| line.strip_prefix("=data-entry "))
            .map(str::to_owned)
            .collect();
        let buttons: Vec<String> = page
            .piece
            .lines()
            .filter_map(|line| line.strip_prefix("=data-writes "))
            .map(str::to_owned)
            .collect();
        for (name, text) in names.iter().zip(typed.iter().cycle()) {
            page.type_into(name, text);
        }
        page.press(&pressed);
        for button in &buttons {
            page.press(button);
            prop_assert!(!page.piece.is_empty());
        }
    }
}
