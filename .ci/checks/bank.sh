#!/usr/bin/env bash
# The word bank against what it was built from, and against other reference works. Each check names its source.
set -euo pipefail

echo "-- built again from CMUdict and SCOWL: the same bytes"
sh .ci/checks/rebuild.sh

for check in bank_cmudict bank_espeak bank_wordnet bank_frequency; do
    echo "-- $check"
    python3 ".ci/checks/$check.py"
done
