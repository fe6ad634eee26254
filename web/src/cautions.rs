//! Cautions beside what triggers them.

use carcass::{Catalogue, Caution};
use yew::prelude::*;

/// A caution that is always shown whole.
pub fn prominent_caution(caution: &Caution) -> Html {
    html! {
        <p class="caution">
            <strong><span aria-hidden="true">{ "⚠ " }</span>{ &caution.title }{ ". " }</strong>
            { &caution.text }
        </p>
    }
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
    html! {
        <details class="cautions">
            <summary>{ format!("Care: {}", titles.join(", ").to_ascii_lowercase()) }</summary>
            <dl>
                { for cautions.iter().map(|caution| html! {
                    <><dt>{ &caution.title }</dt><dd>{ &caution.text }</dd></>
                }) }
            </dl>
        </details>
    }
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
