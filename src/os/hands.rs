//! Work in many parts, spread over the cores of the machine.

use std::num::NonZeroUsize;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread;

use crate::record::verify::Hands;

/// So many parts are taken at a time, so that threads seldom meet. Our default.
const HANDFUL: usize = 8;

/// So many threads.
#[derive(Clone, Copy, Debug)]
pub struct Cores(NonZeroUsize);

impl Cores {
    /// As many as the machine can run at once; one where it does not say.
    #[must_use]
    pub fn all() -> Cores {
        Cores(thread::available_parallelism().unwrap_or(NonZeroUsize::MIN))
    }

    /// So many.
    #[must_use]
    pub fn of(count: NonZeroUsize) -> Cores {
        Cores(count)
    }
}

impl Hands for Cores {
    fn each(&self, count: usize, one: &(dyn Fn(usize) + Sync), beside: &mut dyn FnMut()) {
        let next = AtomicUsize::new(0);
        let work = || {
            loop {
                let start = next.fetch_add(HANDFUL, Ordering::Relaxed);
                if start >= count {
                    return;
                }
                (start..count.min(start + HANDFUL)).for_each(one);
            }
        };
        thread::scope(|scope| {
            for _ in 1..self.0.get().min(count.div_ceil(HANDFUL)) {
                // A thread that cannot be had leaves its share to the others.
                let _started = thread::Builder::new().spawn_scoped(scope, work);
            }
            beside();
            work();
        });
    }
}

/// Has work done on a thread of its own; on this one where none can be had.
pub(super) fn aside(work: Box<dyn FnOnce() + Send>) {
    let waiting = Arc::new(Mutex::new(Some(work)));
    let there = Arc::clone(&waiting);
    if thread::Builder::new().spawn(move || take(&there)).is_err() {
        take(&waiting);
    }
}

fn take(waiting: &Mutex<Option<Box<dyn FnOnce() + Send>>>) {
    let work = waiting
        .lock()
        .unwrap_or_else(PoisonError::into_inner)
        .take();
    if let Some(work) = work {
        work();
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_part_is_done_once_however_many_there_are() {
        for threads in [1, 2, 3, 16] {
            let cores = Cores::of(NonZeroUsize::new(threads).unwrap());
            for count in [0, 1, 7, 8, 9, 17, 1000] {
                let done: Vec<AtomicUsize> = (0..count).map(|_| AtomicUsize::new(0)).collect();
                let one = |at: usize| {
                    done[at].fetch_add(1, Ordering::Relaxed);
                };
                let mut beside = 0;
                cores.each(count, &one, &mut || beside += 1);
                assert_eq!(beside, 1);
                let once = done.iter().all(|times| times.load(Ordering::Relaxed) == 1);
                assert!(once, "{count} parts, {threads} threads");
            }
        }
    }

    #[test]
    fn work_aside_is_not_waited_for() {
        let (go, may_go) = std::sync::mpsc::channel::<()>();
        let (done, is_done) = std::sync::mpsc::channel();
        aside(Box::new(move || {
            may_go.recv().unwrap();
            done.send(7).unwrap();
        }));
        go.send(()).unwrap();
        assert_eq!(is_done.recv(), Ok(7));
    }

    #[test]
    fn a_panic_in_a_part_is_not_kept_quiet() {
        let caught = std::panic::catch_unwind(|| {
            Cores::all().each(100, &|at| assert_ne!(at, 50), &mut || {});
        });
        assert!(caught.is_err());
    }
}
