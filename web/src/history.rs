//! The way back and forth over all that was typed and chosen since the page
//! was opened.

use std::rc::Rc;

use draft::{Draft, Field};

/// How many steps back are kept.
const LONGEST: usize = 300;

/// Drafts before the one in force, and those that were left by going back.
#[derive(Clone, Debug, Default)]
pub struct History {
    past: Vec<Rc<Draft>>,
    future: Vec<Rc<Draft>>,
    /// The field of the last step, where that was typing.
    typed: Option<Field>,
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
    /// anything between is a single step.
    pub fn step(&mut self, before: &Rc<Draft>, typed: Option<Field>) {
        let goes_on = typed.is_some() && self.typed == typed;
        self.typed = typed;
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
        self.typed = None;
        self.future.push(Rc::clone(now));
        Some(before)
    }

    /// Goes forth again from `now`.
    pub fn redo(&mut self, now: &Rc<Draft>) -> Option<Rc<Draft>> {
        let after = self.future.pop()?;
        self.typed = None;
        self.past.push(Rc::clone(now));
        Some(after)
    }
}
