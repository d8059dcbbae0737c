"""Key signatures and the spelling of notes."""

from __future__ import annotations

from sonify.records.scene import Scale

#: Seven neighbours on the line of fifths are a diatonic set; position 0 is C, 1 is G, -1 is F.
LETTERS = "FCGDAEB"
SEMITONES = {"C": 0, "D": 2, "E": 4, "F": 5, "G": 7, "A": 9, "B": 11}
ACCIDENTALS = {-2: "𝄫", -1: "♭", 0: "", 1: "♯", 2: "𝄪"}


def key_fifths(scale: Scale, shift: int = 0) -> int:
    """Sharps (positive) or flats of the signature that leaves fewest accidentals, for the scale moved by `shift`.

    Among equals: the one whose major or minor tonic the scale has, then the fewest signs, then flats.

    >>> key_fifths(Scale(name="C pentatonic", tonic=0, pitch_classes=(0, 2, 4, 7, 9)))
    0
    >>> key_fifths(Scale(name="E flat major", tonic=3, pitch_classes=(3, 5, 7, 8, 10, 0, 2)))
    -3
    """
    tonic = (scale.tonic + shift) % 12
    classes = {(pitch + shift) % 12 for pitch in scale.pitch_classes}

    def cost(fifths: int) -> tuple[int, int, int, int]:
        signature = {7 * (fifths + step) % 12 for step in range(-1, 6)}
        tonics = {7 * fifths % 12, 7 * (fifths + 3) % 12}
        return len(classes - signature), int(tonic not in tonics), abs(fifths), fifths

    return min(range(-6, 7), key=cost)


def spelling(midi: int, fifths: int) -> tuple[str, int, int]:
    """(letter, alteration, octave) of a MIDI note as a key signature has it; outside it, the nearest on its sharp side
    up to the leading note of its minor, and on its flat side for the rest.

    >>> spelling(60, 0), spelling(66, 0), spelling(70, 0), spelling(63, -3), spelling(59, -6)
    (('C', 0, 4), ('F', 1, 4), ('B', -1, 4), ('E', -1, 4), ('C', -1, 4))
    """
    # Twelve neighbours on the line of fifths, from two flats' side (B flat, E flat in C) to three sharps' (G sharp).
    position = next(at for at in range(fifths - 3, fifths + 9) if 7 * at % 12 == midi % 12)
    letter = LETTERS[(position + 1) % 7]
    alteration = (position + 1) // 7
    return letter, alteration, (midi - alteration - SEMITONES[letter]) // 12 - 1


def signature_alteration(letter: str, fifths: int) -> int:
    """What a key signature does to a letter: 1 sharp, -1 flat, 0 nothing.

    >>> signature_alteration("F", 1), signature_alteration("E", -2), signature_alteration("A", -2)
    (1, -1, 0)
    """
    return (fifths + 6 - LETTERS.index(letter)) // 7


def name(midi: int, fifths: int) -> str:
    """The letter name of a note, without octave: "F♯"."""
    letter, alteration, _ = spelling(midi, fifths)
    return letter + ACCIDENTALS[alteration]
