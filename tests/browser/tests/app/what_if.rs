//! The place where a plan is questioned.

use std::collections::BTreeMap;

use advice::{Answer, Block, Desk, Panel, Request};
use anyhow::{Context, Result, ensure};
use browser_tests::{Page, Place, Screen, Side, visit};
use carcass::Catalogue;
use notation::Units;
use serde_json::json;
use thirtyfour::By;

/// Opens a panel and waits for its last answer.
async fn open(page: &Page, panel: Panel) -> Result<String> {
    page.tap(By::Css(format!("#{} > summary", panel.id())))
        .await?;
    settled(page, panel).await
}

/// What a panel says once nothing better follows.
async fn settled(page: &Page, panel: Panel) -> Result<String> {
    let seen = page
        .wait(
            &format!("the answer of {}", panel.name()),
            async || said(page, panel).await,
            |said| !said.is_empty(),
        )
        .await?;
    Ok(seen)
}

/// The last answer of a panel as text, nothing while it is worked out.
async fn said(page: &Page, panel: Panel) -> Result<String> {
    let said = page
        .run(
            "const answer = document.querySelector(`#${arguments[0]} > .answer[aria-busy=false]`);
             if (!answer) return '';
             // What is folded away counts too.
             return answer.textContent.replace(/\\s+/g, ' ')",
            json!([panel.id()]),
        )
        .await?;
    Ok(said.as_str().unwrap_or_default().to_owned())
}

/// The answer that this machine gives to the same question.
fn answer(side: &Side, panel: Panel, entries: &[(&str, &str)]) -> Result<Answer> {
    let catalogue = Catalogue::published().map_err(|error| anyhow::anyhow!("{error}"))?;
    let mut desk = Desk::new(catalogue);
    desk.ask(Request {
        panel,
        document: side.document(),
        units: Units::Kilograms,
        entries: entries
            .iter()
            .map(|(id, text)| ((*id).to_owned(), (*text).to_owned()))
            .collect::<BTreeMap<_, _>>(),
    });
    while !desk.is_idle() {
        if let Some(answer) = desk.step()
            && answer.is_final
        {
            return Ok(answer);
        }
    }
    anyhow::bail!("the desk gave no last answer")
}

/// Every text of an answer.
fn texts(answer: &Answer) -> Vec<String> {
    let mut texts = Vec::new();
    for block in &answer.blocks {
        match block {
            Block::Text(_, text) | Block::Offer(text, _) => texts.push(text.clone()),
            Block::Figures(figures) => {
                texts.extend(figures.iter().map(|figure| figure.text.clone()));
            }
            Block::Table(caption, heads, rows) | Block::FoldedTable(caption, heads, rows) => {
                texts.push(caption.clone());
                texts.extend(heads.iter().chain(rows.iter().flatten()).cloned());
            }
            Block::Bars(caption, _, bars) => {
                texts.push(caption.clone());
                texts.extend(bars.iter().flat_map(|bar| bar.texts.clone()));
            }
            Block::Columns(caption, _, _) => texts.push(caption.clone()),
            Block::Grid(caption, names, heads, rows) => {
                texts.push(caption.clone());
                texts.extend(names.iter().chain(heads).cloned());
                texts.extend(
                    rows.iter()
                        .flat_map(|row| row.cells.iter().map(|cell| cell.text.clone())),
                );
            }
        }
    }
    texts
}

