//! Between the saved form and what the core computes with.

use litemap::LiteMap;

use carcass::{Catalogue, CutPlan, ExpectedYield, HangingLoss, ProductId, Stock};
use pricing::deal::MOST_SIDES;
use pricing::{
    Age, AllocationMethod, Charge, ChargeAmount, Deal, Endings, Labour, LabourTime, Packaging,
    PriceBoard, PriceRounding, PriceRule, RoundTo, SaleLoss, Shop, WeightBasis,
};
use quantity::{LabourRate, Minutes, Money, Share};

use crate::amount::{PriceAmount, number, price_unit, signed_number};
use crate::format::{
    AgeForm, BasisForm, ChargeAmountForm, ChargeForm, DealForm, Document, LossForm, MethodForm,
    PackagingForm, RoundToForm, RoundingForm, RuleForm, ShopForm, StockFromForm,
};
use crate::{DocumentError, Wrong};

/// The longest name of a plan or a charge, in characters.
pub const LONGEST_NAME: usize = 80;

/// The most charges a deal may have.
pub const MOST_CHARGES: usize = 20;

/// A document as the core takes it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Resolved {
    /// The side as offered.
    pub deal: Deal,
    /// The way of every part.
    pub plan: CutPlan,
    /// What does not change from side to side.
    pub shop: Shop,
    /// The loss in the cooler, where it follows from the days hung.
    pub derived_shrink: Option<HangingLoss>,
    /// What the carcass is expected to give, where it was graded.
    pub expected_yield: Option<ExpectedYield>,
}

impl Document {
    /// Checks every value and links every id to `catalogue`.
    ///
    /// # Errors
    /// [`DocumentError::BadValue`] names the field and says what would be
    /// right.
    pub fn resolve(&self, catalogue: &Catalogue) -> Result<Resolved, DocumentError> {
        name("name", &self.name)?;
        let expected_yield = match &self.deal.carcass {
            None => None,
            Some(carcass) => Some(catalogue.expected_yield(carcass.resolve()?.yield_grade())),
        };
        let stock = self.deal.stock(expected_yield.as_ref())?;
        let (basis, derived_shrink) = self.deal.basis.resolve(catalogue, stock)?;
        Ok(Resolved {
            deal: self.deal.resolve(basis, stock)?,
            plan: self.plan.resolve(catalogue)?,
            shop: self.shop.resolve(catalogue)?,
            derived_shrink,
            expected_yield,
        })
    }
}

fn name(at: &str, text: &str) -> Result<(), DocumentError> {
    if text.chars().nth(LONGEST_NAME).is_some() {
        return Err(DocumentError::bad(at, Wrong::NameTooLong));
    }
    if text.chars().any(char::is_control) {
        return Err(DocumentError::bad(at, Wrong::NameWithControls));
    }
    Ok(())
}

/// A percentage from 0 to below 100, or to 100 where `whole_allowed`.
pub(crate) fn percent(at: &str, text: &str, whole_allowed: bool) -> Result<Share, DocumentError> {
    let share = Share::from_percent(number(at, text)?);
    if share < Share::WHOLE || (whole_allowed && share == Share::WHOLE) {
        return Ok(share);
    }
    let found = text.to_owned();
    let wrong = if whole_allowed {
        Wrong::AboveWhole { found }
    } else {
        Wrong::NotBelowWhole { found }
    };
    Err(DocumentError::bad(at, wrong))
}

impl DealForm {
    /// How the animal was finished: as set, or as its grade has it.
    fn stock(&self, expected: Option<&ExpectedYield>) -> Result<Stock, DocumentError> {
        let preset = Stock::grass_share(percent("deal.grass_percent", &self.grass_percent, true)?);
        match (self.stock_from, expected) {
            (StockFromForm::Preset, _) => Ok(preset),
            (StockFromForm::Grade, Some(expected)) => Ok(expected.stock.nearest()),
            (StockFromForm::Grade, None) => Err(DocumentError::bad(
                "deal.stock_from",
                Wrong::GradeWithoutCarcass,
            )),
        }
    }

