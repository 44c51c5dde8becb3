#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Write, for every public function, calls that misuse one of its parameters at a time.

    generate.py -o misuses.c --rules RULES HEADER...

Every value that a caller can get wrong is got wrong, in parameters and in each field of the
structures behind them: NULL, a foreign size, a number that is not finite or far out of range, an
unknown value of an enumeration. A function whose parameters have no honest value here stops the
build: a new function brings its specimen (specimens.h) with it."""
import argparse
import pathlib
import sys

from public_interface import Interface

# The honest value of a parameter, by function and name, by type and name, by name, or by type.
HONEST = {
    "const IfigSpecies *": "specimens()->species",
    "IfigSpecies *": "specimens()->spare_species",
    "const IfigCatalogue *": "specimens()->catalogue",
    "IfigCatalogue *": "specimens()->catalogue",
    "const IfigLamp *": "specimens()->lamp",
    "IfigLamp *": "specimens()->lamp",
    "const IfigFigure *": "specimens()->figure",
    "IfigFigure *": "specimens()->figure",
    "const IfigPngWriter *": "honest_writer()",
    "IfigPngWriter *": "honest_writer()",
    "const IfigFace *": "specimens()->face", "IfigFace *": "specimens()->face",
    "const IfigNarrowing *": "specimens()->narrowing",
    "IfigNarrowing *": "specimens()->narrowing",
    "const IfigExercise *": "specimens()->exercise", "IfigExercise *": "specimens()->exercise",
    "IfigError *": "error",
    "list": '"quartz"', "path": '"/dev/null"', "word": '"quartz"', "keyword": '"Title"', "name_for_errors": "NULL",
    "const char *": '"species:"',
    "const char *const *": "honest_words()", "IfigSpecies *const *": "honest_list()",
    "char *": "honest_room()", "void *": "honest_room()", "const void *": "honest_room()",
    "unsigned char *": "honest_room()", "uint8_t *": "(uint8_t *)honest_room()",
    "size": "HONEST_ROOM", "count": "1", "layer_count": "1", "length": "8", "index": "0",
    "row_count": "1", "first_row": "0", "colour": "0",
    "x": "0.1", "y": "0.1", "theta_deg": "10", "phi_deg": "20", "wavelength_nm": "589.3",
    "thickness_mm": "3", "n_outside": "1", "n_beta": "1.6", "two_v_deg": "60",
    "double": "0.5",
    ("ifig_lamp_create_spectrum", "count"): "3",
    ("ifig_page_contrast", "count"): "2", ("ifig_page_contrast_pixels", "count"): "2",
}

# What a function asks of a structure beyond that it be honest.
NEEDED = {
    ("ifig_blink", "scene"): "scene[0].instrument.lens = IFIG_LENS_NONE;",
    ("ifig_face_create", "scene"): "scene[0].instrument.lens = IFIG_LENS_NONE;",
}

NUMBERS = ("NAN", "INFINITY", "-INFINITY", "1e300", "-1e300")
WHOLE = {
    "size": ("0", "1"), "count": ("0",), "layer_count": ("0", "SIZE_MAX"), "length": ("0",),
    "index": ("SIZE_MAX",), "row_count": ("0", "UINT32_MAX"), "first_row": ("UINT32_MAX",),
    "colour": ("-1", "INT_MAX"),
}
NO_UTF8 = r'"\xff\xfe"'
TEXTS = ("NULL", '""', NO_UTF8, "long_text()")

# Structures whose initialiser alone is not yet honest: specimens.h completes them.
PREPARED = ("IfigExerciseOptions", "IfigFigureOptions", "IfigLabelledFigure", "IfigLayer",
            "IfigObservation", "IfigPageChart", "IfigPageFigure", "IfigPageMap", "IfigPageOptions",
            "IfigPageRecipe", "IfigPageScene", "IfigPageTable", "IfigPageWords",
            "IfigPairContrast", "IfigPngOptions", "IfigRectangle", "IfigRetarder", "IfigScene",
            "IfigSpeciesRecord", "IfigStone")

# What may be said to a misuse: the status that its kind asks for, another, or nothing at all.
ARGUMENT, RANGE, FAILURE, ANYTHING = "1u << IFIG_ERROR_ARGUMENT", "1u << IFIG_ERROR_RANGE", \
    "ANY_FAILURE", "ANYTHING"


class Case:
    """One call: what is wrong with it, the lines before it, the argument, what is expected."""

    def __init__(self, what, lines, argument, expected):
        self.what, self.lines, self.argument, self.expected = what, lines, argument, expected


class Writer:
    def __init__(self, interface, rules):
        self.interface, self.rules = interface, rules
        self.cases = []

    def pointee(self, parameter):
        """The structure behind a pointer, or None."""
        name = parameter.type.replace("const ", "").replace(" *", "")
        plain = parameter.type.count("*") == 1 and not parameter.length
        return name if plain and name in self.interface.structs else None

    def is_pointer(self, parameter):
        return "*" in parameter.type or parameter.length

    def honest(self, function, parameter):
        """Lines that prepare an honest value, and the argument that hands it over."""
        name, kind = parameter.name, parameter.type
        if kind in self.interface.structs:
            return [f"{kind} {name}[HONEST_COUNT];", f"honest_{kind}({name});"], f"{name}[0]"
        known = HONEST.get((function.name, name))
        if kind == "const char *" or not self.is_pointer(parameter):
            known = known or HONEST.get(name)
        if "*" in kind:
            known = known or HONEST.get(kind)
        if known:
            return [], known
        struct = self.pointee(parameter)
        if struct and kind != "IfigError *":
            needed = NEEDED.get((function.name, name))
            return [f"{struct} {name}[HONEST_COUNT];", f"honest_{struct}({name});"] + \
                [needed] * (needed is not None), name
        if parameter.length or kind in ("const double *", "double *"):
            extent = parameter.length or "[HONEST_COUNT]"
            base = kind.replace("const ", "").replace(" *", "")
            return [f"{base} {name}{extent};", f"honest_numbers(&{name}, sizeof {name});"], name
        if kind.count("*"):
            base = kind[:kind.rindex("*")].strip()
            return [f"{base} {name}_out = 0;"], f"&{name}_out"
        if kind in self.interface.enums:
            return [], f"({kind})0"
        if kind in HONEST:
            return [], HONEST[kind]
        sys.exit(f"{function.header}: {function.name} takes '{kind} {name}{parameter.length}', and "
                 "tests/misuse/generate.py knows no honest value for that: add one to HONEST")

    def bad_fields(self, struct, place):
        """(place, bad value, kind) of every field that can be wrong."""
        for kind, name, length in self.interface.structs[struct]:
            if "*" in kind:
                continue
            at = f"{place}{name}" + "[0]" * length.count("[")
            if name == "size" and kind == "size_t":
                yield from ((at, value, ARGUMENT) for value in ("0", f"sizeof({struct}) + 8"))
            elif kind == "double":
                yield from ((at, value, RANGE) for value in NUMBERS)
            elif kind in self.interface.enums:
                yield from ((at, f"({kind}){value}", ARGUMENT) for value in ("-1", "9999"))
            elif kind == "uint32_t":
                yield at, "UINT32_MAX", RANGE
            elif kind == "int":
                yield from ((at, value, ANYTHING) for value in ("INT_MIN", "INT_MAX"))
            elif kind in self.interface.structs:
                yield from self.bad_fields(kind, at + ".")

    def misuses(self, function, parameter):
        lines, argument = self.honest(function, parameter)
        name, kind = parameter.name, parameter.type
        if kind == "IfigError *":
            return
        if kind == "const char *":
            has_length = any(other.name == "length" for other in function.parameters)
            for text in TEXTS[:1] if has_length and name == "text" else TEXTS:
                if name == "path" and text == NO_UTF8:
                    continue  # file names are bytes to the system: this one is as good as any
                yield Case(f"{name} = {text}", lines, text, ARGUMENT if text == "NULL" else FAILURE)
            return
        if self.is_pointer(parameter):
            yield Case(f"{name} = NULL", [], "NULL", ARGUMENT)
        struct = self.pointee(parameter) or (kind if kind in self.interface.structs else None)
        is_read = "const" in kind or kind == struct
        if struct:
            for place, value, expected in self.bad_fields(struct, f"{name}[0]."):
                if is_read or place == f"{name}[0].size":
                    yield Case(f"{place} = {value}", lines + [f"{place} = {value};"], argument,
                               expected)
        elif kind == "const double *" or (kind == "const double" and parameter.length):
            for value in NUMBERS:
                at = name + "[0]" * max(1, parameter.length.count("["))
                yield Case(f"{at} = {value}", lines + [f"{at} = {value};"], argument, RANGE)
        elif kind == "double" and not parameter.length:
            for value in NUMBERS:
                yield Case(f"{name} = {value}", [], value, RANGE)
        elif kind in self.interface.enums:
            for value in ("-1", "9999"):
                yield Case(f"{name} = {value}", [], f"({kind}){value}", ARGUMENT)
        elif not self.is_pointer(parameter):
            for value in WHOLE[name]:
                yield Case(f"{name} = {value}", [], value, FAILURE)

    def expected(self, function, case):
        """What the rules make of a case, the longest match first."""
        words = f"{function.name} {case.what}"
        for head in sorted(self.rules, key=len, reverse=True):
            if words.startswith(head):
                return self.rules[head]
        return case.expected

    def write_function(self, function, out):
        for parameter in function.parameters:
            for case in self.misuses(function, parameter):
                lines, arguments = list(case.lines), []
                for other in function.parameters:
                    if other is parameter:
                        arguments.append(case.argument)
                    else:
                        before, argument = self.honest(function, other)
                        lines += before
                        arguments.append(argument)
                self.write_case(function, case, lines, ", ".join(arguments), out)

    def write_honest(self, out):
        """For each structure that a call needs, a function that fills a few with honest values."""
        calls = "".join(out)
        for struct in self.interface.structs:
            if f"honest_{struct}(" not in calls:
                continue
            first = self.interface.initialisers.get(struct, "{0}")
            prepare = f"        prepare_{struct}(&value[i]);\n" if struct in PREPARED else ""
            out.insert(1, f"static void honest_{struct}({struct} *value)\n{{\n"
                       f"    const {struct} first = {first};\n"
                       f"    for (size_t i = 0; i < HONEST_COUNT; i++) {{\n"
                       f"        value[i] = first;\n{prepare}    }}\n}}\n")

    def release(self, function):
        """Lines that free what a call made against expectation, by the one function that can."""
        frees = {other.parameters[0].type: other.name for other in self.interface.functions
                 if len(other.parameters) == 1 and other.result == "void"
                 and other.name.endswith(("_free", "_discard"))}
        for parameter in function.parameters:
            free = frees.get(parameter.type.rpartition("*")[0].strip())
            if free and parameter.type.count("*") == 2:
                yield parameter.name, f"{free}({parameter.name}_out);"

    def write_case(self, function, case, lines, arguments, out):
        number = len(self.cases)
        call = f"{function.name}({arguments})"
        frees = " ".join(free for name, free in self.release(function) if f"&{name}_out" in call)
        end = {"IfigStatus": f"const int status = (int){call}; {frees} return status;", "void": f"{call};\n    return -1;",
               "const char *": f"return said({call});"}.get(function.result,
                                                            f"(void){call};\n    return -1;")
        body = "\n    ".join(["(void)error;"] + lines + [end])
        out.append(f"static int case_{number}(IfigError *error)\n{{\n    {body}\n}}\n")
        what = case.what.replace("\\", "\\\\").replace('"', '\\"')
        self.cases.append(f'    {{"{function.name}", "{what}", case_{number}, '
                          f'{self.expected(function, case)}}},')


def read_rules(path):
    """Lines of "function misuse: what is expected  # why"."""
    rules = {}
    for line in path.read_text(encoding="utf-8").splitlines():
        line = line.split("#")[0].strip()
        if line:
            misuse, expected = (part.strip() for part in line.rsplit(":", 1))
            rules[misuse] = {"anything": ANYTHING, "failure": FAILURE, "argument": ARGUMENT,
                             "range": RANGE}[expected]
    return rules


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("-o", dest="output", required=True, type=pathlib.Path)
    parser.add_argument("--rules", required=True, type=pathlib.Path)
    parser.add_argument("headers", nargs="+", type=pathlib.Path)
    wanted = parser.parse_args()
    writer = Writer(Interface(wanted.headers), read_rules(wanted.rules))
    out = ['/* Written by generate.py. */\n#include "misuse.h"\n#include "specimens.h"\n']
    for function in writer.interface.functions:
        if function.parameters:
            writer.write_function(function, out)
    writer.write_honest(out)
    out.append("const Misuse misuses[] = {\n" + "\n".join(writer.cases) + "\n};\n")
    out.append("const size_t misuse_count = sizeof misuses / sizeof misuses[0];\n")
    wanted.output.write_text("\n".join(out), encoding="utf-8")


if __name__ == "__main__":
    main()
