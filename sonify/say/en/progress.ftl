## plain: what is being done just now, while somebody waits
progress-turn = waiting for its turn
progress-starting = starting
progress-stopped = stopped
progress-done = done
progress-science = computing the science
progress-particles = The particles are being simulated: this takes some seconds the first time, and none the next.
progress-recording = recording
progress-engraving = engraving the score
progress-typesetting = typesetting the sheets
progress-page = drawing the page
progress-zip = putting the pack into one file
