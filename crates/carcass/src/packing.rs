//! The catalogue as one block of bytes, checked and worked out beforehand.
//!
//! Reading the data files and modelling the grass-fed shares needs a good deal
//! of code and, on a phone, some of the time before the first screen. Nothing
//! in it depends on the person, so it can be done where the app is built: the
//! faults of a data file then stop the build, with file and line, and the app
//! carries no reader for them.
//!
//! Layout: the fields in the order named below. Whole numbers in base 128, low
//! digits first, the top bit set on all but the last; a decimal as its sign
//! folded into the lowest bit of its digits, then its scale; text and lists
//! after their length. There is no version: the bytes are made and read by one
//! build.

use core::fmt;
use litemap::LiteMap;

use quantity::{Decimal, Mass, Minutes, Share, UnitPrice};

use crate::catalogue::{
    Catalogue, Caution, Kind, Mark, NamedPlan, Output, Part, PartId, Product, ProductId, Role,
    Source, Way, WayId, WayOutput,
};
use crate::fat_ledger::GrindClass;
use crate::own_yields::OwnEnds;
use crate::stock::StockPreset;

/// The bytes are not a whole catalogue.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotPacked;

impl fmt::Display for NotPacked {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("the packed catalogue is not whole")
    }
}

impl core::error::Error for NotPacked {}

impl Catalogue {
    /// The catalogue as bytes for [`Catalogue::from_packed`].
    pub fn packed(&self) -> Vec<u8> {
        let mut bytes = Vec::new();
        self.pack(&mut bytes);
        bytes
    }

    /// The catalogue that [`Catalogue::packed`] made these bytes of. They are
    /// as much part of the program as its code: that they are whole is
    /// checked, that they make sense was checked before they were packed.
    ///
    /// # Errors
    /// [`NotPacked`] when bytes are missing, left over or out of place.
    pub fn from_packed(mut bytes: &[u8]) -> Result<Self, NotPacked> {
        Self::unpack(&mut bytes)
            .filter(|catalogue| bytes.is_empty() && catalogue.links_hold())
            .ok_or(NotPacked)
    }

    /// Whether every id stands for something.
    fn links_hold(&self) -> bool {
        let part = |id: PartId| id.0 < self.parts.len();
        let way = |id: &WayId| id.0 < self.ways.len();
        let product = |id: ProductId| id.0 < self.products.len();
        part(self.root)
            && self.parts.iter().all(|part| part.ways.iter().all(way))
            && self.ways.iter().all(|way| {
                part(way.part)
                    && way.outputs.iter().all(|output| match output.output {
                        Output::Part(id) => part(id),
                        Output::Product(id) => product(id),
                    })
            })
            && self
                .grind_classes
                .iter()
                .all(|class| product(class.product))
            && self.plans.iter().all(|named| {
                named
                    .plan
                    .choices()
                    .all(|(id, choice)| part(id) && way(&choice.way))
            })
    }
}

/// What can be packed.
pub(crate) trait Packed: Sized {
    /// Appends it to `bytes`.
    fn pack(&self, bytes: &mut Vec<u8>);

    /// Takes it from the front of `bytes`; `None` where they end too soon.
    fn unpack(bytes: &mut &[u8]) -> Option<Self>;
}

/// A record is its fields in the order named. What follows the braces is not
/// packed and takes the value given.
macro_rules! packed {
    ($type:ident { $($field:ident),+ } $(, $absent:ident: $value:expr)*) => {
        impl $crate::packing::Packed for $type {
            fn pack(&self, bytes: &mut Vec<u8>) {
                $($crate::packing::Packed::pack(&self.$field, bytes);)+
            }

            #[inline(never)]
            fn unpack(bytes: &mut &[u8]) -> Option<Self> {
                Some(Self {
                    $($field: $crate::packing::Packed::unpack(bytes)?,)+
                    $($absent: $value,)*
                })
            }
        }
    };
}
pub(crate) use packed;

/// A type that is another one under a name.
macro_rules! packed_as {
    ($($type:ty: $from:expr, $into:expr;)+) => {$(
        impl Packed for $type {
            fn pack(&self, bytes: &mut Vec<u8>) {
                $into(*self).pack(bytes);
            }

            fn unpack(bytes: &mut &[u8]) -> Option<Self> {
                Packed::unpack(bytes).map($from)
            }
        }
    )+};
}

