//! The commands and their options, with the help that a teacher reads.

use std::path::PathBuf;

use clap::{Args, Parser, Subcommand, ValueEnum};

use super::bank_args::BankArgs;
use super::record::RecordArgs;
use crate::bank::{Band, Category, Class};
use crate::layout::PrintBand;
use crate::packet::KeyPlace;
use crate::page::Paper;
use crate::sounds::{Notation, Place};

/// Printable reading worksheets whose words are chosen by sound.
#[derive(Debug, Parser)]
#[command(
    name = "sheafling",
    version,
    about = "Make printable reading worksheets whose words are chosen by sound.",
    long_about = "Make printable reading worksheets whose words are chosen by sound.\n\n\
        Say which sheet, which blends, and how far your group has come; sheafling finds words that fit by sound and that the \
        children can read, and writes a PDF to print, with an answer key. The seed at the foot of a page makes the same page again.",
    after_help = "Examples:\n  \
        sheafling list layouts\n  \
        sheafling sheet sound-boxes --focus \"bl cl fl\" --step l-blends\n  \
        sheafling packet layouts/plans/week.yaml --child Ada\n  \
        sheafling words --onset bl --sounds 4\n  \
        sheafling explain blank"
)]
pub struct Cli {
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Make one sheet, with its answer key.
    Sheet(SheetArgs),
    /// Make the packet of a plan file: several sheets in one PDF; or equal packets for a group.
    Packet(PacketArgs),
    /// Make a packet again, or a part of it, from its manifest or from the code at the foot of a page.
    Reprint(ReprintArgs),
    /// Report how the sets of a group match: what they are made up of, and which words they share.
    Match(MatchArgs),
    /// Find words by sound.
    Words(WordsArgs),
    /// Work by ear: what a word becomes when sounds go, come or are swapped; rhymes; nonsense words; riddles.
    Ear(EarArgs),
    /// Tell how words are said and spelled, and when they can be read.
    Explain(ExplainArgs),
    /// Check a text: which of its words can be read at a step, and what to teach first.
    Check(CheckArgs),
    /// List what there is: layouts, steps or blends.
    List(ListArgs),
    /// Keep a record of practice, and let it plan the next packet.
    Record(RecordArgs),
    /// Print the JSON Schema of a kind of file, for editors and programs.
    Schema {
        /// Of which kind.
        #[arg(value_enum)]
        of: SchemaOf,
    },
    /// Print a script that completes commands in your shell.
    Completions {
        /// The shell.
        shell: clap_complete::Shell,
    },
}

/// Options that sheets and packets share.
#[derive(Debug, Default, Args)]
pub struct Making {
    /// Blends to practise, such as "bl cl fl"; write -nd for one at the end of a word.
    #[arg(long, value_name = "BLENDS", allow_hyphen_values = true)]
    pub focus: Option<String>,
    /// How far the child has come: a step's number or name (see `list steps`). Only words taught by then are printed.
    #[arg(long, value_name = "STEP")]
    pub step: Option<String>,
    /// How many items: words, or rungs of a ladder.
    #[arg(long, value_name = "NUMBER")]
    pub count: Option<usize>,
    /// Any text; the same seed makes the same sheet again. Without it a new one is drawn and printed.
    #[arg(long, value_name = "TEXT", allow_hyphen_values = true)]
    pub seed: Option<String>,
    /// A first name, initial or nickname for the name line; each child gets words of its own.
    #[arg(long, value_name = "NAME", allow_hyphen_values = true)]
    pub child: Option<String>,
    /// The paper.
    #[arg(long, value_enum)]
    pub paper: Option<PaperArg>,
    /// Where the answer key goes.
    #[arg(long, value_enum)]
    pub key: Option<KeyArg>,
    /// The file to write, or the folder to write into; - for standard output.
    #[arg(long, value_name = "PATH")]
    pub out: Option<PathBuf>,
    /// A page to print, or the content as data.
    #[arg(long, value_enum, default_value_t)]
    pub format: MakeFormat,
    /// How sounds are written.
    #[arg(long, value_enum)]
    pub notation: Option<NotationArg>,
    /// Size letters and lines to write on for a school year: K for five-year-olds, 1, 2.
    #[arg(long, value_enum)]
    pub band: Option<PrintBandArg>,
    /// Print the words that a child reads in 28 pt or larger.
    #[arg(long)]
    pub large_print: bool,
    /// Put what is to be copied at the right, for a child who writes with the left hand.
    #[arg(long)]
    pub left_hand: bool,
    /// The language of a note to the family, such as es; the words to practise stay English.
    #[arg(long, value_name = "TAG")]
    pub language: Option<String>,
    /// A folder of your own layouts, laid over those that are built in.
    #[arg(long, value_name = "FOLDER")]
    pub layouts: Option<PathBuf>,
    /// A teaching sequence of your own.
    #[arg(long, value_name = "FILE")]
    pub sequence: Option<PathBuf>,
    /// Which words there are, and how their sounds are counted.
    #[command(flatten)]
    pub words_of: BankArgs,
}

