//! baybrief-assess