    fn resolve(&self, basis: WeightBasis, stock: Stock) -> Result<Deal, DocumentError> {
        let weight = self.weight.mass("deal.weight")?;
        if !weight.is_positive() {
            return Err(DocumentError::bad("deal.weight.amount", Wrong::NoWeight));
        }
        if self.charges.len() > MOST_CHARGES {
            return Err(DocumentError::bad("deal.charges", Wrong::TooManyCharges));
        }
        if !(1..=MOST_SIDES).contains(&self.sides) {
            return Err(DocumentError::bad("deal.sides", Wrong::Sides));
        }
        Ok(Deal {
            sides: self.sides,
            weight,
            basis,
            price: self.price.price("deal.price")?,
            charges: self
                .charges
                .iter()
                .enumerate()
                .map(|(index, charge)| charge.resolve(index))
                .collect::<Result<_, _>>()?,
            stock,
            age: match self.age {
                AgeForm::Under30Months => Age::Under30Months,
                AgeForm::Over30Months => Age::Over30Months,
                AgeForm::Unknown => Age::Unknown,
            },
            labour: match &self.labour_minutes {
                None => LabourTime::PlanEstimate,
                Some(minutes) => LabourTime::Total(Minutes::from_minutes(number(
                    "deal.labour_minutes",
                    minutes,
                )?)),
            },
        })
    }
}

impl BasisForm {
    /// The basis, and the loss in the cooler where it follows from the days
    /// hung.
    fn resolve(
        &self,
        catalogue: &Catalogue,
        stock: Stock,
    ) -> Result<(WeightBasis, Option<HangingLoss>), DocumentError> {
        let shrink = |own: &Option<String>, days: Option<u32>| match (own, days) {
            (Some(own), _) => {
                let own = percent("deal.basis.shrink_percent", own, false)?;
                Ok((own, None))
            }
            (None, Some(days)) => {
                let loss = catalogue
                    .cooler_shrink(stock)
                    .after(days)
                    .map_err(|error| {
                        DocumentError::bad("deal.basis.days_hung", Wrong::Hanging(error))
                    })?;
                Ok((loss.lost, Some(loss)))
            }
            (None, None) => Err(DocumentError::bad("deal.basis", Wrong::NoShrink)),
        };
        match self {
            Self::Cold => Ok((WeightBasis::Cold, None)),
            Self::Hot {
                shrink_percent,
                days_hung,
            } => {
                let (shrink, derived) = shrink(shrink_percent, *days_hung)?;
                Ok((WeightBasis::Hot { shrink }, derived))
            }
            Self::Live {
                dressing_percent,
                shrink_percent,
                days_hung,
            } => {
                let at = "deal.basis.dressing_percent";
                let dressing = percent(at, dressing_percent, true)?;
                if dressing == Share::ZERO {
                    return Err(DocumentError::bad(at, Wrong::NotAboveZero));
                }
                let (shrink, derived) = shrink(shrink_percent, *days_hung)?;
                Ok((WeightBasis::Live { dressing, shrink }, derived))
            }
        }
    }
}

impl ChargeForm {
    fn resolve(&self, index: usize) -> Result<Charge, DocumentError> {
        let at = format!("deal.charges[{index}]");
        name(&format!("{at}.what"), &self.what)?;
        Ok(Charge {
            what: self.what.clone(),
            amount: match &self.amount {
                ChargeAmountForm::Flat(amount) => ChargeAmount::Flat(Money::from_units(
                    signed_number(&format!("{at}.amount.flat"), amount)?,
                )),
                ChargeAmountForm::PerWeight(price) => {
                    ChargeAmount::PerWeight(price.signed_price(&format!("{at}.amount.per_weight"))?)
                }
            },
        })
    }
}

fn product_id(
    catalogue: &Catalogue,
    at: &str,
    product_id: &str,
) -> Result<ProductId, DocumentError> {
    catalogue
        .product_id(product_id)
        .ok_or_else(|| DocumentError::bad(at, Wrong::NoSuchProduct))
}

impl PackagingForm {
    fn resolve(&self) -> Result<Packaging, DocumentError> {
        match self {
            Self::PerWeight(price) => price.price("shop.packaging").map(Packaging::PerWeight),
            Self::PerPack { cost, holds } => {
                let cost = Money::from_units(number("shop.packaging.cost", cost)?);
                let holds = holds.mass("shop.packaging.holds")?;
                if !holds.is_positive() {
                    return Err(DocumentError::bad("shop.packaging.holds", Wrong::EmptyPack));
                }
                Ok(Packaging::PerPack { cost, holds })
            }
        }
    }
}

impl LossForm {
    /// Whether every share can be one and something is left to sell.
    pub fn is_sound(&self) -> bool {
        self.resolve("").is_ok()
    }

    fn resolve(&self, at: &str) -> Result<SaleLoss, DocumentError> {
        let share = |name: &str, text: &str| percent(&format!("{at}.{name}"), text, true);
        let loss = SaleLoss {
            purge: share("purge", &self.purge)?,
            unsold: share("unsold", &self.unsold)?,
            marked_down: share("marked_down", &self.marked_down)?,
            discount: share("discount", &self.discount)?,
        };
        if loss.is_sound() {
            Ok(loss)
        } else {
            Err(DocumentError::bad(at, Wrong::NothingToSell))
        }
    }
}

