"""The pupils' sheets that are printed only where a teacher asks for them; all but the pictures stand in every
pupils.pdf."""

from __future__ import annotations

#: Cards by pictures alone: drawn only where they are asked for, or where the class file names who needs them.
PICTURES = "pictures"
#: In the file's order, by the names that `--also` takes.
ALSO = ("chart", "words", "words-help", "thinking", "listening", PICTURES)
