//! Suppliers, farms, stock and seasons held against each other.
//!
//! Sides differ far more than suppliers do, so a list sorted by mean would be a
//! list of chances. What is told instead:
//!
//! - **The estimate** of each group is drawn towards the mean of all, by how much
//!   of the variance lies between groups (one-way random effects, variance
//!   components by the analysis of variance: Searle et al., *Variance
//!   Components*, ch. 3, from memory):
//!   `x̂ = x̄ + b·(x̄ᵢ − x̄)`, `b = τ² ⁄ (τ² + s² ⁄ nᵢ)`. With nothing between them
//!   but noise, `τ²` is nothing and all estimates are the mean.
//! - **A difference** of two groups has its 90 % interval by Welch's t
//!   (*Biometrika* 34: 28–35, 1947, from memory).
//! - **A call**, that one group is higher, is made only where the difference of
//!   the pair stands against all pairs together: Holm's step-down method
//!   (*Scand. J. Statistics* 6: 65–70, 1979, from memory) keeps the chance of any
//!   false call among equal groups at the stated level.
//! - **Too few sides**: a group of less than four has no interval and no call.
//!
//! Shares are held against what the published yields expect of the same ways and
//! stock, so that a supplier is not judged by how its sides were cut.

use std::collections::BTreeMap;

use carcass::{Catalogue, Kind, Stock};
use pricing::CalendarDate;
use quantity::Share;
use statrs::distribution::{ContinuousCDF, StudentsT};
use wording::text;

use crate::closed_test::ClosedTest;
use crate::kept_way::KnownWays;
use crate::learning::{Expected, float, side_shares, student};

/// Fewer sides than these say nothing of a group.
pub const FEWEST_SIDES: usize = 4;

/// What the tests are told apart by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum By {
    /// Who sold the side.
    Supplier,
    /// Where the animal was kept.
    Farm,
    /// How it was finished: grain-fed, grass-fed or between.
    Stock,
    /// The quarter of the year in which it was received.
    Season,
}

impl By {
    /// What a test belongs to, without blanks to spare; `None` where its tag does
    /// not tell.
    pub fn of(self, test: &ClosedTest) -> Option<String> {
        let told = |text: &str| {
            let words: Vec<&str> = text.split_whitespace().collect();
            (!words.is_empty()).then(|| words.join(" "))
        };
        match self {
            Self::Supplier => told(&test.tag.supplier),
            Self::Farm => told(&test.tag.farm),
            Self::Stock => Some(finish(test.stock).to_owned()),
            Self::Season => test.tag.received.map(|date| quarter(date).to_owned()),
        }
    }
}

fn finish(stock: Stock) -> &'static str {
    if stock == Stock::GRAIN {
        text!("grain-fed")
    } else if stock == Stock::GRASS {
        text!("grass-fed")
    } else {
        text!("between grain-fed and grass-fed")
    }
}

fn quarter(date: CalendarDate) -> &'static str {
    match date.month() {
        1..=3 => text!("January to March"),
        4..=6 => text!("April to June"),
        7..=9 => text!("July to September"),
        _ => text!("October to December"),
    }
}

/// What they are held against each other by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measure {
    /// Saleable share of the side less the expected one, in points.
    Saleable,
    /// Fat less the expected, in points.
    Fat,
    /// Bone and losses less the expected, in points.
    Bone,
    /// Margin on sales, in points.
    Margin,
    /// Walk-away price less the price paid, per kilogram.
    Room,
}

impl Measure {
    /// The figure of a test; `None` where it has none.
    pub fn of(self, catalogue: &Catalogue, test: &ClosedTest) -> Option<f64> {
        let known = KnownWays::of(catalogue);
        self.of_known((catalogue, &known), test, &mut Expected::default())
    }

    fn of_known(
        self,
        (catalogue, known): (&Catalogue, &KnownWays),
        test: &ClosedTest,
        expected: &mut Expected,
    ) -> Option<f64> {
        let mut beyond = |kinds: &[Kind]| {
            let (tested, _) = test.tested(known);
            let [seen, expected] = side_shares(catalogue, &tested, kinds, expected)?;
            Some(100.0 * (seen - expected))
        };
        match self {
            Self::Saleable => beyond(&[Kind::Cut]),
            Self::Fat => beyond(&[Kind::Fat]),
            Self::Bone => beyond(&[Kind::Bone, Kind::Loss]),
            Self::Margin => test.money.map(|money| float(money.margin.percent())),
            Self::Room => test
                .money
                .map(|money| float((money.walk_away - money.paid).per_kg())),
        }
    }
}

