## plain: what the page says while it works

script-resting-today = { " " }(resting today)
script-this-browser-does-not-allow = This browser does not allow full screen from here: press F11.
script-leave-full-screen = Leave full screen
script-full-screen = Full screen
script-this-browser-cannot = This browser cannot
script-without-an-encrypted-connection-a = Without an encrypted connection a browser cannot
script-keep-the-screen-on-set = { $why } keep the screen on: set the computer to leave its screen on.
script-bar-of = Bar { $bar } of { $piece-bars }
script-count-in-to-bar = Count-in to bar { $bar }
script-the-end = The end
script-ready = Ready
script-well-played = Well played.
script-nothing-more-play-to-the = Nothing more: play to the end.
script-now = Now
script-beat-to-go = beat to go
script-beats-to-go = beats to go
script-group = Group { $group }:{ " " }
script-why = Why: { $reason }
script-gesture = Gesture: { $gesture }
script-count-beats =
    { $n ->
        [one] { $n } beat
       *[other] { $n } beats
    }
script-next-in-in = Next in: { $who }, in { $phrase }
script-start = start, { $loud }
script-start-2 = start
script-group-2 = group { $group },{ " " }
script-in = In { $phrase }: { $who }.
script-playing-now = Playing now
script-playing-in-this-bar = Playing in this bar
script-count-in-everybody-gets-ready = Count-in: everybody gets ready
script-nobody-plays-here = Nobody plays here
script-this-stage = This stage: { $words }
script-at = at { $told }{ $whose }
script-count-in = Count-in
script-bar-of-2 = Bar { $bar } of { $piece-bars }, { $title }
script-press-play-to-listen = Press Play to listen.
script-the-count-in = The count-in.
script-the-recording-is-switched-off = The recording is switched off in Conduct.
script-nobody-plays-here-2 = Nobody plays here.
script-beats-a-minute = { $it } beats a minute: { $words }
script-beats-a-minute-of-full = { $it } beats a minute, { $it-2 } % of full tempo
script-show-the-answer = Show the answer
script-hide-the-answer = Hide the answer
script-the-answer = The answer: { $words }. { $why }
script-this-one = ✓ This one
script-well-heard = ✓ Well heard: this one
script-not-this-one = Not this one: listen once more
script-hands-told =
    { $share ->
        [all] All { $all } hands heard it.
        [most] { $right } of { $all } hands heard it.
       *[few] { $right } of { $all } hands heard it. Play the clip once more, and point to where it can be heard.
    }
script-seek-where = Where is it { $value }? Go along the curve, then press Here.
script-seek-hidden = ?
script-seek-found = Well found: here it is { $here }.
script-seek-further =
    { $way ->
        [higher] Here it is { $here }. Look where the curve stands higher.
       *[lower] Here it is { $here }. Look where the curve stands lower.
    }
script-question-of = Question { $it } of { $items }
script-the-sounds-are-on-their = The sounds are on their way.
script-the-sounds-could-not-be = The sounds could not be fetched. See whether the sonify program still runs, then open this lesson again from Plan.
script-this-browser-cannot-play-sound = This browser cannot play sound from this page. Beat and cues still run: use soundscape.wav for the sound.
script-this-browser-cannot-play-sound-2 = This browser cannot play sound from this page. The particles, the beat’s dots and the readings still run.
script-the-browser-holds-the-sound = The browser holds the sound back. Press Play once more.
script-the-end-of-the-piece = The end of the piece.
script-of-the-heat-given = { $to-lower-case }, { $share } of the heat given, { $temperature }
script-particles-in-a-box = Particles in a box: { $words }. { $what }.
script-count-taps =
    { $n ->
        [one] { $n } tap
       *[other] { $n } taps
    }
script-knocks-now-about-a-second = Knocks now: about { $phrase } a second in all
script-plan-a-lesson-sonify = Plan a lesson: sonify
script-print-and-export-sonify = Print and export: sonify
script-undo-leads-back-to-the = Undo leads back to the scene that you had.
script-preparing-the-sound = Preparing the sound …
script-preparing-the-conductor-s-page = Preparing the conductor’s page …
script-one-step-back = One step back.
script-one-step-forward = One step forward.
script-the-sonify-program-does-not = The sonify program does not answer. See whether its window is still open; if not, start it again with{ " " }
script-sonify-serve-your-plan-is = "sonify serve". Your plan is still here in this tab.
script-the-program-answered = The program answered { $status }.
script-the-science-is-as-the = The science is as the scene has it.
script-not-possible-as-it-is = Not possible as it is: see the message beside the field, or undo.
script-the-program-does-not-answer = The program does not answer: see the message at the top. Your plan is kept.
script-ready-2 = Ready: { $title }, { $length-words }.
script-count-groups =
    { $n ->
        [one] { $n } group
       *[other] { $n } groups
    }