/// A choice is its place in the list.
macro_rules! packed_choice {
    ($type:ident { $($variant:ident),+ }) => {
        impl Packed for $type {
            fn pack(&self, bytes: &mut Vec<u8>) {
                const ALL: &[$type] = &[$($type::$variant),+];
                ALL.iter().position(|one| one == self).unwrap_or(ALL.len()).pack(bytes);
            }

            fn unpack(bytes: &mut &[u8]) -> Option<Self> {
                const ALL: &[$type] = &[$($type::$variant),+];
                ALL.get(usize::unpack(bytes)?).copied()
            }
        }
    };
}

impl Packed for u128 {
    fn pack(&self, bytes: &mut Vec<u8>) {
        let mut rest = *self;
        loop {
            let [low, ..] = rest.to_le_bytes();
            rest >>= 7;
            if rest == 0 {
                bytes.push(low);
                return;
            }
            bytes.push(low | 0x80);
        }
    }

    #[inline(never)]
    fn unpack(bytes: &mut &[u8]) -> Option<Self> {
        let mut value = 0;
        for place in (0..Self::BITS).step_by(7) {
            let (&digit, rest) = bytes.split_first()?;
            *bytes = rest;
            value |= Self::from(digit & 0x7f) << place;
            if digit < 0x80 {
                return Some(value);
            }
        }
        None
    }
}

impl Packed for usize {
    fn pack(&self, bytes: &mut Vec<u8>) {
        (*self as u128).pack(bytes);
    }

    fn unpack(bytes: &mut &[u8]) -> Option<Self> {
        Self::try_from(u128::unpack(bytes)?).ok()
    }
}

impl Packed for u32 {
    fn pack(&self, bytes: &mut Vec<u8>) {
        u128::from(*self).pack(bytes);
    }

    fn unpack(bytes: &mut &[u8]) -> Option<Self> {
        Self::try_from(u128::unpack(bytes)?).ok()
    }
}

impl Packed for bool {
    fn pack(&self, bytes: &mut Vec<u8>) {
        usize::from(*self).pack(bytes);
    }

    fn unpack(bytes: &mut &[u8]) -> Option<Self> {
        Some(usize::unpack(bytes)? != 0)
    }
}

impl Packed for Decimal {
    fn pack(&self, bytes: &mut Vec<u8>) {
        let sign = u128::from(self.is_sign_negative());
        (self.mantissa().unsigned_abs() << 1 | sign).pack(bytes);
        self.scale().pack(bytes);
    }

    #[inline(never)]
    fn unpack(bytes: &mut &[u8]) -> Option<Self> {
        let folded = u128::unpack(bytes)?;
        let digits = i128::try_from(folded >> 1).ok()?;
        let mut number = Self::try_from_i128_with_scale(digits, u32::unpack(bytes)?).ok()?;
        number.set_sign_negative(folded & 1 == 1);
        Some(number)
    }
}

impl Packed for String {
    fn pack(&self, bytes: &mut Vec<u8>) {
        self.len().pack(bytes);
        bytes.extend_from_slice(self.as_bytes());
    }

    #[inline(never)]
    fn unpack(bytes: &mut &[u8]) -> Option<Self> {
        let length = usize::unpack(bytes)?;
        let (text, rest) = bytes.split_at_checked(length)?;
        *bytes = rest;
        core::str::from_utf8(text).ok().map(str::to_owned)
    }
}

impl<T: Packed> Packed for Option<T> {
    fn pack(&self, bytes: &mut Vec<u8>) {
        self.is_some().pack(bytes);
        if let Some(inner) = self {
            inner.pack(bytes);
        }
    }

    fn unpack(bytes: &mut &[u8]) -> Option<Self> {
        Some(if bool::unpack(bytes)? {
            Some(T::unpack(bytes)?)
        } else {
            None
        })
    }
}

impl<T: Packed> Packed for Vec<T> {
    fn pack(&self, bytes: &mut Vec<u8>) {
        self.len().pack(bytes);
        for one in self {
            one.pack(bytes);
        }
    }

    fn unpack(bytes: &mut &[u8]) -> Option<Self> {
        // A length that lies ends where the bytes end: no room is set aside for it.
        let mut list = Self::new();
        for _ in 0..usize::unpack(bytes)? {
            list.push(T::unpack(bytes)?);
        }
        Some(list)
    }
}

impl<A: Packed, B: Packed> Packed for (A, B) {
    fn pack(&self, bytes: &mut Vec<u8>) {
        self.0.pack(bytes);
        self.1.pack(bytes);
    }

    fn unpack(bytes: &mut &[u8]) -> Option<Self> {
        Some((A::unpack(bytes)?, B::unpack(bytes)?))
    }
}

impl<K: Packed + Ord, V: Packed> Packed for LiteMap<K, V> {
    fn pack(&self, bytes: &mut Vec<u8>) {
        self.len().pack(bytes);
        for (key, value) in self {
            key.pack(bytes);
            value.pack(bytes);
        }
    }

