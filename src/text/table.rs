//! Tables for people: without lines for a terminal, or in Markdown.

use comfy_table::{Cell, CellAlignment, Table, presets};

/// How tables are written.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Layout {
    /// For a terminal, without lines.
    #[default]
    Plain,
    /// In Markdown.
    Markdown,
}

impl Layout {
    /// A heading of a text.
    pub fn heading(self, words: &str) -> String {
        match self {
            Self::Plain => format!("{words}\n\n"),
            Self::Markdown => format!("## {words}\n\n"),
        }
    }

    /// Sentences, a line each; of their own in Markdown as well.
    pub fn lines(self, lines: &str) -> String {
        match self {
            Self::Plain => lines.to_owned(),
            Self::Markdown => lines.lines().map(|line| format!("- {line}\n")).collect(),
        }
    }
}

/// A table; columns of words stand on the left of their width, columns of numbers on the right.
pub struct Grid {
    layout: Layout,
    table: Table,
    numbers: Vec<bool>,
}

impl Grid {
    /// A table with these headings.
    pub fn new(layout: Layout) -> Self {
        let mut table = Table::new();
        table.load_style(if layout == Layout::Markdown { presets::ASCII_MARKDOWN } else { presets::NOTHING });
        Self { layout, table, numbers: Vec::new() }
    }

    /// Adds columns of words.
    #[must_use]
    pub fn words<S: AsRef<str>>(self, headings: impl IntoIterator<Item = S>) -> Self {
        self.columns(headings, false)
    }

    /// Adds columns of numbers.
    #[must_use]
    pub fn numbers<S: AsRef<str>>(self, headings: impl IntoIterator<Item = S>) -> Self {
        self.columns(headings, true)
    }

    fn columns<S: AsRef<str>>(mut self, headings: impl IntoIterator<Item = S>, numbers: bool) -> Self {
        let mut cells: Vec<Cell> =
            self.table.header().map(|row| row.cell_iter().cloned().collect()).unwrap_or_default();
        for heading in headings {
            cells.push(self.cell(heading.as_ref(), numbers));
            self.numbers.push(numbers);
        }
        self.table.set_header(cells);
        self
    }

    fn cell(&self, words: &str, number: bool) -> Cell {
        let words = if self.layout == Layout::Markdown { words.replace('|', "\\|") } else { words.to_owned() };
        let cell = Cell::new(words);
        if number { cell.set_alignment(CellAlignment::Right) } else { cell }
    }

    /// Adds a row, a cell for each column.
    pub fn row(&mut self, cells: impl IntoIterator<Item = String>) {
        let cells: Vec<Cell> =
            cells.into_iter().zip(&self.numbers).map(|(words, number)| self.cell(&words, *number)).collect();
        self.table.add_row(cells);
    }

    /// The table, without blanks at the ends of lines, and an empty line.
    pub fn text(mut self) -> String {
        let mut text = String::new();
        if self.layout == Layout::Markdown {
            for (number, line) in self.table.lines().enumerate() {
                text += &if number == 1 { aligned(&line, &self.numbers) } else { line };
                text.push('\n');
            }
            return text + "\n";
        }
        let last = self.table.column_count().saturating_sub(1);
        for (number, column) in self.table.column_iter_mut().enumerate() {
            column.set_padding((0, if number == last { 0 } else { 2 }));
        }
        for line in self.table.lines() {
            text += line.trim_end();
            text.push('\n');
        }
        text + "\n"
    }
}

/// The line below the headings, which says that numbers stand on the right.
fn aligned(line: &str, numbers: &[bool]) -> String {
    let mut numbers = numbers.iter();
    let columns = line.trim_matches('|').split('|').map(|dashes| match (numbers.next(), dashes.strip_suffix('-')) {
        (Some(true), Some(shorter)) => format!("{shorter}:"),
        _ => dashes.to_owned(),
    });
    format!("|{}|", columns.collect::<Vec<_>>().join("|"))
}