script-for-year-pupils-in = For Year { $year }: { $pupils } pupils in { $phrase }.
script-count-stages =
    { $n ->
        [one] { $n } stage
       *[other] { $n } stages
    }
script-ages-to = ages { $min } to { $max }
script-this-scene-plays-readings-as = This scene plays what was measured, drawn or put in order: there is nothing to set.
script-no-rules = No rule makes these sounds. Each stage sounds as the author of the scene wants it: the words stand in its file, under sound.
script-as-the-scene-has-it = { $label }: as the scene has it.
script-heard = heard
script-hard-to-hear = hard to hear
script-of = { " " }of { $part }
script-to-look-at = To look at: { $serious }
script-nothing-to-mend = Nothing to mend
script-good-to-know = Good to know: { $notes }
script-to = { $key } to { $at }
script-count-bars =
    { $n ->
        [one] { $n } bar
       *[other] { $n } bars
    }
script-min = { $minutes } min{ " " }
script-beats-a-minute-are-now = Beats a minute are now { $beats }.
script-is-now = { $upper }{ $part } is now { $audible }.
script-who-plays-when-has-changed = Who plays when has changed.
script-the-piece-takes = The piece takes { $length-words }.
script-things-to-look-at = Things to look at: { $problems }.
script-the-sound-stays-as-it = The sound stays as it was.
script-the-curve-has-changed-a = The curve has changed a little; the beat stays as it was.
script-the-sheets = The sheets: { $trim }.
script-a-well-filled-cupboard = A well-filled cupboard.
script-the-cupboard-is-empty-the = The cupboard is empty: the class plays with body and voice.
script-type-a-whole-number-from = { $label }: type a whole number from { $min } to { $max }.
script-not-taken-over-from-to = Not taken over: { $to-lower-case } from { $min } to { $max }. The plan is as it was.
script-need-how-many = How many: { $need }
script-need-which = Where
script-need-group = group { $group }
script-need-in = { $n } in group { $group }
script-need-any-group = any group
script-need-now = { $need }: { $said }.
script-yes = yes
script-no = no
script-type-a-whole-number-up = { $name }: type a whole number up to { $max }, or 0 for none.
script-count-instruments =
    { $n ->
        [one] { $n } instrument
       *[other] { $n } instruments
    }
script-count-kinds =
    { $n ->
        [one] { $n } kind
       *[other] { $n } kinds
    }
script-of-2 = { $phrase } of { $phrase-2 }.
script-nothing-in-it-yet-the = Nothing in it yet: the class plays with body and voice. Tick what you have.
script-of-3 = { $phrase } of { $phrase-2 }
script-no-instruments = no instruments
script-year-pupils-in-minutes = Year { $year }, { $pupils } pupils in { $phrase }, { $minutes } minutes, { $cupboard }.
script-reset = Reset
script-type-a-number-for-such = Type a number for { $to-lower-case }, such as { $figure }.
script-the-file-was-not-opened = The file was not opened; the plan is as it was.
script-has-mb-at-most-mb = { $name } has { $it } MB; at most { $e } MB can be opened. Cut it down in a spreadsheet.
script-cannot-be-opened-here-choose = { $name } cannot be opened here. Choose a table (.xlsx, .ods, .csv), or a scene or class that you saved (.toml).
script-has-mb-a-has-1 = { $name } has { $it } MB; a { $kind } has 1 MB at most. Is it the right file?
script-is-open = { $file } is open.
script-now-choose-a-scene = { $lines } Now choose a scene.
script-with-its-readings-in = , with its readings in { $data }
script-the-scene-is-saved-as = The scene is saved as { $name }{ $data }.
script-the-class-is-saved-as = The class is saved as my-class.toml.
script-part = Part
script-in-place-of = { $upper } in place of { $wanted }: { $reason }
script-count-players =
    { $n ->
        [one] { $n } player
       *[other] { $n } players
    }