/// `sheet`.
#[derive(Debug, Args)]
pub struct SheetArgs {
    /// A layout's name (see `list layouts`), or a layout file of your own.
    pub layout: String,
    /// The shared options.
    #[command(flatten)]
    pub making: Making,
}

/// `packet`.
#[derive(Debug, Args)]
pub struct PacketArgs {
    /// The plan file.
    pub plan: PathBuf,
    /// Make only these sheets of the plan, such as 2 or 1,3; they keep the page numbers that they have in the whole packet.
    #[arg(long, value_name = "NUMBERS", value_delimiter = ',')]
    pub only: Option<Vec<usize>>,
    /// Equal packets for a group.
    #[command(flatten)]
    pub many: ManyArgs,
    /// The shared options.
    #[command(flatten)]
    pub making: Making,
}

impl PacketArgs {
    /// Whether several packets are asked for.
    pub const fn for_many(&self) -> bool {
        self.many.group.is_some() || self.many.sets.is_some() || self.many.from_record.is_some()
    }
}

/// Equal packets for a group.
#[derive(Debug, Default, Args)]
pub struct ManyArgs {
    /// A packet for each child of this group: a YAML or CSV file with the children's names and steps. With --child, only that child's.
    #[arg(long, value_name = "FILE", conflicts_with = "only")]
    pub group: Option<PathBuf>,
    /// Lettered sets instead of names, such as A,B,C.
    #[arg(long, value_name = "LETTERS", value_delimiter = ',', conflicts_with_all = ["group", "only"])]
    pub sets: Option<Vec<String>>,
    /// The same words for all, in other orders, instead of different words that match.
    #[arg(long)]
    pub same_words: bool,
    /// How packets are put into files.
    #[arg(long, value_enum, default_value_t)]
    pub bind: BindArg,
    /// Write the match report to this file: .json for data, else for reading.
    #[arg(long, value_name = "FILE")]
    pub report: Option<PathBuf>,
    /// A folder of earlier packets; their words are spared.
    #[arg(long, value_name = "FOLDER")]
    pub earlier: Option<PathBuf>,
    /// How many of a child's earlier packets are looked at.
    #[arg(long, value_name = "NUMBER", default_value_t = 4, requires = "earlier")]
    pub last: usize,
    /// A record of practice (see `record`): what each child missed comes back, spaced, among new words.
    #[arg(long, value_name = "RECORD", conflicts_with_all = ["sets", "same_words"])]
    pub from_record: Option<PathBuf>,
    /// Which share of a sheet may be review: a fraction or a percentage.
    #[arg(long, value_name = "SHARE", default_value = "1/3", requires = "from_record")]
    pub review: String,
    /// Move a child on to the next step where the record's rule for it is met.
    #[arg(long, requires = "from_record")]
    pub move_on: bool,
    /// Make only a part of the packets, such as 3/16: the third of sixteen parts, which together are the whole.
    #[arg(long, value_name = "PART")]
    pub shard: Option<ShardArg>,
    /// Go on with a run that was broken off: packets that are there and whole are left as they are.
    #[arg(long)]
    pub resume: bool,
    /// Deal sets anew, whatever an earlier run of this packet into the same folder did.
    #[arg(long)]
    pub afresh: bool,
}

impl ManyArgs {
    /// An option that says nothing for one packet.
    pub fn without_a_group(&self) -> Option<&'static str> {
        let given = [
            (self.same_words, "--same-words"),
            (self.bind != BindArg::Each, "--bind"),
            (self.report.is_some(), "--report"),
            (self.earlier.is_some(), "--earlier"),
            (self.shard.is_some(), "--shard"),
            (self.resume, "--resume"),
            (self.afresh, "--afresh"),
        ];
        given.into_iter().find(|(is, _)| *is).map(|(_, option)| option)
    }
}

/// How packets are put into files.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
pub enum BindArg {
    /// A file for each child.
    #[default]
    Each,
    /// One file, child after child.
    ByChild,
    /// One file, the first sheet of all children, then the second of all.
    BySheet,
}

/// A part of the packets.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ShardArg {
    /// Which part, from 1.
    pub part: usize,
    /// How many parts there are.
    pub of: usize,
}

