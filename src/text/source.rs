use super::span::Span;
use thiserror::Error;

/// The longest weave file that is read, in bytes (1 MiB, some 20,000 lines).
pub const MAX_BYTES: usize = 1024 * 1024;

/// Why bytes are not a weave text.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum SourceError {
    /// More than [`MAX_BYTES`].
    #[error("the file is longer than 1 MB; a weave fits in a page or two, and longer files are not read")]
    TooLong,
    /// Not UTF-8; the place of the first fault.
    #[error("line {line} is not UTF-8 text (byte {byte}); save the file as plain text in UTF-8")]
    NotUtf8 {
        /// Line, counted from 1.
        line: usize,
        /// Byte, counted from 0.
        byte: usize,
    },
}

/// One text with a name, as it was read.
#[derive(Clone, Debug)]
pub struct Source {
    name: String,
    text: String,
    line_starts: Vec<u32>,
}

impl Source {
    /// A source from text already in memory. `name` is what messages call it.
    pub fn new(name: impl Into<String>, text: impl Into<String>) -> Self {
        let text = text.into();
        let starts = text.bytes().enumerate().filter(|(_, b)| *b == b'\n').map(|(i, _)| i + 1);
        let line_starts = std::iter::once(0).chain(starts).map(|i| u32::try_from(i).unwrap_or(u32::MAX)).collect();
        Self { name: name.into(), text, line_starts }
    }

    /// A source from the bytes of a file.
    ///
    /// # Errors
    /// [`SourceError`] when the bytes are too many or not UTF-8.
    pub fn from_bytes(name: impl Into<String>, bytes: Vec<u8>) -> Result<Self, SourceError> {
        if bytes.len() > MAX_BYTES {
            return Err(SourceError::TooLong);
        }
        String::from_utf8(bytes).map(|text| Self::new(name, text)).map_err(|e| {
            let byte = e.utf8_error().valid_up_to();
            let line = e.as_bytes().iter().take(byte).filter(|b| **b == b'\n').count() + 1;
            SourceError::NotUtf8 { line, byte }
        })
    }

    /// What messages call this source: its path, or `library: NAME`.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// The whole text.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// Line and column of a byte, both from 1; a column is a character, and a byte-order mark is not counted.
    pub fn line_column(&self, byte: u32) -> (usize, usize) {
        let line = self.line_starts.partition_point(|start| *start <= byte).max(1);
        let start = self.line_starts.get(line - 1).copied().unwrap_or(0) as usize;
        let before = self.text.as_bytes().get(start..byte as usize).unwrap_or_default();
        // A character's first byte is any that does not continue one.
        let characters = before.iter().filter(|b| **b & 0xC0 != 0x80).count();
        (line, characters + 1 - usize::from(before.starts_with("\u{FEFF}".as_bytes())))
    }
}

/// Every text of one compilation: number 0 is the file asked for, and its bases follow.
#[derive(Clone, Debug, Default)]
pub struct Sources(Vec<Source>);

impl Sources {
    /// The number the next source will have.
    pub fn next_number(&self) -> u16 {
        u16::try_from(self.0.len()).unwrap_or(u16::MAX)
    }

    /// Adds a source and returns its number.
    pub fn add(&mut self, source: Source) -> u16 {
        let number = self.next_number();
        self.0.push(source);
        number
    }

    /// The source with this number.
    pub fn get(&self, number: u16) -> Option<&Source> {
        self.0.get(usize::from(number))
    }

    /// The words that a span covers; empty where it is outside of the text.
    pub fn words(&self, span: Span) -> &str {
        self.get(span.source).and_then(|s| s.text.get(span.range())).unwrap_or("")
    }

    /// The name of a span's source, then line and column (from 1) of its start and its end.
    pub fn place(&self, span: Span) -> (&str, (usize, usize), (usize, usize)) {
        self.get(span.source)
            .map_or(("?", (1, 1), (1, 1)), |s| (s.name(), s.line_column(span.start), s.line_column(span.end)))
    }
}
