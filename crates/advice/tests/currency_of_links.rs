//! A link with amounts in another currency than the reader's says so before it is opened.

use advice::wire;
use carcass::Catalogue;
use draft::Draft;
use link::{Scope, write};

/// What a reader is told of a link.
fn told(mine: &Draft, link: &str) -> String {
    let catalogue = Catalogue::published().expect("published data");
    let request = wire::opened_request(&mine.to_text(), link);
    wire::opened(&catalogue, &request).expect("an answer")
}

fn draft(currency: &str) -> Draft {
    let mut draft = Draft::default();
    draft.fill_in_sample();
    draft.currency = currency.parse().ok();
    draft
}

#[test]
fn amounts_in_another_currency_are_said_to_be() {
    let warning = "The amounts of this link are in EUR, yours are in CAD";
    for (theirs, scope, warns) in [
        ("EUR", Scope::Prices, true),
        ("EUR", Scope::Deal, true),
        ("EUR", Scope::Plan, false),
        ("CAD", Scope::Prices, false),
    ] {
        let said = told(&draft("CAD"), &write(&draft(theirs), scope));
        assert_eq!(said.contains(warning), warns, "{theirs}, {scope:?}: {said}");
    }
}
