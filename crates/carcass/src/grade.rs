//! A carcass as the grader measures it, and its yield grade.
//!
//! `YG = 2.50 + 2.50 · fat + 0.20 · KPH + 0.0038 · HCW − 0.32 · REA`, with the
//! back fat in inches, the kidney, pelvic and heart fat in percent, the hot
//! weight of the whole carcass in pounds and the ribeye area in square inches
//! (United States, 7 CFR 54.105(a)). Figures run from 1.0 to 5.9 and the grade
//! is the whole number: a fraction is dropped, never rounded up (Miller and
//! Woerner, Beef Carcass Composition and Quality, Encyclopedia of Animal
//! Science, read in a secondary copy).
//!
//! A grade worked out here is an estimate for the shop's own use; only a
//! grader gives an official one.

use core::fmt;
use wording::say;

use quantity::{Decimal, Mass, Share};

/// Centimetres in an inch, exactly.
const CM_PER_IN: Decimal = Decimal::from_parts(254, 0, 0, false, 2);

/// Square centimetres in a square inch, exactly.
const CM2_PER_IN2: Decimal = Decimal::from_parts(64_516, 0, 0, false, 4);

/// Millimetres in a centimetre.
const MM_PER_CM: Decimal = Decimal::TEN;

/// Thickness of the fat over the ribeye, between the twelfth and the
/// thirteenth rib, adjusted for unusual fat elsewhere.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct BackFat(Decimal);

impl BackFat {
    /// In centimetres.
    pub const fn from_cm(cm: Decimal) -> Self {
        Self(cm)
    }

    /// In millimetres.
    pub fn from_mm(mm: Decimal) -> Self {
        Self(mm.checked_div(MM_PER_CM).unwrap_or(Decimal::MAX))
    }

    /// In inches.
    pub fn from_inches(inches: Decimal) -> Self {
        Self(inches.saturating_mul(CM_PER_IN))
    }

    /// Centimetres.
    pub const fn cm(self) -> Decimal {
        self.0
    }

    /// Inches: exact for what was given in inches.
    pub fn inches(self) -> Decimal {
        self.0.checked_div(CM_PER_IN).unwrap_or(Decimal::MAX)
    }
}

impl fmt::Debug for BackFat {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} cm", self.0.normalize())
    }
}

/// Area of the ribeye muscle where the carcass is parted between the twelfth
/// and the thirteenth rib.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct RibeyeArea(Decimal);

impl RibeyeArea {
    /// In square centimetres.
    pub const fn from_cm2(cm2: Decimal) -> Self {
        Self(cm2)
    }

    /// In square inches.
    pub fn from_square_inches(square_inches: Decimal) -> Self {
        Self(square_inches.saturating_mul(CM2_PER_IN2))
    }

    /// Square centimetres.
    pub const fn cm2(self) -> Decimal {
        self.0
    }

    /// Square inches: exact for what was given in square inches.
    pub fn square_inches(self) -> Decimal {
        self.0.checked_div(CM2_PER_IN2).unwrap_or(Decimal::MAX)
    }
}

impl fmt::Debug for RibeyeArea {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} cm²", self.0.normalize())
    }
}

/// A measure of the carcass that lies outside what cattle have. The limits are
/// an estimate, set wide: they catch a slip of the finger or the wrong unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MeasureError {
    /// Hot carcass weight outside 50 to 800 kg.
    Weight(Mass),
    /// Back fat outside 0 to 8 cm.
    BackFat(BackFat),
    /// Ribeye area outside 20 to 200 cm².
    RibeyeArea(RibeyeArea),
    /// Kidney, pelvic and heart fat outside 0 to 12 %.
    KidneyFat(Share),
}

impl fmt::Display for MeasureError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let shown = |figure: Decimal| figure.round_dp(2).normalize();
        match self {
            Self::Weight(weight) => f.write_str(&say!("the hot carcass weight of {kg} kg must be 50 to 800 kg (110 to 1764 lb): the whole \
                 carcass, both sides together", shown(weight.kg()))),
            Self::BackFat(fat) => f.write_str(&say!("the back fat of {cm} cm must be 0 to 8 cm (0 to 3.15 in)", shown(fat.cm()))),
            Self::RibeyeArea(area) => f.write_str(&say!("the ribeye area of {cm2} cm² must be 20 to 200 cm² (3.1 to 31 in²)", shown(area.cm2()))),
            Self::KidneyFat(share) => f.write_str(&say!("the kidney fat of {percent} % must be 0 to 12 % of the carcass", shown(share.percent()))),
        }
    }
}

