//! A packet from its plan to its pages, and writing it whole or not at all.
//!
//! A [`Plan`] is what a file or the command line says; a [`PacketRequest`] is the same with nothing left open. [`make()`] chooses
//! the content of each sheet, solves it back, and places sheets and keys on pages. A sheet's content depends on its layout,
//! step, focus, count, the seed and the child, and on no other sheet, but that sheets leave aside the words of a lesson script in their
//! packet, and a note to the family tells of the whole packet.

pub mod bound;
pub mod class;
pub mod class_list;
mod code;
mod earlier;
mod fingerprints;
pub mod group;
mod make;
pub mod manifest;
mod plan;
pub mod report;
mod request;
pub mod run;
mod sets;
mod together;
mod write;

pub use class::{Deal, Member};
pub use code::{Code, CodeError};
pub use earlier::Earlier;
pub use fingerprints::Fingerprints;
pub use group::{Child, Group, GroupError, Known};
pub use make::{Made, MakeError, contents, make, make_some};
pub use manifest::{Binding, MadeRecord, MadeSheet, Manifest, ManifestError, Source, Sources};
pub use plan::{FocusNames, KeyPlace, MOST_SHEETS, Plan, PlanSheet, StepName};
pub use report::MatchReport;
pub use request::{Materials, PacketRequest, RequestError, SheetRequest, blends_named};
pub use sets::Place;
pub use write::{Outputs, WriteError};
