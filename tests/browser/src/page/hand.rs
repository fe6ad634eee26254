//! What a person does: tap, type, choose.

use anyhow::{Context, Result, ensure};
use serde_json::json;
use thirtyfour::components::SelectElement;
use thirtyfour::{By, Key, WebElement};

use super::{Page, Place};
use crate::{Make, Side};

impl Page {
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
        if self.make() == Make::WebKit {
            return self.type_over_in_webkit(id, text).await;
        }
        let field = self.element(By::Id(id)).await?;
        field.send_keys(Key::Control + "a").await?;
        if text.is_empty() {
            field.send_keys(Key::Delete + "").await?;
        } else {
            field.send_keys(text).await?;
        }
        self.holds(id, text).await
    }

    /// As [`Self::type_over`]. The driver goes on before the keys that mark all have done their work,
    /// and before the page has drawn what was chosen last; then the text lands behind what stands
    /// there, and is typed once more, as a person would.
    async fn type_over_in_webkit(&self, id: &str, text: &str) -> Result<()> {
        let field = self.element(By::Id(id)).await?;
        for _ in 0..3 {
            self.run(
                "const field = document.getElementById(arguments[0]);
                 field.focus();
                 field.select()",
                json!([id]),
            )
            .await?;
            if text.is_empty() {
                field.send_keys(Key::Delete + "").await?;
            } else {
                field.send_keys(text).await?;
            }
            if self.value(id).await? == text {
                break;
            }
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

    /// Chooses from a list by the id of the choice, unfolding first what the list is folded away in
    /// and scrolling it to the middle of the screen.
    ///
    /// # Errors
    /// When there is no such list or choice.
    pub async fn choose(&self, by: By, choice: &str) -> Result<()> {
        let list = self.element(by).await?;
        self.session
            .execute(
                "for (let fold = arguments[0]; !arguments[0].checkVisibility()
                     && (fold = fold.parentElement.closest('details')) !== null;) {
                     fold.open = true;
                 }
                 arguments[0].scrollIntoView({ block: 'center' })",
                vec![list.to_json()?],
            )
            .await?;
        let list = SelectElement::new(&list).await?;
        list.select_by_value(choice).await?;
        Ok(())
    }

    /// Moves the stock control to a percentage of the way to grass-fed, in steps of five.
    ///
    /// # Errors
    /// When it does not get there.
    pub async fn move_stock(&self, grass_percent: u8) -> Result<()> {
        ensure!(
            grass_percent.is_multiple_of(5) && grass_percent <= 100,
            "in steps"
        );
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
        let is_stand_in = async || {
            self.run(
                "return document.getElementById(arguments[0]).classList.contains('stand-in')",
                json!([id]),
            )
            .await
        };
        if is_stand_in().await? == true {
            return Ok(());
        }
        self.tap(By::XPath(format!(
            "//input[@id='{id}']/ancestor::div[contains(@class, 'field')]//button"
        )))
        .await?;
        self.wait(&format!("#{id} to go back"), is_stand_in, |is| *is == true)
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
}
