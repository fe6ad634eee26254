//! Suppliers, farms, stock and seasons held against each other: no ranking, and
//! no difference that the sides explain by themselves.

use advice::steps::Steps;
use advice::{Bar, Block, Tone, blocks};
use notation::{number, price_with_unit};
use quantity::{Decimal, Rounding, Share, UnitPrice};
use scale::standing::FEWEST_SIDES;
use scale::{By, Call, Difference, Group, Measure, Standing, standing};
use wording::{say, text};

use crate::controls::{button, choice, note};
use crate::ledger::Ledger;
use crate::view::{GO, View};
use crate::visit::{Outcome, Visit};

/// The entry of what the tests are told apart by.
const BY: &str = "at.standing.by";

/// The entry of what they are held against each other by.
const MEASURE: &str = "at.standing.measure";

/// Of so many lists of equal suppliers one shows a difference, in percent.
const LEVEL: i64 = 10;

/// Half the width of the picture, in thousandths.
const HALF: f64 = 480.0;

/// The middle of the picture.
const BASE: u16 = 500;

/// Nothing is asked here but to look.
pub(crate) fn press(_: &mut Ledger, _: &mut Visit, _: &str, _: &str) -> Outcome {
    None
}

/// What the tests are told apart by, its id and its name.
fn bys() -> [(By, &'static str, String); 4] {
    [
        (By::Supplier, "supplier", text!("Supplier").to_owned()),
        (By::Farm, "farm", text!("Farm").to_owned()),
        (By::Stock, "stock", text!("Stock").to_owned()),
        (By::Season, "season", text!("Season of receipt").to_owned()),
    ]
}

/// What they are held against each other by, its id and its name.
fn measures() -> [(Measure, &'static str, String); 5] {
    let own = |text: &str| text.to_owned();
    [
        (Measure::Saleable, "saleable", own(text!("Saleable share"))),
        (Measure::Fat, "fat", own(text!("Fat"))),
        (Measure::Bone, "bone", own(text!("Bone and losses"))),
        (Measure::Margin, "margin", own(text!("Margin on sales"))),
        (
            Measure::Room,
            "room",
            own(text!("Walk-away price less price paid")),
        ),
    ]
}

/// What the figures are held against.
fn held_against(measure: Measure) -> &'static str {
    match measure {
        Measure::Saleable | Measure::Fat | Measure::Bone => text!(
            "In points of the side, against what the published yields expect of the same ways of cutting and the same stock: nobody is judged by how a side was cut."
        ),
        Measure::Margin => text!(
            "Share of sales left, as the report of each side says, at its own prices and labour."
        ),
        Measure::Room => text!(
            "What the side could have cost at its own prices and labour, less what was paid for it."
        ),
    }
}

/// The one of a list that is chosen; the first where none is.
fn chosen<T: Copy>(of: &[(T, &'static str, String)], id: &str) -> Option<T> {
    let found = of.iter().find(|(_, known, _)| *known == id);
    found.or(of.first()).map(|(value, _, _)| *value)
}

/// The view.
pub(crate) fn written(ledger: &Ledger, visit: &Visit, steps: &mut Steps) {
    if ledger.tests().is_empty() {
        note(steps, text!("No side was closed yet."));
        let weigh_in = format!("{GO}{}", View::WeighIn.id());
        button(steps, "offer", &weigh_in, text!("Weigh-in"));
        return;
    }
    let (bys, measures) = (bys(), measures());
    let offered = bys.clone().map(|(_, id, name)| (id, name));
    choice(steps, visit, (BY, text!("Told apart by"), ""), &offered);
    let offered = measures.clone().map(|(_, id, name)| (id, name));
    choice(
        steps,
        visit,
        (MEASURE, text!("Held against each other by"), ""),
        &offered,
    );
    let by = chosen(&bys, visit.entries.text(BY));
    let measure = chosen(&measures, visit.entries.text(MEASURE));
    let (Some(by), Some(measure)) = (by, measure) else {
        return;
    };
    note(steps, held_against(measure));
    let counted = ledger.tests().iter().filter(|(_, test)| !test.is_left_out);
    let standing = standing(
        ledger.catalogues().published,
        counted.map(|(_, test)| test),
        by,
        measure,
        Share::from_percent(Decimal::from(LEVEL)),
    );
    let figures = Figures { measure, visit };
    steps.raw(&blocks(&told(&standing, &figures)));
}

/// How the figures of a measure are written.
struct Figures<'a> {
    measure: Measure,
    visit: &'a Visit,
}

impl Figures<'_> {
    /// A mean. Shares are held against what is expected, so they have a sign.
    fn mean(&self, figure: f64) -> String {
        match self.measure {
            Measure::Margin => format!("{} %", tenths(figure)),
            _ => self.signed(figure),
        }
    }

    /// A difference, with its sign.
    fn signed(&self, figure: f64) -> String {
        let sign = if figure > 0.0 { "+" } else { "" };
        format!("{sign}{}", self.amount(figure))
    }

    /// How much it is.
    fn amount(&self, figure: f64) -> String {
        if self.measure == Measure::Room {
            let unit = self.visit.units.price();
            let price = UnitPrice::from_per_kg(decimal(figure));
            price_with_unit(price, unit, Rounding::HalfEven)
        } else {
            say!("{number} points", tenths(figure))
        }
    }

    /// From a low end to a high one.
    fn interval(&self, middle: f64, half: f64, said: impl Fn(&Self, f64) -> String) -> String {
        say!(
            "{low} to {high}",
            said(self, middle - half),
            said(self, middle + half)
        )
    }
}

fn decimal(figure: f64) -> Decimal {
    Decimal::try_from(figure).unwrap_or_default()
}

fn tenths(figure: f64) -> String {
    number(decimal(figure), 1, Rounding::HalfEven)
}

fn told(standing: &Standing, figures: &Figures) -> Vec<Block> {
    let mut all = Vec::new();
    if standing.untold > 0 {
        all.push(Block::Text(
            Tone::Note,
            say!(
                "Tests whose tag or report does not tell it, and which are left aside: {count}.",
                standing.untold
            ),
        ));
    }
    if standing.groups.is_empty() {
        all.push(Block::Text(
            Tone::Finding,
            text!("No test tells this yet.").to_owned(),
        ));
        return all;
    }
    all.extend(calls(standing, figures));
    all.push(picture(standing, figures));
    all.push(table(standing, figures));
    if !standing.differences.is_empty() {
        all.push(pairs(standing, figures));
    }
    for text in [
        text!(
            "In order of their names: an order by mean would be an order of chances. Each estimate is drawn towards the mean of all by as much as the sides stray by themselves; where nothing but that sets the groups apart, all estimates are the mean."
        ),
        text!(
            "A difference is called one only where it stands against all pairs together: among equal groups, at most one list in ten shows any (random effects: Searle et al., Variance Components; Welch 1947; Holm 1979; all from memory)."
        ),
    ] {
        all.push(Block::Text(Tone::Note, text.to_owned()));
    }
    all
}

/// Both groups of a pair.
fn both<'a>(standing: &'a Standing, pair: &Difference) -> Option<[&'a Group; 2]> {
    let [first, second] = pair.groups;
    Some([standing.groups.get(first)?, standing.groups.get(second)?])
}