    fn unpack(bytes: &mut &[u8]) -> Option<Self> {
        let mut map = Self::new();
        for _ in 0..usize::unpack(bytes)? {
            let (key, value) = Packed::unpack(bytes)?;
            map.insert(key, value);
        }
        Some(map)
    }
}

impl Packed for Output {
    fn pack(&self, bytes: &mut Vec<u8>) {
        match self {
            Self::Part(PartId(index)) => (*index << 1).pack(bytes),
            Self::Product(ProductId(index)) => (*index << 1 | 1).pack(bytes),
        }
    }

    fn unpack(bytes: &mut &[u8]) -> Option<Self> {
        let folded = usize::unpack(bytes)?;
        Some(if folded & 1 == 0 {
            Self::Part(PartId(folded >> 1))
        } else {
            Self::Product(ProductId(folded >> 1))
        })
    }
}

packed_as! {
    Share: Share::from_fraction, Share::fraction;
    Mass: Mass::from_kg, Mass::kg;
    Minutes: Minutes::from_minutes, Minutes::minutes;
    UnitPrice: UnitPrice::from_per_kg, UnitPrice::per_kg;
    PartId: PartId, |id: Self| id.0;
    WayId: WayId, |id: Self| id.0;
    ProductId: ProductId, |id: Self| id.0;
}
packed_choice!(Mark {
    Read,
    Derived,
    FromMemory,
    Estimate,
    Secondary,
    Own
});
packed_choice!(Kind {
    Cut,
    Fat,
    Bone,
    Loss
});
packed_choice!(Role {
    LeanTrim,
    FatTrim,
    AgeingLoss,
    RenderingLoss
});
packed!(Source { id, title, year });
packed!(Part {
    id,
    name,
    canadian_name,
    item,
    unece,
    order,
    ways
});
packed!(Product {
    id,
    name,
    kind,
    role,
    other_names,
    item,
    unece,
    bone,
    use_note,
    variation
});
packed!(WayOutput { output, grain, grass, fat, source, mark, note }, line: 0);
packed!(Way { id, name, part, saw, per_piece, per_kg, cautions, outputs }, line: 0, own: OwnEnds::default());
packed!(Caution {
    id,
    title,
    text,
    is_prominent
});
packed!(NamedPlan { id, name, plan });
packed!(StockPreset {
    id,
    name,
    side,
    dressing,
    saleable,
    fat,
    bone,
    mark
});
packed!(GrindClass {
    id,
    product,
    name,
    most_fat,
    source,
    mark,
    note
});
packed!(Catalogue {
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
    root
});

#[cfg(test)]
mod tests {
    use std::sync::LazyLock;

    use proptest::prelude::*;

    use super::*;

    static CATALOGUE: LazyLock<Catalogue> =
        LazyLock::new(|| Catalogue::published().expect("published data"));

    #[test]
    fn what_is_unpacked_is_what_was_packed() {
        let mut catalogue = CATALOGUE.clone();
        let unpacked = Catalogue::from_packed(&catalogue.packed()).expect("packed");
        for way in &mut catalogue.ways {
            way.line = 0;
            for output in &mut way.outputs {
                output.line = 0;
            }
        }
        assert_eq!(format!("{unpacked:?}"), format!("{catalogue:?}"));
    }

    #[test]
    fn missing_and_left_over_bytes_are_refused() {
        let whole = CATALOGUE.packed();
        for length in (0..whole.len()).rev().step_by(101) {
            assert!(Catalogue::from_packed(&whole[..length]).is_err());
        }
        let more = [whole.as_slice(), &[0]].concat();
        assert!(Catalogue::from_packed(&more).is_err());
    }

    proptest! {
        #[test]
        fn decimals_keep_value_scale_and_sign(
            digits in -(1_i128 << 96) + 1..1_i128 << 96,
            scale in 0_u32..=28,
        ) {
            let number = Decimal::from_i128_with_scale(digits, scale);
            let mut bytes = Vec::new();
            number.pack(&mut bytes);
            let back = <Decimal as Packed>::unpack(&mut bytes.as_slice()).expect("packed");
            prop_assert_eq!(back.to_string(), number.to_string());
        }

        #[test]
        fn changed_bytes_do_no_harm(place in any::<prop::sample::Index>(), byte: u8) {
            let mut bytes = CATALOGUE.packed();
            let place = place.index(bytes.len());
            bytes[place] = byte;
            let _ = Catalogue::from_packed(&bytes);
        }
    }
}
