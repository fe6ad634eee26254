//! The way back and forth over all that was typed and chosen since the page
//! was opened.

use std::rc::Rc;

use draft::{Draft, Field};

/// How many steps back are kept.
const LONGEST: usize = 300;

/// A step that the next one of the same kind goes on with.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Stretch {
    /// Typing into a field.
    Typing(Field),
    /// Moving the stock control.
    Stock,
}

/// Drafts before the one in force, and those that were left by going back.
#[derive(Clone, Debug, Default)]
pub struct History {
    past: Vec<Rc<Draft>>,
    future: Vec<Rc<Draft>>,
    /// What the last step may go on with.
    stretch: Option<Stretch>,
}

impl History {
    /// Whether there is a way back.
    pub fn can_undo(&self) -> bool {
        !self.past.is_empty()
    }

    /// Whether there is a way forth.
    pub fn can_redo(&self) -> bool {
        !self.future.is_empty()
    }

    /// Takes a step from `before`. What is typed into one field without
    /// anything between is a single step, and so is a move of the stock control.
    pub fn step(&mut self, before: &Rc<Draft>, stretch: Option<Stretch>) {
        let goes_on = stretch.is_some() && self.stretch == stretch;
        self.stretch = stretch;
        self.future.clear();
        if goes_on {
            return;
        }
        if self.past.len() == LONGEST {
            self.past.remove(0);
        }
        self.past.push(Rc::clone(before));
    }

    /// Goes back from `now`.
    pub fn undo(&mut self, now: &Rc<Draft>) -> Option<Rc<Draft>> {
        let before = self.past.pop()?;
        self.stretch = None;
        self.future.push(Rc::clone(now));
        Some(before)
    }

    /// Goes forth again from `now`.
    pub fn redo(&mut self, now: &Rc<Draft>) -> Option<Rc<Draft>> {
        let after = self.future.pop()?;
        self.stretch = None;
        self.past.push(Rc::clone(now));
        Some(after)
    }
}
