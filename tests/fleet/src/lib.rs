//! Real servers for the tests of a fleet, a proxy that breaks connections, a stub for the work, and a checker that looks
//! at nothing but what the servers have.

pub mod check;
pub mod histories;
pub mod proxy;
pub mod servers;
pub mod stub;
