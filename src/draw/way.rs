/// Which way a ring goes through another, for a maker who looks at the front.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Way {
    /// From back to front.
    Up,
    /// From front to back.
    Down,
}

impl Way {
    /// The word for it, as in the notation.
    pub fn word(self) -> &'static str {
        match self {
            Self::Up => "up",
            Self::Down => "down",
        }
    }

    /// The opposite way.
    pub fn turned(self) -> Self {
        match self {
            Self::Up => Self::Down,
            Self::Down => Self::Up,
        }
    }
}