/// One group.
#[derive(Clone, Debug, PartialEq)]
pub struct Group {
    /// What it is called.
    pub name: String,
    /// How many tests it has.
    pub tests: usize,
    /// Their mean.
    pub mean: f64,
    /// The mean drawn towards that of all.
    pub estimate: f64,
    /// Half of the 90 % interval of the mean; `None` where there are too few
    /// sides to say.
    pub half_width: Option<f64>,
}

/// What can be said of two groups.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Call {
    /// Too few sides to say.
    TooFew,
    /// No difference that stands out of the noise.
    Open,
    /// The first is higher.
    FirstHigher,
    /// The second is higher.
    SecondHigher,
}

/// Two groups, by their places in the list.
#[derive(Clone, Debug, PartialEq)]
pub struct Difference {
    /// The groups.
    pub groups: [usize; 2],
    /// Mean of the first less that of the second.
    pub difference: f64,
    /// Half of its 90 % interval; `None` where there are too few sides to say.
    pub half_width: Option<f64>,
    /// What can be said.
    pub call: Call,
}

/// Groups held against each other.
#[derive(Clone, Debug, PartialEq)]
pub struct Standing {
    /// The groups by name, whatever its case: there is no other order that would not be a ranking.
    pub groups: Vec<Group>,
    /// Every pair of them.
    pub differences: Vec<Difference>,
    /// Mean of all tests.
    pub mean: f64,
    /// Tests that have no figure or do not tell where they belong.
    pub untold: usize,
}

/// Holds the tests against each other. Names that differ in case or blanks are
/// one group, called as the last of the tests spells it. `level` is the chance of
/// any false call where all groups are equal, usually one in ten.
pub fn standing<'a>(
    catalogue: &Catalogue,
    tests: impl IntoIterator<Item = &'a ClosedTest>,
    by: By,
    measure: Measure,
    level: Share,
) -> Standing {
    // A name is typed anew for every side, so its case tells nobody apart.
    let mut groups: BTreeMap<String, Vec<f64>> = BTreeMap::new();
    let mut spelt: BTreeMap<String, String> = BTreeMap::new();
    let mut untold = 0;
    let known = KnownWays::of(catalogue);
    let mut expected = Expected::default();
    for test in tests {
        let figure = measure.of_known((catalogue, &known), test, &mut expected);
        let group = by.of(test).map(|name| (name.to_lowercase(), name));
        if let (Some((key, _)), Some(figure)) = (&group, figure) {
            groups.entry(key.clone()).or_default().push(figure);
        } else {
            untold += 1;
        }
        spelt.extend(group);
    }
    let mut standing = compare(groups, float(level.fraction()));
    for group in &mut standing.groups {
        if let Some(name) = spelt.remove(&group.name) {
            group.name = name;
        }
    }
    Standing { untold, ..standing }
}

/// How many, as a float.
fn count(numbers: usize) -> f64 {
    u32::try_from(numbers).map_or(f64::from(u32::MAX), f64::from)
}

struct Figures {
    name: String,
    tests: usize,
    mean: f64,
    /// Sum of squares about the mean.
    squares: f64,
}

impl Figures {
    fn of(name: String, mut figures: Vec<f64>) -> Self {
        // In one order, whatever order the tests came in.
        figures.sort_by(f64::total_cmp);
        let mean = figures.iter().sum::<f64>() / count(figures.len()).max(1.0);
        Self {
            name,
            tests: figures.len(),
            mean,
            squares: figures.iter().map(|it| (it - mean) * (it - mean)).sum(),
        }
    }

    fn is_enough(&self) -> bool {
        self.tests >= FEWEST_SIDES
    }

    /// Variance of the mean.
    fn of_mean(&self) -> f64 {
        let tests = count(self.tests);
        self.squares / (tests - 1.0) / tests
    }
}

fn compare(groups: BTreeMap<String, Vec<f64>>, level: f64) -> Standing {
    let figures: Vec<Figures> = groups
        .into_iter()
        .map(|(name, figures)| Figures::of(name, figures))
        .collect();
    let all: f64 = figures.iter().map(|group| count(group.tests)).sum();
    let mean = if all > 0.0 {
        figures
            .iter()
            .map(|group| count(group.tests) * group.mean)
            .sum::<f64>()
            / all
    } else {
        0.0
    };
    let (within, between) = components(&figures, mean, all);
    let told = figures
        .iter()
        .map(|group| {
            let own = within / count(group.tests).max(1.0);
            let drawn = if between > 0.0 {
                between / (between + own)
            } else {
                0.0
            };
            Group {
                name: group.name.clone(),
                tests: group.tests,
                mean: group.mean,
                estimate: mean + drawn * (group.mean - mean),
                half_width: group
                    .is_enough()
                    .then(|| student(count(group.tests) - 1.0, 0.1) * group.of_mean().sqrt()),
            }
        })
        .collect();
    Standing {
        groups: told,
        differences: differences(&figures, level),
        mean,
        untold: 0,
    }
}

