//! baybrief-plugin-signal-quality
