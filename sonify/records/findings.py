"""What the checks found: problems to mend, and notes of what was changed or should be known."""

from __future__ import annotations

from sonify.frozen import dataclass
from sonify.records.fact import Words


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleChange:
    """Other ends for a rule, as a scene file writes them; None: as they are. rule: its number in the scene, from 0."""

    rule: int
    low_high: tuple[str, str] | None = None
    to: tuple[str, str] | None = None

    @property
    def settings(self) -> tuple[str, ...]:
        """What `--set` takes: hear.3.to="pp, ff".

        >>> RuleChange(rule=3, to=("pp", "ff")).settings
        ('hear.3.to="pp, ff"',)
        """
        ends = (("from", self.low_high), ("to", self.to))
        return tuple(f'hear.{self.rule}.{name}="{", ".join(pair)}"' for name, pair in ends if pair)


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One thing a check found.

    kind: "science", "rule", "audibility", "playability", "loudness", "length", "class", "swap" or "data" (the
    class's own readings).
    part: the part concerned, "" for the whole piece. where: bar, stage, rule or condition, in words.
    change: what mends it, where other ends of one rule do; tried on this very piece.
    serious: True for a problem that the teacher should mend (listed by `sonify check`); False for a note.
    """

    kind: str
    message: Words
    fix: Words
    part: str = ""
    where: Words = ""
    serious: bool = True
    change: RuleChange | None = None
