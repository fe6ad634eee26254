//! What is put on paper: the cutting sheet for the block, price cards for the
//! case, the cost sheet for the office.

use std::collections::BTreeMap;

use carcass::{Caution, Kind, Node, PartId, ProductId, WayId, What};
use draft::Draft;
use link::Scope;
use notation::{mass_with_unit, money, percent};
use pricing::Row;
use quantity::{PriceUnit, Rounding, UnitPrice};
use wording::{say, text};

use crate::question::Question;
use crate::share;
use crate::steps::Steps;

/// What can be put on paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Paper {
    /// Each part in order of cutting, with room for what the scale says.
    Cutting,
    /// A card for each cut in the case.
    Cards,
    /// Every cut with cost, price and margin.
    Costs,
}

impl Paper {
    /// Every paper.
    pub const ALL: [Self; 3] = [Self::Cutting, Self::Cards, Self::Costs];

    /// What it is called.
    pub fn name(self) -> &'static str {
        match self {
            Self::Cutting => text!("Cutting sheet"),
            Self::Cards => text!("Price cards"),
            Self::Costs => text!("Cost sheet"),
        }
    }

    /// What its link holds: no more than its reader is to see. What the shop
    /// pays is nobody's business at the block and in the case.
    const fn scope(self) -> Scope {
        match self {
            Self::Cutting | Self::Cards => Scope::Plan,
            Self::Costs => Scope::Prices,
        }
    }
}

/// What a person writes on a paper.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Heading {
    /// What the side is called.
    pub title: String,
    /// Its lot or tag.
    pub lot: String,
    /// What is claimed of the meat on price cards, such as how it was fed;
    /// nothing unless a person says so.
    pub claim: String,
    /// The day.
    pub date: String,
    /// The address of the app.
    pub address: String,
    /// The lot code of each cut, where the side has any.
    pub codes: BTreeMap<ProductId, String>,
}

/// The paper as a piece of the page.
pub fn written(question: &Question, draft: &Draft, paper: Paper, heading: &Heading) -> String {
    let mut steps = Steps::default();
    head(&mut steps, question, draft, paper, heading);
    match paper {
        Paper::Cutting => cutting(&mut steps, question, &heading.codes),
        Paper::Cards => cards(&mut steps, question, heading),
        Paper::Costs => costs(&mut steps, question),
    }
    steps.written()
}

fn head(steps: &mut Steps, question: &Question, draft: &Draft, paper: Paper, heading: &Heading) {
    let catalogue = question.case.catalogue;
    let code = match share::made(catalogue, draft, paper.scope(), None) {
        Ok(text) => share::picture(&format!("{}#{text}", heading.address)),
        Err(why) => why_no_code(&why),
    };
    let plan = catalogue.plan(&draft.plan);
    let plan = plan.map_or(draft.plan.as_str(), |plan| plan.name.as_str());
    let lot = if heading.lot.is_empty() {
        String::new()
    } else {
        say!("Lot or tag: {lot}", heading.lot)
    };
    let mut side = mass_with_unit(question.sheet.totals.chilled, question.units);
    if paper == Paper::Costs {
        side = format!("{side}, {}", question.price(question.case.deal.price));
    }
    steps.element("div", &[("class", "paper-head")], |steps| {
        steps.element("div", &[], |steps| {
            steps.holding("h3", &[], &format!("{}: {}", paper.name(), heading.title));
            for line in [
                say!(
                    "{date}. Chilled side: {side}. Plan: {plan}.",
                    heading.date,
                    side,
                    plan
                ),
                lot,
            ] {
                if !line.is_empty() {
                    steps.holding("p", &[], &line);
                }
            }
        });
        steps.raw(&code);
    });
}

/// What stands in the place of a code that cannot be.
fn why_no_code(why: &str) -> String {
    let mut steps = Steps::default();
    steps.holding("p", &[("class", "note")], why);
    steps.written()
}

/// Parts in the order in which they are cut: a part before what comes off it.
fn cutting(steps: &mut Steps, question: &Question, codes: &BTreeMap<ProductId, String>) {
    let catalogue = question.case.catalogue;
    let nodes = question.sheet.breakdown.nodes();
    let mut cautions: Vec<&Caution> = Vec::new();
    for (index, node) in nodes.iter().enumerate() {
        let What::Part { part, way } = node.what else {
            continue;
        };
        let here: Vec<&Caution> = catalogue
            .cautions_of(way)
            .filter(|caution| question.case.deal.age.counts_as_older() || !caution.is_prominent)
            .collect();
        for caution in &here {
            if !cautions.iter().any(|known| known.id == caution.id) {
                cautions.push(caution);
            }
        }
        part_table(steps, question, (index, node), (part, way), &here, codes);
    }
    steps.holding("h3", &[], text!("Care"));
    for caution in cautions {
        steps.element("p", &[], |steps| {
            steps.holding("strong", &[], &format!("{}. ", caution.title));
            steps.holding("span", &[], &caution.text);
        });
    }
}

