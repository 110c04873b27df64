//! No room on the disk, wherever a command needs some: what is said to be stored is there, nothing half is, and with room again it goes on.
//!
//! Room ends by a limit for each file, which every system for a desk has; the limit is tried at many sizes. A disk of a certain size can be made by
//! its owner only.

use std::path::Path;
use std::process::{Command, Stdio};

use super::{ADA, BO, Bench, said};

/// Up to so many blocks of 512 bytes may a file have: the largest that is written (the write-ahead log of one entry) needs less.
const MOST: u32 = 192;
/// From one size to the next.
const STEP: u32 = 8;

fn copied(from: &Path) -> Bench {
    let bench = Bench::empty();
    let copied = Command::new("cp")
        .arg("-r")
        .arg(from)
        .arg(bench.data())
        .status();
    assert!(copied.expect("a folder can be copied").success());
    bench
}

impl Bench {
    /// The same command where no file may grow beyond so many blocks.
    fn run_in(&self, blocks: u32, line: &str, passphrases: &[&str]) -> super::Said {
        let words = line.split_whitespace().map(|word| word.replace('_', " "));
        // A shell limits itself and becomes the program; the signal that goes with the limit is ignored, so that writing fails as it does on a full disk.
        let mut command = Command::new("sh");
        command
            .arg("-c")
            .arg(format!("trap '' XFSZ; ulimit -f {blocks}; exec \"$@\""))
            .arg("sh")
            .arg(env!("CARGO_BIN_EXE_drybench"))
            .args(words)
            .arg("--data")
            .arg(self.data())
            .args(["--passphrase-fd", "0"])
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped());
        let mut running = command.spawn().expect("a shell starts");
        let input = running.stdin.take().expect("it has an input");
        super::hand_over(input, passphrases);
        said(running.wait_with_output().expect("the program ends"))
    }
}

#[test]
fn without_room_nothing_is_stored_by_half_and_with_room_it_goes_on() {
    let base = Bench::with_two();
    base.done("person add --name=Cy_Instance --as Ada", &[ADA]);
    let before = base.entries();
    let commands: [(&str, &[&str]); 4] = [
        ("person add --name=Di_Paragon --as Ada", &[ADA]),
        ("person grant Bo administer --as Ada", &[ADA]),
        (
            "adopt wet-resin-and-solvent --reason=first --as Ada",
            &[ADA],
        ),
        ("key issue Cy --identity=passport --as Ada", &[ADA, BO, BO]),
    ];
    for (line, passphrases) in commands {
        let whole = copied(&base.laboratory());
        whole.done(line, passphrases);
        let after = whole.entries();
        assert!(after > before, "{line}");
        let (mut stored, mut refused) = (0, 0);
        for blocks in (0..=MOST).step_by(STEP as usize) {
            let bench = copied(&base.laboratory());
            let tried = bench.run_in(blocks, line, passphrases);
            let there = bench.entries();
            let at = format!("{line}, {blocks} blocks: {tried:#?}");
            bench.done("record verify", &[]);
            if tried.status == 0 {
                assert_eq!(there, after, "{at}");
                stored += 1;
                continue;
            }
            // One line says what happened and what to do.
            assert_eq!(tried.status, 1, "{at}");
            assert!(!tried.messages.contains("panicked"), "{at}");
            assert!((before..=after).contains(&there), "{at}");
            let named = tried.results.matches("Stored: ").count();
            assert!(before + named <= there, "{at}");
            refused += 1;
            if there == before {
                bench.done(line, passphrases);
                assert_eq!(bench.entries(), after, "{at}");
                bench.done("record verify", &[]);
            }
        }
        assert!(
            stored > 0 && refused > 0,
            "{line}: {stored} stored, {refused} refused"
        );
    }
}
