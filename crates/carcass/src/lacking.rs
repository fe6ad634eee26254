//! What a batch of grind lacks, said in kilograms of trim to be bought or
//! added.
//!
//! Too little lean: what is left is too fat, and each kilogram of it that is
//! to go in needs lean beside it in the proportion of the Pearson square. Too
//! little fat: the batch is leaner than it need be.

use quantity::{Mass, Share};

use crate::blend::{Batch, Blend};
use crate::trim_row::TrimRow;

impl Batch {
    /// How many kilograms of a trim with the fat content `of` could be put to
    /// it before it reaches its limit: too little fat, said in trim. `None`
    /// where such a trim is within the limit itself and never too much.
    pub fn fat_lacking(&self, of: Share) -> Option<Mass> {
        let over = of - self.wanted.most_fat;
        if over <= Share::ZERO {
            return None;
        }
        let trim = self.fat_room().kg().checked_div(over.fraction());
        trim.map(Mass::from_kg)
    }
}

impl Blend {
    /// The least lean trim of the fat content `of` with which, and with what
    /// is left, `batch` would reach its wanted weight: too little lean, said
    /// in trim. Each batch is reckoned as if all that is left were for it.
    /// `None` where such a trim is not leaner than the limit.
    pub fn lean_lacking(&self, batch: &Batch, of: Share) -> Option<Mass> {
        let most = batch.wanted.most_fat;
        let under = most - of;
        if under <= Share::ZERO {
            return None;
        }
        let mut missing = batch.missing();
        let mut room = batch.fat_room();
        let mut lean = Mass::ZERO;
        for (_, trim) in TrimRow::of(&self.left).trims() {
            if !missing.is_positive() {
                break;
            }
            let over = trim.fat - most;
            let taken = trim.weight.min(missing);
            if over <= Share::ZERO || taken * over <= room {
                room = room - taken * over;
                missing = missing - taken;
                continue;
            }
            // First what the room takes without any lean, then fat and lean in
            // the proportion of the square.
            let free = Mass::from_kg(room.kg().checked_div(over.fraction())?);
            let beyond = missing - free;
            let of_both = (beyond * under)
                .kg()
                .checked_div((trim.fat - of).fraction())
                .map(Mass::from_kg)?;
            let there = trim.weight - free;
            if of_both <= there {
                return Some(lean + beyond - of_both);
            }
            let with = (there * over).kg().checked_div(under.fraction())?;
            let with = Mass::from_kg(with);
            lean += with;
            missing = beyond - there - with;
            room = Mass::ZERO;
        }
        Some(lean + missing)
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use quantity::Decimal;

    use super::*;
    use crate::blend::tests::{any_ledger, grams, kilograms, ledger, only, percent, wanted};
    use crate::blend::{RanOut, Wanted};
    use crate::fat_ledger::{FatLedger, Trim};

    #[test]
    fn too_little_lean_is_said_in_kilograms() {
        // 10 kg at 10 % make 12 kg of 20 % with 2 kg at 70 %. The 6 kg missing
        // are five parts of 10 % to one of 70 %: 5 kg.
        let blend = ledger(&[(10, 10), (20, 70)])
            .blend(&[wanted(20, Some(18))])
            .expect("sound");
        let batch = only(&blend);
        assert_eq!(batch.weight, kilograms(12));
        assert_eq!(batch.missing(), kilograms(6));
        assert_eq!(batch.ran_out, Some(RanOut::Lean));
        assert_eq!(blend.lean_lacking(batch, percent(10)), Some(kilograms(5)));
        assert_eq!(blend.lean_lacking(batch, percent(20)), None);
    }

    #[test]
    fn too_little_of_everything_is_said_in_kilograms() {
        // 10 kg at 10 % leave 1 kg of fat free under 20 %.
        let blend = ledger(&[(10, 10)])
            .blend(&[wanted(20, Some(15))])
            .expect("sound");
        let batch = only(&blend);
        assert_eq!(batch.ran_out, Some(RanOut::Trim));
        assert_eq!(batch.fat_lacking(percent(70)), Some(kilograms(2)));
        assert_eq!(batch.fat_lacking(percent(20)), None);
        assert_eq!(blend.lean_lacking(batch, percent(5)), Some(kilograms(5)));
    }

    proptest! {
        #[test]
        fn the_lean_that_lacks_brings_the_batch_to_its_weight(
            ledger in any_ledger(),
            most_fat in 2_i64..40,
            weight in 0_i64..90_000,
            lean in 0_i64..40,
        ) {
            let wanted = Wanted { most_fat: percent(most_fat), weight: Some(grams(weight)) };
            let blend = ledger.blend(&[wanted]).expect("sound");
            let lean = percent(lean.min(most_fat - 1));
            let lacking = blend.lean_lacking(only(&blend), lean).expect("leaner than the limit");
            let filled = |more: Mass| {
                let mut trims = ledger.trims().to_vec();
                trims.push(Trim { node: 0, weight: more, fat: lean });
                let ledger = FatLedger::new(trims).expect("sound trims");
                ledger.blend(&[wanted]).map(|blend| only(&blend).missing())
            };
            // A milligram more is enough; with a gram less something is missing.
            let milligram = Mass::from_kg(Decimal::new(1, 6));
            prop_assert_eq!(filled(lacking + milligram), Ok(Mass::ZERO));
            if lacking > grams(1) {
                prop_assert!(filled(lacking - grams(1)).expect("sound").is_positive());
            }
        }
    }
}
