## plain: labels, buttons and instructions of the page

page-views = Views
page-plan = Plan
page-hear = Hear
page-particles = Particles
page-listening-check = Listening check
page-conduct = Conduct
page-print = Print
page-this-page-needs-javascript-to = This page needs JavaScript to play, and it is switched off here. Switch it on for this file, or use the cue sheet in conductor.pdf and the recording soundscape.wav from the same folder.
page-too-big = page.html would take { $size } MB; it may take { $limit } MB. Make the piece shorter.
