#!/usr/bin/env bash
# Runs the two commands of the README's first code block, as a reader would, and nothing else.
set -euo pipefail

mapfile -t commands < <(awk '/^```/ { fence++; next } fence == 1 { print } fence == 2 { exit }' README.md | grep -v '^#' | grep -v '^$')
if [ "${#commands[@]}" -ne 2 ]; then
    echo "the README's first code block has ${#commands[@]} commands, not 2"
    exit 1
fi
for command in "${commands[@]}"; do
    echo "\$ $command"
    bash -c "$command"
done
packet=$(ls out/*.pdf)
echo "made: $packet"
qpdf --check "$packet"
