//! What is answered.

use std::collections::BTreeMap;

use crate::block::Block;
use crate::request::Panel;

/// The answer to a request, or a first answer that a better one follows.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// Whose question.
    pub panel: Panel,
    /// What was typed and chosen in the panel, as it was asked.
    pub entries: BTreeMap<String, String>,
    /// What can be set in the panel.
    pub controls: Vec<Control>,
    /// What to show.
    pub blocks: Vec<Block>,
    /// Whether nothing better follows.
    pub is_final: bool,
}

/// Something that can be set in a panel.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Control {
    /// Its id, the key of what is typed into it.
    pub id: String,
    /// Its label.
    pub label: String,
    /// Its unit.
    pub unit: String,
    /// What stands in it until something is typed.
    pub text: String,
    /// What it is, in one line.
    pub hint: String,
    /// Why what was typed cannot be read.
    pub fault: Option<String>,
    /// How it is set.
    pub kind: ControlKind,
}

/// How a control is set.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ControlKind {
    /// By typing.
    Typed,
    /// By typing, or by a slider between two numbers in steps of a third.
    Slider([String; 3]),
    /// By choosing one of these: value and name.
    Choice(Vec<(String, String)>),
}

/// Something that an offer writes into the plan when it is accepted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Write {
    /// Text into the field of this id.
    Field(String, String),
    /// Percent of the way from grain-fed to grass-fed.
    GrassPercent(u8),
    /// A way for a part: part id, way id.
    Way(String, String),
    /// A whole draft in its kept form, in the place of the one there is.
    Draft(String),
}
