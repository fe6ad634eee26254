//! What came off a way as a closed test keeps it: by ids, since it outlives the
//! catalogue that it was cut by.

use core::fmt;

use carcass::{Catalogue, Output, WayId};
use litemap::LiteMap;
use quantity::Mass;

use crate::composition::WayWeights;

/// What came off a way, by ids.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KeptWay {
    /// Id of the way.
    pub way: String,
    /// Tells whether a catalogue has the same outputs in the same order.
    pub(crate) mark: Mark,
    /// Weight of each output, in their order.
    pub outputs: Vec<Mass>,
}

impl KeptWay {
    /// What came off a way of this catalogue.
    pub fn new(catalogue: &Catalogue, way: WayId, outputs: Vec<Mass>) -> Self {
        Self {
            way: catalogue[way].id.clone(),
            mark: Mark::of(catalogue, way),
            outputs,
        }
    }

    /// The way and its weights; `None` where the catalogue whose ways these are
    /// does not know it, or it gives other things there.
    pub fn resolved(&self, known: &KnownWays) -> Option<WayWeights> {
        let way = known.ways.get(self.way.as_str())?;
        let is_same = way.outputs == self.outputs.len() && way.mark == self.mark;
        is_same.then(|| WayWeights {
            way: way.id,
            outputs: self.outputs.clone(),
        })
    }
}

/// The ways of a catalogue by their ids: what kept ways are found by. Hundreds of
/// tests ask for the same few.
pub struct KnownWays<'a> {
    ways: LiteMap<&'a str, Known>,
}

struct Known {
    id: WayId,
    mark: Mark,
    outputs: usize,
}

impl<'a> KnownWays<'a> {
    /// Those of this catalogue.
    pub fn of(catalogue: &'a Catalogue) -> Self {
        let known = |(id, way): (WayId, &'a carcass::Way)| {
            let known = Known {
                id,
                mark: Mark::of(catalogue, id),
                outputs: way.outputs.len(),
            };
            (way.id.as_str(), known)
        };
        Self {
            ways: catalogue.ways().map(known).collect(),
        }
    }
}

/// Tells one list of outputs from another: the upper half of FNV-1a with 32 bits
/// over their ids (Fowler, Noll and Vo, from memory).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Mark(u16);

impl Mark {
    fn of(catalogue: &Catalogue, way: WayId) -> Self {
        let mut hash = 0x811c_9dc5_u32;
        for output in &catalogue[way].outputs {
            let id = match output.output {
                Output::Part(part) => &catalogue[part].id,
                Output::Product(product) => &catalogue[product].id,
            };
            for byte in id.bytes().chain([b' ']) {
                hash = (hash ^ u32::from(byte)).wrapping_mul(0x0100_0193);
            }
        }
        let [upper, lower, ..] = hash.to_be_bytes();
        Self(u16::from_be_bytes([upper, lower]))
    }

    /// The mark that four characters write.
    pub(crate) fn of_text(text: &str) -> Option<Self> {
        let is_digit = |digit: u8| digit.is_ascii_digit() || (b'a'..=b'f').contains(&digit);
        let is_mark = text.len() == 4 && text.bytes().all(is_digit);
        is_mark.then(|| u16::from_str_radix(text, 16).map(Self).ok())?
    }
}

impl fmt::Display for Mark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:04x}", self.0)
    }
}
