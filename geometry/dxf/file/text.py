"""From the bytes of a DXF to its text: binary files, code pages, names with odd letters."""

from __future__ import annotations

import re
import struct
from functools import lru_cache

from ezdxf.lldxf.const import DXFError
from ezdxf.lldxf.encoding import decode_dxf_unicode, decode_mif_to_unicode, has_dxf_unicode, has_mif_encoding
from ezdxf.lldxf.tagger import binary_tags_loader
from ezdxf.lldxf.types import DXFBinaryTag
from ezdxf.tools.codepage import is_supported_encoding, toencoding

from geometry.dxf.file.sniff import BINARY_SENTINEL
from geometry.errors import DrawingError

_VERSION = re.compile(rb"\$ACADVER\s+1\s+(AC\d{4})")
_CODEPAGE = re.compile(rb"\$DWGCODEPAGE\s+3\s+(\w+)")
_NOT_PRINTED = re.compile(r"[\x00-\x1f\x7f\ud800-\udfff\u2028\u2029]+")


def drawing_text(data: bytes, name: str) -> tuple[str, bool]:
    """Return the drawing as text with plain line ends, and whether the file was binary.

    Raises DrawingError when a binary file is damaged beyond its first tags.
    """
    if data.startswith(BINARY_SENTINEL):
        return _of_binary(data, name), True
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        text = data.decode("utf-16", errors="replace")
    else:
        text = _decode(data)
    return text.replace("\r\n", "\n").replace("\r", "\n").lstrip("\ufeff \t\n"), False


@lru_cache(maxsize=4096)
def clean(text: str) -> str:
    """Return a name or text as it reads: escapes resolved, line breaks and odd bytes as blanks."""
    if has_dxf_unicode(text):
        text = decode_dxf_unicode(text)
    if has_mif_encoding(text):
        text = decode_mif_to_unicode(text)
    return " ".join(_NOT_PRINTED.sub(" ", text).split())


def _decode(data: bytes) -> str:
    """Decode by what the bytes are, then by what the header says they are."""
    if data.startswith(b"\xef\xbb\xbf"):
        return data[3:].decode("utf-8", errors="replace")
    if data.isascii():
        return data.decode("ascii")
    try:
        return data.decode("utf-8")  # a text in a code page is hardly ever valid UTF-8 by chance
    except UnicodeDecodeError:
        pass
    head = data[:20000]
    version = _VERSION.search(head)
    codepage = _CODEPAGE.search(head)
    encoding = toencoding(codepage.group(1).decode()) if codepage else "cp1252"
    if version and version.group(1) >= b"AC1021" and _mostly_utf8(data):
        encoding = "utf-8"
    if encoding != "utf-8" and not is_supported_encoding(encoding):
        encoding = "cp1252"
    return data.decode(encoding, errors="replace")


def _mostly_utf8(data: bytes) -> bool:
    """Tell whether more non-ASCII bytes belong to whole UTF-8 letters than not."""
    good = sum(len(letter.encode()) for letter in data.decode("utf-8", errors="ignore") if ord(letter) > 127)
    return 2 * good > sum(byte > 127 for byte in data)


def _of_binary(data: bytes, name: str) -> str:
    """Write the tags of a binary DXF out as text, so that one path reads and repairs both kinds.

    Some programs write the short group codes of R12 under a later version number; the tag
    reader chooses by the version, so it is shown the older one.
    """
    version = re.search(rb"\$ACADVER\x00.{0,2}?(AC\d{4})", data[:2048], re.DOTALL)
    short_codes = len(data) > 24 and data[22] == 0 and data[23] != 0
    if version and short_codes and version.group(1) > b"AC1009":
        start, end = version.span(1)
        tags = binary_tags_loader(data[:start] + b"AC1009" + data[end:], errors="replace")
        true_version = version.group(1).decode()
    else:
        tags = binary_tags_loader(data, errors="replace")
        true_version = ""
    lines: list[str] = []
    after_version = False
    try:
        for tag in tags:
            if isinstance(tag, DXFBinaryTag):
                value = bytes(tag.value).hex().upper()
            else:
                value = repr(tag.value) if isinstance(tag.value, float) else str(tag.value)
            if after_version and true_version:
                value = true_version
            after_version = tag.code == 9 and value == "$ACADVER"
            lines += (str(tag.code), value.replace("\n", " ").replace("\r", " "))
    except (struct.error, ValueError, IndexError, DXFError):
        pass  # the file ends or breaks here: what was read so far is repaired like a cut-off text
    if len(lines) < 4:
        raise DrawingError(
            "this binary DXF is damaged from its first bytes",
            file=name,
            remedy="export the drawing again",
            code="BAD_DRAWING",
        )
    return "\n".join(lines) + "\n"
