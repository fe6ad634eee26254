//! The app on the device: kept there, in more than one tab, in one version or another.

use anyhow::{Context, Result, ensure};
use serde_json::{Value, json};
use thirtyfour::{By, WindowHandle};

use super::Page;
use crate::Make;

impl Page {
    /// Waits until all of the app is kept on the device and served from there.
    ///
    /// # Errors
    /// When it is not.
    pub async fn until_kept(&self) -> Result<()> {
        self.wait_for_background(
            "the app to be kept on the device",
            async || {
                self.run(
                    "return navigator.serviceWorker.controller?.state ?? null",
                    json!([]),
                )
                .await
            },
            |state| state == "activated",
        )
        .await
        .map(drop)
    }

    /// Reloads the page and does not wait for anything.
    ///
    /// # Errors
    /// When the browser refuses.
    pub async fn begin_reload(&self) -> Result<()> {
        match self.make {
            // Its driver reloads past the service workers, as people seldom do.
            Make::Firefox => {
                self.run("window.isLeft = true; location.reload()", json!([]))
                    .await?;
                self.wait(
                    "the page to be left",
                    async || {
                        // Between two pages there is nobody to answer.
                        let is_left = self.run("return window.isLeft ?? false", json!([]));
                        Ok(is_left.await.unwrap_or(Value::Null))
                    },
                    |is_left| *is_left == json!(false),
                )
                .await
                .map(drop)
            }
            Make::Chromium | Make::WebKit => Ok(self.session.refresh().await?),
        }
    }

    /// Opens an address of the app, given without what is common to all, and waits until the app
    /// can be used.
    ///
    /// # Errors
    /// When it does not come up.
    pub async fn open_at(&self, rest: &str) -> Result<()> {
        self.session
            .goto(format!("{}{rest}", self.server.app()))
            .await?;
        self.until_up().await
    }

    /// Goes to another page than the app's.
    ///
    /// # Errors
    /// When the browser refuses.
    pub async fn leave(&self) -> Result<()> {
        Ok(self.session.goto("about:blank").await?)
    }

    /// The tab that is looked at.
    ///
    /// # Errors
    /// When the browser does not answer.
    pub async fn tab(&self) -> Result<WindowHandle> {
        Ok(self.session.window().await?)
    }

    /// Opens a fresh tab, looks at it, and opens the app there.
    ///
    /// # Errors
    /// When it does not come up.
    pub async fn open_in_new_tab(&self) -> Result<WindowHandle> {
        let tab = self.session.new_tab().await?;
        self.look_at(&tab).await?;
        self.fit_to_screen().await?;
        self.open().await?;
        Ok(tab)
    }

    /// Looks at a tab.
    ///
    /// # Errors
    /// When there is no such tab.
    pub async fn look_at(&self, tab: &WindowHandle) -> Result<()> {
        Ok(self.session.switch_to_window(tab.clone()).await?)
    }

    /// Closes the tab that is looked at and looks at another.
    ///
    /// # Errors
    /// When there is no such tab.
    pub async fn close_for(&self, tab: &WindowHandle) -> Result<()> {
        self.session.close_window().await?;
        self.look_at(tab).await
    }

    /// The mark of the build that the page is of.
    ///
    /// # Errors
    /// When it has none.
    pub async fn build(&self) -> Result<String> {
        let mark = self
            .run(
                "return document.querySelector('meta[name=build]')?.content ?? null",
                json!([]),
            )
            .await?;
        let mark = mark.as_str().context("the page has no mark")?;
        ensure!(!mark.is_empty(), "the mark of the page is empty");
        Ok(mark.to_owned())
    }

    /// Waits for the message about the app on this device.
    ///
    /// # Errors
    /// When another is there, or none.
    pub async fn news(&self, text: &str) -> Result<()> {
        self.wait_for_background(
            &format!("the message “{text}”"),
            async || {
                self.run(
                    "return document.querySelector('.offline p')?.innerText ?? null",
                    json!([]),
                )
                .await
            },
            |seen| seen.as_str() == Some(text),
        )
        .await
        .map(drop)
    }

    /// Ends every service worker, where that can be asked for; the browser starts one anew when it
    /// is needed.
    ///
    /// # Errors
    /// When the browser refuses.
    pub async fn end_workers(&self) -> Result<()> {
        match self.make {
            Make::Chromium => {
                self.developer("ServiceWorker.enable", json!({})).await?;
                self.developer("ServiceWorker.stopAllWorkers", json!({}))
                    .await
            }
            Make::Firefox => self.end_workers_of_firefox().await,
            Make::WebKit => Ok(()),
        }
    }

    /// Has pages come from the server even where they are kept on the device, or no longer.
    ///
    /// # Errors
    /// When the browser refuses.
    pub async fn pass_by_workers(&self, yes: bool) -> Result<()> {
        self.developer("Network.enable", json!({})).await?;
        self.developer("Network.setBypassServiceWorker", json!({ "bypass": yes }))
            .await
    }

    /// The text of the file that a button hands out, which may be folded away.
    ///
    /// # Errors
    /// When it hands out none.
    pub async fn handed_out(&self, button: &str) -> Result<String> {
        self.run(
            "window.handedOut = null;
             let last;
             const make = URL.createObjectURL;
             URL.createObjectURL = (blob) => { last = blob; return make.call(URL, blob); };
             HTMLAnchorElement.prototype.click = function () {
                 last.text().then((text) => { window.handedOut = text; });
             };
             const fold = document.getElementById(arguments[0]).closest('details');
             if (fold !== null) fold.open = true",
            json!([button]),
        )
        .await?;
        self.tap(By::Id(button)).await?;
        let file = self
            .wait(
                "a file",
                async || self.run("return window.handedOut", json!([])).await,
                Value::is_string,
            )
            .await?;
        Ok(file.as_str().unwrap_or_default().to_owned())
    }
}
