//! The texts that travel inside the program: learning modules and locales, as `src/build.rs` found them.
//!
//! Stands apart because two rooms need it: `text` reads the locales, `app` offers the modules as one shelf among others.
//! Left out: reading them. A table of paths and texts is all there is.

include!(concat!(env!("OUT_DIR"), "/shipped.rs"));

/// A file that was built in: its path below the project, with forward slashes, and its text.
pub type Shipped = (&'static str, &'static str);

/// Lists the shipped files below `modules/`, sorted by path.
#[must_use]
pub fn modules() -> &'static [Shipped] {
    MODULE_FILES
}

/// Lists the shipped files below `locales/`, sorted by path.
#[must_use]
pub fn locales() -> &'static [Shipped] {
    LOCALE_FILES
}

#[cfg(test)]
mod tests {
    #[test]
    fn the_source_language_is_on_board() {
        assert!(
            super::locales()
                .iter()
                .any(|(path, _)| path.starts_with("locales/en-US/"))
        );
    }

    #[test]
    fn paths_are_sorted_and_portable() {
        for table in [super::modules(), super::locales()] {
            assert!(!table.is_empty());
            assert!(table.is_sorted());
            assert!(table.iter().all(|(path, _)| !path.contains('\\')));
        }
    }
}
