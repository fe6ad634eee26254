//! Published figures that our plans resemble without being cut like them:
//! printed beside ours, and held only where they are alike.

use carcass::{Breakdown, Catalogue, Kind, What};
use quantity::Decimal;

use crate::cut_outs::{Ours, percent_of};
use crate::printed::number;
use crate::sides::percent_of_parts;

/// Roasts and steaks of a primal, closely trimmed.
pub struct TrimmedPrimal {
    /// Its name.
    pub name: &'static str,
    percent: &'static str,
    /// The parts whose roasts and steaks are counted.
    parts: &'static [&'static str],
    /// Parts below those that have a line of their own.
    without: &'static [&'static str],
}

/// Univ. Missouri from The Meat We Eat, 14th ed. (R): closely trimmed roasts
/// and steaks only, percent of the carcass.
pub const TRIMMED_PRIMALS: [TrimmedPrimal; 7] = [
    trimmed("chuck", "11", &["chuck"], &[]),
    trimmed("rib", "5", &["rib"], &[]),
    trimmed(
        "short loin (published: strip loin)",
        "4",
        &["short-loin"],
        &[],
    ),
    trimmed("sirloin", "5", &["sirloin"], &[]),
    trimmed("rump", "2", &["rump"], &[]),
    trimmed("round", "12", &["round"], &["rump"]),
    trimmed(
        "plate, flank and brisket",
        "12",
        &["plate", "flank", "brisket"],
        &[],
    ),
];

const fn trimmed(
    name: &'static str,
    percent: &'static str,
    parts: &'static [&'static str],
    without: &'static [&'static str],
) -> TrimmedPrimal {
    TrimmedPrimal {
        name,
        percent,
        parts,
        without,
    }
}

impl TrimmedPrimal {
    /// Percent of the carcass as published.
    pub fn published(&self) -> Decimal {
        number(self.percent)
    }

    /// Percent of a side of ours in cuts that are neither ground nor stewed.
    pub fn ours(&self, catalogue: &Catalogue, side: &Breakdown) -> Decimal {
        let nodes = side.nodes();
        let lies_in = |mut node: usize, parts: &[&str]| loop {
            match nodes[node].what {
                What::Part { part, .. } if parts.contains(&catalogue[part].id.as_str()) => {
                    return true;
                }
                _ => {}
            }
            match nodes[node].parent {
                Some(parent) => node = parent,
                None => return false,
            }
        };
        let is_whole = |what: What| match what {
            What::Product(product) => {
                let product = &catalogue[product];
                product.kind == Kind::Cut
                    && !["ground-beef", "stew-beef"].contains(&product.id.as_str())
            }
            What::Part { .. } => false,
        };
        (0..nodes.len())
            .filter(|&index| is_whole(nodes[index].what))
            .filter(|&index| lies_in(index, self.parts) && !lies_in(index, self.without))
            .map(|index| nodes[index].share.percent())
            .sum()
    }
}

/// Carcass of [`GRIND_HEAVY_LINES`], both sides, in pounds.
pub const GRIND_HEAVY_CARCASS: i64 = 800;

/// A line of the carcass that is cut for grind.
pub struct GrindHeavyLine {
    /// What it is.
    pub item: &'static str,
    /// Pounds of it.
    pub pounds: &'static str,
    /// What answers to it here.
    pub ours: Ours,
}

/// Growing Local, Univ. Nebraska Press 2014 (R).
pub const GRIND_HEAVY_LINES: [GrindHeavyLine; 8] = {
    use Ours::Cuts;
    const fn line(item: &'static str, pounds: &'static str, ours: Ours) -> GrindHeavyLine {
        GrindHeavyLine { item, pounds, ours }
    }
    [
        line("Ribeye", "24", Cuts(&["ribeye-steak"])),
        line("Strip", "20", Cuts(&["strip-loin-steak"])),
        line(
            "Tenderloin",
            "9",
            Cuts(&["tenderloin-steak", "tenderloin-tips"]),
        ),
        line(
            "Sirloin",
            "24",
            Cuts(&["top-sirloin-centre-steak", "sirloin-cap-roast"]),
        ),
        line(
            "Roasts",
            "64",
            Cuts(&[
                "chuck-eye-roast",
                "clod-heart-roast",
                "chuck-tender-roast",
                "inside-round-roast",
                "outside-round-roast",
                "eye-of-round-roast",
                "sirloin-tip-roast",
                "rump-roast",
            ]),
        ),
        line(
            "Ribs and brisket",
            "26",
            Cuts(&[
                "rib-short-ribs",
                "back-ribs",
                "chuck-short-ribs",
                "plate-short-ribs",
                "brisket-whole",
            ]),
        ),
        line("Stew and other", "42", Cuts(&["stew-beef"])),
        line("Ground", "285", Cuts(&["ground-beef"])),
    ]
};

