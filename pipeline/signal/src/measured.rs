//! A measured value.

/// A value with its standard uncertainty and the span that it was measured over.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measured {
    /// The value, in the unit that the function names.
    pub value: f64,
    /// Standard uncertainty (k = 1; GUM), in the same unit.
    pub uncertainty: f64,
    /// Start of the span, s.
    pub from_s: f64,
    /// End of the span, s.
    pub to_s: f64,
}
