//! Text in the cells of a spreadsheet, which runs one that begins with `=`, `+`,
//! `-`, `@`, a tab or a line break as a formula (OWASP, *CSV Injection*). Such
//! cells get an apostrophe in front, as do cells that begin with one, so that
//! taking one off gives back what was there.

/// What stands before a text that a spreadsheet must not run.
const GUARD: char = '\'';

fn needs_guard(text: &str) -> bool {
    text.starts_with(['=', '+', '-', '@', '\t', '\r', '\n', GUARD])
}

/// A text as it stands in a cell.
pub fn guarded(text: &str) -> String {
    if needs_guard(text) {
        format!("{GUARD}{text}")
    } else {
        text.to_owned()
    }
}

/// The text of a cell.
pub fn without_guard(text: &str) -> &str {
    match text.strip_prefix(GUARD) {
        Some(behind) if needs_guard(behind) => behind,
        _ => text,
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn a_formula_is_only_text_to_a_spreadsheet() {
        for formula in ["=1+1", "+1", "-1", "@sum", "\t=1", "\r=1", "\n=1"] {
            assert_eq!(guarded(formula), format!("'{formula}"));
        }
        assert_eq!(guarded("Inside round"), "Inside round");
        assert_eq!(without_guard("'round"), "'round");
    }

    proptest! {
        #[test]
        fn taking_the_guard_off_gives_back_any_text(text in "['=+@\t\r\n-]{0,3}.{0,5}") {
            let guarded = guarded(&text);
            prop_assert_eq!(without_guard(&guarded), &text);
            prop_assert!(!guarded.starts_with(['=', '+', '-', '@', '\t', '\r', '\n']));
        }
    }
}
