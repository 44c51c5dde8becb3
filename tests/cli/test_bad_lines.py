# SPDX-License-Identifier: MIT
"""Bad command lines: each number option with each kind of bad value, and every way to contradict
oneself. One line that names the culprit and the remedy, status 64, nothing written."""
import math

import pytest

FIGURE = ["figure", "quartz"]
PROBE = ["probe", "quartz"]
BLINK = ["blink", "quartz"]
FACE = ["face", "chalcedony"]
MEASURED = ["figure", "--indices", "1.544,1.553"]

# option, command line before it, least, most
NUMBERS = [
    ("--thickness", FIGURE, 0.001, 100.0),
    ("--thickness", PROBE, 0.001, 100.0),
    ("--stage", FIGURE, -3600.0, 3600.0),
    ("--field", FIGURE, 0.1, 89.9),
    ("--immersion", FIGURE, 1.0, 2.5),
    ("--polariser", FIGURE, -3600.0, 3600.0),
    ("--analyser", FIGURE, -3600.0, 3600.0),
    ("--rotation", MEASURED, -100000.0, 100000.0),
    ("--wavelength", PROBE, 380.0, 780.0),
    ("--size", FIGURE, 1.0, 65535.0),
    ("--depth", FIGURE, 8.0, 16.0),
    ("--dpi", FIGURE, 1.0, 100000.0),
    ("--exposure", FIGURE, -20.0, 20.0),
    ("--threads", FIGURE, 1.0, 256.0),
    ("--cone", BLINK, 0.1, 10.0),
    ("--stress", BLINK, -10000.0, 10000.0),
    ("--width", FACE, 0.1, 100.0),
    ("--grain", FACE, 0.001, 10.0),
    ("--seed", FACE, 0.0, 2147483647.0),
    ("--thickness", ["hunt", "quartz"], 0.001, 100.0),
    ("--thickness", ["contrast", "ruby", "spinel"], 0.001, 100.0),
    ("--thickness", ["narrow", "--observed", "reaction=DR"], 0.001, 100.0),
]

NO_NUMBERS = ["", " ", "abc", "nan", "NaN", "-nan", "inf", "-inf", "infinity", "1e999", "-1e999",
              "0x10", "1e", "1e+", ".", "-", "+", "3mm", " 3", "3 ", "2,5", "1.2.3", "1_000",
              "\u0663", "3\n", "--", "--view", "9" * 100000, b"\xff\xfe", b"\xc3", "\u202e3",
              "3" + "x" * 70]


@pytest.mark.parametrize("value", NO_NUMBERS, ids=lambda value: repr(value)[:16])
@pytest.mark.parametrize("option,before", [entry[:2] for entry in NUMBERS],
                         ids=[entry[1][0] + entry[0] for entry in NUMBERS])
def test_what_is_no_number_is_refused(refused, option, before, value):
    message = refused(64, *before, option, value)
    assert option in message and "allowed: " in message and f"for example: {option} " in message
    if value == "2,5":
        assert "write 2.5" in message


def just_outside(least, most):
    yield math.nextafter(least, -math.inf)
    yield math.nextafter(most, math.inf)
    yield 1e300
    yield -1e300
    if least > 0:
        yield -0.0
        yield 5e-324


OUTSIDE = [(option, before, value) for option, before, least, most in NUMBERS
           for value in just_outside(least, most)]


@pytest.mark.parametrize("option,before,value", OUTSIDE)
def test_one_unit_in_the_last_place_outside_is_refused(refused, option, before, value):
    message = refused(64, *before, option, repr(value))
    assert f"{option}: '{value!r}' is out of range; allowed: " in message


@pytest.mark.parametrize("option,before", [entry[:2] for entry in NUMBERS])
def test_an_option_without_its_value_is_refused(refused, option, before):
    message = refused(64, *before, option)
    assert f"{option} lacks its value; allowed: " in message


@pytest.mark.parametrize("option,before", [entry[:2] for entry in NUMBERS])
def test_an_option_given_twice_is_refused(refused, option, before):
    value = "8" if option == "--depth" else "500" if option == "--wavelength" else "2"
    assert f"{option} is given twice" in refused(64, *before, option, value, option, value)


