# SPDX-License-Identifier: MIT
"""Files made to harm: species files, recipes of pages, PNG pictures and photos (bars R4 and R5). Each is refused by
one line that names it, quickly, in little memory, and nothing of it reaches the terminal raw.

Run by Meson with INTERFIG."""
import os
import struct
import subprocess
import tempfile
import zlib

import pytest

PROGRAM = os.path.abspath(os.environ["INTERFIG"])
HEAD = "species:\n- key: tern\n"

SPECIES = {
    "empty": b"", "blanks": b" \n" * 1000, "one NUL": b"\0", "NULs": b"\0" * 4096,
    "NUL within": b"species:\n- key: a\0b\n  n: 1.5\n", "a mark alone": b"\xef\xbb\xbf",
    "two marks": b"\xef\xbb\xbf\xef\xbb\xbfspecies: []\n", "UTF-16": "species: []".encode("utf-16"),
    "UTF-32": "species: []".encode("utf-32"), "Latin 1": b"species:\n- key: \xe9\n  n: 1.5\n",
    "cut UTF-8": b"species:\n- key: \xe2\x82", "overlong UTF-8": b"species:\n- key: \xc0\xaf\n",
    "a surrogate": b"species:\n- key: \xed\xa0\x80\n", "beyond Unicode": b"s: \xf7\xbf\xbf\xbf\n",
    "terminal codes": b"species:\n- key: \x1b]0;owned\x07\n", "a bell": b"species:\n- key: \x07\n",
    "right to left": "species:\n- key: a\u202eb\n  n: 1.5\n".encode(),
    "old line ends": b"species:\r- key: a\r  n: [\r", "a tab": b"species:\n- key: a\n\tn: 1.5\n",
    "deep lists": b"species: " + b"[" * 10000, "deep maps": b"species: " + b"{a: " * 10000,
    "deep dashes": b"species:\n" + b"- " * 10000, "deep questions": b"? " * 10000,
    "brackets closed": b"species: " + b"[" * 9000 + b"]" * 9000,
    "an alias bomb": b"a: &a [x,x,x,x,x,x,x,x,x]\n" + b"".join(
        b"%c: &%c [*%c,*%c,*%c,*%c,*%c,*%c,*%c,*%c,*%c]\n" % ((98 + i, 98 + i) + (97 + i,) * 9)
        for i in range(24)) + b"species: *y\n",
    "an anchor of itself": b"species: &a [*a]\n", "a lost alias": b"species: *nothing\n",
    "a merge": b"species:\n- <<: {key: a}\n  n: 1.5\n", "a tag": b"species: !!python/object:os []\n",
    "a tag of one's own": b"%TAG ! tag:x,2000:\n---\nspecies: !x []\n",
    "a directive": b"%YAML 9.9\n---\nspecies: []\n", "two documents": b"species: []\n---\nspecies: []\n",
    "many documents": b"---\n" * 10000, "a million digits": HEAD.encode() + b"  n: 1." + b"5" * 10**6,
    "a long key": b"species:\n- key: " + b"k" * 900000 + b"\n  n: 1.5\n",
    "a long mapping key": b"species:\n- " + b"k" * 900000 + b": 1\n",
    "a long text": HEAD.encode() + b"  n: 1.5\n  notes: " + b"n" * 900000,
    "many keys": b"species:\n- " + b"\n  ".join(b"k%d: 1" % i for i in range(5000)),
    "the same key": HEAD.encode() + b"  n: 1.5\n" * 5000,
    "many stones": b"species:\n" + b"".join(b"- {key: s%d, n: 1.5}\n" % i for i in range(5000)),
    "twice one stone": b"species:\n- {key: a, n: 1.5}\n- {key: a, n: 1.5}\n",
    "many commas": b"species: [" + b"," * 100000, "many colons": b":" * 100000,
    "many quotes": b"'" * 99999, "many double quotes": b'"' * 99999, "many bars": b"|\n" * 50000,
    "many remarks": b"# nothing\n" * 100000, "an open quote": b"species: 'a\n" + b"b\n" * 10000,
    "an open block": HEAD.encode() + b"  notes: |\n" + b"    b\n" * 10000,
    "bad escape": b'species: "\\q"\n', "an escaped NUL": HEAD.encode() + b'  n: 1.5\n  notes: "\\0"\n',
    "a huge number": HEAD.encode() + b"  n: 1e999\n", "a tiny number": HEAD.encode() + b"  n: 1e-999\n",
    "no number": HEAD.encode() + b"  n: .nan\n", "infinity": HEAD.encode() + b"  n: .inf\n",
    "hexadecimal": HEAD.encode() + b"  n: 0x1p1\n", "octal": HEAD.encode() + b"  n: 0o17\n",
    "sixty based": HEAD.encode() + b"  n: 1:30\n", "thousands": HEAD.encode() + b"  n: 1_544\n",
    "a comma": HEAD.encode() + b"  n: 1,544\n", "an Arabic digit": (HEAD + "  n: \u0661.5\n").encode(),
    "a true": HEAD.encode() + b"  n: true\n", "a date": HEAD.encode() + b"  n: 2001-01-01\n",
    "a path": b"species:\n- key: ../../etc/passwd\n  n: 1.5\n",
    "a shell word": b"species:\n- key: $(reboot)\n  n: 1.5\n",
    "a format": b"species:\n- key: '%s%s%n'\n  n: 1.5\n",
    "a program": open(PROGRAM, "rb").read(200000), "chance": bytes(
        (1103515245 * i + 12345) >> 8 & 0xff for i in range(100000)),
    "just too long": b"#" * (1 << 20) + b"\n", "far too long": b"species: []\n" * 200000,
}

