//! Where the side goes, as a picture with its figures.

use carcass::Kind;
use quantity::Share;
use yew::prelude::*;

use crate::draft::Units;
use crate::format;
use crate::state::{Data, Figures};

/// What the picture shows.
#[derive(Properties, PartialEq)]
pub struct WholeSideProps {
    /// Products.
    pub data: Data,
    /// The last figures that could be worked out.
    pub figures: Figures,
    /// Units in force.
    pub units: Units,
}

/// One band with its legend: what it holds, the class that paints it.
const BANDS: [(&str, &str, &[Kind]); 4] = [
    ("Cuts, grind and stew", "band-cut", &[Kind::Cut]),
    ("Fat", "band-fat", &[Kind::Fat]),
    ("Bone", "band-bone", &[Kind::Bone]),
    ("Cutting loss", "band-loss", &[Kind::Loss]),
];

/// Where the side goes.
#[component]
pub fn WholeSide(props: &WholeSideProps) -> Html {
    let breakdown = &props.figures.sheet.breakdown;
    let chilled = props.figures.sheet.totals.chilled;
    let mut from = Share::ZERO;
    let mut bands = Vec::new();
    let mut legend = Vec::new();
    for (name, class, kinds) in BANDS {
        let share = breakdown.share_of(|product| kinds.contains(&props.data[product].kind));
        bands.push(html! {
            <rect class={class} x={format!("{}%", from.percent().round_dp(3))} y="0"
                width={format!("{}%", share.percent().round_dp(3))} height="100%" />
        });
        legend.push(html! {
            <tr>
                <th scope="row"><svg class="swatch" aria-hidden="true"><rect class={class} width="100%" height="100%" /></svg>{ name }</th>
                <td>{ format::mass_with_unit(chilled * share, props.units) }</td>
                <td>{ format::percent(share) }</td>
            </tr>
        });
        from = from + share;
    }
    html! {
        <figure class="whole">
            <figcaption>{ "Where the side goes" }</figcaption>
            <svg class="bands" aria-hidden="true" preserveAspectRatio="none">{ for bands }</svg>
            <table class="legend"><tbody>{ for legend }</tbody></table>
        </figure>
    }
}
