//! What the classes of grind hold once the cuts of a side weigh something else.
//!
//! Nothing is blended anew: each leaf of a class stays a leaf of it, with the
//! fat of its trim and its new weight. What was asked for as a share of the
//! lean trim follows the lean trim; what lacks is reckoned from what is left.

use quantity::{Mass, Share};

use crate::blend::{Batch, Blend, Portion, RanOut, Wanted};
use crate::breakdown::{Node, What};
use crate::catalogue::{Catalogue, Output, Role};
use crate::fat_ledger::Trim;
use crate::grind_plan::GrindPlan;
use crate::grinding::{GroundClass, as_mass, asked_of, lean_of, most_fat, told, wanted_of};

/// The trims of a side put together again from what is left of them and what
/// the classes took. A trim is known by the part it came off, its role and its
/// fat.
#[derive(Default)]
struct Trims {
    /// With all that there was of it; `node` is that of its part.
    whole: Vec<(Role, Trim)>,
    left: Vec<Trim>,
}

impl Trims {
    fn place_of(&mut self, parent: usize, role: Role, fat: Share) -> usize {
        let is_it =
            |(other, trim): &(Role, Trim)| (*other, trim.node, trim.fat) == (role, parent, fat);
        self.whole.iter().position(is_it).unwrap_or_else(|| {
            let nothing = Trim {
                node: parent,
                weight: Mass::ZERO,
                fat,
            };
            self.whole.push((role, nothing));
            self.left.push(nothing);
            self.whole.len() - 1
        })
    }

    fn add(&mut self, place: usize, weight: Mass, is_left: bool) {
        if let Some((_, trim)) = self.whole.get_mut(place) {
            trim.weight += weight;
        }
        if let Some(trim) = self.left.get_mut(place).filter(|_| is_left) {
            trim.weight += weight;
        }
    }
}

/// The classes of `plan` as they stand among `nodes`; the side weighs `side`.
pub(crate) fn ground_anew(
    catalogue: &Catalogue,
    plan: &GrindPlan,
    side: Mass,
    nodes: &[Node],
) -> Vec<GroundClass> {
    let asked = asked_of(catalogue, plan);
    if asked.is_empty() {
        return Vec::new();
    }
    let mut trims = Trims::default();
    let mut portions: Vec<Vec<Portion>> = vec![Vec::new(); asked.len()];
    let mut fattest = None;
    for node in nodes {
        let (What::Product(product), Some(parent), Some(fat)) = (node.what, node.parent, node.fat)
        else {
            continue;
        };
        let weight = as_mass(node.share);
        let class = asked.iter().position(|(class, _)| class.product == product);
        let role = match class {
            Some(_) => role_of_trim(catalogue, nodes.get(parent), fat),
            None => catalogue[product].role,
        };
        let Some(role) = role else { continue };
        if role == Role::FatTrim {
            fattest = fattest.max(Some(fat));
        }
        if !plan.blends(role) {
            continue;
        }
        let trim = trims.place_of(parent, role, fat);
        trims.add(trim, weight, class.is_none());
        if let Some(portions) = class.and_then(|class| portions.get_mut(class)) {
            portions.push(Portion { trim, weight });
        }
    }

    let Trims { whole, left } = trims;
    let lean = lean_of(&whole);
    let made: Mass = portions
        .iter()
        .flatten()
        .map(|portion| portion.weight)
        .sum();
    // What was still there for a class: what is left and what later ones took.
    let mut there = left.iter().map(|trim| trim.weight).sum::<Mass>() + made;
    let mut batches = Vec::with_capacity(asked.len());
    for ((class, amount), portions) in asked.iter().zip(portions) {
        let weight: Mass = portions.iter().map(|portion| portion.weight).sum();
        let fat_of = |portion: &Portion| {
            let trim = whole.get(portion.trim);
            trim.map_or(Mass::ZERO, |(_, trim)| portion.weight * trim.fat)
        };
        there = there - weight;
        let wanted = wanted_of(*amount, lean, side);
        batches.push(Batch {
            wanted: Wanted {
                most_fat: most_fat(class, plan),
                weight: Some(wanted),
            },
            weight,
            fat_weight: portions.iter().map(fat_of).sum(),
            portions,
            ran_out: (weight < wanted).then_some(if there.is_positive() {
                RanOut::Lean
            } else {
                RanOut::Trim
            }),
        });
    }
    let blend = Blend { batches, left };
    asked
        .iter()
        .zip(&blend.batches)
        .map(|((class, _), batch)| told(class, batch, &blend, &whole, fattest, side))
        .collect()
}

/// The role of the trim that a leaf of a class was parted from: that of the
/// output of its part's way with its fat.
fn role_of_trim(catalogue: &Catalogue, part: Option<&Node>, fat: Share) -> Option<Role> {
    let What::Part { way, .. } = part?.what else {
        return None;
    };
    let of_output = |output: Output| match output {
        Output::Product(product) => catalogue[product].role,
        Output::Part(_) => None,
    };
    catalogue[way]
        .outputs
        .iter()
        .filter(|output| output.fat == Some(fat))
        .find_map(|output| of_output(output.output))
}
