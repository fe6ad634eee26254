//! A weigh-in: what has been put on the scale so far, and how long it took.
//!
//! Weighings are kept in the order in which they were made, each as it was read
//! off the scale: gross weight, unit and tare. Nothing is rounded, and the last
//! one can always be taken back.

use core::fmt;

use carcass::{Breakdown, Catalogue, Node, ProductId, WayId, What};
use quantity::{Decimal, Mass, MassUnit, Minutes, typed};
use wording::{say, text};

use crate::composition::products;

/// The most weighings of one weigh-in: seventy lines of more than twenty trays.
pub const MOST_WEIGHINGS: usize = 1500;

/// The most times of one weigh-in.
pub const MOST_TIMES: usize = 500;

/// What a weighing is a weighing of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Line {
    /// The cut, by-product or loss.
    pub product: ProductId,
    /// The way it came off, where it was weighed alone; `None` for all of it
    /// that was not, whatever it came off.
    pub way: Option<WayId>,
}

/// One reading of the scale.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Weighing {
    gross: Decimal,
    unit: MassUnit,
    tare: Decimal,
}

/// Why a reading cannot be taken down.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WeighingError {
    /// A weight is below nothing, above what a field takes, or has too many
    /// digits.
    OutOfRange,
    /// The tray weighs more than tray and meat together.
    TareAboveGross,
    /// There is no room for another one.
    TooMany,
    /// A timer ends before it starts.
    BackInTime,
    /// A timer of this way runs already.
    Running,
    /// No timer of this way runs.
    NotRunning,
}

impl fmt::Display for WeighingError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let said = match self {
            Self::OutOfRange => {
                let (most, places) = (typed::LARGEST, typed::MOST_PLACES);
                return f.write_str(&say!(
                    "A weight must be 0 or more and at most {most}, with {places} decimals at most.",
                    most,
                    places
                ));
            }
            Self::TareAboveGross => text!(
                "The tare is more than the weight: enter the weight with its tray, or a smaller tare."
            ),
            Self::TooMany => text!("The weigh-in is full: close it and begin another."),
            Self::BackInTime => {
                text!("The timer would end before it starts: type the minutes instead.")
            }
            Self::Running => text!("The timer of this part runs already: stop it first."),
            Self::NotRunning => text!("No timer of this part runs: start it first."),
        };
        f.write_str(said)
    }
}

impl core::error::Error for WeighingError {}

impl Weighing {
    /// A reading of `gross`, tray included, and what the tray weighs, both in
    /// `unit`.
    ///
    /// # Errors
    /// [`WeighingError::OutOfRange`] or [`WeighingError::TareAboveGross`].
    pub fn new(gross: Decimal, unit: MassUnit, tare: Decimal) -> Result<Self, WeighingError> {
        let fits = |number: Decimal| {
            number >= Decimal::ZERO
                && number <= typed::LARGEST
                && number.normalize().scale() <= typed::MOST_PLACES
        };
        if !fits(gross) || !fits(tare) {
            return Err(WeighingError::OutOfRange);
        }
        if tare > gross {
            return Err(WeighingError::TareAboveGross);
        }
        Ok(Self { gross, unit, tare })
    }

    /// What was read, tray included.
    pub const fn gross(&self) -> Decimal {
        self.gross
    }

    /// The unit of both.
    pub const fn unit(&self) -> MassUnit {
        self.unit
    }

    /// What the tray weighs.
    pub const fn tare(&self) -> Decimal {
        self.tare
    }

    /// What was weighed.
    pub fn net(&self) -> Mass {
        self.net_in(self.unit)
    }

    /// What was weighed if the scale had shown `unit`.
    pub fn net_in(&self, unit: MassUnit) -> Mass {
        Mass::from_unit(self.gross, unit) - Mass::from_unit(self.tare, unit)
    }
}

/// Time spent on a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Spent {
    /// As it was typed.
    Typed(Minutes),
    /// From one stamp to another, in milliseconds since 1970 began in UTC; one
    /// that runs has no end.
    Timed {
        /// When it was started.
        from: u64,
        /// When it was stopped.
        to: Option<u64>,
    },
}

