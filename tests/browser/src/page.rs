//! The app as a person meets it: look, tap, type, wait until it shows.

use std::fmt::Debug;
use std::time::{Duration, Instant};

use anyhow::{Context, Result, bail, ensure};
use serde_json::{Value, json};
use thirtyfour::components::SelectElement;
use thirtyfour::{By, Key, WebDriver, WebElement};

use crate::{Figures, Screen, Server, Side};

/// How long a person waits before they say that nothing happens. A machine that tests several
/// things at once is slow.
const PATIENCE: Duration = Duration::from_secs(20);

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
}

impl Place {
    /// Every place.
    pub const ALL: [Self; 3] = [Self::Side, Self::Cuts, Self::Prices];

    /// The word on its button.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Side => "Side",
            Self::Cuts => "Cuts",
            Self::Prices => "Prices",
        }
    }
}

/// What the browser's console holds.
#[derive(Debug)]
pub struct Console(Vec<thirtyfour::BrowserLogEntry>);

impl Console {
    /// Every warning and error.
    pub fn complaints(&self) -> Vec<String> {
        self.0
            .iter()
            .filter(|entry| matches!(entry.level.as_str(), "WARNING" | "SEVERE"))
            .map(|entry| entry.message.clone())
            .collect()
    }
}

/// The open app.
pub struct Page {
    session: WebDriver,
    server: Server,
    screen: Screen,
}

impl Page {
    pub(crate) fn new(session: WebDriver, server: Server, screen: Screen) -> Self {
        Self {
            session,
            server,
            screen,
        }
    }

    /// The screen it is looked at on.
    pub fn screen(&self) -> Screen {
        self.screen
    }

    /// The server that it came from.
    pub fn server(&mut self) -> &mut Server {
        &mut self.server
    }

