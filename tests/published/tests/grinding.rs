//! Blending trims to a fat content.

use carcass::{FatLedger, Kind, RanOut, Stock, Trim, Wanted, leaner_share};
use published_checks::print;
use published_checks::printed::{agrees, number, shown};
use published_checks::sides::{broken_down, catalogue};
use quantity::{Decimal, Mass, Money, Share, UnitPrice};
#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

#[cfg(target_arch = "wasm32")]
wasm_bindgen_test::wasm_bindgen_test_configure!(run_in_browser);

fn percent(text: &str) -> Share {
    Share::from_percent(number(text))
}

/// A trim of the Georgia task: name, fat content in percent, dollars per lb.
type Priced = (&'static str, &'static str, &'static str);

const FAT: [Priced; 3] = [
    ("50 % trim", "50", "1.89"),
    ("40 % trim", "60", "1.69"),
    ("30 % trim", "70", "1.56"),
];

const LEAN: [Priced; 2] = [("ham", "20", "2.45"), ("shoulder", "23", "1.78")];

/// Five hundred pounds of a fat and a lean trim at 28 % fat: what a pound of
/// it costs, and how much goes in of each, the lean one first.
fn five_hundred_pounds(fat: Priced, lean: Priced) -> (UnitPrice, Vec<Mass>) {
    let plenty = Mass::from_lb(number("5000"));
    let trims = [lean, fat]
        .iter()
        .enumerate()
        .map(|(node, (_, fat, _))| Trim {
            node,
            weight: plenty,
            fat: percent(fat),
        })
        .collect();
    let ledger = FatLedger::new(trims).expect("sound trims");
    let whole = Mass::from_lb(number("500"));
    let wanted = Wanted {
        most_fat: percent("28"),
        weight: Some(whole),
    };
    let blend = ledger.blend(&[wanted]).expect("a sound wish");
    let batch = blend.batches.first().expect("a batch");
    assert_eq!(batch.ran_out, None);
    let content = batch.fat().expect("a batch of some weight").percent();
    assert_eq!(content.round_dp(6), number("28.000000"));

    let weights: Vec<Mass> = batch
        .portions
        .iter()
        .map(|portion| portion.weight)
        .collect();
    let cost: Money = weights
        .iter()
        .zip([lean, fat])
        .map(|(weight, (_, _, price))| UnitPrice::from_per_lb(number(price)) * *weight)
        .sum();
    (
        UnitPrice::from_ratio(cost, whole).expect("a weight"),
        weights,
    )
}

/// Least cost of 500 lb at 28 % fat from one fat and one lean trim: Georgia
/// FFA, State Meats 2016 (R). Six pairs and the best of them. Trims named by
/// their lean share: 50 % trim is 50 % fat, 40 % trim 60 %, 30 % trim 70 %.
#[test]
fn six_pairs_and_the_cheapest() {
    let printed = [
        ("50 % trim", "ham", "2.30"),
        ("50 % trim", "shoulder", "1.80"),
        ("40 % trim", "shoulder", "1.77"),
        ("40 % trim", "ham", "2.30"),
        ("30 % trim", "ham", "2.31"),
        ("30 % trim", "shoulder", "1.76"),
    ];
    let mut reckoned = Vec::new();
    for fat in FAT {
        for lean in LEAN {
            let (cost, weights) = five_hundred_pounds(fat, lean);
            let (_, _, per_lb) = printed
                .iter()
                .find(|(of_fat, of_lean, _)| (*of_fat, *of_lean) == (fat.0, lean.0))
                .expect("a printed pair");
            print(&format!(
                "{} and {}: {} a pound",
                fat.0,
                lean.0,
                shown(cost.per_lb())
            ));
            agrees("cost a pound", cost.per_lb(), per_lb);
            reckoned.push((cost, fat.0, lean.0, weights));
        }
    }
    assert_eq!(reckoned.len(), printed.len());
    let (_, fat, lean, weights) = reckoned
        .iter()
        .min_by_key(|(cost, ..)| *cost)
        .expect("six pairs");
    assert_eq!((*fat, *lean), ("30 % trim", "shoulder"));
    for (weight, pounds) in weights.iter().zip(["446.81", "53.19"]) {
        agrees("pounds", weight.lb(), pounds);
    }
}

/// 90/10 and 50/50 to 80/20: three parts to one (D, Pearson square).
#[test]
fn three_parts_of_lean_to_one_of_fat() {
    let share = leaner_share(percent("10"), percent("50"), percent("20"));
    agrees("lean", share.expect("a share").percent(), "75");
    let fat = share.expect("a share").complement();
    agrees("fat", fat.percent(), "25");
}

/// Equal parts of 0 and 30 % fat, 25 lb in all: 3.75 lb of fat, 15 % (R). Put
/// together as all there is, under a limit they do not reach.
#[test]
fn equal_parts_of_lean_and_fatter() {
    let half = Mass::from_lb(number("12.5"));
    let trims = ["0", "30"]
        .iter()
        .enumerate()
        .map(|(node, fat)| Trim {
            node,
            weight: half,
            fat: percent(fat),
        })
        .collect();
    let ledger = FatLedger::new(trims).expect("sound trims");
    let wanted = Wanted {
        most_fat: percent("30"),
        weight: None,
    };
    let blend = ledger.blend(&[wanted]).expect("a sound wish");
    let batch = blend.batches.first().expect("a batch");
    agrees("weight", batch.weight.lb(), "25");
    agrees("fat", batch.fat_weight.lb(), "3.75");
    agrees("content", batch.fat().expect("some weight").percent(), "15");
    assert_eq!(blend.left_weight(), Mass::ZERO);
}

/// Most fat of ground beef in Canada (R, Canadian Food Inspection Agency,
/// standards for ground meat).
#[test]
fn classes_of_ground_beef() {
    let catalogue = catalogue();
    let classes: Vec<(&str, Decimal)> = catalogue
        .grind_classes()
        .iter()
        .map(|class| (class.id.as_str(), class.most_fat.percent()))
        .collect();
    let printed = [
        ("extra-lean", "10"),
        ("lean", "17"),
        ("medium", "23"),
        ("regular", "30"),
    ]
    .map(|(class, most)| (class, number(most)));
    assert_eq!(classes, printed);
}

/// A whole side, grain-fed and boneless: a little of the leaner classes and
/// the rest as regular, each within its legal limit. No source: the figures
/// are printed to be looked at, the limits and the balance are held.
#[test]
fn a_side_ground_to_classes() {
    let catalogue = catalogue();
    let side = broken_down(&catalogue, "boneless", Stock::GRAIN);
    let ground = catalogue.product_id("ground-beef").expect("a product");
    let fat_trim = catalogue.product_id("fat-trim").expect("a product");
    assert_eq!(catalogue[fat_trim].kind, Kind::Fat);
    let ledger = FatLedger::of(&side, |product| product == ground || product == fat_trim)
        .expect("sound trims");
    print(&format!(
        "trims: {} kg, {} kg of it fat",
        shown(ledger.weight().kg()),
        shown(ledger.fat_weight().kg())
    ));
    let wanted: Vec<Wanted> = catalogue
        .grind_classes()
        .iter()
        .zip([Some("2"), Some("5"), Some("5"), None])
        .map(|(class, kg)| Wanted {
            most_fat: class.most_fat,
            weight: kg.map(|kg| Mass::from_kg(number(kg))),
        })
        .collect();
    let blend = ledger.blend(&wanted).expect("sound wishes");
    let made: Mass = blend.batches.iter().map(|batch| batch.weight).sum();
    assert_eq!(made + blend.left_weight(), ledger.weight());
    for (class, batch) in catalogue.grind_classes().iter().zip(&blend.batches) {
        let content = batch.fat().expect("some weight");
        print(&format!(
            "{}: {} kg at {} % fat from {} trims",
            class.name,
            shown(batch.weight.kg()),
            shown(content.percent()),
            batch.portions.len()
        ));
        assert!(content.percent().round_dp(9) <= class.most_fat.percent());
        assert_eq!(batch.ran_out, None);
    }
    print(&format!("left: {} kg", shown(blend.left_weight().kg())));

    let too_much = Wanted {
        most_fat: percent("10"),
        weight: Some(Mass::from_kg(number("60"))),
    };
    let blend = ledger.blend(&[too_much]).expect("a sound wish");
    let batch = blend.batches.first().expect("a batch");
    assert_eq!(batch.ran_out, Some(RanOut::Lean));
    let lacking = blend.lean_lacking(batch, percent("5")).expect("leaner");
    print(&format!(
        "60 kg of extra lean: {} kg made, {} kg of 5 % trim lacking",
        shown(batch.weight.kg()),
        shown(lacking.kg())
    ));
    assert!(lacking.is_positive() && lacking < batch.missing());
}