impl Spent {
    /// Minutes until `now`.
    pub fn minutes(self, now: u64) -> Minutes {
        match self {
            Self::Typed(minutes) => minutes,
            Self::Timed { from, to } => {
                let milliseconds = to.unwrap_or(now).saturating_sub(from);
                // A day's milliseconds, and a thousand years', fit the range.
                let minutes = Decimal::from(milliseconds)
                    .checked_div(Decimal::from(60_000))
                    .unwrap_or_default();
                Minutes::from_minutes(minutes)
            }
        }
    }
}

/// A weigh-in in progress.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct WeighIn {
    weighings: Vec<(Line, Weighing)>,
    times: Vec<(WayId, Spent)>,
}

impl WeighIn {
    /// Every weighing, the first one first.
    pub fn weighings(&self) -> &[(Line, Weighing)] {
        &self.weighings
    }

    /// Every time, in the order in which they were begun.
    pub fn times(&self) -> &[(WayId, Spent)] {
        &self.times
    }

    /// Takes down a reading.
    ///
    /// # Errors
    /// [`WeighingError::TooMany`] when the weigh-in is full.
    pub fn add(&mut self, line: Line, weighing: Weighing) -> Result<(), WeighingError> {
        if self.weighings.len() >= MOST_WEIGHINGS {
            return Err(WeighingError::TooMany);
        }
        self.weighings.push((line, weighing));
        Ok(())
    }

    /// Takes the last weighing back and says which one that was.
    pub fn take_back(&mut self) -> Option<(Line, Weighing)> {
        self.weighings.pop()
    }

    /// Takes back the weighing at `place` among all of them.
    pub fn take_back_at(&mut self, place: usize) -> Option<(Line, Weighing)> {
        (place < self.weighings.len()).then(|| self.weighings.remove(place))
    }

    /// Takes the weighing at `place` as if the scale had shown `unit`.
    pub fn reread(&mut self, place: usize, unit: MassUnit) {
        if let Some((_, weighing)) = self.weighings.get_mut(place) {
            weighing.unit = unit;
        }
    }

    /// Takes down minutes that were typed.
    ///
    /// # Errors
    /// [`WeighingError::OutOfRange`] when they are below nothing or beyond what
    /// a field takes, [`WeighingError::TooMany`] when there is no room.
    pub fn spend(&mut self, way: WayId, minutes: Minutes) -> Result<(), WeighingError> {
        let number = minutes.minutes();
        let fits = number >= Decimal::ZERO
            && number <= typed::LARGEST
            && number.normalize().scale() <= typed::MOST_PLACES;
        if !fits {
            return Err(WeighingError::OutOfRange);
        }
        self.add_time(way, Spent::Typed(minutes))
    }

    /// Starts the timer of a way at `now`.
    ///
    /// # Errors
    /// [`WeighingError::Running`] when it runs, [`WeighingError::TooMany`] when
    /// there is no room.
    pub fn start(&mut self, way: WayId, now: u64) -> Result<(), WeighingError> {
        if self.running_since(way).is_some() {
            return Err(WeighingError::Running);
        }
        self.add_time(
            way,
            Spent::Timed {
                from: now,
                to: None,
            },
        )
    }

    /// Stops the timer of a way at `now`.
    ///
    /// # Errors
    /// [`WeighingError::NotRunning`] when none runs,
    /// [`WeighingError::BackInTime`] when it was started later.
    pub fn stop(&mut self, way: WayId, now: u64) -> Result<(), WeighingError> {
        let running = self.times.iter_mut().find_map(|(of, spent)| match spent {
            Spent::Timed {
                from,
                to: to @ None,
            } if *of == way => Some((*from, to)),
            _ => None,
        });
        match running {
            None => Err(WeighingError::NotRunning),
            Some((from, _)) if from > now => Err(WeighingError::BackInTime),
            Some((_, to)) => {
                *to = Some(now);
                Ok(())
            }
        }
    }

    /// Forgets the time at `place` among all of them.
    pub fn forget_time(&mut self, place: usize) -> Option<(WayId, Spent)> {
        (place < self.times.len()).then(|| self.times.remove(place))
    }

    fn add_time(&mut self, way: WayId, spent: Spent) -> Result<(), WeighingError> {
        if self.times.len() >= MOST_TIMES {
            return Err(WeighingError::TooMany);
        }
        self.times.push((way, spent));
        Ok(())
    }

    /// When the timer of a way was started, where it runs.
    pub fn running_since(&self, way: WayId) -> Option<u64> {
        self.times.iter().find_map(|(of, spent)| match spent {
            Spent::Timed { from, to: None } if *of == way => Some(*from),
            _ => None,
        })
    }

