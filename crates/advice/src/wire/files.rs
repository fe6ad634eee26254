//! Requests for files, and for a look at files that are to be taken in.

use std::collections::BTreeMap;

use carcass::Catalogue;
use draft::{Draft, Field, reading};
use pricing::board_file::write_board;
use pricing::sheet_file::{Terms, write_sheet};
use shelf::{Saved, Shelf};

use crate::question::Question;
use crate::{board_file, saved_file, written};

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

#[cfg(test)]
mod tests {
    use super::*;

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
}
