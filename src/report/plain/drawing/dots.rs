//! A field of braille dots, two across and four down in each cell.

/// Dots in a cell, across.
pub(super) const ACROSS: usize = 2;

/// Dots in a cell, down.
pub(super) const DOWN: usize = 4;

/// The braille pattern without a dot (Unicode, block Braille Patterns); each dot adds its bit.
const BLANK: u32 = 0x2800;

/// The bits of the dots of a cell, by row and column.
const BITS: [[u8; ACROSS]; DOWN] = [[0x01, 0x08], [0x02, 0x10], [0x04, 0x20], [0x40, 0x80]];

/// A field of dots. Dots outside of it are not set.
pub(super) struct Dots {
    wide: usize,
    cells: Vec<u8>,
}

impl Dots {
    /// An empty field of so many cells.
    pub(super) fn new(wide: usize, tall: usize) -> Dots {
        Dots {
            wide,
            cells: vec![0; wide * tall],
        }
    }

    /// Sets a dot, counted from the left and from the top.
    pub(super) fn set(&mut self, across: usize, down: usize) {
        let (column, row) = (across / ACROSS, down / DOWN);
        if column >= self.wide {
            return;
        }
        if let Some(cell) = self.cells.get_mut(row * self.wide + column) {
            *cell |= BITS[down % DOWN][across % ACROSS];
        }
    }

    /// Sets four dots, so that a point that stands alone is seen.
    pub(super) fn blot(&mut self, across: usize, down: usize) {
        // A blot keeps to one cell: it must not seem to be a line.
        let across = across - across % ACROSS;
        let down = (down - down % DOWN) + (down % DOWN).min(DOWN - 2);
        for (right, below) in [(0, 0), (1, 0), (0, 1), (1, 1)] {
            self.set(across + right, down + below);
        }
    }

    /// Sets the dots of a straight line between two dots, both ends with it.
    pub(super) fn line(&mut self, from: (usize, usize), to: (usize, usize)) {
        let steps = from.0.abs_diff(to.0).max(from.1.abs_diff(to.1)).max(1);
        let between = |start: usize, end: usize, at: usize| {
            (start * (steps - at) * 2 + end * at * 2 + steps) / (steps * 2)
        };
        for at in 0..=steps {
            self.set(between(from.0, to.0, at), between(from.1, to.1, at));
        }
    }

    /// The character of a cell: a space where no dot is set.
    pub(super) fn character(&self, column: usize, row: usize) -> char {
        match self.cells.get(row * self.wide + column) {
            Some(&bits) if bits > 0 => char::from_u32(BLANK + u32::from(bits)).unwrap_or(' '),
            _ => ' ',
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn drawn(dots: &Dots, tall: usize) -> Vec<String> {
        (0..tall)
            .map(|row| (0..dots.wide).map(|at| dots.character(at, row)).collect())
            .collect()
    }

    #[test]
    fn dots_stand_where_unicode_puts_them() {
        for (across, down, shown) in [
            (0, 0, '⠁'),
            (0, 1, '⠂'),
            (0, 2, '⠄'),
            (0, 3, '⡀'),
            (1, 0, '⠈'),
            (1, 1, '⠐'),
            (1, 2, '⠠'),
            (1, 3, '⢀'),
        ] {
            let mut dots = Dots::new(1, 1);
            dots.set(across, down);
            assert_eq!(dots.character(0, 0), shown);
        }
    }

    #[test]
    fn a_line_has_both_its_ends_and_no_hole() {
        let mut dots = Dots::new(4, 2);
        dots.line((0, 7), (7, 0));
        assert_eq!(drawn(&dots, 2), ["  ⡠⠊", "⡠⠊  "]);
    }

    #[test]
    fn what_is_outside_is_not_drawn() {
        let mut dots = Dots::new(2, 1);
        dots.set(4, 0);
        dots.set(0, 4);
        assert_eq!(drawn(&dots, 1), ["  "]);
    }

    proptest! {
        #[test]
        fn a_line_is_as_long_as_its_longer_way(from in (0..40_usize, 0..40_usize), to in (0..40_usize, 0..40_usize)) {
            let mut dots = Dots::new(20, 10);
            dots.line(from, to);
            let set: u32 = dots.cells.iter().map(|cell| cell.count_ones()).sum();
            let long = from.0.abs_diff(to.0).max(from.1.abs_diff(to.1));
            prop_assert_eq!(usize::try_from(set).unwrap(), long + 1);
        }

        #[test]
        fn a_blot_is_four_dots_of_one_cell_with_its_own(across in 0..40_usize, down in 0..40_usize) {
            let mut dots = Dots::new(20, 10);
            dots.blot(across, down);
            let filled: Vec<&u8> = dots.cells.iter().filter(|cell| **cell > 0).collect();
            prop_assert_eq!(filled.len(), 1);
            prop_assert_eq!(filled[0].count_ones(), 4);
            let before = dots.cells.clone();
            dots.set(across, down);
            prop_assert_eq!(before, dots.cells);
        }
    }
}
