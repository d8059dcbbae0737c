## plain: labels, buttons and instructions of the page

conduct-conduct-the-class = Conduct the class
conduct-beat = Beat
conduct-bar-1-of = Bar 1 of { $bars }
conduct-true = true
conduct-ready = Ready
conduct-next = Next
conduct-playing-now = Playing now
conduct-controls = Controls
conduct-play = Play
conduct-start-again = Start again
conduct-stage-before = Stage before
conduct-next-stage = Next stage
conduct-repeat-stage = Repeat stage
conduct-rehearsal-tempo = Rehearsal tempo
conduct-recording = Recording
conduct-click = Click
conduct-full-screen = Full screen
conduct-hear = Hear