RUN = {"slowest": {}, "largest": {}, "count": 0}


def run_measured(folder, kind, *words):
    """Status, error; the slowest and the largest of each kind are kept. A child's peak begins with that of
    the process that forked it: time(1) is small."""
    with tempfile.NamedTemporaryFile("r") as usage:
        done = subprocess.run(["/usr/bin/time", "-q", "-o", usage.name, "-f", "%e %U %S %M", PROGRAM, *words],
                              cwd=folder, stdin=subprocess.DEVNULL, capture_output=True)
        elapsed, user, system, kib = map(float, usage.read().split())
    RUN["slowest"][kind] = max(RUN["slowest"].get(kind, 0.0), elapsed)
    RUN["largest"][kind] = max(RUN["largest"].get(kind, 0.0), kib / 1024)
    RUN["count"] += 1
    assert done.stdout == b"", done.stdout[:200]
    assert user + system < 1.0, "more than a second of work"
    return done.returncode, done.stderr


def must_be_refused(folder, name, *words):
    kind = "photos" if name == "a.photo" else "files"
    status, error = run_measured(folder, kind, *words)
    assert status in (65, 66, 74), (status, error)
    lines = error.decode("utf-8").splitlines()
    if len(lines) == 2:  # a recipe of another program is told as such before it is refused
        assert lines.pop(0).startswith("interfig: warning: '" + name)
    assert len(lines) == 1 and name in lines[0] and lines[0].isprintable(), error


@pytest.mark.parametrize("case", SPECIES)
def test_a_hostile_species_file_is_refused(case, tmp_path):
    (tmp_path / "club.yaml").write_bytes(SPECIES[case])
    must_be_refused(tmp_path, "club.yaml", "species", "--species-file", "club.yaml")


def test_a_gigabyte_is_refused_at_the_first_mebibyte(tmp_path):
    with open(tmp_path / "club.yaml", "wb") as sparse:
        sparse.write(b"species:\n")
        sparse.truncate(1 << 30)
    must_be_refused(tmp_path, "club.yaml", "species", "--species-file", "club.yaml")


@pytest.mark.parametrize("path", ["/dev/zero", "/dev/null", "/proc/self/mem", "."])
def test_a_device_in_place_of_a_file_is_refused(path, tmp_path):
    must_be_refused(tmp_path, path, "species", "--species-file", path)


