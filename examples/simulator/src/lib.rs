//! baybrief-simulator
