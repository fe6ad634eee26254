//! How the animal was finished, and what that does to the shares.
//!
//! The data files give every share for grain-fed stock. No published table of
//! grass against grain per cut was found, so the grass-fed shares are a model,
//! and the tool says so. It takes the two presets of `stock.csv` and does this:
//!
//! 1. Fat trim shrinks and bone grows by the ratio of the two presets.
//! 2. A cut whose correlation `r` with fatness is published keeps the share
//!    `1 − r · CV · z` of its own, where `CV` is its coefficient of variation
//!    and `z` the difference in fat trim between the presets in standard
//!    deviations of fat trim. This is the linear regression of share on
//!    fatness: slope `r · σ_cut ⁄ σ_fat`. (Judge et al. 2019, table 2, for `r`
//!    and CV; Koch et al. for the CV of fat trim.)
//! 3. All other lean — grind, stew, cuts without a published correlation —
//!    grows by one common factor, chosen so that the side closes to one.
//! 4. A bone-in cut mixes its lean and its bone factor by its share of bone.
//!
//! Steps 1 to 3 are solved on the reference way of every part. A part's factor
//! is the mean of what comes off it; each way then closes within itself, so a
//! choice made at one part never changes the weight of another.

use std::collections::BTreeMap;

use quantity::{Decimal, Mass, Rounding, Share};

use crate::breakdown::{What, break_down, give_rest_to_largest};
use crate::catalogue::{Catalogue, Kind, Mark, Output, PartId, ProductId};
use crate::loading::DataSet;
use crate::plan::CutPlan;
use crate::table::{DataError, DataFile, rows};

/// Decimal places of a modelled share.
const PLACES: u32 = 9;

/// A point between grain-fed and grass-fed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Stock(Share);

impl Stock {
    /// Grain-fed throughout.
    pub const GRAIN: Self = Self(Share::ZERO);
    /// Grass-fed throughout.
    pub const GRASS: Self = Self(Share::WHOLE);

    /// A point on the way from grain-fed (0) to grass-fed (1). What lies
    /// outside is taken to the nearer end; digits past the sixth are dropped,
    /// which keeps a mixed share exact.
    pub fn grass_share(share: Share) -> Self {
        let share = share.clamp(Share::ZERO, Share::WHOLE);
        Self(Share::from_fraction(
            Rounding::HalfEven.to_places(share.fraction(), 6),
        ))
    }

    /// How far towards grass-fed, 0 to 1.
    pub const fn share_of_grass(self) -> Share {
        self.0
    }

    /// The point on the straight line from `grain` to `grass`.
    pub fn between(self, grain: Share, grass: Share) -> Share {
        grain + (grass - grain) * self.0
    }
}

/// What a whole side of one stock gives, from `stock.csv`.
#[derive(Clone, Debug)]
pub struct StockPreset {
    /// Id in the data file.
    pub id: String,
    /// Name shown.
    pub name: String,
    /// Usual weight of a chilled side.
    pub side: Mass,
    /// Carcass weight as a share of live weight.
    pub dressing: Share,
    /// Saleable share of the chilled side, mostly boneless.
    pub saleable: Share,
    /// Fat trim with kidney fat.
    pub fat: Share,
    /// Bone and waste.
    pub bone: Share,
    /// How well the figures are known.
    pub mark: Mark,
}

/// How the share of one group of products varies between sides.
#[derive(Clone, Debug)]
pub(crate) struct Variation {
    /// Id in the data file.
    pub id: String,
    /// Coefficient of variation at fixed side weight.
    pub cv: Share,
    /// Correlation of the share with fatness; `None` where none is published.
    pub correlation: Option<Decimal>,
}

