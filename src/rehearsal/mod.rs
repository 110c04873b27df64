//! One run over a plan: what was done set against what the plan allows.

pub mod align;
