"""Each word of the trade that the page uses, explained for somebody who is no musician and no scientist."""

from __future__ import annotations

#: What each control of the sound is called on the page.
CONTROL_WORDS = {
    "tempo": "tempo",
    "pitch": "pitch",
    "density": "how many taps",
    "dynamics": "loudness",
    "brightness": "hard or soft sound",
}

#: Word -> one or two plain sentences. The page shows them where the word stands.
TERMS = {
    "scene": "A science process with its story, its stages and the rules that turn it into sound.",
    "stage": "A part of the process that the computation found, such as melting. Each stage takes a few bars.",
    "condition": "What the process starts from, such as a temperature. Change one and everything is computed anew.",
    "rule": "One quantity of the science that you hear as one feature of the sound. You choose how far it reaches.",
    "tempo": "How fast the beat goes, in beats a minute. The whole class follows one tempo.",
    "pitch": "How high or low a note is. C4 is the C in the middle of a piano; C5 is the next C above it.",
    "density": "How many taps are heard in a beat or a bar. Many taps sound busy, few sound sparse.",
    "dynamics": "How loud or soft: pp is very soft, p soft, mp and mf in between, f loud, ff very loud.",
    "brightness": "How hard and clear a sound is, from a soft beater (0 %) to a hard one (100 %).",
    "drone": "One long sound that goes on and on underneath.",
    "ostinato": "A short pattern, played again and again.",
    "melody": "A tune: its notes go up and down with the science.",
    "tremolo": "A roll: the same sound repeated as fast as it comes easily.",
    "scatter": "Single taps at moments that nobody can foretell, few or many, like drops of rain.",
    "scaffold": "How much help the pupils’ sheets give: everything written out, some bars left blank for the groups to "
    "fill, or only the plan of the piece.",
    "exaggeration": "How much more the sound changes than the science does. It is there so that ears can hear it; "
    "pupils should be told, so that they do not take the sound for a measurement.",
    "audible": "Whether ears can tell neighbouring stages apart by this sound alone. It is compared with the smallest "
    "differences that people hear, as published.",
    "linear": "Equal steps of the quantity make equal steps of the sound.",
    "logarithmic": "Equal ratios of the quantity, such as each doubling, make equal steps of the sound. Good for a "
    "quantity that grows many times over.",
    "stems": "One recording for each group’s part, to mix or to play along with. About 16 MB a minute each.",
    "swap": "An instrument that stands in, because the cupboard does not hold the one the scene asks for first.",
}
