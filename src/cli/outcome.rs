//! What a command leaves behind.

use std::fmt::Display;

use clap::error::ErrorKind;

/// What is to be printed, and the exit code.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Outcome {
    /// For standard output.
    pub out: Vec<u8>,
    /// For standard error.
    pub err: String,
    /// The exit code.
    pub code: u8,
}

impl Outcome {
    /// A command that is done and prints something.
    #[must_use]
    pub fn printing(out: impl Into<Vec<u8>>) -> Self {
        Self { out: out.into(), ..Self::default() }
    }

    pub(super) fn of_clap(error: &clap::Error) -> Self {
        let text = error.render().to_string();
        match error.kind() {
            ErrorKind::DisplayHelp | ErrorKind::DisplayVersion => Self::printing(text),
            _ => Self { err: text, code: 2, ..Self::default() },
        }
    }
}

/// Why a command fails.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Failure {
    message: String,
    code: u8,
}

impl Failure {
    /// It can't be filled as asked: code 1.
    pub fn unfilled(message: impl Display) -> Self {
        Self { message: message.to_string(), code: 1 }
    }

    /// A wrong option, a wrong file, or something that can't be read or written: code 2.
    pub fn usage(message: impl Display) -> Self {
        Self { message: message.to_string(), code: 2 }
    }
}

impl From<Failure> for Outcome {
    fn from(failure: Failure) -> Self {
        let Failure { message, code } = failure;
        Self { err: format!("error: {}\n", message.trim_end()), code, ..Self::default() }
    }
}
