//! Room for a thumb, and nothing beyond the edge of the screen.

use anyhow::{Result, ensure};
use browser_tests::{Feature, Page, Place, Screen, Side, needs, visit};
use serde_json::json;
use wording::Language;

use crate::every_place::{fill, in_every_place, unfold};

/// The side of the square that every target must cover, in CSS pixels: more than WCAG 2.2 asks for
/// (44 in success criterion 2.5.5), since the thumb is wet.
const TARGET: u32 = 48;

/// Holds every control in sight against the room that it needs. A link within a sentence is as tall
/// as its line (as success criterion 2.5.8 excepts it); what is ticked is tapped on its label too.
pub(crate) async fn has_room(page: &Page) -> Result<()> {
    let measured = page
        .run(
            "const [target] = arguments;
             const controls = [...document.querySelectorAll('input, select, textarea, button, summary, a')]
                 .filter((control) => control.checkVisibility());
             const isInSentence = (link) => link.tagName === 'A'
                 && link.parentElement.textContent.trim() !== link.textContent.trim();
             const size = (control) => {
                 const boxes = [control, ...(control.matches('[type=checkbox], [type=radio]')
                     ? control.labels : [])].map((part) => part.getBoundingClientRect());
                 const side = (from, to) => Math.max(...boxes.map((box) => box[to]))
                     - Math.min(...boxes.map((box) => box[from]));
                 return [side('left', 'right'), side('top', 'bottom')];
             };
             return {
                 count: controls.length,
                 small: controls.filter((control) => !isInSentence(control)).map((control) => {
                     const [width, height] = size(control);
                     // A hundredth is lost where a layout rounds.
                     return Math.min(width, height) < target - 0.01
                         ? `${width}×${height}: ${control.outerHTML.slice(0, 160)}` : null;
                 }).filter((small) => small !== null),
             }",
            json!([TARGET]),
        )
        .await?;
    ensure!(
        measured["count"].as_u64().is_some_and(|count| count > 5),
        "{measured}"
    );
    ensure!(
        measured["small"] == json!([]),
        "{} px: {:#}",
        page.screen().width(),
        measured["small"]
    );
    Ok(())
}

#[test]
fn every_control_has_room_for_a_thumb() {
    if !needs(&[Feature::ExactScreen]) {
        return;
    }
    for screen in Screen::ALL {
        // What is longest is in the way on the narrowest screen first.
        let languages: &[Language] = match screen {
            Screen::Narrow => &Language::ALL,
            _ => &[Language::English],
        };
        visit(screen, async |page| {
            fill(page).await?;
            in_every_place(page, languages, async |_| {
                has_room(page).await?;
                beyond_the_edge(page).await
            })
            .await
        });
    }
}

/// What reaches beyond the right edge of the screen, of its place, of its field or of its line of
/// the sheet, and what is typed and cut off, unless it is longer than 430.25.
pub(crate) async fn beyond_the_edge(page: &Page) -> Result<()> {
    let beyond = page
        .run(
            "const tag = (element) => element.outerHTML.slice(0, 120);
             const right = (element) => element.getBoundingClientRect().right - 0.5;
             const endOfText = (element) => {
                 const range = document.createRange();
                 range.selectNodeContents(element);
                 return range.getBoundingClientRect().right - 0.5;
             };
             const root = document.documentElement;
             const scrolls = (around) => around !== null
                 && (/auto|scroll/.test(getComputedStyle(around).overflowX) || scrolls(around.parentElement));
             // On a narrow screen the headings of the sheet are for screen readers only; a wide
             // table scrolls in a box of its own, which is looked at in its place.
             const seen = [...document.querySelectorAll('main *')]
                 .filter((element) => element.checkVisibility() && !element.closest('thead')
                     && !scrolls(element.parentElement));
             const wide = [...document.querySelectorAll('body *')]
                 .filter((element) => element.checkVisibility()
                     && Math.max(right(element), endOfText(element)) > arguments[0]);
             return {
                 screen: root.scrollWidth > root.clientWidth
                     ? wide.filter((element) => !wide.some((inner) => inner.parentElement === element))
                         .map(tag).concat(`${root.scrollWidth} px on ${root.clientWidth}`) : [],
                 outside: seen
                     .filter((element) => ['.place', '.field', '#cost-sheet tr'].some((around) => {
                         const outer = element.parentElement.closest(around);
                         return outer !== null && right(element) > outer.getBoundingClientRect().right;
                     }))
                     .map(tag),
                 cutOff: seen
                     .filter((element) => element.matches('input[type=text]')
                         && element.scrollWidth > element.clientWidth
                         && element.value.length <= 6)
                     .map((element) => `${element.value} in ${element.clientWidth} px: ${tag(element)}`),
             }",
            json!([page.screen().width()]),
        )
        .await?;
    ensure!(
        beyond == json!({ "screen": [], "outside": [], "cutOff": [] }),
        "{} px: {beyond:#}",
        page.screen().width()
    );
    Ok(())
}

