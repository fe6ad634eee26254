//! Requests for papers.

use carcass::Catalogue;
use draft::Draft;
use wording::say;

use crate::block::{Block, Tone};
use crate::printed::{self, Heading, Paper};
use crate::{unfit, written};

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

#[cfg(test)]
mod tests {
    use draft::Field;

    use super::*;
    use crate::wire::tests::is_well_formed;

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
}
