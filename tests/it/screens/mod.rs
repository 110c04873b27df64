//! The screens as a person meets them: what they look like, what keys do, and what never happens.

mod front;
mod guided;
mod keys;
mod pictures;
mod player;
mod scenes;
mod sittings;
