//! The command line: what can be asked, and what is answered.
//!
//! [`run`] takes the arguments and gives an [`Outcome`], so that the whole program can be tested in one process; only `main`
//! prints. Exit codes: 0 done, 1 it can't be filled as asked, 2 a wrong option or file, or something can't be read or written.

mod args;
mod bank_args;
mod check;
mod ear;
mod explain;
mod from_record;
mod group;
mod list;
mod make;
mod outcome;
mod query;
mod record;
mod reprint;
mod schema;
mod seed;
mod table;
mod words;

use std::ffi::OsString;

use clap::{CommandFactory, Parser};

pub use args::Cli;
pub use outcome::{Failure, Outcome};

use args::Command;

/// Runs one command. `args` begin with the program's name.
pub fn run(args: impl IntoIterator<Item = OsString>) -> Outcome {
    let cli = match Cli::try_parse_from(args) {
        Ok(cli) => cli,
        Err(error) => return Outcome::of_clap(&error),
    };
    let result = match &cli.command {
        Command::Sheet(sheet) => make::sheet(sheet),
        Command::Packet(packet) => make::packet(packet),
        Command::Reprint(args) => reprint::reprint(args),
        Command::Match(args) => reprint::report(args),
        Command::Words(words) => words::words(words),
        Command::Explain(explain) => explain::explain(explain),
        Command::Ear(ear) => ear::ear(ear),
        Command::Check(check) => check::check(check),
        Command::List(list) => list::list(list),
        Command::Record(args) => record::record(args),
        Command::Schema { of } => Ok(schema::schema(*of)),
        Command::Completions { shell } => {
            let mut script = Vec::new();
            clap_complete::generate(*shell, &mut Cli::command(), "sheafling", &mut script);
            Ok(Outcome::printing(script))
        }
    };
    result.unwrap_or_else(Outcome::from)
}
