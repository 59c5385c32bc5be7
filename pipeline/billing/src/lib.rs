//! baybrief-billing
