//! Bytes read one after the other, numbers among them.

/// What has not been read yet.
pub struct Bytes<'a>(&'a [u8]);

impl<'a> Bytes<'a> {
    /// All of them.
    pub const fn new(bytes: &'a [u8]) -> Self {
        Self(bytes)
    }

    /// Whether all is read.
    pub const fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// What is left.
    pub const fn rest(&self) -> &'a [u8] {
        self.0
    }

    /// The next byte.
    pub fn byte(&mut self) -> Option<u8> {
        let (first, rest) = self.0.split_first()?;
        self.0 = rest;
        Some(*first)
    }

    /// The next `count` bytes.
    pub fn take(&mut self, count: usize) -> Option<&'a [u8]> {
        let (taken, rest) = self.0.split_at_checked(count)?;
        self.0 = rest;
        Some(taken)
    }

    /// The next number (LEB128), where it fits.
    pub fn number(&mut self) -> Option<u64> {
        let mut number = 0_u64;
        for place in 0..10_u32 {
            let byte = self.byte()?;
            let bits = u64::from(byte & 0x7f);
            if place == 9 && bits > 1 {
                return None;
            }
            number |= bits << (7 * place);
            if byte & 0x80 == 0 {
                return Some(number);
            }
        }
        None
    }
}

/// Writes a number (LEB128).
pub fn push_number(bytes: &mut Vec<u8>, mut number: u64) {
    loop {
        let low = u8::try_from(number & 0x7f).unwrap_or_default();
        number >>= 7;
        if number == 0 {
            bytes.push(low);
            return;
        }
        bytes.push(low | 0x80);
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        #[test]
        fn every_number_comes_back(number: u64, after: u8) {
            let mut bytes = Vec::new();
            push_number(&mut bytes, number);
            bytes.push(after);
            let mut reader = Bytes::new(&bytes);
            prop_assert_eq!(reader.number(), Some(number));
            prop_assert_eq!(reader.rest(), [after]);
        }
    }

    #[test]
    fn a_number_that_does_not_fit_is_none() {
        assert_eq!(Bytes::new(&[0xff; 11]).number(), None);
        assert_eq!(Bytes::new(&[0xff; 3]).number(), None);
        assert_eq!(Bytes::new(&[]).number(), None);
    }
}