impl core::error::Error for MeasureError {}

/// A whole carcass as the grader measures it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct GradedCarcass {
    weight: Mass,
    back_fat: BackFat,
    ribeye_area: RibeyeArea,
    kidney_fat: Share,
}

impl GradedCarcass {
    /// A carcass of hot `weight`, both sides together, with `kidney_fat` as
    /// the share of it that is kidney, pelvic and heart fat.
    ///
    /// # Errors
    /// [`MeasureError`] names the measure and the range that is right.
    pub fn new(
        weight: Mass,
        back_fat: BackFat,
        ribeye_area: RibeyeArea,
        kidney_fat: Share,
    ) -> Result<Self, MeasureError> {
        let within = |figure: Decimal, least: u32, most: u32| {
            (Decimal::from(least)..=Decimal::from(most)).contains(&figure)
        };
        if !within(weight.kg(), 50, 800) {
            return Err(MeasureError::Weight(weight));
        }
        if !within(back_fat.cm(), 0, 8) {
            return Err(MeasureError::BackFat(back_fat));
        }
        if !within(ribeye_area.cm2(), 20, 200) {
            return Err(MeasureError::RibeyeArea(ribeye_area));
        }
        if !within(kidney_fat.percent(), 0, 12) {
            return Err(MeasureError::KidneyFat(kidney_fat));
        }
        Ok(Self {
            weight,
            back_fat,
            ribeye_area,
            kidney_fat,
        })
    }

    /// Pounds, inches, square inches, percent of the carcass.
    ///
    /// # Errors
    /// As [`GradedCarcass::new`].
    pub fn from_pounds_and_inches(
        pounds: Decimal,
        fat_inches: Decimal,
        ribeye_square_inches: Decimal,
        kidney_fat_percent: Decimal,
    ) -> Result<Self, MeasureError> {
        Self::new(
            Mass::from_lb(pounds),
            BackFat::from_inches(fat_inches),
            RibeyeArea::from_square_inches(ribeye_square_inches),
            Share::from_percent(kidney_fat_percent),
        )
    }

    /// Kilograms, centimetres, square centimetres, percent of the carcass.
    ///
    /// # Errors
    /// As [`GradedCarcass::new`].
    pub fn from_kilograms_and_centimetres(
        kilograms: Decimal,
        fat_cm: Decimal,
        ribeye_cm2: Decimal,
        kidney_fat_percent: Decimal,
    ) -> Result<Self, MeasureError> {
        Self::new(
            Mass::from_kg(kilograms),
            BackFat::from_cm(fat_cm),
            RibeyeArea::from_cm2(ribeye_cm2),
            Share::from_percent(kidney_fat_percent),
        )
    }

    /// Hot weight of the whole carcass.
    pub const fn weight(self) -> Mass {
        self.weight
    }

    /// The yield grade by the equation.
    pub fn yield_grade(self) -> YieldGrade {
        let gains = Decimal::new(250, 2)
            + Decimal::new(250, 2) * self.back_fat.inches()
            + Decimal::new(20, 2) * self.kidney_fat.percent()
            + Decimal::new(38, 4) * self.weight.lb();
        YieldGrade(gains - Decimal::new(32, 2) * self.ribeye_area.square_inches())
    }
}

/// A yield grade: the lower, the more saleable meat.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct YieldGrade(Decimal);

impl YieldGrade {
    /// The leanest figure there is, 1.0.
    pub const LEANEST: Self = Self(Decimal::ONE);
    /// The fattest figure there is, 5.9.
    pub const FATTEST: Self = Self(Decimal::from_parts(59, 0, 0, false, 1));

    /// A grade already known, with its decimals.
    pub const fn from_figure(figure: Decimal) -> Self {
        Self(figure)
    }

    /// The figure as the equation gives it, with all its decimals.
    pub const fn figure(self) -> Decimal {
        self.0
    }

    /// Whether it lies within 1.0 to 5.9.
    pub fn is_within_limits(self) -> bool {
        (Self::LEANEST..=Self::FATTEST).contains(&self)
    }

    /// The nearest grade within 1.0 to 5.9.
    #[must_use]
    pub fn within_limits(self) -> Self {
        self.clamp(Self::LEANEST, Self::FATTEST)
    }

