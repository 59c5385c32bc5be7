//! baybrief-formats