fn part_table(
    steps: &mut Steps,
    question: &Question,
    (index, node): (usize, &Node),
    (part, way): (PartId, WayId),
    cautions: &[&Caution],
    codes: &BTreeMap<ProductId, String>,
) {
    let catalogue = question.case.catalogue;
    let units = question.units;
    let minutes = notation::minutes(question.sheet.time.of_piece(index));
    steps.element("table", &[("class", "paper-part")], |steps| {
        steps.element("caption", &[], |steps| {
            steps.holding(
                "strong",
                &[],
                &format!(
                    "{}, {}",
                    catalogue[part].name,
                    mass_with_unit(node.weight, units)
                ),
            );
            steps.holding(
                "span",
                &[],
                &format!(": {}. {minutes} min.", catalogue[way].name),
            );
            if !cautions.is_empty() {
                let names: Vec<_> = cautions
                    .iter()
                    .map(|caution| caution.title.as_str())
                    .collect();
                steps.holding("span", &[], &say!(" Care: {cautions}.", names.join(", ")));
            }
        });
        steps.element("thead", &[], |steps| {
            steps.element("tr", &[], |steps| {
                for head in [
                    text!("Comes off"),
                    text!("Item"),
                    text!("Expected"),
                    text!("Weighed"),
                ] {
                    steps.holding("th", &[("scope", "col")], head);
                }
            });
        });
        steps.element("tbody", &[], |steps| {
            let below = question.sheet.breakdown.nodes().iter();
            for child in below.filter(|child| child.parent == Some(index)) {
                let (name, item, code) = match child.what {
                    What::Part { part, .. } => {
                        let name = say!("{part} (goes on below)", catalogue[part].name);
                        (name, None, None)
                    }
                    What::Product(id) => {
                        let product = &catalogue[id];
                        (product.name.clone(), product.item.clone(), codes.get(&id))
                    }
                };
                steps.element("tr", &[], |steps| {
                    steps.element("th", &[("scope", "row")], |steps| {
                        steps.text(&name);
                        if let Some(code) = code {
                            steps.holding("div", &[("class", "lot")], code);
                        }
                    });
                    steps.holding("td", &[], &item.unwrap_or_default());
                    steps.holding("td", &[], &mass_with_unit(child.weight, units));
                    steps.empty("td", &[("class", "weighed")]);
                });
            }
        });
    });
}

/// The board price of every cut. A sample says that it is one, so that no
/// invented price gets into a case unseen.
fn cards(steps: &mut Steps, question: &Question, heading: &Heading) {
    let claim = &heading.claim;
    let catalogue = question.case.catalogue;
    let board = &question.case.shop.board;
    let cut = |price: UnitPrice, unit| notation::price_with_unit(price, unit, Rounding::HalfEven);
    steps.element("div", &[("class", "cards")], |steps| {
        for row in question.sheet.rows.iter().filter(|row| !row.is_by_product) {
            if catalogue[row.product].kind != Kind::Cut {
                continue;
            }
            steps.element("div", &[("class", "price-card")], |steps| {
                steps.holding("strong", &[], &catalogue[row.product].name);
                steps.holding(
                    "p",
                    &[("class", "price")],
                    &cut(row.price, question.price_unit()),
                );
                let others = [
                    PriceUnit::PerKilogram,
                    PriceUnit::Per100Gram,
                    PriceUnit::PerPound,
                ]
                .into_iter()
                .filter(|unit| *unit != question.price_unit())
                .map(|unit| cut(row.price, unit));
                steps.holding("p", &[], &others.collect::<Vec<_>>().join(" · "));
                if !claim.is_empty() {
                    steps.holding("p", &[], claim);
                }
                if let Some(code) = heading.codes.get(&row.product) {
                    steps.holding("p", &[("class", "lot")], code);
                }
                if board.is_sample(row.product) {
                    steps.holding(
                        "p",
                        &[("class", "mark")],
                        text!("Sample price: not for the case."),
                    );
                }
            });
        }
    });
}

