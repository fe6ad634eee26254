//! The cost sheet and the price board.

use anyhow::{Context, Result, ensure};
use browser_tests::{Page, Place, Screen, Side, amount, read_amount, visit};
use quantity::{Decimal, Rounding};
use serde_json::{Value, json};

/// Every row of the sheet: product, weight, cost, price, margin, suggested price, whether the
/// price is marked as a sample.
async fn rows(page: &Page) -> Result<Vec<Value>> {
    let rows = page
        .run(
            "return [...document.querySelectorAll('#cost-sheet tr[data-cut]')].map((row) => {
                 const cell = (field) => row.querySelector(`[data-field=${field}]`);
                 const input = cell('price').querySelector('input');
                 return {
                     cut: row.dataset.cut,
                     weight: cell('weight').innerText,
                     cost: cell('cost').innerText,
                     price: input.value,
                     margin: cell('margin').innerText,
                     suggested: cell('suggested').innerText,
                     looksLikeSample: getComputedStyle(input).fontStyle === 'italic',
                     readsAsSample: input.getAttribute('aria-label').includes('sample'),
                 };
             })",
            json!([]),
        )
        .await?;
    rows.as_array().cloned().context("rows come as an array")
}

fn text<'a>(row: &'a Value, field: &str) -> &'a str {
    row[field].as_str().unwrap_or_default()
}

async fn notice(page: &Page) -> Result<String> {
    let notice = page
        .run(
            "return document.querySelector('#place-prices .sample-notice')?.innerText ?? ''",
            json!([]),
        )
        .await?;
    Ok(notice.as_str().unwrap_or_default().to_owned())
}

#[test]
fn each_row_says_what_the_core_says() {
    for (weight_unit, weight, price) in [("kg", "195", "8.4"), ("lb", "430", "3.81")] {
        visit(Screen::Phone, async |page| {
            let side = Side {
                weight,
                weight_unit,
                price,
                plan: "bone-in",
                ..Side::default()
            };
            let figures = side.figures()?;
            page.enter(&side).await?;
            page.says(&figures).await?;
            page.go_to(Place::Prices).await?;
            let rows = rows(page).await?;
            let catalogue = carcass::Catalogue::published()?;
            ensure!(
                rows.len() == figures.sheet.rows.len(),
                "{} rows",
                rows.len()
            );
            let (mass, per) = match weight_unit {
                "lb" => (quantity::MassUnit::Pound, quantity::PriceUnit::PerPound),
                _ => (
                    quantity::MassUnit::Kilogram,
                    quantity::PriceUnit::PerKilogram,
                ),
            };
            for (shown, row) in rows.iter().zip(&figures.sheet.rows) {
                let money = |number, rounding| {
                    let text = amount(number, 2, rounding);
                    match text.strip_prefix('−') {
                        Some(text) => format!("−${text}"),
                        None => format!("${text}"),
                    }
                };
                let or_dash = |text: Option<String>| text.unwrap_or_else(|| "–".to_owned());
                let weight = amount(row.weight.in_unit(mass), 2, Rounding::HalfEven);
                let cost = row
                    .cost_per_mass
                    .map(|cost| money(cost.in_unit(per), Rounding::HalfEven));
                let margin = row
                    .margin
                    .filter(|_| !row.is_by_product)
                    .map(|margin| format!("{} %", amount(margin.percent(), 1, Rounding::Down)));
                let suggested = row
                    .suggested
                    .map(|price| money(price.in_unit(per), Rounding::Up));
                for (field, expected) in [
                    ("cut", catalogue[row.product].id.clone()),
                    ("weight", format!("{weight} {weight_unit}")),
                    ("cost", or_dash(cost)),
                    ("margin", or_dash(margin)),
                    ("suggested", or_dash(suggested)),
                ] {
                    ensure!(
                        text(shown, field) == expected,
                        "{shown}: {field} is not {expected}"
                    );
                }
                ensure!(
                    (read_amount(text(shown, "price"))? - row.price.in_unit(per)).abs()
                        <= Decimal::new(5, 3),
                    "{shown}: the price is {:?}",
                    row.price
                );
            }
            Ok(())
        });
    }
}

