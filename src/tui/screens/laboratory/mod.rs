//! The screens of the laboratory's record: who is here, what is to do, what was signed.

pub mod board;
pub mod founding;
pub mod opening;
pub mod sign_in;
pub mod signing;
pub mod ways;
pub mod welcome;
