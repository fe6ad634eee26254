//! From the data files to a linked catalogue.
//!
//! One reader for each file, in the order in which they name each other.

use std::collections::BTreeMap;

use litemap::LiteMap;
use quantity::{Decimal, Minutes, Share, UnitPrice};

use crate::catalogue::{
    Catalogue, Caution, Kind, Mark, NamedPlan, Output, Part, PartId, Product, ProductId, Role,
    Source, Way, WayId, WayOutput,
};
use crate::checks;
use crate::data;
use crate::dry_ageing::read_dry_ageing;
use crate::expected_yield::YieldModel;
use crate::fat_ledger::read_classes;
use crate::hanging::ShrinkByStock;
use crate::own_yields::OwnEnds;
use crate::plan::CutPlan;
use crate::spread::{GroupSpread, Spread};
use crate::stock::{self, Variation};
use crate::table::{DataError, DataFile, Row, rows};

/// The text of every data file, for loading and for tests that break one.
#[derive(Clone, Copy)]
pub(crate) struct DataSet {
    pub sources: DataFile,
    pub parts: DataFile,
    pub products: DataFile,
    pub groups: DataFile,
    pub ways: DataFile,
    pub shares: DataFile,
    pub plans: DataFile,
    pub stock: DataFile,
    pub cautions: DataFile,
    pub sample_board: DataFile,
    pub grind_classes: DataFile,
    pub ageing: DataFile,
    pub hanging: DataFile,
    pub yield_grade: DataFile,
    pub spread: DataFile,
}

impl DataSet {
    /// The files that ship with the tool.
    pub const PUBLISHED: Self = Self {
        sources: data::SOURCES,
        parts: data::PARTS,
        products: data::PRODUCTS,
        groups: data::GROUPS,
        ways: data::WAYS,
        shares: data::SHARES,
        plans: data::PLANS,
        stock: data::STOCK,
        cautions: data::CAUTIONS,
        sample_board: data::SAMPLE_BOARD,
        grind_classes: data::GRIND_CLASSES,
        ageing: data::AGEING,
        hanging: data::HANGING,
        yield_grade: data::YIELD_GRADE,
        spread: data::SPREAD,
    };

    /// Reads, links and checks the files and models the grass-fed shares.
    ///
    /// # Errors
    /// [`DataError`] names the file and line of the first fault.
    pub fn load(&self) -> Result<Catalogue, DataError> {
        let set = self;
        let (sources, source_ids) = read_sources(set.sources)?;
        let (groups, group_spreads, group_ids) = read_groups(set.groups, &source_ids)?;
        let (mut parts, part_ids) = read_parts(set.parts)?;
        let (products, product_ids) = read_products(set.products, &group_ids)?;
        let (cautions, caution_ids) = read_cautions(set.cautions, &source_ids)?;
        let (mut ways, way_ids) = read_ways(set.ways, &part_ids, &caution_ids, &mut parts)?;
        read_shares(
            set.shares,
            &way_ids,
            &part_ids,
            &product_ids,
            &source_ids,
            &mut ways,
        )?;
        let plans = read_plans(set.plans, &part_ids, &way_ids, &ways)?;
        let presets = stock::read_presets(set.stock, &source_ids)?;
        let yield_model = YieldModel::read(set.yield_grade, &presets, &source_ids)?;
        let spread = Spread::read(set.spread, group_spreads, &yield_model, &source_ids)?;
        let sample_board = read_sample_board(set.sample_board, &product_ids)?;
        let grind_classes = read_classes(set.grind_classes, &source_ids, &product_ids)?;
        let dry_ageing = read_dry_ageing(set.ageing, &group_ids, &source_ids)?;
        let shrink = ShrinkByStock::read(set.hanging, &source_ids)?;
        let root = part_ids
            .get("side")
            .copied()
            .map(PartId)
            .ok_or_else(|| DataError {
                file: set.parts.name,
                line: None,
                message: "the part “side” is missing".to_owned(),
            })?;

        let mut catalogue = Catalogue {
            parts,
            ways,
            products,
            sources,
            cautions,
            plans,
            presets,
            sample_board,
            yield_model,
            spread,
            grind_classes,
            dry_ageing,
            shrink,
            root,
        };
        checks::check(&catalogue, set)?;
        stock::shift_to_grass(&mut catalogue, &groups, set)?;
        Ok(catalogue)
    }
}