impl std::str::FromStr for ShardArg {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let parts =
            text.split_once('/').and_then(|(part, of)| Some((part.trim().parse().ok()?, of.trim().parse().ok()?)));
        match parts {
            Some((part, of)) if (1..=of).contains(&part) => Ok(Self { part, of }),
            _ => Err("write which part of how many, such as 3/16".to_owned()),
        }
    }
}

/// `reprint`.
#[derive(Debug, Args)]
pub struct ReprintArgs {
    /// A manifest (a file that ends in .manifest.json), or the code at the foot of a page.
    pub what: String,
    /// Where to look for the code: a folder of packets, with all folders in it.
    #[arg(long = "in", value_name = "FOLDER", default_value = "out")]
    pub folder: PathBuf,
    /// Only this child's packet, or this set's.
    #[arg(long, value_name = "NAME")]
    pub child: Option<String>,
    /// Only this page, counted from 1 as at its foot.
    #[arg(long, value_name = "NUMBER")]
    pub page: Option<usize>,
    /// Other words, by another seed.
    #[arg(long, value_name = "TEXT")]
    pub seed: Option<String>,
    /// Go on where the program or its words are no longer the same; the pages are marked.
    #[arg(long)]
    pub anyway: bool,
    /// The folder to write into.
    #[arg(long, value_name = "FOLDER", default_value = "out/again")]
    pub out: PathBuf,
}

/// `match`.
#[derive(Debug, Args)]
pub struct MatchArgs {
    /// The manifest of a group's packets, or the folder that has one.
    pub manifest: PathBuf,
    /// How the report is written.
    #[arg(long, value_enum, default_value_t)]
    pub format: ReportFormat,
}

/// How a report is written.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
pub enum ReportFormat {
    /// For reading.
    #[default]
    Table,
    /// As data.
    Json,
}

/// `words`.
#[derive(Debug, Args)]
pub struct WordsArgs {
    /// Begins with this blend or sound: bl, st, sh, k.
    #[arg(long, value_name = "SOUNDS")]
    pub onset: Option<String>,
    /// Ends with this blend or sound: st, nd, ng.
    #[arg(long, value_name = "SOUNDS")]
    pub coda: Option<String>,
    /// How many sounds: 4 or 3-5.
    #[arg(long, value_name = "NUMBER")]
    pub sounds: Option<String>,
    /// How many syllables: 1 or 1-2.
    #[arg(long, value_name = "NUMBER")]
    pub syllables: Option<String>,
    /// Can be read at this step (see `list steps`).
    #[arg(long, value_name = "STEP")]
    pub step: Option<String>,
    /// Rhymes with this word.
    #[arg(long, value_name = "WORD")]
    pub rhymes_with: Option<String>,
    /// Has this blend somewhere: bl, -nd. With --place, only there.
    #[arg(long, value_name = "BLEND", allow_hyphen_values = true)]
    pub blend: Option<String>,
    /// Where the blend is heard.
    #[arg(long, value_enum, requires = "blend")]
    pub place: Option<PlaceArg>,
    /// Sounds like this word and is spelled otherwise.
    #[arg(long, value_name = "WORD")]
    pub sounds_like: Option<String>,
    /// Becomes this word, or comes of it, when one sound is swapped.
    #[arg(long, value_name = "WORD")]
    pub near: Option<String>,
    /// Is of this kind: animal, food, toy … (several: a word is of any of them).
    #[arg(long, value_name = "KIND", value_delimiter = ',')]
    pub category: Vec<Category>,
    /// Is of this class: n, v, a or o.
    #[arg(long, value_name = "CLASS", value_delimiter = ',')]
    pub class: Vec<Class>,
    /// Is known by ear at this age band: K, 1, 2 or 3.
    #[arg(long, value_name = "BAND", value_delimiter = ',')]
    pub band: Vec<Band>,
    /// Is a compound.
    #[arg(long)]
    pub compound: bool,
    /// Has a spelling that is of this kind: x, qu, silent, two-sounds, irregular, heteronym.
    #[arg(long, value_enum)]
    pub with: Option<WithArg>,
    /// With endings (-s, -ed, -ing) too.
    #[arg(long)]
    pub forms: bool,
    /// How to print them.
    #[arg(long, value_enum, default_value_t)]
    pub format: WordsFormat,
    /// How sounds are written in the table.
    #[arg(long, value_enum)]
    pub notation: Option<NotationArg>,
    /// A teaching sequence of your own.
    #[arg(long, value_name = "FILE")]
    pub sequence: Option<PathBuf>,
    /// Which words there are, and how their sounds are counted.
    #[command(flatten)]
    pub words_of: BankArgs,
}

