//! baybrief-end-to-end
