"""PDF files, and the content as data, as other programs see them.

Sources: ISO 32000-1 (PDF 1.7) as qpdf checks it; poppler's pdffonts, pdfinfo and pdftotext. For each built-in layout of the
list below, on both papers, the text of every page must be exactly the words of `--format json` and the fixed texts. Every built-in
layout is held to the form of a file, and its content to src/sheet/sheet.schema.json (JSON Schema 2020-12, by PyPI's `jsonschema`).
"""

import collections
import json
import pathlib
import re
import subprocess
import sys
import tempfile

import jsonschema
import yaml

BINARY = "target/release/sheafling"
LAYOUTS = ["sound-boxes", "blend-sort", "word-ladder"]
STEPS = ["s-blends", "a-e", "ou-oi"]
SEEDS = ["calm-otter-42", "2", "a third seed"]
PAPERS = {"letter": (612.0, 792.0), "a4": (595.276, 841.89)}
MOST_BYTES = 40_000
CHILD = "Wilhelmina-Josephine Abcd"  # 25 letters

failures = []
made = 0


def run(*command):
    return subprocess.run(command, capture_output=True, text=True, check=False)


def expect(condition, what):
    if not condition:
        failures.append(what)


def tokens(text):
    # Form feeds part pages; a combining mark stays with its letter.
    return collections.Counter(text.replace("\f", " ").split())


def body(content):
    """The texts that a layout prints between its directions and its footer."""
    items = content["items"]
    if content["layout"] == "sound-boxes":
        return [f"{number}. {item['word']}" for number, item in enumerate(items, 1)]
    if content["layout"] == "blend-sort":
        return content["word_bank"] + [column["blend"] for column in content["columns"]]
    start = items[0]["boxes"]
    return [item["clue"] for item in items] + start["letters"] + [start.get("after", "")]


def expected(content, page, pages):
    fixed = ["Name Date", content["title"], content["directions"], content["note"], content["child"]]
    footer = [content["title"], "·", content["child"], f"page {page} of {pages}", "·", f"seed {content['seed']}", "·", content["code"]]
    return tokens(" ".join(fixed + body(content) + footer))


def answers(content):
    """What the key must show beside the sheet's own texts."""
    if content["layout"] == "blend-sort":
        return [word for column in content["columns"] for word in column["words"]]
    return [letters for item in content["items"] for letters in item["boxes"]["letters"]]


with tempfile.TemporaryDirectory() as folder:
    for layout in LAYOUTS:
        for paper, size in PAPERS.items():
            for step, seed in zip(STEPS, SEEDS):
                name = f"{layout} {paper} {step} {seed}"
                path = str(pathlib.Path(folder) / "sheet.pdf")
                asked = [BINARY, "sheet", layout, "--paper", paper, "--step", step, "--seed", seed, "--child", CHILD]
                done = run(*asked, "--key", "end", "--out", path)
                expect(done.returncode == 0, f"{name}: {done.stderr}")
                if done.returncode != 0:
                    continue
                made += 1
                content = json.loads(run(*asked, "--key", "end", "--format", "json").stdout)
                expect(run("qpdf", "--check", path).returncode == 0, f"{name}: qpdf --check")
                expect(pathlib.Path(path).stat().st_size < MOST_BYTES, f"{name}: over {MOST_BYTES} bytes")

                fonts = run("pdffonts", path).stdout.splitlines()[2:]
                expect(fonts, f"{name}: no fonts")
                for font in fonts:
                    # The columns are: name type encoding emb sub uni object-ID.
                    expect(re.search(r"\+Andika.*\byes +yes +yes\b", font), f"{name}: font {font}")

                info = dict(line.split(":", 1) for line in run("pdfinfo", path).stdout.splitlines())
                pages = int(info["Pages"])
                expect(info["PDF version"].strip() == "1.7", f"{name}: {info['PDF version']}")
                expect(info["Title"].strip() == content["title"], f"{name}: title {info.get('Title')}")
                width, height = re.findall(r"[\d.]+", info["Page size"])[:2]
                near = abs(float(width) - size[0]) < 0.01 and abs(float(height) - size[1]) < 0.01
                expect(near, f"{name}: page size {info['Page size']}")

                source = subprocess.run(
                    ["qpdf", "--qdf", "--object-streams=disable", path, "-"], capture_output=True, check=False
                ).stdout.decode("latin-1")
                expect("/Lang (en-US)" in source, f"{name}: no language")
                colour = re.search(r"^[\d. ]+ (rg|RG|k|K|sc|SC|scn|SCN)$", source, re.M)
                expect(not colour, f"{name}: colour operator {colour and colour.group(0)}")

                text = run("pdftotext", "-f", "1", "-l", "1", "-layout", path, "-").stdout
                want = expected(content, 1, pages)
                expect(tokens(text) == want, f"{name}: text {tokens(text) - want} / missing {want - tokens(text)}")
                key = run("pdftotext", "-f", "2", "-l", str(pages), "-layout", path, "-").stdout
                shown = tokens(key)
                lacking = tokens(" ".join(answers(content))) - shown
                expect(not lacking, f"{name}: the key lacks {lacking}")
                expect("KEY" in key.split() and seed.split()[0] in key, f"{name}: the key is not marked")

