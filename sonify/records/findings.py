"""What the checks found: problems to mend, and notes of what was changed or should be known."""

from __future__ import annotations

from dataclasses import dataclass

from sonify.records.fact import Words


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One thing a check found.

    kind: "science", "rule", "audibility", "playability", "loudness", "length", "class", "swap" or "data" (the
    class's own readings).
    part: the part concerned, "" for the whole piece. where: bar, stage, rule or condition, in words.
    serious: True for a problem that the teacher should mend (listed by `sonify check`); False for a note.
    """

    kind: str
    message: Words
    fix: Words
    part: str = ""
    where: Words = ""
    serious: bool = True
