//! Printable reading worksheets whose words are chosen by sound.
//!
//! One way leads from a request to a printed page, and each folder knows only those before it:
//!
//! ```text
//! request ── plan ── fill ── sheet ── page ── pdf
//!  (cli)   (packet) (items) (content) (marks) (bytes)
//! ```
//!
//! [`sounds`] and [`spelling`] say what a word is to the ear and on paper; the [`bank`] has the words, the teaching [`sequence`] says
//! which of them a child can read. A [`fill`] chooses content with a [`seed`]ed stream, answers every item afresh, and gives what a
//! [`sheet`] holds. A [`layout`] places it on [`page`]s, [`pdf`] writes them, and a [`packet`] binds sheets and their keys. A [`record`]
//! keeps what children tried and plans what comes next.
//!
//! ```
//! use sheafling::bank::Bank;
//! use sheafling::layout::Library;
//! use sheafling::packet::{Materials, PacketRequest, Plan, make};
//! use sheafling::sequence::Sequence;
//! use sheafling::sounds::Counting;
//!
//! let materials = Materials::new(Bank::builtin(Counting::default())?, Sequence::builtin()?, Library::builtin()?);
//! let plan = Plan::read("week.yaml", "title: Week 1\nstep: a-e\nfocus: [bl, cl, fl]\nsheets: [blend-sort]\n")?;
//! let request = PacketRequest::new(&plan, &materials, "calm-otter-42".parse()?)?;
//! let made = make(&request, &materials)?;
//! assert_eq!(made.sheets[0].columns.len(), 3);
//! let bytes = sheafling::pdf::write(&made.document)?;
//! assert!(bytes.starts_with(b"%PDF-1.7"));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! What is *not* checked here: whether a word suits the one child in front of you, and whether the printer keeps the size of a page
//! (print at 100 %).

pub mod bank;
pub mod cli;
pub mod fill;
pub mod layout;
pub mod nearest;
pub mod packet;
pub mod page;
pub mod pdf;
pub mod record;
pub mod rows;
pub mod seed;
pub mod sequence;
pub mod sheet;
pub mod sounds;
pub mod spelling;
pub mod yaml;
