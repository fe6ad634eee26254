//! Which plan is best, what it changes, and what that is worth.

use std::collections::BTreeSet;
use wording::{say, text};

use carcass::{Kind, PartId, ProductId};
use decision::best_plan::{
    BestPlan, BestPlanError, Change, Clash, Findings, LeastGrind, Limit, Limits, Objective,
    Outcome, PlanFigures, Question as Asked, best_plan,
};
use notation::{minutes, money};
use quantity::{Decimal, Money, Rounding};

use crate::answer::Write;
use crate::block::{Block, Figure, Tone};
use crate::form::{Form, Label};
use crate::question::Question;

/// The caution that the back bone of older cattle raises.
const BACK_BONE: &str = "vertebral-column";

/// The answer.
///
/// # Errors
/// As [`best_plan()`].
pub fn answer(question: &Question, form: &mut Form) -> Result<Vec<Block>, BestPlanError> {
    let case = &question.case;
    let objective = objective(form);
    let limits = limits(question, form);
    let asked = Asked {
        objective,
        limits,
        ..Asked::default()
    };
    let best = best_plan(case, &asked)?;
    Ok(match &best.outcome {
        Outcome::Found(findings) => found(question, &best, findings),
        Outcome::Clash(clash) => clashing(question, clash),
        Outcome::CutOff => vec![Block::Text(
            Tone::Trouble,
            text!("The search was cut off before it was done: set fewer limits.").to_owned(),
        )],
    })
}

fn objective(form: &mut Form) -> Objective {
    let chosen = form.choice(
        Label {
            id: "objective",
            name: text!("Best is"),
            hint: text!("What is to be greatest."),
        },
        vec![
            ("profit".to_owned(), text!("Most left over").to_owned()),
            (
                "per-hour".to_owned(),
                text!("Most for an hour at the bench").to_owned(),
            ),
        ],
    );
    match chosen.as_str() {
        "per-hour" => Objective::ProfitPerBenchHour,
        _ => Objective::Profit,
    }
}

fn limits(question: &Question, form: &mut Form) -> Limits {
    let catalogue = question.case.catalogue;
    let label = |id, name, hint| Label { id, name, hint };
    let mut limits = Limits {
        bench: form.optional_minutes(label(
            "bench",
            text!("Bench, at most"),
            text!("Empty: no limit."),
        )),
        saw: form.optional_minutes(label(
            "saw",
            text!("Saw, at most"),
            text!("Empty: no limit."),
        )),
        ..Limits::default()
    };
    if let Some(weight) = form.optional_mass(label(
        "grind",
        text!("Grind, at least"),
        text!("Empty: any."),
    )) {
        limits.grind = Some(LeastGrind {
            products: grinds(question),
            weight,
        });
    }
    let is_older = question.case.deal.age.counts_as_older();
    let mut bone = vec![
        (
            "closed".to_owned(),
            text!("Leave out bone-in back bone").to_owned(),
        ),
        (
            "open".to_owned(),
            text!("Allow it: cleared by the inspector").to_owned(),
        ),
    ];
    if !is_older {
        bone.reverse();
    }
    let bone = form.choice(
        label(
            "back-bone",
            text!("Back bone"),
            text!(
                "From cattle of 30 months and over, or of unknown age, it is not sold unless the \
             inspector has cleared it."
            ),
        ),
        bone,
    );
    if bone == "closed" {
        limits.close_caution(catalogue, BACK_BONE);
    }
    wishes(question, form, &mut limits);
    limits
}

/// What is wished of single cuts: one is shown at a time, all are kept.
fn wishes(question: &Question, form: &mut Form, limits: &mut Limits) {
    let catalogue = question.case.catalogue;
    let cuts: Vec<(ProductId, &carcass::Product)> = catalogue
        .products()
        .filter(|(_, product)| product.kind == Kind::Cut)
        .collect();
    let chosen = form.choice(
        Label {
            id: "of",
            name: text!("Wishes for"),
            hint: text!("Set them below; wishes for other cuts stay."),
        },
        cuts.iter()
            .map(|(_, product)| (product.id.clone(), product.name.clone()))
            .collect(),
    );
    for (id, product) in cuts {
        form.shown(product.id == chosen, |form| {
            let wish = form.choice(
                Label {
                    id: &format!("wish-{}", product.id),
                    name: text!("This cut"),
                    hint: "",
                },
                [
                    ("any", text!("May be there")),
                    ("must", text!("Must be there")),
                    ("must-not", text!("Must not be there")),
                ]
                .map(|(id, name)| (id.to_owned(), name.to_owned()))
                .into(),
            );
            match wish.as_str() {
                "must" => {
                    limits.must.insert(id);
                }
                "must-not" => {
                    limits.must_not.insert(id);
                }
                _ => {}
            }
            let most = form.optional_mass(Label {
                id: &format!("most-{}", product.id),
                name: text!("The counter sells"),
                hint: text!("Of this cut, at most. Empty: any."),
            });
            if let Some(most) = most {
                limits.most.insert(id, most);
            }
        });
    }
}

