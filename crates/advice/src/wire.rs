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

use std::collections::BTreeMap;

use carcass::Catalogue;
use draft::{Draft, Field, reading};
use link::Scope;
use notation::Manner;
use pricing::board_file::write_board;
use pricing::sheet_file::{Terms, write_sheet};
use shelf::{Saved, Shelf};
use wording::say;

use crate::answer::Answer;
use crate::block::{Block, Tone};
use crate::printed::{self, Heading, Paper};
use crate::question::Question;
use crate::request::{Panel, Request};
use crate::{behind, board_file, grind, methods, saved_file, share, unfit, worked_out, written};

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

/// What can be handed out as a file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum File {
    /// The plan in its saved form.
    Plan,
    /// The price board.
    Board,
    /// The cost sheet.
    Sheet,
}

impl File {
    const ALL: [Self; 3] = [Self::Plan, Self::Board, Self::Sheet];

    const fn id(self) -> &'static str {
        match self {
            Self::Plan => "plan",
            Self::Board => "board",
            Self::Sheet => "sheet",
        }
    }
}

/// The first line of a request for a file and of what answers it.
const FILE: &str = "file";

/// Writes a request for a file; `name` is what the plan is called, where it has a
/// name.
pub fn file_request(file: File, draft: &str, name: &str) -> String {
    format!("{FILE}\n{draft}\n{}\n{name}", file.id())
}

/// The answer to a request for a file: after the first line its name, its media
/// type, and from then on the file. `None` where it is no such request, or its
/// draft cannot be read as a plan.
pub fn file(catalogue: &Catalogue, request: &str) -> Option<String> {
    let mut lines = request.splitn(4, '\n');
    if lines.next()? != FILE {
        return None;
    }
    let draft = Draft::of_text(lines.next()?)?;
    let wanted = lines.next()?;
    let wanted = File::ALL.into_iter().find(|file| file.id() == wanted)?;
    let mut document = reading::read(&draft, catalogue).ok()?;
    lines.next()?.clone_into(&mut document.name);
    let (name, media_type, content) = match wanted {
        File::Plan => ("side.json", "application/json", document.to_json().ok()?),
        File::Board => {
            let board = document.resolve(catalogue).ok()?.shop.board;
            let date = draft.entry(&Field::BoardDate).text.parse().ok();
            let csv = write_board(catalogue, &board, date, draft.currency);
            ("price-board.csv", CSV, csv)
        }
        File::Sheet => {
            let question = Question::about(catalogue, &document, draft.units).ok()?;
            let terms = Terms {
                board: &question.case.shop.board,
                stock: question.case.deal.stock,
                mass: draft.units.mass(),
                price: draft.units.price(),
                currency: draft.currency,
            };
            let csv = write_sheet(catalogue, &question.sheet, &terms);
            ("cost-sheet.csv", CSV, csv)
        }
    };
    Some(format!("{FILE}\n{name}\n{media_type}\n{content}"))
}

/// The media type of a file for spreadsheets.
const CSV: &str = "text/csv";

/// What a spreadsheet knows UTF-8 by. Without it accents come out as two signs each.
const MARK: char = '\u{feff}';

/// An answer as the page hands it out: a file for spreadsheets begins with the mark of
/// its encoding. Whoever reads such a file here passes over it.
pub fn marked(mut answer: String) -> String {
    let mut lines = answer.split_inclusive('\n');
    let kind = lines.next().map(str::trim_end);
    let head: Vec<&str> = lines.by_ref().take(2).collect();
    if let [name, media_type] = head[..]
        && kind == Some(FILE)
        && media_type.trim_end() == CSV
    {
        answer.insert(FILE.len() + 1 + name.len() + media_type.len(), MARK);
    }
    answer
}

/// What can be told about a plan beside its panels.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Told {
    /// What stands behind the line of a product, whose id is asked about.
    Behind,
    /// What grind the trims make; nothing is asked about.
    Grind,
    /// What every cut costs by each method; nothing is asked about.
    Methods,
}

impl Told {
    const ALL: [Self; 3] = [Self::Behind, Self::Grind, Self::Methods];

