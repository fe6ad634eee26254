//! How numbers and money are written where the reader is.

use std::sync::RwLock;

/// Parts groups of three digits where no locale says otherwise; a narrow space,
/// as ISO 80000-1 has it, since a comma is a decimal sign to half of the world.
const GROUP_SPACE: &str = "\u{202f}";

/// How numbers and money are written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Manner {
    /// Parts the whole number from its decimals.
    pub decimal: String,
    /// Parts groups of three digits.
    pub group: String,
    /// The fewest digits of a whole number that is parted in groups.
    pub grouped_from: u8,
    /// What stands before an amount of money, with the space that belongs to it.
    pub before: String,
    /// What stands behind an amount of money, with the space that belongs to it.
    pub behind: String,
}

/// The manner in force; the default where none was set.
static IN_FORCE: RwLock<Option<Manner>> = RwLock::new(None);

impl Default for Manner {
    /// As where no locale says otherwise.
    fn default() -> Self {
        Self {
            decimal: ".".to_owned(),
            group: GROUP_SPACE.to_owned(),
            grouped_from: 5,
            before: "$".to_owned(),
            behind: String::new(),
        }
    }
}

impl Manner {
    /// As one line that [`Self::of_line`] reads, to be handed to a worker.
    pub fn to_line(&self) -> String {
        [
            self.decimal.as_str(),
            &self.group,
            &self.grouped_from.to_string(),
            &self.before,
            &self.behind,
        ]
        .join("\t")
    }

    /// What [`Self::to_line`] wrote.
    pub fn of_line(line: &str) -> Option<Self> {
        let mut columns = line.split('\t').map(str::to_owned);
        let mut next = || columns.next();
        Some(Self {
            decimal: next()?,
            group: next()?,
            grouped_from: next()?.parse().ok()?,
            before: next()?,
            behind: next()?,
        })
    }

    /// The sign of the currency alone.
    pub fn sign(&self) -> &str {
        match self.before.trim() {
            "" => self.behind.trim(),
            sign => sign,
        }
    }
}

/// Writes everything in this manner from now on.
pub fn write_by(manner: Manner) {
    if let Ok(mut in_force) = IN_FORCE.write() {
        *in_force = Some(manner);
    }
}

/// Lets `read` see the manner in force.
pub(crate) fn in_force<T>(read: impl FnOnce(&Manner) -> T) -> T {
    match IN_FORCE.read().as_deref() {
        Ok(Some(manner)) => read(manner),
        _ => read(&Manner::default()),
    }
}

/// The sign of the currency in force.
pub fn currency() -> String {
    in_force(|manner| manner.sign().to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_manner_travels_as_a_line() {
        let manner = Manner {
            decimal: ",".to_owned(),
            group: "\u{a0}".to_owned(),
            grouped_from: 4,
            before: String::new(),
            behind: "\u{a0}$".to_owned(),
        };
        assert_eq!(Manner::of_line(&manner.to_line()), Some(manner));
        assert_eq!(Manner::of_line(""), None);
        assert_eq!(Manner::of_line(".\t,\tmany\t$\t"), None);
    }

    #[test]
    fn the_sign_stands_on_either_side() {
        let euro = Manner {
            before: String::new(),
            behind: "\u{a0}€".to_owned(),
            ..Manner::default()
        };
        assert_eq!(euro.sign(), "€");
        assert_eq!(Manner::default().sign(), "$");
    }
}
