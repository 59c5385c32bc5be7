//! Every rule of the assessment against decibans worked out by hand.
//!
//! A deciban is 10 log10 of the likelihood ratio (I. J. Good): independent ratios multiply, decibans add; 20:1 is 13.01,
//! 150:1 is 21.76 (Kass and Raftery 1995 name them strong and very strong). Sheets are invented and written as a system
//! writes them.

mod clearing;
mod conclusions;
mod external;
mod job;
mod repairs;
mod weights;
