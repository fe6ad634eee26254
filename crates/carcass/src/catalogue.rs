//! The catalogue: every part, way, product, source and caution, linked by id.

use litemap::LiteMap;
use std::ops::Index;
use wording::text;

use quantity::{Decimal, Minutes, Share, UnitPrice};

use crate::dry_ageing::DryAgeing;
use crate::expected_yield::YieldModel;
use crate::fat_ledger::GrindClass;
use crate::hanging::ShrinkByStock;
use crate::loading::DataSet;
use crate::own_yields::OwnEnds;
use crate::plan::CutPlan;
use crate::spread::Spread;
use crate::stock::StockPreset;
use crate::table::DataError;

/// A part of the catalogue it came from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PartId(pub(crate) usize);

/// A way of the catalogue it came from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct WayId(pub(crate) usize);

/// A product of the catalogue it came from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct ProductId(pub(crate) usize);

/// How well a figure is known. Kept beside every default and shown on demand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mark {
    /// Read in the source named.
    Read,
    /// Derived by arithmetic from figures that were read.
    Derived,
    /// From memory of the source named.
    FromMemory,
    /// An estimate, or common practice without a source.
    Estimate,
    /// Read only where another text quotes it.
    Secondary,
    /// What the shop's own scale said.
    Own,
}

impl Mark {
    /// The mark in words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Read => text!("read in the source"),
            Self::Derived => text!("derived from published figures"),
            Self::FromMemory => text!("from memory"),
            Self::Estimate => text!("estimate"),
            Self::Secondary => text!("read in a secondary copy"),
            Self::Own => text!("the shop's own"),
        }
    }
}

/// Where a figure comes from.
#[derive(Clone, Debug)]
pub struct Source {
    /// Id in the data files.
    pub id: String,
    /// Citation.
    pub title: String,
    /// Year of publication, where there is one.
    pub year: Option<String>,
}

/// A piece on the way from side to cut: the side, a primal, a subprimal.
#[derive(Clone, Debug)]
pub struct Part {
    /// Id in the data files and in saved plans.
    pub id: String,
    /// Name of the trade.
    pub name: String,
    /// Canadian name where it differs.
    pub canadian_name: Option<String>,
    /// Item number of the US Institutional Meat Purchase Specifications.
    pub item: Option<String>,
    /// UNECE bovine meat code.
    pub unece: Option<String>,
    /// Place in the order of cutting at the block.
    pub order: Decimal,
    /// Its ways; the first is the reference way.
    pub ways: Vec<WayId>,
}

/// What a product is to the shop.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Kind {
    /// A saleable cut, grind and stew included.
    Cut,
    /// A by-product of fat: suet, fat trim, tallow.
    Fat,
    /// A by-product of bone.
    Bone,
    /// Weight that nobody pays for.
    Loss,
}

impl Kind {
    /// Whether it is a by-product: worth something or a cost to be rid of.
    pub const fn is_by_product(self) -> bool {
        matches!(self, Self::Fat | Self::Bone)
    }
}

/// What the plan makes of a product beyond what the ways say.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Role {
    /// Lean trim, which the classes of grind are blended from.
    LeanTrim,
    /// Fat trim, which goes into grind where the plan wants it to.
    FatTrim,
    /// What a part loses when it is dry-aged.
    AgeingLoss,
    /// What fat loses when it is rendered.
    RenderingLoss,
}

/// What leaves the block: a cut, a by-product or a loss.
#[derive(Clone, Debug)]
pub struct Product {
    /// Id in the data files and in saved plans.
    pub id: String,
    /// Name of the trade.
    pub name: String,
    /// What it is to the shop.
    pub kind: Kind,
    /// What the plan makes of it, where that is more than its ways say.
    pub role: Option<Role>,
    /// Other trade names as “region: name”, separated by semicolons.
    pub other_names: Option<String>,
    /// Item number of the US Institutional Meat Purchase Specifications.
    pub item: Option<String>,
    /// UNECE bovine meat code.
    pub unece: Option<String>,
    /// Share of its weight that is bone.
    pub bone: Share,
    /// What it is good for.
    pub use_note: Option<String>,
    /// How it moves with the stock.
    pub(crate) variation: usize,
}