/// Only what stands out of the noise is told as a finding.
fn calls(standing: &Standing, figures: &Figures) -> Vec<Block> {
    let finding = |pair: &Difference| {
        let [first, second] = both(standing, pair)?;
        let (higher, lower) = match pair.call {
            Call::FirstHigher => (first, second),
            Call::SecondHigher => (second, first),
            Call::TooFew | Call::Open => return None,
        };
        let (by, half) = (pair.difference.abs(), pair.half_width?);
        Some(say!(
            "{higher} lies above {lower} by {by}; 90 % interval {interval}.",
            higher.name,
            lower.name,
            figures.amount(by),
            figures.interval(by, half, Figures::signed)
        ))
    };
    let made: Vec<String> = standing.differences.iter().filter_map(finding).collect();
    if !made.is_empty() {
        let finding = |said| Block::Text(Tone::Finding, said);
        return made.into_iter().map(finding).collect();
    }
    let is_open = |pair: &&Difference| pair.call == Call::Open;
    let said = if standing.groups.len() < 2 {
        text!("There is one group alone: nothing to hold it against.").to_owned()
    } else if standing.differences.iter().any(|pair| is_open(&pair)) {
        text!("No difference that sides do not explain by themselves.").to_owned()
    } else {
        say!(
            "Too few sides to say: it takes at least {fewest} tests in each of two groups.",
            FEWEST_SIDES
        )
    };
    vec![Block::Text(Tone::Finding, said)]
}

