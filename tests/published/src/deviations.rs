//! The page of deviations: how far the plans at grain-fed lie from published
//! cut-outs, as a text with tables. It is written by the figures that the
//! checks hold, so it says what they hold.

use carcass::{Breakdown, Catalogue, Kind, Stock};
use quantity::Decimal;

use crate::cut_outs::{
    BONE_IN_LINES, BONELESS_LINES, HeldLine, PRIMAL_SOURCES, PRIMALS, Steer, held_lines,
};
use crate::other_cut_outs::{
    GRIND_HEAVY_CARCASS, GRIND_HEAVY_LINES, SUBPRIMALS, TRIMMED_PRIMALS, subprimal_saleable,
};
use crate::printed::shown;
use crate::sides::{broken_down, catalogue, percent_of_kinds};

/// The text of the page.
pub fn page() -> String {
    let catalogue = catalogue();
    let sides = Sides {
        boneless: broken_down(&catalogue, "boneless", Stock::GRAIN),
        bone_in: broken_down(&catalogue, "bone-in", Stock::GRAIN),
        grass: broken_down(&catalogue, "boneless", Stock::GRASS),
    };
    [
        HEAD.to_owned(),
        primals(&catalogue, &sides),
        steer_lines(&catalogue, &sides),
        totals(&catalogue, &sides),
        trimmed_primals(&catalogue, &sides),
        grind_heavy(&catalogue, &sides),
        subprimals(&catalogue, &sides),
    ]
    .join("\n")
}

/// The sides that are held against the tables, of one hundred kilograms each.
struct Sides {
    boneless: Breakdown,
    bone_in: Breakdown,
    grass: Breakdown,
}

const HEAD: &str = "\
# Published checks

Figures that others published, held against the core, natively and in a browser.
One file of `tests/` for each topic; each check names its source and how well it
is known: read in the source (R), derived from it (D), from memory (M). A
published value is never adjusted.

```sh
cargo test -p published-checks                                                # every check
UPDATE_GOLDENS=1 cargo test -p published-checks --test goldens --test spread  # freeze new figures
UPDATE_DEVIATIONS=1 cargo test -p published-checks --test deviations          # write this page anew
```

Which changes of the code the tests notice is in [MUTANTS.md](MUTANTS.md).

## How far the plans lie from published cut-outs

This page is written by the tests and fails them when it is out of date. All
figures are percent of the chilled side, grain-fed, unless a table says
otherwise. Much of the data derives from these very tables, so agreement shows
that it was carried over and combined well, not that a given animal will cut so.
";

fn primals(catalogue: &Catalogue, sides: &Sides) -> String {
    let mut table = TextTable::new(
        &[
            &["part", "ours", "from", "to", "off the mean"][..],
            &PRIMAL_SOURCES,
        ]
        .concat(),
    );
    for primal in PRIMALS {
        let ours = primal.ours(catalogue, &sides.boneless);
        let published = primal.published();
        let known: Vec<Decimal> = published.into_iter().flatten().collect();
        let mean = known.iter().sum::<Decimal>() / Decimal::from(known.len());
        let mut cells = vec![
            primal.name.to_owned(),
            figure(ours),
            figure(known.iter().copied().min().unwrap_or_default()),
            figure(known.iter().copied().max().unwrap_or_default()),
            signed(ours - mean),
        ];
        cells.extend(published.map(|share| share.map_or_else(String::new, figure)));
        table.line(&cells);
    }
    format!(
        "### Primals\n\nBoth plans break the side alike. Held: every primal lies within the published\nrange. Meat-board chart “Beef Carcass Breakdown”, Beef Checkoff 2013, Kansas\nState MF3395, Angus Association 2007, Vaughan (all R).\n\n{}",
        table.text
    )
}

fn steer_lines(catalogue: &Catalogue, sides: &Sides) -> String {
    let bone_in = held_lines(&Steer::bone_in(), &BONE_IN_LINES, catalogue, &sides.bone_in);
    let boneless = held_lines(
        &Steer::boneless(),
        &BONELESS_LINES,
        catalogue,
        &sides.boneless,
    );
    format!(
        "### Bone-in plan against the meat-board chart\n\nHeld: every line within a quarter of what is published. Left out: grind, fat and\nbone, of which the chart trims far less, and its boneless sirloin steak.\n\n{}\n### Boneless plan against Beef Checkoff\n\nHeld: every line within a quarter. Its loin and round were not read.\n\n{}",
        line_table(&bone_in),
        line_table(&boneless)
    )
}

fn line_table(lines: &[HeldLine]) -> String {
    let mut table = TextTable::new(&["primal", "line", "ours", "published", "ours ÷ published"]);
    for line in lines {
        table.line(&[
            line.primal.to_owned(),
            line.item.to_owned(),
            figure(line.ours),
            figure(line.published),
            figure(line.ratio()),
        ]);
    }
    table.text
}