impl GrindHeavyLine {
    /// Percent of the carcass as published.
    pub fn published(&self) -> Decimal {
        percent_of(number(self.pounds), Decimal::from(GRIND_HEAVY_CARCASS))
    }
}

/// The saleable share of a boxed subprimal, percent of it.
pub struct Subprimal {
    /// Its name.
    pub name: &'static str,
    /// The part that answers to it here.
    pub part: &'static str,
    /// Of Choice carcasses.
    pub choice: &'static str,
    /// Of Select carcasses, which are leaner.
    pub select: &'static str,
}

/// Texas A&M cutting tests, Voges et al. 2006, Meat Science 73:116–131 (R), as
/// far as our boneless plan has the subprimal: it seams the shoulder clod and
/// leaves the flat whole.
pub const SUBPRIMALS: [Subprimal; 3] = [
    subprimal("inside round", "inside-round", "80.13", "87.34"),
    subprimal("outside round", "outside-round", "87.61", "90.28"),
    subprimal("top blade", "top-blade", "84.36", "86.70"),
];

const fn subprimal(
    name: &'static str,
    part: &'static str,
    choice: &'static str,
    select: &'static str,
) -> Subprimal {
    Subprimal {
        name,
        part,
        choice,
        select,
    }
}

/// What was trimmed off a subprimal as fat, in percent of it: the same tests (R).
pub struct TrimmedFat {
    /// Its name.
    pub name: &'static str,
    /// The parts of ours that it comes nearest to; none where our plan has no
    /// such cut.
    pub parts: &'static [&'static str],
    /// Of Choice carcasses.
    pub choice: &'static str,
    /// Of Select carcasses.
    pub select: &'static str,
    /// What was sold of it, Choice and Select, where that was read too.
    pub saleable: Option<[&'static str; 2]>,
}

/// Fat of the subprimals as far as it was read.
pub const TRIMMED_FAT: [TrimmedFat; 4] = [
    TrimmedFat {
        name: "shoulder clod",
        parts: &["top-blade", "clod-heart"],
        choice: "25.30",
        select: "20.85",
        saleable: Some(["73.89", "78.49"]),
    },
    TrimmedFat {
        name: "outside round flat",
        parts: &["outside-round"],
        choice: "13.82",
        select: "7.26",
        saleable: Some(["85.99", "91.34"]),
    },
    TrimmedFat {
        name: "arm",
        parts: &[],
        choice: "8.35",
        select: "7.47",
        saleable: None,
    },
    TrimmedFat {
        name: "knuckle",
        parts: &["knuckle"],
        choice: "5.72",
        select: "2.73",
        saleable: None,
    },
];

/// Percent of a part of ours that is sold, trimmings for grind included.
///
/// # Panics
/// When the side has no such part.
#[track_caller]
pub fn subprimal_saleable(catalogue: &Catalogue, side: &Breakdown, part: &str) -> Decimal {
    percent_of_part(catalogue, side, part, Kind::Cut)
}

/// Percent of a part of ours that is trimmed off as fat.
///
/// # Panics
/// When the side has no such part.
#[track_caller]
pub fn subprimal_fat(catalogue: &Catalogue, side: &Breakdown, part: &str) -> Decimal {
    percent_of_part(catalogue, side, part, Kind::Fat)
}

#[track_caller]
fn percent_of_part(catalogue: &Catalogue, side: &Breakdown, part: &str, kind: Kind) -> Decimal {
    let whole = percent_of_parts(catalogue, side, &[part]);
    assert!(!whole.is_zero(), "no part “{part}” is cut");
    let nodes = side.nodes();
    let sold: Decimal = nodes
        .iter()
        .filter(|node| match node.what {
            What::Product(product) => catalogue[product].kind == kind,
            What::Part { .. } => false,
        })
        .filter(|node| {
            node.parent.is_some_and(|parent| {
                matches!(nodes[parent].what, What::Part { part: of, .. } if catalogue[of].id == part)
            })
        })
        .map(|node| node.share.percent())
        .sum();
    percent_of(sold, whole)
}
