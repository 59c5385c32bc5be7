//! baybrief-casebook