    const fn id(self) -> &'static str {
        match self {
            Self::Behind => "behind",
            Self::Grind => "grind",
            Self::Methods => "methods",
        }
    }

    /// Asks for it.
    pub fn request(self, draft: &str, about: &str) -> String {
        format!("{}\n{draft}\n{about}", self.id())
    }

    /// The first line of what is answered.
    pub fn first_line(self, about: &str) -> String {
        format!("{} {about}", self.id())
    }
}

/// What is told, as a piece of the page. `None` where the text does not ask for
/// it, or there is nothing of the kind.
pub fn told(catalogue: &Catalogue, request: &str) -> Option<String> {
    let mut lines = request.splitn(3, '\n');
    let kind = lines.next()?;
    let told = Told::ALL.into_iter().find(|told| told.id() == kind)?;
    let draft = Draft::of_text(lines.next()?)?;
    let about = lines.next()?;
    let document = reading::read(&draft, catalogue).ok()?;
    let question = Question::about(catalogue, &document, draft.units).ok()?;
    let piece = match told {
        Told::Behind => behind::written(&question, about),
        Told::Grind => grind::written(&question),
        Told::Methods => methods::written(&question),
    };
    Some(format!("{}\n{}", told.first_line(about), piece?))
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

/// A request to tell how the figures are worked out, and the first line of what
/// answers it.
pub const WORKED_OUT: &str = "worked-out";

/// How the figures are worked out, as a piece of the page. `None` where the text
/// is no such request.
pub fn worked_out(catalogue: &Catalogue, request: &str) -> Option<String> {
    (request == WORKED_OUT).then(|| format!("{WORKED_OUT}\n{}", worked_out::written(catalogue)))
}

/// The first line of a request to look at a board file and of what answers it.
pub const BOARD_FILE: &str = "board-file";

/// Writes a request to look at a price board in a file.
pub fn board_request(draft: &str, file: &str) -> String {
    format!("{BOARD_FILE}\n{draft}\n{file}")
}

/// What a board file would change, as a piece of the page. `None` where the
/// text is no such request, or its draft cannot be read as a plan.
pub fn board_file(catalogue: &Catalogue, request: &str) -> Option<String> {
    let mut lines = request.splitn(3, '\n');
    if lines.next()? != BOARD_FILE {
        return None;
    }
    let draft = Draft::of_text(lines.next()?)?;
    let document = reading::read(&draft, catalogue).ok()?;
    let board = document.resolve(catalogue).ok()?.shop.board;
    let blocks = board_file::blocks(
        catalogue,
        &board,
        draft.currency,
        draft.units,
        lines.next()?,
    );
    Some(format!("{BOARD_FILE}\n{}", written::blocks(&blocks)))
}

/// What may go into a link, each by its name.
pub fn scopes() -> [&'static str; Scope::ALL.len()] {
    Scope::ALL.map(Scope::name)
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

/// The first line of a request for a link and of what answers it.
pub const SHARE: &str = "share";

/// Writes a request for a link to as much of a draft as the scope of this place
/// among [`scopes`] takes in. `address` is that of the app. The answer comes with
/// the number of the request, since an older one may still be on its way.
pub fn share_request(draft: &str, number: usize, scope: usize, address: &str) -> String {
    format!("{SHARE}\n{draft}\n{number}\n{scope}\n{address}")
}

/// A link to a plan: after the first line the number of the request, the address of
/// the link, and from then on a piece of the page, its picture or a sentence for the
/// lack of one. The address is empty where no link can be made, and then the piece
/// says why. `None` where the text is no such request. A link to all of a side tells
/// the margin that is seen here.
pub fn share(catalogue: &Catalogue, request: &str) -> Option<String> {
    let mut lines = request.splitn(5, '\n');
    if lines.next()? != SHARE {
        return None;
    }
    let draft = Draft::of_text(lines.next()?)?;
    let number: usize = lines.next()?.parse().ok()?;
    let scope = lines
        .next()?
        .parse()
        .ok()
        .and_then(|at: usize| Scope::ALL.get(at).copied())?;
    let address = lines.next()?;
    let margin = (scope == Scope::Prices)
        .then(|| share::margin(catalogue, &draft))
        .flatten();
    let (link, piece) = match share::made(catalogue, &draft, scope, margin.as_deref()) {
        Ok(text) => {
            let link = format!("{address}#{text}");
            let picture = share::picture(&link);
            (link, picture)
        }
        Err(why) => {
            let trouble = [Block::Text(Tone::Trouble, why)];
            (String::new(), written::blocks(&trouble))
        }
    };
    Some(format!("{SHARE}\n{number}\n{link}\n{piece}"))
}

/// What follows the first line of an answer: the number of the request that it
/// answers, the link, the piece of the page.
pub fn shared(answer: &str) -> Option<(usize, &str, &str)> {
    let (number, rest) = answer.split_once('\n')?;
    let (link, piece) = rest.split_once('\n')?;
    Some((number.parse().ok()?, link, piece))
}

/// The first line of a request to look at a link and of what answers it.
pub const OPENED: &str = "opened";

/// Writes a request to look at what stands behind the `#` of a link.
pub fn opened_request(draft: &str, text: &str) -> String {
    format!("{OPENED}\n{draft}\n{text}")
}

/// What a link holds, as a piece of the page. `None` where the text is no such
/// request.
pub fn opened(catalogue: &Catalogue, request: &str) -> Option<String> {
    let mut lines = request.splitn(3, '\n');
    if lines.next()? != OPENED {
        return None;
    }
    let draft = Draft::of_text(lines.next()?)?;
    let blocks = share::opened(catalogue, &draft, lines.next()?);
    Some(format!("{OPENED}\n{}", written::blocks(&blocks)))
}

/// The first line of a request for a file of everything, which is answered as
/// any file is.
const KEPT: &str = "kept";

/// Writes a request for a file of everything with the saved plans. Whoever
/// answers has the records of the scale.
pub fn kept_request<'a>(plans: impl IntoIterator<Item = &'a Saved>) -> String {
    let mut request = KEPT.to_owned();
    for plan in plans {
        request.push('\n');
        request.push_str(&plan.to_text());
    }
    request
}

/// The answer to a request for a file of everything, with the records of the
/// scale by their keys; `None` where it is none.
pub fn kept<'a>(
    request: &str,
    scale: impl IntoIterator<Item = (&'a str, &'a str)>,
) -> Option<String> {
    let mut lines = request.lines();
    if lines.next() != Some(KEPT) {
        return None;
    }
    let plans: Vec<Saved> = lines.filter_map(|line| Saved::of_text(line).ok()).collect();
    let content = shelf::file::write_file(&plans, scale);
    Some(format!(
        "{FILE}\nsideworth-everything.json\napplication/json\n{content}"
    ))
}

