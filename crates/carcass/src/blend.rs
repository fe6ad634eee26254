//! Blending trims to grind of a wanted fat content, by mass balance.
//!
//! Two trims meet a fat content `T` in the proportion of the Pearson square,
//! `lean share = (F_fat − T) ⁄ (F_fat − F_lean)`. Many trims are blended batch
//! by batch, in the order in which the batches are asked for:
//!
//! 1. The most that can be made under the limit `T` takes every trim up to
//!    `T`, whose spare room for fat is `Σ w · (T − f)`, and then the next
//!    fatter trims, leanest first, until that room is used up.
//! 2. Of the wanted weight, or that most where it is less, the batch is cut
//!    from the trims laid out from the leanest to the fattest: one unbroken
//!    stretch of that weight, as far to the fat end as its mean stays within
//!    `T`.
//!
//! No other choice of the same weight leaves trims from which more can be made
//! afterwards: of all batches with one mean the unbroken stretch leaves the
//! widest spread, and the further it lies to the fat end the leaner is what it
//! leaves. The first batch is thus as heavy as it can be, the second as heavy
//! as it can be beside the first, and so on; no search is needed.
//!
//! Weights at a cut are rounded down to a millionth of a gram towards the lean
//! side, so the limit holds exactly and nothing is made or lost.
//!
//! Grind cold and clean and keep the lots on record; the classes a shop may
//! sell, and whether fat may be added as such, are its inspector's to say.

use quantity::{Mass, Share};

use crate::fat_ledger::{BlendError, FatLedger, Trim, sound_fat, sound_weight};
use crate::trim_row::TrimRow;

/// The share of the leaner of two trims that brings them to `target`, by the
/// Pearson square; `None` where no share does, or the two are equally fat.
pub fn leaner_share(lean: Share, fat: Share, target: Share) -> Option<Share> {
    if lean >= fat || target < lean || target > fat {
        return None;
    }
    (fat - target)
        .fraction()
        .checked_div((fat - lean).fraction())
        .map(Share::from_fraction)
}

/// A batch that is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Wanted {
    /// The most fat it may hold.
    pub most_fat: Share,
    /// How much of it; `None` for as much as the trims give.
    pub weight: Option<Mass>,
}

/// How much of one trim goes into a batch.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Portion {
    /// Index of the trim in the ledger.
    pub trim: usize,
    /// How much of it.
    pub weight: Mass,
}

/// What a batch ran out of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RanOut {
    /// Lean: what is left is too fat for it.
    Lean,
    /// Trim: nothing is left at all.
    Trim,
}

/// A batch of grind.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Batch {
    /// What was asked for.
    pub wanted: Wanted,
    /// What goes into it, leanest first.
    pub portions: Vec<Portion>,
    /// Its weight.
    pub weight: Mass,
    /// The weight of the fat in it.
    pub fat_weight: Mass,
    /// What it ran out of before the wanted weight was reached.
    pub ran_out: Option<RanOut>,
}

impl Batch {
    /// Its fat content; `None` for an empty batch.
    pub fn fat(&self) -> Option<Share> {
        self.fat_weight.ratio_to(self.weight)
    }

    /// How much less it is than was wanted.
    pub fn missing(&self) -> Mass {
        self.wanted
            .weight
            .map_or(Mass::ZERO, |wanted| wanted - self.weight)
    }

    /// How much more fat it could hold: the room below its limit.
    pub(crate) fn fat_room(&self) -> Mass {
        self.weight * self.wanted.most_fat - self.fat_weight
    }
}

/// Batches made from a ledger, and what they leave.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Blend {
    /// The batches, in the order asked for.
    pub batches: Vec<Batch>,
    /// Every trim of the ledger with the weight that is left of it, in the
    /// ledger's order.
    pub left: Vec<Trim>,
}

impl Blend {
    /// The weight of all that is left.
    pub fn left_weight(&self) -> Mass {
        self.left.iter().map(|trim| trim.weight).sum()
    }
}

impl FatLedger {
    /// Makes the wanted batches, each as heavy as it can be beside those
    /// before it and never heavier than wanted, and tells what is left.
    ///
    /// # Errors
    /// [`BlendError`] when a wanted weight is below zero or a limit no share
    /// of a whole.
    pub fn blend(&self, wanted: &[Wanted]) -> Result<Blend, BlendError> {
        let mut left = self.trims().to_vec();
        let mut batches = Vec::with_capacity(wanted.len());
        for &wanted in wanted {
            sound_fat(wanted.most_fat)?;
            let row = TrimRow::of(&left);
            let most = row.most(wanted.most_fat);
            let weight = match wanted.weight {
                Some(weight) => sound_weight(weight)?.min(most),
                None => most,
            };
            let start = row.fattest_start(weight, wanted.most_fat);
            let mut portions = Vec::new();
            let mut fat_weight = Mass::ZERO;
            for (index, part) in row.stretch(start, weight) {
                if let Some(trim) = left.get_mut(index) {
                    trim.weight = trim.weight - part.weight;
                }
                fat_weight += part.fat_weight();
                portions.push(Portion {
                    trim: index,
                    weight: part.weight,
                });
            }
            let short = wanted.weight.is_some_and(|wanted| weight < wanted);
            batches.push(Batch {
                wanted,
                portions,
                weight,
                fat_weight,
                ran_out: short.then_some(if row.weight() > weight {
                    RanOut::Lean
                } else {
                    RanOut::Trim
                }),
            });
        }
        Ok(Blend { batches, left })
    }
}

