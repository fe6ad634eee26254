//! Where requests are worked off, one small step at a time.

use std::collections::BTreeMap;

use carcass::Catalogue;

use crate::answer::{Answer, Control};
use crate::block::{Block, Tone};
use crate::form::Form;
use crate::panels::spread::Spread;
use crate::panels::{bars, best_plan, break_even, comparison, grid, stocks, trial};
use crate::question::Question;
use crate::request::{Panel, Request};

/// A desk with requests on it. A newer request of a panel takes the place of
/// an older one, finished or not.
pub struct Desk {
    catalogue: Catalogue,
    waiting: BTreeMap<Panel, Request>,
    drawing: Option<Drawing>,
}

/// Draws that go on between other work.
struct Drawing {
    spread: Spread,
    entries: BTreeMap<String, String>,
    controls: Vec<Control>,
}

impl Desk {
    /// An empty desk.
    pub fn new(catalogue: Catalogue) -> Self {
        Self {
            catalogue,
            waiting: BTreeMap::new(),
            drawing: None,
        }
    }

    /// The data it works with.
    pub fn catalogue(&self) -> &Catalogue {
        &self.catalogue
    }

    /// Puts a request on the desk.
    pub fn ask(&mut self, request: Request) {
        if request.panel == Panel::Spread {
            self.drawing = None;
        }
        self.waiting.insert(request.panel, request);
    }

    /// Whether there is nothing to do.
    pub fn is_idle(&self) -> bool {
        self.waiting.is_empty() && self.drawing.is_none()
    }

    /// Does the next step and gives what there is to show after it. Draws wait
    /// until every other question is answered, but for their first step.
    pub fn step(&mut self) -> Option<Answer> {
        let Some((_, request)) = self.waiting.pop_first() else {
            return self.draw_on();
        };
        let mut form = Form::new(&request.entries, request.units);
        let read = Question::read(&self.catalogue, &request);
        let blocks = if request.panel == Panel::Spread {
            let spread = read.and_then(|question| {
                Spread::new(&question, &mut form).map_err(|error| error.to_string())
            });
            match spread {
                Err(trouble) => Err(trouble),
                Ok(spread) => {
                    self.drawing = Some(Drawing {
                        spread,
                        controls: form.into_controls(),
                        entries: request.entries,
                    });
                    return self.draw_on();
                }
            }
        } else {
            read.and_then(|question| blocks(request.panel, &question, &mut form))
        };
        Some(Answer {
            panel: request.panel,
            controls: form.into_controls(),
            entries: request.entries,
            blocks: blocks.unwrap_or_else(|trouble| vec![Block::Text(Tone::Trouble, trouble)]),
            is_final: true,
        })
    }

    fn draw_on(&mut self) -> Option<Answer> {
        let drawing = self.drawing.as_mut()?;
        let is_news = drawing.spread.step();
        let is_final = drawing.spread.is_done();
        let answer = is_news.then(|| Answer {
            panel: Panel::Spread,
            entries: drawing.entries.clone(),
            controls: drawing.controls.clone(),
            blocks: drawing.spread.blocks(&self.catalogue),
            is_final,
        });
        if is_final {
            self.drawing = None;
        }
        answer
    }
}

fn blocks(panel: Panel, question: &Question, form: &mut Form) -> Result<Vec<Block>, String> {
    match panel {
        Panel::Trial => trial::answer(question, form),
        Panel::Stocks => stocks::answer(question),
        Panel::Bars => bars::answer(question, form),
        Panel::BreakEven => break_even::answer(question),
        Panel::Grid => grid::answer(question, form),
        Panel::Comparison => return comparison::answer(question, form),
        // Drawn step by step.
        Panel::Spread => Ok(Vec::new()),
        Panel::BestPlan => {
            return best_plan::answer(question, form).map_err(|error| error.to_string());
        }
    }
    .map_err(|error| error.to_string())
}

#[cfg(test)]
mod tests {
    use document::Document;
    use notation::Units;

    use super::*;
    use crate::answer::{ControlKind, Write};

    fn request(panel: Panel, entries: &[(&str, &str)]) -> Request {
        Request {
            panel,
            document: Document::sample(),
            units: Units::Kilograms,
            entries: entries
                .iter()
                .map(|(id, text)| ((*id).to_owned(), (*text).to_owned()))
                .collect(),
        }
    }

