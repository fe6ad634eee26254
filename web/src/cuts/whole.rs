//! Where the side goes, as a picture with its figures.

use carcass::Kind;
use quantity::Share;
use yew::prelude::*;

use crate::draft::Units;
use crate::state::{Data, Figures};

/// One band with its legend: what it holds, the class that paints it.
const BANDS: [(&str, &str, &[Kind]); 4] = [
    ("Cuts, grind and stew", "band-cut", &[Kind::Cut]),
    ("Fat", "band-fat", &[Kind::Fat]),
    ("Bone", "band-bone", &[Kind::Bone]),
    ("Cutting loss", "band-loss", &[Kind::Loss]),
];

/// Where the side goes.
pub fn whole_side(data: &Data, figures: &Figures, units: Units) -> Html {
    let breakdown = &figures.sheet.breakdown;
    let chilled = figures.sheet.totals.chilled;
    let mut from = Share::ZERO;
    let mut bands = Vec::new();
    let mut legend = Vec::new();
    for (name, class, kinds) in BANDS {
        let share = breakdown.share_of(|product| kinds.contains(&data[product].kind));
        bands.push(html! {
            <rect class={class} x={format!("{}%", from.percent().round_dp(3))} y="0"
                width={format!("{}%", share.percent().round_dp(3))} height="100%" />
        });
        legend.push(html! {
            <tr>
                <th scope="row"><svg class="swatch" aria-hidden="true"><rect class={class} width="100%" height="100%" /></svg>{ name }</th>
                <td>{ notation::mass_with_unit(chilled * share, units) }</td>
                <td>{ notation::percent(share) }</td>
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