    /// Minutes spent on a way until `now`; `None` where none were taken down.
    pub fn minutes(&self, way: WayId, now: u64) -> Option<Minutes> {
        let mut of_way = self.times.iter().filter(|(of, _)| *of == way).peekable();
        of_way.peek()?;
        Some(of_way.map(|(_, spent)| spent.minutes(now)).sum())
    }

    /// What a line weighs so far; `None` where it was not on the scale.
    pub fn weight(&self, line: Line) -> Option<Mass> {
        let mut of_line = self
            .weighings
            .iter()
            .filter(|(of, _)| *of == line)
            .peekable();
        of_line.peek()?;
        Some(of_line.map(|(_, weighing)| weighing.net()).sum())
    }

    /// All that was weighed.
    pub fn total(&self) -> Mass {
        self.weighings
            .iter()
            .map(|(_, weighing)| weighing.net())
            .sum()
    }

    /// What of a side of this weight is not yet accounted for; below nothing
    /// where more was weighed than there was.
    pub fn unaccounted(&self, side: Mass) -> Mass {
        side - self.total()
    }
}

/// A line with what is planned of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlannedLine {
    /// The line: all of a product.
    pub product: ProductId,
    /// What is planned of it.
    pub weight: Mass,
    /// The ways that it comes off, in order of cutting, with what is planned of
    /// each.
    pub ways: Vec<(WayId, Mass)>,
}

/// The lines of a plan in order of cutting: a product stands where it first
/// comes off.
pub fn planned_lines(catalogue: &Catalogue, breakdown: &Breakdown) -> Vec<PlannedLine> {
    let mut leaves: Vec<(ProductId, WayId, Mass)> = products(breakdown)
        .filter_map(|(_, product, node)| Some((product, way_of(breakdown, node)?, node.weight)))
        .collect();
    leaves.sort_by_key(|(_, way, _)| catalogue[catalogue[*way].part].order);
    let mut lines: Vec<PlannedLine> = Vec::new();
    for (product, way, weight) in leaves {
        let place = lines
            .iter()
            .position(|line| line.product == product)
            .unwrap_or_else(|| {
                lines.push(PlannedLine {
                    product,
                    weight: Mass::ZERO,
                    ways: Vec::new(),
                });
                lines.len() - 1
            });
        if let Some(line) = lines.get_mut(place) {
            line.weight += weight;
            match line.ways.iter_mut().find(|(of, _)| *of == way) {
                Some((_, of_way)) => *of_way += weight,
                None => line.ways.push((way, weight)),
            }
        }
    }
    lines
}

/// The way that a piece came off.
pub(crate) fn way_of(breakdown: &Breakdown, node: &Node) -> Option<WayId> {
    match breakdown.nodes().get(node.parent?)?.what {
        What::Part { way, .. } => Some(way),
        What::Product(_) => None,
    }
}

#[cfg(test)]
mod tests {
    use carcass::{Stock, break_down};
    use proptest::prelude::*;

    use super::*;
    use crate::any_side::CATALOGUE;

    fn kg(hundredths: i64) -> Weighing {
        Weighing::new(
            Decimal::new(hundredths, 2),
            MassUnit::Kilogram,
            Decimal::ZERO,
        )
        .expect("a reading")
    }

    fn line(product: &str) -> Line {
        Line {
            product: CATALOGUE.product_id(product).expect("a product"),
            way: None,
        }
    }

    #[test]
    fn readings_of_a_line_add_up_and_the_last_one_is_taken_back() {
        let mut weigh_in = WeighIn::default();
        assert_eq!(weigh_in.weight(line("stew-beef")), None);
        weigh_in.add(line("stew-beef"), kg(512)).expect("room");
        weigh_in.add(line("ground-beef"), kg(1000)).expect("room");
        let in_pounds =
            Weighing::new(Decimal::TEN, MassUnit::Pound, Decimal::ONE).expect("a reading");
        weigh_in.add(line("stew-beef"), in_pounds).expect("room");
        let nine_pounds = Mass::from_lb(Decimal::from(9));
        assert_eq!(
            weigh_in.weight(line("stew-beef")),
            Some(Mass::from_kg(Decimal::new(512, 2)) + nine_pounds)
        );
        let side = Mass::from_kg(Decimal::from(20));
        assert_eq!(
            weigh_in.unaccounted(side),
            Mass::from_kg(Decimal::new(488, 2)) - nine_pounds
        );
        assert_eq!(weigh_in.take_back(), Some((line("stew-beef"), in_pounds)));
        assert_eq!(weigh_in.take_back_at(0), Some((line("stew-beef"), kg(512))));
        assert_eq!(weigh_in.take_back_at(1), None);
        assert_eq!(weigh_in.total(), Mass::from_kg(Decimal::TEN));
    }

