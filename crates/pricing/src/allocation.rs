//! Dividing a joint cost over the products that come of it.
//!
//! The four methods of the cost-accounting handbooks (Horngren et al., *Cost
//! Accounting*, ch. 16), with `J` the joint cost:
//!
//! - physical weight: `J · w ⁄ Σw`
//! - sales value at split-off: `J · v ⁄ Σv`
//! - net realisable value: `J · n ⁄ Σn` with `n = sales − separable cost`
//! - constant gross margin: `sales · (1 − g) − separable` with
//!   `g = (Σsales − Σseparable − J) ⁄ Σsales`

use quantity::{Decimal, Mass, Money, Share};
use wording::text;

/// How a joint cost is divided.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum AllocationMethod {
    /// By weight.
    PhysicalWeight,
    /// By what the products would sell for where they part.
    SalesValueAtSplitOff,
    /// By what is left of sales after the costs that arise later.
    #[default]
    NetRealisableValue,
    /// So that every product earns the same margin.
    ConstantGrossMargin,
}

impl AllocationMethod {
    /// All methods.
    pub const ALL: [Self; 4] = [
        Self::NetRealisableValue,
        Self::SalesValueAtSplitOff,
        Self::PhysicalWeight,
        Self::ConstantGrossMargin,
    ];

    /// The name in the handbooks.
    pub fn name(self) -> &'static str {
        match self {
            Self::PhysicalWeight => text!("Physical weight"),
            Self::SalesValueAtSplitOff => text!("Sales value at split-off"),
            Self::NetRealisableValue => text!("Net realisable value"),
            Self::ConstantGrossMargin => text!("Constant gross margin"),
        }
    }

    /// When the method misleads.
    pub fn misleads_when(self) -> &'static str {
        match self {
            Self::PhysicalWeight => {
                text!(
                    "Charges a kilo of bone-in shank as much as a kilo of tenderloin, so cheap cuts seem to lose and dear ones to earn too much."
                )
            }
            Self::SalesValueAtSplitOff => {
                text!(
                    "Leaves out the work done after the split, so cuts that need much trimming seem to earn more than they do."
                )
            }
            Self::NetRealisableValue => {
                text!("Follows the board: where the board is wrong, the costs are wrong with it.")
            }
            Self::ConstantGrossMargin => {
                text!(
                    "Makes every cut earn the same by construction, so it can never show which cut earns most."
                )
            }
        }
    }
}

/// One product of a joint cost.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct JointProduct {
    /// Its weight, or another physical measure that all share.
    pub weight: Mass,
    /// What it would sell for where the products part.
    pub split_off_value: Money,
    /// What it sells for in the end.
    pub sales: Money,
    /// What it costs between the split and the sale.
    pub separable: Money,
}

impl JointProduct {
    /// Sales less the costs that arise after the split.
    pub fn net_realisable_value(&self) -> Money {
        self.sales - self.separable
    }
}

/// Divides `joint` over `products`. The parts sum to `joint` exactly: the
/// product with the largest part takes what division leaves over.
///
/// A product whose basis is not above zero carries nothing. Where none has a
/// basis above zero the weights decide, and where there is no weight either
/// all carry the same. Constant gross margin without sales divides like net
/// realisable value.
pub fn allocate(method: AllocationMethod, joint: Money, products: &[JointProduct]) -> Vec<Money> {
    let by = |basis: fn(&JointProduct) -> Decimal| -> Vec<Decimal> {
        products
            .iter()
            .map(|product| basis(product).max(Decimal::ZERO))
            .collect()
    };
    let weight: fn(&JointProduct) -> Decimal = |product| product.weight.kg();
    let parts = match method {
        AllocationMethod::PhysicalWeight => in_proportion(joint, &by(weight)),
        AllocationMethod::SalesValueAtSplitOff => {
            in_proportion(joint, &by(|product| product.split_off_value.units()))
        }
        AllocationMethod::NetRealisableValue => by_net_realisable_value(joint, &by),
        AllocationMethod::ConstantGrossMargin => {
            constant_margin(joint, products).or_else(|| by_net_realisable_value(joint, &by))
        }
    };
    let mut parts = parts
        .or_else(|| in_proportion(joint, &by(weight)))
        .or_else(|| in_proportion(joint, &vec![Decimal::ONE; products.len()]))
        .unwrap_or_default();
    give_rest_to_largest(&mut parts, joint);
    parts
}

