//! A place without behaviour: desk, sink, lathe.

use crate::rng::Stream;

super::number::numbers! {}

/// Nothing to remember.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::bench) struct State;

impl State {
    pub(super) fn start(_: &Numbers, _: &mut Stream) -> State {
        State
    }
}
