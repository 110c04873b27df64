//! The simulated bench: what happens to parts, baths, plates and air while somebody works.

pub mod physics;