#[test]
fn sample_prices_are_marked_until_they_are_replaced() {
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        page.says(&Side::default().figures()?).await?;
        page.go_to(Place::Prices).await?;
        let before = rows(page).await?;
        let count = before.len();
        ensure!(count > 10, "{count} rows");
        for row in &before {
            ensure!(
                row["looksLikeSample"] == true && row["readsAsSample"] == true,
                "not marked: {row}"
            );
        }
        let said = notice(page).await?;
        ensure!(
            said.starts_with(&format!("{count} of {count} prices are invented")),
            "{said}"
        );

        let dearer = Side {
            board: &[("ground-beef", "18.49")],
            ..Side::default()
        };
        page.type_over("price-ground-beef", "18.49").await?;
        page.says(&dearer.figures()?).await?;
        for row in rows(page).await? {
            let is_own = text(&row, "cut") == "ground-beef";
            ensure!(
                row["looksLikeSample"] == !is_own && row["readsAsSample"] == !is_own,
                "wrongly marked: {row}"
            );
        }
        let said = notice(page).await?;
        ensure!(
            said.starts_with(&format!("{} of {count} prices", count - 1)),
            "{said}"
        );

        let row_of = |rows: &[Value]| rows.iter().find(|row| row["cut"] == "ground-beef").cloned();
        let (old, new) = (row_of(&before), row_of(&rows(page).await?));
        let (old, new) = (old.context("a row")?, new.context("a row")?);
        ensure!(
            old["margin"] != new["margin"],
            "its margin stays {}",
            old["margin"]
        );
        Ok(())
    });
}

#[test]
fn costs_times_weights_add_up_to_the_spend() {
    for plan in ["boneless", "bone-in"] {
        visit(Screen::Phone, async |page| {
            let side = Side {
                plan,
                ..Side::default()
            };
            page.enter(&side).await?;
            page.says(&side.figures()?).await?;
            page.go_to(Place::Prices).await?;
            let half_cent = Decimal::new(5, 3);
            let (mut sum, mut off) = (Decimal::ZERO, Decimal::ZERO);
            for row in rows(page).await? {
                let weight = read_amount(text(&row, "weight"))?;
                let cost = read_amount(text(&row, "cost"))?;
                sum += weight * cost;
                // Both are shown to the hundredth.
                off += half_cent * (weight + cost.abs() + half_cent);
            }
            let spend = page
                .run(
                    "return [...document.querySelectorAll('.totals tr')]
                         .find((line) => line.querySelector('th').innerText === 'Spend')
                         .querySelector('td').innerText",
                    json!([]),
                )
                .await?;
            let spend = read_amount(spend.as_str().unwrap_or_default())?;
            // 195 kg at 8.40, 150 minutes at 34 an hour, and the packaging on top.
            ensure!(spend > Decimal::from(1638 + 85), "a spend of {spend}");
            ensure!((sum - spend).abs() <= off, "{sum} is not {spend} ± {off}");
            ensure!(off < Decimal::from(5), "± {off} shows nothing");
            Ok(())
        });
    }
}

#[test]
fn the_way_a_part_is_broken_changes_its_cuts() {
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        page.says(&Side::default().figures()?).await?;
        page.go_to(Place::Cuts).await?;
        let cuts = async || {
            let cuts = rows(page).await?;
            Ok::<_, anyhow::Error>(
                cuts.iter()
                    .map(|row| text(row, "cut").to_owned())
                    .collect::<Vec<_>>(),
            )
        };
        let before = cuts().await?;
        page.run(
            "document.querySelectorAll('#place-cuts details').forEach((fold) => { fold.open = true; })",
            json!([]),
        )
        .await?;
        let way = page
            .run(
                "return [...document.querySelector('select[data-part=rib]').options]
                     .find((way) => !way.selected).value",
                json!([]),
            )
            .await?;
        page.choose(
            thirtyfour::By::Css("select[data-part=rib]"),
            way.as_str().unwrap_or_default(),
        )
        .await?;
        page.wait("other cuts", cuts, |now| *now != before).await?;
        page.go_to(Place::Side).await?;
        page.shows_what("cut-plan-note", |note| note.starts_with("1 part"))
            .await
            .map(drop)
    });
}

#[test]
fn another_plan_brings_its_own_ways_back() {
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        page.says(&Side::default().figures()?).await?;
        page.go_to(Place::Cuts).await?;
        page.run(
            "document.querySelectorAll('#place-cuts details').forEach((fold) => { fold.open = true; })",
            json!([]),
        )
        .await?;
        let shown = async || {
            page.run(
                "return document.querySelector('select[data-part=rib]').value",
                json!([]),
            )
            .await
        };
        let planned = shown().await?;
        let other = page
            .run(
                "return [...document.querySelector('select[data-part=rib]').options]
                     .find((way) => way.value !== arguments[0]).value",
                json!([planned]),
            )
            .await?;
        let rib = thirtyfour::By::Css("select[data-part=rib]");
        page.choose(rib, other.as_str().unwrap_or_default()).await?;
        page.wait("the way chosen", shown, |way| *way == other)
            .await?;
        for plan in ["bone-in", "boneless"] {
            page.go_to(Place::Side).await?;
            page.choose(thirtyfour::By::Id("cut-plan"), plan).await?;
            page.shows_what("cut-plan-note", |note| note.starts_with("How the side"))
                .await?;
        }
        page.says(&Side::default().figures()?).await?;
        page.wait("the way of the plan", shown, |way| *way == planned)
            .await
            .map(drop)
    });
}
