//! What holds whatever is done.
