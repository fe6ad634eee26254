//! What comes out of the printer, page by page, as a scanner would see it.

use std::path::{Path, PathBuf};
use std::process::Command;
use std::{env, fs};

use anyhow::{Context, Result, ensure};
use browser_tests::{Feature, Page, Place, Screen, Side, leave_out, needs, pictures, visit};
use image::{GrayImage, RgbImage};
use serde_json::json;
use thirtyfour::By;
use wording::Language;

use crate::every_place::unfold;
use crate::languages::speak;
use crate::links::{behind, follow};
use crate::print::print;

/// Width and height in millimetres (ISO 216).
pub(crate) const A4: (f64, f64) = (210.0, 297.0);

/// 8.5 by 11 inches (ANSI/ASME Y14.1, size A).
const LETTER: (f64, f64) = (215.9, 279.4);

const MM_PER_INCH: f64 = 25.4;

/// What few printers reach, in millimetres from each edge.
const EDGE: f64 = 5.0;

/// The dots per inch of a page as a whole.
const COARSE: f64 = 100.0;

/// The dots per inch at which a code is read.
const FINE: f64 = 300.0;

/// As white as paper, of 255.
const WHITE: u8 = 250;

/// So far the parts of a grey may stand apart.
const GREY: u8 = 8;

/// The papers: how each is asked for, and the fewest and the most pages that a side cut bone-in
/// takes.
const PAPERS: [(usize, &str, [usize; 2]); 3] = [
    (0, "cutting", [3, 8]),
    (1, "cards", [2, 5]),
    (2, "costs", [1, 2]),
];

/// What turns a PDF file into pictures: `pdftoppm` (poppler-utils), as `PDFTOPPM` names it or on
/// `PATH`.
fn scanner() -> Option<PathBuf> {
    let named = env::var_os("PDFTOPPM").map_or_else(|| PathBuf::from("pdftoppm"), PathBuf::from);
    let answer = Command::new(&named).arg("-v").output();
    answer
        .is_ok_and(|answer| answer.status.success())
        .then_some(named)
}