    /// The grade as a whole number, 1 to 5: the decimals are dropped.
    pub fn whole(self) -> u8 {
        let figure = self.within_limits().0;
        (1..=5)
            .rev()
            .find(|&grade| Decimal::from(grade) <= figure)
            .unwrap_or(1)
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn us(pounds: i64, fat: i64, ribeye: i64, kidney: i64) -> Result<GradedCarcass, MeasureError> {
        GradedCarcass::from_pounds_and_inches(
            Decimal::from(pounds),
            Decimal::new(fat, 1),
            Decimal::new(ribeye, 1),
            Decimal::new(kidney, 1),
        )
    }

    fn graded(figure: i64) -> u8 {
        YieldGrade::from_figure(Decimal::new(figure, 2)).whole()
    }

    #[test]
    fn inches_and_pounds_stay_exact() {
        let carcass = us(735, 4, 120, 25).expect("a carcass");
        assert_eq!(carcass.yield_grade().figure(), Decimal::new(2953, 3));
    }

    #[test]
    fn millimetres_are_tenths_of_a_centimetre() {
        let ten = BackFat::from_mm(Decimal::TEN);
        assert_eq!(ten, BackFat::from_cm(Decimal::ONE));
    }

    #[test]
    fn decimals_are_dropped_and_the_ends_hold() {
        assert_eq!(graded(390), 3);
        assert_eq!(graded(399), 3);
        assert_eq!(graded(400), 4);
        assert_eq!(graded(59), 1);
        assert_eq!(graded(-120), 1);
        assert_eq!(graded(640), 5);
        assert!(!YieldGrade::from_figure(Decimal::new(99, 2)).is_within_limits());
        assert!(YieldGrade::FATTEST.is_within_limits());
    }

    #[test]
    fn each_measure_out_of_range_is_named_with_what_is_right() {
        for (carcass, named, range) in [
            (
                us(100, 4, 120, 25),
                "hot carcass weight of 45.36 kg",
                "50 to 800 kg",
            ),
            (us(735, -1, 120, 25), "back fat of -0.25 cm", "0 to 8 cm"),
            (us(735, 40, 120, 25), "back fat of 10.16 cm", "0 to 3.15 in"),
            (
                us(735, 4, 900, 25),
                "ribeye area of 580.64 cm²",
                "20 to 200 cm²",
            ),
            (us(735, 4, 120, 250), "kidney fat of 25 %", "0 to 12 %"),
        ] {
            let message = carcass.expect_err("out of range").to_string();
            assert!(message.contains(named), "{message}");
            assert!(message.contains(range), "{message}");
        }
    }

    #[test]
    fn no_figure_panics() {
        for figure in [Decimal::MAX, Decimal::MIN] {
            assert!(GradedCarcass::from_pounds_and_inches(figure, figure, figure, figure).is_err());
            assert!((1..=5).contains(&YieldGrade::from_figure(figure).whole()));
            let _ = BackFat::from_mm(figure);
        }
    }

    proptest! {
        #[test]
        fn both_unit_systems_agree(
            pounds in 200_i64..1700,
            fat in 0_i64..30,
            ribeye in 40_i64..300,
            kidney in 0_i64..120,
        ) {
            let imperial = us(pounds, fat, ribeye, kidney).expect("within range");
            let metric = GradedCarcass::from_kilograms_and_centimetres(
                Mass::from_lb(Decimal::from(pounds)).kg(),
                BackFat::from_inches(Decimal::new(fat, 1)).cm(),
                RibeyeArea::from_square_inches(Decimal::new(ribeye, 1)).cm2(),
                Decimal::new(kidney, 1),
            )
            .expect("within range");
            prop_assert_eq!(imperial, metric);
            prop_assert_eq!(imperial.yield_grade(), metric.yield_grade());
        }

        #[test]
        fn fat_raises_the_grade_and_muscle_lowers_it(
            pounds in 200_i64..1600,
            fat in 0_i64..29,
            ribeye in 40_i64..299,
            kidney in 0_i64..119,
        ) {
            let grade = |carcass: Result<GradedCarcass, MeasureError>| {
                carcass.expect("within range").yield_grade()
            };
            let base = grade(us(pounds, fat, ribeye, kidney));
            prop_assert!(grade(us(pounds, fat + 1, ribeye, kidney)) > base);
            prop_assert!(grade(us(pounds, fat, ribeye, kidney + 1)) > base);
            prop_assert!(grade(us(pounds + 1, fat, ribeye, kidney)) > base);
            prop_assert!(grade(us(pounds, fat, ribeye + 1, kidney)) < base);
        }
    }
}