/// What is made of lean trim.
fn grinds(question: &Question) -> BTreeSet<ProductId> {
    let catalogue = question.case.catalogue;
    catalogue
        .ways()
        .flat_map(|(_, way)| &way.outputs)
        .filter(|output| output.fat.is_some())
        .filter_map(|output| match output.output {
            carcass::Output::Product(product) => Some(product),
            carcass::Output::Part(_) => None,
        })
        .filter(|product| catalogue[*product].kind == Kind::Cut)
        .collect()
}

fn found(question: &Question, best: &BestPlan, findings: &Findings) -> Vec<Block> {
    let (now, then) = (&best.present, &findings.best);
    let mut blocks = vec![
        Block::Text(Tone::Finding, finding(now, findings)),
        Block::Figures(vec![
            figure(text!("Left over"), now, then, |plan| money(plan.profit())),
            figure(text!("Bench"), now, then, |plan| time(plan.bench)),
            figure(text!("Saw"), now, then, |plan| time(plan.saw)),
            figure(text!("Walk-away price"), now, then, |plan| {
                question.offer(plan.verdict.walk_away)
            }),
        ]),
    ];
    if !then.keeps_limits {
        blocks.push(Block::Text(
            Tone::Trouble,
            text!(
                "Priced exactly, with grind made to classes, this plan does not keep every limit."
            )
            .to_owned(),
        ));
    }
    if !findings.changes.is_empty() {
        blocks.push(changes(question, &findings.changes));
        blocks.push(Block::Offer(
            text!("Cut it this way").to_owned(),
            writes(question, &findings.changes),
        ));
    }
    if let Some(worth) = findings.one_more_bench_hour {
        blocks.push(Block::Text(
            Tone::Finding,
            if worth > Money::ZERO {
                say!(
                    "One more hour at the bench would be worth {worth}.",
                    money(worth)
                )
            } else {
                text!("One more hour at the bench would bring nothing.").to_owned()
            },
        ));
    }
    blocks.push(next_best(question, findings));
    blocks.push(Block::Text(Tone::Note, proof(best, findings)));
    blocks
}

fn finding(now: &PlanFigures, findings: &Findings) -> String {
    let then = &findings.best;
    if findings.changes.is_empty() {
        return text!("This plan is the best there is.").to_owned();
    }
    let more = then.profit() - now.profit();
    let count = findings.changes.len();
    let gain = if more < Money::ZERO {
        say!(
            "The best plan within these limits leaves {less} less than this one, which does not keep \
             them.",
            money(-more)
        )
    } else {
        say!(
            "The best plan leaves {more} more than this one.",
            money(more)
        )
    };
    let changed = if count == 1 {
        text!("It cuts 1 part another way.").to_owned()
    } else {
        say!("It cuts {count} parts another way.", count)
    };
    format!("{gain} {changed}")
}

fn figure(
    label: &str,
    now: &PlanFigures,
    then: &PlanFigures,
    of: impl Fn(&PlanFigures) -> String,
) -> Figure {
    Figure {
        label: label.to_owned(),
        text: of(then),
        beside: say!("plan {now}", of(now)),
    }
}

fn time(time: quantity::Minutes) -> String {
    format!("{} min", minutes(time))
}

fn changes(question: &Question, changes: &[Change]) -> Block {
    let catalogue = question.case.catalogue;
    let rows = changes
        .iter()
        .map(|change| {
            let from: Vec<&str> = change
                .from
                .iter()
                .map(|(way, _)| catalogue[*way].name.as_str())
                .collect();
            let effect = |of: fn(&decision::best_plan::Effect) -> String| {
                change.effect.as_ref().map_or_else(|| "–".to_owned(), of)
            };
            vec![
                part_name(question, change.part),
                if from.is_empty() {
                    text!("not reached").to_owned()
                } else {
                    from.join(text!(" and "))
                },
                catalogue[change.to].name.clone(),
                effect(|effect| money(effect.profit)),
                effect(|effect| minutes(effect.bench)),
                effect(|effect| minutes(effect.saw)),
            ]
        })
        .collect();
    let heads = [
        text!("Part"),
        text!("Now"),
        text!("Then"),
        text!("Brings"),
        text!("Bench min"),
        text!("Saw min"),
    ];
    Block::Table(
        text!("What it changes; each change alone, all others kept, so they need not sum")
            .to_owned(),
        heads.map(str::to_owned).into(),
        rows,
    )
}

