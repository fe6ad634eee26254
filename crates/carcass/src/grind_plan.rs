//! What classes of grind a plan asks for.
//!
//! Each class is asked for by weight or as a share of all lean trim of the
//! plan. The leanest class is blended first, so that it has the lean that no
//! other class needs as badly; what of the lean trim no class takes stays what
//! it is. Too little lean or fat never stops a plan: what can be made is made
//! and what lacks is said ([`crate::GroundClass`]).
//!
//! The limits of the classes are the law's, the fat of each trim is an
//! estimate. How far below the limit a shop aims is its own to say: how much
//! its batches scatter is known to its scale and its fat tests and published
//! nowhere, so nothing is taken off the limit unless the shop says so.
//!
//! Whether trimmed fat may go into grind, and under what name it is then sold,
//! is the local inspector's to say; it stays out unless the plan wants it in.

use litemap::LiteMap;
use quantity::{Mass, Share};

use crate::catalogue::{ProductId, Role};

/// How much of a class.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GrindAmount {
    /// A share of the weight of all lean trim.
    Share(Share),
    /// A weight, all sides together.
    Weight(Mass),
}

/// The classes of grind that a plan asks for.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct GrindPlan {
    amounts: LiteMap<ProductId, GrindAmount>,
    /// Whether fat trim may be blended in.
    pub with_fat_trim: bool,
    /// How far below its limit the fat of every class stays, as a share of
    /// the batch.
    pub margin: Share,
}

impl GrindPlan {
    /// Asks for an amount of the class that is sold as `product`.
    pub fn ask(&mut self, product: ProductId, amount: GrindAmount) {
        self.amounts.insert(product, amount);
    }

    /// The amount asked for of the class that is sold as `product`.
    pub fn amount_of(&self, product: ProductId) -> Option<GrindAmount> {
        self.amounts.get(&product).copied()
    }

    /// Whether trim in `role` goes into the classes.
    pub(crate) fn blends(&self, role: Role) -> bool {
        match role {
            Role::LeanTrim => true,
            Role::FatTrim => self.with_fat_trim,
            Role::AgeingLoss | Role::RenderingLoss => false,
        }
    }

    /// Whether no class is asked for.
    pub fn is_empty(&self) -> bool {
        self.amounts.is_empty()
    }
}
