# SPDX-License-Identifier: MIT
"""Four strangers draw the same pixels as the program, each by another way to the library."""
import json
import os
import shutil
import sys

import pytest

from conftest import HERE, LIBRARIES, MESON, ROOT, needed, run, two_figures_by


def test_a_program_in_c_finds_the_library_by_pkg_config(staging, own_pixels, tmp_path):
    flags = staging.pkg_config("--cflags", "--libs", "interfig-files")
    assert "-linterfig-optics" in flags  # species files are for the optics
    run(needed("cc"), "-std=c11", "-pedantic", "-Wall", "-Wextra", "-Werror", "-o", "two_figures",
        HERE / "two_figures.c", *flags, cwd=tmp_path)
    drawn = run(tmp_path / "two_figures", LD_LIBRARY_PATH=str(staging.libraries))
    assert drawn == own_pixels


def test_every_answer_is_to_be_had_without_the_program(staging, tmp_path):
    flags = staging.pkg_config("--cflags", "--libs", "interfig-optics")
    run(needed("cc"), "-std=c11", "-pedantic", "-Wall", "-Wextra", "-Werror", "-o", "every_answer",
        HERE / "every_answer.c", *flags, cwd=tmp_path)
    environment = {"LD_LIBRARY_PATH": str(staging.libraries)}
    first, words = run(tmp_path / "every_answer", **environment).decode("utf-8").split("\n", 1)
    answers = json.loads(first)
    recipe = ["muscovite", "--thickness", "0.1", "--tilt", "20,30", "--stage", "45"]

    def program(*asked):
        return run(staging.program, *asked, **environment)

    probe = json.loads(program("probe", *recipe, "--at", "0,0", "--json"))
    for key in ("retardation_nm", "transmittance", "jones_ps"):
        assert answers[key] == probe[key], key
    # Straight down the axis p lies east and s north: crossed polars pass what goes from p into s.
    assert abs(complex(*answers["jones_ps"][1][0])) ** 2 == pytest.approx(answers["transmittance"],
                                                                         rel=1e-12)
    assert answers["transmittance"] > 0.01
    reading = json.loads(program("reading", *recipe, "--json"))
    assert answers["melatopes"] == [[place["x"], place["y"]] for place in reading["melatopes"]]
    assert len(answers["melatopes"]) == 2
    assert answers["two_v_deg"] == reading["two_v_deg"]["589.3"]
    assert answers["optic_sign"] == {"positive": 1, "negative": -1}[reading["optic_sign"]]
    said = program("reading", *recipe).decode("utf-8")
    assert " ".join(words.split()) in " ".join(said.split())  # the program folds its lines
    blink = json.loads(program("blink", *recipe, "--json"))
    assert answers["reaction"] == blink["reaction"] == "DR"


def test_the_optics_ask_for_nothing_but_themselves(staging, own_pixels, tmp_path):
    flags = staging.pkg_config("--cflags", "--libs", "interfig-optics")
    assert [flag for flag in flags if flag.startswith("-l")] == ["-linterfig-optics"]
    private = staging.pkg_config("--static", "--libs", "interfig-optics")
    assert set(private) - set(flags) <= {"-lm", "-pthread"}
    assert staging.pkg_config("--print-requires-private", "interfig-optics") == []


def test_the_program_itself_is_a_stranger_to_the_installed_library(staging, own_pixels, tmp_path):
    flags = staging.pkg_config("--cflags", "--libs", *LIBRARIES, "jansson")
    # pages.c loads late what is linked here from the start.
    sources = [path for path in sorted((ROOT / "cli").glob("*.c")) if path.name != "pages.c"]
    run(needed("cc"), "-std=gnu11", "-D_GNU_SOURCE", "-o", "interfig", *sources, *flags, "-lm",
        "-pthread", cwd=tmp_path)
    assert two_figures_by(tmp_path / "interfig", staging, tmp_path) == own_pixels


def test_a_program_in_cpp_finds_the_library_by_cmake(staging, own_pixels, tmp_path):
    needed("g++")
    cmake = needed("cmake")
    run(cmake, "-S", HERE / "cmake", "-B", tmp_path, "-G", "Ninja",
        "-DCMAKE_PREFIX_PATH=" + str(staging.prefix), "-DCMAKE_LIBRARY_ARCHITECTURE="
        + os.path.relpath(staging.libraries, staging.prefix / "lib"))
    run(cmake, "--build", tmp_path)
    drawn = run(tmp_path / "two_figures", LD_LIBRARY_PATH=str(staging.libraries))
    assert drawn == own_pixels


def test_a_meson_project_takes_the_library_as_a_subproject(own_pixels, tmp_path):
    project = tmp_path / "stranger"
    (project / "subprojects").mkdir(parents=True)
    shutil.copy(HERE / "subproject" / "meson.build", project)
    shutil.copy(HERE / "two_figures.c", project)
    (project / "subprojects" / "interfig").symlink_to(ROOT)
    run(*MESON, "setup", "build", cwd=project)
    run(needed("ninja"), "-C", "build", cwd=project)
    drawn = run(project / "build" / "two_figures")
    assert drawn == own_pixels
    built = project / "build" / "subprojects" / "interfig"
    assert (built / "lib").exists() and not (built / "tests").exists(), "no tests are built"


def test_a_program_in_python_needs_no_compiler(staging, own_pixels):
    library = staging.libraries / "libinterfig-optics.so.0"
    drawn = run(sys.executable, HERE / "two_figures.py", library, PYTHONPATH=str(HERE))
    assert drawn == own_pixels
