## plain: tables of the command line

cli-scene-line = { $name }  { $title } (ages { $youngest } to { $oldest }; { $process })
cli-instruments = Instruments
cli-instrument = instrument
cli-name-in-files = name in files
cli-family = family
cli-notes = notes
cli-none = -
cli-as = as
cli-from = from
cli-rank-by-stage = rank by stage
cli-by-bar = by bar
cli-off-by = off by
cli-told-from-it = What can be told from it
cli-name = { $name }
cli-span = { $low } to { $high }
cli-backgrounds = Backgrounds: { $kinds }
cli-numbered = { $number } { $kind }
cli-science = The science
cli-quantity = quantity
cli-unit = unit
cli-least = least
cli-most = most
cli-start = start
cli-end = end
cli-stages-told = The stages, as the model found them
cli-stages-own = The stages, as the scene has them
cli-stage = stage
cli-bars = bars
cli-written = written
cli-yours = yours
cli-beats = beats a minute
cli-what-happens = what happens
cli-tempo = { $bpm } ({ $words })
cli-stages-in-short = Stages: { $stages }.
cli-stage-in-short = { $letter } { $title } ({ $bpm } a minute)
cli-key = What you hear, and why
cli-rule =
    - { $quantity } as { $control }{ $whom ->
        [part] { " " }of { $part }
       *[all] { "" }
    }: { $low } to { $high } is { $to_low } to { $to_high }
cli-arrangement = The arrangement ({ $scale })
cli-group = group
cli-part = part
cli-plays = plays
cli-how = how
cli-pupils = pupils
cli-played = { $notes }, { $low } to { $high }
cli-length = { $bars } bars of { $metre } after a { $count_in }-bar count-in, { $length }
cli-try-change = Try it, then save it with the scene: { $settings }
cli-no-problems = No problems found.
cli-to-mend = To mend
cli-if-you-wish = If you wish
cli-good-to-know = Good to know
cli-finding = - { $place }: { $words }
cli-finding-bare = - { $words }
cli-more-findings =
    { $n ->
        [one] and one more: add --all
       *[other] and { $n } more: add --all
    }
cli-things-to-mend =
    { $n ->
        [one] One thing to mend: sonify check { $scene }
       *[other] { $n } things to mend: sonify check { $scene }
    }
cli-show-all = Everything: sonify show { $scene } --all
cli-with = With { $condition } = { $after } (the scene file has { $before }):
cli-with-new = With { $condition } = { $after }:
cli-as-written = as written
cli-now = now
cli-change = change
cli-same =
    { $same } of { $all } figures stay the same within half a per cent.
cli-now-comes = { $stage }: now comes
cli-never-comes-now = { $stage }: never comes now
cli-begins-later = { $stage }: begins { $shift } later
cli-begins-earlier = { $stage }: begins { $shift } earlier
cli-understood = Understood
cli-noticed = Noticed
cli-line = - { $words }
cli-wrote-scene = Wrote { $path }. Look at it with: sonify show { $path }
cli-measure-again = Guessed wrongly? Delete { $path }, and type the command again with the option that is named above.
cli-then-make = Then make the lesson pack: sonify make { $path }
cli-pack-is-in = The lesson pack is in { $folder }
cli-pack-file = { "  " }{ $file }  { $what }
cli-count-in = count-in { $beat }
cli-bar-beat = bar { $bar } beat { $beat }
cli-a-minute = { $bpm } a minute
cli-the-end = the end
cli-starting = starting
cli-no-sound = There is no way to play sound here. The recording is in { $wav }: open it in any player.
cli-wrote-sounds = Wrote { $file }: { $instruments } instruments, then { $backgrounds } backgrounds, a marker at each.
cli-wrote-new = Wrote { $path }. Change it in any text editor, then: sonify make { $path }
cli-other-processes =
    It holds a day of the water cycle. For another science: sonify new NAME --process PROCESS, with one of { $processes }.
cli-wrote-table = Wrote { $table }, the invented readings that it plays. Replace them by your own.
cli-stopped = sonify: stopped; nothing was written

# no claim: the drift is measured where the process runs, and `show --json` has it
cli-conserved = { $name }: constant to { $drift } of what moved

## no claim: the stage that is missing carries its own reason

cli-missing = No { $stage }: { $reason }. { $fix }
