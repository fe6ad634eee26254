//! The published cut-outs of whole carcasses, and what of our plans answers to
//! each of their lines.

use carcass::{Breakdown, Catalogue};
use quantity::Decimal;

use crate::sides::{percent_of_parts, percent_of_products};
use crate::table::Table;

/// `part` in percent of `whole`.
pub fn percent_of(part: Decimal, whole: Decimal) -> Decimal {
    part * Decimal::ONE_HUNDRED / whole
}

/// A whole steer cut out, in pounds of both sides.
pub struct Steer {
    /// Who published it.
    pub source: &'static str,
    /// Weight of the carcass.
    pub carcass_lb: Decimal,
    /// Its lines.
    pub table: Table,
}

impl Steer {
    /// The meat-board chart “Beef Carcass Breakdown”, cut bone-in: 1,150 lb
    /// live, 715 lb of carcass (R; two lines of the rib from memory, M).
    pub fn bone_in() -> Self {
        Self {
            source: "Meat-board chart",
            carcass_lb: Decimal::from(715),
            table: Table::read(include_str!("../tables/bone-in-steer.csv")),
        }
    }

    /// Beef Checkoff 2013, cut boneless: 1,300 lb live, 806 lb of carcass (R;
    /// its loin and round lines were not read).
    pub fn boneless() -> Self {
        Self {
            source: "Beef Checkoff",
            carcass_lb: Decimal::from(806),
            table: Table::read(include_str!("../tables/boneless-steer.csv")),
        }
    }

    /// The line in percent of the carcass; `None` where the table has none.
    pub fn percent(&self, primal: &str, item: &str) -> Option<Decimal> {
        let pounds = self.table.sum("lb", |line| {
            line.text("primal") == primal && line.text("item") == item
        });
        (!pounds.is_zero()).then(|| percent_of(pounds, self.carcass_lb))
    }
}

/// A part of the side that the tables of primals have a line for.
pub struct Primal {
    /// Its name here.
    pub name: &'static str,
    /// Its lines in the table of primal shares; their sum where it has more.
    lines: &'static [&'static str],
    /// Its name in the cut-outs of whole steers; empty where they part the
    /// carcass otherwise.
    steer: &'static str,
    /// The parts that it is made of here.
    parts: &'static [&'static str],
}

/// Every primal that at least two tables have. They do not say whether their
/// round holds the hindshank; ours does.
pub const PRIMALS: [Primal; 10] = [
    primal("round", &["round with rump"], "Round", &["round"]),
    primal("loin", &["loin"], "Loin", &["short-loin", "sirloin"]),
    primal("rib", &["rib"], "Rib", &["rib"]),
    primal("chuck", &["chuck"], "Chuck", &["chuck"]),
    primal("brisket", &["brisket"], "", &["brisket"]),
    primal("plate", &["short plate"], "", &["plate"]),
    primal(
        "brisket and plate",
        &["brisket", "short plate", "brisket and plate"],
        "",
        &["brisket", "plate"],
    ),
    primal("flank", &["flank"], "", &["flank"]),
    primal("foreshank", &["shank"], "", &["foreshank"]),
    primal("kidney fat", &["kidney fat"], "", &["kidney-fat"]),
];

const fn primal(
    name: &'static str,
    lines: &'static [&'static str],
    steer: &'static str,
    parts: &'static [&'static str],
) -> Primal {
    Primal {
        name,
        lines,
        steer,
        parts,
    }
}

/// The tables of primal shares: who published them, their column, and what the
/// whole is in it. Kansas State MF3395, Angus Association 2007, Vaughan (R).
const SHARE_TABLES: [(&str, &str, i64); 3] = [
    ("Kansas State", "kansas_state_mf3395_pct", 100),
    ("Angus Association", "angus_association_2007_pct", 100),
    ("Vaughan", "vaughan_lb_of_360", 360),
];

/// Everybody whose table [`Primal::published`] looks into, in its order.
pub const PRIMAL_SOURCES: [&str; 5] = [
    "Meat-board chart",
    "Beef Checkoff",
    SHARE_TABLES[0].0,
    SHARE_TABLES[1].0,
    SHARE_TABLES[2].0,
];

impl Primal {
    /// Its percent of the carcass by each of [`PRIMAL_SOURCES`], where it is
    /// given.
    pub fn published(&self) -> [Option<Decimal>; 5] {
        let of_steer = |steer: &Steer| steer.percent(self.steer, "TOTAL");
        let [kansas, angus, vaughan] = SHARE_TABLES.map(|(_, column, whole)| {
            let shares = Table::read(include_str!("../tables/primal-shares.csv"));
            let read: Vec<Decimal> = shares
                .lines()
                .filter(|line| self.lines.contains(&line.text("primal")))
                .filter(|line| !line.text(column).is_empty())
                .map(|line| percent_of(line.number(column), Decimal::from(whole)))
                .collect();
            // A sum of several lines counts only where all of them were read;
            // one source reads brisket and plate together.
            let is_whole = read.len() == self.lines.len()
                || (self.lines.contains(&"brisket and plate") && !read.is_empty());
            is_whole.then(|| read.into_iter().sum())
        });
        [
            of_steer(&Steer::bone_in()),
            of_steer(&Steer::boneless()),
            kansas,
            angus,
            vaughan,
        ]
    }

