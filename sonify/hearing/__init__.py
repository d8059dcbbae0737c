"""What can be heard: a recording measured as an outsider would, who has the score and the printed key and nothing else.

Nothing here knows how pieces are mapped, arranged or rendered: it takes samples, where the notes lie, and the key, and
gives back the quantity of the science as the ear could have it.
"""

from sonify.hearing.judging import heard_findings
from sonify.hearing.recovering import recovered
from sonify.hearing.spectra import Recording
from sonify.hearing.told import Told, told_of

__all__ = ["Recording", "Told", "heard_findings", "recovered", "told_of"]
