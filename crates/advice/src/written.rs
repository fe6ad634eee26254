//! An answer as the piece of a page that it is: see [`crate::wire`].

use crate::answer::{Answer, Control, ControlKind, Write};
use crate::block::{Bar, Block, Column, Figure, GridRow, Tone};
use crate::steps::{Steps, button};
use crate::wire::{ENTRY, EVERYTHING, FORGET, WRITES};
use wording::{say, text};

/// The steps that put an answer together.
pub fn answer(answer: &Answer) -> String {
    let mut steps = Steps::default();
    steps.element("div", &[("class", "controls")], |steps| {
        for control in &answer.controls {
            field(steps, answer, control);
        }
    });
    if answer.entries.is_empty() {
        steps.nothing();
    } else {
        let back = [("class", "quiet back"), (FORGET, EVERYTHING)];
        button(&mut steps, &back, text!("Back to plan"));
    }
    let is_busy = if answer.is_final { "false" } else { "true" };
    let around = [
        ("class", "answer"),
        ("aria-live", "polite"),
        ("aria-busy", is_busy),
    ];
    steps.element("div", &around, |steps| {
        for about in &answer.blocks {
            block(steps, about);
        }
    });
    steps.written()
}

/// The steps that put blocks together which no controls belong to.
pub fn blocks(blocks: &[Block]) -> String {
    let mut steps = Steps::default();
    for about in blocks {
        block(&mut steps, about);
    }
    steps.written()
}

/// A control with its label, its unit and what it has to say.
fn field(steps: &mut Steps, answer: &Answer, control: &Control) {
    let id = format!("{}-{}", answer.panel.id(), control.id);
    let note = format!("{id}-note");
    let typed = answer.entries.get(&control.id);
    let text = typed.unwrap_or(&control.text);
    let mut class = "field".to_owned();
    if control.fault.is_some() {
        class.push_str(" has-fault");
    }
    if typed.is_some() {
        class.push_str(" is-moved");
    }
    steps.element("div", &[("class", &class), ("key", &control.id)], |steps| {
        steps.holding("label", &[("for", &id)], &control.label);
        steps.element("div", &[("class", "box")], |steps| {
            let marks = [
                ("id", id.as_str()),
                (ENTRY, &control.id),
                ("aria-describedby", &note),
            ];
            match &control.kind {
                ControlKind::Choice(choices) => select(steps, &marks, choices, text),
                ControlKind::Typed | ControlKind::Slider(_) => {
                    steps.element("input", &marks, |steps| {
                        for attribute in [
                            "type text",
                            "inputmode decimal",
                            "autocomplete off",
                            "enterkeyhint next",
                        ] {
                            steps.step('=', attribute);
                        }
                        steps.step('=', &format!("value {text}"));
                        if control.fault.is_some() {
                            steps.step('=', "aria-invalid true");
                        }
                    });
                    steps.holding("span", &[("class", "unit")], &control.unit);
                }
            }
        });
        if let ControlKind::Slider([low, high, by]) = &control.kind {
            let name = say!("{label}, slider", control.label);
            let value = text.replace(',', ".");
            steps.empty(
                "input",
                &[
                    ("class", "slider"),
                    ("type", "range"),
                    ("aria-label", &name),
                    ("min", low),
                    ("max", high),
                    ("step", by),
                    (ENTRY, &control.id),
                    ("value", &value),
                ],
            );
        }
        steps.element(
            "p",
            &[("class", "note"), ("id", &note)],
            |steps| match &control.fault {
                Some(fault) => steps.element("span", &[("class", "fault")], |steps| {
                    steps.holding("span", &[("aria-hidden", "true")], "✕ ");
                    steps.text(fault);
                }),
                None => steps.text(&control.hint),
            },
        );
        if typed.is_some() {
            let name = say!("{label}: back to plan", control.label);
            let back = [
                ("class", "quiet"),
                (FORGET, control.id.as_str()),
                ("aria-label", &name),
            ];
            button(steps, &back, text!("Back to plan"));
        } else {
            steps.nothing();
        }
    });
}

