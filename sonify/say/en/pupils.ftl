## plain: headings of the pupils' sheets

pupils-order = Put it in order
pupils-circle = Close the circle
pupils-chart = From start to end
pupils-chart-by-size = From least to most
pupils-words = Words to know
pupils-words-help = Words to know (with help)
pupils-sound = Our sound, and why
pupils-sound-more = Think on
pupils-ticket = Ticket
pupils-listening = What do you hear?

## plain: instructions that every pupils' sheet says, whatever its scene

pupils-cut = Cut out the boxes along the lines. Put them in the right order. What comes first? What comes next?
pupils-cut-by-size = Cut out the boxes along the lines. Put them in order of the { $quantity }. Which has the least? Which has the most?
pupils-ring = Write one stage in each box. Follow the arrows. Where does the last arrow go?
pupils-line = Write one stage in each box. Follow the arrows.
pupils-line-by-size = Write one name in each box. Begin with the least { $quantity }.
pupils-picture = Draw it here.
pupils-write-words = Write the right word on each line.
pupils-match = Draw a line from each word to what it means.
pupils-figures = These numbers come from the science of our piece.
pupils-figures-drawn = These numbers come from the drawing behind our piece.
pupils-clips = Listen to each clip. Tick one box.
pupils-curve = The grey part is the stage. The line in it shows this:
pupils-bold = Bold notes must be there. Pale notes are extra. A line shows how long a note lasts.
pupils-higher = A mark like C′ means the higher note.
pupils-taps = A dot is a tap. Each row is one player. Do not count the dots. Play few or many, as you see.
pupils-draw = Draw your own taps here. Draw a dot for each tap.

## plain: labels of clips and questions

pupils-clip = Clip { $number }: { $question }
pupils-about = The grey part is the stage. The line in it shows this: { $quantity }.
pupils-numbered = { $number }. { $words }

## plain: pictures in words

pupils-ring-of = A ring of { $n } boxes to fill in, joined by arrows that lead back to the first.
pupils-column-of = A column of { $n } boxes to fill in, joined by arrows.
pupils-boxes-of = A column of { $n } boxes to fill in.
pupils-picture-for = A picture for: { $words }
