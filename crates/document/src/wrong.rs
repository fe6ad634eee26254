//! What is wrong with a value of a document.

use core::fmt;

use carcass::{HangingError, MeasureError};
use pricing::deal::MOST_SIDES;
use pricing::ending::EndingsError;
use quantity::{Share, TypedError};
use wording::{Text, say};

use crate::format::{VERSION, WITH_CURRENCY};
use crate::resolve::{LONGEST_NAME, MOST_CHARGES};

/// What is wrong with a value, and what would be right. It is put into words only
/// where it is shown, in the language in force.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Wrong {
    /// The version is no number that any document has.
    Version,
    /// A currency in a version that had none.
    CurrencyTooEarly,
    /// A name with more than [`LONGEST_NAME`] characters.
    NameTooLong,
    /// A name with control characters.
    NameWithControls,
    /// No plain number in range.
    Number(TypedError),
    /// A unit that cannot stand there.
    Unit {
        /// What stands there.
        found: String,
        /// The units that can.
        wanted: Text,
    },
    /// A percentage above 100.
    AboveWhole {
        /// What stands there.
        found: String,
    },
    /// A percentage of 100 or more where something must be left.
    NotBelowWhole {
        /// What stands there.
        found: String,
    },
    /// A percentage that a slider sets, with decimals or above 100.
    NotAWholePercent,
    /// A share of nothing.
    NotAboveZero,
    /// The stock is to follow a grade, and no carcass was graded.
    GradeWithoutCarcass,
    /// A measure that no carcass has.
    Measure(MeasureError),
    /// A side without weight.
    NoWeight,
    /// No side, or more than [`MOST_SIDES`].
    Sides,
    /// More than [`MOST_CHARGES`] charges.
    TooManyCharges,
    /// A charge for which there is no field.
    NoFieldForCharge,
    /// Neither a loss in the cooler nor the days in it.
    NoShrink,
    /// Days or a loss in hanging or dry-ageing that cannot be.
    Hanging(HangingError),
    /// A plan that the catalogue does not know.
    NoSuchPlan {
        /// What it is called here.
        found: String,
    },
    /// A part that the catalogue does not know.
    NoSuchPart,
    /// A way that the catalogue does not know.
    NoSuchWay,
    /// A way that the catalogue does not know of this part.
    NotAWayOfThePart {
        /// What it is called here.
        found: String,
    },
    /// A product that the catalogue does not know.
    NoSuchProduct,
    /// A class of grind that the catalogue does not know.
    NoSuchClass,
    /// The whole side shared between two ways.
    WholeSideSplit,
    /// A margin that leaves no fat for a class of grind.
    NoFatLeft {
        /// What the class is called.
        class: String,
        /// The fat that it may have at most.
        most_fat: Share,
    },
    /// A pack that holds nothing.
    EmptyPack,
    /// Losses that leave nothing to sell.
    NothingToSell,
    /// A loss of a single cut for which there is no field.
    NoFieldForLoss {
        /// The shop's loss, which it would have to be.
        common: String,
    },
    /// Price endings that cannot be read.
    Endings(EndingsError),
}

impl fmt::Display for Wrong {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&match self {
            Self::Number(error) => return error.fmt(f),
            Self::Measure(error) => return error.fmt(f),
            Self::Hanging(error) => return error.fmt(f),
            Self::Endings(error) => return error.fmt(f),
            Self::Version => say!("it must be a number from 1 to {newest}", VERSION),
            Self::CurrencyTooEarly => say!("it comes with version {version}", WITH_CURRENCY),
            Self::NameTooLong => say!("a name has {most} characters at most", LONGEST_NAME),
            Self::NameWithControls => say!("a name has no control characters"),
            Self::Unit { found, wanted } => {
                say!("“{found}” must be {wanted}", found, wanted.said())
            }
            Self::AboveWhole { found } => {
                say!("“{found}” is out of range: it must be at most 100", found)
            }
            Self::NotBelowWhole { found } => {
                say!("“{found}” is out of range: it must be below 100", found)
            }
            Self::NotAWholePercent => say!("it must be a whole number from 0 to 100"),
            Self::NotAboveZero => say!("it must be above 0"),
            Self::GradeWithoutCarcass => {
                say!("the grade needs the measures of the carcass in deal.carcass")
            }
            Self::NoWeight => say!("the side must weigh more than 0"),
            Self::Sides => say!("it must be from 1 to {most}", MOST_SIDES),
            Self::TooManyCharges => say!("a deal has {most} charges at most", MOST_CHARGES),
            Self::NoFieldForCharge => say!("there is no field left for this charge"),
            Self::NoShrink => say!(
                "it needs the loss in the cooler, shrink_percent, or the days in it, days_hung"
            ),
            Self::NoSuchPlan { found } => say!("no plan is called “{found}”", found),
            Self::NoSuchPart => say!("no part has this name"),
            Self::NoSuchWay => say!("no way has this name"),
            Self::NotAWayOfThePart { found } => {
                say!("“{found}” is not a way of this part", found)
            }
            Self::NoSuchProduct => say!("no product has this name"),
            Self::NoSuchClass => say!("no class of grind has this name"),
            Self::WholeSideSplit => say!("the whole side is never split"),
            Self::NoFatLeft { class, most_fat } => say!(
                "it leaves no fat for “{class}”: it must be below {limit}",
                class,
                most_fat.percent().normalize()
            ),
            Self::EmptyPack => say!("a pack must hold more than 0"),
            Self::NothingToSell => say!("unsold and marked down must leave something to sell"),
            Self::NoFieldForLoss { common } => say!(
                "a single cut has no field for it: it must be “{common}”, as in shop.losses",
                common
            ),
        })
    }
}