TOP = b"title: T\nfigures:\n- stone: quartz\n"
RECIPES = {
    "empty": b"", "a word": b"quartz\n", "a list": b"- title: T\n", "no title": b"figures: [{stone: quartz}]\n",
    "no figures": b"title: T\n", "an empty list": b"title: T\nfigures: []\n",
    "a figure of nothing": b"title: T\nfigures: [{}]\n", "a figure of a word": b"title: T\nfigures: [quartz]\n",
    "figures in a figure": TOP + b"  figures: [{stone: quartz}]\n", "too many figures": TOP
    + b"- stone: quartz\n" * 200, "very many figures": TOP + b"- {}\n" * 60000,
    "the same key": TOP + b"  thickness: 3\n" * 5000, "two titles": b"title: A\n" + TOP,
    "many keys": TOP + b"".join(b"  k%d: 1\n" % i for i in range(5000)), "an unknown key": TOP + b"colums: 2\n",
    "a merge": TOP + b"  <<: {tilt: 3}\n", "an anchor": b"title: &a T\nfigures: [{stone: *a}]\n",
    "an anchor of itself": b"title: T\nfigures: &a [*a]\n", "a tag": TOP + b"  thickness: !!float 3\n",
    "an alias bomb": b"title: T\nintro: &a [x,x,x,x,x,x,x,x,x]\n" + b"".join(
        b"k%c: &%c [*%c,*%c,*%c,*%c,*%c,*%c,*%c,*%c,*%c]\n" % ((98 + i, 98 + i) + (97 + i,) * 9)
        for i in range(24)) + b"figures: *y\n",
    "deep lists": b"title: T\nfigures: " + b"[" * 10000, "deep maps": TOP + b"  photo: " + b"{file: " * 10000,
    "a deep tilt": TOP + b"  tilt: [[[[[[1]]]]]]\n", "a NUL": TOP + b"  thickness: 3\0\n",
    "an escaped NUL": TOP + b'  title: "a\\0b"\n', "UTF-16": TOP.decode().encode("utf-16"),
    "Latin 1": b"title: \xe9\nfigures: [{stone: quartz}]\n", "cut UTF-8": TOP + b"notes: \xe2\x82",
    "two marks": b"\xef\xbb\xbf\xef\xbb\xbf" + TOP, "terminal codes": TOP + b"notes: \x1b]0;owned\x07\n",
    "escaped terminal codes in a stone": TOP.replace(b"quartz", b'"\\e]0;owned\\a"'),
    "escaped terminal codes in a key": TOP + b'  "\\e[2J": 3\n',
    "escaped terminal codes above": TOP + b'"\\e[2J\\e]0;owned\\a": 3\n',
    "escaped terminal codes in a number": TOP + b'columns: "2\\e[2J"\n',
    "escaped terminal codes in a word": TOP + b'paper: "\\e[2J\\r\\n\\x9b2J"\n',
    "escaped terminal codes in a photo": TOP + b'  photo: "\\e]0;owned\\a.png"\n',
    "right to left": TOP + b'  labels: "\\u202efull"\n', "two documents": TOP + b"---\n" + TOP,
    "a directive": b"%YAML 9.9\n---\n" + TOP, "a million digits": TOP + b"  thickness: 3." + b"5" * 10**6,
    "a tab": TOP + b"\tthickness: 3\n", "a long key": TOP + b"  " + b"k" * 900 + b": 1\n",
    "an endless key": TOP + b"  " + b"k" * 900000 + b": 1\n", "an open quote": TOP + b"notes: 'a\n" + b"b\n" * 10000,
    "no columns": TOP + b"columns: 0\n", "five columns": TOP + b"columns: 5\n",
    "half a column": TOP + b"columns: 1.5\n", "endless columns": TOP + b"columns: 1e999\n",
    "no number of columns": TOP + b"columns: .nan\n", "a large figure": TOP + b"diameter: 180.0000001\n",
    "minus pages": TOP + b"pages: -1\n", "a comma": TOP + b"diameter: 60,5\n", "a list of papers": TOP + b"paper: [a4]\n",
    "another language": TOP + b"language: ../en\n", "thirteen lines": TOP + b"  observe: [a,b,c,d,e,f,g,h,i,j,k,l,m]\n",
    "no line": TOP + b"  observe: []\n", "half a circle": TOP + b"  photo: {file: a.jpg, circle: [1, 2]}\n",
    "an endless circle": TOP + b"  photo: {file: a.jpg, circle: [0, 0, inf]}\n",
    "a circle of lists": TOP + b"  photo: {file: a.jpg, circle: [[1], [2], [3]]}\n",
    "a photo of nothing": TOP + b"  photo: {turn: 3}\n", "a lost photo": TOP + b"  photo: nosuch.jpg\n",
    "a photo without end": TOP + b"  photo: /dev/zero\n", "a photo of no length": TOP + b"  photo: /dev/null\n",
    "a photo of words": TOP + b"  photo: /etc/passwd\n", "a photo of a folder": TOP + b"  photo: .\n",
    "a photo of itself": TOP + b"  photo: club.yaml\n", "an output": TOP + b"  output: /etc/elsewhere.png\n",
    "another recipe": TOP + b"  again: a.png\n", "no stone": b"title: T\nfigures: [{thickness: 3}]\n",
    "two stones": TOP.replace(b"quartz", b"[quartz, topaz]"), "a shell word": TOP.replace(b"quartz", b"$(reboot)"),
    "a format": TOP.replace(b"quartz", b"'%s%s%n'"), "an option of the machine": TOP + b"  threads: 4\n",
    "a huge size": TOP + b"  size: 65536\n", "just too long": TOP + b"#" * (1 << 20) + b"\n",
    "a program": open(PROGRAM, "rb").read(200000),
}


