//! Systems: what a library declares, what its sheets ask for and what its sentences say agree, and the engine names none
//! of it.

mod cautions;
mod declarations;
mod engine;
mod guide;
mod sentences;
mod tree;