schema = json.loads(pathlib.Path("src/sheet/sheet.schema.json").read_text(encoding="utf-8"))
validator = jsonschema.Draft202012Validator(schema)
every = [line.split()[0] for line in run(BINARY, "list", "layouts").stdout.splitlines()[1:]]
with tempfile.TemporaryDirectory() as folder:
    for layout in every:
        for paper in PAPERS:
            path = str(pathlib.Path(folder) / f"{layout}-{paper}.pdf")
            asked = [BINARY, "sheet", layout, "--paper", paper, "--seed", SEEDS[0]]
            done = run(*asked, "--out", path)
            expect(done.returncode == 0, f"{layout} {paper}: {done.stderr}")
            if done.returncode != 0:
                continue
            made += 1
            expect(run("qpdf", "--check", path).returncode == 0, f"{layout} {paper}: qpdf --check")
            fonts = run("pdffonts", path).stdout.splitlines()[2:]
            expect(all(re.search(r"\byes +yes +yes\b", font) for font in fonts), f"{layout} {paper}: fonts {fonts}")
            content = json.loads(run(*asked, "--format", "json").stdout)
            for error in validator.iter_errors(content):
                failures.append(f"{layout}: {error.json_path}: {error.message}")
            text = run("pdftotext", "-layout", path, "-").stdout
            # Words that are heard stand on the key. In boxes, and without its blend, no word is whole.
            items = content["items"] + [item for part in content.get("parts", []) for item in part["items"]]
            whole = [item for item in items if "boxes" not in item and item["kind"] != "match"]
            for item in whole:
                for word in item["word"].split():
                    expect(word in text, f"{layout} {paper}: {word} is on no page")

class Yaml12(yaml.SafeLoader):
    """YAML 1.2, as the program and editors read it: `on` is a text, and only `true` and `false` are not."""


Yaml12.yaml_implicit_resolvers = {
    first: [(tag, pattern) for tag, pattern in resolvers if tag != "tag:yaml.org,2002:bool"]
    for first, resolvers in yaml.SafeLoader.yaml_implicit_resolvers.items()
}
Yaml12.add_implicit_resolver("tag:yaml.org,2002:bool", re.compile(r"^(?:true|false|True|False|TRUE|FALSE)$"), list("tTfF"))

# Layouts and plans against the schemas that the program prints for editors.
for kind, folder in (("layout", "layouts"), ("plan", "layouts/plans")):
    validator = jsonschema.Draft202012Validator(json.loads(run(BINARY, "schema", kind).stdout))
    jsonschema.Draft202012Validator.check_schema(validator.schema)
    for path in sorted(pathlib.Path(folder).glob("*.yaml")):
        for error in validator.iter_errors(yaml.load(path.read_text(encoding="utf-8"), Loader=Yaml12)):
            failures.append(f"{path}: {error.json_path}: {error.message}")
    if not list(validator.iter_errors({"name": "a", "titel": "A"})):
        failures.append(f"the schema of a {kind} takes anything")

for failure in failures:
    print("FAIL", failure)
print(f"{made} PDF files checked with qpdf and poppler, {len(failures)} failures")
sys.exit(1 if failures or made < 12 else 0)
