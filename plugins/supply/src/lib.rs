//! baybrief-plugin-supply