/// Where each id stands in its list.
type Ids = BTreeMap<String, usize>;

/// Adds `id` to `known`, refusing a second one of the same name.
fn define(known: &mut Ids, row: &Row, column: &str, value: usize) -> Result<String, DataError> {
    let id = row.required(column)?;
    if known.insert(id.clone(), value).is_some() {
        return Err(row.error(format!("“{id}” is defined twice")));
    }
    Ok(id)
}

fn percent(row: &Row, column: &str) -> Result<Share, DataError> {
    let share = Share::from_percent(row.optional_number(column)?.unwrap_or_default());
    if share.is_part_of_whole() {
        Ok(share)
    } else {
        Err(row.error(format!("“{column}” must be 0 to 100 percent")))
    }
}

impl Mark {
    pub(crate) fn read(row: &Row) -> Result<Self, DataError> {
        match row.text("mark") {
            "R" => Ok(Self::Read),
            "D" => Ok(Self::Derived),
            "M" => Ok(Self::FromMemory),
            "E" => Ok(Self::Estimate),
            "S" => Ok(Self::Secondary),
            other => Err(row.error(format!("“mark” must be R, D, M, E or S, not “{other}”"))),
        }
    }
}

impl Kind {
    fn read(row: &Row) -> Result<Self, DataError> {
        match row.text("kind") {
            "cut" => Ok(Self::Cut),
            "fat" => Ok(Self::Fat),
            "bone" => Ok(Self::Bone),
            "loss" => Ok(Self::Loss),
            other => Err(row.error(format!(
                "“kind” must be cut, fat, bone or loss, not “{other}”"
            ))),
        }
    }
}

impl Role {
    /// Reads the role and holds it against the kind.
    fn read(row: &Row) -> Result<Option<Self>, DataError> {
        let (role, kind) = match row.text("role") {
            "" => return Ok(None),
            "lean-trim" => (Self::LeanTrim, Kind::Cut),
            "fat-trim" => (Self::FatTrim, Kind::Fat),
            "ageing-loss" => (Self::AgeingLoss, Kind::Loss),
            "rendering-loss" => (Self::RenderingLoss, Kind::Loss),
            other => {
                return Err(row.error(format!(
                    "“role” must be empty, lean-trim, fat-trim, ageing-loss or rendering-loss, not “{other}”"
                )));
            }
        };
        if Kind::read(row)? == kind {
            Ok(Some(role))
        } else {
            Err(row.error("“role” must go with its kind: lean-trim with cut, fat-trim with fat, ageing-loss and rendering-loss with loss"))
        }
    }
}

fn read_sources(file: DataFile) -> Result<(Vec<Source>, Ids), DataError> {
    let mut ids = Ids::new();
    let mut sources = Vec::new();
    for row in rows(file, &["source", "title", "year", "note"])? {
        sources.push(Source {
            id: define(&mut ids, &row, "source", sources.len())?,
            title: row.required("title")?,
            year: row.optional_text("year"),
        });
    }
    Ok((sources, ids))
}

fn read_parts(file: DataFile) -> Result<(Vec<Part>, Ids), DataError> {
    let mut ids = Ids::new();
    let mut parts = Vec::new();
    let columns = &[
        "part",
        "name",
        "canadian_name",
        "item",
        "unece",
        "order",
        "note",
    ];
    for row in rows(file, columns)? {
        parts.push(Part {
            id: define(&mut ids, &row, "part", parts.len())?,
            name: row.required("name")?,
            canadian_name: row.optional_text("canadian_name"),
            item: row.optional_text("item"),
            unece: row.optional_text("unece"),
            order: row.number("order")?,
            ways: Vec::new(),
        });
    }
    Ok((parts, ids))
}