/// The estimates as bars about the mean of all. The widest interval sets the
/// scale, so that what is noise looks small beside it.
fn picture(standing: &Standing, figures: &Figures) -> Block {
    let reach = |group: &Group| {
        let of_mean = (group.mean - standing.mean).abs() + group.half_width.unwrap_or(0.0);
        of_mean.max((group.estimate - standing.mean).abs())
    };
    let widest = standing.groups.iter().map(reach).fold(0.0, f64::max);
    let place = |estimate: f64| {
        let share = if widest > 0.0 {
            (estimate - standing.mean) / widest
        } else {
            0.0
        };
        let place = Decimal::from(BASE) + decimal(share * HALF).round();
        u16::try_from(place).unwrap_or(BASE)
    };
    let bars = standing
        .groups
        .iter()
        .map(|group| {
            let end = place(group.estimate);
            let text = figures.mean(group.estimate);
            Bar {
                label: group.name.clone(),
                ends: [end.min(BASE), end.max(BASE)],
                texts: if end < BASE {
                    [text, String::new()]
                } else {
                    [String::new(), text]
                },
            }
        })
        .collect();
    let caption = say!(
        "Estimates about the mean of all, {mean}",
        figures.mean(standing.mean)
    );
    Block::Bars(caption, BASE, bars)
}

fn table(standing: &Standing, figures: &Figures) -> Block {
    let heads = [
        text!("Group"),
        text!("Tests|how many"),
        text!("Mean"),
        text!("Estimate"),
        text!("90 % interval of the mean"),
    ];
    let rows = standing
        .groups
        .iter()
        .map(|group| {
            vec![
                group.name.clone(),
                group.tests.to_string(),
                figures.mean(group.mean),
                figures.mean(group.estimate),
                group.half_width.map_or_else(
                    || text!("too few sides to say").to_owned(),
                    |half| figures.interval(group.mean, half, Figures::mean),
                ),
            ]
        })
        .collect();
    Block::FoldedTable(
        text!("The groups as a table").to_owned(),
        heads.map(str::to_owned).to_vec(),
        rows,
    )
}

fn pairs(standing: &Standing, figures: &Figures) -> Block {
    let heads = [
        text!("Pair"),
        text!("Difference of the means"),
        text!("90 % interval"),
        text!("What can be said"),
    ];
    let rows = standing
        .differences
        .iter()
        .filter_map(|pair| {
            let [first, second] = both(standing, pair)?;
            Some(vec![
                say!("{first} less {second}", first.name, second.name),
                figures.signed(pair.difference),
                pair.half_width.map_or_else(
                    || "–".to_owned(),
                    |half| figures.interval(pair.difference, half, Figures::signed),
                ),
                match pair.call {
                    Call::TooFew => text!("too few sides to say").to_owned(),
                    Call::Open => text!("no difference that stands out").to_owned(),
                    Call::FirstHigher => say!("{name} lies above", first.name),
                    Call::SecondHigher => say!("{name} lies above", second.name),
                },
            ])
        })
        .collect();
    Block::FoldedTable(
        text!("Every pair as a table").to_owned(),
        heads.map(str::to_owned).to_vec(),
        rows,
    )
}
