//! Which currency amounts are in.

use core::fmt;
use core::str::FromStr;

/// A currency by its code (ISO 4217): three capital letters. Amounts carry
/// none, since a plan has one for all of them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Currency([u8; 3]);

/// A text that is no code of a currency.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotACurrency;

impl fmt::Display for NotACurrency {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a currency is three capital letters, such as CAD")
    }
}

impl core::error::Error for NotACurrency {}

impl Currency {
    /// The code.
    pub fn code(self) -> String {
        self.0.into_iter().map(char::from).collect()
    }
}

impl FromStr for Currency {
    type Err = NotACurrency;

    fn from_str(code: &str) -> Result<Self, NotACurrency> {
        match code.as_bytes() {
            [first, second, third]
                if [first, second, third]
                    .iter()
                    .all(|letter| letter.is_ascii_uppercase()) =>
            {
                Ok(Self([*first, *second, *third]))
            }
            _ => Err(NotACurrency),
        }
    }
}

impl fmt::Display for Currency {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.code())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_code_is_three_capital_letters() {
        assert_eq!("CAD".parse::<Currency>().unwrap().code(), "CAD");
        for bad in ["", "cad", "CA", "CADS", "C$D", "CÄ"] {
            assert_eq!(bad.parse::<Currency>(), Err(NotACurrency), "{bad}");
        }
    }
}
