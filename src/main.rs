//! The command-line program. It prints what [`sheafling::cli::run`] gives; everything else is in the library.

use std::io::{self, Write};
use std::process::ExitCode;

fn main() -> ExitCode {
    let outcome = sheafling::cli::run(std::env::args_os());
    // A reader that stops early, such as `head`, is no error.
    let _ = io::stderr().write_all(outcome.err.as_bytes());
    match io::stdout().write_all(&outcome.out).and_then(|()| io::stdout().flush()) {
        Err(error) if error.kind() != io::ErrorKind::BrokenPipe => ExitCode::from(2),
        _ => ExitCode::from(outcome.code),
    }
}
