## plain: headings of the conductor's sheets

map-cues = Cue sheet
map-score = Score
map-graphic = Graphic score
map-how-to-show = How to show it
map-time = Time
map-bar = Bar
map-what = What you do
map-who = Who, how, and why

## plain: how to read the map and the cue sheet

map-legend = Height of a band: how loud. Black triangle: cue that group. Dotted line: cue everybody.
map-bold-and-grey = Bold: what nobody can do without. Grey: louder and softer, when you are at ease.
map-finer-left-out = Louder and softer stand in the score: here only what nobody can do without.
map-facts = { $metre } time. { $bars } bars, counted from 1 after the count-in. Times run from the start of the recording, count-in included; the end is at { $length }.

## plain: a moment of the piece

map-stage-head = { $where }, { $bpm }, { $pace }
map-stage-time = { $caption } ({ $squeezed })
map-gesture = { $action }:

## plain: pictures in words

map-page-of = { $title }, page { $number } of { $pages }. { $told }
map-elsewhere = What it shows is on the map and the cue sheet in words.
map-alt = Map of { $bars } bars. Stages: { $stages }. { $parts }
map-part = Group { $group }, { $part }: { $bars }.
