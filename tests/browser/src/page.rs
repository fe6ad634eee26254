//! The app as a person meets it: it opens, one goes from place to place, and waits until it shows.

mod device;
mod eye;
mod firefox;
mod hand;
mod machine;

use std::fmt::Debug;
use std::time::{Duration, Instant};

use anyhow::{Result, bail};
use serde_json::json;
use thirtyfour::{By, WebDriver};

use crate::{Make, Screen, Server};

/// How long a person waits before they say that nothing happens. A machine that tests several
/// things at once is slow.
const PATIENCE: Duration = Duration::from_mins(1);

/// How long one waits for what the browser does in the background. Chromium puts off looking for a
/// new version while a worker is busy, at the longest until it has been idle for half a minute.
const BACKGROUND_PATIENCE: Duration = Duration::from_mins(3);

/// How often one looks again while waiting.
const GLANCE: Duration = Duration::from_millis(15);

/// The places of the app.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// The deal.
    Side,
    /// The plan.
    Cuts,
    /// The sheet and the board.
    Prices,
    /// What moves the answer.
    WhatIf,
    /// What sides weighed.
    Scale,
    /// Plans kept by name.
    Saved,
}

impl Place {
    /// Every place.
    pub const ALL: [Self; 6] = [
        Self::Side,
        Self::Cuts,
        Self::Prices,
        Self::WhatIf,
        Self::Scale,
        Self::Saved,
    ];

    /// The word on its button.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Side => "Side",
            Self::Cuts => "Cuts",
            Self::Prices => "Prices",
            Self::WhatIf => "What if",
            Self::Scale => "Scale",
            Self::Saved => "Saved",
        }
    }

    /// The id of its section, which is the same in every language.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Side => "place-side",
            Self::Cuts => "place-cuts",
            Self::Prices => "place-prices",
            Self::WhatIf => "place-what-if",
            Self::Scale => "place-scale",
            Self::Saved => "place-saved",
        }
    }
}

/// The open app.
pub struct Page {
    session: WebDriver,
    server: Server,
    screen: Screen,
    make: Make,
}

impl Page {
    /// A fresh tab on a screen, with nothing in it.
    pub(crate) async fn new(
        session: WebDriver,
        server: Server,
        screen: Screen,
        make: Make,
    ) -> Result<Self> {
        let page = Self {
            session,
            server,
            screen,
            make,
        };
        page.fit_to_screen().await?;
        Ok(page)
    }

    /// The server, when nobody looks at the page any more.
    pub(crate) fn into_server(self) -> Server {
        self.server
    }

    /// The browser that it is looked at with.
    pub fn make(&self) -> Make {
        self.make
    }

    /// The screen it is looked at on.
    pub fn screen(&self) -> Screen {
        self.screen
    }

    /// The server that it came from.
    pub fn server(&mut self) -> &mut Server {
        &mut self.server
    }

    /// Every address that the server was asked for so far.
    pub fn asked(&self) -> Vec<String> {
        self.server.asked()
    }

    /// Opens the app and waits until it can be used.
    ///
    /// # Errors
    /// When it does not come up.
    pub async fn open(&self) -> Result<()> {
        self.session.goto(self.server.app()).await?;
        self.until_up().await
    }

    /// Reloads the app and waits until it can be used.
    ///
    /// # Errors
    /// When it does not come up.
    pub async fn reload(&self) -> Result<()> {
        self.begin_reload().await?;
        self.until_up().await
    }

    /// Waits until the app can be used, whoever has opened it.
    ///
    /// # Errors
    /// When it does not come up.
    pub async fn until_up(&self) -> Result<()> {
        self.wait(
            "the app to come up",
            async || {
                self.run(
                    "return {
                         up: document.getElementById('side-weight') !== null,
                         status: document.getElementById('boot-status')?.textContent ?? null,
                     }",
                    json!([]),
                )
                .await
            },
            |seen| seen["up"] == true,
        )
        .await
        .map(drop)
    }

    /// Goes to a place, whatever language its button is in. On a wide screen every place is there
    /// already.
    ///
    /// # Errors
    /// When the place does not open.
    pub async fn go_to(&self, place: Place) -> Result<()> {
        if self.screen.is_touched() {
            // The buttons stand in the order of the places.
            let button = place as usize + 1;
            self.tap(By::Css(format!("nav button:nth-child({button})")))
                .await?;
        }
        self.wait(
            &format!("the place {}", place.name()),
            async || {
                self.run(
                    "return document.getElementById(arguments[0])?.checkVisibility() ?? false",
                    json!([place.id()]),
                )
                .await
            },
            |is_open| *is_open == true,
        )
        .await
        .map(drop)
    }

    /// Waits until `look` sees what `is_right`, and says what that was.
    ///
    /// # Errors
    /// When it is never seen; says what was seen last.
    pub async fn wait<T: Debug>(
        &self,
        what: &str,
        look: impl AsyncFn() -> Result<T>,
        is_right: impl Fn(&T) -> bool,
    ) -> Result<T> {
        Self::wait_up_to(PATIENCE, what, look, is_right).await
    }

    /// As [`Self::wait`], for what the browser does in the background when it sees fit.
    ///
    /// # Errors
    /// When it is never seen; says what was seen last.
    pub async fn wait_for_background<T: Debug>(
        &self,
        what: &str,
        look: impl AsyncFn() -> Result<T>,
        is_right: impl Fn(&T) -> bool,
    ) -> Result<T> {
        Self::wait_up_to(BACKGROUND_PATIENCE, what, look, is_right).await
    }

    async fn wait_up_to<T: Debug>(
        patience: Duration,
        what: &str,
        look: impl AsyncFn() -> Result<T>,
        is_right: impl Fn(&T) -> bool,
    ) -> Result<T> {
        let since = Instant::now();
        loop {
            let seen = look().await?;
            if is_right(&seen) {
                return Ok(seen);
            }
            if since.elapsed() > patience {
                bail!("waited in vain for {what}; seen last: {seen:?}");
            }
            tokio::time::sleep(GLANCE).await;
        }
    }
}
