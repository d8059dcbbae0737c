"""The sentences that every pupils' sheet says, whatever its scene: here, so that tests can judge how hard they read."""

from __future__ import annotations

#: By the name a template calls each by.
SAY = {
    "cut": "Cut out the boxes along the lines. Put them in the right order. What comes first? What comes next?",
    "ring": "Write one stage in each box. Follow the arrows. Where does the last arrow go?",
    "line": "Write one stage in each box. Follow the arrows.",
    "picture": "Draw it here.",
    "words": "Write the right word on each line.",
    "match": "Draw a line from each word to what it means.",
    "sound": "Use what your card tells you. Leave out what you did not use.",
    "help": "Tick the word that fits your sound. Then end the sentence. These words can help.",
    "figures": "These numbers come from the science of our piece.",
    "clips": "Listen to each clip. Tick one box.",
    "curve": "The grey part is the stage. The line in it shows this:",
    "over": "The next page shows what you play.",
    "bold": "The first note is bold. A line shows how long a note lasts.",
    "higher": "A mark like C′ means the higher note.",
    "taps": "A dot is a tap. Each row is one player. Do not count the dots. Play few or many, as you see.",
    "draw": "Draw your own taps here. Draw a dot for each tap.",
}