/// The first line of a request to look at a file of saved plans and of what
/// answers it.
pub const KEPT_FILE: &str = "kept-file";

/// Writes a request to look at a file of saved plans beside those that there
/// are.
pub fn kept_file_request<'a>(
    plans: impl ExactSizeIterator<Item = &'a Saved>,
    file: &str,
) -> String {
    let mut request = format!("{KEPT_FILE}\n{}\n", plans.len());
    for plan in plans {
        request.push_str(&plan.to_text());
        request.push('\n');
    }
    request + file
}

/// What a file of everything, or of one plan, would bring at `now`, in
/// milliseconds since 1970 began in UTC: after the first line the number of
/// plans, each in a line, and then a piece of the page, which ends with what
/// `scale_said` has to say of the records of the scale, where the file holds any.
/// `None` where the text is no such request.
pub fn kept_file(
    catalogue: &Catalogue,
    request: &str,
    now: u64,
    scale_said: impl FnOnce(&BTreeMap<String, String>) -> String,
) -> Option<String> {
    let rest = request.strip_prefix(KEPT_FILE)?.strip_prefix('\n')?;
    let (count, mut rest) = rest.split_once('\n')?;
    let mut shelf = Shelf::default();
    for _ in 0..count.parse::<usize>().ok()? {
        let (line, after) = rest.split_once('\n')?;
        if let Ok(plan) = Saved::of_text(line) {
            shelf.plans.push((String::new(), plan));
        }
        rest = after;
    }
    let looked_at = saved_file::looked_at(catalogue, &shelf, rest, now);
    let mut answer = format!("{KEPT_FILE}\n{}\n", looked_at.coming.len());
    for plan in &looked_at.coming {
        answer.push_str(&plan.to_text());
        answer.push('\n');
    }
    answer.push_str(&written::blocks(&looked_at.blocks));
    if !looked_at.scale.is_empty() {
        answer.push_str(&scale_said(&looked_at.scale));
    }
    Some(answer)
}

