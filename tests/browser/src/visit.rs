//! One visit to the app, from a browser that has never seen it.

use std::path::{Path, PathBuf};
use std::{env, fs, thread};

use anyhow::{Context, Result, ensure};
use notation::Manner;
use thirtyfour::WebDriver;

use crate::driver::Driver;
use crate::{Browser, Feature, Make, Page, Screen, Server};

/// How a visit is made.
#[derive(Clone, Copy, Debug)]
pub struct Visit<'a> {
    /// The screen.
    pub screen: Screen,
    /// A script that runs before anything of the page does ([`Feature::ScriptBeforeLoad`]).
    pub before: Option<&'a str>,
}

/// Visits the app on a screen and does what `person` does there.
///
/// # Panics
/// When the person meets what should not be.
pub fn visit(screen: Screen, person: impl AsyncFnOnce(&mut Page) -> Result<()>) {
    Visit {
        screen,
        before: None,
    }
    .and(person);
}

/// The folder with the built app.
///
/// # Panics
/// When there is no built app.
pub fn dist() -> PathBuf {
    let dist = env::var_os("SIDEWORTH_DIST").map_or_else(
        || Path::new(env!("CARGO_MANIFEST_DIR")).join("../../dist"),
        PathBuf::from,
    );
    assert!(
        dist.join("index.html").is_file(),
        "{} holds no built app: call `cargo xtask build` first.",
        dist.display()
    );
    dist
}

/// The folder for pictures of the app in the browser in use.
pub fn pictures() -> PathBuf {
    let shots = Path::new(env!("CARGO_MANIFEST_DIR")).join("shots");
    match Make::from_environment() {
        Make::Chromium => shots,
        other => shots.join(other.name()),
    }
}

/// Keeps what is on the screen as a file named for the test that met it.
async fn keep_picture(page: &Page) -> Result<PathBuf> {
    let thread = thread::current();
    let test = thread.name().unwrap_or("visit").replace("::", "-");
    let file = pictures().join(format!("failed-{test}.png"));
    fs::create_dir_all(pictures())?;
    fs::write(&file, page.picture().await?)?;
    Ok(file)
}

/// Writes amounts as they are in the locale that every browser is started with, en-US.
pub(crate) fn write_as_the_browser() {
    notation::write_by(Manner {
        decimal: ".".to_owned(),
        group: ",".to_owned(),
        grouped_from: 4,
        before: "$".to_owned(),
        behind: String::new(),
    });
}

impl Visit<'_> {
    /// Opens the app, does what `person` does, and closes the browser whatever happened.
    ///
    /// # Panics
    /// When the person meets what should not be, or the browser has something to complain about.
    pub fn and(self, person: impl AsyncFnOnce(&mut Page) -> Result<()>) {
        self.and_bring(person)
            .unwrap_or_else(|error| panic!("{error:#}"));
    }

    /// As [`Self::and`], with what the person found out.
    ///
    /// # Errors
    /// When there is no browser, the person meets what should not be, or the browser has something
    /// to complain about.
    pub fn and_bring<T>(self, person: impl AsyncFnOnce(&mut Page) -> Result<T>) -> Result<T> {
        let browser = Browser::from_environment();
        let server = Server::start(&dist())?;
        let driver = Driver::start(&browser)?;
        tokio::runtime::Builder::new_current_thread()
            .enable_all()
            .build()?
            .block_on(async {
                let session = WebDriver::new(driver.address(), browser.capabilities(self.screen)?)
                    .await
                    .context("The browser cannot be started.")?;
                session
                    .run_and_quit(async |session| {
                        let mut page =
                            Page::new(session, server, self.screen, browser.make).await?;
                        if let Some(script) = self.before {
                            page.run_before_load(script).await?;
                        }
                        page.open().await?;
                        let found = match person(&mut page).await {
                            Ok(found) => found,
                            Err(error) => {
                                return Err(match keep_picture(&page).await {
                                    Ok(file) => error.context(format!("see {}", file.display())),
                                    Err(_) => error,
                                });
                            }
                        };
                        if Feature::Console.lacking(browser.make).is_none() {
                            let complaints = page.complaints().await?;
                            ensure!(complaints.is_empty(), "The browser said: {complaints:#?}");
                        }
                        Ok::<_, anyhow::Error>(found)
                    })
                    .await
                    .map_err(|error| match error {
                        thirtyfour::WebDriverRunError::Body(error) => error,
                        other => anyhow::anyhow!("{other:?}"),
                    })
            })
    }
}
