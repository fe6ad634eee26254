//! Which line of a file a fault is on, as an editor counts lines.

/// Which line of the file a record begins on. The parser's own count stops
/// before the empty lines that it passes over.
pub(super) struct LineCount<'text> {
    rest: &'text [u8],
    passed: u64,
    line: u64,
}

impl<'text> LineCount<'text> {
    /// The count at the head of `text`.
    pub const fn new(text: &'text str) -> Self {
        Self {
            rest: text.as_bytes(),
            passed: 0,
            line: 1,
        }
    }

    /// The line, from 1, of the first text at or behind `byte`.
    pub fn at(&mut self, byte: u64) -> u64 {
        while let [first, rest @ ..] = self.rest
            && (self.passed < byte || matches!(first, b'\r' | b'\n'))
        {
            if *first == b'\n' || (*first == b'\r' && rest.first() != Some(&b'\n')) {
                self.line += 1;
            }
            self.rest = rest;
            self.passed += 1;
        }
        self.line
    }
}
