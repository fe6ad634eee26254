//! The pieces an answer is made of. Places in charts are in thousandths of
//! the chart's width or height.

use crate::answer::Write;

/// A piece of an answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Block {
    /// A sentence.
    Text(Tone, String),
    /// Figures that stand out.
    Figures(Vec<Figure>),
    /// A table: caption, heads, rows. The first cell of a row is its head.
    Table(String, Vec<String>, Vec<Vec<String>>),
    /// A table behind a fold that carries its caption.
    FoldedTable(String, Vec<String>, Vec<Vec<String>>),
    /// Bars about a base line: caption, place of the base line, bars.
    Bars(String, u16, Vec<Bar>),
    /// Columns side by side: caption, what stands below the left end and the right
    /// end, columns.
    Columns(String, [String; 2], Vec<Column>),
    /// Two inputs against each other: caption, what stands across the head and
    /// down the side, heads, rows.
    Grid(String, [String; 2], Vec<String>, Vec<GridRow>),
    /// Something to accept: label, what it writes.
    Offer(String, Vec<Write>),
}

/// How a sentence is meant.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tone {
    /// What the panel has to say.
    Finding,
    /// How it is to be read.
    Note,
    /// Something stands in the way.
    Trouble,
}

/// A figure that stands out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Figure {
    /// What it is.
    pub label: String,
    /// Itself.
    pub text: String,
    /// What it is held against.
    pub beside: String,
}

/// A bar from low to high.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bar {
    /// Whose.
    pub label: String,
    /// Where it starts and ends; the end that the low value gives comes first.
    pub ends: [u16; 2],
    /// What its ends stand for, in the same order.
    pub texts: [String; 2],
}

/// A column of a histogram.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Column {
    /// How high it is.
    pub height: u16,
    /// Whether it counts cases in which the side does not pay.
    pub falls_short: bool,
}

/// A row of a grid.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct GridRow {
    /// Its head.
    pub label: String,
    /// Its cells.
    pub cells: Vec<Cell>,
}

/// A cell of a grid.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cell {
    /// What it says.
    pub text: String,
    /// Whether the side pays there.
    pub pays: bool,
}