/// Variance within groups and between them.
fn components(figures: &[Figures], mean: f64, all: f64) -> (f64, f64) {
    let groups = count(figures.len());
    let inside: f64 = figures.iter().map(|group| group.squares).sum();
    let freedom = all - groups;
    if groups < 2.0 || freedom <= 0.0 {
        return (0.0, 0.0);
    }
    let within = inside / freedom;
    let weight = |group: &Figures| count(group.tests);
    let outside: f64 = figures
        .iter()
        .map(|group| weight(group) * (group.mean - mean) * (group.mean - mean))
        .sum();
    let squares: f64 = figures
        .iter()
        .map(|group| weight(group) * weight(group))
        .sum();
    let usual = (all - squares / all) / (groups - 1.0);
    let between = (outside / (groups - 1.0) - within) / usual;
    (within, between.max(0.0))
}

fn differences(figures: &[Figures], level: f64) -> Vec<Difference> {
    let mut differences = Vec::new();
    let mut chances: Vec<(f64, usize)> = Vec::new();
    for (first, one) in figures.iter().enumerate() {
        for (second, other) in figures.iter().enumerate().skip(first + 1) {
            let mut told = Difference {
                groups: [first, second],
                difference: one.mean - other.mean,
                half_width: None,
                call: Call::TooFew,
            };
            if one.is_enough() && other.is_enough() {
                let (half_width, chance) = welch(one, other);
                told.half_width = Some(half_width);
                told.call = Call::Open;
                chances.push((chance, differences.len()));
            }
            differences.push(told);
        }
    }
    chances.sort_by(|one, other| one.0.total_cmp(&other.0));
    let pairs = chances.len();
    for (place, (chance, of)) in chances.into_iter().enumerate() {
        if chance > level / count(pairs - place) {
            break;
        }
        if let Some(told) = differences.get_mut(of) {
            told.call = if told.difference > 0.0 {
                Call::FirstHigher
            } else {
                Call::SecondHigher
            };
        }
    }
    differences
}

/// Half of the 90 % interval of the difference, and the chance of one as far from
/// nothing where there is none.
fn welch(one: &Figures, other: &Figures) -> (f64, f64) {
    let (of_one, of_other) = (one.of_mean(), other.of_mean());
    let variance = of_one + of_other;
    let part = |group: &Figures, of: f64| of * of / (count(group.tests) - 1.0);
    let freedom = variance * variance / (part(one, of_one) + part(other, of_other));
    let difference = (one.mean - other.mean).abs();
    let error = variance.sqrt();
    let chance = match StudentsT::new(0.0, 1.0, freedom) {
        Ok(student) if error > 0.0 => 2.0 * student.cdf(-difference / error),
        // Without any spread the smallest difference is one.
        _ if difference > 0.0 => 0.0,
        _ => 1.0,
    };
    (student(freedom, 0.1) * error, chance)
}

#[cfg(test)]
mod tests {
    use decision::spread::normal_deviates;
    use proptest::prelude::*;

    use super::*;

    const LEVEL: f64 = 0.1;

    fn groups(figures: &[&[f64]]) -> BTreeMap<String, Vec<f64>> {
        let names = ["a", "b", "c", "d", "e", "f"];
        names
            .iter()
            .zip(figures)
            .map(|(name, figures)| ((*name).to_owned(), figures.to_vec()))
            .collect()
    }

    /// Groups of so many sides, each `off` its own amount and with a spread of
    /// four points.
    fn drawn(index: u64, sizes: &[usize], off: &[f64]) -> BTreeMap<String, Vec<f64>> {
        let mut deviates = vec![0.0; sizes.iter().sum()];
        normal_deviates(17, index, &mut deviates);
        let mut deviates = deviates.into_iter();
        let figures: Vec<Vec<f64>> = sizes
            .iter()
            .zip(off)
            .map(|(size, off)| {
                deviates
                    .by_ref()
                    .take(*size)
                    .map(|it| off + 4.0 * it)
                    .collect()
            })
            .collect();
        let figures: Vec<&[f64]> = figures.iter().map(Vec::as_slice).collect();
        groups(&figures)
    }

    fn calls(standing: &Standing) -> usize {
        let is_call = |call: Call| matches!(call, Call::FirstHigher | Call::SecondHigher);
        standing
            .differences
            .iter()
            .filter(|difference| is_call(difference.call))
            .count()
    }

