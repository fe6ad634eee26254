//! What a page and its worker say to each other, as text.
//!
//! A request has three lines: the id of the panel, the draft in its kept form,
//! what was typed into the panel in the encoding of web forms.
//!
//! An answer has the id of the panel in its first line and after it the piece
//! of the page that it is, one step a line:
//!
//! | line | means |
//! |---|---|
//! | `<td` | an element is opened |
//! | `=class note` | it has this attribute |
//! | `"12.5 kg` | it holds this text |
//! | `>` | it is closed |
//! | `.` | its place is empty at this time |
//!
//! A page only puts together what it is told; names of elements and attributes
//! are from fixed lists, and a text is never anything else. Some attributes ask
//! the page to listen: [`ENTRY`], [`FORGET`], [`WRITES`].

mod files;
mod links;
mod papers;
mod told;

use std::collections::BTreeMap;

use carcass::Catalogue;
use draft::{Draft, reading};
use notation::Manner;

use crate::answer::Answer;
use crate::request::{Panel, Request};
use crate::written;

pub use files::{
    BOARD_FILE, File, KEPT_FILE, board_file, board_request, coming, file, file_request, kept,
    kept_file, kept_file_request, kept_request, marked,
};
pub use links::{OPENED, SHARE, opened, opened_request, scopes, share, share_request, shared};
pub use papers::{NOT_PRINTED, PRINT, papers, print, print_request};
pub use told::{Told, WORKED_OUT, told, worked_out};

/// The names of elements in an answer.
pub const ELEMENTS: [&str; 35] = [
    "button",
    "dd",
    "details",
    "div",
    "dl",
    "dt",
    "figcaption",
    "figure",
    "h3",
    "input",
    "label",
    "li",
    "line",
    "option",
    "p",
    "path",
    "rect",
    "select",
    "small",
    "span",
    "strong",
    "summary",
    "svg",
    "table",
    "tbody",
    "td",
    "th",
    "thead",
    "title",
    "tr",
    "ul",
    "caption",
    "em",
    "a",
    "form",
];

/// The names of attributes in an answer.
pub const ATTRIBUTES: [&str; 40] = [
    "aria-busy",
    "aria-describedby",
    "aria-hidden",
    "aria-invalid",
    "aria-label",
    "aria-live",
    "autocomplete",
    "class",
    "colspan",
    "d",
    ENTRY,
    FORGET,
    WRITES,
    "enterkeyhint",
    "for",
    "height",
    "id",
    "inputmode",
    "key",
    "max",
    "min",
    "preserveAspectRatio",
    "role",
    "scope",
    "selected",
    "selectedIndex",
    "step",
    "tabindex",
    "type",
    "value",
    "viewBox",
    "width",
    "x",
    "x1",
    "x2",
    "y",
    "y1",
    "y2",
    "open",
    "aria-expanded",
];

/// An input or select whose value is kept under this name.
pub const ENTRY: &str = "data-entry";

/// A button that lets go of what is kept under this name, or under all where it
/// is [`EVERYTHING`].
pub const FORGET: &str = "data-forget";

/// A button that writes this into the draft, as [`Draft::take_over`] takes it.
pub const WRITES: &str = "data-writes";

/// All names at once.
pub const EVERYTHING: &str = "*";

/// Before the key of a saved plan among what was typed into a panel that can
/// hold it against others.
pub const SAVED: &str = "saved.";

/// Whether a panel holds saved plans against others.
pub fn takes_saved(panel: Panel) -> bool {
    panel == Panel::Comparison
}

/// A saved plan as an entry of a panel that takes them.
pub fn saved_entry(key: &str, name: &str, draft: &Draft) -> (String, String) {
    (
        format!("{SAVED}{key}"),
        format!("{name}\n{}", draft.to_text()),
    )
}

/// Writes a request.
pub fn request<'a>(
    panel: Panel,
    draft: &str,
    entries: impl IntoIterator<Item = (&'a str, &'a str)>,
) -> String {
    let mut typed = form_urlencoded::Serializer::new(String::new());
    typed.extend_pairs(entries);
    format!("{}\n{draft}\n{}", panel.id(), typed.finish())
}

/// Reads a request; `None` where it is none, or its draft cannot be read as a
/// plan. A page asks about the last draft that could.
pub fn read_request(catalogue: &Catalogue, text: &str) -> Option<Request> {
    let mut lines = text.splitn(3, '\n');
    let id = lines.next()?;
    let panel = Panel::ALL.into_iter().find(|panel| panel.id() == id)?;
    let draft = Draft::of_text(lines.next()?)?;
    let entries: BTreeMap<String, String> = form_urlencoded::parse(lines.next()?.as_bytes())
        .into_owned()
        .collect();
    Some(Request {
        panel,
        document: reading::read(&draft, catalogue).ok()?,
        units: draft.units,
        entries,
    })
}

/// The first line of a request to reckon with the shop's own yields.
const OWN: &str = "own";

/// Writes a request to reckon with the shop's own yields, as
/// [`Catalogue::lay_own`] takes them, from now on.
pub fn own_yields(own_yields: &str) -> String {
    format!("{OWN}\n{own_yields}")
}

/// Reads such a request.
pub fn read_own_yields(request: &str) -> Option<&str> {
    match request.split_once('\n') {
        Some((OWN, own_yields)) => Some(own_yields),
        _ => None,
    }
}

/// The first line of a request to write amounts in a manner, which the second
/// line holds. Nothing answers it.
const MANNER: &str = "manner";