/// As the page shows a text.
fn squeezed(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn every_panel_says_in_the_browser_what_it_says_on_this_machine() {
    visit(Screen::Phone, async |page| {
        let side = Side::default();
        page.enter(&side).await?;
        page.says(&side.figures()?).await?;
        page.go_to(Place::WhatIf).await?;
        for panel in Panel::ALL {
            let said = open(page, panel).await?;
            let expected = answer(&side, panel, &[])?;
            for text in texts(&expected) {
                ensure!(
                    squeezed(&said).contains(&squeezed(&text)),
                    "{}: “{text}” is not in “{said}”",
                    panel.name()
                );
            }
        }
        Ok(())
    });
}

#[test]
fn what_is_tried_leaves_the_plan_alone_until_it_is_taken_over_and_can_be_undone() {
    visit(Screen::Phone, async |page| {
        let side = Side::default();
        let planned = side.figures()?;
        page.enter(&side).await?;
        page.go_to(Place::WhatIf).await?;
        open(page, Panel::Trial).await?;

        page.type_over("trial-price", "11.25").await?;
        let tried = Side {
            price: "11.25",
            ..side
        };
        let margin = tried.figures()?.margin;
        page.wait(
            "the margin at the price tried",
            async || said(page, Panel::Trial).await,
            |said| said.contains(&margin),
        )
        .await?;
        page.says(&planned).await?;

        page.tap(By::Css("#trial .offer")).await?;
        page.says(&tried.figures()?).await?;
        page.tap(By::Id("undo")).await?;
        page.says(&planned).await?;

        page.tap(By::Css("#trial > .back")).await?;
        page.wait(
            "the plan",
            async || said(page, Panel::Trial).await,
            |said| said.contains(&planned.margin) && !said.contains(&margin),
        )
        .await?;
        Ok(())
    });
}

#[test]
fn an_answer_that_comes_while_one_types_leaves_the_caret_where_it_is() {
    visit(Screen::Phone, async |page| {
        let side = Side::default();
        page.enter(&side).await?;
        page.go_to(Place::WhatIf).await?;
        open(page, Panel::Trial).await?;
        page.type_over("trial-price", "11").await?;
        for (price, more) in [("11", ".25"), ("11.25", "5")] {
            let margin = Side { price, ..side }.figures()?.margin;
            page.wait(
                "the margin at the price typed so far",
                async || said(page, Panel::Trial).await,
                |said| said.contains(&margin),
            )
            .await?;
            ensure!(page.focus().await? == "trial-price", "the focus is lost");
            page.press(more).await?;
        }
        page.holds("trial-price", "11.255").await
    });
}

#[test]
fn a_slider_moves_its_field_and_the_answer() {
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        page.go_to(Place::WhatIf).await?;
        let before = open(page, Panel::Trial).await?;
        page.run(
            "const slider = document.querySelector('#trial-saleable').closest('.field').querySelector('.slider');
             slider.value = '-5';
             slider.dispatchEvent(new Event('input', { bubbles: true }))",
            json!([]),
        )
        .await?;
        page.holds("trial-saleable", "-5").await?;
        page.wait(
            "another answer",
            async || said(page, Panel::Trial).await,
            |said| !said.is_empty() && *said != before,
        )
        .await?;
        Ok(())
    });
}

#[test]
fn what_cannot_be_read_is_said_at_its_control_and_nothing_else_is_lost() {
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        page.go_to(Place::WhatIf).await?;
        let before = open(page, Panel::Trial).await?;
        page.type_over("trial-minutes", "soon").await?;
        page.wait(
            "a fault at the minutes",
            async || page.is_marked_bad("trial-minutes").await,
            |is_bad| *is_bad,
        )
        .await?;
        page.holds("trial-minutes", "soon").await?;
        ensure!(settled(page, Panel::Trial).await? == before);
        Ok(())
    });
}

#[test]
fn the_best_plan_is_taken_over_in_one_tap_and_undone_in_one() {
    visit(Screen::Phone, async |page| {
        let side = Side {
            plan: "bone-in",
            ..Side::default()
        };
        let planned = side.figures()?;
        page.enter(&side).await?;
        page.says(&planned).await?;
        page.go_to(Place::WhatIf).await?;
        open(page, Panel::BestPlan).await?;
        let best = answer(&side, Panel::BestPlan, &[])?;
        let figures = best.blocks.iter().find_map(|block| match block {
            Block::Figures(figures) => Some(figures),
            _ => None,
        });
        let walk_away = figures
            .and_then(|figures| figures.last())
            .context("a walk-away price")?;

        page.tap(By::Css("#best-plan .offer")).await?;
        page.wait(
            "the walk-away price of the best plan",
            async || page.text("walk-away-price").await,
            |text| {
                text.as_ref()
                    .is_some_and(|text| text.starts_with(&walk_away.text))
            },
        )
        .await?;
        page.tap(By::Id("undo")).await?;
        page.says(&planned).await
    });
}

#[test]
fn a_phone_without_workers_is_told_so_and_keeps_its_verdict() {
    visit(Screen::Phone, async |page| {
        page.run_before_load("delete window.Worker; window.Worker = undefined")
            .await?;
        page.reload().await?;
        let side = Side::default();
        page.enter(&side).await?;
        page.go_to(Place::WhatIf).await?;
        page.tap(By::Css("#trial > summary")).await?;
        page.wait(
            "word that there is no worker",
            async || {
                page.run(
                    "return document.querySelector('#trial [role=alert]')?.innerText ?? ''",
                    json!([]),
                )
                .await
            },
            |text| {
                text.as_str()
                    .is_some_and(|text| text.contains("could not start"))
            },
        )
        .await?;
        page.says(&side.figures()?).await
    });
}

#[test]
fn open_panels_keep_within_the_narrowest_screens() {
    for screen in [Screen::Narrow, Screen::Phone, Screen::Wide] {
        visit(screen, async |page| {
            page.enter(&Side::default()).await?;
            page.go_to(Place::WhatIf).await?;
            for panel in Panel::ALL {
                open(page, panel).await?;
            }
            let widths = page
                .run(
                    "const root = document.documentElement;
                     return [root.scrollWidth, root.clientWidth]",
                    json!([]),
                )
                .await?;
            ensure!(
                widths[0] == widths[1],
                "{widths}: the page scrolls sideways"
            );
            Ok(())
        });
    }
}