script-plays-in = plays in { $stage }
script-equal-steps = equal steps
script-equal-ratios = equal ratios
script-equal-decibels = equal steps in decibels
script-low-end = Low end
script-high-end = High end
script-in-between = In between: { $text }.
script-the-key = The key
script-in-this-piece = In this piece
script-stage = Stage
script-why-exaggerate = Why exaggerate?
script-and = { " " }and{ " " }
script-key = Key: { $heads }
script-heard-as = { $upper }, heard as { $control }{ $part }
script-what-is = What is { $control }?
script-the-musician-s-word = The musician’s word: { $control }
script-the-rules-are-as-the = The rules are as the scene has them.
script-as-the-scene-has-it-2 = As the scene has it.
script-what-does-mean = What does “{ $word }” mean?
script-sets-the-tempo = : sets the tempo
script-between-and-through = { $upper }, between { $told } and { $told-2 }, through { $stages }.
script-beats-min = { $bpm } beats/min
script-count-packs =
    { $n ->
        [one] { $n } pack is
       *[other] { $n } packs are
    }
script-waiting-being-made-before-yours = Waiting: { $phrase } being made before yours.
script-waiting-to-begin = Waiting to begin.
script-working = Working: { $doing }.
script-ready-download-everything-or-take = Ready. Download everything, or take single files.
script-cancelled-nothing-was-kept = Cancelled. Nothing was kept.
script-it-could-not-be-made = It could not be made.
script-for-year-pupils-in-2 = { $title }, for Year { $year }: { $pupils } pupils in { $phrase }.
script-the-program-was-started-anew = The program was started anew meanwhile. Make the pack again.
script-nothing-made-yet-it-takes = Nothing made yet. It takes about half a minute.
script-being-made = Being made …
script-make-everything = Make everything
script-count-pages =
    { $n ->
        [one] { $n } page
       *[other] { $n } pages
    }
script-open-to-print-new-tab = Open { $name } to print (new tab)
script-page-of = { $name }, page { $k } of { $pages }. { $words }
script-page-of-2 = Page { $k } of { $pages }
script-play = Play
script-pause = Pause
script-play-clip = Play { $name }
script-stop-clip = Stop { $name }
script-group-state =
    { $state ->
        [alone] alone
        [alone-playing] alone, playing
        [resting] resting
        [silent] silent
        [playing] playing
       *[waiting] waiting
    }
script-rests = rests
script-less = less
script-more = more
script-none = none
script-starting = starting
script-in-between-label = In between
script-the-table-stays-as-it-was = Not possible as it is: the table stays as it was.
script-graph =
    { $kind ->
        [bars] A bar for each: { $up }. Across: { $across }.
        [line] How it went on: { $up }. Across: { $across }.
       *[points] A point for each: { $up }. Across: { $across }.
    }
script-cannot-be-read = { $name } cannot be read. Save it again, and give it once more.
script-spreadsheet-too-large = { $name } is too large a spreadsheet. Save the sheet that you want to hear as CSV, and open that.
script-a-file-of-another-kind =
    { $kind ->
        [sound] { $name } is a sound recording, and no recording can be opened here: Plan opens tables, scenes and classes. To hear something that was measured, open the table of its numbers.
        [film] { $name } is a film. Plan opens tables, scenes and classes.
        [picture] { $name } is a picture. Plan reads numbers, not pictures of them: open the table itself, or copy its cells and paste them here.
        [music] { $name } is music for other programs. Plan opens tables, scenes and classes.
       *[document] { $name } is a document. Copy the table in it and paste it here, or save it as a spreadsheet.
    }
script-drawn = { $name }: drawn.
script-pen-at = { $name }: { $value } { $unit }, { $share } % through { $stage }
script-what-was-refused-is-gone = What was not possible is gone. The plan is as it was.
script-undo = Undo
script-open = Open
script-delete = Delete
script-of-name = { " " }{ $name }
script-my-class = My class
script-a-new-class = a new class
script-the-usual-class = a well-stocked class, as an example
script-kept-at = Kept on this computer, { $when }.
script-is-deleted = “{ $name }” is deleted.
script-is-back = “{ $name }” is back.
script-it-is-called = It is called “{ $name }” now.
script-the-copy-is-open = The copy is open: give it a name and choose its class.
script-everything-is-forgotten = Everything that was kept on this computer is forgotten.
script-cannot-keep = Nothing is kept here beyond this tab: { $why } Everything else works as before; save the scene and the class as files.
script-pack-too-large = { $name } is too large to be opened here. Give the page.html that is in it.
script-scenes-found =
    { $n ->
        [one] { $n } scene of { $all }.
       *[other] { $n } scenes of { $all }.
    }

