//! The shop's own yields as text, so that they can be kept and laid over the
//! published catalogue wherever figures are worked out.
//!
//! ```text
//! own-yields 1
//! w <way> <grain or grass> <share> <share> …
//! s <product> <coefficient of variation of its group>
//! a <standard deviation of the saleable share>
//! end
//! ```
//!
//! Shares are whole billionths, one for each output of the way in its order:
//! what is learnt is told to the billionth.

use core::fmt::Write as _;
use std::collections::BTreeSet;

use quantity::{Decimal, Rounding, Share};

use crate::catalogue::Catalogue;
use crate::own_yields::StockEnd;

/// The first line: what it is and the version.
const FIRST: &str = "own-yields 1";

/// The last line: a text that was cut short has none.
const LAST: &str = "end";

/// Decimal places of a share that is kept.
const PLACES: u32 = 9;

/// A share in billionths.
fn billionths(share: Share) -> Decimal {
    let fraction = Rounding::HalfEven.to_places(share.fraction(), PLACES);
    (fraction * Decimal::from(1_000_000_000)).normalize()
}

/// The share that a number of billionths stands for.
fn share(word: &str) -> Option<Share> {
    let billionths: i64 = word.parse().ok()?;
    Some(Share::from_fraction(Decimal::new(billionths, PLACES)))
}

impl StockEnd {
    const fn word(self) -> &'static str {
        match self {
            Self::Grain => "grain",
            Self::Grass => "grass",
        }
    }
}

impl Catalogue {
    /// What of the catalogue is the shop's own, held against the published
    /// catalogue that its own yields were laid over.
    pub fn own_text(&self, published: &Self) -> String {
        let mut text = FIRST.to_owned();
        for (_, way) in self.ways() {
            for end in StockEnd::BOTH.into_iter().filter(|end| way.own.at(*end)) {
                // Writing to a text cannot fail.
                let _ = write!(text, "\nw {} {}", way.id, end.word());
                for share in way.shares_at(end) {
                    let _ = write!(text, " {}", billionths(share));
                }
            }
        }
        // One product tells its group.
        let mut told = BTreeSet::new();
        for (id, product) in self.products() {
            if let Some(group) = self.spread_of(id)
                && published.spread_of(id).map(|group| group.cv) != Some(group.cv)
                && told.insert(product.variation)
            {
                let _ = write!(text, "\ns {} {}", product.id, billionths(group.cv));
            }
        }
        let (own, before) = (self.spread(), published.spread());
        if own.unknown.value != before.unknown.value {
            let _ = write!(text, "\na {}", billionths(own.unknown.value));
        }
        text.push('\n');
        text.push_str(LAST);
        text
    }

    /// Lays what [`Catalogue::own_text`] wrote over a published catalogue. What
    /// this catalogue does not have, or has otherwise, is left as published; a
    /// text that is not whole changes nothing.
    pub fn lay_own(&mut self, text: &str) {
        let Some(lines) = text
            .strip_prefix(FIRST)
            .and_then(|rest| rest.strip_suffix(LAST))
        else {
            return;
        };
        for line in lines.lines() {
            // What cannot be read stays as published: it is learnt anew from the
            // tests, which are kept by themselves.
            let _ = self.lay_line(line);
        }
    }

    fn lay_line(&mut self, line: &str) -> Option<()> {
        let mut words = line.split(' ');
        match words.next()? {
            "w" => {
                let way = self.way_id(words.next()?)?;
                let end = words.next()?;
                let end = StockEnd::BOTH.into_iter().find(|it| it.word() == end)?;
                let shares: Option<Vec<Share>> = words.map(share).collect();
                self.set_own_shares(way, end, &shares?).ok()
            }
            "s" => {
                let product = self.product_id(words.next()?)?;
                let cv = share(words.next()?).filter(|cv| cv.is_part_of_whole())?;
                self.set_own_group_spread(product, cv);
                Some(())
            }
            "a" => {
                let deviation = share(words.next()?).filter(|it| it.is_part_of_whole())?;
                self.set_own_saleable_spread(deviation);
                Some(())
            }
            _ => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use std::sync::LazyLock;

    use proptest::prelude::*;

    use super::*;
    use crate::catalogue::WayId;

    static PUBLISHED: LazyLock<Catalogue> =
        LazyLock::new(|| Catalogue::published().expect("published data"));

    /// The published catalogue with a hundredth moved from the first output of a
    /// way to its last, and another spread.
    fn own(way: WayId, end: StockEnd) -> Catalogue {
        let mut own = PUBLISHED.clone();
        let mut shares: Vec<Share> = own[way].shares_at(end).collect();
        let moved = (shares[0].fraction() / Decimal::from(64)).round_dp(9);
        let moved = Share::from_fraction(moved);
        shares[0] = shares[0] - moved;
        let last = shares.len() - 1;
        shares[last] = shares[last] + moved;
        own.set_own_shares(way, end, &shares).expect("a whole");
        let product = own.product_id("ribeye-steak").expect("a cut");
        own.set_own_group_spread(product, Share::from_fraction(Decimal::new(77, 3)));
        own.set_own_saleable_spread(Share::from_fraction(Decimal::new(33, 3)));
        own
    }

    fn same(a: &Catalogue, b: &Catalogue) {
        for ((_, a), (_, b)) in a.ways().zip(b.ways()) {
            assert_eq!(a.own, b.own);
            for end in StockEnd::BOTH {
                assert!(a.shares_at(end).eq(b.shares_at(end)), "{}", a.id);
            }
        }
        assert_eq!(a.spread().unknown.value, b.spread().unknown.value);
    }

    #[test]
    fn what_is_written_lays_the_same_yields() {
        let many: Vec<WayId> = PUBLISHED
            .ways()
            .filter(|(_, way)| way.outputs.len() > 1)
            .map(|(id, _)| id)
            .collect();
        assert!(many.len() > 20);
        for way in many {
            for end in StockEnd::BOTH {
                let own = own(way, end);
                let mut read = PUBLISHED.clone();
                read.lay_own(&own.own_text(&PUBLISHED));
                same(&own, &read);
            }
        }
    }

    #[test]
    fn nothing_own_lays_nothing() {
        let text = PUBLISHED.own_text(&PUBLISHED);
        assert_eq!(text, "own-yields 1\nend");
        let mut read = PUBLISHED.clone();
        read.lay_own(&text);
        same(&PUBLISHED, &read);
    }

    #[test]
    fn a_text_that_is_cut_short_changes_nothing() {
        let (way, _) = PUBLISHED.ways().next().expect("ways");
        let text = own(way, StockEnd::Grass).own_text(&PUBLISHED);
        for length in 0..text.len() {
            let mut read = PUBLISHED.clone();
            read.lay_own(&text[..length]);
            same(&PUBLISHED, &read);
        }
    }

    proptest! {
        #[test]
        fn no_text_makes_shares_that_are_no_whole(text in "[a-z0-9 .\n-]{0,200}") {
            let mut read = PUBLISHED.clone();
            read.lay_own(&format!("{FIRST}\n{text}\n{LAST}"));
            for (_, way) in read.ways() {
                for end in StockEnd::BOTH {
                    prop_assert_eq!(way.shares_at(end).sum::<Share>(), Share::WHOLE);
                }
            }
        }
    }
}
