//! Charts. Each carries its figures as text beside it; a table stands below.

use advice::{Bar, Column};
use yew::prelude::*;

/// Bars about a base line, one row each.
pub fn bars(caption: &str, base: u16, bars: &[Bar]) -> Html {
    html! {
        <figure class="bars">
            <figcaption>{ caption }</figcaption>
            <ul>{ for bars.iter().map(|about| bar(base, about)) }</ul>
        </figure>
    }
}

fn bar(base: u16, bar: &Bar) -> Html {
    let [low, high] = bar.ends;
    let part = |class: &'static str, end: u16| {
        html! {
            <rect {class} x={end.min(base).to_string()} y="4" height="16"
                width={end.abs_diff(base).to_string()} />
        }
    };
    html! {
        <li>
            <span class="name">{ &bar.label }</span>
            <svg viewBox="0 0 1000 24" preserveAspectRatio="none" aria-hidden="true">
                { part("low", low) }
                { part("high", high) }
                <line x1={base.to_string()} x2={base.to_string()} y1="0" y2="24" />
            </svg>
            <span class="ends"><span>{ &bar.texts[0] }</span><span>{ &bar.texts[1] }</span></span>
        </li>
    }
}

/// Columns side by side; those in which the side does not pay are hatched by
/// an outline as well as by their colour.
pub fn columns(caption: &str, columns: &[Column]) -> Html {
    let count = columns.len().max(1);
    let ends = [columns.first(), columns.last()];
    html! {
        <figure class="columns">
            <figcaption>{ caption }</figcaption>
            <svg viewBox={format!("0 0 {} 1000", count * 100)} preserveAspectRatio="none" aria-hidden="true">
                { for columns.iter().enumerate().map(|(index, column)| html! {
                    <rect class={if column.falls_short { "falls-short" } else { "pays" }}
                        x={(index * 100 + 5).to_string()} width="90"
                        y={1000_u16.saturating_sub(column.height).to_string()} height={column.height.to_string()} />
                }) }
            </svg>
            <p class="ends">{ for ends.into_iter().flatten().map(|column| html! { <span>{ &column.label }</span> }) }</p>
        </figure>
    }
}
