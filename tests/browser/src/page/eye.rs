//! What a person sees.

use anyhow::{Context, Result};
use serde_json::json;

use super::Page;
use crate::Figures;

impl Page {
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

    /// The text of all that `selector` finds, a line each, whether it is folded away or not;
    /// nothing where it finds nothing.
    ///
    /// # Errors
    /// When the page does not answer.
    pub async fn texts(&self, selector: &str) -> Result<String> {
        let texts = self
            .run(
                "return [...document.querySelectorAll(arguments[0])]
                     .map((found) => found.textContent).join('\\n')",
                json!([selector]),
            )
            .await?;
        Ok(texts.as_str().unwrap_or_default().to_owned())
    }

    /// Waits until what `selector` finds reads right.
    ///
    /// # Errors
    /// When it never does.
    pub async fn reads(&self, selector: &str, is_right: impl Fn(&str) -> bool) -> Result<String> {
        self.wait(
            selector,
            async || self.texts(selector).await,
            |text| is_right(text),
        )
        .await
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
}
