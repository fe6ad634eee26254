//! How sure the answer is: sides drawn from the published spread.

use carcass::Catalogue;
use decision::spread::{Band, DrawModel, Histogram, KnownOfSide, Run, Summary};
use notation::{Units, percent};
use pricing::PricingError;
use quantity::{Decimal, PriceUnit, Rounding, Share, UnitPrice};
use wording::{say, text};

use crate::block::{Block, Column, Figure, Tone};
use crate::form::{Form, Label, Reach};
use crate::question::Question;

/// Draws of a step: few enough that a newer question never waits long.
const STEP: u32 = 500;

/// A run of draws with what it takes to tell what it says.
pub struct Spread {
    run: Run,
    draws: u32,
    sure: Share,
    target: Share,
    units: Units,
    source: String,
}

impl Spread {
    /// Sets up a run as the form has it.
    ///
    /// # Errors
    /// As [`Run::new`].
    pub fn new(question: &Question, form: &mut Form) -> Result<Self, PricingError> {
        let catalogue = question.case.catalogue;
        let known = known(form);
        let figure = known.figure(catalogue.spread());
        let mut model = DrawModel::published(catalogue, known);
        let label = |id, name, hint| Label { id, name, hint };
        model.saleable = form.percent(
            label(
                "saleable",
                text!("Saleable strays by"),
                text!("Points, one standard deviation."),
            ),
            model.saleable,
            Reach::None,
        );
        model.prices = form.percent(
            label(
                "prices",
                text!("Prices stray by"),
                text!("Percent, one standard deviation."),
            ),
            model.prices,
            Reach::None,
        );
        model.unsold = form.percent(
            label(
                "unsold",
                text!("Unsold strays by"),
                text!("Points, one standard deviation."),
            ),
            model.unsold,
            Reach::None,
        );
        let sure = form.percent(
            label(
                "sure",
                text!("How sure to be"),
                text!("That the side pays."),
            ),
            Share::from_percent(Decimal::from(90)),
            Reach::FromTo(50, 99),
        );
        let draws = form.choice(
            label(
                "draws",
                text!("Sides drawn"),
                text!("More take longer and tell finer."),
            ),
            ["10000", "1000", "100000"]
                .map(|draws| {
                    (
                        draws.to_owned(),
                        notation::number(draws.parse().unwrap_or_default(), 0, Rounding::HalfEven),
                    )
                })
                .into(),
        );
        let seed = form.choice(
            label(
                "seed",
                text!("Series"),
                text!("The same series gives the same figures on every device."),
            ),
            ["1", "2", "3", "4", "5"]
                .map(|seed| (seed.to_owned(), seed.to_owned()))
                .into(),
        );
        Ok(Self {
            run: Run::new(&question.case, &model, seed.parse().unwrap_or_default())?,
            draws: draws.parse().unwrap_or_default(),
            sure: sure.min(Share::WHOLE),
            target: question.case.shop.target_margin,
            units: question.units,
            source: source(catalogue, figure),
        })
    }

    /// Draws on; whether there is something new to show. The first step shows
    /// at once, then whenever four times as many have been drawn, and the last.
    pub fn step(&mut self) -> bool {
        let done = self
            .run
            .advance(STEP.min(self.draws.saturating_sub(self.run.done())));
        self.is_done() || (done / STEP).is_power_of_two() && (done / STEP).ilog2().is_multiple_of(2)
    }

    /// Whether all is drawn.
    pub fn is_done(&self) -> bool {
        self.run.done() >= self.draws
    }

    /// What the draws say so far.
    pub fn blocks(&self, catalogue: &Catalogue) -> Vec<Block> {
        let Some(summary) = self.run.summary(self.sure) else {
            return Vec::new();
        };
        let margins = self.run.margins();
        vec![
            Block::Text(Tone::Finding, self.finding(&summary)),
            Block::Figures(self.figures(&summary)),
            columns(&margins, self.target),
            Block::Text(Tone::Note, self.source.clone()),
            bins(&margins, summary.draws),
            self.cuts(catalogue, &summary),
        ]
    }

    fn unit(&self) -> PriceUnit {
        self.units.price()
    }

    fn offer(&self, price: UnitPrice) -> String {
        if price.is_positive() {
            notation::price_with_unit(price, self.unit(), Rounding::Down)
        } else {
            text!("nothing").to_owned()
        }
    }

    fn finding(&self, summary: &Summary) -> String {
        say!(
            "{chance} of {draws} sides drawn make the target of {target} (give or take {chance_error}). To be {sure} sure that it \
             pays, offer at most {offer}.",
            percent(summary.chance),
            notation::number(Decimal::from(summary.draws), 0, Rounding::HalfEven),
            percent(self.target),
            percent(summary.chance_error),
            percent(self.sure),
            self.offer(summary.offer)
        )
    }

