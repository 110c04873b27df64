//! Mistakes that are put right in time.
