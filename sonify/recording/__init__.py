"""The recording on disk: rendered on scratch space that is gone on any exit; WAV, stems and other formats."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Callable, Generator, Iterator
from contextlib import ExitStack, closing, contextmanager
from pathlib import Path
from threading import Event
from typing import TYPE_CHECKING

import numpy as np

from sonify.errors import SonifyError, UnknownName
from sonify.frozen import dataclass
from sonify.recording.again import Recorded, recorded_again
from sonify.recording.second_core import Copies, beside, copies
from sonify.records.fact import Amount, fact, wrong
from sonify.records.findings import Finding
from sonify.records.score import Score
from sonify.records.sounds import PageSounds
from sonify.records.words import plain_name
from sonify.sound.hands import Sounds, Steps
from sonify.sound.options import with_click, without_groups
from sonify.sound.page import at_gain, page_sounds, page_sounds_ungained
from sonify.sound.rate import RATE_HZ, Samples
from sonify.sound.render import Rendering, heard_blocks, render, stem_names, write_compressed, write_stems
from sonify.sound.render import write_wav as write_rendering
from sonify.storage.workshop import NEW, flush, flush_folder, uninterrupted, workshop

if TYPE_CHECKING:
    from concurrent.futures import Future, ThreadPoolExecutor

#: Formats of a recording beside the 16-bit WAV that every pack has.
AUDIO = ("flac", "mp3", "ogg", "wav24")
#: The recording lets the sheets go before it: its two hands and the page's sounds keep both cores busy to the end. The
#: sheets cannot, for the teacher's file waits for the conductor's and the pupils'.
YIELDING = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class Wishes:
    """What else to record. audio: further formats. without: groups to leave out, for pupils to play against.

    click: one more recording with a click on every beat. stems: one 24-bit file a part, about 16 MB a minute each.
    for_keyboard: also MIDI files for a 61-key keyboard. midi_count_in: False lets groups' files begin at bar 1.
    """

    audio: tuple[str, ...] = ()
    without: tuple[str, ...] = ()
    click: bool = False
    stems: bool = True
    for_keyboard: bool = False
    midi_count_in: bool = True

    def __post_init__(self) -> None:
        for kind in self.audio:
            if kind not in AUDIO:
                raise UnknownName("audio format", kind, AUDIO)


def check_wishes(score: Score, wishes: Wishes) -> None:
    """Raises UnknownName for a group to leave out that the Score does not have, naming those it has."""
    without_groups(score, wishes.without)


@contextmanager
def rendered(
    score: Score, progress: Callable[[float], None] | None = None, *, stems: bool = False
) -> Iterator[Rendering]:
    """The Score's recording on scratch space that is gone on any exit. stems: they are wanted, too."""
    with tempfile.TemporaryFile() as scratch, ExitStack() as hands:

        def let_go(steps: Steps, count: int, shape: tuple[int, int]) -> Generator[Sounds]:
            return hands.enter_context(closing(beside(steps, count, shape)))

        yield render(score, scratch, progress=progress, stems=stems, beside=let_go)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Played:
    """A recording to be listened to: the mix and each part alone, in one channel, and the mix at both ears.

    places: from how far to the right each part is heard, as an angle: 0 at the left ear alone, half of pi at the right.
    """

    rendering: Rendering
    mix: Samples
    stems: dict[str, Samples]
    ears: tuple[Samples, Samples]
    places: dict[str, float]
    rate_hz: int = RATE_HZ


@contextmanager
def played(score: Score) -> Iterator[Played]:
    """The Score's recording as arrays on scratch space that is gone on any exit."""
    with rendered(score, stems=True) as rendering, ExitStack() as files:

        def scratch() -> Samples:
            file = files.enter_context(tempfile.TemporaryFile())
            return np.memmap(file, np.float32, "w+", shape=(rendering.frames,))

        mix, stems = scratch(), {name: scratch() for name in stem_names(score)}
        ears, totals = (scratch(), scratch()), np.zeros((len(score.parts), 2))
        at = 0
        for whole, parts, energies in heard_blocks(rendering, beside=beside):
            here = slice(at, at + whole.shape[1])
            mix[here] = whole.mean(axis=0)
            ears[0][here], ears[1][here] = whole
            totals += energies
            for stem, part in zip(stems.values(), parts, strict=True):
                if part is not None:
                    stem[here] = part
            at += whole.shape[1]
        left, right = np.sqrt(totals.T)
        places = dict(zip(stems, np.arctan2(right, left).tolist(), strict=False))
        yield Played(rendering=rendering, mix=mix, stems=stems, ears=ears, places=places)


def loudness_findings(rendering: Rendering) -> tuple[Finding, ...]:
    """What was measured, as a note; a problem where the recording misses its loudness or its peak."""
    measured = [
        fact("loud-measured", lufs=_measured(rendering.lufs), peak=_measured(rendering.peak_dbtp)),
    ]
    if rendering.reduction_db > 0:
        held = "loud-held-back" if rendering.score.gentle else "loud-limited"
        measured.append(fact(held, reduction=_measured(rendering.reduction_db)))
    if rendering.on_target:
        return (Finding(kind="loudness", message=tuple(measured), fix="", serious=False),)
    return (Finding(kind="loudness", message=tuple(measured), fix=fact("loud-mend")),)


def _measured(level: float) -> Amount:
    return Amount(value=level, places=1, given="measured in the recording itself")