@pytest.mark.parametrize("case", RECIPES)
def test_a_hostile_recipe_of_a_page_is_refused(case, tmp_path):
    (tmp_path / "club.yaml").write_bytes(RECIPES[case])
    must_be_refused(tmp_path, "club.yaml", "page", "club.yaml", "-o", "b.pdf")
    assert [path.name for path in tmp_path.iterdir()] == ["club.yaml"]
    assert not os.path.exists("/etc/elsewhere.png")


@pytest.mark.parametrize("head", [b"\xff\xd8\xff\xe0", b"\x89PNG\r\n\x1a\n"], ids=["JPEG", "PNG"])
def test_a_photo_of_a_gigabyte_is_not_read_to_its_end(head, tmp_path):
    (tmp_path / "club.yaml").write_bytes(TOP + b"  photo: a.photo\n")
    with open(tmp_path / "a.photo", "wb") as sparse:
        sparse.write(head)
        sparse.truncate(1 << 30)
    must_be_refused(tmp_path, "a.photo", "page", "club.yaml", "-o", "b.pdf")


ODD_NAME = "\x1b]0;owned\x07\x1b[2J\u202e\n.%s%n"


def is_clean(text):
    """Printable lines and nothing else: no terminal code, no change of direction."""
    return all(line.isprintable() for line in text.decode("utf-8").split("\n"))


@pytest.mark.parametrize("words", [
    ["figure", "--again", "{}"], ["page", "{}", "-o", "a.pdf"], ["species", "--species-file", "{}"],
    ["figure", "quartz", "--lamp", "./{}.csv"], ["species", "{}"], ["figure", "{}"], ["{}"],
    ["figure", "quartz", "--{}"], ["figure", "quartz", "-o", "nosuch/{}.png"], ["help", "{}"],
    ["narrow", "--observed", "{}"], ["contrast", "{}", "quartz"], ["exercise", "--from", "{}", "-o", "a.pdf"]],
    ids=lambda words: " ".join(words))
@pytest.mark.parametrize("is_there", [False, True])
def test_a_name_of_terminal_codes_is_cleaned_in_messages(words, is_there, tmp_path):
    if is_there:
        (tmp_path / ODD_NAME).write_bytes(b"\x1b[2J")
    status, error = run_measured(tmp_path, "lines", *[word.format(ODD_NAME) for word in words])
    assert status != 0 and error.count(b"\n") <= 2 and is_clean(error), error


def test_what_is_written_is_told_without_terminal_codes(tmp_path):
    """A title of a recipe and names of outputs come back on standard output."""
    (tmp_path / "club.yaml").write_bytes(
        b'title: "\\e]0;owned\\a\\u202e"\nfigures: [{stone: quartz, title: "\\e[2J", size: 16}]\n')
    for words in (["page", "club.yaml", "-o", ODD_NAME[:-4] + ".pdf"],
                  ["figure", "quartz", "--size", "16", "-o", ODD_NAME[:-4] + ".png"]):
        done = subprocess.run([PROGRAM, *words], cwd=tmp_path, stdin=subprocess.DEVNULL, capture_output=True)
        assert is_clean(done.stdout) and is_clean(done.stderr), done


def chunk(kind, data, check=0):
    return struct.pack(">I", len(data)) + kind + data + struct.pack(
        ">I", zlib.crc32(kind + data) ^ check)