fn costs(steps: &mut Steps, question: &Question) {
    let catalogue = question.case.catalogue;
    let sheet = &question.sheet;
    let per = question.per();
    let units = question.units;
    steps.element("table", &[("class", "paper-costs")], |steps| {
        steps.element("thead", &[], |steps| {
            steps.element("tr", &[], |steps| {
                for head in [
                    text!("Cut").to_owned(),
                    text!("Weight").to_owned(),
                    text!("Share|a column").to_owned(),
                    text!("Cost").to_owned(),
                    say!("Cost {per}", per),
                    say!("Board {per}", per),
                    text!("Sales").to_owned(),
                    text!("Margin").to_owned(),
                    say!("Suggested {per}", per),
                ] {
                    steps.holding("th", &[("scope", "col")], &head);
                }
            });
        });
        steps.element("tbody", &[], |steps| {
            for row in &sheet.rows {
                let margin = row.margin.filter(|_| !row.is_by_product);
                steps.element("tr", &[], |steps| {
                    steps.holding("th", &[("scope", "row")], &catalogue[row.product].name);
                    for cell in [
                        mass_with_unit(row.weight, units),
                        notation::share(row.share),
                        money(row.cost),
                        question.bare_price(row.cost_per_mass),
                        board_price(question, row),
                        money(row.sales),
                        margin.map_or_else(|| "–".to_owned(), percent),
                        row.suggested.map_or_else(
                            || "–".to_owned(),
                            |price| notation::price(price, question.price_unit(), Rounding::Up),
                        ),
                    ] {
                        steps.holding("td", &[], &cell);
                    }
                });
            }
        });
    });
    let totals = &sheet.totals;
    let verdict = &sheet.verdict;
    steps.element("dl", &[("class", "findings")], |steps| {
        for (name, text) in [
            (text!("Spend").to_owned(), money(totals.spend())),
            (text!("Sales").to_owned(), money(totals.sales)),
            (text!("By-products").to_owned(), money(totals.by_products)),
            (text!("Margin").to_owned(), percent(verdict.margin)),
            (
                say!("Walk-away {per}", per),
                question.bare_offer(verdict.walk_away),
            ),
        ] {
            steps.element("div", &[], |steps| {
                steps.holding("dt", &[], &name);
                steps.holding("dd", &[], &text);
            });
        }
    });
    if sheet
        .rows
        .iter()
        .any(|row| question.case.shop.board.is_sample(row.product))
    {
        let samples = text!("* A sample, not a price of your own.");
        steps.holding("p", &[], samples);
    }
    let yields = format!("{}: {}", text!("Yields"), yields(question));
    steps.holding("p", &[], &yields);
}

/// The board price of a row, marked where it is a sample.
fn board_price(question: &Question, row: &Row) -> String {
    let price = question.bare_price(Some(row.price));
    if question.case.shop.board.is_sample(row.product) {
        format!("{price} *")
    } else {
        price
    }
}

/// Which yields are the shop's own, by the parts that they are of.
fn yields(question: &Question) -> String {
    let catalogue = question.case.catalogue;
    let stock = question.case.deal.stock;
    let (mut all, mut own) = (0, 0);
    let mut parts: Vec<&str> = Vec::new();
    for node in question.sheet.breakdown.nodes() {
        let What::Part { part, way } = node.what else {
            continue;
        };
        all += 1;
        if catalogue[way].own.counts_at(stock) {
            own += 1;
            // A part that is cut in two ways is told once.
            let name = catalogue[part].name.as_str();
            if !parts.contains(&name) {
                parts.push(name);
            }
        }
    }
    if own == 0 {
        return text!("as published, none of your own").to_owned();
    }
    say!(
        "your own for {own} of {all} parts: {parts}. All others are published.",
        own,
        all,
        parts.join(", ")
    )
}

#[cfg(test)]
mod tests {
    use carcass::{Catalogue, StockEnd};
    use draft::{Field, reading};

    use super::*;

    fn paper(paper: Paper, draft: &Draft) -> String {
        let catalogue = Catalogue::published().expect("published data");
        paper_by(&catalogue, paper, draft)
    }

    fn paper_by(catalogue: &Catalogue, paper: Paper, draft: &Draft) -> String {
        let document = reading::read(draft, catalogue).expect("a plan");
        let question = Question::about(catalogue, &document, draft.units).expect("a question");
        let heading = Heading {
            title: "Hill farm".to_owned(),
            lot: "A-17".to_owned(),
            claim: String::new(),
            date: "9 May 2026".to_owned(),
            address: "https://shop.example/".to_owned(),
            codes: BTreeMap::new(),
        };
        written(&question, draft, paper, &heading)
    }

    fn sample() -> Draft {
        let mut draft = Draft::default();
        draft.fill_in_sample();
        draft
    }

