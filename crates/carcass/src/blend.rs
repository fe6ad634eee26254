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

use quantity::{Decimal, Mass, Rounding, Share};

use crate::fat_ledger::{BlendError, FatLedger, Trim, sound_fat, sound_weight};

/// Decimal places of a kilogram at which a trim is cut.
const PLACES: u32 = 9;

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
    fn fat_room(&self) -> Mass {
        self.weight * self.wanted.most_fat - self.fat_weight
    }

    /// How many kilograms of a trim with the fat content `of` could be put to
    /// it before it reaches its limit: too little fat, said in trim. `None`
    /// where such a trim is within the limit itself and never too much.
    pub fn fat_lacking(&self, of: Share) -> Option<Mass> {
        let over = (of - self.wanted.most_fat).fraction();
        if over <= Decimal::ZERO {
            return None;
        }
        self.fat_room().kg().checked_div(over).map(Mass::from_kg)
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
        for trim in leanest_first(&self.left) {
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
            // First what the room takes without any lean, then the square.
            let free = Mass::from_kg(room.kg().checked_div(over.fraction())?);
            let square = leaner_share(of, trim.fat, most)?;
            let of_both = (missing - free).times(square.complement().fraction());
            let fat = of_both.min(trim.weight - free);
            let with = Mass::from_kg((fat * over).kg().checked_div(under.fraction())?);
            lean += with;
            missing = missing - free - fat - with;
            room = Mass::ZERO;
        }
        Some(lean + missing.max(Mass::ZERO))
    }
}

/// The trims of which something is there, leanest first.
fn leanest_first(trims: &[Trim]) -> Vec<Trim> {
    laid_out(trims).into_iter().map(|(_, trim)| trim).collect()
}

/// The same with the index of each.
fn laid_out(trims: &[Trim]) -> Vec<(usize, Trim)> {
    let mut row: Vec<(usize, Trim)> = trims
        .iter()
        .copied()
        .enumerate()
        .filter(|(_, trim)| trim.weight.is_positive())
        .collect();
    row.sort_by_key(|(_, trim)| trim.fat);
    row
}

fn rounded_down(mass: Mass) -> Mass {
    Mass::from_kg(Rounding::Down.to_places(mass.kg(), PLACES))
}

/// Trims laid out from the leanest to the fattest, by weight.
struct Row {
    trims: Vec<(usize, Trim)>,
    weight: Mass,
}

impl Row {
    fn of(trims: &[Trim]) -> Self {
        Self {
            weight: trims.iter().map(|trim| trim.weight).sum(),
            trims: laid_out(trims),
        }
    }

    /// The most that can be made of it with at most `most_fat`.
    fn most(&self, most_fat: Share) -> Mass {
        let mut room = Mass::ZERO;
        let mut made = Mass::ZERO;
        for (_, trim) in &self.trims {
            let over = trim.fat - most_fat;
            let needs = trim.weight * over;
            if needs <= room {
                room = room - needs;
                made += trim.weight;
                continue;
            }
            let part = room.kg().checked_div(over.fraction());
            return made + rounded_down(Mass::from_kg(part.unwrap_or_default()));
        }
        made
    }

    /// Every place where one trim ends and the next begins, both ends
    /// included.
    fn bounds(&self) -> Vec<Mass> {
        let mut bounds = vec![Mass::ZERO];
        let mut end = Mass::ZERO;
        for (_, trim) in &self.trims {
            end += trim.weight;
            bounds.push(end);
        }
        bounds
    }

    /// What of each trim lies in the stretch of `weight` from `start`, with
    /// its index.
    fn stretch(&self, start: Mass, weight: Mass) -> impl Iterator<Item = (usize, Trim)> {
        let stop = start + weight;
        self.trims
            .iter()
            .zip(self.bounds())
            .map(move |((index, trim), begins)| {
                let weight = (begins + trim.weight).min(stop) - begins.max(start);
                (*index, Trim { weight, ..*trim })
            })
            .filter(|(_, trim)| trim.weight.is_positive())
    }

    fn fat_in(&self, start: Mass, weight: Mass) -> Mass {
        self.stretch(start, weight)
            .map(|(_, trim)| trim.fat_weight())
            .sum()
    }

    /// Where the fattest stretch of `weight` with at most `most_fat` begins.
    ///
    /// The fat in a stretch grows with its start, along straight lines between
    /// the places where either end meets a bound.
    fn fattest_start(&self, weight: Mass, most_fat: Share) -> Mass {
        let last = self.weight - weight;
        let mut starts: Vec<Mass> = self
            .bounds()
            .into_iter()
            .flat_map(|bound| [bound, bound - weight])
            .filter(|start| (Mass::ZERO..=last).contains(start))
            .collect();
        starts.sort_unstable();
        let limit = weight * most_fat;
        let too_fat = starts.partition_point(|start| self.fat_in(*start, weight) <= limit);
        let within = too_fat.checked_sub(1).and_then(|index| starts.get(index));
        let begins = within.copied().unwrap_or(Mass::ZERO);
        let Some(&next) = starts.get(too_fat) else {
            return begins;
        };
        let fat = self.fat_in(begins, weight);
        let way = (limit - fat).ratio_to(self.fat_in(next, weight) - fat);
        begins.max(rounded_down(
            begins + (next - begins) * way.unwrap_or_default(),
        ))
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
            let row = Row::of(&left);
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
                ran_out: short.then_some(if row.weight > weight {
                    RanOut::Lean
                } else {
                    RanOut::Trim
                }),
            });
        }
        Ok(Blend { batches, left })
    }
}