/// The pages as the scanner sees them at so many dots per inch.
fn scanned(scanner: &Path, file: &Path, dots: f64, more: &[&str]) -> Result<Vec<RgbImage>> {
    let prefix = file.with_extension("");
    let output = Command::new(scanner)
        .args(["-png", "-r", &dots.to_string()])
        .args(more)
        .args([file, &prefix])
        .output()?;
    ensure!(
        output.status.success(),
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
    let folder = file.parent().context("a folder")?;
    let name = prefix.file_name().context("a name")?.to_string_lossy();
    let mut pages: Vec<PathBuf> = fs::read_dir(folder)?
        .map(|entry| Ok(entry?.path()))
        .collect::<Result<_>>()?;
    // `pdftoppm` puts the number of the page behind it, as long as the last.
    pages.retain(|page| {
        let page = page.file_name().unwrap_or_default().to_string_lossy();
        page.strip_prefix(&*name)
            .is_some_and(|rest| rest.starts_with('-'))
    });
    pages.sort();
    pages
        .iter()
        .map(|page| Ok(image::open(page)?.to_rgb8()))
        .collect()
}

/// Whether what stands farthest left and right on a page is a line, as around cards and tables:
/// one that is on the left alone was cut off on the right.
fn lines_at_the_sides(page: &RgbImage) -> [bool; 2] {
    let tallest = |x: u32| {
        let (mut run, mut tallest) = (0_u32, 0_u32);
        for y in 0..page.height() {
            let is_inked = page.get_pixel(x, y).0.iter().any(|part| *part < WHITE);
            run = if is_inked { run + 1 } else { 0 };
            tallest = tallest.max(run);
        }
        tallest
    };
    let inked: Vec<u32> = (0..page.width())
        .map(tallest)
        .filter(|run| *run > 0)
        .collect();
    // Taller than any letter. One may lean out over the line by a dot.
    let has_line = |runs: &mut dyn Iterator<Item = &u32>| runs.take(4).any(|run| *run > 30);
    [
        has_line(&mut inked.iter()),
        has_line(&mut inked.iter().rev()),
    ]
}

/// Holds a page against what a printer and a reader need of it.
fn is_fit_to_print(page: &RgbImage, (width, height): (f64, f64)) -> Result<()> {
    let dots = |millimetres: f64| millimetres / MM_PER_INCH * COARSE;
    let near = |dots: f64, pixels: u32| (dots - f64::from(pixels)).abs() <= 1.5;
    ensure!(
        near(dots(width), page.width()) && near(dots(height), page.height()),
        "{}×{} pixels are not {width}×{height} mm",
        page.width(),
        page.height()
    );
    let (mut inked, mut coloured, mut outside) = (0_u32, 0_u32, 0_u32);
    let is_at_edge = |at: u32, size: u32| {
        f64::from(at) < dots(EDGE) || f64::from(at) >= f64::from(size) - dots(EDGE)
    };
    for (x, y, colour) in page.enumerate_pixels() {
        let [lightest, darkest] = [colour.0.iter().max(), colour.0.iter().min()]
            .map(|part| part.copied().unwrap_or_default());
        inked += u32::from(darkest < WHITE);
        coloured += u32::from(lightest - darkest > GREY);
        if darkest < WHITE && (is_at_edge(x, page.width()) || is_at_edge(y, page.height())) {
            outside += 1;
        }
    }
    let all = page.width() * page.height();
    ensure!(outside == 0, "{outside} dots lie where no printer reaches");
    ensure!(coloured == 0, "{coloured} dots are neither black nor grey");
    ensure!(inked > all / 500, "a page without ink: {inked} of {all}");
    let [left, right] = lines_at_the_sides(page);
    ensure!(left == right, "cut off on the right");
    // Letters and lines on white: a page that is all grey has a ground.
    ensure!(inked < all / 4, "no white page: {inked} of {all} are inked");
    Ok(())
}

/// What the code on the first page says.
fn code(scanner: &Path, file: &Path) -> Result<String> {
    // The head of the page is as much as has to be looked at.
    let head = file.with_file_name("head.pdf");
    fs::copy(file, &head)?;
    let crop = ["-l", "1", "-x", "0", "-y", "0", "-W", "2500", "-H", "800"];
    let pages = scanned(scanner, &head, FINE, &crop)?;
    let page: GrayImage =
        image::DynamicImage::from(pages.first().context("a page")?.clone()).to_luma8();
    let (width, height) = (page.width() as usize, page.height() as usize);
    let mut page = rqrr::PreparedImage::prepare_from_greyscale(width, height, |x, y| {
        let at = |place| u32::try_from(place).unwrap_or_default();
        page.get_pixel(at(x), at(y)).0[0]
    });
    let codes = page.detect_grids();
    let (_, content) = codes.first().context("no code on the page")?.decode()?;
    Ok(content)
}

/// Prints every paper on both sizes of sheet and looks at each page.
async fn print_all(page: &Page, scanner: &Path, name: &str) -> Result<()> {
    let folder = pictures().join(format!("papers-{name}"));
    if folder.exists() {
        fs::remove_dir_all(&folder)?;
    }
    fs::create_dir_all(&folder)?;
    for (paper, paper_name, [fewest, most]) in PAPERS {
        for (sheet, size) in [("a4", A4), ("letter", LETTER)] {
            page.go_to(Place::Saved).await?;
            unfold(page).await?;
            print(page, paper).await?;
            let file = folder.join(format!("{paper_name}-{sheet}.pdf"));
            fs::write(&file, page.printed_on(size).await?)?;
            let pages = scanned(scanner, &file, COARSE, &[])?;
            let what = format!("{name}, {paper_name}, {sheet}");
            ensure!(
                (fewest..=most).contains(&pages.len()),
                "{what}: {} pages",
                pages.len()
            );
            for (number, scan) in pages.iter().enumerate() {
                is_fit_to_print(scan, size)
                    .with_context(|| format!("{what}, page {}", number + 1))?;
            }
            let code = code(scanner, &file).context(what)?;
            let app = page
                .run("return location.href.split('#')[0]", json!([]))
                .await?;
            ensure!(
                Some(code.split('#').next().unwrap_or_default()) == app.as_str(),
                "{code} does not lead to {app}"
            );
            follow(page, behind(&code)?).await?;
            page.reads("#opened .offer", |offer| !offer.is_empty())
                .await?;
            page.tap(By::Id("leave-link")).await?;
        }
    }
    Ok(())
}

/// The program that makes pictures, where the browser can print and there is one.
fn equipped() -> Option<PathBuf> {
    if !needs(&[Feature::Print]) {
        return None;
    }
    let found = scanner();
    if found.is_none() {
        leave_out("this machine has no pdftoppm (poppler-utils)");
    }
    found
}

#[test]
fn every_page_of_every_paper_is_black_on_white_and_leads_back_to_the_app() {
    let Some(scanner) = equipped() else {
        return;
    };
    visit(Screen::Phone, async |page| {
        let side = Side {
            plan: "bone-in",
            board: &[("ground-beef", "17.49")],
            ..Side::default()
        };
        page.enter(&side).await?;
        page.says(&side.figures()?).await?;
        page.go_to(Place::Saved).await?;
        unfold(page).await?;
        page.type_over("print-title", "Hill farm").await?;
        page.type_over("print-lot", "A-17").await?;
        print_all(page, &scanner, "english-kilograms").await
    });
}

#[test]
fn so_it_is_in_french_and_in_pounds() {
    let Some(scanner) = equipped() else {
        return;
    };
    visit(Screen::Phone, async |page| {
        let side = Side {
            weight: "430",
            weight_unit: "lb",
            price: "3.81",
            plan: "bone-in",
            ..Side::default()
        };
        page.enter(&side).await?;
        page.says(&side.figures()?).await?;
        speak(page, Language::French).await?;
        // The dark of the screen is not to come along.
        if Feature::Looks.lacking(page.make()).is_none() {
            page.prefer("dark").await?;
        }
        page.go_to(Place::Saved).await?;
        unfold(page).await?;
        page.type_over(
            "print-title",
            "Une ferme au nom bien long, à l’entrée du village",
        )
        .await?;
        page.type_over("print-claim", "Nourri à l’herbe").await?;
        print_all(page, &scanner, "french-pounds").await
    });
}
