//! What a model refuses.
