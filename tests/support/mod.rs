//! What the tests share: running commands in this process, and making requests.
#![allow(dead_code, reason = "each test uses some of it")]

use std::sync::OnceLock;

use sheafling::bank::Bank;
use sheafling::cli::{Outcome, run};
use sheafling::layout::{Library, Placed, bind};
use sheafling::packet::{FocusNames, KeyPlace, Materials, PacketRequest, Plan, PlanSheet, StepName};
use sheafling::page::{Document, Paper};
use sheafling::seed::Seed;
use sheafling::sequence::Sequence;
use sheafling::sounds::Counting;

/// Runs `sheafling` with some arguments in this process.
pub fn sheafling(args: &[&str]) -> Outcome {
    run(std::iter::once("sheafling").chain(args.iter().copied()).map(Into::into))
}

/// What a command prints when it succeeds.
#[track_caller]
pub fn printed(args: &[&str]) -> String {
    let outcome = sheafling(args);
    assert_eq!(outcome.code, 0, "{args:?}: {}", outcome.err);
    String::from_utf8(outcome.out).unwrap()
}

/// The built-in bank, sequence and layouts, read once.
pub fn materials() -> &'static Materials {
    static MATERIALS: OnceLock<Materials> = OnceLock::new();
    MATERIALS.get_or_init(|| {
        let bank = Bank::builtin(Counting::default()).unwrap();
        Materials::new(bank, Sequence::builtin().unwrap(), Library::builtin().unwrap())
    })
}

/// A sheet to ask for.
#[derive(Clone, Debug)]
pub struct Ask {
    pub layout: String,
    pub step: Option<String>,
    pub focus: Option<String>,
    pub count: Option<usize>,
    pub seed: String,
    pub child: Option<String>,
    pub paper: Paper,
}

impl Ask {
    /// A sheet with the usual numbers and the seed of the examples.
    pub fn new(layout: &str) -> Self {
        Self {
            layout: layout.to_owned(),
            step: None,
            focus: None,
            count: None,
            seed: "calm-otter-42".to_owned(),
            child: None,
            paper: Paper::Letter,
        }
    }

    /// The request for a packet of this sheet alone.
    pub fn request(&self) -> PacketRequest {
        let sheet = PlanSheet { layout: self.layout.clone(), count: self.count, ..PlanSheet::default() };
        let plan = Plan {
            title: self.layout.clone(),
            step: self.step.clone().map(StepName),
            focus: self.focus.as_deref().map(FocusNames::parse),
            paper: Some(self.paper),
            key: Some(KeyPlace::Apart),
            child: self.child.clone(),
            sheets: vec![sheet],
            ..Plan::default()
        };
        PacketRequest::new(&plan, materials(), Seed::new(&self.seed).unwrap()).unwrap()
    }
}

/// The pages of one placed sheet.
pub fn pages(placed: Placed) -> Document {
    bind(&[placed], "test", |_| true)
}
