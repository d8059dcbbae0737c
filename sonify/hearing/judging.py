"""What nobody could hear, as problems with what to do.

Rules that do not come back, strokes that are masked, stages under a projector's fan.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from sonify.hearing.spectra import BANDS_HZ, Floats, Frames, Recording
from sonify.hearing.strokes import shown
from sonify.hearing.told import Told
from sonify.records.fact import fact
from sonify.records.findings import Finding
from sonify.records.heard import HeardRule

#: A rule whose stages come back in an order that correlates less than this with the science is not heard (ours).
LEAST_RANK = 0.8
#: A tone this far under a noise of its own critical band is masked by it (a common round value, from memory, not
#: verified); a third of an octave stands for the band. A part of which less than half is heard is hidden (ours).
MASKED_UNDER_DB, LEAST_SHOWN = 4.0, 0.5
#: Our design assumption: the piece is played as loud as ordinary speech at its listeners' seats, and a projector's fan
#: hisses so loud there, the same in each octave.
SPEECH_DBA, FAN_DBA = 62.0, 38.0
#: A stage is to lie so far over the fan.
OVER_FAN_DB = 6.0
A_CORNERS_HZ = (20.598997, 107.65265, 737.86223, 12194.217)  # IEC 61672-1, annex E (from memory, not verified)


def heard_findings(told: Told, rows: Sequence[HeardRule], sound: Recording) -> tuple[Finding, ...]:
    return (*_unheard(rows), *_masked(told, sound), *_under_the_fan(told, sound.whole))


def _unheard(rows: Sequence[HeardRule]) -> list[Finding]:
    """Rules that come back neither from the mix nor from the part alone."""
    best: dict[tuple[str, str, str], tuple[float, HeardRule]] = {}
    for row in rows:
        key = (row.key.quantity, row.key.control, row.key.part)
        if not math.isnan(row.rank_stages) and row.rank_stages > best.get(key, (-2.0, row))[0]:
            best[key] = (row.rank_stages, row)
    return [
        Finding(
            kind="audibility",
            message=fact(
                "heard-not-recovered", quantity=row.key.quantity, control=row.key.control, rank=f"{found:.1f}"
            ),
            fix=fact("heard-not-recovered-fix"),
            part=row.key.part,
            where=row.key.quantity,
        )
        for found, row in best.values()
        if found < LEAST_RANK
    ]


def _masked(told: Told, sound: Recording) -> list[Finding]:
    found = []
    for one in told.strokes:
        if one.name not in sound.stems or not any(key.part == one.name for key in told.keys):
            continue
        heard = shown(sound.own(one.name), sound.whole, one, MASKED_UNDER_DB)
        bars = told.bar_of(one.onsets_s)
        for title, first, last, _ in told.stages:
            here = heard[(bars >= first) & (bars < last)]
            if here.size >= 4 and here.mean() < LEAST_SHOWN:
                found.append(
                    Finding(
                        kind="audibility",
                        message=fact("heard-masked", share=f"{100.0 * (1.0 - here.mean()):.0f}"),
                        fix=fact("heard-masked-fix"),
                        part=one.name,
                        where=title,
                    )
                )
    return found


def _under_the_fan(told: Told, whole: Frames) -> list[Finding]:
    found = []
    for (title, _, _, _), over_db in zip(told.stages, over_fan_db(told, whole), strict=True):
        if over_db < OVER_FAN_DB:
            found.append(
                Finding(
                    kind="audibility",
                    message=fact("heard-under-fan", over=f"{over_db:.0f}", fan=f"{FAN_DBA:.0f}"),
                    fix=fact("heard-under-fan-fix"),
                    where=title,
                )
            )
    return found


def over_fan_db(told: Told, whole: Frames) -> list[float]:
    """How far each stage lies over the fan, A-weighted, where the whole piece is as loud as speech."""
    weighted = whole.power @ a_weighting(BANDS_HZ)
    stages = [
        float(weighted[whole.between(told.bars_s[first], told.bars_s[last])].mean())
        for _, first, last, _ in told.stages
    ]
    piece = float(weighted[whole.between(told.bars_s[0], told.bars_s[-1])].mean())
    return [SPEECH_DBA - FAN_DBA + 10.0 * math.log10(max(stage, 1e-12 * piece) / piece) for stage in stages]


def a_weighting(hz: Floats) -> Floats:
    """Power weight of the ear at low level, 1 at 1 kHz (A-weighting)."""

    def curve(f: Floats) -> Floats:
        one, two, three, four = (np.square(corner) for corner in A_CORNERS_HZ)
        f2 = np.square(f)
        return np.asarray(np.square(four * f2**2 / ((f2 + one) * np.sqrt((f2 + two) * (f2 + three)) * (f2 + four))))

    return np.asarray(curve(np.asarray(hz, dtype=float)) / curve(np.array([1000.0])))