impl ShopForm {
    fn resolve(&self, catalogue: &Catalogue) -> Result<Shop, DocumentError> {
        let mut board = PriceBoard::default();
        for (id, price) in &self.board {
            let at = format!("shop.board.{id}");
            let product = product_id(catalogue, &at, id)?;
            let price = if catalogue[product].kind.is_by_product() {
                price.signed_price(&at)?
            } else {
                price.price(&at)?
            };
            board.set(product, price);
        }
        let mut own_losses = LiteMap::new();
        for (id, loss) in &self.own_losses {
            let at = format!("shop.own_losses.{id}");
            own_losses.insert(product_id(catalogue, &at, id)?, loss.resolve(&at)?);
        }
        let mut rules = LiteMap::new();
        for (id, rule) in &self.rules {
            let at = format!("shop.rules.{id}");
            rules.insert(product_id(catalogue, &at, id)?, rule.resolve(&at)?);
        }
        Ok(Shop {
            labour: self.labour(catalogue)?,
            target_margin: percent(
                "shop.target_margin_percent",
                &self.target_margin_percent,
                false,
            )?,
            packaging: self.packaging.resolve()?,
            losses: self.losses.resolve("shop.losses")?,
            own_losses,
            method: self.method.into(),
            board,
            rules,
            rounding: self.rounding.resolve()?,
        })
    }
}

impl RuleForm {
    fn resolve(&self, at: &str) -> Result<PriceRule, DocumentError> {
        match self {
            Self::Pinned(price) => price.price(&format!("{at}.pinned")).map(PriceRule::Pinned),
            Self::Between { floor, cap } => {
                let bound = |name: &str, price: &Option<PriceAmount>| {
                    price
                        .as_ref()
                        .map(|price| price.price(&format!("{at}.between.{name}")))
                        .transpose()
                };
                Ok(PriceRule::Between {
                    floor: bound("floor", floor)?,
                    cap: bound("cap", cap)?,
                })
            }
        }
    }
}

impl RoundingForm {
    fn resolve(&self) -> Result<PriceRounding, DocumentError> {
        let endings = if self.endings.is_empty() {
            Endings::EVERY_CENT
        } else {
            Endings::typed(&self.endings).map_err(|error| {
                DocumentError::bad("shop.rounding.endings", Wrong::Endings(error))
            })?
        };
        Ok(PriceRounding {
            endings,
            to: match self.to {
                RoundToForm::Up => RoundTo::Up,
                RoundToForm::Nearest => RoundTo::Nearest,
            },
            unit: price_unit("shop.rounding", &self.unit)?,
        })
    }
}

impl ShopForm {
    fn labour(&self, catalogue: &Catalogue) -> Result<Labour, DocumentError> {
        let mut own_times = LiteMap::new();
        for (id, minutes) in &self.own_minutes {
            let at = format!("shop.own_minutes.{id}");
            let way = catalogue
                .way_id(id)
                .ok_or_else(|| DocumentError::bad(&at, Wrong::NoSuchWay))?;
            own_times.insert(way, Minutes::from_minutes(number(&at, minutes)?));
        }
        let per_hour = |at: &str, text: &str| number(at, text).map(LabourRate::from_per_hour);
        Ok(Labour {
            rate: per_hour("shop.labour_per_hour", &self.labour_per_hour)?,
            on_cost: Share::from_percent(number("shop.on_cost_percent", &self.on_cost_percent)?),
            overhead: per_hour("shop.overhead_per_hour", &self.overhead_per_hour)?,
            own_times,
        })
    }
}

impl From<MethodForm> for AllocationMethod {
    fn from(form: MethodForm) -> Self {
        match form {
            MethodForm::PhysicalWeight => Self::PhysicalWeight,
            MethodForm::SalesValueAtSplitOff => Self::SalesValueAtSplitOff,
            MethodForm::NetRealisableValue => Self::NetRealisableValue,
            MethodForm::ConstantGrossMargin => Self::ConstantGrossMargin,
        }
    }
}

impl From<AllocationMethod> for MethodForm {
    fn from(method: AllocationMethod) -> Self {
        match method {
            AllocationMethod::PhysicalWeight => Self::PhysicalWeight,
            AllocationMethod::SalesValueAtSplitOff => Self::SalesValueAtSplitOff,
            AllocationMethod::NetRealisableValue => Self::NetRealisableValue,
            AllocationMethod::ConstantGrossMargin => Self::ConstantGrossMargin,
        }
    }
}
