//! The screens as a person meets them: what they look like, what keys do, and what never happens.

mod album;
mod any_keys;
mod boxes;
mod coming_back;
mod files;
mod form_hints;
mod forms;
mod front;
mod guided;
mod hints;
mod hostile_modules;
mod keys;
mod laboratory;
mod longer_words;
mod own_modules;
mod own_profiles;
mod pictures;
mod places;
mod player;
mod scenes;
mod sittings;
mod watching;
