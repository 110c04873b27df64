//! A program that asks line by line: reading what it prints until it asks for the next one.

use std::io::Read;

/// Reads until the program asks for the next line. Returns whether it did, rather than end.
pub(crate) fn asks(output: &mut impl Read) -> bool {
    let mut last = [0_u8; 2];
    let mut one = [0_u8; 1];
    loop {
        match output.read(&mut one) {
            Ok(1) => last = [last[1], one[0]],
            _ => return false,
        }
        if last == *b"> " {
            return true;
        }
    }
}
