"""Marks as MusicXML directions."""

from __future__ import annotations

from lxml import etree

from sonify.kinds.marks import DYNAMICS
from sonify.notation.marks import Mark
from sonify.notation.xml import add


def add_direction(measure: etree._Element, mark: Mark, *, divisions: int) -> None:
    """Put the mark into a measure that stands at its beginning (or, for the end of a hairpin, at its end)."""
    if mark.kind == "tempo" and not mark.text:
        add(measure, "sound", tempo=f"{mark.bpm:.10g}")
        return
    below = mark.kind in ("dynamic", "cresc", "dim", "hairpin end")
    direction = add(measure, "direction", placement="below" if below else "above")
    kind = add(direction, "direction-type")
    if mark.kind == "rehearsal":
        add(kind, "rehearsal", mark.text, enclosure="square", font_weight="bold")
    elif mark.kind == "tempo":
        add(kind, "words", mark.text + " ", font_weight="bold")
        metronome = add(add(direction, "direction-type"), "metronome", parentheses="no")
        add(metronome, "beat-unit", "quarter")
        add(metronome, "per-minute", f"{mark.bpm:.0f}")  # the very number of the cue sheet; tempi are whole
    elif mark.kind == "dynamic":
        add(add(kind, "dynamics"), mark.text)
    elif mark.kind in ("cresc", "dim", "hairpin end"):
        words = {"cresc": "crescendo", "dim": "diminuendo", "hairpin end": "stop"}
        add(kind, "wedge", type=words[mark.kind], number="1")
    elif mark.kind == "blank":
        add(kind, "words", mark.text, enclosure="rectangle", font_style="normal")
    else:
        add(kind, "words", mark.text, font_style="normal", font_weight="bold" if mark.kind == "cue" else "normal")
    if mark.beat:
        add(direction, "offset", str(int(mark.beat * divisions)))
    if mark.kind == "tempo":
        add(direction, "sound", tempo=f"{mark.bpm:.10g}")
    elif mark.kind == "dynamic":
        # The standard counts in percent of MIDI's 90 (its definition of this attribute; from memory, not verified).
        add(direction, "sound", dynamics=f"{DYNAMICS[mark.text] / 90 * 100:.2f}")
