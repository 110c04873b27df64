//! The register of people.
