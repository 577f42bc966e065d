//! The options of `record`.

use std::path::PathBuf;

use clap::{Args, Subcommand, ValueEnum};

use crate::cli::args::PaperArg;
use crate::cli::bank_args::BankArgs;

/// `record`.
#[derive(Debug, Args)]
pub struct RecordArgs {
    /// What is done with the record.
    #[command(subcommand)]
    pub work: RecordWork,
}

/// What `record` can do.
#[derive(Debug, Subcommand)]
pub enum RecordWork {
    /// Make a table to fill in with a spreadsheet.
    Template(TemplateArgs),
    /// Add the rows of a filled-in table to a record; it is made when there is none.
    Add(AddArgs),
    /// Show tries, accuracy, trend, and what is in trouble, for each child.
    Show(ShowArgs),
    /// Plan each child's next packet: what to review, which blends, how much new.
    Next(NextArgs),
}

/// `record template`.
#[derive(Debug, Args)]
pub struct TemplateArgs {
    /// The children, parted by commas: first names, initials or nicknames.
    #[arg(long, value_name = "NAMES", value_delimiter = ',', allow_hyphen_values = true)]
    pub children: Vec<String>,
    /// Take skills and items from the content of sheets: a file made by `sheet` or `packet` with --format json.
    #[arg(long, value_name = "FILE", conflicts_with_all = ["words", "skill"])]
    pub items: Option<PathBuf>,
    /// Take each child's own items from the packets of a group: their folder, or its manifest.
    #[arg(long, value_name = "FOLDER", conflicts_with_all = ["items", "words", "skill", "children"])]
    pub packets: Option<PathBuf>,
    /// The items, parted by blanks or commas.
    #[arg(long, value_name = "WORDS", allow_hyphen_values = true)]
    pub words: Option<String>,
    /// The skill of the words: the name of a layout (see `list layouts`).
    #[arg(long, value_name = "SKILL")]
    pub skill: Option<String>,
    /// The day, as 2025-03-04; left empty to fill in when it is not said.
    #[arg(long, value_name = "DATE")]
    pub date: Option<String>,
    /// What parts the cells. Where a comma is the decimal sign, spreadsheets want semicolons.
    #[arg(long, value_enum, default_value_t)]
    pub separator: SeparatorArg,
    /// The file to write; - for standard output.
    #[arg(long, value_name = "FILE")]
    pub out: PathBuf,
    /// A folder of your own layouts, laid over those that are built in.
    #[arg(long, value_name = "FOLDER")]
    pub layouts: Option<PathBuf>,
}

/// `record add`.
#[derive(Debug, Args)]
pub struct AddArgs {
    /// The record: a CSV file that only grows, one for each group.
    pub record: PathBuf,
    /// The filled-in table: CSV with the columns child, date, skill, item, right and note.
    pub rows: PathBuf,
    /// The day of rows that have none, as 2025-03-04.
    #[arg(long, value_name = "DATE")]
    pub date: Option<String>,
    /// Add rows that are in the record already once more.
    #[arg(long)]
    pub again: bool,
    /// A folder of your own layouts, whose names are skills too.
    #[arg(long, value_name = "FOLDER")]
    pub layouts: Option<PathBuf>,
}

/// `record show`.
#[derive(Debug, Args)]
pub struct ShowArgs {
    /// The record.
    pub record: PathBuf,
    /// Only this child.
    #[arg(long, value_name = "NAME", allow_hyphen_values = true)]
    pub child: Option<String>,
    /// Only tries from this day on, as 2025-03-04.
    #[arg(long, value_name = "DATE")]
    pub since: Option<String>,
    /// How to give it.
    #[arg(long, value_enum, default_value_t)]
    pub format: ShowFormat,
    /// The file to write; standard output when it is not said, but for pages, which go to out/practice-record.pdf.
    #[arg(long, value_name = "FILE")]
    pub out: Option<PathBuf>,
    /// The paper of pages.
    #[arg(long, value_enum, default_value = "letter")]
    pub paper: PaperArg,
    /// A folder of your own layouts, for the titles of their skills.
    #[arg(long, value_name = "FOLDER")]
    pub layouts: Option<PathBuf>,
    /// A teaching sequence of your own.
    #[arg(long, value_name = "FILE")]
    pub sequence: Option<PathBuf>,
    /// Which words there are, and how their sounds are counted.
    #[command(flatten)]
    pub words_of: BankArgs,
}

/// `record next`.
#[derive(Debug, Args)]
pub struct NextArgs {
    /// The record.
    pub record: PathBuf,
    /// Only this child.
    #[arg(long, value_name = "NAME", allow_hyphen_values = true)]
    pub child: Option<String>,
    /// The child's step (see `list steps`); read from the record when it is not said.
    #[arg(long, value_name = "STEP")]
    pub step: Option<String>,
    /// How many items the next packet is to have.
    #[arg(long, value_name = "NUMBER", default_value_t = 12, value_parser = clap::value_parser!(u16).range(1..=500))]
    pub items: u16,
    /// Which share of them is review, at the most: 1/3 or 40%.
    #[arg(long, value_name = "SHARE", default_value = "1/3")]
    pub review: String,
    /// Take the next step when the rule for it is met.
    #[arg(long)]
    pub move_on: bool,
    /// How to give it.
    #[arg(long, value_enum, default_value_t)]
    pub format: NextFormat,
    /// The file to write; standard output when it is not said.
    #[arg(long, value_name = "FILE")]
    pub out: Option<PathBuf>,
    /// A teaching sequence of your own.
    #[arg(long, value_name = "FILE")]
    pub sequence: Option<PathBuf>,
    /// Which words there are, and how their sounds are counted.
    #[command(flatten)]
    pub words_of: BankArgs,
}

/// What parts cells.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
pub enum SeparatorArg {
    /// Commas.
    #[default]
    Comma,
    /// Semicolons.
    Semicolon,
    /// Tabs.
    Tab,
}

/// What `record show` gives.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
pub enum ShowFormat {
    /// A table to read.
    #[default]
    Table,
    /// Comma-separated values, for a spreadsheet.
    Csv,
    /// JSON.
    Json,
    /// Pages to print, with small charts.
    Pdf,
}

/// What `record next` gives.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
pub enum NextFormat {
    /// A table to read.
    #[default]
    Table,
    /// A plan file for `packet`, to be changed; for one child.
    Yaml,
    /// JSON.
    Json,
}
