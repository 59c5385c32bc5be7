//! baybrief-plugin-codes
