//! The fields that take typed text.

use document::Document;
use document::format::PackagingForm;

/// A field that takes typed text.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Field {
    /// How many sides.
    Sides,
    /// Priced weight of all sides.
    Weight,
    /// Price of that weight.
    Price,
    /// Working time for all sides.
    LabourMinutes,
    /// Wage for an hour.
    LabourRate,
    /// What comes on top of the wage.
    OnCost,
    /// Overhead that an hour of work carries.
    Overhead,
    /// Margin that a side should make.
    TargetMargin,
    /// Loss in the cooler.
    Shrink,
    /// Carcass weight as a share of live weight.
    Dressing,
    /// Kill and inspection.
    Kill,
    /// Haul.
    Haul,
    /// Cutting and wrapping charged by the plant.
    CutAndWrap,
    /// What the supplier gives back.
    Rebate,
    /// Packaging for each weight of cuts.
    Packaging,
    /// Weight lost as drip.
    Purge,
    /// Share of cut weight never sold.
    Unsold,
    /// Share of cut weight sold marked down.
    MarkedDown,
    /// What is taken off marked-down meat.
    Discount,
    /// Cents that a suggested price may end on.
    Endings,
    /// Days the side has hung in the cooler.
    DaysHung,
    /// Hot weight of the graded carcass, both sides together.
    CarcassWeight,
    /// Fat over its ribeye.
    BackFat,
    /// Area of its ribeye.
    RibeyeArea,
    /// Its kidney, pelvic and heart fat, a share of the carcass.
    KidneyFat,
    /// Price of one pack.
    PackCost,
    /// Weight that goes into a pack.
    PackHolds,
    /// Points of fat that grind stays below the limit of its class.
    GrindMargin,
    /// Day of the price board.
    BoardDate,
    /// Days after which the board counts as old.
    BoardDays,
    /// Board price of the product with this id.
    Board(String),
    /// Unsold share of the product with this id.
    CutUnsold(String),
    /// Share of the product with this id that is sold marked down.
    CutMarkedDown(String),
    /// Suggested price of the product with this id, held where it is.
    Pin(String),
    /// Lowest suggested price of the product with this id.
    Floor(String),
    /// Highest suggested price of the product with this id.
    Cap(String),
    /// Minutes for one piece by the way with this id.
    WayMinutes(String),
    /// Percent of the part with this id that goes by its second way.
    SplitPercent(String),
    /// Days that the part with this id is dry-aged.
    AgeingDays(String),
    /// The shop's own loss of the part with this id in dry-ageing.
    AgeingLoss(String),
    /// The shop's own yield of the part with this id in rendering.
    RenderingYield(String),
    /// How much of the class of grind with this id: percent of all lean trim,
    /// or a weight.
    Grind(String),
}

/// Fields that stand there once, with their ids in the page.
const SINGLE: [(Field, &str); 30] = [
    (Field::Sides, "sides"),
    (Field::Weight, "side-weight"),
    (Field::Price, "side-price"),
    (Field::LabourMinutes, "labour-minutes"),
    (Field::LabourRate, "labour-rate"),
    (Field::OnCost, "on-cost"),
    (Field::Overhead, "overhead"),
    (Field::TargetMargin, "target-margin"),
    (Field::Shrink, "shrink"),
    (Field::Dressing, "dressing"),
    (Field::Kill, "kill"),
    (Field::Haul, "haul"),
    (Field::CutAndWrap, "cut-and-wrap"),
    (Field::Rebate, "rebate"),
    (Field::Packaging, "packaging"),
    (Field::Purge, "purge"),
    (Field::Unsold, "unsold"),
    (Field::MarkedDown, "marked-down"),
    (Field::Discount, "discount"),
    (Field::Endings, "endings"),
    (Field::DaysHung, "days-hung"),
    (Field::CarcassWeight, "carcass-weight"),
    (Field::BackFat, "back-fat"),
    (Field::RibeyeArea, "ribeye-area"),
    (Field::KidneyFat, "kidney-fat-share"),
    (Field::PackCost, "pack-cost"),
    (Field::PackHolds, "pack-holds"),
    (Field::GrindMargin, "grind-margin"),
    (Field::BoardDate, "board-date"),
    (Field::BoardDays, "board-days"),
];

/// Makes a field of the id of a product, way or part.
type MakeField = fn(String) -> Field;

/// Fields that stand there once for each product, way or part, with what comes
/// before the id.
const FOR_EACH: [(MakeField, &str); 12] = [
    (Field::Board, "price-"),
    (Field::CutUnsold, "unsold-"),
    (Field::CutMarkedDown, "marked-down-"),
    (Field::Pin, "pin-"),
    (Field::Floor, "floor-"),
    (Field::Cap, "cap-"),
    (Field::WayMinutes, "minutes-"),
    (Field::SplitPercent, "split-"),
    (Field::AgeingDays, "ageing-days-"),
    (Field::AgeingLoss, "ageing-loss-"),
    (Field::RenderingYield, "rendering-yield-"),
    (Field::Grind, "grind-"),
];

