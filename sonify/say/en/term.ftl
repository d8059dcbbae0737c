## phrase: what each control of the sound is called on the page

term-control-tempo = tempo
term-control-pitch = pitch
term-control-density = how many taps
term-control-dynamics = loudness
term-control-brightness = hard or soft sound

## plain: each word of the trade, explained for somebody who is no musician and no scientist

term-scene = A science process with its story, its stages and the rules that turn it into sound.
term-stage = A part of the process that the computation found, such as melting. Each stage takes a few bars.
term-condition = What the process starts from, such as a temperature. Change one and everything is computed anew.
term-rule = One quantity of the science that you hear as one feature of the sound. You choose how far it reaches.
term-tempo = How fast the beat goes, in beats a minute. The whole class follows one tempo.
term-pitch = How high or low a note is. C4 is the C in the middle of a piano; C5 is the next C above it.
term-density = How many taps are heard in a beat or a bar. Many taps sound busy, few sound sparse.
term-dynamics = How loud or soft: pp is very soft, p soft, mp and mf in between, f loud, ff very loud.
term-brightness = How hard and clear a sound is, from a soft beater (0 %) to a hard one (100 %).
term-drone = One long sound that goes on and on underneath.
term-ostinato = A short pattern, played again and again.
term-melody = A tune: its notes go up and down with the science.
term-tremolo = A roll: the same sound repeated as fast as it comes easily.
term-scatter = Single taps at moments that nobody can foretell, few or many, like drops of rain.
term-scaffold = How much help the pupils’ sheets give: everything written out, some bars left blank for the groups to fill, or only the plan of the piece.
term-exaggeration = How much more the sound changes than the science does. It is there so that ears can hear it; pupils should be told, so that they do not take the sound for a measurement.
term-audible = Whether ears can tell neighbouring stages apart by this sound alone. It is compared with the smallest differences that people hear, as published.
term-linear = Equal steps of the quantity make equal steps of the sound.
term-logarithmic = Equal ratios of the quantity, such as each doubling, make equal steps of the sound. Good for a quantity that grows many times over.
term-decibels = Equal steps of the quantity make equal steps in decibels, so each step is as easy to hear as the others. For loudness only.
term-stems = One recording for each group’s part, to mix or to play along with. About 16 MB a minute each.
term-swap = An instrument that stands in, because the cupboard does not hold the one the scene asks for first.