/// What a way gives: a part to be broken further, or a product.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Output {
    /// A part.
    Part(PartId),
    /// A product.
    Product(ProductId),
}

/// One output of a way with its share of the part.
#[derive(Clone, Debug)]
pub struct WayOutput {
    /// What comes out.
    pub output: Output,
    /// Share of the part in grain-fed stock, from the data file.
    pub grain: Share,
    /// Share of the part in grass-fed stock, from the model in
    /// [`crate::stock`].
    pub grass: Share,
    /// Fat content of a trim, where it is one.
    pub fat: Option<Share>,
    /// Where the share comes from.
    pub source: usize,
    /// How well it is known.
    pub mark: Mark,
    /// How it was derived.
    pub note: Option<String>,
    /// Line in the data file.
    pub(crate) line: u64,
}

/// One way to break a part.
#[derive(Clone, Debug)]
pub struct Way {
    /// Id in the data files and in saved plans.
    pub id: String,
    /// What is done, in the trade's words.
    pub name: String,
    /// The part it breaks.
    pub part: PartId,
    /// Share of the time that is spent at the band saw, an estimate.
    pub saw: Share,
    /// Time for each piece, an estimate.
    pub per_piece: Minutes,
    /// Time for each kilogram of the part, an estimate.
    pub per_kg: Minutes,
    /// Cautions it triggers.
    pub cautions: Vec<usize>,
    /// What comes out.
    pub outputs: Vec<WayOutput>,
    /// At which ends of the stock its shares are the shop's own.
    pub own: OwnEnds,
    /// Line in the data file.
    pub(crate) line: u64,
}

/// A warning that stands beside what triggers it.
#[derive(Clone, Debug)]
pub struct Caution {
    /// Id in the data files.
    pub id: String,
    /// A few words.
    pub title: String,
    /// The whole of it.
    pub text: String,
    /// Whether it bears on the decision to buy and so is always shown whole.
    pub is_prominent: bool,
}

/// A complete plan that ships with the tool.
#[derive(Clone, Debug)]
pub struct NamedPlan {
    /// Id in the data files and in saved plans.
    pub id: String,
    /// Name shown.
    pub name: String,
    /// The way of every part it reaches.
    pub plan: CutPlan,
}

/// All data of a side, linked.
///
/// An id (`PartId`, `WayId`, `ProductId`) belongs to the catalogue that gave
/// it out; indexing another catalogue with it is a programming error.
#[derive(Clone, Debug)]
pub struct Catalogue {
    pub(crate) parts: Vec<Part>,
    pub(crate) ways: Vec<Way>,
    pub(crate) products: Vec<Product>,
    pub(crate) sources: Vec<Source>,
    pub(crate) cautions: Vec<Caution>,
    pub(crate) plans: Vec<NamedPlan>,
    pub(crate) presets: Vec<StockPreset>,
    pub(crate) sample_board: LiteMap<ProductId, UnitPrice>,
    pub(crate) yield_model: YieldModel,
    pub(crate) spread: Spread,
    pub(crate) grind_classes: Vec<GrindClass>,
    pub(crate) dry_ageing: Vec<DryAgeing>,
    pub(crate) shrink: ShrinkByStock,
    pub(crate) root: PartId,
}

impl Catalogue {
    /// The catalogue that ships with the tool.
    ///
    /// # Errors
    /// [`DataError`] names the file and line of the first fault.
    pub fn published() -> Result<Self, DataError> {
        DataSet::PUBLISHED.load()
    }

    /// The whole side.
    pub const fn root(&self) -> PartId {
        self.root
    }

