# SPDX-License-Identifier: MIT
"""PNG chunks, read and written by the letter of the standard (W3C PNG, third edition, 2025)."""
import struct
import zlib

SIGNATURE = b"\x89PNG\r\n\x1a\n"


def read_chunks(data):
    assert data[:8] == SIGNATURE
    chunks, at = [], 8
    while at < len(data):
        length, kind = struct.unpack(">I4s", data[at:at + 8])
        body = data[at + 8:at + 8 + length]
        (check,) = struct.unpack(">I", data[at + 8 + length:at + 12 + length])
        assert check == zlib.crc32(kind + body)
        chunks.append((kind, body))
        at += 12 + length
    return chunks


def write_chunks(chunks):
    return SIGNATURE + b"".join(struct.pack(">I", len(body)) + kind + body
                                + struct.pack(">I", zlib.crc32(kind + body))
                                for kind, body in chunks)


def texts(data):
    """Every text entry by its keyword."""
    found = {}
    for kind, body in read_chunks(data):
        keyword, _, rest = body.partition(b"\0")
        if kind == b"tEXt":
            found[keyword.decode()] = rest.decode("latin-1")
        elif kind == b"zTXt":
            found[keyword.decode()] = zlib.decompress(rest[1:]).decode("latin-1")
        elif kind == b"iTXt":
            is_packed, rest = rest[0], rest[2:]
            rest = rest.split(b"\0", 2)[2]
            found[keyword.decode()] = (zlib.decompress(rest) if is_packed else rest).decode("utf-8")
    return found


def with_text(data, keyword, text):
    """The same picture with another text under a keyword; None: with none."""
    chunks = []
    for kind, body in read_chunks(data):
        if kind in (b"tEXt", b"zTXt", b"iTXt") and body.startswith(keyword.encode() + b"\0"):
            if text is not None:
                chunks.append((b"tEXt", keyword.encode() + b"\0" + text.encode("latin-1")))
        else:
            chunks.append((kind, body))
    return write_chunks(chunks)


def header(data):
    """Width, height, bit depth."""
    kind, body = read_chunks(data)[0]
    assert kind == b"IHDR"
    return struct.unpack(">IIB", body[:9])
