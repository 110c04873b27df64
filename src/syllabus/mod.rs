//! Learning modules: what a trainer writes, from the bytes of a file to what the rest of the program works with.

pub mod read;
