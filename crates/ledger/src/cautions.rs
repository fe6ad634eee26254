//! Cautions of the catalogue beside what they are about, each with whom it
//! defers to.

use advice::steps::Steps;
use wording::text;

use crate::controls::fold;
use crate::ledger::Ledger;

/// The cautions with these ids, behind a fold.
pub(crate) fn cautions(ledger: &Ledger, ids: &[&str], steps: &mut Steps) {
    fold(steps, "cautions", text!("Cautions"), |steps| {
        let all = ledger.catalogues().published.cautions().iter();
        for caution in all.filter(|it| ids.contains(&it.id.as_str())) {
            steps.element("p", &[("class", "note")], |steps| {
                steps.holding("strong", &[], &format!("{}. ", caution.title));
                steps.text(&caution.text);
            });
        }
    });
}
