//! An invented side, worked out: what is to be had here before anything is typed.

use notation::{mass_with_unit, percent, price_with_unit};
use quantity::Rounding;
use wording::{key, say};
use yew::prelude::*;

use crate::element::{button, element};
use crate::state::{Action, Data, worked_out};
use crate::verdict_strip::reason;
use draft::Draft;

/// Whether nothing was typed or chosen here but how amounts are written, and the
/// stock, which stands above the sample and changes it.
pub fn is_first(draft: &Draft) -> bool {
    let mut clean = Draft::default();
    clean.currency = draft.currency;
    clean.units = draft.units;
    clean.grass_percent = draft.grass_percent;
    *draft == clean
}

/// The invented side with its verdict by the shop of this draft, and the way to
/// look at all of it; nothing where the shop's own entries cannot be read.
pub fn worked_sample(data: &Data, draft: &Draft, dispatch: &Callback<Action>) -> Option<Html> {
    let mut sample = draft.clone();
    sample.fill_in_sample();
    let units = sample.units;
    let priced = worked_out(data, sample)?;
    let (deal, verdict) = (&priced.resolved.deal, &priced.sheet.verdict);
    let per = |price, rounding| price_with_unit(price, units.price(), rounding);
    let said = say!(
        "{weight} at {price}: margin {margin}, walk-away price {walk_away}. {reason}",
        mass_with_unit(deal.weight, units),
        per(deal.price, Rounding::HalfEven),
        percent(verdict.margin),
        per(verdict.walk_away, Rounding::Down),
        reason(verdict, priced.resolved.shop.target_margin, units)
    );
    let dispatch = dispatch.clone();
    let look = Callback::from(move |_: MouseEvent| dispatch.emit(Action::FillInSample));
    Some(
        element("div")
            .class("sample-notice")
            .put(element("strong").tell(key!("An invented side, worked out")))
            .put(element("p").text(said))
            .put(button("quiet", look).tell(key!("Look at all of it")))
            .html(),
    )
}