type Groups = (Vec<Variation>, Vec<GroupSpread>, Ids);

fn read_groups(file: DataFile, sources: &Ids) -> Result<Groups, DataError> {
    let mut ids = Ids::new();
    let mut groups = Vec::new();
    let mut spreads = Vec::new();
    let columns = &[
        "group",
        "name",
        "cv_pct",
        "fat_correlation",
        "source",
        "mark",
        "note",
    ];
    for row in rows(file, columns)? {
        spreads.push(GroupSpread {
            name: row.required("name")?,
            cv: percent(&row, "cv_pct")?,
            source: row.reference("source", sources)?,
            mark: Mark::read(&row)?,
        });
        let correlation = row.optional_number("fat_correlation")?;
        if correlation.is_some_and(|r| r.abs() > Decimal::ONE) {
            return Err(row.error("“fat_correlation” must be −1 to 1"));
        }
        groups.push(Variation {
            id: define(&mut ids, &row, "group", groups.len())?,
            cv: percent(&row, "cv_pct")?,
            correlation,
        });
    }
    Ok((groups, spreads, ids))
}

fn read_products(file: DataFile, groups: &Ids) -> Result<(Vec<Product>, Ids), DataError> {
    let mut ids = Ids::new();
    let mut products = Vec::new();
    let columns = &[
        "product",
        "name",
        "kind",
        "role",
        "other_names",
        "item",
        "unece",
        "group",
        "bone_pct",
        "use",
        "note",
    ];
    for row in rows(file, columns)? {
        products.push(Product {
            id: define(&mut ids, &row, "product", products.len())?,
            name: row.required("name")?,
            kind: Kind::read(&row)?,
            role: Role::read(&row)?,
            other_names: row.optional_text("other_names"),
            item: row.optional_text("item"),
            unece: row.optional_text("unece"),
            bone: percent(&row, "bone_pct")?,
            use_note: row.optional_text("use"),
            variation: row.reference("group", groups)?,
        });
    }
    Ok((products, ids))
}

fn read_cautions(file: DataFile, sources: &Ids) -> Result<(Vec<Caution>, Ids), DataError> {
    let mut ids = Ids::new();
    let mut cautions = Vec::new();
    for row in rows(file, &["caution", "title", "text", "prominent", "source"])? {
        row.reference("source", sources)?;
        cautions.push(Caution {
            id: define(&mut ids, &row, "caution", cautions.len())?,
            title: row.required("title")?,
            text: row.required("text")?,
            is_prominent: match row.text("prominent") {
                "yes" => true,
                "no" => false,
                other => {
                    return Err(row.error(format!("“prominent” must be yes or no, not “{other}”")));
                }
            },
        });
    }
    Ok((cautions, ids))
}

fn read_ways(
    file: DataFile,
    part_ids: &Ids,
    cautions: &Ids,
    parts: &mut [Part],
) -> Result<(Vec<Way>, Ids), DataError> {
    let mut ids = Ids::new();
    let mut ways: Vec<Way> = Vec::new();
    let columns = &[
        "way",
        "part",
        "name",
        "tools",
        "minutes_per_piece",
        "minutes_per_kg",
        "saw_pct",
        "cautions",
        "note",
    ];
    for row in rows(file, columns)? {
        let way = WayId(ways.len());
        let part = PartId(row.reference("part", part_ids)?);
        let uses_saw = row
            .text("tools")
            .split_whitespace()
            .any(|tool| tool == "saw");
        if let Some(unknown) = row
            .text("tools")
            .split_whitespace()
            .find(|tool| !matches!(*tool, "knife" | "saw"))
        {
            return Err(row.error(format!("“tools” may be knife and saw, not “{unknown}”")));
        }
        let saw = percent(&row, "saw_pct")?;
        if uses_saw == (saw == Share::ZERO) {
            return Err(row.error("“saw_pct” must be above 0 where the saw is used, else 0"));
        }
        let mut triggered = Vec::new();
        for caution in row.text("cautions").split_whitespace() {
            triggered.push(*cautions.get(caution).ok_or_else(|| {
                row.error(format!(
                    "“cautions” names “{caution}”, which is not defined"
                ))
            })?);
        }
        if let Some(part) = parts.get_mut(part.0) {
            part.ways.push(way);
        }
        ways.push(Way {
            id: define(&mut ids, &row, "way", way.0)?,
            name: row.required("name")?,
            part,
            saw,
            per_piece: Minutes::from_minutes(row.number("minutes_per_piece")?),
            per_kg: Minutes::from_minutes(row.number("minutes_per_kg")?),
            cautions: triggered,
            outputs: Vec::new(),
            own: OwnEnds::default(),
            line: row.line,
        });
    }
    Ok((ways, ids))
}