/// `ear`.
#[derive(Debug, Args)]
pub struct EarArgs {
    /// What is done with the sounds.
    #[command(subcommand)]
    pub work: EarWork,
}

/// What `ear` can do.
#[derive(Debug, Subcommand)]
pub enum EarWork {
    /// Words that leave a word when a sound is taken away: sneeze without /s/ is knees.
    TakeAway {
        /// Which sounds: first, onset, second, last, before-last or coda; or a blend or sound, such as s or bl.
        #[arg(default_value = "first")]
        part: String,
        /// Take it away at the end of the word (for a blend or sound).
        #[arg(long)]
        end: bool,
        /// What is shared.
        #[command(flatten)]
        shared: EarShared,
    },
    /// Words that become a word when a sound is added: rain with /t/ is train.
    Add {
        /// Which sounds: first, onset, second, last, before-last or coda of the longer word; or a blend or sound.
        #[arg(default_value = "first")]
        part: String,
        /// Add it at the end of the word (for a blend or sound).
        #[arg(long)]
        end: bool,
        /// What is shared.
        #[command(flatten)]
        shared: EarShared,
    },
    /// Words that become a word when a blend is swapped: blank with /dr/ is drank.
    Swap {
        /// The blend or sound that goes; any blend when it is left out.
        #[arg(long, value_name = "SOUNDS")]
        from: Option<String>,
        /// The blend or sound that comes; any when it is left out.
        #[arg(long, value_name = "SOUNDS")]
        to: Option<String>,
        /// Swap at the end of the word.
        #[arg(long)]
        end: bool,
        /// What is shared.
        #[command(flatten)]
        shared: EarShared,
    },
    /// The words that rhyme with a word, by how the rhyme is spelled.
    Rhyme {
        /// The word.
        word: String,
        /// What is shared.
        #[command(flatten)]
        shared: EarShared,
    },
    /// Nonsense words that can be read at a step.
    Silly {
        /// Begins with this blend or sound.
        #[arg(long, value_name = "SOUNDS")]
        onset: Option<String>,
        /// Rhymes with this word.
        #[arg(long, value_name = "WORD")]
        rhymes_with: Option<String>,
        /// What is shared.
        #[command(flatten)]
        shared: EarShared,
    },
    /// Riddles: a kind of thing and a nonsense word that rhymes with the one answer.
    Riddle {
        /// The nonsense word begins with this blend or sound.
        #[arg(long, value_name = "SOUNDS")]
        onset: Option<String>,
        /// What is shared.
        #[command(flatten)]
        shared: EarShared,
    },
}

/// Options that all of `ear` shares.
#[derive(Debug, Args)]
pub struct EarShared {
    /// Only words that can be read at this step (see `list steps`); without it, words that are only heard too.
    #[arg(long, value_name = "STEP")]
    pub step: Option<String>,
    /// How many rows at most.
    #[arg(long, value_name = "NUMBER", default_value_t = 200)]
    pub most: usize,
    /// How to print it.
    #[arg(long, value_enum, default_value_t)]
    pub format: WordsFormat,
    /// How sounds are written in the table.
    #[arg(long, value_enum)]
    pub notation: Option<NotationArg>,
    /// A teaching sequence of your own.
    #[arg(long, value_name = "FILE")]
    pub sequence: Option<PathBuf>,
    /// Which words there are, and how their sounds are counted.
    #[command(flatten)]
    pub words_of: BankArgs,
}

/// `explain`.
#[derive(Debug, Args)]
pub struct ExplainArgs {
    /// The words.
    #[arg(required = true)]
    pub words: Vec<String>,
    /// How sounds are written.
    #[arg(long, value_enum)]
    pub notation: Option<NotationArg>,
    /// A teaching sequence of your own.
    #[arg(long, value_name = "FILE")]
    pub sequence: Option<PathBuf>,
    /// Which words there are, and how their sounds are counted.
    #[command(flatten)]
    pub words_of: BankArgs,
}

/// `check`.
#[derive(Debug, Args)]
pub struct CheckArgs {
    /// The text file, UTF-8; - for standard input.
    pub file: PathBuf,
    /// How far the reader has come (see `list steps`).
    #[arg(long, value_name = "STEP")]
    pub step: String,
    /// End with exit code 1 when a smaller share of the words can be read, in per cent.
    #[arg(long, value_name = "PERCENT")]
    pub at_least: Option<String>,
    /// How to print it.
    #[arg(long, value_enum, default_value_t)]
    pub format: CheckFormat,
    /// A teaching sequence of your own.
    #[arg(long, value_name = "FILE")]
    pub sequence: Option<PathBuf>,
    /// Which words there are, and how their sounds are counted.
    #[command(flatten)]
    pub words_of: BankArgs,
}