/// A select. What is in force is set as a property too: the attribute of an
/// option does nothing any more once a person has chosen another.
fn select(steps: &mut Steps, marks: &[(&str, &str)], choices: &[(String, String)], text: &str) {
    steps.element("select", marks, |steps| {
        let in_force = choices.iter().position(|(value, _)| value == text);
        steps.step('=', &format!("selectedIndex {}", in_force.unwrap_or(0)));
        for (index, (value, name)) in choices.iter().enumerate() {
            steps.element("option", &[("value", value)], |steps| {
                if Some(index) == in_force {
                    steps.step('=', "selected selected");
                }
                steps.text(name);
            });
        }
    });
}

/// A piece of an answer.
fn block(steps: &mut Steps, block: &Block) {
    match block {
        Block::Text(tone, text) => sentence(steps, *tone, text),
        Block::Figures(figures) => steps.element("dl", &[("class", "findings")], |steps| {
            for about in figures {
                figure(steps, about);
            }
        }),
        Block::Table(caption, heads, rows) => steps.element("div", &[], |steps| {
            steps.holding("p", &[("class", "caption")], caption);
            table(steps, caption, heads, rows);
        }),
        Block::FoldedTable(caption, heads, rows) => {
            steps.element("details", &[("class", "fold")], |steps| {
                steps.holding("summary", &[], caption);
                table(steps, caption, heads, rows);
            });
        }
        Block::Bars(caption, base, about) => bars(steps, caption, *base, about),
        Block::Columns(caption, ends, about) => columns(steps, caption, ends, about),
        Block::Grid(caption, names, heads, rows) => grid(steps, caption, names, heads, rows),
        Block::Offer(label, writes) => {
            let writes = written(writes);
            button(steps, &[("class", "offer"), (WRITES, &writes)], label);
        }
    }
}

/// What an offer writes, as a draft takes it over.
fn written(writes: &[Write]) -> String {
    let mut text = form_urlencoded::Serializer::new(String::new());
    for write in writes {
        match write {
            Write::Field(id, typed) => text.append_pair(id, typed),
            Write::GrassPercent(percent) => {
                text.append_pair("draft.grass-percent", &percent.to_string())
            }
            Write::Way(part, way) => text.append_pair(&format!("way.{part}"), way),
            // It is such a text already, and all there is.
            Write::Draft(whole) => return whole.clone(),
        };
    }
    text.finish()
}

fn sentence(steps: &mut Steps, tone: Tone, text: &str) {
    let (class, sign) = match tone {
        Tone::Finding => ("finding", ""),
        Tone::Note => ("note", ""),
        Tone::Trouble => ("fault", "✕ "),
    };
    steps.element("p", &[("class", class)], |steps| {
        if !sign.is_empty() {
            steps.holding("span", &[("aria-hidden", "true")], sign);
        }
        steps.text(text);
    });
}

fn figure(steps: &mut Steps, figure: &Figure) {
    steps.element("div", &[], |steps| {
        steps.holding("dt", &[], &figure.label);
        steps.element("dd", &[], |steps| {
            steps.text(&figure.text);
            if !figure.beside.is_empty() {
                steps.text(" ");
                steps.holding("small", &[], &figure.beside);
            }
        });
    });
}

fn heads(steps: &mut Steps, heads: &[String]) {
    for head in heads {
        // What heads nothing is no heading.
        if head.is_empty() {
            steps.empty("td", &[]);
        } else {
            steps.holding("th", &[("scope", "col")], head);
        }
    }
}

/// What scrolls sideways on its own, never the page.
fn scrolling(steps: &mut Steps, caption: &str, content: impl FnOnce(&mut Steps)) {
    let around = [
        ("class", "scroll"),
        ("tabindex", "0"),
        ("role", "region"),
        ("aria-label", caption),
    ];
    steps.element("div", &around, content);
}

/// A table. Its caption stands outside what scrolls, so that it does not
/// scroll away.
fn table(steps: &mut Steps, caption: &str, head: &[String], rows: &[Vec<String>]) {
    scrolling(steps, caption, |steps| {
        let marks = [("class", "answers"), ("aria-label", caption)];
        steps.element("table", &marks, |steps| {
            steps.element("thead", &[], |steps| {
                steps.element("tr", &[], |steps| heads(steps, head));
            });
            steps.element("tbody", &[], |steps| {
                for row in rows {
                    steps.element("tr", &[], |steps| {
                        for (index, cell) in row.iter().enumerate() {
                            if index == 0 {
                                steps.holding("th", &[("scope", "row")], cell);
                            } else {
                                steps.holding("td", &[], cell);
                            }
                        }
                    });
                }
            });
        });
    });
}