fn part_name(question: &Question, part: PartId) -> String {
    question.case.catalogue[part].name.clone()
}

fn writes(question: &Question, changes: &[Change]) -> Vec<Write> {
    let catalogue = question.case.catalogue;
    changes
        .iter()
        .map(|change| {
            Write::Way(
                catalogue[change.part].id.clone(),
                catalogue[change.to].id.clone(),
            )
        })
        .collect()
}

/// The next-best plans by what they do otherwise than the best.
fn next_best(question: &Question, findings: &Findings) -> Block {
    let catalogue = question.case.catalogue;
    let rows = findings
        .next
        .iter()
        .map(|next| {
            let otherwise: Vec<String> = catalogue
                .parts()
                .filter_map(|(part, data)| {
                    let then = next.plan.ways_of(catalogue, part);
                    (then != findings.best.plan.ways_of(catalogue, part)).then(|| {
                        let ways: Vec<&str> = then
                            .iter()
                            .map(|(way, _)| catalogue[*way].name.as_str())
                            .collect();
                        format!("{}: {}", data.name, ways.join(text!(" and ")))
                    })
                })
                .collect();
            vec![
                otherwise.join("; "),
                money(next.profit()),
                minutes(next.bench),
                minutes(next.saw),
            ]
        })
        .collect();
    let heads = [
        text!("Otherwise than the best"),
        text!("Left over"),
        text!("Bench min"),
        text!("Saw min"),
    ];
    Block::FoldedTable(
        text!("The next-best plans").to_owned(),
        heads.map(str::to_owned).into(),
        rows,
    )
}

fn proof(best: &BestPlan, findings: &Findings) -> String {
    let plans = counted(best.plans);
    if findings.proof.is_proven {
        say!(
            "Proven: none of the {plans} plans within the limits is better.",
            plans
        )
    } else {
        say!(
            "Of {plans} plans, one that is better by up to {gap} may have been missed.",
            plans,
            money(findings.proof.gap)
        )
    }
}

/// A count, rounded where it is beyond counting.
fn counted(count: u128) -> String {
    if count < 1_000_000 {
        return notation::number(
            Decimal::from(u32::try_from(count).unwrap_or(u32::MAX)),
            0,
            Rounding::HalfEven,
        );
    }
    let digits = count.to_string();
    let superscript: String = (digits.len() - 1)
        .to_string()
        .chars()
        .filter_map(|digit| "⁰¹²³⁴⁵⁶⁷⁸⁹".chars().nth(digit.to_digit(10)? as usize))
        .collect();
    let (first, rest) = digits.split_at(1);
    let second = rest.chars().next().unwrap_or('0');
    say!(
        "about {first}.{second} × 10{superscript}",
        first,
        second,
        superscript
    )
}

fn clashing(question: &Question, clash: &Clash) -> Vec<Block> {
    let mut limits: Vec<String> = clash
        .limits
        .iter()
        .map(|limit| limit_name(question, *limit))
        .collect();
    // Every way with the back bone is a limit of its own, for one wish.
    limits.dedup();
    let mut blocks = vec![Block::Text(
        Tone::Trouble,
        say!(
            "No plan keeps all of this: {limits}. Loosen one of them.",
            limits.join("; ")
        ),
    )];
    if !clash.is_minimal {
        blocks.push(Block::Text(
            Tone::Note,
            text!("Not all of these may be needed for the clash.").to_owned(),
        ));
    }
    blocks
}

fn limit_name(question: &Question, limit: Limit) -> String {
    match limit {
        Limit::Bench => text!("the time at the bench").to_owned(),
        Limit::Saw => text!("the time at the saw").to_owned(),
        Limit::Grind => text!("the least of grind").to_owned(),
        Limit::Most(product) => say!("the most of {name}", question.name(product)),
        Limit::Must(product) => say!("{name} must be there", question.name(product)),
        Limit::MustNot(product) => say!("{name} must not be there", question.name(product)),
        Limit::Closed(_) => text!("bone-in back bone is left out").to_owned(),
    }
}
