//! The whole vocabulary of reports.

use super::figure::Figure;

/// One block of a report. Every text in it is worded and safe to show.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Block {
    /// A heading.
    Heading {
        /// 1 for the report's own title, 2 for its sections, 3 below.
        level: u8,
        /// What it says.
        text: String,
    },
    /// A paragraph.
    Paragraph(String),
    /// A list.
    Items(Vec<Item>),
    /// A table; every row has as many cells as the head.
    Table {
        /// The head of each column.
        head: Vec<String>,
        /// The rows.
        rows: Vec<Vec<String>>,
    },
    /// A drawing.
    Figure(Figure),
    /// What has to be known before anything hazardous is done or anything modelled is believed.
    Caution(String),
}

/// One entry of a list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Item {
    /// What it says.
    pub text: String,
    /// What belongs under it.
    pub children: Vec<Item>,
}

impl Item {
    /// An entry with nothing under it.
    #[must_use]
    pub fn new(text: impl Into<String>) -> Item {
        Item {
            text: text.into(),
            children: Vec::new(),
        }
    }

    /// The same entry with these under it.
    #[must_use]
    pub fn with(mut self, children: Vec<Item>) -> Item {
        self.children = children;
        self
    }
}

impl Block {
    /// A heading of a level.
    #[must_use]
    pub fn heading(level: u8, text: impl Into<String>) -> Block {
        Block::Heading {
            level,
            text: text.into(),
        }
    }
}
