"""What a recording of the class says: where the piece is in it, and what each stage came to. Informed by the Score,
never blind; what cannot be told is not told.

Knows no voices of ours: what strokes sound like is general acoustics (`expected.py`), so that a class's own
instruments, a phone and a room are as good as the toolkit's recording. It takes samples in blocks and keeps none.
"""

from sonify.listening.frames import Heard, Listener
from sonify.listening.judging import measured
from sonify.listening.plan import Plan, plan_of
from sonify.listening.reading_back import read_back, tempo_rule

__all__ = ["Heard", "Listener", "Plan", "measured", "plan_of", "read_back", "tempo_rule"]
