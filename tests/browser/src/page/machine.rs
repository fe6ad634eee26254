//! The browser itself: its scripts, its console, how it is set up.

use anyhow::{Context, Result, bail};
use serde_json::{Value, json};
use thirtyfour::common::print::PrintParameters;

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
            Make::Chromium => {
                self.developer(
                    "Emulation.setEmulatedMedia",
                    json!({ "features": [{ "name": "prefers-color-scheme", "value": scheme }] }),
                )
                .await
            }
            Make::Firefox => {
                self.set_in_firefox("prefersColorSchemeOverride", scheme)
                    .await
            }
            Make::WebKit => self.lacks(Feature::Looks),
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

    /// What a printer would get, as a PDF file in base64.
    ///
    /// # Errors
    /// When the browser refuses.
    pub async fn printed(&self) -> Result<String> {
        match self.make {
            Make::Chromium => {
                let printed = self
                    .session
                    .cdp()
                    .send_raw("Page.printToPDF", json!({ "preferCSSPageSize": true }))
                    .await
                    .context("Page.printToPDF")?;
                let data = printed.get("data").and_then(Value::as_str);
                Ok(data.context("a file")?.to_owned())
            }
            Make::Firefox => {
                let usual = PrintParameters::default();
                Ok(self.session.print_page_base64(usual).await?)
            }
            Make::WebKit => self.lacks(Feature::Print),
        }
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
