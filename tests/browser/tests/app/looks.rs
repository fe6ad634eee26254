//! Pictures of the app, light and dark, for a person to look at.

use std::fs;

use anyhow::{Context, Result, ensure};
use browser_tests::{Feature, Page, Place, Screen, Side, needs, pictures, visit};
use serde_json::json;
use thirtyfour::By;

/// How light the paper and the ink are, from 0 to 1 (relative luminance of sRGB, without the curve:
/// good enough to tell light from dark).
async fn lightness(page: &Page) -> Result<(f64, f64)> {
    let both = page
        .run(
            "const light = (colour) => {
                 const [red, green, blue] = colour.match(/[\\d.]+/g).map(Number);
                 return (0.2126 * red + 0.7152 * green + 0.0722 * blue) / 255;
             };
             const style = getComputedStyle(document.documentElement);
             return [light(style.backgroundColor), light(style.color)]",
            json!([]),
        )
        .await?;
    Ok(serde_json::from_value(both)?)
}

/// Width and height out of the header of a PNG file (ISO/IEC 15948, 11.2.1).
fn size(png: &[u8]) -> Result<(u32, u32)> {
    let number = |at: usize| -> Result<u32> {
        let bytes = png.get(at..at + 4).context("a cut-off picture")?;
        Ok(u32::from_be_bytes(bytes.try_into()?))
    };
    Ok((number(16)?, number(20)?))
}

/// Keeps what is on the screen under a name, light and dark where the browser can be asked for that.
pub async fn keep_pictures(page: &Page, name: &str) -> Result<()> {
    fs::create_dir_all(pictures())?;
    let schemes: &[&str] = if Feature::Looks.lacking(page.make()).is_none() {
        &["light", "dark"]
    } else {
        &["as-it-is"]
    };
    for scheme in schemes {
        if schemes.len() > 1 {
            page.prefer(scheme).await?;
        }
        let file = format!("{}-{scheme}-{name}.png", page.screen().name());
        fs::write(pictures().join(file), page.picture().await?)?;
    }
    Ok(())
}

#[test]
fn pictures_in_light_and_dark() {
    if !needs(&[Feature::Looks, Feature::ExactScreen]) {
        return;
    }
    let folder = pictures();
    fs::create_dir_all(&folder).expect("a folder for the pictures");
    for screen in [Screen::Phone, Screen::Wide] {
        visit(screen, async |page| {
            let side = Side {
                grass_percent: 35,
                plan: "bone-in",
                ..Side::default()
            };
            page.enter(&side).await?;
            page.says(&side.figures()?).await?;
            page.go_to(Place::Saved).await?;
            for name in ["First side of the week", "The same, bone in"] {
                page.type_over("saved-name", name).await?;
                page.tap(By::Id("save-plan")).await?;
            }
            for scheme in ["light", "dark"] {
                page.prefer(scheme).await?;
                let (paper, ink) = lightness(page).await?;
                ensure!(
                    if scheme == "light" {
                        paper > 0.8 && ink < 0.3
                    } else {
                        paper < 0.3 && ink > 0.8
                    },
                    "{scheme}: paper {paper}, ink {ink}"
                );
                let places: &[Place] = if screen.is_touched() {
                    &Place::ALL
                } else {
                    &[Place::Side]
                };
                for place in places {
                    page.go_to(*place).await?;
                    page.run(
                        "window.scrollTo(0, 0); document.activeElement.blur()",
                        json!([]),
                    )
                    .await?;
                    let picture = page.picture().await?;
                    let wanted = (
                        screen.width() * screen.density(),
                        screen.height() * screen.density(),
                    );
                    ensure!(
                        size(&picture)? == wanted,
                        "{:?} is not {wanted:?}",
                        size(&picture)?
                    );
                    let name = format!(
                        "{}-{scheme}-{}.png",
                        screen.name(),
                        place.name().to_lowercase()
                    );
                    fs::write(folder.join(name), picture)?;
                }
            }
            Ok(())
        });
    }
}
