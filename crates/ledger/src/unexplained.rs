//! What the scale did not find, in words: wherever a closed side is told of.

use notation::{Units, mass_with_unit};
use quantity::{Mass, Rounding};
use scale::{ClosedTest, Report, Settlement};
use wording::say;

/// Whether it is anything at the digits that are shown.
pub(crate) fn is_told(unexplained: Mass, units: Units) -> bool {
    !Rounding::HalfEven
        .to_cent(unexplained.in_unit(units.mass()))
        .is_zero()
}

fn size(unexplained: Mass, units: Units) -> String {
    mass_with_unit(Mass::from_kg(unexplained.kg().abs()), units)
}

/// What is unexplained in a report and how the money takes it; `None` where it
/// is nothing.
pub(crate) fn said(report: &Report, units: Units) -> Option<String> {
    if !is_told(report.unexplained, units) {
        return None;
    }
    let off = size(report.unexplained, units);
    let is_missing = report.unexplained.is_positive();
    Some(match report.settlement {
        Settlement::Nothing => return None,
        Settlement::ToLosses => say!(
            "Unexplained: {off} of the side were on no scale. Weights are shown as they were weighed; in money and in own yields what is missing counts as loss, divided over the losses of the plan.",
            off
        ),
        Settlement::InProportion if is_missing => say!(
            "Unexplained: {off} of the side were on no scale, and its plan has no loss. Weights are shown as they were weighed; in money and in own yields all of them count for more in proportion.",
            off
        ),
        Settlement::InProportion => say!(
            "Unexplained: {off} more were weighed than the side. Weights are shown as they were weighed; in money and in own yields all of them count for less in proportion.",
            off
        ),
    })
}

/// What is unexplained in a closed test, in a few words; `None` where it is
/// nothing.
pub(crate) fn of_test(test: &ClosedTest, units: Units) -> Option<String> {
    if !is_told(test.unexplained, units) {
        return None;
    }
    let off = size(test.unexplained, units);
    Some(match (test.unexplained.is_positive(), test.was_accepted) {
        (true, true) => say!("{off} missing, unexplained and accepted.", off),
        (true, false) => say!("{off} missing, unexplained, within the tolerance.", off),
        (false, true) => say!("{off} too much, unexplained and accepted.", off),
        (false, false) => say!("{off} too much, unexplained, within the tolerance.", off),
    })
}