/// Fills the outputs of `ways` from the file of shares.
fn read_shares(
    file: DataFile,
    way_ids: &Ids,
    parts: &Ids,
    products: &Ids,
    sources: &Ids,
    ways: &mut [Way],
) -> Result<(), DataError> {
    let columns = &[
        "way",
        "output",
        "share_pct",
        "fat_pct",
        "source",
        "mark",
        "note",
    ];
    for row in rows(file, columns)? {
        let way = WayId(row.reference("way", way_ids)?);
        let id = row.text("output");
        let output = match (parts.get(id), products.get(id)) {
            (Some(part), None) => Output::Part(PartId(*part)),
            (None, Some(product)) => Output::Product(ProductId(*product)),
            (Some(_), Some(_)) => {
                return Err(row.error(format!("“{id}” is both a part and a product")));
            }
            (None, None) => {
                return Err(row.error(format!("“output” names “{id}”, which is not defined")));
            }
        };
        let share = percent(&row, "share_pct")?;
        let fat = match row.optional_number("fat_pct")? {
            None => None,
            Some(_) => Some(percent(&row, "fat_pct")?),
        };
        if let Some(way) = ways.get_mut(way.0) {
            way.outputs.push(WayOutput {
                output,
                grain: share,
                grass: share,
                fat,
                source: row.reference("source", sources)?,
                mark: Mark::read(&row)?,
                note: row.optional_text("note"),
                line: row.line,
            });
        }
    }
    Ok(())
}

fn read_plans(
    file: DataFile,
    parts: &Ids,
    way_ids: &Ids,
    ways: &[Way],
) -> Result<Vec<NamedPlan>, DataError> {
    let mut plans: Vec<NamedPlan> = Vec::new();
    for row in rows(file, &["plan", "name", "part", "way"])? {
        let id = row.required("plan")?;
        let part = PartId(row.reference("part", parts)?);
        let way = WayId(row.reference("way", way_ids)?);
        if ways.get(way.0).map(|way| way.part) != Some(part) {
            return Err(row.error(format!(
                "“{}” is not a way of “{}”",
                row.text("way"),
                row.text("part")
            )));
        }
        if plans.iter().all(|plan| plan.id != id) {
            plans.push(NamedPlan {
                id: id.clone(),
                name: row.required("name")?,
                plan: CutPlan::default(),
            });
        }
        let taken = plans
            .iter_mut()
            .find(|plan| plan.id == id)
            .and_then(|named| named.plan.choose(part, way));
        if taken.is_some() {
            return Err(row.error(format!(
                "“{}” has a way already in this plan",
                row.text("part")
            )));
        }
    }
    Ok(plans)
}

fn read_sample_board(
    file: DataFile,
    products: &Ids,
) -> Result<LiteMap<ProductId, UnitPrice>, DataError> {
    let mut board = LiteMap::new();
    for row in rows(file, &["product", "price_per_kg"])? {
        let product = ProductId(row.reference("product", products)?);
        let price = UnitPrice::from_per_kg(row.number("price_per_kg")?);
        if board.insert(product, price).is_some() {
            return Err(row.error(format!("“{}” has a price already", row.text("product"))));
        }
    }
    Ok(board)
}
