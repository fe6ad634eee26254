//! Cautions beside what triggers them.

use carcass::{Catalogue, Caution};
use wording::say;
use yew::Html;

use crate::element::element;

/// A caution that is always shown whole.
pub fn prominent_caution(caution: &Caution) -> Html {
    element("p")
        .class("caution")
        .put(
            element("strong")
                .put(element("span").set("aria-hidden", "true").say("⚠ "))
                .text(caution.title.clone())
                .say(". "),
        )
        .text(caution.text.clone())
        .html()
}

/// Cautions folded into a line that names them.
pub fn folded_cautions(cautions: &[&Caution]) -> Html {
    if cautions.is_empty() {
        return Html::default();
    }
    let titles: Vec<&str> = cautions
        .iter()
        .map(|caution| caution.title.as_str())
        .collect();
    let titles = titles.join(", ").to_ascii_lowercase();
    let list = cautions.iter().fold(element("dl"), |list, caution| {
        list.put(element("dt").text(caution.title.clone()))
            .put(element("dd").text(caution.text.clone()))
    });
    element("details")
        .class("cautions")
        .put(element("summary").text(say!("Care: {titles}", titles)))
        .put(list)
        .html()
}

/// The cautions with these ids, folded.
pub fn folded_by_id(catalogue: &Catalogue, ids: &[&str]) -> Html {
    let cautions: Vec<&Caution> = catalogue
        .cautions()
        .iter()
        .filter(|caution| ids.contains(&caution.id.as_str()))
        .collect();
    folded_cautions(&cautions)
}
