//! The browser itself: its scripts, its console, how it is set up.

use anyhow::{Context, Result, bail};
use serde_json::{Value, json};

use super::{Console, Page};

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

    /// What the console holds since it was last asked.
    ///
    /// # Errors
    /// When the browser does not answer.
    pub async fn console(&self) -> Result<Console> {
        Ok(Console(self.session.browser_log().await?))
    }

    /// Has the person prefer light or dark screens.
    ///
    /// # Errors
    /// When the browser refuses.
    pub async fn prefer(&self, scheme: &str) -> Result<()> {
        self.developer(
            "Emulation.setEmulatedMedia",
            json!({ "features": [{ "name": "prefers-color-scheme", "value": scheme }] }),
        )
        .await
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
        let printed = self
            .session
            .cdp()
            .send_raw("Page.printToPDF", json!({ "preferCSSPageSize": true }))
            .await
            .context("Page.printToPDF")?;
        let data = printed.get("data").and_then(Value::as_str);
        Ok(data.context("a file")?.to_owned())
    }

    /// Has the page look as on paper, or again as on the screen.
    ///
    /// # Errors
    /// When the browser refuses.
    pub async fn on_paper(&self, yes: bool) -> Result<()> {
        let media = if yes { "print" } else { "" };
        self.developer("Emulation.setEmulatedMedia", json!({ "media": media }))
            .await
    }

    /// A picture of the screen, as a PNG file.
    ///
    /// # Errors
    /// When the browser refuses.
    pub async fn picture(&self) -> Result<Vec<u8>> {
        Ok(self.session.screenshot_as_png().await?)
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
