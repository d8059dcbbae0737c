"""The files of a pack that a person opens, in the order in which they are listed. Their purpose: `packfile-...`."""

from __future__ import annotations

#: What a person reads or plays; the rest of a pack is for programs.
FOR_PEOPLE = (
    "teacher.pdf",
    "conductor.pdf",
    "pupils.pdf",
    "poster.pdf",
    "page.html",
    "soundscape.wav",
    "soundscape.mid",
    "score.musicxml",
)
FOR_PROGRAMS = ("science.csv", "score.json", "pack.json")
#: Only where it was asked for.
WITH_CLICK = "soundscape-with-click.wav"
