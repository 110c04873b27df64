//! Faults that a test gathers, so that it tells all of them and not the first.

/// Fails with every fault if there is one.
#[track_caller]
pub(crate) fn no_faults(faults: &[String]) {
    assert!(
        faults.is_empty(),
        "{} faults:\n{}",
        faults.len(),
        faults.join("\n")
    );
}
