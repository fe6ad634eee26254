//! Links between a shop that reckons with its own yields and one that does not.

use advice::wire;
use carcass::Catalogue;

use crate::page::{published, sample};
use crate::sides::{ordinary, page_with};

/// A link to all of the sample's side, as one shop makes it.
fn link(catalogue: &Catalogue) -> String {
    let all = wire::scopes().len() - 1;
    let request = wire::share_request(&sample().to_text(), 1, all, "https://example.org/");
    let answer = wire::share(catalogue, &request).expect("a link");
    let (_, text) = answer.split_once('#').expect("an address");
    text.lines().next().expect("a line").to_owned()
}

/// What another is told who opens it.
fn opened(catalogue: &Catalogue, link: &str) -> String {
    let request = wire::opened_request(&sample().to_text(), link);
    wire::opened(catalogue, &request).expect("an answer")
}

#[test]
fn a_link_made_with_other_yields_says_so() {
    let page = page_with(ordinary(8));
    let mut own = published();
    own.lay_own(&page.store["yields"]);
    let differs = "Whoever sent it saw a margin of";
    for (here, there, is_said) in [
        (&own, &published(), true),
        (&published(), &own, true),
        (&own, &own, false),
    ] {
        let said = opened(there, &link(here));
        assert!(said.contains("Open it"), "{said}");
        assert_eq!(said.contains(differs), is_said, "{said}");
    }
}
