#!/usr/bin/env python3
"""Cuts the embedded faces from DejaVu Sans Condensed. See README.md.

usage: cut.py REGULAR.ttf BOLD.ttf      (needs fonttools)
"""
import io
import struct
import sys
import zlib

from fontTools import subset
from fontTools.ttLib import TTFont

# What sheets are lettered with: names in the Latin alphabet, fractions, and
# the signs of a drawing office. Characters a face lacks are skipped.
WANTED = [
    (0x0020, 0x007E), (0x00A0, 0x00AC), (0x00AE, 0x017F),  # Latin-1, Latin Extended-A
    (0x0192, 0x0192), (0x0218, 0x021B), (0x02C6, 0x02C7), (0x02D8, 0x02DD),
    (0x0394, 0x0394), (0x03A3, 0x03A3), (0x03A9, 0x03A9), (0x03BC, 0x03BC), (0x03C0, 0x03C0),
    (0x1E9E, 0x1E9E),
    (0x2002, 0x200A), (0x2010, 0x2015), (0x2018, 0x201F), (0x2020, 0x2022), (0x2026, 0x2026),
    (0x202F, 0x202F), (0x2030, 0x2030), (0x2032, 0x2033), (0x2039, 0x203A), (0x2044, 0x2044),
    (0x2070, 0x2070), (0x2074, 0x208E),  # raised and lowered figures
    (0x20AC, 0x20AC), (0x2104, 0x2104), (0x2116, 0x2116), (0x2122, 0x2122), (0x2126, 0x2126),
    (0x2153, 0x215E),  # fractions
    (0x2190, 0x2199), (0x21A9, 0x21AA), (0x21BA, 0x21BB), (0x21D0, 0x21D5), (0x21E6, 0x21E9),
    (0x2205, 0x2205), (0x2211, 0x2212), (0x2215, 0x2215), (0x221A, 0x221A), (0x221E, 0x2220),
    (0x2225, 0x2225), (0x2248, 0x2248), (0x2260, 0x2260), (0x2264, 0x2265), (0x22A5, 0x22A5),
    (0x2300, 0x2300),  # diameter
    (0x25A0, 0x25A3), (0x25AA, 0x25AD), (0x25B2, 0x25C6), (0x25C7, 0x25CB), (0x25CF, 0x25CF),
    (0x25E6, 0x25E6), (0x2605, 0x2606), (0x2610, 0x2612), (0x26A0, 0x26A0),
    (0x2713, 0x2714), (0x2717, 0x2718), (0x2794, 0x2794), (0xFB01, 0xFB02), (0xFFFD, 0xFFFD),
]
EPOCH = 3_534_451_200  # head dates are fixed (2016-01-01), so cutting again gives the same bytes
NO_PAGE = 0xFF


def cut(path, runes):
    """Returns the font at path cut to runes, outlines only."""
    options = subset.Options()
    options.layout_features = []
    options.hinting = False
    options.legacy_kern = False
    options.glyph_names = False
    options.notdef_outline = True
    options.name_IDs = [0, 1, 2, 4, 6, 13, 14]
    options.drop_tables += ["GPOS", "GSUB", "GDEF", "kern", "FFTM", "gasp"]
    font = TTFont(path, recalcTimestamp=False)
    cutter = subset.Subsetter(options)
    cutter.populate(unicodes=runes)
    cutter.subset(font)
    font["cmap"].tables = [t for t in font["cmap"].tables if t.format == 4 and t.platformID == 3]
    font["head"].modified = font["head"].created = EPOCH
    return font


def table(font):
    """Returns the rune table: 256 page numbers by high byte, then pages of
    256 big-endian (glyph, advance) pairs; glyph 0 is a character not there."""
    pages = {}
    for rune, name in font.getBestCmap().items():
        page = pages.setdefault(rune >> 8, [(0, 0)] * 256)
        page[rune & 255] = (font.getGlyphID(name), font["hmtx"][name][0])
    order = sorted(pages)
    out = bytearray(order.index(h) if h in pages else NO_PAGE for h in range(256))
    for high in order:
        for glyph, advance in pages[high]:
            out += struct.pack(">HH", glyph, advance)
    return bytes(out)


def main(regular, bold):
    common = set(TTFont(regular).getBestCmap()) & set(TTFont(bold).getBestCmap())
    runes = [r for lo, hi in WANTED for r in range(lo, hi + 1) if r in common]
    print("missing:", " ".join(f"{r:04X}" for lo, hi in WANTED for r in range(lo, hi + 1) if r not in common))
    for path, name in ((regular, "regular"), (bold, "bold")):
        font = cut(path, runes)
        with open(f"{name}.runes", "wb") as f:
            f.write(table(font))
        whole = io.BytesIO()
        font.save(whole)
        data = whole.getvalue()
        with open(f"{name}.ttf.z", "wb") as f:
            f.write(zlib.compress(data, 9))
        head = font["head"]
        print(name, "bytes", len(data), "glyphs", len(font.getGlyphOrder()), "box", head.xMin, head.yMin, head.xMax, head.yMax)


main(*sys.argv[1:])
