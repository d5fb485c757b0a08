//! A sign of life on a terminal while something takes long.

use indicatif::ProgressBar;
use std::fmt::Display;
use std::io::IsTerminal;
use std::sync::mpsc::{RecvTimeoutError, channel};
use std::time::Duration;

/// What takes longer than this shows that it is at work.
const QUIET: Duration = Duration::from_millis(500);
const TICK: Duration = Duration::from_millis(120);

/// Does some work; on a terminal, a line on standard error says what is being done to what while it takes long. The
/// clock decides what is shown, never what comes out.
pub fn busy<T>(doing: &str, what: impl Display, work: impl FnOnce() -> T) -> T {
    if !std::io::stderr().is_terminal() {
        return work();
    }
    let doing = format!("{doing} {what}");
    let (done, waiting) = channel::<()>();
    let shower = std::thread::spawn(move || {
        if waiting.recv_timeout(QUIET) == Err(RecvTimeoutError::Timeout) {
            let bar = ProgressBar::new_spinner().with_message(doing);
            bar.enable_steady_tick(TICK);
            // Until the sender is dropped.
            let _ = waiting.recv();
            bar.finish_and_clear();
        }
    });
    let result = work();
    drop(done);
    // A line that could not be shown is no reason to fail.
    let _ = shower.join();
    result
}
