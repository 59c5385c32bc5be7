//! baybrief-intake
