# SPDX-License-Identifier: MIT
"""interfig exercise: a folder that is whole, the same on each run, and gives nothing away."""
import csv
import io
import json
import os
import pathlib
import re
import shlex
import signal
import subprocess
import time

import numpy
import pytest
from PIL import Image

from conftest import PROGRAM

SCHEMA = pathlib.Path(__file__).resolve().parents[2] / "cli" / "schema" / "exercise.json"
FILES = ["answers.pdf", "exercise.csv", "exercise.json", "exercise.pdf"]
TITLE = "Tern Harbour lapidary club, evening class"


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    place = tmp_path_factory.mktemp("class")
    done = subprocess.run([PROGRAM, "exercise", "--level", "3", "--count", "10", "--seed", "5", "--title",
                           TITLE, "-o", "club"], cwd=place, capture_output=True, text=True)
    assert done.returncode == 0 and done.stderr == ""
    assert done.stdout.startswith("club: 10 questions of level 3 about 17 stones")
    return place / "club"


def run(*command):
    done = subprocess.run(command, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


def pixels_of(path):
    return numpy.asarray(Image.open(path).convert("RGB")).astype(int)


def rows(folder):
    text = (folder / "exercise.csv").read_bytes().decode("utf-8")
    assert text.count("\r\n") == text.count("\n") == 11
    return list(csv.DictReader(io.StringIO(text, newline="")))


def test_the_folder_holds_what_was_promised(folder):
    assert sorted(path.name for path in folder.iterdir()) == sorted(
        FILES + [f"q{i:02}.png" for i in range(1, 11)])
    assert [path.name for path in folder.parent.iterdir()] == ["club"]


def check_schema(value, schema, at="exercise"):
    """As much of JSON Schema as the file uses."""
    names = {"object": dict, "array": list, "string": str, "integer": int, "number": (int, float),
             "null": type(None)}
    if "type" in schema:
        types = schema["type"] if isinstance(schema["type"], list) else [schema["type"]]
        assert any(isinstance(value, names[name]) for name in types), at
    assert "const" not in schema or value == schema["const"], at
    assert "enum" not in schema or value in schema["enum"], at
    assert "pattern" not in schema or re.search(schema["pattern"], value), at
    if isinstance(value, (int, float)):
        assert schema.get("minimum", value) <= value <= schema.get("maximum", value), at
    if isinstance(value, list):
        assert schema.get("minItems", 0) <= len(value) <= schema.get("maxItems", len(value)), at
        for i, item in enumerate(value):
            check_schema(item, schema.get("items", {}), f"{at}[{i}]")
    if isinstance(value, dict):
        assert set(schema["required"]) <= set(value) <= set(schema["properties"]), at
        for key, item in value.items():
            check_schema(item, schema["properties"][key], f"{at}.{key}")


def test_json_keeps_to_its_schema(folder):
    answer = json.loads((folder / "exercise.json").read_text("utf-8"))
    check_schema(answer, json.loads(SCHEMA.read_text("utf-8")))
    assert answer["title"] == TITLE and answer["seed"] == 5 and len(answer["questions"]) == 10


def test_csv_and_json_say_the_same(folder):
    questions = json.loads((folder / "exercise.json").read_text("utf-8"))["questions"]
    for row, question in zip(rows(folder), questions):
        key = question["key"]
        assert [row[name] for name in ("id", "kind", "text", "figure")] == [
            question[name] for name in ("id", "kind", "text", "figure")]
        choices = [row[f"choice_{i}"] for i in range(1, 5) if row[f"choice_{i}"]]
        assert choices == question["choices"]
        if choices:
            assert row["answer"] == key["answer"] in choices and row["tolerance"] == ""
        else:
            assert float(row["answer"]) == key["answer"] and float(row["tolerance"]) == 10
        assert row["species"] == key["species"] and row["recipe"] == key["recipe"]
        assert row["reading"] == " ".join(key["reading"])


def test_an_answer_is_that_of_the_catalogue(folder, interfig):
    kinds = {"character": "character", "sign": "sign"}
    for row in rows(folder):
        facts = json.loads(interfig("species", row["species"], "--json").out)
        if row["kind"] == "character":
            assert row["answer"] == facts["character"]
        if row["kind"] == "sign":
            assert row["answer"] == facts["sign"]
        if row["kind"] == "species":
            assert row["answer"] == facts["name"]


def test_a_recipe_makes_the_figure_of_its_question(folder, interfig, tmp_path):
    for row in rows(folder):
        assert interfig(*shlex.split(row["recipe"])[1:], "-o", "again.png").status == 0
        mine, again = pixels_of(folder / row["figure"]), pixels_of(tmp_path / "again.png")
        y, x = numpy.mgrid[0:600, 0:600] - 299.5
        inside = numpy.hypot(x, y) < 299
        assert (mine[inside] == again[inside]).all()
        assert (mine[numpy.hypot(x, y) > 301] == 255).all()


def test_a_question_gives_its_answer_away_nowhere(folder):
    names = [row["species"] for row in rows(folder)] + ["Doubly refractive", "interfig figure", "Recipe"]
    for i in range(1, 11):
        raw = (folder / f"q{i:02}.png").read_bytes()
        texts = Image.open(folder / f"q{i:02}.png").text
        assert set(texts) == {"Title", "Disclaimer"} and texts["Title"] == f"Question {i}"
        assert not any(name.encode() in raw for name in names)
    pdf = subprocess.run(["qpdf", "--qdf", "--object-streams=disable", folder / "exercise.pdf", "-"],
                         capture_output=True).stdout.decode("latin-1")
    assert pdf.startswith("%PDF")
    words = run("pdftotext", folder / "exercise.pdf", "-")
    for name in ["Doubly refractive", "interfig figure", "melatope"]:
        assert name not in words and name not in pdf


def test_pages_are_clean_tagged_and_fit_both_papers(folder):
    for name in ("exercise.pdf", "answers.pdf"):
        run("qpdf", "--check", folder / name)
        about = run("pdfinfo", folder / name)
        assert "Tagged:          yes" in about
        width, height = map(float, re.search(r"Page size: +([\d.]+) x ([\d.]+)", about).groups())
        assert width <= 595.3 and height <= 792  # A4's width, Letter's height
        fonts = run("pdffonts", folder / name).splitlines()[2:]
        assert fonts and all(line.split()[-5:-2] == ["yes", "yes", "yes"] for line in fonts)


def test_the_pages_read_in_order(folder):
    words = " ".join(run("pdftotext", folder / "exercise.pdf", "-").split())
    at = [words.index(row["text"]) for row in rows(folder)[:1]]
    assert words.startswith(TITLE) and "Name" in words and "Date" in words and at[0] > 0
    assert "evidence, not an identification" in words and "sun" in words
    answers = " ".join(run("pdftotext", folder / "answers.pdf", "-").split())
    for row in rows(folder):
        if row["kind"] != "two-v":
            assert row["answer"] in answers
    assert "interfig figure" in answers


def test_nothing_stands_in_the_margins(folder, tmp_path):
    for name in ("exercise.pdf", "answers.pdf"):
        run("pdftoppm", "-r", "72", "-png", folder / name, tmp_path / name)
    margin = 28  # 10 mm
    for path in tmp_path.glob("*.png"):
        page = pixels_of(path)
        inner = page[margin:-margin, margin:-margin]
        assert (page == 255).sum() - (inner == 255).sum() == page.size - inner.size, path


def test_a_seed_gives_the_same_bytes_and_another_seed_others(interfig, tmp_path):
    for name, seed in (("one", "4"), ("two", "4"), ("three", "6")):
        assert interfig("exercise", "--count", "3", "--size", "100", "--seed", seed, "-o", name).status == 0
    for path in (tmp_path / "one").iterdir():
        assert path.read_bytes() == (tmp_path / "two" / path.name).read_bytes(), path.name
        assert path.read_bytes() != (tmp_path / "three" / path.name).read_bytes(), path.name


def test_threads_change_nothing(interfig, tmp_path):
    for threads in ("1", "3"):
        assert interfig("exercise", "--count", "2", "--size", "100", "--threads", threads, "-o",
                        threads).status == 0
    for path in (tmp_path / "1").iterdir():
        assert path.read_bytes() == (tmp_path / "3" / path.name).read_bytes(), path.name


@pytest.mark.parametrize("line,status,words", [
    ("exercise --count 0 -o x", 64, ["--count", "1 to 100"]),
    ("exercise --count 500 -o x", 64, ["--count", "1 to 100"]),
    ("exercise --count 2.5 -o x", 64, ["--count"]),
    ("exercise --level 4 -o x", 64, ["--level", "1 to 3"]),
    ("exercise --seed -1 -o x", 64, ["--seed"]),
    ("exercise --from quarz -o x", 64, ["--from", "quarz", "quartz"]),
    ("exercise --from spinel -o x", 64, ["--from", "spinel", "isotropic", "leave it out"]),
    ("exercise --from chalcedony -o x", 64, ["--from", "aggregate"]),
    ("exercise --from quartz,,ruby -o x", 64, ["--from", "empty entry"]),
    ("exercise --from '' -o x", 64, ["--from"]),
    ("exercise --from calcite --count 60 -o x", 64, ["list of 1 stone", "not 60", "name more stones"]),
    ("exercise --title '' -o x", 64, ["--title"]),
    ("exercise --title 'a\nb' -o x", 64, ["--title", "print"]),
    ("exercise --dpi 20 -o x", 64, ["--dpi", "50 to 1200"]),
    ("exercise --size 9 -o x", 64, ["--size", "100 to 4096"]),
    ("exercise", 64, ["-o tonight"]),
    ("exercise -o -", 64, ["-o tonight"]),
    ("exercise ruby -o x", 64, ["--from"]),
    ("exercise --thickness 3 -o x", 64, ["--thickness belongs to"]),
    ("exercise --species-file none.yaml -o x", 66, ["none.yaml"]),
    ("exercise -o none/x", 73, ["none/x"]),
    ("exercise -o a_file", 73, ["no folder"]),
    ("exercise -o full", 73, ["not empty", "--force"]),
    ("exercise --force -o full", 73, ["notes.txt", "another folder"]),
])
def test_what_cannot_be_done_is_refused(refused, tmp_path, line, status, words):
    (tmp_path / "a_file").write_text("a")
    (tmp_path / "full").mkdir()
    (tmp_path / "full" / "notes.txt").write_text("of the teacher")
    message = refused(status, *shlex.split(line))
    assert all(word in message for word in words), message


def test_force_replaces_an_older_exercise_whole(interfig, tmp_path):
    words = ["exercise", "--size", "100", "-o", "again"]
    assert interfig(*words, "--count", "4").status == 0
    assert interfig(*words, "--count", "2").status == 73
    assert interfig(*words, "--count", "2", "--force").status == 0
    assert sorted(path.name for path in (tmp_path / "again").iterdir()) == FILES + ["q01.png", "q02.png"]
    assert [path.name for path in tmp_path.iterdir()] == ["again"]


def test_an_empty_folder_is_filled_and_keeps_its_mode(interfig, tmp_path):
    (tmp_path / "mine").mkdir()
    os.chmod(tmp_path / "mine", 0o750)
    assert interfig("exercise", "--count", "1", "--size", "100", "-o", "mine/").status == 0
    assert len(list((tmp_path / "mine").iterdir())) == 5
    assert (tmp_path / "mine").stat().st_mode & 0o777 == 0o750


@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM])
def test_a_signal_leaves_nothing_behind(tmp_path, number):
    working = subprocess.Popen([PROGRAM, "exercise", "--count", "60", "-o", "late"], cwd=tmp_path,
                               stdout=subprocess.PIPE, stderr=subprocess.PIPE)
    for _ in range(200):
        if list(tmp_path.iterdir()):
            break
        time.sleep(0.02)
    assert list(tmp_path.iterdir()), "never began"
    time.sleep(0.3)
    working.send_signal(number)
    out, _ = working.communicate(timeout=60)
    assert working.returncode == -number and out == b""
    assert list(tmp_path.iterdir()) == []


def test_a_stone_of_the_clubs_own_is_asked_about(interfig, club_files):
    answer = interfig("exercise", "--species-file", "club.yaml", "--from", "harbour_topaz,common", "--level",
                      "3", "--count", "3", "--size", "100", "-o", "own")
    assert answer.status == 0 and b"18 stones" in answer.out