    #[test]
    fn every_paper_says_what_it_is_of() {
        for kind in Paper::ALL {
            let piece = paper(kind, &sample());
            for text in [
                &*format!("\"{}: Hill farm", kind.name()),
                "9 May 2026",
                "Lot or tag: A-17",
                "=aria-label The link as a QR code",
            ] {
                assert!(piece.contains(text), "{text}: {piece}");
            }
        }
    }

    #[test]
    fn the_cost_sheet_says_what_was_paid_with_currency_and_unit() {
        let mut draft = sample();
        draft.type_into(Field::Price, "8,255".to_owned());
        assert!(paper(Paper::Costs, &draft).contains("kg, $8.26/kg. Plan: "));
        draft.type_into(Field::Price, "4.00/lb".to_owned());
        assert!(paper(Paper::Costs, &draft).contains("kg, $8.82/kg. Plan: "));
        assert!(!paper(Paper::Cutting, &draft).contains("/kg. Plan: "));
    }

    #[test]
    fn what_is_of_no_use_and_cannot_be_read_is_not_in_the_code_of_a_paper() {
        let mut draft = sample();
        let clean = paper(Paper::Costs, &draft);
        draft.type_into(Field::Shrink, "some".to_owned());
        assert_eq!(paper(Paper::Costs, &draft), clean);
    }

    #[test]
    fn the_cutting_sheet_has_a_box_for_everything_that_comes_off() {
        let catalogue = Catalogue::published().expect("published data");
        let mut draft = sample();
        draft.plan = "bone-in".to_owned();
        let document = reading::read(&draft, &catalogue).expect("a plan");
        let question = Question::about(&catalogue, &document, draft.units).expect("a question");
        let nodes = question.sheet.breakdown.nodes();
        let piece = paper(Paper::Cutting, &draft);
        let boxes = piece.matches("=class weighed").count();
        // All but the side itself.
        assert_eq!(boxes, nodes.len() - 1);
        assert!(piece.contains("Back bone of older cattle"), "{piece}");
    }

    #[test]
    fn a_sample_price_is_marked_on_its_card() {
        let mut draft = sample();
        let marked = |draft: &Draft| {
            paper(Paper::Cards, draft)
                .matches("Sample price: not for the case.")
                .count()
        };
        let all = marked(&draft);
        draft.type_into(Field::Board("ground-beef".to_owned()), "17.49".to_owned());
        assert_eq!(marked(&draft), all - 1);
        assert!(paper(Paper::Cards, &draft).contains("\"$17.49/kg"));
    }

    #[test]
    fn the_cost_sheet_says_which_figures_are_the_shops_own() {
        let mut draft = sample();
        let published = paper(Paper::Costs, &draft);
        assert!(
            published.contains("\"Yields: as published, none of your own\n"),
            "{published}"
        );
        let marked = |piece: &str| piece.matches(" *\n").count();
        let samples = marked(&published);
        draft.type_into(Field::Board("ground-beef".to_owned()), "17.49".to_owned());
        assert_eq!(marked(&paper(Paper::Costs, &draft)), samples - 1);
        assert!(published.contains("\"* A sample, not a price of your own.\n"));

        let mut own = Catalogue::published().expect("published data");
        let rib = own.part_id("rib").expect("a part");
        let document = reading::read(&draft, &own).expect("a plan");
        for way in own[rib].ways.clone() {
            let shares: Vec<_> = own[way].shares_at(StockEnd::Grain).collect();
            own.set_own_shares(way, StockEnd::Grain, &shares)
                .expect("they sum up");
        }
        let parts = Question::about(&own, &document, draft.units)
            .expect("a question")
            .sheet
            .breakdown
            .nodes()
            .iter()
            .filter(|node| matches!(node.what, What::Part { .. }))
            .count();
        let said =
            format!("\"Yields: your own for 1 of {parts} parts: Rib. All others are published.\n");
        let piece = paper_by(&own, Paper::Costs, &draft);
        assert!(piece.contains(&said), "{piece}");
    }

    #[test]
    fn the_cost_sheet_has_a_line_for_every_line() {
        let piece = paper(Paper::Costs, &sample());
        assert!(piece.contains("\"Walk-away /kg"), "{piece}");
        let draft = sample();
        let asked = draft.entry(&Field::Price).with_unit("/");
        assert!(piece.contains(&asked), "{asked}");
        for kind in [Paper::Cutting, Paper::Cards] {
            assert!(!paper(kind, &draft).contains(&asked), "{kind:?}");
            let link = link::read(&link::write(&draft, kind.scope())).expect("a link");
            let opened = link.onto(&Draft::default()).expect("a draft");
            assert_eq!(opened.entry(&Field::Price).text, "");
        }
    }
}
