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
    /// Every place where one trim ends and the next begins, both ends of the
    /// row included.
    bounds: Vec<Mass>,
    /// The weight of the fat before each bound.
    fat_before: Vec<Mass>,
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
        let mut fat_before = Vec::with_capacity(row.len() + 1);
        let (mut end, mut fat) = (Mass::ZERO, Mass::ZERO);
        bounds.push(end);
        fat_before.push(fat);
        for (_, trim) in &row {
            end += trim.weight;
            fat += trim.fat_weight();
            bounds.push(end);
            fat_before.push(fat);
        }
        Self {
            trims: row,
            bounds,
            fat_before,
        }
    }

    /// The trims, leanest first.
    pub fn trims(&self) -> &[(usize, Trim)] {
        &self.trims
    }

    /// The weight of all of it.
    pub fn weight(&self) -> Mass {
        self.bounds.last().copied().unwrap_or_default()
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
            .take_while(move |(_, begins)| **begins < stop)
            .map(move |((index, trim), begins)| {
                let weight = (*begins + trim.weight).min(stop) - (*begins).max(start);
                (*index, Trim { weight, ..*trim })
            })
            .filter(|(_, trim)| trim.weight.is_positive())
    }

    /// The weight of the fat in what lies before `place`.
    fn fat_up_to(&self, place: Mass) -> Mass {
        let within = self
            .bounds
            .partition_point(|bound| *bound < place)
            .saturating_sub(1);
        let (Some(begins), Some(fat)) = (self.bounds.get(within), self.fat_before.get(within))
        else {
            return Mass::ZERO;
        };
        match self.trims.get(within) {
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
        let limit = weight * most_fat;
        let [(at_start, past_start), (at_end, past_end)] =
            [Mass::ZERO, weight].map(|from_start| self.last_within(weight, from_start, limit));
        let begins = at_start.max(at_end).unwrap_or(Mass::ZERO);
        let Some(next) = past_start.into_iter().chain(past_end).min() else {
            return begins;
        };
        let fat = self.fat_in(begins, weight);
        let way = (limit - fat).ratio_to(self.fat_in(next, weight) - fat);
        begins.max(rounded_down(
            begins + (next - begins) * way.unwrap_or_default(),
        ))
    }

    /// Of the stretches of `weight` that meet a bound `from_start` on from
    /// where they begin: where the last one with fat up to `limit` begins, and
    /// the one after it.
    fn last_within(
        &self,
        weight: Mass,
        from_start: Mass,
        limit: Mass,
    ) -> (Option<Mass>, Option<Mass>) {
        let last = self.weight() - weight;
        let first = self.bounds.partition_point(|bound| *bound < from_start);
        let starts = self.bounds.get(first..).unwrap_or_default();
        let too_fat = starts.partition_point(|bound| {
            let start = *bound - from_start;
            start <= last && self.fat_in(start, weight) <= limit
        });
        let start = |index: usize| starts.get(index).map(|bound| *bound - from_start);
        (
            too_fat.checked_sub(1).and_then(start),
            start(too_fat).filter(|start| *start <= last),
        )
    }
}