## plain: a group's own pattern

script-pattern-part = Group { $group }: { $part } ({ $instrument })
script-pattern-of-group = Group { $group }'s own pattern
script-pattern-put = { $part } plays its group's own pattern.
script-pattern-out = { $part } plays what the arranger makes of the rules again.
script-pattern-bar = Bar { $bar }
script-pattern-box = Bar { $bar }, count { $count }: { $what }
script-pattern-sound = a sound { $note }
script-pattern-held = goes on
script-pattern-silent = silent
script-pattern-fits = It is played as it stands, in every bar in which { $part } plays.
script-pattern-none = No pattern yet: { $part } plays what the arranger makes of the rules.
script-pattern-count-in = Count-in: one bar.
script-pattern-ready = Ready: { $beat }
script-pattern-now = Tap: { $beat }
script-pattern-tap = Tap it
script-pattern-stop = Stop
script-pattern-nothing = Nothing was tapped: the boxes are as they were.
script-pattern-tapped =
    { $n ->
        [one] One sound stands in the boxes.
       *[other] { $n } sounds stand in the boxes.
    }
script-pattern-keyboard = Ready: { $name }
script-pattern-no-keyboard = No MIDI keyboard found

## plain: a sound of a group's own

script-sound-of = Group { $group }: { $part }
script-sound-ours = our sound
script-sound-put = { $name } ({ $seconds } s) is for { $part }.
script-sound-not-played = { $part }: { $given } plays in its place, because { $reason }
script-sound-same-name = Another part has a sound called { $name }. Give this one another name.
script-sound-no-microphone = The browser gives no microphone. Allow it for this page, or choose a file.
script-sound-unheard = The browser cannot read this file as a sound. Choose a WAV, FLAC, OGG or MP3 file.
script-sound-record = Record
script-sound-stop = Stop
script-sound-recording = Recording, for at most ten seconds.
script-sound-gone = { $part }: the recording is not here; a stand-in plays
script-sound-sending = Sending …
script-sound-sent = It is with the teacher ({ $seconds } s).
script-sound-from = for { $part }, { $seconds } s
script-sounds-waiting =
    { $n ->
        [one] One sound waits for you.
       *[other] { $n } sounds wait for you.
    }
script-sound-hear = Hear { $name }
script-sound-keep = Keep on this computer
script-sound-delete = Delete the recording of { $name }
script-sound-undelete = Undo: have { $name } back
script-sound-out = Take { $name } out of the piece
script-sound-taken-out = { $part } plays an instrument again.
script-sound-done-keep = It is kept on this computer.
script-sound-done-release = It is here until the program stops, and no longer kept.
script-sound-done-delete = Deleted. Undo has it back for an hour, or until the program stops.
script-sound-done-undelete = It is here again.

## plain: patterns that tablets send

script-offer-empty = Fill a box first.
script-offer-sent = Sent to the teacher.
script-offer-waiting =
    { $n ->
        [one] One pattern waits for you.
       *[other] { $n } patterns wait for you.
    }
script-offer-take = Put { $name } into the piece
script-offer-leave = Leave { $name } out

## plain: a lesson of one's own: its words, parts and rules

script-own-change = Change
script-own-back = As the scene has it
script-own-empty = (nothing yet)
script-own-done = Done
script-own-leave = Leave it as it was
script-own-title = Title
script-own-story = Story
script-own-caption = What pupils read: { $stage }
script-own-why = Why it sounds so: { $stage }
script-own-reads = Reads at about { $age } years of age.
script-own-reads-older = Reads at about { $age } years of age: shorter sentences and words bring it down to nine.
script-own-loose = Nothing here checks this figure: { $figures }.
script-own-not-so = Not so in this piece: { $claim }.
script-own-claims = What these words claim. Each is checked as long as it is ticked.
script-own-changed = { $label }: your own words.
script-own-needed = { $label }: write some words.
script-own-reason = The reason: { $quantity } heard as { $control }
script-part-card = On the card of { $part }
script-part-name = Name of the part
script-part-still = These still say “{ $name }”, as the scene has them: { $texts }.
script-part-sound = Played on
script-part-instrument = { $count ->
    [0] { $name }
   *[other] { $name } ({ $count })
  }