    // Welch's t by hand: 5, 6, 7, 8 and 1, 2, 3, 4: means 6.5 and 2.5, variance
    // 5⁄3 each, error √(5⁄6) = 0.9129, 6 degrees of freedom, t = 4.38; two-sided
    // 10 % of t(6) is 1.943 in any table.
    #[test]
    fn a_difference_has_the_interval_of_the_handbook() {
        let standing = compare(
            groups(&[&[5.0, 6.0, 7.0, 8.0], &[1.0, 2.0, 3.0, 4.0]]),
            LEVEL,
        );
        let [difference] = &standing.differences[..] else {
            panic!("one pair");
        };
        assert!((difference.difference - 4.0).abs() < 1e-12);
        let half = difference.half_width.expect("enough sides");
        assert!((half - 1.943 * 0.912_871).abs() < 0.001, "{half}");
        assert_eq!(difference.call, Call::FirstHigher);
        // Between: (2·4·4 − 5⁄3) ⁄ 4 = 7.583; within 5⁄3 ⁄ 4 = 0.417.
        let drawn = 7.583_333 / (7.583_333 + 0.416_667);
        assert!((standing.groups[0].estimate - (4.5 + drawn * 2.0)).abs() < 1e-5);
    }

    #[test]
    fn few_sides_say_nothing() {
        let standing = compare(groups(&[&[9.0, 9.1, 9.2], &[1.0, 2.0, 3.0, 4.0]]), LEVEL);
        assert_eq!(standing.groups[0].half_width, None);
        assert_eq!(standing.differences[0].call, Call::TooFew);
        assert!(compare(BTreeMap::new(), LEVEL).groups.is_empty());
    }

    #[test]
    fn equal_suppliers_are_told_apart_no_more_often_than_stated() {
        let runs = 4000_u64;
        let mut false_calls = 0_u32;
        for index in 0..runs {
            let standing = compare(drawn(index, &[4, 6, 9, 12, 20], &[0.0; 5]), LEVEL);
            false_calls += u32::from(calls(&standing) > 0);
        }
        let rate = 100.0 * f64::from(false_calls) / 4000.0;
        println!("{rate:.1} % of {runs} lists of five equal suppliers had any call");
        // The level is 10 %; its error over so many runs is half a point.
        assert!(rate <= 11.5, "{rate}");
    }

    #[test]
    fn a_supplier_that_pays_is_found_when_there_are_sides_enough() {
        let mut found = [0_u32; 2];
        for index in 0..1000 {
            for (place, size) in [10, 40].into_iter().enumerate() {
                let standing = compare(drawn(index, &[size; 3], &[3.0, 0.0, 0.0]), LEVEL);
                let is_first = |difference: &Difference| {
                    difference.groups[0] == 0 && difference.call == Call::FirstHigher
                };
                found[place] += u32::from(standing.differences.iter().any(is_first));
            }
        }
        println!(
            "three points better: found with ten sides each {} times in 1000, with forty {}",
            found[0], found[1]
        );
        assert!(found[0] > 200 && found[1] > 850, "{found:?}");
    }

    #[test]
    fn noise_is_drawn_to_the_mean() {
        let (mut drawn_off, mut plain_off) = (0.0, 0.0);
        for index in 0..500 {
            let standing = compare(drawn(index, &[5; 6], &[0.0; 6]), LEVEL);
            for group in &standing.groups {
                drawn_off += group.estimate * group.estimate;
                plain_off += group.mean * group.mean;
            }
        }
        assert!(drawn_off < 0.5 * plain_off, "{drawn_off} {plain_off}");
    }

    proptest! {
        #[test]
        fn any_figures_are_told_in_any_order(
            figures in prop::collection::vec(prop::collection::vec(-50_i32..50, 0..9), 0..6),
            turn in 0_usize..9,
        ) {
            let of = |turn: usize| {
                let all: Vec<Vec<f64>> = figures
                    .iter()
                    .map(|group| {
                        let mut group: Vec<f64> = group.iter().map(|it| f64::from(*it)).collect();
                        let middle = turn.min(group.len());
                        group.rotate_left(middle);
                        group
                    })
                    .collect();
                let all: Vec<&[f64]> = all.iter().map(Vec::as_slice).collect();
                compare(groups(&all), LEVEL)
            };
            let standing = of(0);
            prop_assert_eq!(&standing, &of(turn));
            for group in &standing.groups {
                prop_assert!(group.estimate.is_finite());
                prop_assert!(group.half_width.is_none_or(f64::is_finite));
            }
            for difference in &standing.differences {
                prop_assert!(difference.half_width.is_none_or(f64::is_finite));
            }
        }
    }
}
