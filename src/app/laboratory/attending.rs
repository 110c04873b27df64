//! Who sits at a shared workstation, and for how long without a key before somebody has to show again who they are.

use crate::units::{Millis, PersonCode};

/// So long without a key, and whoever comes next shows who they are. Our default.
pub const IDLE_MOST: Millis = Millis(10 * 60 * 1000);

/// A person who is signed in. Signing in opens screens and nothing else: every signature asks for person and passphrase again.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Attendance {
    person: PersonCode,
    last_key: Millis,
    is_locked: bool,
}

impl Attendance {
    /// Somebody signed in just now.
    #[must_use]
    pub fn of(person: PersonCode, now: Millis) -> Attendance {
        Attendance {
            person,
            last_key: now,
            is_locked: false,
        }
    }

    /// Who it is.
    #[must_use]
    pub fn person(&self) -> PersonCode {
        self.person
    }

    /// Whether nobody has been there for too long. It stays so until somebody signs in.
    pub fn looks(&mut self, now: Millis) -> bool {
        self.is_locked |= now.0.saturating_sub(self.last_key.0) >= IDLE_MOST.0;
        self.is_locked
    }

    /// A key was pressed. Returns whether the person still counts as being there.
    pub fn key(&mut self, now: Millis) -> bool {
        if self.looks(now) {
            return false;
        }
        self.last_key = now;
        true
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn whoever_was_away_for_too_long_has_to_sign_in_again() {
        let person = "P-HE6BSF".parse().unwrap();
        let mut there = Attendance::of(person, Millis(5));
        assert!(there.key(Millis(IDLE_MOST.0)));
        assert!(!there.looks(Millis(2 * IDLE_MOST.0 - 1)));
        assert!(!there.key(Millis(2 * IDLE_MOST.0)));
        // A clock that is looked at later does not unlock it.
        assert!(!there.key(Millis(0)));
        assert!(there.looks(Millis(0)));
    }
}
