"""What a recording of the class came to, for machines: `sonify listen --json` and a table of its bars."""

from __future__ import annotations

import csv
import io
from typing import Any

from sonify.records.listened import EntryHeard, Listened, Question, ReadBack, Span, StageHeard, StageRead
from sonify.records.safe_text import for_heading
from sonify.say import say


def listened_facts(found: Listened, back: ReadBack | None = None) -> dict[str, Any]:
    """`bpm`, `bpm_low` and `bpm_high` are null where a stage cannot be told; where nothing is, there are no stages."""
    return {
        "recognised": found.recognised,
        "why": say(found.why),
        "seconds": round(found.seconds, 2),
        "start_s": _rounded(found.start_s, 3),
        "end_s": _rounded(found.end_s, 3),
        "takes": found.takes,
        "clipped": found.clipped,
        "stages": [_stage(row) for row in found.stages],
        "entries": [_entry(row) for row in found.entries],
        "questions": [_question(row) for row in found.questions],
        "next_run": [say(words) for words in found.feedback],
        **({} if back is None else {"science": _read(back)}),
    }


def _read(back: ReadBack) -> dict[str, Any]:
    rows = [
        {"letter": row.letter, "science": _digits(row.science), **_read_span(row, back), "beyond": row.beyond}
        for row in back.stages
    ]
    return {"quantity": back.quantity, "unit": back.unit, "bars": [_digits(v) for v in back.science], "stages": rows}


def _read_span(row: StageRead, back: ReadBack) -> dict[str, float | None]:
    """Beyond the key's end there is no value, only the end that it lies above or below."""
    span, above = row.ours, back.above(row)
    values: tuple[float | None, ...] = (None, None, None) if span is None else (span.value, span.low, span.high)
    if span is not None and above is not None:
        values = (None, span.value, None) if above else (None, None, span.value)
    return {
        key: None if value is None else _digits(value)
        for key, value in zip(("ours", "low", "high"), values, strict=True)
    }


def _digits(value: float) -> float:
    return float(f"{value:.5g}")


def _rounded(value: float | None, places: int) -> float | None:
    return None if value is None else round(float(value), places)


def _span(name: str, span: Span | None, places: int) -> dict[str, float | None]:
    values = (None, None, None) if span is None else (span.value, span.low, span.high)
    keys = (name, f"{name}_low", f"{name}_high")
    return {key: _rounded(value, places) for key, value in zip(keys, values, strict=True)}


def _stage(row: StageHeard) -> dict[str, Any]:
    return {
        "name": row.name,
        "title": row.title,
        "letter": row.letter,
        "bar": row.bar,
        "bars": row.bars,
        **_span("bpm", row.bpm, 2),
        "planned_bpm": round(row.planned_bpm, 2),
        "start_s": _rounded(row.start_s, 3),
        "unsteady_percent": None if row.wander is None else round(100.0 * row.wander, 1),
        **_span("level_db", row.level_db, 1),
        "why": say(row.why),
    }


def _entry(row: EntryHeard) -> dict[str, Any]:
    return {
        "part": row.part,
        "group": row.group,
        "planned_bar": row.planned_bar,
        **_span("bar", row.heard, 0),
        "why": say(row.why),
    }


def _question(row: Question) -> dict[str, Any]:
    return {
        "kind": row.kind,
        "stage": row.stage,
        "part": row.part,
        "question": say(row.asked),
        "answer": row.answer,
        "as_planned": row.planned,
        "why": say(row.why),
    }


def listened_csv(found: Listened) -> str:
    """A row for every bar of the take."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    headings = ("bar", "stage", "starts at [s]", "your tempo [bpm]", "written tempo [bpm]", "level [dB]")
    writer.writerow([for_heading(heading) for heading in headings])
    for bar in found.bars:
        stage = max((row for row in found.stages if row.bar <= bar.bar), key=lambda row: row.bar)
        told = stage.bpm is not None
        writer.writerow(
            [
                bar.bar,
                for_heading(stage.letter),
                f"{bar.start_s:.2f}" if told else "",
                f"{bar.bpm:.1f}" if told else "",
                f"{stage.planned_bpm:.1f}",
                f"{bar.level_db:.1f}" if told else "",
            ]
        )
    return out.getvalue()
