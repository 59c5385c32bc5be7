//! baybrief-plugin-host
