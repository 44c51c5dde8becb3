# SPDX-License-Identifier: MIT
"""The optics as WebAssembly draw the same pixels: one thread, another processor, another libm."""
import pytest

from conftest import HERE, MESON, ROOT, needed, run

# Node 18, as Debian 12 has it, asks for the first; later ones take it as understood.
NODE_FLAGS = ["--experimental-wasi-unstable-preview1", "--no-warnings"]


@pytest.fixture(scope="module")
def installed(tmp_path_factory):
    for program in ("clang", "wasm-ld", "llvm-ar", "node"):
        needed(program)
    folder = tmp_path_factory.mktemp("wasi")
    run(*MESON, "setup", folder / "build", ROOT, "--cross-file", HERE / "wasi" / "wasi.cross",
        "--prefix", folder / "there", "--libdir", "lib")
    run(*MESON, "install", "-C", folder / "build", "--quiet")
    return folder / "there"


def test_webassembly_draws_the_same_pixels(installed, own_pixels, tmp_path):
    program = tmp_path / "two_figures.wasm"
    run("clang", "--target=wasm32-wasi", "-O2", "-I", installed / "include", "-o", program,
        HERE / "two_figures.c", "-L", installed / "lib", "-linterfig-optics")
    assert run("node", *NODE_FLAGS, HERE / "wasi" / "run.mjs", program) == own_pixels


def test_webassembly_gets_the_optics_alone(installed):
    assert [path.name for path in (installed / "lib").glob("*.a")] == ["libinterfig-optics.a"]
