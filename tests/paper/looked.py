"""Pages looked at by program: text off the page, text over text, text too small, and halves with nothing on them.

Boxes of words come from `pdftotext -bbox`, pictures of pages from `pdftoppm` (poppler), sizes of letters from pypdf:
none of them is what made the file.
"""

from __future__ import annotations

import io
import re
import subprocess
from dataclasses import dataclass
from html import unescape
from pathlib import Path
from typing import Any

import numpy as np
from pypdf import PdfReader

_WORD = re.compile(r'<word xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">([^<]*)</word>')
_PAGE = re.compile(r'<page width="([\d.]+)" height="([\d.]+)">')
#: So near its edge (4 mm) a page is not printed by ordinary printers; poppler drops what lies beyond it.
EDGE_PT = 11.0
#: Of a word's box the middle is ink for certain: lines set close share the rest.
CORE = 0.45
#: Two words are one on the other if they share so many points in both directions.
SHARED_PT = 1.2
#: Pictures of pages: dots an inch, and from so dark on a dot is ink.
DPI = 24
FOOT = 0.065  # the share of a page's height that its foot takes
INK = 245


@dataclass(frozen=True, slots=True)
class Word:
    x: float
    y: float
    right: float
    foot: float
    text: str


def words_of(path: Path) -> list[tuple[float, float, list[Word]]]:
    """Each page's width, height and words, in points."""
    told = subprocess.run(["pdftotext", "-bbox", str(path), "-"], check=True, capture_output=True, text=True).stdout
    found = []
    for piece in told.split("<page ")[1:]:
        size = _PAGE.match("<page " + piece)
        assert size is not None
        rows = [Word(*map(float, row[:4]), unescape(row[4])) for row in _WORD.findall(piece)]
        found.append((float(size[1]), float(size[2]), rows))
    return found


def cut_off(path: Path) -> list[str]:
    """Words that reach the edge of their page, or leave it."""
    return [
        f"page {number}: {word.text}"
        for number, (width, height, words) in enumerate(words_of(path), start=1)
        for word in words
        if min(word.x, word.y, width - word.right, height - word.foot) < EDGE_PT
    ]


def colliding(path: Path) -> list[str]:
    """Words that lie one on the other."""
    found = []
    for number, (_, _, words) in enumerate(words_of(path), start=1):
        if len(words) < 2:
            continue
        box = np.array([[w.x, w.y, w.right, w.foot] for w in words])
        spare = (1.0 - CORE) / 2 * (box[:, 3] - box[:, 1])
        top, foot = box[:, 1] + spare, box[:, 3] - spare
        across = np.minimum(box[:, None, 2], box[None, :, 2]) - np.maximum(box[:, None, 0], box[None, :, 0])
        down = np.minimum(foot[:, None], foot[None, :]) - np.maximum(top[:, None], top[None, :])
        for i, j in np.argwhere(np.triu((across > SHARED_PT) & (down > SHARED_PT), 1)):
            found.append(f"page {number}: {words[i].text} and {words[j].text}")
    return found


def small(data: bytes, least_pt: float) -> list[str]:
    """Text in letters under a size, as drawn on the page."""
    found = []
    for number, page in enumerate(PdfReader(io.BytesIO(data)).pages, start=1):

        def look(text: str, cm: Any, tm: Any, font: Any, size: float, number: int = number) -> None:
            if not text.strip():
                return
            matrix = np.array([[tm[0], tm[1]], [tm[2], tm[3]]]) @ np.array([[cm[0], cm[1]], [cm[2], cm[3]]])
            drawn = size * float(np.sqrt(abs(np.linalg.det(matrix))))
            if drawn < least_pt - 0.05:
                found.append(f"page {number}: {drawn:.1f} pt: {text.strip()[:40]}")

        page.extract_text(visitor_text=look)
    return found


def grey_pages(path: Path) -> list[np.ndarray[Any, np.dtype[np.uint8]]]:
    """Each page as a grey picture."""
    told = subprocess.run(["pdftoppm", "-gray", "-r", str(DPI), str(path)], check=True, capture_output=True).stdout
    found, place = [], 0
    while place < len(told):
        head = re.compile(rb"P5\s(\d+) (\d+)\s255\s").match(told, place)
        assert head is not None
        wide, high = int(head[1]), int(head[2])
        place = head.end()
        found.append(np.frombuffer(told, np.uint8, wide * high, place).reshape(high, wide))
        place += wide * high
    return found


def blank_halves(path: Path) -> list[int]:
    """Pages on whose lower half, its foot apart, there is nothing."""
    found = []
    for number, page in enumerate(grey_pages(path), start=1):
        high = page.shape[0]
        lower = page[high // 2 : int(high * (1.0 - FOOT))]
        if not (lower < INK).any():
            found.append(number)
    return found