impl Field {
    /// Whether it says what work, packaging and losses cost the shop or what its
    /// cuts are sold at, and nothing about one side.
    pub const fn is_of_shop(&self) -> bool {
        matches!(
            self,
            Self::LabourRate
                | Self::OnCost
                | Self::Overhead
                | Self::TargetMargin
                | Self::Packaging
                | Self::Purge
                | Self::Unsold
                | Self::MarkedDown
                | Self::Discount
                | Self::Endings
                | Self::PackCost
                | Self::PackHolds
                | Self::BoardDate
                | Self::BoardDays
                | Self::Board(_)
                | Self::CutUnsold(_)
                | Self::CutMarkedDown(_)
                | Self::Pin(_)
                | Self::Floor(_)
                | Self::Cap(_)
                | Self::WayMinutes(_)
        )
    }

    /// The id of its input in the page, which is also its name where it is
    /// kept.
    pub fn id(&self) -> String {
        let (prefix, id) = match self {
            Self::Board(id) => ("price-", id),
            Self::CutUnsold(id) => ("unsold-", id),
            Self::CutMarkedDown(id) => ("marked-down-", id),
            Self::Pin(id) => ("pin-", id),
            Self::Floor(id) => ("floor-", id),
            Self::Cap(id) => ("cap-", id),
            Self::WayMinutes(id) => ("minutes-", id),
            Self::SplitPercent(id) => ("split-", id),
            Self::AgeingDays(id) => ("ageing-days-", id),
            Self::AgeingLoss(id) => ("ageing-loss-", id),
            Self::RenderingYield(id) => ("rendering-yield-", id),
            Self::Grind(id) => ("grind-", id),
            single => {
                let id = SINGLE.iter().find(|(field, _)| field == single);
                return id.map_or_else(String::new, |(_, id)| (*id).to_owned());
            }
        };
        format!("{prefix}{id}")
    }

    /// The field with this id, if there is one.
    pub fn of_id(id: &str) -> Option<Self> {
        if let Some((field, _)) = SINGLE.iter().find(|(_, known)| *known == id) {
            return Some(field.clone());
        }
        FOR_EACH
            .iter()
            .find_map(|(make, prefix)| Some(make(id.strip_prefix(prefix)?.to_owned())))
    }

    /// The ids of the fields that stand there once.
    pub fn singles() -> impl Iterator<Item = &'static str> {
        SINGLE.iter().map(|(_, id)| *id)
    }

    /// What comes before the id of a product, way or part in the ids of the
    /// fields that stand there for each.
    pub fn prefixes() -> impl Iterator<Item = &'static str> {
        FOR_EACH.iter().map(|(_, prefix)| *prefix)
    }

    /// Whether nothing typed means nothing wanted.
    pub const fn may_be_empty(&self) -> bool {
        matches!(
            self,
            Self::Endings
                | Self::BoardDate
                | Self::CutUnsold(_)
                | Self::CutMarkedDown(_)
                | Self::Pin(_)
                | Self::Floor(_)
                | Self::Cap(_)
                | Self::WayMinutes(_)
                | Self::DaysHung
                | Self::CarcassWeight
                | Self::BackFat
                | Self::RibeyeArea
                | Self::KidneyFat
                | Self::AgeingDays(_)
                | Self::AgeingLoss(_)
                | Self::RenderingYield(_)
                | Self::Grind(_)
        )
    }

    /// What stands in it until something is typed. Prices have their sample
    /// in the catalogue, labour its estimate in the plan.
    pub fn sample(&self) -> String {
        let shop = Document::sample().shop;
        match self {
            Self::Sides => "1".to_owned(),
            Self::LabourRate => shop.labour_per_hour,
            Self::OnCost => shop.on_cost_percent,
            Self::Overhead => shop.overhead_per_hour,
            Self::TargetMargin => shop.target_margin_percent,
            Self::Packaging => match shop.packaging {
                PackagingForm::PerWeight(price) => price.amount,
                PackagingForm::PerPack { cost, .. } => cost,
            },
            Self::Purge => shop.losses.purge,
            Self::Unsold => shop.losses.unsold,
            Self::MarkedDown => shop.losses.marked_down,
            Self::Discount => shop.losses.discount,
            // Middle of the published ranges; the README names the sources.
            Self::Shrink => "1.5".to_owned(),
            Self::Dressing => "61.5".to_owned(),
            // Invented: about what the sample by weight comes to.
            Self::PackCost => "0.25".to_owned(),
            Self::PackHolds => "0.7".to_owned(),
            Self::Kill | Self::Haul | Self::CutAndWrap | Self::Rebate | Self::GrindMargin => {
                "0".to_owned()
            }
            Self::SplitPercent(_) => "50".to_owned(),
            Self::BoardDays => "90".to_owned(),
            _ => String::new(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_field_is_found_again_by_its_id() {
        let each = FOR_EACH.iter().map(|(make, _)| make("t-bone".to_owned()));
        for field in SINGLE.iter().map(|(field, _)| field.clone()).chain(each) {
            assert_eq!(Field::of_id(&field.id()), Some(field));
        }
        assert_eq!(Field::of_id("no-such-field"), None);
    }
}