/// The plans that a file of saved plans would bring, and the piece that tells
/// of it, out of what follows the first line of the answer.
pub fn coming(answer: &str) -> Option<(Vec<Saved>, &str)> {
    let (count, mut rest) = answer.split_once('\n')?;
    let mut coming = Vec::new();
    for _ in 0..count.parse::<usize>().ok()? {
        let (line, after) = rest.split_once('\n')?;
        coming.push(Saved::of_text(line).ok()?);
        rest = after;
    }
    Some((coming, rest))
}

/// The papers that can be printed, each by its name.
pub fn papers() -> [&'static str; Paper::ALL.len()] {
    Paper::ALL.map(Paper::name)
}

/// The first line of a request for a paper and of what answers it.
pub const PRINT: &str = "print";

/// Writes a request for the paper of this place among [`papers`], with what a
/// person writes on it.
pub fn print_request(
    draft: &str,
    paper: usize,
    [title, lot, claim, date, address]: [&str; 5],
) -> String {
    let mut heading = form_urlencoded::Serializer::new(String::new());
    heading.extend_pairs([
        ("paper", paper.to_string().as_str()),
        ("title", title),
        ("lot", lot),
        ("claim", claim),
        ("date", date),
        ("address", address),
    ]);
    format!("{PRINT}\n{draft}\n{}", heading.finish())
}

/// The first line of what answers a request for a paper that cannot be written, and
/// after it the piece of the page that says why.
pub const NOT_PRINTED: &str = "not-printed";

/// A paper as a piece of the page, or why there is none. `None` where the text is no
/// such request.
pub fn print(catalogue: &Catalogue, request: &str) -> Option<String> {
    let mut lines = request.splitn(3, '\n');
    if lines.next()? != PRINT {
        return None;
    }
    let draft = Draft::of_text(lines.next()?)?;
    let mut paper = None::<usize>;
    let mut heading = Heading::default();
    for (name, value) in form_urlencoded::parse(lines.next()?.as_bytes()).into_owned() {
        match name.as_str() {
            "paper" => paper = value.parse().ok(),
            "title" => heading.title = value,
            "lot" => heading.lot = value,
            "claim" => heading.claim = value,
            "date" => heading.date = value,
            "address" => heading.address = value,
            _ => {}
        }
    }
    let paper = *Paper::ALL.get(paper?)?;
    Some(match unfit::question(catalogue, &draft) {
        Ok(question) => {
            let piece = printed::written(&question, &draft, paper, &heading);
            format!("{PRINT}\n{piece}")
        }
        Err(why) => {
            let why = say!("Nothing can be printed yet. {why}", why.to_string());
            let trouble = [Block::Text(Tone::Trouble, why)];
            format!("{NOT_PRINTED}\n{}", written::blocks(&trouble))
        }
    })
}