#[test]
fn nothing_reaches_beyond_the_edge() {
    if !needs(&[Feature::ExactScreen]) {
        return;
    }
    for screen in Screen::ALL {
        visit(screen, async |page| {
            beyond_the_edge(page).await?;
            page.enter(&Side::default()).await?;
            page.says(&Side::default().figures()?).await?;
            for place in Place::ALL {
                page.go_to(place).await?;
                unfold(page).await?;
                beyond_the_edge(page).await?;
            }
            Ok(())
        });
    }
}

#[test]
fn nothing_reaches_beyond_the_edge_when_decimal_points_were_forgotten() {
    if !needs(&[Feature::ExactScreen]) {
        return;
    }
    let side = Side {
        weight: "19550",
        price: "840",
        labour_rate: "3400",
        plan: "bone-in",
        ..Side::default()
    };
    visit(Screen::Narrow, async |page| {
        page.enter(&side).await?;
        page.says(&side.figures()?).await?;
        beyond_the_edge(page).await?;
        for place in Place::ALL {
            page.go_to(place).await?;
            unfold(page).await?;
            beyond_the_edge(page).await?;
        }
        page.go_to(Place::Side).await?;
        page.type_over("side-weight", "1234567890123456789012345678901")
            .await?;
        page.shows_what("side-weight-note", |text| text.contains("out of range"))
            .await?;
        beyond_the_edge(page).await
    });
}

#[test]
fn a_wide_screen_shows_the_heading_of_every_column() {
    visit(Screen::Wide, async |page| {
        page.enter(&Side::default()).await?;
        page.says(&Side::default().figures()?).await?;
        let headings = page
            .run(
                "const headings = [...document.querySelectorAll('#cost-sheet thead th')];
                 headings[0].scrollIntoView({ block: 'center' });
                 return headings.map((heading) => {
                     const box = heading.getBoundingClientRect();
                     const seen = document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2);
                     return heading === seen ? heading.innerText : `${heading.innerText} is hidden`;
                 })",
                json!([]),
            )
            .await?;
        ensure!(
            headings
                == json!([
                    "Cut",
                    "Weight",
                    "Cost",
                    "Board price",
                    "Margin",
                    "Suggested"
                ]),
            "{headings}"
        );
        Ok(())
    });
}

#[test]
fn a_usual_figure_of_the_sheet_stands_on_one_line() {
    let kilograms = Side {
        plan: "bone-in",
        ..Side::default()
    };
    let pounds = Side {
        weight_unit: "lb",
        weight: "430",
        price: "3.81",
        ..Side::default()
    };
    let dear = Side {
        price: "24",
        ..kilograms
    };
    visit(Screen::Wide, async |page| {
        for side in [kilograms, pounds, dear] {
            page.enter(&side).await?;
            page.says(&side.figures()?).await?;
            let figures = page
                .run(
                    "const texts = [...document.querySelectorAll('#cost-sheet tr[data-cut] td[data-field]')]
                         .filter((cell) => cell.innerText.trim() !== '');
                     // Every line of a text has boxes of its own.
                     const lines = (cell) => {
                         const range = document.createRange();
                         range.selectNodeContents(cell);
                         return new Set([...range.getClientRects()].map((box) => Math.round(box.top))).size;
                     };
                     return {
                         count: texts.length,
                         longest: Math.max(...texts.map((cell) => cell.innerText.length)),
                         broken: texts.filter((cell) => lines(cell) !== 1)
                             .map((cell) => `${cell.dataset.field}: ${cell.innerText} on ${lines(cell)} lines`),
                     }",
                    json!([]),
                )
                .await?;
            // Four figures in each of more than ten rows, some of them as long as “$96.16”.
            ensure!(
                figures["count"].as_u64().is_some_and(|count| count > 40)
                    && figures["longest"]
                        .as_u64()
                        .is_some_and(|longest| longest >= 6),
                "{figures}"
            );
            ensure!(figures["broken"] == json!([]), "{figures:#}");
        }
        Ok(())
    });
}
