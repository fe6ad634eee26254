//! What never turns into money between the block and the till.

use quantity::{Decimal, Share};

/// Losses of one cut between the block and the till.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct SaleLoss {
    /// Weight lost as drip in the pack (vacuum purge is usually 1–2 %).
    pub purge: Share,
    /// Share of what is left that is never sold.
    pub unsold: Share,
    /// Share of what is left that is sold marked down.
    pub marked_down: Share,
    /// How much is taken off the price of that share.
    pub discount: Share,
}

impl SaleLoss {
    /// The share of the full value of the cut weight that is taken in:
    /// `(1 − purge) · (1 − unsold − marked down · discount)`.
    pub fn kept(self) -> Share {
        let lost = self.unsold + self.marked_down * self.discount;
        self.purge.complement() * lost.complement()
    }

    /// Whether every share is one and something is left to sell at full price
    /// or marked down.
    pub fn is_sound(self) -> bool {
        let is_share = |share: Share| share.is_part_of_whole();
        is_share(self.purge)
            && is_share(self.discount)
            && is_share(self.unsold)
            && is_share(self.marked_down)
            && self.unsold + self.marked_down <= Share::WHOLE
            && self.kept().fraction() > Decimal::ZERO
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn percent(percent: i64) -> Share {
        Share::from_percent(Decimal::from(percent))
    }

    #[test]
    fn losses_follow_one_another() {
        let loss = SaleLoss {
            purge: percent(2),
            unsold: percent(5),
            marked_down: percent(10),
            discount: percent(30),
        };
        // 0.98 × (1 − 0.05 − 0.03)
        assert_eq!(loss.kept().fraction(), Decimal::new(9016, 4));
        assert!(loss.is_sound());
        assert_eq!(SaleLoss::default().kept(), Share::WHOLE);
    }

    #[test]
    fn nothing_left_and_more_than_all_are_unsound() {
        let mut loss = SaleLoss {
            unsold: Share::WHOLE,
            ..SaleLoss::default()
        };
        assert!(!loss.is_sound());
        loss.unsold = percent(60);
        loss.marked_down = percent(60);
        assert!(!loss.is_sound());
    }
}
