//! The browser itself: its scripts, its console, how it is set up.

use anyhow::{Context, Result, bail};
use serde_json::{Value, json};
use thirtyfour::common::print::{PrintPage, PrintParameters};

use super::Page;
use crate::{Feature, Make};

impl Page {
    /// Runs a script in the page and says what it returned.
    ///
    /// # Errors
    /// When it throws.
    pub async fn run(&self, script: &str, arguments: Value) -> Result<Value> {
        let Value::Array(arguments) = arguments else {
            bail!("arguments come as an array");
        };
        Ok(self
            .session
            .execute(script, arguments)
            .await?
            .json()
            .clone())
    }

    /// Runs a script in the page whose last argument is called with what it is to return.
    ///
    /// # Errors
    /// When it throws or does not call back.
    pub async fn run_until_done(&self, script: &str, arguments: Value) -> Result<Value> {
        let Value::Array(arguments) = arguments else {
            bail!("arguments come as an array");
        };
        Ok(self
            .session
            .execute_async(script, arguments)
            .await?
            .json()
            .clone())
    }

    /// Has the page look as on a screen of the visit's size, as nearly as the browser can.
    pub(super) async fn fit_to_screen(&self) -> Result<()> {
        let (width, height) = (self.screen.width(), self.screen.height());
        match self.make {
            // It was told when it was started.
            Make::Chromium => Ok(()),
            Make::Firefox => self.fit_firefox(self.screen).await,
            Make::WebKit => {
                self.session.set_window_rect(0, 0, width, height).await?;
                Ok(())
            }
        }
    }

    /// Has a script run whenever the page loads, before anything of the page does.
    ///
    /// # Errors
    /// When the browser refuses.
    pub async fn run_before_load(&self, script: &str) -> Result<()> {
        match self.make {
            Make::Chromium => {
                self.developer(
                    "Page.addScriptToEvaluateOnNewDocument",
                    json!({ "source": script }),
                )
                .await
            }
            Make::Firefox => self.run_before_load_in_firefox(script).await,
            Make::WebKit => self.lacks(Feature::ScriptBeforeLoad),
        }
    }

    /// The warnings and errors that the console was told since it was last asked.
    ///
    /// # Errors
    /// When the browser does not answer.
    pub async fn complaints(&self) -> Result<Vec<String>> {
        match self.make {
            Make::Chromium => {
                let entries = self.session.browser_log().await?;
                Ok(entries
                    .into_iter()
                    .filter(|entry| matches!(entry.level.as_str(), "WARNING" | "SEVERE"))
                    .map(|entry| entry.message)
                    .collect())
            }
            Make::Firefox => self.complaints_of_firefox().await,
            Make::WebKit => self.lacks(Feature::Console),
        }
    }

    /// Has the person prefer light or dark screens.
    ///
    /// # Errors
    /// When the browser refuses.
    pub async fn prefer(&self, scheme: &str) -> Result<()> {
        match self.make {
            Make::Chromium => self.media(&[("prefers-color-scheme", scheme)]).await,
            Make::Firefox => {
                self.set_in_firefox("prefersColorSchemeOverride", scheme)
                    .await
            }
            Make::WebKit => self.lacks(Feature::Looks),
        }
    }

    /// Has the person ask for what these media features say, such as less motion, and for nothing
    /// else ([`Feature::Media`]).
    ///
    /// # Errors
    /// When the browser refuses.
    pub async fn media(&self, features: &[(&str, &str)]) -> Result<()> {
        let features: Vec<_> = features
            .iter()
            .map(|(name, value)| json!({ "name": name, "value": value }))
            .collect();
        match self.make {
            Make::Chromium => {
                self.developer(
                    "Emulation.setEmulatedMedia",
                    json!({ "features": features }),
                )
                .await
            }
            Make::Firefox | Make::WebKit => self.lacks(Feature::Media),
        }
    }

    /// Has the person set the size of letters in the browser, in pixels; it comes with 16.
    ///
    /// # Errors
    /// When the browser refuses.
    pub async fn set_letters(&self, pixels: u32) -> Result<()> {
        match self.make {
            Make::Chromium => {
                self.developer(
                    "Page.setFontSizes",
                    json!({ "fontSizes": { "standard": pixels } }),
                )
                .await
            }
            Make::Firefox => self.set_letters_in_firefox(pixels).await,
            Make::WebKit => self.lacks(Feature::Letters),
        }
    }

    /// Makes the machine so many times slower.
    ///
    /// # Errors
    /// When the browser refuses.
    pub async fn slow_down(&self, times: u32) -> Result<()> {
        self.developer("Emulation.setCPUThrottlingRate", json!({ "rate": times }))
            .await
    }

    /// What a printer would get for a sheet of this width and height in millimetres, as a PDF file.
    ///
    /// # Errors
    /// When the browser refuses.
    pub async fn printed_on(&self, (width, height): (f64, f64)) -> Result<Vec<u8>> {
        if self.make == Make::WebKit {
            return self.lacks(Feature::Print);
        }
        let sheet = PrintParameters {
            // The driver takes centimetres.
            page: PrintPage {
                width: width / 10.0,
                height: height / 10.0,
            },
            // As a person may have it: what is not white would show.
            background: true,
            ..PrintParameters::default()
        };
        Ok(self.session.print_page(sheet).await?)
    }

    /// Has the page look as on paper, or again as on the screen.
    ///
    /// # Errors
    /// When the browser refuses.
    pub async fn on_paper(&self, yes: bool) -> Result<()> {
        let media = if yes { "print" } else { "" };
        match self.make {
            Make::Chromium => {
                self.developer("Emulation.setEmulatedMedia", json!({ "media": media }))
                    .await
            }
            Make::Firefox => self.set_in_firefox("mediumOverride", media).await,
            Make::WebKit => self.lacks(Feature::Looks),
        }
    }

    /// A picture of the screen, as a PNG file.
    ///
    /// # Errors
    /// When the browser refuses.
    pub async fn picture(&self) -> Result<Vec<u8>> {
        Ok(self.session.screenshot_as_png().await?)
    }

    /// A test that asks for what the browser does not give was to find out first.
    fn lacks<T>(&self, feature: Feature) -> Result<T> {
        let reason = feature.lacking(self.make).unwrap_or("nobody knows why");
        bail!("{feature:?}: {reason}; ask `needs` first")
    }

    /// Calls on what the browser has for developers (the Chrome `DevTools` Protocol).
    pub(super) async fn developer(&self, method: &str, parameters: Value) -> Result<()> {
        self.session
            .cdp()
            .send_raw(method, parameters)
            .await
            .map(drop)
            .with_context(|| method.to_owned())
    }
}
