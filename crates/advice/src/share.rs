//! A plan as a link to hand on, and what a link that came holds.

use carcass::Catalogue;
use draft::{Draft, Field};
use link::{LinkError, Scope, Shared};
use notation::percent;
use qrcodegen::{QrCode, QrCodeEcc};
use quantity::Rounding;
use wording::{say, text};

use crate::answer::Write;
use crate::block::{Block, Figure, Tone};
use crate::steps::Steps;
use crate::unfit::{self, Unfit};

/// Blank modules around the code (ISO/IEC 18004:2015, 9.1).
const QUIET: i32 = 4;

/// How wide a module is on paper, in hundredths of a millimetre: the camera of a
/// phone, a hand's breadth off, has trouble with less than 0.33 mm.
const MODULE: i32 = 34;

/// The least width of a code on paper, in hundredths of a millimetre.
const NARROWEST: i32 = 3000;

/// An address as a QR code (ISO/IEC 18004) in a drawing, or a sentence where it is
/// too long for any.
pub fn picture(address: &str) -> String {
    code(address).unwrap_or_else(|| {
        let mut steps = Steps::default();
        let too_long = text!("This link is too long for a QR code.");
        steps.holding("p", &[("class", "note")], too_long);
        steps.written()
    })
}

/// The code takes the strongest error correction that its size has room for. The
/// drawing has the width that it needs on paper; a screen gives it one of its own.
fn code(address: &str) -> Option<String> {
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
    let modules = code.size() + 2 * QUIET;
    let width = (modules * MODULE).max(NARROWEST);
    let width = format!("{}.{:02}mm", width / 100, width % 100);
    let side = modules.to_string();
    let mut steps = Steps::default();
    steps.element("figure", &[("class", "code")], |steps| {
        let marks = [
            ("viewBox", &*format!("0 0 {side} {side}")),
            ("width", &width),
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

/// The text of a link to as much of a draft as the scope takes in. What cannot be
/// read and is of no use now is left out.
///
/// # Errors
/// What of it cannot be read where it is opened, in a sentence.
pub fn made(
    catalogue: &Catalogue,
    draft: &Draft,
    scope: Scope,
    margin: Option<&str>,
) -> Result<String, String> {
    let fit = draft.fit_to_hand_on(catalogue);
    let text = link::write_telling(&fit, scope, margin);
    let shared = link::read(&text).map_err(|why| why.to_string())?;
    // No link is made that would be refused.
    held(catalogue, &shared)
        .map_err(|why| say!("No link can be made of this yet. {why}", why.to_string()))?;
    Ok(text)
}

/// Holds what a link brings, and nothing of who opens it, to what can be typed and
/// chosen here.
fn held(catalogue: &Catalogue, shared: &Shared) -> Result<(), Unfit> {
    match shared.onto(&Draft::default()) {
        Some(brought) => unfit::hold(catalogue, &brought),
        None => Err(Unfit::Unpriced(LinkError::Newer.to_string())),
    }
}

/// What the text of a link would make of a draft, with the offer to open it; or
/// in one sentence why it is not opened, and nothing else.
pub fn opened(catalogue: &Catalogue, draft: &Draft, text: &str) -> Vec<Block> {
    match looked_at(catalogue, draft, text) {
        Ok(blocks) => blocks,
        Err(why) => vec![Block::Text(Tone::Trouble, why)],
    }
}

fn looked_at(catalogue: &Catalogue, draft: &Draft, text: &str) -> Result<Vec<Block>, String> {
    let shared = link::read(text).map_err(|why| why.to_string())?;
    held(catalogue, &shared)
        .map_err(|why| say!("Nothing of this link is opened. {why}", why.to_string()))?;
    let merged = shared
        .onto(draft)
        .ok_or_else(|| LinkError::Newer.to_string())?;
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
    Ok(blocks)
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
    let question = unfit::question(catalogue, draft).ok()?;
    let percent = question.sheet.verdict.margin.percent();
    // Rounded as the verdict is.
    Some(notation::plain(Rounding::Down.to_places(percent, 1), 1))
}

/// What the link makes of the side; a sentence where it has no verdict, since it
/// lacks something or what is typed here cannot be read.
fn figures(catalogue: &Catalogue, draft: &Draft) -> Result<Vec<Figure>, String> {
    if [Field::Weight, Field::Price]
        .iter()
        .any(|field| draft.entry(field).text.trim().is_empty())
    {
        let lacking = text!("It has no verdict yet: weight or price is still to be typed.");
        return Err(lacking.to_owned());
    }
    let question = unfit::question(catalogue, draft).map_err(|why| match why {
        Unfit::Unpriced(why) => why,
        _ => text!(
            "It has no verdict: something in it cannot be read. Opened, it says what and where."
        )
        .to_owned(),
    })?;
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

#[cfg(test)]
mod tests {
    use super::*;

    /// Modules of a code with what is blank about it, and its width on paper in
    /// millimetres.
    fn measured(letters: usize) -> (f64, f64) {
        let piece = picture(&"a".repeat(letters));
        let value = |name: &str| {
            let step = piece.lines().find_map(|line| line.strip_prefix(name));
            step.expect("an attribute").to_owned()
        };
        let modules = value("=viewBox 0 0 ");
        let (modules, _) = modules.split_once(' ').expect("two sides");
        let width = value("=width ");
        let width = width.strip_suffix("mm").expect("millimetres");
        let number = |text: &str| text.parse().expect("a number");
        (number(modules), number(width))
    }

    #[test]
    fn every_module_of_a_code_is_wide_enough_on_paper() {
        for letters in [1, 80, 300, 700, 1_400, 2_000, 2_900] {
            let (modules, width) = measured(letters);
            assert!(width / modules >= 0.33, "{letters}: {width} mm");
            assert!((30.0..=63.0).contains(&width), "{letters}: {width} mm");
        }
    }

    #[test]
    fn an_address_too_long_for_a_code_says_so() {
        let piece = picture(&"a".repeat(3_000));
        assert!(
            piece.contains("\"This link is too long for a QR code."),
            "{piece}"
        );
        assert!(!piece.contains("<svg"), "{piece}");
    }
}
