## plain: what a file of a ready pack is, for somebody who downloads it

download-conductor-pdf = For you: seating plan, cue sheet, map and score
download-pupils-pdf = For the class: a card for each group, the flow chart and the word list
download-teacher-pdf = Notes for you: the science, its sources, what pupils often believe, questions and answers
download-poster-pdf = For the wall: what is played as what
download-page-html = The classroom page: opens from a memory stick, with no network
download-soundscape-wav = The recording
download-soundscape-mid = The piece for any music program
download-score-musicxml = The score for any notation program
download-science-csv = The computed numbers, for a spreadsheet
download-score-json = Every note, for programs
download-pack-json = How this pack was made
download-soundscape-with-click-wav = The recording with a click on every beat
download-one-part = One part alone, as a recording
download-one-group = One group alone, for any music program
download-other-format = The recording in another format
download-minus = The recording without one group, to play against
