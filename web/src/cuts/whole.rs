//! Where the side goes, as a picture with its figures.

use carcass::Kind;
use quantity::Share;
use wording::{Text, key};
use yew::Html;

use crate::element::element;
use crate::state::{Data, Figures};
use draft::Units;

/// One band with its legend: what it holds, the class that paints it.
const BANDS: [(Text, &str, &[Kind]); 4] = [
    (key!("Cuts, grind and stew"), "band-cut", &[Kind::Cut]),
    (key!("Fat"), "band-fat", &[Kind::Fat]),
    (key!("Bone"), "band-bone", &[Kind::Bone]),
    (key!("Cutting loss"), "band-loss", &[Kind::Loss]),
];

/// Where the side goes.
pub fn whole_side(data: &Data, figures: &Figures, units: Units) -> Html {
    let breakdown = &figures.sheet.breakdown;
    let chilled = figures.sheet.totals.chilled;
    let mut from = Share::ZERO;
    let mut picture = element("svg")
        .class("bands")
        .set("aria-hidden", "true")
        .set("preserveAspectRatio", "none");
    let mut legend = element("tbody");
    for (name, class, kinds) in BANDS {
        let share = breakdown.share_of(|product| kinds.contains(&data[product].kind));
        let band = || element("rect").class(class).set("height", "100%");
        picture = picture.put(
            band()
                .set("y", "0")
                .write("x", format!("{}%", from.percent().round_dp(3)))
                .write("width", format!("{}%", share.percent().round_dp(3))),
        );
        let swatch = element("svg")
            .class("swatch")
            .set("aria-hidden", "true")
            .put(band().set("width", "100%"));
        legend = legend.put(
            element("tr")
                .put(element("th").set("scope", "row").put(swatch).tell(name))
                .put(element("td").text(notation::mass_with_unit(chilled * share, units)))
                .put(element("td").text(notation::share(share))),
        );
        from = from + share;
    }
    element("figure")
        .class("whole")
        .put(element("figcaption").tell(key!("Where the side goes")))
        .put(picture)
        .put(element("table").class("legend").put(legend))
        .html()
}