/// Reads the presets: `grain` first, `grass` second.
pub(crate) fn read_presets(
    file: DataFile,
    sources: &BTreeMap<String, usize>,
) -> Result<Vec<StockPreset>, DataError> {
    let columns = &[
        "stock",
        "name",
        "side_kg",
        "dressing_pct",
        "saleable_pct",
        "fat_pct",
        "bone_pct",
        "source",
        "mark",
        "note",
    ];
    let mut presets = Vec::new();
    for row in rows(file, columns)? {
        row.reference("source", sources)?;
        let percent = |column| row.number(column).map(Share::from_percent);
        let preset = StockPreset {
            id: row.required("stock")?,
            name: row.required("name")?,
            side: Mass::from_kg(row.number("side_kg")?),
            dressing: percent("dressing_pct")?,
            saleable: percent("saleable_pct")?,
            fat: percent("fat_pct")?,
            bone: percent("bone_pct")?,
            mark: Mark::read(&row)?,
        };
        if preset.saleable + preset.fat + preset.bone != Share::WHOLE {
            return Err(row.error("saleable, fat and bone must sum to 100"));
        }
        if !(preset.fat > Share::ZERO && preset.bone > Share::ZERO) {
            return Err(row.error("fat and bone must be above 0"));
        }
        presets.push(preset);
    }
    if presets
        .iter()
        .map(|preset| preset.id.as_str())
        .ne(["grain", "grass"])
    {
        return Err(DataError {
            file: file.name,
            line: None,
            message: "the file must hold “grain” and “grass”, in this order".to_owned(),
        });
    }
    Ok(presets)
}

/// The factor by which each product's share of the side changes from
/// grain-fed to grass-fed stock.
struct Factors<'a> {
    catalogue: &'a Catalogue,
    groups: &'a [Variation],
    fat: Decimal,
    bone: Decimal,
    /// Difference in fat trim in standard deviations of fat trim.
    leaner_by: Decimal,
    other_lean: Decimal,
}

impl Factors<'_> {
    fn of_lean(&self, product: ProductId) -> Option<Decimal> {
        let group = self.groups.get(self.catalogue[product].variation)?;
        group
            .correlation
            .map(|r| Decimal::ONE - r * group.cv.fraction() * self.leaner_by)
    }

    fn of(&self, product: ProductId) -> Decimal {
        let data = &self.catalogue[product];
        match data.kind {
            Kind::Fat => self.fat,
            Kind::Bone | Kind::Loss => self.bone,
            Kind::Cut => {
                let lean = self.of_lean(product).unwrap_or(self.other_lean);
                lean * data.bone.complement().fraction() + self.bone * data.bone.fraction()
            }
        }
    }
}

/// Replaces the grass-fed shares of every way by the model's.
///
/// # Errors
/// When the data leaves the model without a solution: no fat trim, no other
/// lean, or a share that would fall below zero.
pub(crate) fn shift_to_grass(
    catalogue: &mut Catalogue,
    groups: &[Variation],
    set: &DataSet,
) -> Result<(), DataError> {
    let fault = |message: &str| DataError {
        file: set.stock.name,
        line: None,
        message: message.to_owned(),
    };
    let (fat, bone, fat_trim, leaner) = match catalogue.presets() {
        [grain, grass] => (
            grass.fat.fraction() / grain.fat.fraction(),
            grass.bone.fraction() / grain.bone.fraction(),
            grain.fat.fraction(),
            (grain.fat - grass.fat).fraction(),
        ),
        _ => return Err(fault("two presets are needed")),
    };
    let fat_cv = groups
        .iter()
        .find(|group| group.id == "fat")
        .map(|group| group.cv.fraction())
        .unwrap_or_default();
    let leaner_by = leaner
        .checked_div(fat_cv * fat_trim)
        .ok_or_else(|| fault("the group “fat” must have a coefficient of variation above 0"))?;

    let mut factors = Factors {
        catalogue,
        groups,
        fat,
        bone,
        leaner_by,
        other_lean: Decimal::ONE,
    };
    factors.other_lean = solve_other_lean(&factors)
        .ok_or_else(|| fault("no lean is left to take up what fat and bone give and take"))?;
    let shares =
        grass_shares(&factors).ok_or_else(|| fault("a grass-fed share would fall below zero"))?;

    for (way, grass) in shares {
        if let Some(way) = catalogue.way_mut(way) {
            for (output, grass) in way.outputs.iter_mut().zip(grass) {
                output.grass = grass;
            }
        }
    }
    Ok(())
}

