//! The saved form of a cut plan.

use carcass::{Catalogue, CutPlan, GrindAmount, GrindPlan, PartId, WayId};
use litemap::LiteMap;
use serde::{Deserialize, Serialize};

use crate::amount::MassAmount;
use crate::resolve::percent;
use crate::{DocumentError, Wrong};

/// A cut plan: a named plan and what differs from it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PlanForm {
    /// Id of the named plan it starts from.
    pub base: String,
    /// Part id to way id, for the parts that differ.
    #[serde(with = "crate::as_map")]
    pub ways: LiteMap<String, String>,
    /// Part id to a second way and the share that goes by it.
    #[serde(with = "crate::as_map")]
    pub splits: LiteMap<String, SplitForm>,
    /// Part id to how it is dry-aged; none where it is left out.
    #[serde(
        default,
        with = "crate::as_map",
        skip_serializing_if = "LiteMap::is_empty"
    )]
    pub ageing: LiteMap<String, AgeingForm>,
    /// Part id to the shop's own yield in rendering, in percent; none where it is
    /// left out.
    #[serde(
        default,
        with = "crate::as_map",
        skip_serializing_if = "LiteMap::is_empty"
    )]
    pub rendering: LiteMap<String, String>,
    /// The classes that trim is ground to; none where it is left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub grind: Option<GrindForm>,
}

/// A second way of a part.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SplitForm {
    /// Way id.
    pub way: String,
    /// Percent of the part that goes by it.
    pub percent: String,
}

/// How a part is dry-aged.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AgeingForm {
    /// Days.
    pub days: u32,
    /// The shop's own loss, crust included; the published one where it is left
    /// out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub loss_percent: Option<String>,
}

/// The classes that trim is ground to.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct GrindForm {
    /// Class id to how much of it.
    #[serde(with = "crate::as_map")]
    pub classes: LiteMap<String, GrindAmountForm>,
    /// Whether fat trim may be blended in.
    pub with_fat_trim: bool,
    /// Points of fat that every class stays below its limit.
    pub margin_points: String,
}

/// How much of a class of grind.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum GrindAmountForm {
    /// Percent of the weight of all lean trim.
    SharePercent(String),
    /// A weight, all sides together.
    Weight(MassAmount),
}

impl PlanForm {
    /// The plan: its base with what differs from it.
    ///
    /// # Errors
    /// [`DocumentError::BadValue`] names an id that the catalogue does not
    /// know, a way that belongs to another part, or days or amounts that
    /// cannot be.
    pub fn resolve(&self, catalogue: &Catalogue) -> Result<CutPlan, DocumentError> {
        let base = catalogue.plan(&self.base).ok_or_else(|| {
            let found = self.base.clone();
            DocumentError::bad("plan.base", Wrong::NoSuchPlan { found })
        })?;
        let mut plan = base.plan.clone();
        for (part_id, way_id) in &self.ways {
            let at = format!("plan.ways.{part_id}");
            let (part, way) = part_and_way(catalogue, &at, part_id, way_id)?;
            plan.choose(part, way);
        }
        for (part_id, split) in &self.splits {
            let at = format!("plan.splits.{part_id}");
            let (part, way) = part_and_way(catalogue, &at, part_id, &split.way)?;
            if part == catalogue.root() {
                return Err(DocumentError::bad(&at, Wrong::WholeSideSplit));
            }
            let share = percent(&format!("{at}.percent"), &split.percent, true)?;
            plan.split(catalogue, part, way, share);
        }
        for (part_id, ageing) in &self.ageing {
            let at = format!("plan.ageing.{part_id}");
            let part = part_id_of(catalogue, &at, part_id)?;
            let own = match &ageing.loss_percent {
                None => None,
                Some(loss) => Some(percent(&format!("{at}.loss_percent"), loss, false)?),
            };
            plan.age(catalogue, part, ageing.days, own)
                .map_err(|error| DocumentError::bad(&at, Wrong::Hanging(error)))?;
        }
        for (part_id, own) in &self.rendering {
            let at = format!("plan.rendering.{part_id}");
            let part = part_id_of(catalogue, &at, part_id)?;
            plan.render(part, Some(percent(&at, own, true)?));
        }
        if let Some(grind) = &self.grind {
            plan.grind = grind.resolve(catalogue)?;
        }
        Ok(plan)
    }
}

impl GrindForm {
    fn resolve(&self, catalogue: &Catalogue) -> Result<GrindPlan, DocumentError> {
        let mut grind = GrindPlan::default();
        grind.with_fat_trim = self.with_fat_trim;
        grind.margin = percent("plan.grind.margin_points", &self.margin_points, false)?;
        for (id, amount) in &self.classes {
            let at = format!("plan.grind.classes.{id}");
            let class = catalogue
                .grind_classes()
                .iter()
                .find(|class| class.id == *id)
                .ok_or_else(|| DocumentError::bad(&at, Wrong::NoSuchClass))?;
            if grind.margin >= class.most_fat {
                return Err(DocumentError::bad(
                    "plan.grind.margin_points",
                    Wrong::NoFatLeft {
                        class: class.name.clone(),
                        most_fat: class.most_fat,
                    },
                ));
            }
            let amount = match amount {
                GrindAmountForm::SharePercent(share) => {
                    GrindAmount::Share(percent(&format!("{at}.share_percent"), share, true)?)
                }
                GrindAmountForm::Weight(weight) => {
                    GrindAmount::Weight(weight.mass(&format!("{at}.weight"))?)
                }
            };
            grind.ask(class.product, amount);
        }
        Ok(grind)
    }
}

fn part_id_of(catalogue: &Catalogue, at: &str, part_id: &str) -> Result<PartId, DocumentError> {
    catalogue
        .part_id(part_id)
        .ok_or_else(|| DocumentError::bad(at, Wrong::NoSuchPart))
}

fn part_and_way(
    catalogue: &Catalogue,
    at: &str,
    part_id: &str,
    way_id: &str,
) -> Result<(PartId, WayId), DocumentError> {
    let part = part_id_of(catalogue, at, part_id)?;
    let way = catalogue
        .way_id(way_id)
        .filter(|&way| catalogue[way].part == part)
        .ok_or_else(|| {
            let found = way_id.to_owned();
            DocumentError::bad(at, Wrong::NotAWayOfThePart { found })
        })?;
    Ok((part, way))
}