def png(*chunks, width=4, height=4):
    header = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + b"".join(chunks)


ROWS = chunk(b"IDAT", zlib.compress(b"\0" * 13 * 4))
END = chunk(b"IEND", b"")


def make_bomb():
    """200 MB of one letter, packed a megabyte at a time."""
    packer = zlib.compressobj(9)
    return b"".join(packer.compress(b"a" * 1_000_000) for _ in range(200)) + packer.flush()


BOMB = make_bomb()
PICTURES = {
    "nothing": b"", "the signature": b"\x89PNG\r\n\x1a\n", "text": b"figure quartz\n" * 100,
    "no header": b"\x89PNG\r\n\x1a\n" + ROWS + END, "no picture": png(END), "no end": png(ROWS),
    "no recipe": png(ROWS, END), "a huge header": png(ROWS, END, width=100000, height=100000),
    "no width": png(ROWS, END, width=0), "the largest": png(ROWS, END, width=2**31 - 1, height=2**31 - 1),
    "beyond the largest": png(ROWS, END, width=2**32 - 1, height=2**32 - 1),
    "a text bomb": png(chunk(b"zTXt", b"Recipe\0\0" + BOMB), ROWS, END),
    "an international bomb": png(chunk(b"iTXt", b"Recipe\0\1\0\0\0" + BOMB), ROWS, END),
    "a profile bomb": png(chunk(b"iCCP", b"icc\0\0" + BOMB), ROWS, END),
    "a picture bomb": png(chunk(b"IDAT", BOMB), END),
    "many bombs": png(*[chunk(b"zTXt", b"Recipe\0\0" + BOMB)] * 10, ROWS, END),
    "an exif loop": png(chunk(b"eXIf", b"II*\0\x08\0\0\0\1\0\x69\x87\4\0\1\0\0\0\x08\0\0\0\x08\0\0\0"),
                        ROWS, END),
    "wrong sums": png(chunk(b"tEXt", b"Recipe\0figure quartz", 1), ROWS, END),
    "a wrong header sum": b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", b"\0" * 13, 1) + ROWS + END,
    "a length of 2^31": b"\x89PNG\r\n\x1a\n" + struct.pack(">I", 2**31) + b"IHDR",
    "many empty chunks": png(*[chunk(b"teXt", b"")] * 100000, ROWS, END),
    "a recipe of terminal codes": png(chunk(b"tEXt", b"Recipe\0\x1b]0;owned\x07"), ROWS, END),
    "a recipe of nonsense": png(chunk(b"tEXt", b"Recipe\0rm -rf quartz; $(reboot)"), ROWS, END),
    "a recipe of a recipe": png(chunk(b"tEXt", b"Recipe\0figure --again a.png"), ROWS, END),
    "a recipe without end": png(chunk(b"tEXt", b"Recipe\0" + b"figure " * 100000), ROWS, END),
    "a recipe of formats": png(chunk(b"tEXt", b"Recipe\0figure %s%n --size 10"), ROWS, END),
    "a recipe that writes elsewhere": png(
        chunk(b"tEXt", b"Recipe\0figure quartz -o /etc/elsewhere.png"), ROWS, END),
}


@pytest.mark.parametrize("case", PICTURES)
def test_a_hostile_picture_is_refused_and_its_words_are_not_obeyed(case, tmp_path):
    (tmp_path / "a.png").write_bytes(PICTURES[case])
    must_be_refused(tmp_path, "a.png", "figure", "--again", "a.png", "-o", "b.png")
    assert [path.name for path in tmp_path.iterdir()] == ["a.png"]
    assert not os.path.exists("/etc/elsewhere.png")


def test_the_figures():
    """Peak memory counts the program's libraries: an empty one takes 3 MiB, with that of plates 15."""
    print("{} hostile files and lines, none taken".format(RUN["count"]), *[
        "; {}: the slowest {:.0f} ms, the largest {:.1f} MiB".format(kind, 1000 * RUN["slowest"][kind],
                                                                     RUN["largest"][kind])
        for kind in sorted(RUN["slowest"])], sep="")
    assert RUN["count"] >= 60 and RUN["largest"]["photos"] < 256
    assert RUN["largest"]["files"] < 32 and RUN["largest"]["lines"] < 32