    fn ask(panel: Panel, entries: &[(&str, &str)]) -> Answer {
        let mut desk = Desk::new(Catalogue::published().expect("published data"));
        desk.ask(request(panel, entries));
        desk.step().expect("an answer")
    }

    fn texts(answer: &Answer) -> Vec<&str> {
        answer
            .blocks
            .iter()
            .filter_map(|block| match block {
                Block::Text(_, text) => Some(text.as_str()),
                _ => None,
            })
            .collect()
    }

    fn has_trouble(answer: &Answer) -> bool {
        answer
            .blocks
            .iter()
            .any(|block| matches!(block, Block::Text(Tone::Trouble, _)))
    }

    fn figures(answer: &Answer) -> Vec<(&str, &str, &str)> {
        answer
            .blocks
            .iter()
            .filter_map(|block| match block {
                Block::Figures(figures) => Some(figures),
                _ => None,
            })
            .flatten()
            .map(|figure| {
                (
                    figure.label.as_str(),
                    figure.text.as_str(),
                    figure.beside.as_str(),
                )
            })
            .collect()
    }

    fn fault<'a>(answer: &'a Answer, id: &str) -> Option<&'a str> {
        let control = answer.controls.iter().find(|control| control.id == id);
        control.expect("a control").fault.as_deref()
    }

    #[test]
    fn every_panel_answers_about_the_sample_without_trouble() {
        for panel in Panel::ALL {
            let answer = ask(panel, &[]);
            assert_eq!(answer.panel, panel);
            assert!(!answer.blocks.is_empty(), "{panel:?}");
            assert!(!has_trouble(&answer), "{panel:?}: {:?}", texts(&answer));
            for control in &answer.controls {
                assert_eq!(control.fault, None, "{panel:?} {}", control.id);
            }
        }
    }

    #[test]
    fn an_untouched_trial_is_the_plan_and_a_moved_one_stands_beside_it() {
        let untouched = ask(Panel::Trial, &[]);
        for (label, text, beside) in figures(&untouched) {
            assert_eq!(beside, format!("plan {text}"), "{label}");
        }
        let moved = ask(Panel::Trial, &[("price", "9")]);
        let (before, after) = (figures(&untouched), figures(&moved));
        assert_ne!(before[0], after[0]);
        assert_eq!(before[0].2, after[0].2);
        // The walk-away price does not depend on what is asked.
        assert_eq!(before[1], after[1]);
    }

    #[test]
    fn what_is_tried_can_be_taken_over_in_the_units_in_force() {
        let answer = ask(
            Panel::Trial,
            &[
                ("price", "9.5"),
                ("stock", "40"),
                ("minutes", "200"),
                ("cut", "ribeye-steak"),
                ("price-ribeye-steak", "61"),
                ("saleable", "-1"),
            ],
        );
        let writes = answer.blocks.iter().find_map(|block| match block {
            Block::Offer(_, writes) => Some(writes.clone()),
            _ => None,
        });
        let field = |id: &str, text: &str| Write::Field(id.to_owned(), text.to_owned());
        assert_eq!(
            writes.expect("an offer"),
            [
                field("side-price", "9.5"),
                Write::GrassPercent(40),
                field("labour-minutes", "200"),
                field("price-ribeye-steak", "61"),
            ]
        );
    }

    #[test]
    fn what_cannot_be_read_is_named_and_the_plan_stands_in() {
        let answer = ask(Panel::Trial, &[("price", "nine"), ("saleable", "−2")]);
        assert!(fault(&answer, "price").is_some());
        assert_eq!(fault(&answer, "saleable"), None);
        assert!(!has_trouble(&answer));
        assert_eq!(
            figures(&answer),
            figures(&ask(Panel::Trial, &[("saleable", "-2")]))
        );
    }

    #[test]
    fn a_plan_that_cannot_be_read_is_told() {
        let mut desk = Desk::new(Catalogue::published().expect("published data"));
        let mut unknown = Document::sample();
        unknown.plan.base = "no such plan".to_owned();
        for panel in Panel::ALL {
            desk.ask(Request {
                document: unknown.clone(),
                ..request(panel, &[])
            });
        }
        while let Some(answer) = desk.step() {
            assert!(has_trouble(&answer), "{:?}", answer.panel);
        }
        assert!(desk.is_idle());
    }

    #[test]
    fn a_newer_request_takes_the_place_of_an_older_one() {
        let mut desk = Desk::new(Catalogue::published().expect("published data"));
        desk.ask(request(Panel::Trial, &[("price", "20")]));
        desk.ask(request(Panel::Stocks, &[]));
        desk.ask(request(Panel::Trial, &[("price", "9")]));
        assert_eq!(desk.step(), Some(ask(Panel::Trial, &[("price", "9")])));
        assert_eq!(desk.step().map(|answer| answer.panel), Some(Panel::Stocks));
        assert!(desk.is_idle());
        assert_eq!(desk.step(), None);
    }

    fn rows(answer: &Answer) -> Vec<Vec<String>> {
        let tables = answer.blocks.iter().filter_map(|block| match block {
            Block::Table(_, _, rows) | Block::FoldedTable(_, _, rows) => Some(rows.clone()),
            Block::Grid(_, _, _, rows) => Some(
                rows.iter()
                    .map(|row| {
                        let cells = row.cells.iter().map(|cell| cell.text.clone());
                        [row.label.clone()].into_iter().chain(cells).collect()
                    })
                    .collect(),
            ),
            _ => None,
        });
        tables.flatten().collect()
    }

    #[test]
    fn every_panel_names_the_walk_away_price_of_the_verdict() {
        let catalogue = Catalogue::published().expect("published data");
        let mut document = Document::sample();
        let mut is_cut_down = false;
        for (units, target) in [Units::Kilograms, Units::Pounds]
            .into_iter()
            .flat_map(|units| ["28", "29", "30", "31"].map(|target| (units, target)))
        {
            target.clone_into(&mut document.shop.target_margin_percent);
            let question = Question::about(&catalogue, &document, units);
            let question = question.expect("a plan");
            let walk_away = question.sheet.verdict.walk_away;
            let offer = question.offer(walk_away);
            let asked = |panel| {
                let mut desk = Desk::new(catalogue.clone());
                desk.ask(Request {
                    units,
                    document: document.clone(),
                    ..request(panel, &[("by", "walk-away")])
                });
                desk.step().expect("an answer")
            };
            let price = rows(&asked(Panel::BreakEven))
                .into_iter()
                .find(|row| row[0] == "Side price")
                .expect("the side price");
            assert_eq!(price[2], format!("up to {offer}"));
            // The row in the middle is the plan.
            let grid = rows(&asked(Panel::Grid));
            assert_eq!(grid[3].last(), Some(&format!("up to {offer}")));
            let bars = asked(Panel::Bars).blocks;
            let caption = bars.iter().find_map(|block| match block {
                Block::Bars(caption, ..) => Some(caption.as_str()),
                _ => None,
            });
            assert!(caption.expect("bars").ends_with(&offer), "{caption:?}");
            is_cut_down |= question.price(walk_away) != offer;
        }
        assert!(is_cut_down, "the nearest cent is always the one below");
    }

    #[test]
    fn the_picture_of_the_draws_ends_where_its_last_column_ends() {
        let answer = whole(&[("draws", "1000")]);
        let ends = answer.blocks.iter().find_map(|block| match block {
            Block::Columns(_, ends, _) => Some(ends.clone()),
            _ => None,
        });
        let [first, last] = ends.expect("columns");
        let bins: Vec<String> = rows(&answer)
            .into_iter()
            .map(|row| row[0].clone())
            .filter(|bin| bin.contains(" % to "))
            .collect();
        assert!(bins[0].starts_with(&format!("{first} to ")), "{bins:?}");
        let end = bins.last().expect("a bin");
        assert!(end.ends_with(&format!(" to {last}")), "{last}: {end}");
    }

    #[test]
    fn the_low_end_of_a_bar_can_be_set_and_stays_set_while_another_is_shown() {
        let ends = |entries: &[(&str, &str)]| {
            let answer = ask(Panel::Bars, entries);
            let bars = answer.blocks.iter().find_map(|block| match block {
                Block::Bars(_, _, bars) => Some(bars.clone()),
                _ => None,
            });
            let bars = bars.expect("bars");
            let bar = bars.iter().find(|bar| bar.label == "Side price");
            bar.expect("a bar").texts.clone()
        };
        assert_ne!(ends(&[])[0], "$5.00/kg");
        assert_eq!(ends(&[("low-price", "5")])[0], "$5.00/kg");
        assert_eq!(ends(&[("low-price", "5"), ("of", "weight")])[0], "$5.00/kg");
    }

    #[test]
    fn a_grid_with_one_figure_on_both_sides_says_so() {
        let entries = [("down", "price"), ("across", "price")];
        assert!(has_trouble(&ask(Panel::Grid, &entries)));
    }

    #[test]
    fn sliders_hold_what_they_stand_for() {
        for control in ask(Panel::Trial, &[]).controls {
            if let ControlKind::Slider(ends) = &control.kind {
                let [low, high, step] = ends.each_ref().map(|text| text.parse::<f64>().unwrap());
                let stands: f64 = control.text.parse().unwrap();
                assert!(low <= stands && stands <= high && step > 0.0, "{control:?}");
            }
        }
    }

    #[test]
    fn draws_show_a_first_answer_early_and_let_other_questions_by() {
        let mut desk = Desk::new(Catalogue::published().expect("published data"));
        desk.ask(request(Panel::Spread, &[]));
        let first = desk.step().expect("a first answer");
        assert!(!first.is_final && !first.blocks.is_empty());
        desk.ask(request(Panel::Trial, &[]));
        assert_eq!(desk.step().map(|answer| answer.panel), Some(Panel::Trial));
        let mut answers = Vec::new();
        while !desk.is_idle() {
            answers.extend(desk.step());
        }
        let last = answers.pop().expect("a last answer");
        assert!(last.is_final && answers.iter().all(|answer| !answer.is_final));
        assert_eq!(last.blocks, whole(&[]).blocks);
        assert_ne!(last.blocks, first.blocks);
    }

    /// The last answer about the spread.
    fn whole(entries: &[(&str, &str)]) -> Answer {
        let mut desk = Desk::new(Catalogue::published().expect("published data"));
        desk.ask(request(Panel::Spread, entries));
        let mut last = None;
        while !desk.is_idle() {
            last = desk.step().or(last);
        }
        last.expect("an answer")
    }

    #[test]
    fn a_newer_question_about_the_spread_ends_the_older_run() {
        let mut desk = Desk::new(Catalogue::published().expect("published data"));
        desk.ask(request(Panel::Spread, &[]));
        desk.step();
        desk.ask(request(Panel::Spread, &[("draws", "1000"), ("seed", "2")]));
        let mut last = None;
        while !desk.is_idle() {
            last = desk.step().or(last);
        }
        let expected = whole(&[("draws", "1000"), ("seed", "2")]);
        assert_eq!(last, Some(expected.clone()));
        assert_ne!(expected.blocks, whole(&[("draws", "1000")]).blocks);
    }

    #[test]
    fn to_be_surer_one_offers_less() {
        let offer = |sure: &str| {
            let answer = whole(&[("sure", sure), ("draws", "1000")]);
            texts(&answer)[0]
                .rsplit_once('$')
                .and_then(|(_, price)| price.split_once('/'))
                .and_then(|(price, _)| price.parse::<f64>().ok())
                .expect("an offer")
        };
        assert!(offer("95") < offer("75") && offer("75") < offer("50"));
    }

    #[test]
    fn the_best_plan_is_offered_or_what_clashes_is_named() {
        let best = ask(Panel::BestPlan, &[("back-bone", "open")]);
        let writes = best.blocks.iter().find_map(|block| match block {
            Block::Offer(_, writes) => Some(writes.len()),
            _ => None,
        });
        assert!(writes.is_some_and(|count| count > 0));
        let clash = ask(
            Panel::BestPlan,
            &[("bench", "30"), ("wish-ribeye-steak", "must")],
        );
        assert!(has_trouble(&clash));
        assert!(
            texts(&clash)[0].contains("the time at the bench"),
            "{:?}",
            texts(&clash)
        );
        assert!(!texts(&clash)[0].contains("Ribeye"), "{:?}", texts(&clash));
    }
}