    /// Its percent of a side of ours.
    pub fn ours(&self, catalogue: &Catalogue, side: &Breakdown) -> Decimal {
        percent_of_parts(catalogue, side, self.parts)
    }
}

/// What a plan of ours gives for a published line.
pub enum Ours {
    /// These products.
    Cuts(&'static [&'static str]),
    /// These parts, before they are trimmed to cuts.
    Parts(&'static [&'static str]),
}

impl Ours {
    /// Percent of a side of ours.
    pub fn percent(&self, catalogue: &Catalogue, side: &Breakdown) -> Decimal {
        match self {
            Self::Cuts(ids) => percent_of_products(catalogue, side, ids),
            Self::Parts(ids) => percent_of_parts(catalogue, side, ids),
        }
    }
}

/// A line of a steer, by primal and item, with what answers to it here.
pub type SteerLine = (&'static str, &'static str, Ours);

/// The lines of [`Steer::bone_in`]. Left out: grind, fat and bone, of which the
/// chart trims far less than our plan does, and its sirloin steak, which is
/// boneless where ours is not.
pub const BONE_IN_LINES: [SteerLine; 19] = {
    use Ours::Cuts;
    [
        (
            "Chuck",
            "Blade roasts and steaks",
            Cuts(&["blade-roast-bone-in"]),
        ),
        (
            "Chuck",
            "Arm pot roasts and steaks",
            Cuts(&["arm-roast-bone-in"]),
        ),
        (
            "Chuck",
            "Cross-rib pot roast",
            Cuts(&["cross-rib-roast-bone-in"]),
        ),
        ("Round", "Top round", Cuts(&["inside-round-roast"])),
        (
            "Round",
            "Bottom round",
            Cuts(&["outside-round-roast", "eye-of-round-roast"]),
        ),
        ("Round", "Tip", Cuts(&["sirloin-tip-roast"])),
        ("Round", "Rump", Cuts(&["rump-roast"])),
        ("Thin cuts", "Flank steak", Cuts(&["flank-steak"])),
        ("Thin cuts", "Pastrami squares", Cuts(&["navel"])),
        ("Thin cuts", "Outside skirt", Cuts(&["outside-skirt"])),
        ("Thin cuts", "Inside skirt", Cuts(&["inside-skirt"])),
        ("Thin cuts", "Boneless brisket", Cuts(&["brisket-whole"])),
        ("Loin", "Porterhouse steak", Cuts(&["porterhouse-steak"])),
        ("Loin", "T-bone steak", Cuts(&["t-bone-steak"])),
        ("Loin", "Strip steak", Cuts(&["wing-steak"])),
        (
            "Loin",
            "Tenderloin steak",
            Cuts(&["tenderloin-steak", "tenderloin-tips"]),
        ),
        ("Rib", "Rib roast", Cuts(&["rib-roast-bone-in"])),
        ("Rib", "Rib steak", Cuts(&["rib-steak-bone-in"])),
        ("Rib", "Short ribs", Cuts(&["rib-short-ribs"])),
    ]
};

/// The lines of [`Steer::boneless`], as far as they were read: subprimals
/// against our subprimals. Left out: its stew and ground trim and its fat and
/// bone, which follow the closeness of the trim.
pub const BONELESS_LINES: [SteerLine; 11] = {
    use Ours::{Cuts, Parts};
    [
        ("Chuck", "Chuck roll (116A)", Parts(&["chuck-roll"])),
        ("Chuck", "Under blade roast", Parts(&["under-blade"])),
        ("Chuck", "Chuck short ribs", Cuts(&["chuck-short-ribs"])),
        (
            "Chuck",
            "Chuck tender (116B)",
            Cuts(&["chuck-tender-roast"]),
        ),
        (
            "Chuck",
            "Shoulder clod top blade (114D)",
            Parts(&["top-blade"]),
        ),
        ("Chuck", "Shoulder clod heart", Parts(&["clod-heart"])),
        ("Chuck", "Teres major", Cuts(&["teres-major"])),
        ("Rib", "Ribeye roll (112A)", Parts(&["ribeye-roll"])),
        ("Rib", "Blade meat (109B)", Cuts(&["rib-blade-meat"])),
        ("Rib", "Short ribs", Cuts(&["rib-short-ribs"])),
        ("Thin cuts", "Brisket", Cuts(&["brisket-whole"])),
    ]
};

/// One line of [`Steer`] against ours, both in percent of the carcass.
pub struct HeldLine {
    /// Primal in the table.
    pub primal: &'static str,
    /// Item in the table.
    pub item: &'static str,
    /// What our plan gives.
    pub ours: Decimal,
    /// What is published.
    pub published: Decimal,
}

impl HeldLine {
    /// Ours over what is published.
    pub fn ratio(&self) -> Decimal {
        self.ours / self.published
    }
}

/// `lines` of `steer` against a side of ours.
///
/// # Panics
/// When the table has no such line.
#[track_caller]
pub fn held_lines(
    steer: &Steer,
    lines: &[SteerLine],
    catalogue: &Catalogue,
    side: &Breakdown,
) -> Vec<HeldLine> {
    let held = |(primal, item, ours): &SteerLine| {
        let Some(published) = steer.percent(primal, item) else {
            panic!("{primal}: {item} is not in the table");
        };
        HeldLine {
            primal,
            item,
            ours: ours.percent(catalogue, side),
            published,
        }
    };
    lines.iter().map(held).collect()
}
