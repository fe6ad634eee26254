//! The cut plan of a draft: ways, splits, dry-ageing, classes of grind.

use carcass::Catalogue;
use document::MassAmount;
use document::format::{AgeingForm, GrindAmountForm, GrindForm, PlanForm, SplitForm};
use litemap::LiteMap;
use quantity::{Decimal, Share, typed};
use wording::{say, text};

use super::{Reading, mass, plain};
use crate::{Entry, Field};

impl Reading<'_> {
    pub(super) fn plan(&mut self, catalogue: &Catalogue) -> PlanForm {
        PlanForm {
            base: self.draft.plan.clone(),
            ways: self.draft.ways.clone(),
            splits: self.splits(),
            ageing: self.ageing(catalogue),
            rendering: self.rendering(catalogue),
            grind: self.grind(catalogue),
        }
    }

    /// The second ways with the share that goes by each.
    fn splits(&mut self) -> LiteMap<String, SplitForm> {
        let mut splits = LiteMap::new();
        for (part, way) in &self.draft.second_ways {
            let percent = self.percent(Field::SplitPercent(part.clone()), |share| {
                (share > Share::WHOLE).then_some(text!("is more than all of it: type 0 to 100."))
            });
            if let Some(percent) = percent {
                let way = way.clone();
                splits.insert(part.clone(), SplitForm { way, percent });
            }
        }
        splits
    }

    /// The parts with days of dry-ageing or a loss of the shop's own.
    fn ageing(&mut self, catalogue: &Catalogue) -> LiteMap<String, AgeingForm> {
        let mut ageing = LiteMap::new();
        for (part, data) in catalogue.parts() {
            let days_field = Field::AgeingDays(data.id.clone());
            let loss_field = Field::AgeingLoss(data.id.clone());
            let has_loss = self.draft.entry(&loss_field).own;
            if !has_loss && !self.draft.entry(&days_field).own {
                continue;
            }
            let loss_percent = has_loss.then(|| {
                self.percent(loss_field, |share| {
                    (share >= Share::WHOLE)
                        .then_some(text!("is 100 % or more, which leaves nothing to cut."))
                })
            });
            let days = self.field(days_field, |entry| {
                let days = days(entry)?;
                if !has_loss && days > 0 {
                    catalogue
                        .ageing_loss(part, days)
                        .map_err(|error| error.to_string())?;
                }
                Ok(days)
            });
            // A loss that cannot be read is noted as a fault already.
            let loss_percent = loss_percent.flatten();
            if let Some(days) = days {
                ageing.insert(data.id.clone(), AgeingForm { days, loss_percent });
            }
        }
        ageing
    }

    /// The parts with a yield of the shop's own in rendering.
    fn rendering(&mut self, catalogue: &Catalogue) -> LiteMap<String, String> {
        let mut rendering = LiteMap::new();
        for (_, part) in catalogue.parts() {
            let field = Field::RenderingYield(part.id.clone());
            if !self.draft.entry(&field).own {
                continue;
            }
            let own = self.percent(field, |share| {
                (share > Share::WHOLE).then_some(text!("is more than all of it: type 0 to 100."))
            });
            if let Some(own) = own {
                rendering.insert(part.id.clone(), own);
            }
        }
        rendering
    }

    /// The classes of grind with something typed.
    fn grind(&mut self, catalogue: &Catalogue) -> Option<GrindForm> {
        let mut classes = LiteMap::new();
        let mut leanest: Option<Share> = None;
        for class in catalogue.grind_classes() {
            let field = Field::Grind(class.id.clone());
            if !self.draft.entry(&field).own {
                continue;
            }
            leanest = leanest.or(Some(class.most_fat));
            if let Some(amount) = self.field(field, grind_amount) {
                classes.insert(class.id.clone(), amount);
            }
        }
        let limit = leanest?;
        let margin_points = self.field(Field::GrindMargin, |entry| {
            let margin = typed::percent(&entry.text).map_err(|error| error.to_string())?;
            if margin < limit {
                Ok(plain(margin.percent()))
            } else {
                Err(say!(
                    "“{typed}” leaves no fat for the leanest class: type a number below {limit}.",
                    entry.text.trim(),
                    plain(limit.percent())
                ))
            }
        })?;
        Some(GrindForm {
            classes,
            with_fat_trim: self.draft.grind_with_fat,
            margin_points,
        })
    }
}

/// A count of days; nothing typed is none.
pub(super) fn days(entry: &Entry) -> Result<u32, String> {
    if entry.text.trim().is_empty() {
        return Ok(0);
    }
    let number = typed::number(&entry.text).map_err(|error| error.to_string())?;
    let whole = number.is_integer().then(|| u32::try_from(number).ok());
    whole.flatten().ok_or_else(|| {
        say!(
            "“{typed}” is no count of days: type a whole number, such as 21.",
            entry.text.trim()
        )
    })
}

/// An amount of a class: with a unit of weight a weight, otherwise percent of
/// all lean trim.
fn grind_amount(entry: &Entry) -> Result<GrindAmountForm, String> {
    if entry
        .text
        .contains(|character: char| character.is_ascii_alphabetic())
    {
        let (mass, unit) = mass(entry).map_err(|error| error.to_string())?;
        return Ok(GrindAmountForm::Weight(MassAmount::new(mass, unit)));
    }
    let share = typed::percent(&entry.text).map_err(|error| error.to_string())?;
    if share.percent() > Decimal::ONE_HUNDRED {
        return Err(say!(
            "“{typed}” is more than all of it: type 0 to 100, or a weight such as 5 kg.",
            entry.text.trim()
        ));
    }
    Ok(GrindAmountForm::SharePercent(plain(share.percent())))
}
