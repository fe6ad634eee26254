//! Trims laid out in a row from the leanest to the fattest, and the unbroken
//! stretches that batches are cut from. Why stretches: [`crate::blend`].

use quantity::{Mass, Rounding, Share};

use crate::fat_ledger::Trim;

/// Decimal places of a kilogram at which a trim is cut.
const PLACES: u32 = 9;

fn rounded_down(mass: Mass) -> Mass {
    Mass::from_kg(Rounding::Down.to_places(mass.kg(), PLACES))
}

/// Trims laid out from the leanest to the fattest, each with its index.
pub(crate) struct TrimRow {
    trims: Vec<(usize, Trim)>,
    /// Where one trim ends and the next begins, both ends included, with the
    /// fat up to there.
    bounds: Vec<(Mass, Mass)>,
}

impl TrimRow {
    /// The trims of which something is there.
    pub fn of(trims: &[Trim]) -> Self {
        let mut row: Vec<(usize, Trim)> = trims
            .iter()
            .copied()
            .enumerate()
            .filter(|(_, trim)| trim.weight.is_positive())
            .collect();
        row.sort_by_key(|(_, trim)| trim.fat);
        let mut bounds = Vec::with_capacity(row.len() + 1);
        let (mut end, mut fat) = (Mass::ZERO, Mass::ZERO);
        bounds.push((end, fat));
        for (_, trim) in &row {
            end += trim.weight;
            fat += trim.fat_weight();
            bounds.push((end, fat));
        }
        Self { trims: row, bounds }
    }

    /// The trims, leanest first.
    pub fn trims(&self) -> &[(usize, Trim)] {
        &self.trims
    }

    /// The weight of all of it.
    pub fn weight(&self) -> Mass {
        self.bounds.last().map_or(Mass::ZERO, |(end, _)| *end)
    }

    /// The most that can be made of it with at most `most_fat`.
    pub fn most(&self, most_fat: Share) -> Mass {
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

    /// What of each trim lies in the stretch of `weight` from `start`, with
    /// its index.
    pub fn stretch(&self, start: Mass, weight: Mass) -> impl Iterator<Item = (usize, Trim)> {
        let stop = start + weight;
        self.trims
            .iter()
            .zip(&self.bounds)
            .map(move |((index, trim), (begins, _))| {
                let weight = (*begins + trim.weight).min(stop) - (*begins).max(start);
                (*index, Trim { weight, ..*trim })
            })
            .filter(|(_, trim)| trim.weight.is_positive())
    }

    /// The fat from the beginning of the row up to `place`.
    fn fat_up_to(&self, place: Mass) -> Mass {
        let ended = self.bounds.partition_point(|(end, _)| *end <= place);
        let Some((begins, fat)) = ended.checked_sub(1).and_then(|last| self.bounds.get(last))
        else {
            return Mass::ZERO;
        };
        match self.trims.get(ended - 1) {
            Some((_, trim)) => *fat + (place - *begins) * trim.fat,
            None => *fat,
        }
    }

    fn fat_in(&self, start: Mass, weight: Mass) -> Mass {
        self.fat_up_to(start + weight) - self.fat_up_to(start)
    }

    /// Where the fattest stretch of `weight` with at most `most_fat` begins.
    ///
    /// The fat in a stretch grows with its start, along straight lines between
    /// the places where either end meets a bound.
    pub fn fattest_start(&self, weight: Mass, most_fat: Share) -> Mass {
        let last = self.weight() - weight;
        let mut starts: Vec<Mass> = self
            .bounds
            .iter()
            .flat_map(|&(bound, _)| [bound, bound - weight])
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