/// Writes a request to write amounts in this manner from now on.
pub fn manner(manner: &Manner) -> String {
    format!("{MANNER}\n{}", manner.to_line())
}

/// The manner that a request asks for.
pub fn read_manner(request: &str) -> Option<Manner> {
    let (kind, line) = request.split_once('\n')?;
    (kind == MANNER).then(|| Manner::of_line(line)).flatten()
}

/// Writes an answer.
pub fn answer(answer: &Answer) -> String {
    format!("{}\n{}", answer.panel.id(), written::answer(answer))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::answer::{Control, ControlKind, Write};
    use crate::block::{Bar, Block, Cell, Column, Figure, GridRow, Tone};

    fn every_kind() -> Answer {
        let control = |kind| Control {
            id: "price".to_owned(),
            label: "Price".to_owned(),
            unit: "/kg".to_owned(),
            text: "9".to_owned(),
            hint: "What is asked.".to_owned(),
            fault: Some("“nine” is not a number\n<b>".to_owned()),
            kind,
        };
        let text = |text: &str| text.to_owned();
        Answer {
            panel: Panel::Grid,
            entries: BTreeMap::from([(text("price"), text("nine"))]),
            controls: vec![
                control(ControlKind::Typed),
                control(ControlKind::Slider([text("0"), text("9"), text("1")])),
                control(ControlKind::Choice(vec![(text("nine"), text("Nine"))])),
            ],
            blocks: vec![
                Block::Text(Tone::Finding, text("It pays.")),
                Block::Text(Tone::Trouble, text("It does not.")),
                Block::Figures(vec![Figure {
                    label: text("Margin"),
                    text: text("3 %"),
                    beside: text("plan 4 %"),
                }]),
                Block::Table(
                    text("Cuts"),
                    vec![text("Cut")],
                    vec![vec![text("Loin"), text("2")]],
                ),
                Block::FoldedTable(text("Cuts"), vec![], vec![]),
                Block::Bars(
                    text("Swing"),
                    500,
                    vec![Bar {
                        label: text("Price"),
                        ends: [300, 700],
                        texts: [text("1"), text("2")],
                    }],
                ),
                Block::Columns(
                    text("Draws"),
                    [text("3 %"), text("4 %")],
                    vec![Column {
                        height: 10,
                        falls_short: true,
                    }],
                ),
                Block::Grid(
                    text("Both"),
                    [text("Price"), text("Yield")],
                    vec![text("1")],
                    vec![GridRow {
                        label: text("2"),
                        cells: vec![Cell {
                            text: text("3"),
                            pays: true,
                        }],
                    }],
                ),
                Block::Offer(
                    text("Use these"),
                    vec![
                        Write::Field(text("side-price"), text("9 & 5")),
                        Write::GrassPercent(40),
                        Write::Way(text("loin"), text("bone-in")),
                    ],
                ),
            ],
            is_final: false,
        }
    }

    #[test]
    fn an_answer_opens_and_closes_what_is_known_and_nothing_else() {
        let text = answer(&every_kind());
        let mut lines = text.lines();
        assert_eq!(lines.next(), Some("grid"));
        is_well_formed(lines);
        // A line break in a text cannot begin a step of its own.
        assert!(text.contains("\"“nine” is not a number <b>"));
    }

    /// Fails where a piece does anything that a page does not know.
    pub(super) fn is_well_formed<'a>(lines: impl Iterator<Item = &'a str>) {
        let mut open = 0;
        for line in lines {
            let (sign, rest) = line.split_at(1);
            match sign {
                "<" => {
                    assert!(ELEMENTS.contains(&rest), "{line}");
                    open += 1;
                }
                ">" => {
                    assert_eq!(rest, "");
                    open -= 1;
                    assert!(open >= 0);
                }
                "=" => {
                    let name = rest.split(' ').next().unwrap_or_default();
                    assert!(ATTRIBUTES.contains(&name), "{line}");
                }
                "\"" => assert!(open > 0, "{line}"),
                "." => assert_eq!(rest, ""),
                _ => panic!("{line}"),
            }
        }
        assert_eq!(open, 0);
    }

    #[test]
    fn what_an_offer_writes_is_what_a_draft_takes_over() {
        let text = answer(&every_kind());
        let offer = text
            .lines()
            .find_map(|line| line.strip_prefix("=data-writes "))
            .expect("an offer");
        let mut draft = Draft::default();
        draft.take_over(offer);
        assert_eq!(draft.entry(&draft::Field::Price).text, "9 & 5");
        assert_eq!(draft.grass_percent, 40);
        assert_eq!(draft.ways.get("loin"), Some(&"bone-in".to_owned()));
    }

    #[test]
    fn a_request_comes_back_as_it_was_asked() {
        let catalogue = Catalogue::published().expect("published data");
        let mut draft = Draft::default();
        draft.fill_in_sample();
        let text = request(Panel::Bars, &draft.to_text(), [("low-price", "5 & 6\n")]);
        let read = read_request(&catalogue, &text).expect("a request");
        assert_eq!(read.panel, Panel::Bars);
        assert_eq!(read.entries.get("low-price"), Some(&"5 & 6\n".to_owned()));
        assert_eq!(Ok(read.document), reading::read(&draft, &catalogue));
        for text in ["", "bars", "bars\n\n", "no-panel\ndraft.version=1\n"] {
            assert!(read_request(&catalogue, text).is_none(), "{text}");
        }
    }
}
