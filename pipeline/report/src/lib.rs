//! baybrief-report