fn by_net_realisable_value(
    joint: Money,
    by: &impl Fn(fn(&JointProduct) -> Decimal) -> Vec<Decimal>,
) -> Option<Vec<Money>> {
    in_proportion(joint, &by(|product| product.net_realisable_value().units()))
}

/// `joint` in proportion to `bases`; `None` when they sum to nothing.
fn in_proportion(joint: Money, bases: &[Decimal]) -> Option<Vec<Money>> {
    let total = bases
        .iter()
        .fold(Decimal::ZERO, |sum, basis| sum.saturating_add(*basis));
    bases
        .iter()
        .map(|basis| {
            // Multiply first: a third of nine is then three and not a digit
            // less. Only amounts beyond any shop's leave no room for it.
            match joint.units().checked_mul(*basis) {
                Some(product) => product.checked_div(total).map(Money::from_units),
                None => basis
                    .checked_div(total)
                    .map(|share| joint * Share::from_fraction(share)),
            }
        })
        .collect()
}

/// Every product at the same margin on sales; `None` without sales.
fn constant_margin(joint: Money, products: &[JointProduct]) -> Option<Vec<Money>> {
    let sales: Money = products.iter().map(|product| product.sales).sum();
    let separable: Money = products.iter().map(|product| product.separable).sum();
    let cost_share = (joint + separable).ratio_to(sales)?;
    Some(
        products
            .iter()
            .map(|product| product.sales * cost_share - product.separable)
            .collect(),
    )
}

/// Makes `parts` sum to `whole` by changing the largest one.
pub(crate) fn give_rest_to_largest(parts: &mut [Money], whole: Money) {
    let sum: Money = parts.iter().copied().sum();
    if let Some(largest) = parts.iter_mut().max() {
        *largest += whole - sum;
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn product(weight: i64, sales: i64, separable: i64) -> JointProduct {
        JointProduct {
            weight: Mass::from_kg(Decimal::from(weight)),
            split_off_value: Money::from_cents(sales),
            sales: Money::from_cents(sales),
            separable: Money::from_cents(separable),
        }
    }

    #[test]
    fn every_method_has_a_name_and_a_warning_of_its_own() {
        let texts: Vec<&str> = AllocationMethod::ALL
            .into_iter()
            .flat_map(|method| [method.name(), method.misleads_when()])
            .collect();
        for (index, text) in texts.iter().enumerate() {
            assert!(!text.is_empty() && !texts[..index].contains(text), "{text}");
        }
    }

    #[test]
    fn a_product_that_costs_more_than_it_brings_carries_no_joint_cost() {
        let parts = allocate(
            AllocationMethod::NetRealisableValue,
            Money::from_cents(900),
            &[product(1, 1000, 100), product(1, 100, 200)],
        );
        assert_eq!(parts, [900, 0].map(Money::from_cents));
    }

    #[test]
    fn without_any_value_the_weights_decide() {
        let parts = allocate(
            AllocationMethod::ConstantGrossMargin,
            Money::from_cents(900),
            &[product(2, 0, 0), product(1, 0, 0)],
        );
        assert_eq!(parts, [600, 300].map(Money::from_cents));
        let parts = allocate(
            AllocationMethod::PhysicalWeight,
            Money::from_cents(900),
            &[product(0, 0, 0); 2],
        );
        assert_eq!(parts, [450, 450].map(Money::from_cents));
        assert!(allocate(AllocationMethod::PhysicalWeight, Money::ZERO, &[]).is_empty());
    }

    proptest! {
        #[test]
        fn the_parts_sum_to_the_joint_cost(
            joint in -1_000_000_i64..1_000_000_000,
            products in proptest::collection::vec(
                (0_i64..10_000, 0_i64..10_000_000, 0_i64..1_000_000), 1..70
            ),
            method in 0_usize..4,
        ) {
            let products: Vec<JointProduct> = products
                .into_iter()
                .map(|(weight, sales, separable)| product(weight, sales, separable))
                .collect();
            let joint = Money::from_cents(joint);
            let parts = allocate(AllocationMethod::ALL[method], joint, &products);
            let error = parts.iter().copied().sum::<Money>() - joint;
            // A last digit can be lost where parts of very different size meet.
            prop_assert!(error.units().abs() < Decimal::new(1, 15), "{error:?}");
        }
    }
}
