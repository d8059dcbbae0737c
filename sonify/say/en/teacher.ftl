## plain: headings of the teacher's file

teacher-title = For the teacher
teacher-story = The story
teacher-plan = The lesson in minutes
teacher-cautions = Cautions
teacher-before = Before the lesson
teacher-sitting = Where to sit
teacher-adapt = How to adapt it
teacher-science = The science in short
teacher-plots = How each quantity changes
teacher-honesty = What the model leaves out
teacher-key-own = How each stage is meant to sound
teacher-honesty-own = What this lesson rests on
teacher-beliefs = What pupils may think
teacher-key = How science becomes sound
teacher-problems = Problems to mend before the lesson
teacher-notes = What the checks noted
teacher-questions = Questions to ask
teacher-answers = Answers to the pupils' sheets
teacher-grid = What to look and listen for
teacher-curriculum = Where it fits in the curriculum
teacher-thresholds = How small a difference can be heard
teacher-credits = Credits and sources

## plain: heads of tables and labels

teacher-minutes = Minutes
teacher-step = Step
teacher-happens = What happens
teacher-in-all = in all
teacher-group = Group
teacher-part = Part
teacher-its-card = Its card in pupils.pdf
teacher-instruments = Instruments and players
teacher-cupboard = From the cupboard:
teacher-swapped = Swapped:
teacher-stays = Stays in the cupboard:
teacher-class-needs = This class needs:
teacher-you = You
teacher-for = For
teacher-kept = Place, part and cue (for your eyes alone)
teacher-helps = What helps
teacher-when = When
teacher-in-the-music = In the music
teacher-missing = Stages that do not come:
teacher-they-think = They may think
teacher-in-truth = In truth
teacher-ask = Ask
teacher-listen-for = Listen for
teacher-of-science = Science
teacher-sound = Sound
teacher-on-average = In this piece, on average
teacher-why = Why:
teacher-arranged = Arranged for your class:
teacher-exaggerates = How much it exaggerates:
teacher-slope = Slope of logarithms, for those who want to compare rules:
teacher-audible = Can it be heard?
teacher-yes = Yes.
teacher-not-clearly = Not clearly.
teacher-held-label = Held:
teacher-order = Order of the stages:
teacher-order-alike = { $stages } are alike: any of them may come first.
teacher-order-by-size = In order of the { $quantity }, least first:
teacher-words = Words:
teacher-check = Listening check.
teacher-play = Play
teacher-answer = Answer, and why
teacher-aim = Aim
teacher-asked = We ask for
teacher-published = Published
teacher-from = From
teacher-not-played = not played

## plain: what the teacher is told to do

teacher-print-cues = Print the cue sheet (conductor.pdf, from page 2) and put it where you stand. Open page.html in front of the projector.
teacher-play-bars = Play the bars from page.html, Hear, or the times from soundscape.wav.
teacher-see-thresholds = How small a difference can be heard, and who says so, stands before the sources.
teacher-employer = Your employer's risk assessment and the school's own rules come first, before anything printed here; in the UK use the primary-science safety advice your employer subscribes to.
teacher-naming = Pupils' sheets name a note by the letter on its bar, with a mark for the higher of two: C, then C′. The tables here give its octave: C4 is middle C; each instrument plays it in the octave that it has.

## plain: this class and this piece

teacher-facts = Year { $year }, { $pupils } in { $groups }, { $minutes }. The piece: { $bars } bars of { $metre }, { $length } long with its count-in, in { $scale }. Scaffold: { $scaffold }.
teacher-checked = Checked against the 2013 programmes of study for England, which are under review; wording is ours.
teacher-enrichment = Particles: in England the particle model belongs to key stage 3 (ages 11 to 14). Where this lesson speaks of particles or molecules it goes beyond the key stage: offer it as enrichment, and assess the rest without it.
teacher-year = Year { $year }
teacher-other-year =
    This class is Year { $mine }; the science here stands in the programme of study for { $years }: { $way ->
        [later] come back to it, and ask for reasons and evidence more than for the words.
        [earlier] tell the story and play it, and leave the assessment of the science for later.
       *[among] assess what your class has had, and take the rest as a story.
    }
teacher-credit-own = Scene: “{ $title }” ({ $file }), its author's own work. Score, sounds and sheets are made by sonify; no recording is used.
teacher-credit-scene = Scene: “{ $title }” ({ $file }). Score, sounds, drawings and sheets are made by sonify from its formulae; no recording is used.
teacher-credit-font = Letters: Andika, © SIL International, under the SIL Open Font License 1.1.
teacher-swap-reason = { $reason }
teacher-finding = { $message } { $fix }
teacher-source = { $source } ({ $status })
teacher-measure = { $control } ({ $measure })

## phrase: what was found about the science

teacher-never-comes = { $stage } does not come: { $reason }. { $fix }
teacher-event = { $text }

# no claim: the process's own account of what it keeps; its tests hold it
teacher-conserved = { $what }: nothing lost or made up. Largest drift { $drift } of what moved.

# claims: figure, more
teacher-uneven = Time does not run evenly in the music: { $quick } puts { $much } into each bar, { $slow } { $little }.

## no claim: what the scene's rules say, and whether one is for the beat

teacher-one-beat = The beat is the same throughout: no rule of this scene changes it.
teacher-beat-follows = The beat follows the { $quantity }, and nothing else.
teacher-beat-follows-of = The beat follows the { $quantity } of { $owner }, and nothing else.
teacher-held = On { $beats } the quantity lay outside this range and the nearer end was held.

# claims: figure, busier, slower
teacher-busiest =
    { $busy } is the busiest stage, with { $strokes } sounds a bar at { $bpm } bpm; { $quick } is the quickest, at { $top } bpm with { $fewer }{ $pulse ->
        [yes] { " " }(the pulse of waiting groups is not counted)
       *[no] { "" }
    }. A slow beat does not mean that little is happening.

## plain: heads of a rule

teacher-heard-as = { $quantity } is heard as { $control }
teacher-in-part = in { $part }
teacher-in-piece = in the whole piece
teacher-of-rule =
    ({ $who }{ $whose ->
        [none] { "" }
       *[some] ; { $owner }
    }, { $curve })
teacher-spans = { $part }, { $span } on its bars.
teacher-marks-span = { $first } to { $last }
teacher-pupils-choose = the pupils choose

## plain: answers to the sheets

teacher-order-of = { $stages }.
teacher-order-round = { $stages }, and back to { $first }.
teacher-word-number = { $number } { $word }
teacher-clip = { $bars } ({ $start } to { $end })
teacher-clip-of = clip { $letter }: { $clip }
teacher-clip-alone = { $clips }, { $part } alone
teacher-answer-of = { $letter }) { $words }
