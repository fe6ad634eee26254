//! Requests for what can be told about a plan beside its panels.

use carcass::Catalogue;
use draft::{Draft, reading};

use crate::question::Question;
use crate::{behind, grind, methods, worked_out};

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

/// A request to tell how the figures are worked out, and the first line of what
/// answers it.
pub const WORKED_OUT: &str = "worked-out";

/// How the figures are worked out, as a piece of the page. `None` where the text
/// is no such request.
pub fn worked_out(catalogue: &Catalogue, request: &str) -> Option<String> {
    (request == WORKED_OUT).then(|| format!("{WORKED_OUT}\n{}", worked_out::written(catalogue)))
}

#[cfg(test)]
mod tests {
    use draft::Field;

    use super::*;
    use crate::wire::tests::is_well_formed;

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
}