    /// Every part with its id, in file order.
    pub fn parts(&self) -> impl Iterator<Item = (PartId, &Part)> {
        self.parts
            .iter()
            .enumerate()
            .map(|(index, part)| (PartId(index), part))
    }

    /// Every way with its id, in file order.
    pub fn ways(&self) -> impl Iterator<Item = (WayId, &Way)> {
        self.ways
            .iter()
            .enumerate()
            .map(|(index, way)| (WayId(index), way))
    }

    /// Every product with its id, in file order.
    pub fn products(&self) -> impl Iterator<Item = (ProductId, &Product)> {
        self.products
            .iter()
            .enumerate()
            .map(|(index, product)| (ProductId(index), product))
    }

    /// The plans that ship with the tool.
    pub fn plans(&self) -> &[NamedPlan] {
        &self.plans
    }

    /// The plan with this id.
    pub fn plan(&self, id: &str) -> Option<&NamedPlan> {
        self.plans.iter().find(|plan| plan.id == id)
    }

    /// The part with this id.
    pub fn part_id(&self, id: &str) -> Option<PartId> {
        self.parts.iter().position(|part| part.id == id).map(PartId)
    }

    /// The way with this id.
    pub fn way_id(&self, id: &str) -> Option<WayId> {
        self.ways.iter().position(|way| way.id == id).map(WayId)
    }

    /// The product with this id.
    pub fn product_id(&self, id: &str) -> Option<ProductId> {
        self.products
            .iter()
            .position(|product| product.id == id)
            .map(ProductId)
    }

    /// The first product with this role.
    pub fn product_in_role(&self, role: Role) -> Option<ProductId> {
        self.products
            .iter()
            .position(|product| product.role == Some(role))
            .map(ProductId)
    }

    /// The two stock presets, grain-fed first.
    pub fn presets(&self) -> &[StockPreset] {
        &self.presets
    }

    /// The cautions that `way` triggers.
    pub fn cautions_of(&self, way: WayId) -> impl Iterator<Item = &Caution> {
        self[way]
            .cautions
            .iter()
            .filter_map(|&index| self.cautions.get(index))
    }

    /// Every caution.
    pub fn cautions(&self) -> &[Caution] {
        &self.cautions
    }

    /// Where the share of `output` comes from; `None` for the shop's own.
    pub fn source_of(&self, output: &WayOutput) -> Option<&Source> {
        self.published_source(output.source, output.mark)
    }

    /// Every source cited.
    pub fn sources(&self) -> &[Source] {
        &self.sources
    }

    /// The invented price that stands in until the shop enters its own.
    pub fn sample_price(&self, product: ProductId) -> UnitPrice {
        self.sample_board
            .get(&product)
            .copied()
            .unwrap_or(UnitPrice::ZERO)
    }

    /// The way a part is broken when nothing else is said: the first in file
    /// order. `None` only for a part without ways, which loading refuses.
    pub fn reference_way(&self, part: PartId) -> Option<WayId> {
        self[part].ways.first().copied()
    }

    /// The source of a figure with this mark: the shop's own has none.
    pub(crate) fn published_source(&self, source: usize, mark: Mark) -> Option<&Source> {
        self.sources.get(source).filter(|_| mark != Mark::Own)
    }

    pub(crate) fn way_mut(&mut self, way: WayId) -> Option<&mut Way> {
        self.ways.get_mut(way.0)
    }
}

impl Index<PartId> for Catalogue {
    type Output = Part;
    fn index(&self, part: PartId) -> &Part {
        &self.parts[part.0]
    }
}

impl Index<WayId> for Catalogue {
    type Output = Way;
    fn index(&self, way: WayId) -> &Way {
        &self.ways[way.0]
    }
}

impl Index<ProductId> for Catalogue {
    type Output = Product;
    fn index(&self, product: ProductId) -> &Product {
        &self.products[product.0]
    }
}