#[cfg(test)]
mod tests {
    use carcass::Catalogue;

    use crate::Document;

    /// Holds what is said of the sample with one thing in it replaced against
    /// what should be: what is replaced, by what, the place, the fault.
    fn hold(rows: &[(&str, &str, &str, &str)]) {
        let catalogue = Catalogue::published().expect("published data");
        let json = Document::sample().to_json().expect("a document");
        for (from, to, place, fault) in rows {
            assert!(json.contains(from), "{from}");
            let error = Document::from_json(&json.replacen(from, to, 1))
                .and_then(|document| document.resolve(&catalogue).map(drop))
                .expect_err(to);
            assert_eq!(error.place(), *place);
            assert_eq!(error.to_string(), format!("{place}: {fault}"));
        }
    }

    const VERSION: &str = r#""version": 2"#;
    const NAME: &str = r#""Sample side (invented)""#;
    const WEIGHT: &str = r#""180""#;
    const GRASS: &str = r#""grass_percent": "0""#;
    const BASIS: &str = r#""basis": "cold""#;
    const WAYS: &str = r#""ways": {}"#;
    const SPLITS: &str = r#""splits": {}"#;

    #[test]
    fn names_numbers_and_units_are_said_with_their_place() {
        let long = format!("\"{}\"", "n".repeat(81));
        let early = r#""version": 1, "currency": "CAD""#;
        let heavy =
            "“heavy” is not a number: type digits with at most one point or comma, such as 12.5.";
        let whole = r#""grass_percent": "101""#;
        let (weight, price) = ("deal.weight.unit", "deal.price.unit");
        hold(&[
            (
                VERSION,
                r#""version": 0"#,
                "version",
                "it must be a number from 1 to 2",
            ),
            (VERSION, early, "currency", "it comes with version 2"),
            (NAME, &long, "name", "a name has 80 characters at most"),
            (
                NAME,
                r#""a\u0007""#,
                "name",
                "a name has no control characters",
            ),
            (WEIGHT, "\"heavy\"", "deal.weight.amount", heavy),
            (r#""kg""#, r#""g""#, weight, "“g” must be kg or lb"),
            (
                r#""/kg""#,
                r#""/st""#,
                price,
                "“/st” must be /kg, /lb or /100 g",
            ),
            (
                GRASS,
                whole,
                "deal.grass_percent",
                "“101” is out of range: it must be at most 100",
            ),
            (
                "\"28\"",
                "\"100\"",
                "shop.target_margin_percent",
                "“100” is out of range: it must be below 100",
            ),
        ]);
    }

    #[test]
    fn faults_of_the_deal_are_said_with_their_place() {
        let nothing = r#""basis": {"live": {"dressing_percent": "0", "days_hung": 1}}"#;
        let charge = r#"{"what": "Haul", "amount": {"flat": "1"}}"#;
        let charges = format!(r#""charges": [{}]"#, [charge; 21].join(","));
        hold(&[
            (
                WEIGHT,
                "\"0\"",
                "deal.weight.amount",
                "the side must weigh more than 0",
            ),
            (
                r#""sides": 1"#,
                r#""sides": 0"#,
                "deal.sides",
                "it must be from 1 to 20",
            ),
            (
                r#""charges": []"#,
                &charges,
                "deal.charges",
                "a deal has 20 charges at most",
            ),
            (
                BASIS,
                nothing,
                "deal.basis.dressing_percent",
                "it must be above 0",
            ),
            (
                BASIS,
                r#""basis": {"hot": {}}"#,
                "deal.basis",
                "it needs the loss in the cooler, shrink_percent, or the days in it, days_hung",
            ),
            (
                BASIS,
                r#""basis": {"hot": {"days_hung": 99}}"#,
                "deal.basis.days_hung",
                "99 days are more than the published losses reach: 0 to 35 days, or a loss of your own",
            ),
            (
                GRASS,
                r#""grass_percent": "0", "stock_from": "grade""#,
                "deal.stock_from",
                "the grade needs the measures of the carcass in deal.carcass",
            ),
        ]);
    }

    #[test]
    fn faults_of_a_graded_carcass_are_said_with_their_place() {
        let carcass = |fat: &str, unit: &str| {
            format!(
                r#""grass_percent": "0", "carcass": {{
                    "hot_weight": {{"amount": "700", "unit": "lb"}},
                    "back_fat": {{"amount": "{fat}", "unit": "{unit}"}},
                    "ribeye_area": {{"amount": "12.5", "unit": "{unit}2"}},
                    "kidney_fat_percent": "2"}}"#
            )
        };
        hold(&[
            (
                GRASS,
                &carcass("0.2", "ft"),
                "deal.carcass.back_fat.unit",
                "“ft” must be cm, mm or in",
            ),
            (
                GRASS,
                &carcass("0.2", "mm"),
                "deal.carcass.ribeye_area.unit",
                "“mm2” must be cm2 or in2",
            ),
            (
                GRASS,
                &carcass("9", "cm"),
                "deal.carcass.back_fat",
                "the back fat of 9 cm must be 0 to 8 cm (0 to 3.15 in)",
            ),
        ]);
    }

