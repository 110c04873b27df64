//! The screens of the laboratory's record: who is here, what is to do, what was signed.

mod answers;
pub mod board;
pub mod deeds;
mod form;
pub mod sign_in;
pub mod signing;