#[cfg(test)]
pub(crate) mod tests {
    use microlp::{ComparisonOp, OptimizationDirection, Problem, SolveOutcome, Variable};
    use proptest::prelude::*;
    use quantity::Decimal;
    use rust_decimal::prelude::ToPrimitive;

    use super::*;

    pub(crate) fn grams(grams: i64) -> Mass {
        Mass::from_kg(Decimal::new(grams, 3))
    }

    pub(crate) fn kilograms(kilograms: i64) -> Mass {
        Mass::from_kg(Decimal::from(kilograms))
    }

    pub(crate) fn percent(percent: i64) -> Share {
        Share::from_percent(Decimal::from(percent))
    }

    pub(crate) fn ledger(trims: &[(i64, i64)]) -> FatLedger {
        let trims = trims
            .iter()
            .enumerate()
            .map(|(node, &(weight, fat))| Trim {
                node,
                weight: kilograms(weight),
                fat: percent(fat),
            })
            .collect();
        FatLedger::new(trims).expect("sound trims")
    }

    pub(crate) fn wanted(most_fat: i64, weight: Option<i64>) -> Wanted {
        Wanted {
            most_fat: percent(most_fat),
            weight: weight.map(kilograms),
        }
    }

    #[track_caller]
    pub(crate) fn only(blend: &Blend) -> &Batch {
        assert_eq!(blend.batches.len(), 1);
        blend.batches.first().expect("a batch")
    }

    #[test]
    fn all_there_is_takes_fat_up_to_the_limit() {
        // 30 kg at 10 % have room for 3 kg·20 points: 30 · 0.1 = 3 kg of fat
        // above the limit, which 6 kg at 70 % bring.
        let blend = ledger(&[(20, 70), (30, 10)])
            .blend(&[wanted(20, None)])
            .expect("sound");
        let batch = only(&blend);
        assert_eq!(batch.weight, kilograms(36));
        assert_eq!(batch.fat(), Some(percent(20)));
        assert_eq!(batch.portions.first().map(|portion| portion.trim), Some(1));
        assert_eq!(blend.left_weight(), kilograms(14));
        assert_eq!(batch.ran_out, None);
    }

    #[test]
    fn a_wanted_weight_is_as_fat_as_its_limit_allows() {
        let blend = ledger(&[(30, 10), (30, 25), (30, 70)])
            .blend(&[wanted(25, Some(20))])
            .expect("sound");
        let batch = only(&blend);
        assert_eq!(batch.fat(), Some(percent(25)));
        assert_eq!(batch.portions.len(), 1, "the trim that fits by itself");
    }

    #[test]
    fn nothing_wanted_and_nothing_there_make_nothing() {
        let empty = ledger(&[]).blend(&[wanted(17, None)]).expect("sound");
        assert_eq!(only(&empty).fat(), None);
        assert_eq!(only(&empty).weight, Mass::ZERO);
        let untouched = ledger(&[(5, 20)])
            .blend(&[wanted(17, Some(0))])
            .expect("sound");
        assert_eq!(untouched.left_weight(), kilograms(5));
        assert!(ledger(&[]).blend(&[wanted(101, None)]).is_err());
        assert!(ledger(&[]).blend(&[wanted(17, Some(-1))]).is_err());
    }

    #[test]
    fn the_square_refuses_what_no_mixture_reaches() {
        let square = |lean, fat, target| leaner_share(percent(lean), percent(fat), percent(target));
        assert_eq!(square(10, 50, 20), Some(percent(75)));
        assert_eq!(square(10, 50, 10), Some(Share::WHOLE));
        assert_eq!(square(10, 50, 51), None);
        assert_eq!(square(10, 50, 9), None);
        assert_eq!(square(20, 20, 20), None);
    }

    /// Trims of up to 40 kg by the gram, fat by the tenth of a percent.
    pub(crate) fn any_ledger() -> impl Strategy<Value = FatLedger> {
        let trim = (0_i64..40_000, 0_i64..=1000).prop_map(|(weight, fat)| Trim {
            node: 0,
            weight: grams(weight),
            fat: Share::from_fraction(Decimal::new(fat, 3)),
        });
        prop::collection::vec(trim, 0..7)
            .prop_map(|trims| FatLedger::new(trims).expect("sound trims"))
    }

    fn any_wanted() -> impl Strategy<Value = Vec<Wanted>> {
        let batch = (1_i64..40, prop::option::of(0_i64..50_000)).prop_map(|(fat, weight)| Wanted {
            most_fat: percent(fat),
            weight: weight.map(grams),
        });
        prop::collection::vec(batch, 1..4)
    }

