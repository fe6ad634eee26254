//! A plan as a link to hand on, and what a link that came holds.

use carcass::Catalogue;
use draft::{Draft, Field, reading};
use link::Scope;
use notation::percent;
use qrcodegen::{QrCode, QrCodeEcc};
use quantity::Rounding;
use wording::{say, text};

use crate::answer::Write;
use crate::block::{Block, Figure, Tone};
use crate::question::Question;
use crate::steps::Steps;

/// Blank modules around the code (ISO/IEC 18004:2015, 9.1).
const QUIET: i32 = 4;

/// An address as a QR code (ISO/IEC 18004) in a drawing. The code takes the
/// strongest error correction that its size has room for. `None` where the
/// address is too long for any.
pub fn code(address: &str) -> Option<String> {
    let code = QrCode::encode_text(address, QrCodeEcc::Low).ok()?;
    let mut path = String::new();
    for y in 0..code.size() {
        let mut x = 0;
        while x < code.size() {
            let dark = (x..code.size())
                .take_while(|x| code.get_module(*x, y))
                .count();
            let run = i32::try_from(dark).unwrap_or_default();
            if run > 0 {
                let (left, top) = (x + QUIET, y + QUIET);
                path += &["M", &left.to_string(), " ", &top.to_string()].concat();
                path += &["h", &run.to_string(), "v1h-", &run.to_string(), "z"].concat();
            }
            x += run + 1;
        }
    }
    let side = (code.size() + 2 * QUIET).to_string();
    let mut steps = Steps::default();
    steps.element("figure", &[("class", "code")], |steps| {
        let marks = [
            ("viewBox", &*format!("0 0 {side} {side}")),
            ("role", "img"),
            ("aria-label", text!("The link as a QR code")),
        ];
        steps.element("svg", &marks, |steps| {
            let white = [
                ("class", "paper"),
                ("x", "0"),
                ("y", "0"),
                ("width", &*side),
                ("height", &*side),
            ];
            steps.empty("rect", &white);
            steps.empty("path", &[("class", "ink"), ("d", &path)]);
        });
        steps.holding("figcaption", &[], text!("For the camera of another phone."));
    });
    Some(steps.written())
}

/// What the text of a link would make of a draft, with the offer to open it; or
/// why it cannot be read.
pub fn opened(catalogue: &Catalogue, draft: &Draft, text: &str) -> Vec<Block> {
    let shared = match link::read(text) {
        Ok(shared) => shared,
        Err(why) => return vec![Block::Text(Tone::Trouble, why.to_string())],
    };
    let Some(merged) = shared.onto(draft) else {
        let why = link::LinkError::Newer.to_string();
        return vec![Block::Text(Tone::Trouble, why)];
    };
    let mut blocks = vec![Block::Text(
        Tone::Note,
        format!("{} {}", holds(shared.scope), nothing_yet()),
    )];
    if let (Some(own), Some(theirs)) = (draft.currency, merged.currency)
        && own != theirs
    {
        let mixed = say!(
            "The amounts of this link are in {theirs}, yours are in {own}: what it leaves out stays as it was, and nothing is converted.",
            theirs,
            own
        );
        blocks.push(Block::Text(Tone::Trouble, mixed));
    }
    match figures(catalogue, &merged) {
        Ok(figures) => {
            blocks.push(Block::Figures(figures));
            let here = margin(catalogue, &merged);
            if let (Some(theirs), Some(here)) = (shared.margin, here)
                && theirs != here
            {
                let said = say!(
                    "Whoever sent it saw a margin of {theirs} %, here it is {here} %: one of you reckons with yields of a shop's own, or with another version of the app.",
                    notation::as_typed(&theirs),
                    notation::as_typed(&here)
                );
                blocks.push(Block::Text(Tone::Trouble, said));
            }
        }
        Err(why) => blocks.push(Block::Text(Tone::Note, why)),
    }
    blocks.push(Block::Offer(
        text!("Open it").to_owned(),
        vec![Write::Draft(merged.to_text())],
    ));
    blocks
}

/// What a person must know before opening.
fn nothing_yet() -> &'static str {
    text!(
        "Nothing has been changed. Opening it puts this in the place of what is typed now; one tap takes that back."
    )
}

fn holds(scope: Scope) -> &'static str {
    match scope {
        Scope::Plan => {
            text!("This link holds a cut plan. The deal, the costs and the prices stay yours.")
        }
        Scope::Deal => {
            text!("This link holds a cut plan and a deal. The costs and the prices stay yours.")
        }
        Scope::Costs => {
            text!(
                "This link holds a cut plan, a deal and the costs of a shop. The prices stay yours."
            )
        }
        Scope::Prices => text!("This link holds all of a side: cut plan, deal, costs and prices."),
    }
}

/// The margin of a draft in percent, as links tell it; `None` where it has none.
pub fn margin(catalogue: &Catalogue, draft: &Draft) -> Option<String> {
    let document = reading::read(draft, catalogue).ok()?;
    let question = Question::about(catalogue, &document, draft.units).ok()?;
    let percent = question.sheet.verdict.margin.percent();
    // Rounded as the verdict is.
    Some(notation::plain(Rounding::Down.to_places(percent, 1), 1))
}

fn figures(catalogue: &Catalogue, draft: &Draft) -> Result<Vec<Figure>, String> {
    let document = reading::read(draft, catalogue).map_err(|faults| {
        let first = faults.keys().next();
        match first {
            Some(Field::Weight | Field::Price) => {
                text!("It has no verdict yet: weight or price is still to be typed.").to_owned()
            }
            _ => text!(
                "It has no verdict: something in it cannot be read. Opened, it says what and where."
            )
            .to_owned(),
        }
    })?;
    let question = Question::about(catalogue, &document, draft.units)?;
    let figure = |label: &str, text: String| Figure {
        label: label.to_owned(),
        text,
        beside: String::new(),
    };
    let plan = catalogue.plan(&draft.plan);
    let verdict = &question.sheet.verdict;
    let changed = draft.ways.len() + draft.second_ways.len();
    let plan = plan.map_or_else(|| draft.plan.clone(), |plan| plan.name.clone());
    let plan = match changed {
        0 => plan,
        1 => say!("{plan}, one step of its own", plan),
        _ => say!("{plan}, {changed} steps of its own", plan, changed),
    };
    Ok(vec![
        figure(text!("Weight"), draft.entry(&Field::Weight).with_unit(" ")),
        figure(text!("Price"), draft.entry(&Field::Price).with_unit("/")),
        figure(
            text!("Way to grass-fed"),
            format!("{} %", draft.grass_percent),
        ),
        figure(text!("Plan"), plan),
        figure(text!("Margin"), percent(verdict.margin)),
        figure(
            &say!("Walk-away {per}", question.per()),
            question.bare_offer(verdict.walk_away),
        ),
    ])
}