/// Writes an answer.
pub fn answer(answer: &Answer) -> String {
    format!("{}\n{}", answer.panel.id(), written::answer(answer))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::answer::{Control, ControlKind, Write};
    use crate::block::{Bar, Cell, Column, Figure, GridRow};

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
    fn is_well_formed<'a>(lines: impl Iterator<Item = &'a str>) {
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
    fn every_line_of_the_sheet_has_something_behind_it() {
        let catalogue = Catalogue::published().expect("published data");
        let mut draft = Draft::default();
        draft.fill_in_sample();
        let text = draft.to_text();
        let document = reading::read(&draft, &catalogue).expect("a plan");
        let question = Question::about(&catalogue, &document, draft.units).expect("a question");
        for row in &question.sheet.rows {
            let product = &catalogue[row.product];
            let request = Told::Behind.request(&text, &product.id);
            let piece = told(&catalogue, &request).expect("a piece");
            let mut lines = piece.lines();
            let first = Told::Behind.first_line(&product.id);
            assert_eq!(lines.next(), Some(first.as_str()));
            is_well_formed(lines);
            assert!(piece.contains("\"Cost\n"), "{piece}");
            assert!(piece.contains(", grain-fed: "), "{}: {piece}", product.id);
        }
        let unknown = Told::Behind.request(&text, "no-such-cut");
        assert_eq!(told(&catalogue, &unknown), None);
        assert_eq!(told(&catalogue, "behind"), None);
    }

    #[test]
    fn every_method_stands_beside_the_others_and_carries_the_whole_spend() {
        let catalogue = Catalogue::published().expect("published data");
        let mut draft = Draft::default();
        draft.fill_in_sample();
        let request = Told::Methods.request(&draft.to_text(), "");
        let piece = told(&catalogue, &request).expect("a piece");
        is_well_formed(piece.lines().skip(1));
        for method in pricing::AllocationMethod::ALL {
            assert!(piece.contains(&format!("\"{}\n", method.name())), "{piece}");
        }
    }

    #[test]
    fn grind_that_cannot_be_made_says_what_is_lacking() {
        let catalogue = Catalogue::published().expect("published data");
        let mut draft = Draft::default();
        draft.fill_in_sample();
        let grind = |draft: &Draft| {
            let request = Told::Grind.request(&draft.to_text(), "");
            let piece = told(&catalogue, &request).expect("a piece");
            is_well_formed(piece.lines().skip(1));
            piece
        };
        assert!(!grind(&draft).contains(" wanted, "));
        let leanest = &catalogue.grind_classes()[0];
        draft.type_into(Field::Grind(leanest.id.clone()), "2 kg".to_owned());
        let made = grind(&draft);
        assert!(made.contains("of it fat trim."), "{made}");
        draft.type_into(Field::Grind(leanest.id.clone()), "400 kg".to_owned());
        let lacking = grind(&draft);
        assert!(lacking.contains(" of the 400.00 kg wanted, "), "{lacking}");
        assert!(
            lacking.contains("Too little lean") || lacking.contains("used up"),
            "{lacking}"
        );
    }

    #[test]
    fn what_cannot_be_printed_says_at_which_field() {
        let catalogue = Catalogue::published().expect("published data");
        let asked = |draft: &Draft| {
            let heading = ["", "", "", "", "https://shop.example/"];
            let request = print_request(&draft.to_text(), 2, heading);
            print(&catalogue, &request).expect("an answer")
        };
        let mut draft = Draft::default();
        let answer = asked(&draft);
        assert!(answer.starts_with("not-printed\n"), "{answer}");
        let said = "\"Nothing can be printed yet. Side weight: Nothing is entered";
        assert!(answer.contains(said), "{answer}");
        draft.fill_in_sample();
        assert!(asked(&draft).starts_with("print\n"));
        draft.type_into(Field::LabourRate, "dear".to_owned());
        let answer = asked(&draft);
        is_well_formed(answer.lines().skip(1));
        let said = "\"Nothing can be printed yet. Labour rate: “dear” is not a number";
        assert!(answer.contains(said), "{answer}");
    }

    #[test]
    fn files_for_spreadsheets_name_the_currency_and_are_marked_as_utf_8() {
        let catalogue = Catalogue::published().expect("published data");
        let mut draft = Draft::default();
        draft.fill_in_sample();
        draft.currency = "CAD".parse().ok();
        let handed_out = |wanted| {
            let request = file_request(wanted, &draft.to_text(), "Hill farm");
            marked(file(&catalogue, &request).expect("a file"))
        };
        let board = handed_out(File::Board);
        let head = "file\nprice-board.csv\ntext/csv\n\u{feff}product,name,price_per_kg (CAD),";
        assert!(board.starts_with(head), "{board}");
        let sheet = handed_out(File::Sheet);
        let head = "file\ncost-sheet.csv\ntext/csv\n\u{feff}cut,";
        assert!(sheet.starts_with(head), "{sheet}");
        assert!(sheet.contains(",cost (CAD),cost (CAD/kg),"), "{sheet}");
        let plan = handed_out(File::Plan);
        assert!(
            plan.starts_with("file\nside.json\napplication/json\n{"),
            "{plan}"
        );
        // What was handed out is taken in again.
        let (_, content) = board.split_once("text/csv\n").expect("a file");
        let request = board_request(&draft.to_text(), content);
        let answer = board_file(&catalogue, &request).expect("an answer");
        assert!(answer.contains("that are on the board now"), "{answer}");
        for other in ["", "file", "file\nname", "opened\na\ntext/csv\nb"] {
            assert_eq!(marked(other.to_owned()), other);
        }
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