    fn float(decimal: Decimal) -> f64 {
        decimal.to_f64().expect("a finite number")
    }

    /// The most a general solver can make of batch `index` beside those before
    /// it, which keep the weight they have.
    fn most_by_solver(ledger: &FatLedger, batches: &[Batch], index: usize) -> f64 {
        let mut problem = Problem::new(OptimizationDirection::Maximize);
        let shared: Vec<Vec<Variable>> = (0..=index)
            .map(|batch| {
                let gain = f64::from(u8::from(batch == index));
                let new = |_| problem.add_var(gain, (0.0, f64::INFINITY));
                ledger.trims().iter().map(new).collect()
            })
            .collect();
        for (trim, data) in ledger.trims().iter().enumerate() {
            let of_trim: Vec<_> = shared.iter().map(|batch| (batch[trim], 1.0)).collect();
            problem.add_constraint(of_trim, ComparisonOp::Le, float(data.weight.kg()));
        }
        for (portions, batch) in shared.iter().zip(batches) {
            let most = batch.wanted.most_fat;
            let over = portions
                .iter()
                .zip(ledger.trims())
                .map(|(portion, trim)| (*portion, float((trim.fat - most).fraction())));
            problem.add_constraint(over.collect::<Vec<_>>(), ComparisonOp::Le, 0.0);
        }
        let whole = |portions: &[Variable]| -> Vec<(Variable, f64)> {
            portions.iter().map(|portion| (*portion, 1.0)).collect()
        };
        for (portions, batch) in shared.iter().zip(batches).take(index) {
            // A hair less than it has: the solver reckons in floats.
            let kept = float(batch.weight.kg()) - 1e-7;
            problem.add_constraint(whole(portions), ComparisonOp::Ge, kept);
        }
        if let Some(wanted) = batches[index].wanted.weight {
            let wanted = float(wanted.kg());
            problem.add_constraint(whole(&shared[index]), ComparisonOp::Le, wanted);
        }
        match problem.solve() {
            Ok(SolveOutcome::Solution(solution)) => solution.objective(),
            other => panic!("the solver finds no solution: {other:?}"),
        }
    }

    proptest! {
        #[test]
        fn nothing_is_made_or_lost_and_no_limit_is_passed(
            ledger in any_ledger(),
            wanted in any_wanted(),
        ) {
            let blend = ledger.blend(&wanted).expect("sound");
            let made: Mass = blend.batches.iter().map(|batch| batch.weight).sum();
            let fat: Mass = blend.batches.iter().map(|batch| batch.fat_weight).sum();
            let fat_left: Mass = blend.left.iter().map(Trim::fat_weight).sum();
            prop_assert_eq!(made + blend.left_weight(), ledger.weight());
            prop_assert_eq!(fat + fat_left, ledger.fat_weight());
            for batch in &blend.batches {
                let portions: Mass = batch.portions.iter().map(|portion| portion.weight).sum();
                prop_assert_eq!(portions, batch.weight);
                prop_assert!(batch.fat_weight <= batch.weight * batch.wanted.most_fat);
                prop_assert!(batch.wanted.weight.is_none_or(|wanted| batch.weight <= wanted));
                prop_assert_eq!(batch.ran_out.is_some(), batch.missing().is_positive());
            }
            for ((index, trim), left) in ledger.trims().iter().enumerate().zip(&blend.left) {
                let used: Mass = blend
                    .batches
                    .iter()
                    .flat_map(|batch| &batch.portions)
                    .filter(|portion| portion.trim == index)
                    .map(|portion| portion.weight)
                    .sum();
                prop_assert!(left.weight >= Mass::ZERO);
                prop_assert_eq!(used + left.weight, trim.weight);
            }
        }

        #[test]
        fn no_solver_makes_more(ledger in any_ledger(), wanted in any_wanted()) {
            prop_assume!(!ledger.trims().is_empty());
            let blend = ledger.blend(&wanted).expect("sound");
            for (index, batch) in blend.batches.iter().enumerate() {
                let most = most_by_solver(&ledger, &blend.batches, index);
                let made = float(batch.weight.kg());
                prop_assert!((most - made).abs() < 1e-4, "{} against {}", made, most);
            }
        }

        #[test]
        fn a_batch_that_could_be_fatter_has_no_fatter_trim_left_to_swap_in(
            ledger in any_ledger(),
            wanted in any_wanted(),
        ) {
            let blend = ledger.blend(&wanted[..1]).expect("sound");
            let batch = only(&blend);
            let room = batch.fat_room();
            if batch.portions.is_empty() || room < Mass::from_kg(Decimal::new(1, 6)) {
                return Ok(());
            }
            let leanest = batch
                .portions
                .iter()
                .map(|portion| ledger.trims()[portion.trim].fat)
                .min();
            let fattest_left = blend
                .left
                .iter()
                .filter(|trim| trim.weight.is_positive())
                .map(|trim| trim.fat)
                .max();
            prop_assert!(fattest_left.is_none() || fattest_left <= leanest);
        }
    }
}
