//! How the figures are worked out: the formulas in words, each with where it
//! comes from, and the sources of the data. What stands here is what the code
//! beside each formula does; the crates named in the contributor guide hold it.

use carcass::Catalogue;
use wording::{say, text};

use crate::steps::Steps;

/// One step of the way from weight and price to the verdict.
struct Step {
    title: &'static str,
    words: &'static str,
    formula: &'static str,
    source: &'static str,
}

/// All of it, as a piece of the page.
pub fn written(catalogue: &Catalogue) -> String {
    let mut steps = Steps::default();
    for step in all() {
        steps.holding("h3", &[], step.title);
        steps.holding("p", &[], step.words);
        steps.holding("p", &[("class", "formula")], step.formula);
        let source = say!("Source: {source}", step.source);
        steps.holding("p", &[("class", "note")], &source);
    }
    steps.holding("h3", &[], text!("Sources of the figures"));
    steps.element("ul", &[("class", "note")], |steps| {
        for source in catalogue.sources() {
            let year = source.year.as_ref();
            let year = year.map_or_else(String::new, |year| format!(", {year}"));
            steps.holding("li", &[], &format!("{}{year}.", source.title));
        }
    });
    steps.written()
}

#[expect(clippy::too_many_lines, reason = "a list, and nothing else")]
fn all() -> [Step; 14] {
    [
        Step {
            title: text!("Weight that hangs"),
            words: text!(
                "The weight you pay for becomes the weight of the chilled side. Cooler shrink is your own figure, or follows from the days hung."
            ),
            formula: text!(
                "chilled = hot × (1 − shrink); hot = live ÷ 2 × dressing share; shrink over days = 1 − (1 − first day) × (1 − per day)^(days − 1)"
            ),
            source: text!("Kansas State University 1972; Purdue University (Lemenager)."),
        },
        Step {
            title: text!("Weight of every cut"),
            words: text!(
                "Each way of breaking a part gives shares of it that sum to exactly one: cuts, by-products and losses. Going down the tree of the plan, the weights of all of them sum to the side."
            ),
            formula: text!("weight of an output = weight of the part × its share"),
            source: text!("The source of each share stands behind its cut under Prices."),
        },
        Step {
            title: text!("Grass-fed and grain-fed"),
            words: text!(
                "Grain-fed shares are published. Grass-fed ones are a model: fat falls and bone rises by the ratio of two published averages, a cut follows its published correlation with fatness, and the rest closes to one. Between the two lies the straight line."
            ),
            formula: text!("share = grain + way to grass-fed × (grass − grain)"),
            source: text!("Judge et al. 2019, J Anim Sci 97:2769; Koch et al."),
        },
        Step {
            title: text!("Graded carcass"),
            words: text!(
                "The yield grade from what the grader measured, and what a side of that grade is expected to give. An estimate for your own use: only a grader gives an official grade."
            ),
            formula: text!(
                "grade = 2.50 + 2.50 × back fat (in) + 0.20 × kidney fat (%) + 0.0038 × hot carcass (lb) − 0.32 × ribeye area (in²)"
            ),
            source: text!("7 CFR 54.105(a), United States; Kansas State University 1976, 1996."),
        },
        Step {
            title: text!("Classes of grind"),
            words: text!(
                "Trims are blended by the mass balance of their fat, the leanest first, so that the limit of each class holds exactly."
            ),
            formula: text!(
                "lean share = (fat of the fat trim − limit) ÷ (fat of the fat trim − fat of the lean trim)"
            ),
            source: text!("Pearson square, a handbook rule; limits of the classes are Canada’s."),
        },
        Step {
            title: text!("What is spent"),
            words: text!(
                "All that the side costs until it is sold. What the by-products bring is taken off; the cuts must carry the rest."
            ),
            formula: text!(
                "spend = price × weight + charges + minutes × (rate × (1 + on-costs) + overhead) + packaging; cuts carry = spend − by-products"
            ),
            source: text!(
                "Horngren et al., Cost Accounting, ch. 16 (joint cost, by-products by the production method)."
            ),
        },
        Step {
            title: text!("Cost of every cut"),
            words: text!(
                "The cost of a part and of breaking it is divided over what comes off it, by the method chosen under Prices. To the cent, the costs of all cuts sum to what they must carry."
            ),
            formula: text!(
                "by weight: cost × w ÷ Σw; by sales: cost × v ÷ Σv; by net value: cost × n ÷ Σn with n = sales − costs of its own; by constant margin: sales × (1 − g) − costs of its own"
            ),
            source: text!("Horngren et al., Cost Accounting, ch. 16."),
        },
        Step {
            title: text!("Sales"),
            words: text!(
                "What is lost in the pack and what is never sold earns nothing; what is marked down earns less."
            ),
            formula: text!(
                "sales = Σ weight × (1 − purge) × (1 − unsold) × price × (1 − marked down × mark-down)"
            ),
            source: text!("Common practice."),
        },
        Step {
            title: text!("Margin and verdict"),
            words: text!(
                "Pays: the margin on sales makes the target. Thin: it covers its costs, not the target. Falls short: it costs more than it brings. Margins are cut down, never up, to the digit shown."
            ),
            formula: text!(
                "margin = (sales − what the cuts carry) ÷ sales; markup = margin ÷ (1 − margin)"
            ),
            source: text!("Common practice of retail accounts."),
        },
        Step {
            title: text!("Walk-away price"),
            words: text!(
                "The most the side is worth at the target: put back as its price, it gives the target exactly. Shown cut down to the cent."
            ),
            formula: text!(
                "walk-away = ((1 − target) × sales + by-products − packaging − labour − charges) ÷ weight paid for"
            ),
            source: text!("Derived here; linear in the price."),
        },
        Step {
            title: text!("Suggested prices"),
            words: text!(
                "Every price on the board is lifted by one factor, so that the cuts keep their places, until the side makes the target. Prices you hold stay; endings never leave the side short of the target."
            ),
            formula: text!(
                "the least factor for which Σ held price × weight + Σ (factor × board price, within its bounds) × weight = sales required"
            ),
            source: text!("Derived here."),
        },
        Step {
            title: text!("How sure, and which plan is best"),
            words: text!(
                "Thousands of sides are drawn from published variation, always to the whole side, and each is priced. The best plan is searched over every way of every part at once; whatever is shown has been priced again exactly."
            ),
            formula: text!("chance = sides drawn that make the target ÷ sides drawn"),
            source: text!("Judge et al. 2019; Kansas State University 1976, 1996."),
        },
        Step {
            title: text!("Own yields"),
            words: text!(
                "Published yields count like a few sides, and every side you weigh counts as one at its end of the stock, or in part at both ends where it lies between. What a way gives is learnt as a whole, so that its shares still sum to one; the order of the tests changes nothing."
            ),
            formula: text!(
                "own share = published share + Σ sides × (share seen − published share) ÷ (strength in sides + Σ sides)"
            ),
            source: text!(
                "Normal model with a conjugate prior: Gelman et al., Bayesian Data Analysis, 3rd ed., 3.3 and 3.6 (from memory). The strength is an estimate that you can set."
            ),
        },
        Step {
            title: text!("Numbers"),
            words: text!(
                "All amounts are exact decimals. They are rounded once, where they are shown; amounts to the cent are tied by largest remainder, so that totals always agree."
            ),
            formula: text!("1 lb = 0.45359237 kg"),
            source: text!("International yard and pound agreement, 1959."),
        },
    ]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_source_of_the_data_is_named() {
        let catalogue = Catalogue::published().expect("published data");
        let piece = written(&catalogue);
        for source in catalogue.sources() {
            assert!(piece.contains(&source.title), "{}", source.title);
        }
        assert_eq!(piece.matches("formula").count(), all().len());
    }
}