    // Coming and going.

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
        self.session.refresh().await?;
        self.until_up().await
    }

    async fn until_up(&self) -> Result<()> {
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

    /// Has a script run whenever the page loads, before anything of the page does.
    ///
    /// # Errors
    /// When the browser refuses.
    pub async fn run_before_load(&self, script: &str) -> Result<()> {
        self.developer(
            "Page.addScriptToEvaluateOnNewDocument",
            json!({ "source": script }),
        )
        .await
    }

    /// Goes to a place. On a wide screen every place is there already.
    ///
    /// # Errors
    /// When the place does not open.
    pub async fn go_to(&self, place: Place) -> Result<()> {
        if self.screen.is_touched() {
            self.tap(By::XPath(format!(
                "//nav//button[normalize-space()='{}']",
                place.name()
            )))
            .await?;
        }
        self.wait(
            &format!("the place {}", place.name()),
            async || {
                self.run(
                    "return [...document.querySelectorAll('main > section')]
                         .filter((place) => place.checkVisibility())
                         .map((place) => place.getAttribute('aria-label'))",
                    json!([]),
                )
                .await
            },
            |open| {
                open.as_array()
                    .is_some_and(|open| open.contains(&Value::from(place.name())))
            },
        )
        .await
        .map(drop)
    }

    // Looking.

    /// The text that an element shows, without the spaces around it; `None` when there is no such
    /// element.
    ///
    /// # Errors
    /// When the browser does not answer.
    pub async fn text(&self, id: &str) -> Result<Option<String>> {
        let text = self
            .run(
                "return document.getElementById(arguments[0])?.innerText.trim().replace(/\\s*\\n\\s*/g, ' ') ?? null",
                json!([id]),
            )
            .await?;
        Ok(text.as_str().map(str::to_owned))
    }

    /// What stands in a field.
    ///
    /// # Errors
    /// When there is no such field.
    pub async fn value(&self, id: &str) -> Result<String> {
        let value = self
            .run(
                "return document.getElementById(arguments[0])?.value ?? null",
                json!([id]),
            )
            .await?;
        let value = value.as_str().with_context(|| format!("no field {id}"))?;
        Ok(value.to_owned())
    }

    /// Whether a field is marked as one that cannot be read.
    ///
    /// # Errors
    /// When there is no such field.
    pub async fn is_marked_bad(&self, id: &str) -> Result<bool> {
        let mark = self
            .run(
                "return document.getElementById(arguments[0]).getAttribute('aria-invalid')",
                json!([id]),
            )
            .await?;
        Ok(mark == "true")
    }

    /// Waits until an element shows a text.
    ///
    /// # Errors
    /// When it does not.
    pub async fn shows(&self, id: &str, text: &str) -> Result<()> {
        self.wait(
            &format!("#{id} to show “{text}”"),
            async || self.text(id).await,
            |seen| seen.as_deref() == Some(text),
        )
        .await
        .map(drop)
    }

    /// Waits until an element shows a text that `is_right`, and says which.
    ///
    /// # Errors
    /// When it does not.
    pub async fn shows_what(&self, id: &str, is_right: impl Fn(&str) -> bool) -> Result<String> {
        self.wait(
            &format!("#{id} to show what is right"),
            async || self.text(id).await,
            |seen| seen.as_deref().is_some_and(&is_right),
        )
        .await?
        .context("it was just there")
    }

    /// Waits until a field holds a text.
    ///
    /// # Errors
    /// When it does not.
    pub async fn holds(&self, id: &str, text: &str) -> Result<()> {
        self.wait(
            &format!("#{id} to hold “{text}”"),
            async || self.value(id).await,
            |seen| seen == text,
        )
        .await
        .map(drop)
    }

    /// Waits until the strip at the top says what the core says.
    ///
    /// # Errors
    /// When it says something else.
    pub async fn says(&self, figures: &Figures) -> Result<()> {
        self.wait(
            &format!(
                "the verdict to be {}, {}, {}",
                figures.outcome, figures.margin, figures.walk_away
            ),
            async || {
                Ok((
                    self.text("verdict").await?,
                    self.text("margin").await?,
                    self.text("walk-away-price").await?,
                ))
            },
            |(verdict, margin, walk_away)| {
                let stale = verdict.as_deref().is_none_or(|v| v.contains("Last good"));
                !stale
                    && verdict
                        .as_deref()
                        .is_some_and(|v| v.starts_with(figures.outcome))
                    && margin.as_deref() == Some(&figures.margin)
                    && walk_away.as_deref() == Some(&figures.walk_away)
            },
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
        let since = Instant::now();
        loop {
            let seen = look().await?;
            if is_right(&seen) {
                return Ok(seen);
            }
            if since.elapsed() > PATIENCE {
                bail!("waited in vain for {what}; seen last: {seen:?}");
            }
            tokio::time::sleep(GLANCE).await;
        }
    }

    // Doing.

    /// An element of the page.
    ///
    /// # Errors
    /// When there is none.
    pub async fn element(&self, by: By) -> Result<WebElement> {
        let what = format!("{by:?}");
        self.session.find(by).await.with_context(|| what)
    }

    /// Taps an element, scrolling it to the middle of the screen first.
    ///
    /// # Errors
    /// When there is none, or something lies over it.
    pub async fn tap(&self, by: By) -> Result<()> {
        let what = format!("{by:?} cannot be tapped");
        let element = self.element(by).await?;
        self.session
            .execute(
                "arguments[0].scrollIntoView({ block: 'center' })",
                vec![element.to_json()?],
            )
            .await?;
        element.click().await.with_context(|| what)
    }

    /// Types into a field in place of all that it holds.
    ///
    /// # Errors
    /// When it cannot be typed into.
    pub async fn type_over(&self, id: &str, text: &str) -> Result<()> {
        let field = self.element(By::Id(id)).await?;
        let all = Key::Control + "a";
        field.send_keys(all).await?;
        if text.is_empty() {
            field.send_keys(Key::Delete + "").await?;
        } else {
            field.send_keys(text).await?;
        }
        self.holds(id, text).await
    }

    /// Puts a text into a field at one stroke, as from the clipboard, in place of all that it
    /// holds.
    ///
    /// # Errors
    /// When there is no such field.
    pub async fn paste_over(&self, id: &str, text: &str) -> Result<()> {
        self.run(
            "const [id, text] = arguments;
             const field = document.getElementById(id);
             field.focus();
             field.select();
             document.execCommand(text === '' ? 'delete' : 'insertText', false, text)",
            json!([id, text]),
        )
        .await?;
        self.holds(id, text).await
    }

    /// Presses keys wherever the focus is.
    ///
    /// # Errors
    /// When the browser refuses.
    pub async fn press(&self, keys: impl Into<thirtyfour::TypingData> + Send) -> Result<()> {
        let keys: thirtyfour::TypingData = keys.into();
        Ok(self
            .session
            .action_chain()
            .send_keys(keys)
            .perform()
            .await?)
    }

    /// The id of the element that has the focus; empty where it has none.
    ///
    /// # Errors
    /// When the browser does not answer.
    pub async fn focus(&self) -> Result<String> {
        let id = self
            .run("return document.activeElement?.id ?? ''", json!([]))
            .await?;
        Ok(id.as_str().unwrap_or_default().to_owned())
    }

    /// Chooses from a list by the id of the choice.
    ///
    /// # Errors
    /// When there is no such list or choice.
    pub async fn choose(&self, by: By, choice: &str) -> Result<()> {
        let list = SelectElement::new(&self.element(by).await?).await?;
        list.select_by_value(choice).await?;
        Ok(())
    }

    /// Moves the stock control to a percentage of the way to grass-fed, in steps of five.
    ///
    /// # Errors
    /// When it does not get there.
    pub async fn move_stock(&self, grass_percent: u8) -> Result<()> {
        ensure!(grass_percent % 5 == 0 && grass_percent <= 100, "in steps");
        let control = self.element(By::Id("stock")).await?;
        control.send_keys(Key::Home + "").await?;
        for _ in 0..grass_percent / 5 {
            control.send_keys(Key::Right + "").await?;
        }
        self.holds("stock", &grass_percent.to_string()).await
    }

    /// Goes back to what stood in a field before anything was typed into it, if anything was.
    ///
    /// # Errors
    /// When the field does not go back.
    pub async fn forget(&self, id: &str) -> Result<()> {
        let button =
            format!("//input[@id='{id}']/ancestor::*[button][1]/button[starts-with(., 'use ')]");
        if let Ok(button) = self.session.find(By::XPath(&button)).await {
            button.click().await?;
        }
        self.wait(
            &format!("#{id} to go back"),
            async || {
                self.run(
                    "return document.getElementById(arguments[0]).classList.contains('stand-in')",
                    json!([id]),
                )
                .await
            },
            |is_stand_in| *is_stand_in == true,
        )
        .await
        .map(drop)
    }

    /// Types and chooses all that makes up a side, the board included.
    ///
    /// # Errors
    /// When something cannot be typed or chosen.
    pub async fn enter(&self, side: &Side<'_>) -> Result<()> {
        self.go_to(Place::Side).await?;
        self.choose(By::Id("side-weight-unit"), side.weight_unit)
            .await?;
        self.type_over("side-weight", side.weight).await?;
        self.type_over("side-price", side.price).await?;
        self.move_stock(side.grass_percent).await?;
        self.choose(By::Id("cut-plan"), side.plan).await?;
        match side.labour_minutes {
            Some(minutes) => self.type_over("labour-minutes", minutes).await?,
            None => self.forget("labour-minutes").await?,
        }
        self.type_over("labour-rate", side.labour_rate).await?;
        self.type_over("target-margin", side.target_margin).await?;
        if !side.board.is_empty() {
            self.go_to(Place::Prices).await?;
            for (product, price) in side.board {
                self.type_over(&format!("price-{product}"), price).await?;
            }
        }
        Ok(())
    }

    // The browser itself.

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

    /// A picture of the screen, as a PNG file.
    ///
    /// # Errors
    /// When the browser refuses.
    pub async fn picture(&self) -> Result<Vec<u8>> {
        Ok(self.session.screenshot_as_png().await?)
    }

    /// Calls on what the browser has for developers (the Chrome DevTools Protocol).
    async fn developer(&self, method: &str, parameters: Value) -> Result<()> {
        self.session
            .cdp()
            .send_raw(method, parameters)
            .await
            .map(drop)
            .with_context(|| method.to_owned())
    }
}
