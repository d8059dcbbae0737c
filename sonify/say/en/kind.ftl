## plain: what a name is the name of, where it is unknown

kind-audio-format = audio format
kind-background-sound = background sound
kind-background = background
kind-column = column
kind-control = control
kind-curve = curve
kind-group = group
kind-instrument = instrument
kind-loudness-range = loudness range
kind-mode = mode
kind-model = model
kind-need = need
kind-paper = paper
kind-part = part
kind-process = process
kind-quantity = quantity
kind-sample-size = sample size
kind-scaffold = scaffold
kind-scene = scene
kind-shape = shape
kind-sheet-or-table = sheet or table
kind-sound-format = sound format
kind-sound = sound
kind-stage = stage
kind-texture = texture
kind-voice = voice
