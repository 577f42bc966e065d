//! How long the parts of a command take. `cargo bench`; compare the figures of one run with each other.
#![allow(clippy::expect_used, reason = "a benchmark may stop where something is missing")]

use sheafling::bank::Bank;
use sheafling::layout::Library;
use sheafling::packet::{Materials, PacketRequest, Plan, make};
use sheafling::sequence::Sequence;
use sheafling::sounds::Counting;

fn main() {
    divan::main();
}

fn materials() -> Materials {
    Materials::new(
        Bank::builtin(Counting::default()).expect("the built-in bank is whole"),
        Sequence::builtin().expect("the built-in sequence is whole"),
        Library::builtin().expect("the built-in layouts are whole"),
    )
}

#[divan::bench]
fn load_the_bank() -> Bank {
    Bank::builtin(Counting::default()).expect("the built-in bank is whole")
}

#[divan::bench]
fn load_the_sequence() -> Sequence {
    Sequence::builtin().expect("the built-in sequence is whole")
}

#[divan::bench]
fn load_the_layouts() -> Library {
    Library::builtin().expect("the built-in layouts are whole")
}

#[divan::bench]
fn step_of_every_word(bencher: divan::Bencher<'_, '_>) {
    let Materials { bank, sequence, .. } = materials();
    bencher.bench(|| sequence.steps_of(&bank));
}

#[divan::bench(args = ["sound-boxes", "blend-sort", "word-ladder"])]
fn make_a_sheet(bencher: divan::Bencher<'_, '_>, layout: &str) {
    let materials = materials();
    let text = format!("title: t\nstep: a-e\nfocus: [bl, cl, fl]\nsheets: [{layout}]\n");
    let plan = Plan::read("plan.yaml", &text).expect("the plan is whole");
    let seed = "calm-otter-42".parse().expect("a seed");
    let request = PacketRequest::new(&plan, &materials, seed).expect("the plan can be resolved");
    bencher.bench(|| make(&request, &materials).expect("it can be filled"));
}

#[divan::bench]
fn write_a_packet(bencher: divan::Bencher<'_, '_>) {
    let materials = materials();
    let text = "title: t\nstep: a-e\nfocus: [bl, cl, fl]\nsheets: [sound-boxes, blend-sort, word-ladder]\n";
    let plan = Plan::read("plan.yaml", text).expect("the plan is whole");
    let seed = "calm-otter-42".parse().expect("a seed");
    let request = PacketRequest::new(&plan, &materials, seed).expect("the plan can be resolved");
    let made = make(&request, &materials).expect("it can be filled");
    bencher.bench(|| sheafling::pdf::write(&made.document).expect("it can be written"));
}