    fn figures(&self, summary: &Summary) -> Vec<Figure> {
        let figure = |label: &str, text: String, beside: String| Figure {
            label: label.to_owned(),
            text,
            beside,
        };
        let margin = &summary.margin;
        let walk_away = &summary.walk_away;
        vec![
            figure(
                text!("Margin, middle"),
                percent(margin.middle),
                say!(
                    "9 in 10 between {low} and {high}",
                    percent(margin.low),
                    percent(margin.high)
                ),
            ),
            figure(
                text!("Walk-away price, middle"),
                self.offer(walk_away.middle),
                say!(
                    "9 in 10 between {low} and {high}",
                    self.offer(walk_away.low),
                    self.offer(walk_away.high)
                ),
            ),
            figure(
                text!("Left over, middle"),
                notation::money(summary.profit.middle),
                say!(
                    "9 in 10 between {low} and {high}",
                    notation::money(summary.profit.low),
                    notation::money(summary.profit.high)
                ),
            ),
        ]
    }

    fn cuts(&self, catalogue: &Catalogue, summary: &Summary) -> Block {
        let price = |price| notation::price(price, self.unit(), Rounding::HalfEven);
        let rows = summary
            .cuts
            .iter()
            .map(|cut| {
                let Band { low, middle, high } = cut.cost;
                vec![
                    catalogue[cut.product].name.clone(),
                    price(low),
                    price(middle),
                    price(high),
                ]
            })
            .collect();
        let per = self.unit().symbol();
        let heads = [text!("Cut").to_owned()]
            .into_iter()
            .chain(
                [
                    text!("5 in 100 below"),
                    text!("middle"),
                    text!("5 in 100 above"),
                ]
                .map(|of| say!("Cost {per}, {of}", per, of)),
            )
            .collect();
        Block::FoldedTable(text!("What each cut may cost").to_owned(), heads, rows)
    }
}

fn known(form: &mut Form) -> KnownOfSide {
    let choices = KnownOfSide::ALL.map(|known| {
        let (id, name) = named(known);
        (id.to_owned(), name.to_owned())
    });
    let chosen = form.choice(
        Label {
            id: "known",
            name: text!("Known of the side"),
            hint: text!("The more is known, the less it strays."),
        },
        choices.into(),
    );
    KnownOfSide::ALL
        .into_iter()
        .find(|known| named(*known).0 == chosen)
        .unwrap_or_default()
}

fn named(known: KnownOfSide) -> (&'static str, &'static str) {
    match known {
        KnownOfSide::Unknown => ("unknown", text!("Only how it was fed")),
        KnownOfSide::Herd => ("herd", text!("A herd you know")),
        KnownOfSide::FatAndWeight => ("measured", text!("Its fat depth and weight")),
    }
}

fn source(catalogue: &Catalogue, figure: &carcass::SpreadFigure) -> String {
    let name = catalogue
        .source_of_spread(figure)
        .map_or("", |source| source.title.as_str());
    say!(
        "A model: fatness is drawn first, saleable meat and bone give way to it, and single cuts \
         stray on top, always to the whole side. How far saleable meat strays: {name}, {words}.",
        name,
        figure.mark.words()
    )
}

/// The margins drawn as columns.
fn columns(margins: &Histogram, target: Share) -> Block {
    let most = margins.counts.iter().copied().max().unwrap_or(1).max(1);
    let target = as_float(target.percent());
    let columns = margins
        .counts
        .iter()
        .enumerate()
        .map(|(index, count)| Column {
            height: u16::try_from(u64::from(*count) * 1000 / u64::from(most)).unwrap_or(1000),
            falls_short: margins.edge(index) + margins.width / 2.0 < target,
        })
        .collect();
    Block::Columns(
        text!("Sides by their margin; outlined columns fall short of the target").to_owned(),
        [0, margins.counts.len()].map(|end| edge(margins.edge(end))),
        columns,
    )
}

fn bins(margins: &Histogram, draws: u32) -> Block {
    let rows = margins
        .counts
        .iter()
        .enumerate()
        .map(|(index, count)| {
            let share = Share::from_fraction(
                Decimal::from(*count)
                    .checked_div(Decimal::from(draws))
                    .unwrap_or_default(),
            );
            vec![
                say!(
                    "{low} to {high}",
                    edge(margins.edge(index)),
                    edge(margins.edge(index + 1))
                ),
                count.to_string(),
                percent(share),
            ]
        })
        .collect();
    Block::FoldedTable(
        text!("The columns as a table").to_owned(),
        [text!("Margin"), text!("Sides"), text!("Share|a column")]
            .map(str::to_owned)
            .into(),
        rows,
    )
}

/// An edge of a bin of percents.
fn edge(percent: f64) -> String {
    let number = Decimal::try_from(percent).unwrap_or_default();
    format!("{} %", notation::number(number, 1, Rounding::HalfEven))
}

/// For a place on a chart only.
fn as_float(number: Decimal) -> f64 {
    f64::try_from(number).unwrap_or_default()
}