/// `list`.
#[derive(Debug, Args)]
pub struct ListArgs {
    /// What to list.
    #[arg(value_enum)]
    pub what: Listed,
    /// A folder of your own layouts, laid over those that are built in.
    #[arg(long, value_name = "FOLDER")]
    pub layouts: Option<PathBuf>,
    /// A teaching sequence of your own.
    #[arg(long, value_name = "FILE")]
    pub sequence: Option<PathBuf>,
    /// Which words there are, and how their sounds are counted.
    #[command(flatten)]
    pub words_of: BankArgs,
}

/// Kinds of files that have a schema.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum SchemaOf {
    /// A layout file.
    Layout,
    /// A plan file.
    Plan,
    /// The content of a sheet, as --format json prints it.
    Sheet,
}

/// What can be listed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Listed {
    /// The sheets that can be made, and what each practises.
    Layouts,
    /// The steps of the teaching sequence.
    Steps,
    /// The blends, with how many words have each.
    Blends,
}

/// Papers.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum PaperArg {
    /// US Letter, 8.5 × 11 in.
    Letter,
    /// A4, 210 × 297 mm.
    A4,
}

impl From<PaperArg> for Paper {
    fn from(paper: PaperArg) -> Self {
        match paper {
            PaperArg::Letter => Self::Letter,
            PaperArg::A4 => Self::A4,
        }
    }
}

/// Where the key goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum KeyArg {
    /// After the sheets, in the same file.
    End,
    /// In a file of its own, whose name ends in -key.
    Apart,
    /// Nowhere.
    None,
}

impl From<KeyArg> for KeyPlace {
    fn from(key: KeyArg) -> Self {
        match key {
            KeyArg::End => Self::End,
            KeyArg::Apart => Self::Apart,
            KeyArg::None => Self::None,
        }
    }
}

/// School years for which print is sized.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum PrintBandArg {
    /// Five years: lines of 16 to 20 mm, larger type.
    #[value(name = "K", alias = "k")]
    K,
    /// Six years: lines of 13 to 16 mm, somewhat larger type.
    #[value(name = "1")]
    One,
    /// Seven years: lines of 10 to 13 mm.
    #[value(name = "2")]
    Two,
}

impl From<PrintBandArg> for PrintBand {
    fn from(band: PrintBandArg) -> Self {
        match band {
            PrintBandArg::K => Self::K,
            PrintBandArg::One => Self::One,
            PrintBandArg::Two => Self::Two,
        }
    }
}

/// Symbols for sounds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum NotationArg {
    /// As American school dictionaries write them.
    Teacher,
    /// The International Phonetic Alphabet.
    Ipa,
}

impl From<NotationArg> for Notation {
    fn from(notation: NotationArg) -> Self {
        match notation {
            NotationArg::Teacher => Self::Teacher,
            NotationArg::Ipa => Self::Ipa,
        }
    }
}

/// What `sheet` and `packet` give.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
pub enum MakeFormat {
    /// A PDF to print.
    #[default]
    Pdf,
    /// The content as JSON.
    Json,
}

/// Places in a word.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum PlaceArg {
    /// At the beginning of the word.
    Beginning,
    /// Anywhere between.
    Middle,
    /// At its end.
    End,
}

impl From<PlaceArg> for Place {
    fn from(place: PlaceArg) -> Self {
        match place {
            PlaceArg::Beginning => Self::Beginning,
            PlaceArg::Middle => Self::Middle,
            PlaceArg::End => Self::End,
        }
    }
}

/// What is special about a word's spelling.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum WithArg {
    /// It has an x, which is two sounds.
    X,
    /// It has qu, which is two sounds.
    Qu,
    /// It has a silent letter within a sound box.
    Silent,
    /// Another letter group of it spells two sounds.
    TwoSounds,
    /// It can't be sounded out.
    Irregular,
    /// It has two everyday pronunciations.
    Heteronym,
}

/// What `check` gives.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
pub enum CheckFormat {
    /// The sums, and the words to teach first.
    #[default]
    Table,
    /// Every word with its standing, and the sums, as JSON.
    Json,
}

/// What `words` gives.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
pub enum WordsFormat {
    /// A table to read.
    #[default]
    Table,
    /// Comma-separated values, for a spreadsheet.
    Csv,
    /// JSON.
    Json,
}