/// A grid says in each cell whether the side pays there, in colour and in a
/// sign.
fn grid(
    steps: &mut Steps,
    caption: &str,
    [across, down]: &[String; 2],
    head: &[String],
    rows: &[GridRow],
) {
    let grid_table = |steps: &mut Steps| {
        steps.element("thead", &[], |steps| {
            steps.element("tr", &[], |steps| {
                steps.empty("td", &[]);
                let width = head.len().to_string();
                steps.holding("th", &[("scope", "colgroup"), ("colspan", &width)], across);
            });
            steps.element("tr", &[], |steps| {
                steps.holding("th", &[("scope", "col")], down);
                heads(steps, head);
            });
        });
        steps.element("tbody", &[], |steps| {
            for row in rows {
                steps.element("tr", &[], |steps| {
                    steps.holding("th", &[("scope", "row")], &row.label);
                    for cell in &row.cells {
                        let (class, sign) = if cell.pays {
                            ("pays", "✓")
                        } else {
                            ("falls-short", "✕")
                        };
                        steps.element("td", &[("class", class)], |steps| {
                            steps.holding("span", &[("class", "sign")], sign);
                            steps.text(&cell.text);
                        });
                    }
                });
            }
        });
    };
    steps.element("div", &[], |steps| {
        steps.holding("p", &[("class", "caption")], caption);
        scrolling(steps, caption, |steps| {
            let marks = [("class", "grid"), ("aria-label", caption)];
            steps.element("table", &marks, grid_table);
        });
    });
}

/// A drawing, of which the table or the texts beside it say the same.
fn drawing(steps: &mut Steps, view: &str, content: impl FnOnce(&mut Steps)) {
    let marks = [
        ("viewBox", view),
        ("preserveAspectRatio", "none"),
        ("aria-hidden", "true"),
    ];
    steps.element("svg", &marks, content);
}

/// Bars about a base line, one row each.
fn bars(steps: &mut Steps, caption: &str, base: u16, bars: &[Bar]) {
    steps.element("figure", &[("class", "bars")], |steps| {
        steps.holding("figcaption", &[], caption);
        steps.element("ul", &[], |steps| {
            for bar in bars {
                steps.element("li", &[], |steps| bar_row(steps, base, bar));
            }
        });
    });
}

fn bar_row(steps: &mut Steps, base: u16, bar: &Bar) {
    steps.holding("span", &[("class", "name")], &bar.label);
    drawing(steps, "0 0 1000 24", |steps| {
        for (class, end) in ["low", "high"].into_iter().zip(bar.ends) {
            let marks = [
                ("class", class),
                ("x", &end.min(base).to_string()),
                ("y", "4"),
                ("height", "16"),
                ("width", &end.abs_diff(base).to_string()),
            ];
            steps.empty("rect", &marks);
        }
        let x = base.to_string();
        steps.empty("line", &[("x1", &x), ("x2", &x), ("y1", "0"), ("y2", "24")]);
    });
    steps.element("span", &[("class", "ends")], |steps| {
        for text in &bar.texts {
            steps.holding("span", &[], text);
        }
    });
}

/// Columns side by side; those in which the side does not pay are hatched by
/// an outline as well as by their colour.
fn columns(steps: &mut Steps, caption: &str, ends: &[String; 2], columns: &[Column]) {
    let width = columns.len().max(1) * 100;
    steps.element("figure", &[("class", "columns")], |steps| {
        steps.holding("figcaption", &[], caption);
        drawing(steps, &format!("0 0 {width} 1000"), |steps| {
            for (index, column) in columns.iter().enumerate() {
                let class = if column.falls_short {
                    "falls-short"
                } else {
                    "pays"
                };
                let marks = [
                    ("class", class),
                    ("x", &(index * 100 + 5).to_string()),
                    ("width", "90"),
                    ("y", &1000_u16.saturating_sub(column.height).to_string()),
                    ("height", &column.height.to_string()),
                ];
                steps.empty("rect", &marks);
            }
        });
        steps.element("p", &[("class", "ends")], |steps| {
            for end in ends {
                steps.holding("span", &[], end);
            }
        });
    });
}