def write_wav(score: Score, path: str | Path) -> Path:
    """The recording alone: 44.1 kHz, 16 bit, stereo. Nothing is left at `path` when it fails."""
    path = Path(os.path.realpath(path))  # a link is followed, not replaced
    try:
        if os.path.lexists(path) and not path.is_file():
            raise SonifyError(wrong("error_files-written-file-choose", path=path))
        with workshop(path, "file") as shop:
            part = shop / NEW
            with part.open("wb") as out, rendered(score) as rendering:  # a place that cannot be written is told at once
                write_rendering(rendering, out, marked=True)
            flush(part)
            with uninterrupted():
                os.replace(part, path)
                flush_folder(path.parent)
    except OSError as error:
        raise SonifyError(wrong("error_files-written", path=path, value=error.strerror or error)) from error
    return path


def write_recordings(score: Score, work: Path, wishes: Wishes, tell: Callable[[float], None]) -> Recorded:
    """The recording, its stems and what was wished for, in the folder `work`; the page's sounds and what was measured.

    Raises SonifyError where the recording misses its loudness, UnknownName for a group that is not there.
    """
    if wishes == Wishes(stems=False, for_keyboard=wishes.for_keyboard, midi_count_in=wishes.midi_count_in):
        return recorded_again(score, work, lambda: _recorded(score, work, wishes, tell))
    return _recorded(score, work, wishes, tell)


def _recorded(score: Score, work: Path, wishes: Wishes, tell: Callable[[float], None]) -> Recorded:
    minus = {f"minus-{plain_name(name)}": without_groups(score, (name,)) for name in wishes.without}
    with copies() as begun:
        sounds_at = _page_sounds(score, begun)
        with rendered(score, lambda share: tell(0.5 * share), stems=wishes.stems) as rendering:
            missed = [finding for finding in loudness_findings(rendering) if finding.serious]
            if missed:
                raise SonifyError((missed[0].message, missed[0].fix))
            _write_one(rendering, work, "soundscape", wishes.audio)
            if wishes.stems:
                _write_stems(rendering, work / "stems", lambda share: tell(0.5 + 0.5 * share))
            sounds = sounds_at(rendering)
            measured = {
                "seconds": round(rendering.seconds, 3),
                "loudness_lufs": round(rendering.lufs, 2),
                "true_peak_dbtp": round(rendering.peak_dbtp, 2),
                "limiter_db": round(rendering.reduction_db, 2),
            }
    others = {**minus, **({"soundscape-with-click": with_click(score)} if wishes.click else {})}
    for name, other in others.items():
        with rendered(other, lambda share: tell(1.0)) as rendering:
            _write_one(rendering, work, name, wishes.audio)
    return sounds, measured


def _page_sounds(score: Score, begun: Copies | None) -> Callable[[Rendering], PageSounds]:
    """The page's sounds as loud as a recording of the Score, made from now on where there is a copy to do so."""
    if begun is None:
        return lambda rendering: page_sounds(score, gain=rendering.gain, bank=rendering.bank)
    made = begun.begin(lambda tell: page_sounds_ungained(score))
    return lambda rendering: at_gain(made(), rendering.gain)


class RecordingStopped(Exception):
    """What the recording was for has failed or been given up."""


@contextmanager
def recorded_beside(
    score: Score, work: Path, wishes: Wishes, tell: Callable[[float], None], copies: Copies | None
) -> Iterator[Callable[[], Recorded]]:
    """`write_recordings` on the second core: in one of the copies of this process, or in a thread where there are none.

    What is yielded waits for it. Left by an error or by Ctrl-C, the thread stops at its next second of sound.
    """
    if copies is not None:
        yield copies.begin(lambda tell: write_recordings(score, work, wishes, tell), tell, yielding=YIELDING)
        return
    from concurrent.futures import ThreadPoolExecutor  # only where a copy cannot be had

    with ThreadPoolExecutor(max_workers=1) as waiting, _in_a_thread(score, work, wishes, tell, waiting) as recording:
        yield recording.result


@contextmanager
def _in_a_thread(
    score: Score, work: Path, wishes: Wishes, tell: Callable[[float], None], second_core: ThreadPoolExecutor
) -> Iterator[Future[Recorded]]:
    given_up = Event()

    def told(share: float) -> None:
        if given_up.is_set():
            raise RecordingStopped
        tell(share)

    try:
        yield second_core.submit(write_recordings, score, work, wishes, told)
    except BaseException:
        given_up.set()
        raise


def _write_one(rendering: Rendering, work: Path, name: str, audio: tuple[str, ...]) -> None:
    with (work / f"{name}.wav").open("wb") as out:
        write_rendering(rendering, out, marked=True)
    for kind in audio:
        if kind == "wav24":
            with (work / f"{name}-24-bit.wav").open("wb") as out:
                write_rendering(rendering, out, bits=24, marked=True)
        else:
            with (work / f"{name}.{kind}").open("w+b") as out:
                write_compressed(rendering, out, kind)


def _write_stems(rendering: Rendering, folder: Path, tell: Callable[[float], None]) -> None:
    folder.mkdir()
    with ExitStack() as files:
        outs = [files.enter_context((folder / name).open("wb")) for name in stem_files(rendering.score)]
        write_stems(rendering, outs, progress=tell, beside=beside)


def stem_files(score: Score) -> list[str]:
    """File names of the stems, in the order of `stem_names`: numbered, and legal on Windows."""
    return [f"{number:02d}-{plain_name(name)}.wav" for number, name in enumerate(stem_names(score))]
