//! baybrief-plugin-gear-train
