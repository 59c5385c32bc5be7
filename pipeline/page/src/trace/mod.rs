//! Traces of recordings: a min/max pyramid of each channel, kept on disk, and the part of it that a view asks for.

mod compare;
mod pyramid;
mod view;

pub use compare::{Compare, compared};
pub use pyramid::{Pyramid, build};
pub use view::{View, view};
