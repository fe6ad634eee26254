//! Published cut-outs that our plans resemble without being cut like them.
//! Their figures stand beside ours on the page of deviations; here only what
//! is alike is held.

use carcass::{Kind, Stock};
use published_checks::cut_outs::percent_of;
use published_checks::other_cut_outs::{
    GRIND_HEAVY_CARCASS, GRIND_HEAVY_LINES, SUBPRIMALS, TRIMMED_FAT, TRIMMED_PRIMALS,
    TrimmedPrimal, subprimal_fat, subprimal_saleable,
};
use published_checks::printed::{agrees, agrees_within, number};
use published_checks::sides::{broken_down, catalogue, percent_of_kinds};
use quantity::Decimal;
#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

#[cfg(target_arch = "wasm32")]
wasm_bindgen_test::wasm_bindgen_test_configure!(run_in_browser);

/// Univ. Missouri from The Meat We Eat, 14th ed. (R): closely trimmed roasts
/// and steaks of chuck, rib, loin and round are 39 % of the carcass (the sum D).
/// A plan that takes every bone out gives less and one that leaves most in gives
/// more. Its plate, flank and brisket, 12 %, are more than twice what our plans
/// leave whole and are only printed.
#[test]
fn roasts_and_steaks_of_the_thick_primals() {
    let [thick @ .., thin] = &TRIMMED_PRIMALS;
    let published: Decimal = thick.iter().map(TrimmedPrimal::published).sum();
    agrees("sum of the lines", published, "39");
    let catalogue = catalogue();
    let [boneless, bone_in] = ["boneless", "bone-in"].map(|plan| {
        let side = broken_down(&catalogue, plan, Stock::GRAIN);
        let ours = thin.ours(&catalogue, &side);
        assert!(ours * Decimal::TWO < thin.published(), "{ours}");
        let primals = thick.iter();
        primals
            .map(|primal| primal.ours(&catalogue, &side))
            .sum::<Decimal>()
    });
    assert!(
        boneless < published && published < bone_in,
        "{boneless} {bone_in}"
    );
}

/// Growing Local, Univ. Nebraska Press 2014 (R): 494 lb of 800, which is
/// 61.75 % (D), within what carcasses span from fat to lean, 59 to 70 % (R,
/// New Zealand export grading 1986). Its ribeye agrees within a quarter, as the
/// lines of the other tables do; the rest is cut otherwise.
#[test]
fn a_carcass_cut_for_grind() {
    let pounds: Decimal = GRIND_HEAVY_LINES
        .iter()
        .map(|line| number(line.pounds))
        .sum();
    agrees("taken home, lb", pounds, "494");
    let share = percent_of(pounds, Decimal::from(GRIND_HEAVY_CARCASS));
    agrees("taken home", share, "61.75");
    assert!(share > number("59") && share < number("70"));

    let catalogue = catalogue();
    let side = broken_down(&catalogue, "boneless", Stock::GRAIN);
    let [ribeye, ..] = &GRIND_HEAVY_LINES;
    let ratio = ribeye.ours.percent(&catalogue, &side) / ribeye.published();
    assert!((ratio - Decimal::ONE).abs() <= number("0.25"), "{ratio}");
    let all: Decimal = GRIND_HEAVY_LINES
        .iter()
        .map(|line| line.ours.percent(&catalogue, &side))
        .sum();
    let saleable = percent_of_kinds(&catalogue, &side, &[Kind::Cut]);
    assert!(all < saleable, "{all} of {saleable} answers to its lines");
}

/// Texas A&M cutting tests, Voges et al. 2006 (R): the leaner Select gives more
/// of every subprimal than Choice, as grass-fed gives more than grain-fed here.
/// The top blade, which is trimmed at the same place, agrees within two points
/// with either.
#[test]
fn leaner_subprimals_give_more() {
    let catalogue = catalogue();
    let [grain, grass] =
        [Stock::GRAIN, Stock::GRASS].map(|stock| broken_down(&catalogue, "boneless", stock));
    for subprimal in &SUBPRIMALS {
        let fatter = subprimal_saleable(&catalogue, &grain, subprimal.part);
        let leaner = subprimal_saleable(&catalogue, &grass, subprimal.part);
        assert!(leaner > fatter, "{}: {leaner} {fatter}", subprimal.name);
        assert!(number(subprimal.select) > number(subprimal.choice));
        if subprimal.part == "top-blade" {
            agrees_within("Choice", fatter, subprimal.choice, number("2"));
            agrees_within("Select", leaner, subprimal.select, number("2"));
        } else {
            assert!(fatter > number(subprimal.choice), "{}", subprimal.name);
        }
    }
}

/// The same tests (R): less fat is trimmed off the leaner Select, of every
/// subprimal that was read, and off our grass-fed parts. How much cannot be held:
/// our parts leave most of their fat at the break before them. The knuckle, which
/// has little, agrees within three points.
#[test]
fn less_fat_is_trimmed_off_leaner_subprimals() {
    let catalogue = catalogue();
    let [grain, grass] =
        [Stock::GRAIN, Stock::GRASS].map(|stock| broken_down(&catalogue, "boneless", stock));
    for subprimal in &TRIMMED_FAT {
        assert!(number(subprimal.select) < number(subprimal.choice));
        for part in subprimal.parts {
            let fatter = subprimal_fat(&catalogue, &grain, part);
            let leaner = subprimal_fat(&catalogue, &grass, part);
            assert!(leaner < fatter, "{part}: {leaner} {fatter}");
            if *part == "knuckle" {
                agrees_within("Choice", fatter, subprimal.choice, number("3"));
                agrees_within("Select", leaner, subprimal.select, number("3"));
            } else {
                assert!(fatter < number(subprimal.choice), "{part}");
            }
        }
    }
}
