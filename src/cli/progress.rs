//! A sign of life on a terminal while work takes longer than a second; nothing in a pipe.

use indicatif::ProgressBar;
use std::io::IsTerminal;
use std::sync::mpsc::{self, RecvTimeoutError};
use std::time::Duration;

/// Work that ends sooner needs no sign.
const SOON: Duration = Duration::from_secs(1);
/// Time between two turns of the sign.
const TURN: Duration = Duration::from_millis(120);

/// Does some work. If it takes longer than a second and errors go to a terminal, a line there says what is being done until it is
/// done; the line then goes. It has no colours.
pub(crate) fn while_saying<T>(what: &str, work: impl FnOnce() -> T) -> T {
    if !std::io::stderr().is_terminal() {
        return work();
    }
    let (done, waiting) = mpsc::channel::<()>();
    std::thread::scope(|scope| {
        scope.spawn(move || {
            if waiting.recv_timeout(SOON) == Err(RecvTimeoutError::Timeout) {
                let line = ProgressBar::new_spinner().with_message(what.to_owned());
                line.enable_steady_tick(TURN);
                // An end of the channel is what is waited for.
                let _ = waiting.recv();
                line.finish_and_clear();
            }
        });
        let result = work();
        drop(done);
        result
    })
}
