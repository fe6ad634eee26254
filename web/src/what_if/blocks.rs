//! The pieces of an answer, drawn.

use advice::{Block, Figure, GridRow, Tone, Write};
use yew::prelude::*;

use super::charts;
use crate::state::Action;

/// A piece of an answer.
pub fn drawn(block: &Block, dispatch: &Callback<Action>) -> Html {
    match block {
        Block::Text(tone, text) => sentence(*tone, text),
        Block::Figures(figures) => html! {
            <dl class="findings">{ for figures.iter().map(figure) }</dl>
        },
        Block::Table(caption, heads, rows) => html! {
            <div>
                <p class="caption">{ caption }</p>
                { table(caption, heads, rows) }
            </div>
        },
        Block::FoldedTable(caption, heads, rows) => html! {
            <details class="fold">
                <summary>{ caption }</summary>
                { table(caption, heads, rows) }
            </details>
        },
        Block::Bars(caption, base, bars) => charts::bars(caption, *base, bars),
        Block::Columns(caption, columns) => charts::columns(caption, columns),
        Block::Grid(caption, names, heads, rows) => grid(caption, names, heads, rows),
        Block::Offer(label, writes) => offer(label, writes, dispatch),
    }
}

fn sentence(tone: Tone, text: &str) -> Html {
    let (class, sign) = match tone {
        Tone::Finding => ("finding", ""),
        Tone::Note => ("note", ""),
        Tone::Trouble => ("fault", "✕ "),
    };
    html! {
        <p {class}>
            if !sign.is_empty() {
                <span aria-hidden="true">{ sign }</span>
            }
            { text }
        </p>
    }
}

fn figure(figure: &Figure) -> Html {
    html! {
        <div>
            <dt>{ &figure.label }</dt>
            <dd>{ &figure.text }
                if !figure.beside.is_empty() {
                    { " " }<small>{ &figure.beside }</small>
                }
            </dd>
        </div>
    }
}

fn heads(heads: &[String]) -> Html {
    heads
        .iter()
        .map(|head| html! { <th scope="col">{ head }</th> })
        .collect()
}

/// A table that scrolls sideways on its own, never the page. Its caption
/// stands outside, so that it does not scroll away.
fn table(caption: &str, head: &[String], rows: &[Vec<String>]) -> Html {
    html! {
        <div class="scroll" tabindex="0" role="region" aria-label={caption.to_owned()}>
            <table class="answers" aria-label={caption.to_owned()}>
                <thead><tr>{ heads(head) }</tr></thead>
                <tbody>
                    { for rows.iter().map(|row| html! {
                        <tr>
                            { for row.iter().enumerate().map(|(index, cell)| if index == 0 {
                                html! { <th scope="row">{ cell }</th> }
                            } else {
                                html! { <td>{ cell }</td> }
                            }) }
                        </tr>
                    }) }
                </tbody>
            </table>
        </div>
    }
}

/// A grid says in each cell whether the side pays there, in colour and in a
/// sign.
fn grid(caption: &str, [across, down]: &[String; 2], head: &[String], rows: &[GridRow]) -> Html {
    html! {
        <div>
        <p class="caption">{ caption }</p>
        <div class="scroll" tabindex="0" role="region" aria-label={caption.to_owned()}>
            <table class="grid" aria-label={caption.to_owned()}>
                <thead>
                    <tr><td></td><th scope="colgroup" colspan={head.len().to_string()}>{ across }</th></tr>
                    <tr><th scope="col">{ down }</th>{ heads(head) }</tr>
                </thead>
                <tbody>
                    { for rows.iter().map(|row| html! {
                        <tr>
                            <th scope="row">{ &row.label }</th>
                            { for row.cells.iter().map(|cell| html! {
                                <td class={if cell.pays { "pays" } else { "falls-short" }}>
                                    <span class="sign">{ if cell.pays { "✓" } else { "✕" } }</span>{ &cell.text }
                                </td>
                            }) }
                        </tr>
                    }) }
                </tbody>
            </table>
        </div>
        </div>
    }
}

fn offer(label: &str, writes: &[Write], dispatch: &Callback<Action>) -> Html {
    let writes = writes.to_vec();
    let accept = dispatch.reform(move |_: MouseEvent| Action::TakeOver(writes.clone()));
    html! { <button type="button" class="offer" onclick={accept}>{ label }</button> }
}