    #[test]
    fn what_no_scale_shows_is_refused() {
        let reading = |gross, tare| Weighing::new(gross, MassUnit::Kilogram, tare).err();
        let (one, two) = (Decimal::ONE, Decimal::TWO);
        assert_eq!(reading(one, two), Some(WeighingError::TareAboveGross));
        assert_eq!(
            reading(-one, Decimal::ZERO),
            Some(WeighingError::OutOfRange)
        );
        assert_eq!(reading(one, -one), Some(WeighingError::OutOfRange));
        assert_eq!(
            reading(Decimal::MAX, Decimal::ZERO),
            Some(WeighingError::OutOfRange)
        );
        assert_eq!(
            reading(Decimal::new(1, 10), Decimal::ZERO),
            Some(WeighingError::OutOfRange)
        );
        assert_eq!(reading(two, two), None);
    }

    #[test]
    fn a_timer_adds_to_what_was_typed() {
        let way = CATALOGUE.way_id("kidney-fat-raw").expect("a way");
        let mut weigh_in = WeighIn::default();
        assert_eq!(weigh_in.minutes(way, 0), None);
        assert_eq!(weigh_in.stop(way, 5), Err(WeighingError::NotRunning));
        weigh_in.start(way, 60_000).expect("room");
        assert_eq!(weigh_in.start(way, 61_000), Err(WeighingError::Running));
        let minutes = |halves: i64| Some(Minutes::from_minutes(Decimal::new(halves * 5, 1)));
        assert_eq!(weigh_in.minutes(way, 90_000), minutes(1));
        assert_eq!(weigh_in.stop(way, 59_999), Err(WeighingError::BackInTime));
        weigh_in.stop(way, 120_000).expect("it runs");
        weigh_in
            .spend(way, Minutes::from_minutes(Decimal::TWO))
            .expect("room");
        assert_eq!(weigh_in.minutes(way, u64::MAX), minutes(6));
        assert!(weigh_in.forget_time(0).is_some());
        assert_eq!(weigh_in.minutes(way, 0), minutes(4));
    }

    #[test]
    fn lines_stand_in_order_of_cutting_and_hold_the_whole_side() {
        let weight = Mass::from_kg(Decimal::from(180));
        for named in CATALOGUE.plans() {
            let side = break_down(&CATALOGUE, weight, 1, &named.plan, Stock::GRAIN);
            let lines = planned_lines(&CATALOGUE, &side);
            assert_eq!(lines.iter().map(|line| line.weight).sum::<Mass>(), weight);
            let mut last = Decimal::ZERO;
            for line in &lines {
                let of_ways: Mass = line.ways.iter().map(|(_, weight)| *weight).sum();
                assert_eq!(of_ways, line.weight);
                let (first, _) = line.ways[0];
                let order = CATALOGUE[CATALOGUE[first].part].order;
                assert!(order >= last);
                last = order;
            }
        }
    }

    proptest! {
        #[test]
        fn adding_and_taking_back_is_as_if_nothing_had_been(
            kept in prop::collection::vec(0_i64..100_000, 0..20),
            added in prop::collection::vec(0_i64..100_000, 0..20),
        ) {
            let mut weigh_in = WeighIn::default();
            for hundredths in &kept {
                weigh_in.add(line("stew-beef"), kg(*hundredths)).expect("room");
            }
            let before = weigh_in.clone();
            for hundredths in &added {
                weigh_in.add(line("ground-beef"), kg(*hundredths)).expect("room");
            }
            for _ in &added {
                weigh_in.take_back();
            }
            prop_assert_eq!(&weigh_in, &before);
            let total = Decimal::new(kept.iter().sum(), 2);
            prop_assert_eq!(weigh_in.total(), Mass::from_kg(total));
        }
    }
}