/// The factor of the lean without a published correlation that makes the
/// reference plan close: `(1 − Σ known) ⁄ Σ other`.
fn solve_other_lean(factors: &Factors) -> Option<Decimal> {
    let catalogue = factors.catalogue;
    let reference = break_down(
        catalogue,
        Mass::from_kg(Decimal::ONE),
        1,
        &CutPlan::default(),
        Stock::GRAIN,
    );
    let mut known = Decimal::ZERO;
    let mut other = Decimal::ZERO;
    for node in reference.nodes() {
        let What::Product(product) = node.what else {
            continue;
        };
        let share = node.share.fraction();
        let data = &catalogue[product];
        if data.kind == Kind::Cut && factors.of_lean(product).is_none() {
            other += share * data.bone.complement().fraction();
            known += share * factors.bone * data.bone.fraction();
        } else {
            known += share * factors.of(product);
        }
    }
    (Decimal::ONE - known)
        .checked_div(other)
        .filter(|factor| *factor > Decimal::ZERO)
}

type GrassShares = Vec<(crate::catalogue::WayId, Vec<Share>)>;

/// The grass-fed shares of every way, each closing to one.
fn grass_shares(factors: &Factors) -> Option<GrassShares> {
    let catalogue = factors.catalogue;
    let mut growth = BTreeMap::new();
    for (part, _) in catalogue.parts() {
        part_growth(factors, part, &mut growth);
    }
    catalogue
        .ways()
        .map(|(id, way)| {
            let grown: Vec<Decimal> = way
                .outputs
                .iter()
                .map(|output| {
                    output.grain.fraction()
                        * match output.output {
                            Output::Product(product) => factors.of(product),
                            Output::Part(part) => {
                                growth.get(&part).copied().unwrap_or(Decimal::ONE)
                            }
                        }
                })
                .collect();
            let total: Decimal = grown.iter().sum();
            let mut shares = grown
                .iter()
                .map(|share| {
                    let share = share.checked_div(total)?;
                    Some(Share::from_fraction(
                        Rounding::HalfEven.to_places(share, PLACES),
                    ))
                })
                .collect::<Option<Vec<Share>>>()?;
            give_rest_to_largest(&mut shares, Share::WHOLE);
            shares
                .iter()
                .all(|share| share.is_part_of_whole())
                .then_some((id, shares))
        })
        .collect()
}

/// A part's own factor: the mean of its outputs' factors by its reference way.
fn part_growth(factors: &Factors, part: PartId, growth: &mut BTreeMap<PartId, Decimal>) -> Decimal {
    if let Some(known) = growth.get(&part) {
        return *known;
    }
    let catalogue = factors.catalogue;
    let mut sum = Decimal::ZERO;
    if let Some(way) = catalogue.reference_way(part) {
        for output in &catalogue[way].outputs {
            let factor = match output.output {
                Output::Product(product) => factors.of(product),
                Output::Part(next) => part_growth(factors, next, growth),
            };
            sum += output.grain.fraction() * factor;
        }
    }
    growth.insert(part, sum);
    sum
}

#[cfg(test)]
mod tests {
    use super::*;

    fn share_of_side(catalogue: &Catalogue, stock: Stock, kind: &[Kind]) -> Decimal {
        let plan = &catalogue.plan("boneless").expect("a named plan").plan;
        break_down(catalogue, Mass::from_kg(Decimal::ONE), 1, plan, stock)
            .share_of(|product| kind.contains(&catalogue[product].kind))
            .percent()
    }

    #[test]
    fn both_presets_are_met_within_half_a_point() {
        let catalogue = Catalogue::published().expect("published data");
        let half = Decimal::new(5, 1);
        for (preset, stock) in catalogue.presets().iter().zip([Stock::GRAIN, Stock::GRASS]) {
            for (kinds, wanted) in [
                (&[Kind::Cut][..], preset.saleable),
                (&[Kind::Fat], preset.fat),
                (&[Kind::Bone, Kind::Loss], preset.bone),
            ] {
                let got = share_of_side(&catalogue, stock, kinds);
                assert!(
                    (got - wanted.percent()).abs() <= half,
                    "{} {kinds:?}: {got} against {wanted:?}",
                    preset.id
                );
            }
        }
    }

    #[test]
    fn half_way_lies_between() {
        let catalogue = Catalogue::published().expect("published data");
        let half = Stock::grass_share(Share::from_percent(Decimal::from(50)));
        let [grain, middle, grass] = [Stock::GRAIN, half, Stock::GRASS]
            .map(|stock| share_of_side(&catalogue, stock, &[Kind::Cut]));
        assert!(grain < middle && middle < grass);
    }
}