script-part-instrument-not = { $name }: does not suit this part
script-part-take = Ask for { $instrument }
script-part-takes = { $part }: { $instrument } first.
script-part-texture = How it moves
script-part-line = How hard
script-part-line-class = { $line ->
    [easy] as the class: easy
    [core] as the class: core
    [stretch] as the class: stretch
   *[other] as the class
  }
script-part-line-words = { $line ->
    [easy] easy
    [core] core
   *[stretch] stretch
  }
script-part-stages = Plays in
script-part-rests = may rest, and come in late
script-part-one-stage = A part plays in one stage at least. To leave it out, silence it.
script-part-silence = Silence it
script-part-plays = Let it play
script-part-out = Take it out
script-part-split = Divide it in two
script-part-join = Join it to
script-part-join-now = Join
script-part-silent = silent
script-part-nobody = nobody plays it
script-part-trouble = to mend
script-part-mend = What would mend it?
script-part-trying = Trying …
script-part-no-mend = Nothing that was tried mends it. Another instrument in the cupboard or another group may.
script-part-mends =
    { $n ->
        [one] One way that mends it, tried on this piece.
       *[other] { $n } ways that mend it, each tried on this piece.
    }
script-part-changed = Changed: { $part }.
script-part-new = Our part
script-part-added = Added: { $part }.
script-part-is-silent = Silent now, and still in the scene: { $part }.
script-part-is-out = Taken out: { $part }.
script-part-plays-again = Playing again: { $part }.
script-part-divided = Divided: { $part }, with { $other } beside it.
script-part-joined = Joined to { $other }: { $part }.
script-part-last = One part has to play.
script-axis = Hear the rule: { $name }
script-axis-all = Hear it from low to high
script-axis-both = Hear the scene's, then yours
script-axis-plays = From low to high.
script-rule-made = What is heard as what
script-rule-quantity = This quantity
script-rule-control = is heard as
script-rule-part = in
script-rule-all = the whole piece
script-rule-turn = Turn it round
script-rule-turned = The least is { $low } now, and the most { $high }.
script-rule-out = Take this rule out
script-rule-is-out = { $quantity } is no longer heard as { $control }.
script-rule-gone = Taken out: { $quantity } heard as { $control }.
script-rule-back = Put it back
script-rule-now = { $quantity } is heard as { $control } in { $whom }.
script-rule-reason =
    The greater the { $quantity }, the { $control ->
        [tempo] { $way ->
            [down] slower the beat
           *[up] quicker the beat
        }
        [pitch] { $way ->
            [down] lower our notes
           *[up] higher our notes
        }
        [density] { $way ->
            [down] fewer taps we play
           *[up] more taps we play
        }
        [dynamics] { $way ->
            [down] softer we play
           *[up] louder we play
        }
       *[brightness] { $way ->
            [down] softer and darker our sound
           *[up] harder and clearer our sound
        }
    }.
script-compare-a = A: { $title }, { $length }. B is the plan as it stands now.
script-compare-same = A is kept. B is the same so far: change something.
script-compare-kept = Kept as A. What you change now is B.
script-compare-back = The plan is A again.
script-compare-dropped = A is let go.
script-compare-bar = { $which }: bar { $bar }
script-compare-preparing = Preparing the sound of { $which } …
script-compare-legend = A
script-compare-legend-b = B, as it is now
script-compare-written = as the scene has it
script-compare-yours = with your changes
script-do-that = Do that
script-mended = The rule has the ends that were offered.

script-seat-group = Group { $group }
script-seat-plays-label = Group { $group } plays
script-seat-and = Group { $group } plays as well
script-seat-other = Group { $group }: { $parts }
script-seat-places = Changes places with
script-seat-give = Give { $part } to
script-seat-drag = Drag it onto another group: they change places.
script-seat-plays = Group { $group } plays { $part }.
script-seat-exchange = Group { $group } plays { $part }, group { $other } { $left }.
script-seat-turned = Groups { $group } and { $other } change places.
script-seat-dealt = Who plays what is left to the program.
