# SPDX-License-Identifier: MIT
"""What the public headers declare: functions, structures, enumerations and initialisers."""
import re
from collections import namedtuple

Parameter = namedtuple("Parameter", "type name length")  # length: of an array, "" for none
Function = namedtuple("Function", "result name parameters header")


def without_comments(text):
    return re.sub(r"/\*.*?\*/|//[^\n]*", " ", text, flags=re.S)


def declarators(text):
    """The (type, name, array length) of each name in "double a, b[3]" or "const IfigX *x"."""
    first, *others = [part.strip() for part in text.split(",")]
    match = re.fullmatch(r"(.*?[\s*])(\w+)((?:\[[^\]]*\])*)", first)
    kind = re.sub(r"\s*\*\s*", " *", match.group(1)).strip()
    found = [Parameter(kind, match.group(2), match.group(3))]
    for other in others:
        name, length = re.fullmatch(r"(\w+)((?:\[[^\]]*\])*)", other).groups()
        found.append(Parameter(kind, name, length))
    return found


class Interface:
    """The declarations of a list of headers."""

    def __init__(self, headers):
        self.functions, self.structs, self.enums, self.initialisers = [], {}, set(), {}
        for header in headers:
            self._read(header.name, without_comments(header.read_text(encoding="utf-8")))

    def _read(self, header, text):
        for macro, body in re.findall(r"#define (IFIG_\w+_INIT)((?:.*\\\n)*.*\n)", text):
            sized = re.search(r"sizeof\((\w+)\)", body)
            self.initialisers[sized.group(1) if sized else "IfigError"] = macro
        text = re.sub(r"^\s*#(?:.*\\\n)*.*$", "", text, flags=re.M)
        for name, body in re.findall(r"typedef struct (\w+) \{(.*?)\} \1;", text, flags=re.S):
            self.structs[name] = [field for line in body.split(";") if line.strip()
                                  for field in declarators(" ".join(line.split()))]
        self.enums.update(re.findall(r"typedef enum (\w+) \{", text))
        for declaration in re.findall(r"IFIG_API ([^;]*);", text):
            self.functions.append(self._function(" ".join(declaration.split()), header))

    @staticmethod
    def _function(text, header):
        head, arguments = re.fullmatch(r"(.*?)\((.*)\)", text).groups()
        result, name = re.fullmatch(r"(.*?)(\w+)", head).groups()
        parameters = [] if arguments == "void" else \
            [declarators(part)[0] for part in arguments.split(",")]
        return Function(result.strip(), name, parameters, header)
