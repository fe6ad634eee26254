//! A stamp that tells texts apart, by the Fowler–Noll–Vo hash (FNV-1a, 64 bits;
//! IETF draft-eastlake-fnv). It guards against nobody: a stamp that is met by
//! chance would only leave own yields as they were.

use core::fmt;

/// A stamp of all bytes that it was made with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Stamp(u64);

impl Default for Stamp {
    fn default() -> Self {
        Self(0xcbf2_9ce4_8422_2325)
    }
}

fn step(stamp: u64, byte: u8) -> u64 {
    (stamp ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3)
}

impl Stamp {
    /// With these bytes too, and with their end.
    pub(crate) fn with(self, bytes: &[u8]) -> Self {
        Self(step(bytes.iter().copied().fold(self.0, step), 0xff))
    }
}

impl fmt::Display for Stamp {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:016x}", self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Test vectors of the draft's appendix, from memory.
    #[test]
    fn it_is_the_hash_it_is_called() {
        assert_eq!(Stamp::default().0, 0xcbf2_9ce4_8422_2325);
        // Without the byte that marks the end.
        let plain = |bytes: &[u8]| bytes.iter().copied().fold(Stamp::default().0, step);
        assert_eq!(plain(b"a"), 0xaf63_dc4c_8601_ec8c);
        assert_eq!(plain(b"foobar"), 0x8594_4171_f739_67e8);
    }

    #[test]
    fn where_a_text_ends_counts() {
        let stamp = Stamp::default();
        assert_ne!(stamp.with(b"ab").with(b"c"), stamp.with(b"a").with(b"bc"));
        assert_ne!(stamp.with(b""), stamp);
    }
}
