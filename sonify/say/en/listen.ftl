## plain: questions of the listening check

listen-which-stage = Which stage do you hear?
listen-which-group = Which group comes in?
listen-two-clips = Hear clip a, then clip b. Listen to the beat. What happens to the { $quantity }?
listen-to-part =
    Listen to { $part } (group { $group }). { $control ->
        [pitch] Are the notes high or low?
        [density] Are there many taps or few?
       *[dynamics] Is it loud or soft?
    } What happens to the { $quantity }?
listen-two-clips-of-part =
    Hear clip a, then clip b. Listen to { $part } (group { $group }). { $control ->
        [pitch] Are the notes higher or lower in b?
        [density] Are there more taps or fewer in b?
       *[dynamics] Is it louder or softer in b?
    } What happens to the { $quantity }?
listen-pair = a is { $before }, b is { $after }.
listen-bars = Bars { $first } to { $last }.

# claims: figure, plays
listen-stage-why = Stage { $letter }, { $title }, { $bpm } bpm. You hear: { $parts }.

# claims: figure, quicker or slower
listen-tempo-why = { $before } has { $one } bpm, { $after } { $two } bpm.

# claims: silent, plays
listen-entry-why = Group { $group }, { $part }, comes in at bar { $bar }.
