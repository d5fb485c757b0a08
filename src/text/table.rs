//! Tables for people: without lines for a terminal, or in Markdown.

use comfy_table::{Cell, CellAlignment, Table, TableStyle, presets};

/// How tables are written.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Layout {
    /// For a terminal, without lines.
    #[default]
    Plain,
    /// In Markdown, with columns of even width.
    Markdown,
    /// In Markdown, with cells as wide as their words: for long cells.
    CompactMarkdown,
}

impl Layout {
    /// A heading of a text.
    pub fn heading(self, words: &str) -> String {
        match self {
            Self::Plain => format!("{words}\n\n"),
            Self::Markdown | Self::CompactMarkdown => format!("## {words}\n\n"),
        }
    }

    /// Lines of text; in Markdown a list, so that they stay separate.
    pub fn lines(self, lines: &str) -> String {
        match self {
            Self::Plain => lines.to_owned(),
            Self::Markdown | Self::CompactMarkdown => lines.lines().map(|line| format!("- {line}\n")).collect(),
        }
    }
}

/// What a column holds.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Column {
    /// Words, aligned to the left.
    Words,
    /// Numbers, aligned to the right.
    Numbers,
}

/// A table; words are aligned to the left of their column, numbers to the right.
pub struct Grid {
    layout: Layout,
    columns: Vec<Column>,
    headings: Vec<String>,
    rows: Vec<Vec<String>>,
}

impl Grid {
    /// A table without columns.
    pub fn new(layout: Layout) -> Self {
        Self { layout, columns: Vec::new(), headings: Vec::new(), rows: Vec::new() }
    }

    /// Adds columns of words.
    #[must_use]
    pub fn words<S: AsRef<str>>(self, headings: impl IntoIterator<Item = S>) -> Self {
        self.with(Column::Words, headings)
    }

    /// Adds columns of numbers.
    #[must_use]
    pub fn numbers<S: AsRef<str>>(self, headings: impl IntoIterator<Item = S>) -> Self {
        self.with(Column::Numbers, headings)
    }

    fn with<S: AsRef<str>>(mut self, column: Column, headings: impl IntoIterator<Item = S>) -> Self {
        for heading in headings {
            self.headings.push(self.escaped(heading.as_ref()));
            self.columns.push(column);
        }
        self
    }

    fn escaped(&self, words: &str) -> String {
        if self.layout == Layout::Plain { words.to_owned() } else { words.replace('|', "\\|") }
    }

    /// Adds a row, a cell for each column.
    pub fn row(&mut self, cells: impl IntoIterator<Item = String>) {
        let cells = cells.into_iter().zip(&self.columns).map(|(words, _)| self.escaped(&words)).collect();
        self.rows.push(cells);
    }

    /// The table, without blanks at the ends of lines, and an empty line.
    pub fn text(self) -> String {
        let lines = match self.layout {
            Layout::Plain => self.plain(),
            Layout::Markdown => self.markdown(),
            Layout::CompactMarkdown => self.compact(),
        };
        lines.iter().map(|line| format!("{}\n", line.trim_end())).collect::<String>() + "\n"
    }

    fn plain(&self) -> Vec<String> {
        let mut table = self.table(presets::NOTHING);
        let last = table.column_count().saturating_sub(1);
        for (number, column) in table.column_iter_mut().enumerate() {
            column.set_padding((0, if number == last { 0 } else { 2 }));
        }
        table.lines().collect()
    }

    fn markdown(&self) -> Vec<String> {
        let mut lines: Vec<String> = self.table(presets::ASCII_MARKDOWN).lines().collect();
        if let Some(line) = lines.get_mut(1) {
            let dashes = line.trim_matches('|').split('|').zip(&self.columns);
            let aligned: Vec<String> = dashes.map(|(dashes, column)| aligned(dashes, *column)).collect();
            *line = format!("|{}|", aligned.join("|"));
        }
        lines
    }

    fn compact(&self) -> Vec<String> {
        let line = |cells: &[String]| format!("| {} |", cells.join(" | "));
        let dashes: Vec<String> = self.columns.iter().map(|column| aligned("---", *column)).collect();
        let above = [line(&self.headings), line(&dashes)];
        above.into_iter().chain(self.rows.iter().map(|row| line(row))).collect()
    }

    fn table(&self, style: TableStyle) -> Table {
        let cells = |row: &[String]| -> Vec<Cell> {
            let cells = row.iter().zip(&self.columns);
            cells
                .map(|(words, column)| match column {
                    Column::Words => Cell::new(words),
                    Column::Numbers => Cell::new(words).set_alignment(CellAlignment::Right),
                })
                .collect()
        };
        let mut table = Table::new();
        table.load_style(style);
        table.set_header(cells(&self.headings));
        for row in &self.rows {
            table.add_row(cells(row));
        }
        table
    }
}

/// The dashes below a heading; a colon at their end says that numbers are aligned to the right.
fn aligned(dashes: &str, column: Column) -> String {
    match (column, dashes.strip_suffix('-')) {
        (Column::Numbers, Some(shorter)) => format!("{shorter}:"),
        _ => dashes.to_owned(),
    }
}