fn totals(catalogue: &Catalogue, sides: &Sides) -> String {
    let cuts = |side: &Breakdown| percent_of_kinds(catalogue, side, &[Kind::Cut]);
    let mut table = TextTable::new(&["what", "ours", "published", "source"]);
    for (what, ours, published, source) in [
        (
            "saleable, boneless plan",
            cuts(&sides.boneless),
            "62–70, held",
            "65 Nebraska extension, 70 Univ. Minnesota DJ-0598 (R)",
        ),
        (
            "saleable, bone-in plan",
            cuts(&sides.bone_in),
            "68–80, held",
            "79.6 meat-board chart (R)",
        ),
        (
            "fat, boneless plan",
            percent_of_kinds(catalogue, &sides.boneless, &[Kind::Fat]),
            "20, held within 2",
            "Nebraska extension (R)",
        ),
        (
            "bone and losses, boneless plan",
            percent_of_kinds(catalogue, &sides.boneless, &[Kind::Bone, Kind::Loss]),
            "15, held within 2",
            "Nebraska extension (R)",
        ),
    ] {
        table.line(&[
            what.to_owned(),
            figure(ours),
            published.to_owned(),
            source.to_owned(),
        ]);
    }
    format!(
        "### What the side gives\n\nA side that Washington State Department of Agriculture (R) cuts partly bone-in\ngives 68.6, between the two plans; held.\n\n{}",
        table.text
    )
}

fn trimmed_primals(catalogue: &Catalogue, sides: &Sides) -> String {
    let mut table = TextTable::new(&["primal", "boneless plan", "bone-in plan", "published"]);
    for primal in &TRIMMED_PRIMALS {
        table.line(&[
            primal.name.to_owned(),
            figure(primal.ours(catalogue, &sides.boneless)),
            figure(primal.ours(catalogue, &sides.bone_in)),
            figure(primal.published()),
        ]);
    }
    format!(
        "### Roasts and steaks alone\n\nClosely trimmed, Univ. Missouri from The Meat We Eat, 14th ed. (R); what is ground\nor stewed is left out on both sides. Held: chuck to round sum to 39,\nbetween the two plans. The source does not say what it cuts bone-in, and its\nplate, flank and brisket are more than twice what our plans leave whole.\n\n{}",
        table.text
    )
}

fn grind_heavy(catalogue: &Catalogue, sides: &Sides) -> String {
    let mut table = TextTable::new(&["line", "ours", "published", "apart"]);
    for line in &GRIND_HEAVY_LINES {
        let ours = line.ours.percent(catalogue, &sides.boneless);
        let published = line.published();
        table.line(&[
            line.item.to_owned(),
            figure(ours),
            figure(published),
            signed(ours - published),
        ]);
    }
    format!(
        "### A carcass cut for grind\n\n{GRIND_HEAVY_CARCASS} lb of carcass, Growing Local, Univ. Nebraska Press 2014 (R), against the\nboneless plan. Held: its lines close to its printed 494 lb, and its ribeye agrees\nwithin a quarter. The rest differs with the plan: it grinds more than a third of\nthe carcass.\n\n{}",
        table.text
    )
}

fn subprimals(catalogue: &Catalogue, sides: &Sides) -> String {
    let mut table = TextTable::new(&["subprimal", "grain-fed", "Choice", "grass-fed", "Select"]);
    for subprimal in &SUBPRIMALS {
        let ours = |side| figure(subprimal_saleable(catalogue, side, subprimal.part));
        table.line(&[
            subprimal.name.to_owned(),
            ours(&sides.boneless),
            subprimal.choice.to_owned(),
            ours(&sides.grass),
            subprimal.select.to_owned(),
        ]);
    }
    format!(
        "### Saleable share of one subprimal, boneless plan\n\nPercent of the subprimal. Texas A&M cutting tests, Voges et al. 2006, Meat Science\n73:116–131 (R), of boxed subprimals, Choice and the leaner Select. Held: leaner\ngives more, ours as theirs, and the top blade agrees within two points. The others\nlie above the published figures, since our parts leave most of their fat at the\nbreak before them: not like with like.\n\n{}",
        table.text
    )
}

fn figure(number: Decimal) -> String {
    format!("{:.2}", shown(number))
}

fn signed(number: Decimal) -> String {
    format!("{:+.2}", shown(number))
}

/// A table that grows line by line.
struct TextTable {
    text: String,
}

impl TextTable {
    fn new(header: &[&str]) -> Self {
        let mut table = Self {
            text: String::new(),
        };
        table.line(header);
        table.line(&vec!["---"; header.len()]);
        table
    }

    fn line(&mut self, cells: &[impl AsRef<str>]) {
        self.text.push('|');
        for cell in cells {
            self.text.push(' ');
            self.text.push_str(cell.as_ref());
            self.text.push_str(" |");
        }
        self.text.push('\n');
    }
}