    #[test]
    fn faults_of_the_plan_are_said_with_their_place() {
        let split = r#""splits": {"side": {"way": "side-one-rib", "percent": "5"}}"#;
        let grind = |class: &str, margin: &str| {
            format!(
                r#""splits": {{}}, "grind": {{"with_fat_trim": false, "margin_points": "{margin}",
                    "classes": {{"{class}": {{"share_percent": "4"}}}}}}"#
            )
        };
        hold(&[
            (
                "\"boneless\"",
                "\"boneful\"",
                "plan.base",
                "no plan is called “boneful”",
            ),
            (
                WAYS,
                r#""ways": {"tail": "x"}"#,
                "plan.ways.tail",
                "no part has this name",
            ),
            (
                WAYS,
                r#""ways": {"rib": "chuck"}"#,
                "plan.ways.rib",
                "“chuck” is not a way of this part",
            ),
            (
                SPLITS,
                split,
                "plan.splits.side",
                "the whole side is never split",
            ),
            (
                SPLITS,
                &grind("blue", "0"),
                "plan.grind.classes.blue",
                "no class of grind has this name",
            ),
            (
                SPLITS,
                &grind("extra-lean", "10"),
                "plan.grind.margin_points",
                "it leaves no fat for “Extra lean ground beef”: it must be below 10",
            ),
        ]);
    }

    #[test]
    fn faults_of_the_shop_are_said_with_their_place() {
        let packs = r#""per_pack": {"cost": "1", "holds": {"amount": "0", "unit": "kg"}}"#;
        let by_weight = r#""per_weight": {
        "amount": "0.35",
        "unit": "/kg"
      }"#;
        hold(&[
            (
                r#""own_minutes": {}"#,
                r#""own_minutes": {"x": "1"}"#,
                "shop.own_minutes.x",
                "no way has this name",
            ),
            (
                r#""board": {}"#,
                r#""board": {"tofu": {"amount": "1", "unit": "/kg"}}"#,
                "shop.board.tofu",
                "no product has this name",
            ),
            (
                by_weight,
                packs,
                "shop.packaging.holds",
                "a pack must hold more than 0",
            ),
            (
                r#""unsold": "4""#,
                r#""unsold": "100""#,
                "shop.losses",
                "unsold and marked down must leave something to sell",
            ),
            (
                r#""endings": """#,
                r#""endings": "9""#,
                "shop.rounding.endings",
                "“9” is not an ending: type the cents in two digits, such as 49, 99.",
            ),
        ]);
    }
}
