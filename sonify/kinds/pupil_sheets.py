"""The pupils' sheets that are printed only where a teacher asks for them; all stand in pupils.pdf."""

from __future__ import annotations

#: In the file's order, by the names that `--also` takes.
ALSO = ("chart", "words", "words-help", "thinking", "listening", "pictures")