# What is wrong with it, then the words; {long} is a very long word.
LINES = [
    # words that are none of a choice, with what they may have meant
    ("did you mean optic-axis?", "figure quartz --view optic-axs"),
    ("--view: 'Z' is unknown", "figure quartz --view Z"),
    ("--view: '' is unknown", "figure quartz --view="),
    ("did you mean left?", "figure quartz --hand lefft"),
    ("did you mean crossed?", "figure quartz --polars crosed"),
    ("--polars: '{cut}' is unknown", "figure quartz --polars {long}"),
    ("did you mean sodium?", "figure quartz --lamp sodum"),
    ("--lamp: '1000' is out of range", "figure quartz --lamp 1000"),
    ("--lamp: '379.9' is out of range", "figure quartz --lamp 379.9"),
    ("--lamp: 'nan' is unknown", "figure quartz --lamp nan"),
    ("write 589.3", "figure quartz --lamp 589,3"),
    ("--lamp: '' is unknown", "figure quartz --lamp="),
    ("did you mean sphere?", "figure quartz --lens spere"),
    ("--lens: 'sphere:' is not a number", "figure quartz --lens sphere:"),
    ("--lens: 'sphere:1' is out of range", "figure quartz --lens sphere:1"),
    ("--lens: 'sphere:nan' is not a number", "figure quartz --lens sphere:nan"),
    ("--lens: 'objective' lacks its numerical aperture", "figure quartz --lens objective"),
    ("--lens: 'objective:0,9' is not one number: write 0.9", "figure quartz --lens objective:0,9"),
    ("--lens: 'objective:3' is out of range", "figure quartz --lens objective:3"),
    ("--lens: an objective of NA 1.2", "figure quartz --lens objective:1.2"),
    ("--lens: a sphere of index 1.5", "figure quartz --immersion 1.6"),
    ("--field: ", "figure quartz --field 89.8 --lens sphere:1.2"),
    ("--field: ", "figure quartz --field 50 --lens objective:0.5"),
    ("--depth: '9' is neither 8 nor 16", "figure quartz --depth 9"),
    ("--size: '2.5' is not a whole number", "figure quartz --size 2.5"),
    ("--size: '0' is out of range", "figure quartz --size 0"),
    ("--size: '100000' is out of range", "figure quartz --size 100000"),
    ("--threads: '1.5' is not a whole number", "figure quartz --threads 1.5"),
    # pairs and triples
    ("--tilt: 'x' is not made of numbers", "figure quartz --tilt x"),
    ("--tilt: '1,' is not made of numbers", "figure quartz --tilt 1,"),
    ("--tilt: '1,2,3' holds more than 2 numbers", "figure quartz --tilt 1,2,3"),
    ("--tilt: '180.1' is out of range", "figure quartz --tilt 180.1"),
    ("--tilt: '0,3600.1' is out of range", "figure quartz --tilt 0,3600.1"),
    ("--tilt: 'nan,0' is not made of numbers", "figure quartz --tilt nan,0"),
    ("--at: '90' is out of range", "probe quartz --at 90"),
    ("--at: '-1,0' is out of range", "probe quartz --at -1,0"),
    ("--at: '10,inf' is not made of numbers", "probe quartz --at 10,inf"),
    ("--indices: '' is not made of numbers", "figure --indices="),
    ("--indices: '1.6,1.5,1.7' does not rise", "figure --indices 1.6,1.5,1.7"),
    ("--indices: '0.99' holds an index out of range", "figure --indices 0.99"),
    ("--indices: '1,54' holds an index out of range, 54; decimals take a point",
     "figure --indices 1,54"),
    ("--indices: '1,2,3,4' holds more than 3 numbers", "figure --indices 1,2,3,4"),
    ("--indices: '{cut}' is not made of numbers", "figure --indices {long}"),
    # stones
    ("no stone is given; name a SPECIES", "figure"),
    ("no stone is given; name a SPECIES", "probe --json"),
    ("did you mean quartz?", "figure quarz"),
    ("'interfig species' lists them all", "figure nosuchstone"),
    ("'interfig species' lists them all", "species nosuchstone"),
    ("jadeite", "figure jade"),
    ("no species is called", "figure {long}"),
    ("quartz is uniaxial and has no view 'acute-bisectrix'; choose",
     "figure quartz --view acute-bisectrix"),
    ("topaz_f is biaxial and has no view 'c'; choose", "figure topaz_f --view c"),
    ("spinel is isotropic and has no view 'c'; choose", "probe spinel --view c"),
    # contradictions
    ("both SPECIES 'quartz' and --indices are given", "figure quartz --indices 1.5"),
    ("--rotation goes with --indices alone", "figure quartz --rotation 20"),
    ("--hand goes with a SPECIES alone", "figure --indices 1.5,1.6 --hand left"),
    ("corundum is not optically active", "figure ruby --hand left"),
    ("--polars and --analyser contradict", "figure quartz --polars crossed --analyser 90"),
    ("--polars and --analyser contradict", "figure quartz --polars parallel --analyser 0"),
    ("--polars and --analyser contradict", "figure quartz --polars circular --analyser left"),
    ("--polars circular and --polariser contradict",
     "figure quartz --polars circular --polariser 20"),
    ("a circular --polariser contradict", "figure quartz --polars crossed --polariser left"),
    ("--polariser is circular and --analyser is missing", "figure quartz --polariser left"),
    ("--again brings its own stone", "figure quartz --again x.png"),
    ("--size has no place beside it", "figure --again x.png --size 10"),
    ("--json belongs to probe, reading, blink, hunt, contrast, narrow, chart and species, not to figure", "figure quartz --json"),
    ("--size belongs to figure, turn, face and exercise, not to probe", "probe quartz --size 10"),
    ("--thickness belongs to figure, turn, probe, reading, blink, face, hunt, contrast, narrow and "
     "chart, not to species", "species --thickness 3"),
    ("-o belongs to figure, turn, blink, face, hunt, contrast, page, exercise and chart, not to probe",
     "probe quartz -o x.txt"),
    # options that are none
    ("did you mean --thickness?", "figure quartz --thick 3"),
    ("did you mean --thickness?", "figure quartz --thicknes 3"),
    ("did you mean --species-file?", "figure quartz --species_file x.yaml"),
    ("unknown option '--s'", "figure quartz --s 3"),
    ("unknown option '-x'", "figure quartz -x"),
    ("unknown option '-version'", "figure quartz -version"),
    ("unknown option '{cutdash}'", "figure quartz --{long}"),
    ("--force takes no value", "figure quartz --force=yes"),
    ("--json takes no value", "probe quartz --json=1"),
    ("-o lacks its value", "figure quartz -o"),
    ("-o: '' is empty", "figure quartz --output="),
    ("-o is given twice", "figure quartz -o a.png -o b.png"),
    ("--force is given twice", "figure quartz --force --force"),
    ("--again lacks its value", "figure --again"),
    ("--again: '' is empty", "figure --again="),
    ("--species-file lacks its value", "species --species-file"),
    ("--species-file: '' is empty", "species --species-file="),
    # words too many, commands that are none
    ("'topaz' is one word too many after 'quartz'", "figure quartz topaz"),
    ("'x' is one word too many after 'quartz'", "figure quartz -- x"),
    ("'x' is one word too many after 'figure'", "help figure x"),
    ("did you mean figure?", "figrue quartz"),
    ("type: interfig figure 'ruby'", "ruby"),
    ("unknown command 'dance'", "dance"),
    ("unknown command ''", "{empty}"),
    ("unknown command '{cut}'", "{long}"),
    ("unknown option '--verison'", "--verison"),
    ("unknown option '-o'", "-o x.png"),
    ("'quartz' after --version", "--version quartz"),
    ("did you mean exit-codes?", "help exit-code"),
    ("no help on 'dance'", "help dance"),
    ("--size belongs to figure, turn, face and exercise, not to help", "help --size 3"),
]


@pytest.mark.parametrize("expected,line", LINES, ids=[line for _, line in LINES])
def test_a_line_that_makes_no_sense_is_refused(refused, expected, line):
    long = "q" * 5000
    words = [word.replace("{long}", long).replace("{empty}", "") for word in line.split()]
    expected = expected.replace("{cutdash}", "--" + "q" * 58 + "...").replace(
        "{cut}", "q" * 60 + "...")
    assert expected in refused(64, *words)


def test_more_than_16_species_files_are_refused(refused):
    message = refused(64, "species", *["--species-file", "x.yaml"] * 17)
    assert "--species-file: 'x.yaml' is one file too many" in message


@pytest.mark.parametrize("word", [b"\xff\xfe", b"\x1b[31m", "\u202equartz".encode(), b"a\nb"])
def test_a_word_that_does_not_print_is_made_printable(refused, word):
    refused(64, "figure", word)
    refused(64, word)
    refused(64, "figure", "quartz", b"--" + word)
    refused(64, "figure", "quartz", "--view", word)
