## plain: what the process is about, its quantities, its stages and its conditions

experiment-title = Our own experiment
experiment-summary = What was changed step by step, and what was measured at each step: the piece walks along what was changed.
experiment-quantity = what was measured: { $quantity }
experiment-quantity-of-group = { $quantity }, of the group { $group }
experiment-quantity-spread = how far the tries of { $quantity } lay apart: the greatest less the smallest
experiment-quantity-changed = what was changed: { $changed }
experiment-seen-step = one value of { $changed }
experiment-seen-stretch = a stretch in which the { $quantity } { RISES($quantity) }, { FALLS($quantity) } or { STAYS($quantity) }: it begins and ends with a reading
experiment-condition-level = share of the whole range: a stretch that rises or falls by less counts as staying
experiment-condition-stretches = how many stretches are looked for, at most
experiment-before = before

# claims: figure
experiment-place =
    { $put ->
        [with] with { $at }
       *[at] at { $at }
    }

# claims: figure
experiment-stage = { $changed } { $at }

# claims: figure
experiment-stage-things = { $at } { $things }

# claims: figure
experiment-span = { $start } to { $end }

# plain: how repeats are heard
experiment-condition-repeats = how repeats of one step are heard: their mean, or one by one, so that pupils hear how sure we are

# claims: figure
experiment-tries =
    { $of ->
        [group] The tries of { $group }
       *[all] Our tries
    }, one by one: { $tries }.

# claims: more
experiment-greatest = Greatest { $quantity } here: { $group }.

# claims: figure
experiment-step =
    { $put ->
        [with] With { $at } { $changed }
        [number] When the number of { $changed } was { $at }
       *[when] When the { $changed } was { $at }
    }, { $found }.

# no claim: the readings it holds carry their own
experiment-step-named = { $step }, { $found }.

# claims: figure
experiment-found =
    { $kind ->
        [counted] we counted { $value } { $quantity }
        [number] the number of { $quantity } was { $value }
       *[measured] the { $quantity } { WAS($quantity) } { $value }
    }{ $many ->
        [yes] {" "}on average (tries: { $tries })
       *[no] {""}
    }

# no claim: the readings it holds carry their own
experiment-kind = { $kind }, { $quantity }: { $each }.

# no claim: the readings it holds carry their own
experiment-found-groups = the { $quantity } { WAS($quantity) }: { $each }

# claims: figure
experiment-of-group =
    { $numbered ->
        [yes] { $value } ({ $group })
       *[no] { $group } { $value }
    }

# no claim: an empty cell of the table
experiment-of-group-unread = { $group } (nothing was read)

# no claim: an empty cell of the table
experiment-found-unread = the { $quantity } { WAS($quantity) } not read

# claims: more
experiment-more-than =
    That is more than { $place }.

# claims: less
experiment-less-than =
    That is { $kind ->
        [counted] fewer
       *[measured] less
    } than { $place }.

# claims: same
experiment-as-much = That is the same as { $place }.

# claims: figure, at most
experiment-doubt = But the tries { $place } lie { $spread } apart themselves, so we cannot be sure which is more.

# claims: never falls
experiment-overall-up =
    All in all: { $things ->
        [yes] the more { $changed }
       *[no] the greater the { $changed }
    }, { $kind ->
        [counted] the more { $quantity }
       *[measured] the greater the { $quantity }
    }{ $strict ->
        [yes] {""}
       *[no] , or just as { $kind ->
            [counted] many
           *[measured] great
        }
    }{ $groups ->
        [many] {" "}(so it was in every group)
       *[one] {""}
    }.

# claims: never rises
experiment-overall-down =
    All in all: { $things ->
        [yes] the more { $changed }
       *[no] the greater the { $changed }
    }, { $kind ->
        [counted] the fewer { $quantity }
       *[measured] the smaller the { $quantity }
    }{ $strict ->
        [yes] {""}
       *[no] , or just as { $kind ->
            [counted] few
           *[measured] small
        }
    }{ $groups ->
        [many] {" "}(so it was in every group)
       *[one] {""}
    }.

# claims: more
experiment-rose-most = The { $quantity } rose most of all here: { $group }.

# claims: figure, same
experiment-least =
    The { $kind ->
        [counted] fewest
       *[measured] smallest
    } { $quantity }: { $value }, { $place }.

# claims: figure, same
experiment-most =
    The { $kind ->
        [counted] most
       *[measured] greatest
    } { $quantity }: { $value }, { $place }.

# claims: figure, rises
experiment-walk-rises = From { $start } to { $end }, the { $quantity } { RISES($quantity) } from { $from } to { $to }.

# claims: figure, falls
experiment-walk-falls = From { $start } to { $end }, the { $quantity } { FALLS($quantity) } from { $from } to { $to }.

# claims: figure
experiment-walk-stays = From { $start } to { $end }, the { $quantity } { STAYS($quantity) } at { $value }.

# claims: figure
experiment-walk-between = From { $start } to { $end }, the { $quantity } { GOES($quantity) } from { $from } to { $to }, and { LIES($quantity) } between { $least } and { $most }.

# claims: figure
experiment-walk-returns = From { $start } to { $end }, the { $quantity } { IS($quantity) } { $value } at both ends, and { LIES($quantity) } between { $least } and { $most }.

# claims: figure
experiment-walk-groups = From { $start } to { $end }, the { $quantity } { GOES($quantity) }: { $each }.

# claims: figure
experiment-group-goes = { $group } from { $from } to { $to }

# claims: figure
experiment-group-stays = { $group } stays at { $value }

# no claim: an empty cell of the table
experiment-group-unread-end = { $group } (one end of it was not read)

# claims: more
experiment-ends = At the end of it, greatest { $quantity }: { $most }; smallest: { $least }.

# claims: figure, rises
experiment-time-rises = { $when }, the { $quantity } { RISES($quantity) } from { $from } to { $to }.

# claims: figure, falls
experiment-time-falls = { $when }, the { $quantity } { FALLS($quantity) } from { $from } to { $to }.

# claims: figure
experiment-time-stays = { $when }, the { $quantity } { STAYS($quantity) } at { $value }.

# claims: figure
experiment-time-returns = { $when }, the { $quantity } { IS($quantity) } { $value } at both ends, and { LIES($quantity) } between { $least } and { $most }.

# claims: figure
experiment-time-between = { $when }, the { $quantity } { GOES($quantity) } from { $from } to { $to }, and { LIES($quantity) } between { $least } and { $most }.

# no claim: the times and the readings that it holds carry their own
experiment-time-groups = { $when }, the { $quantity } { GOES($quantity) }: { $each }.

# claims: figure
experiment-title-between = Between { $least } and { $most }

# claims: figure
experiment-title-at = Level at { $value }

# claims: figure
experiment-title-times = { $start } to { $end }

# plain: two times as the table has them
experiment-title-times-written = { $start } to { $end }

# claims: figure
experiment-title-until = Up to { $end }

# claims: figure
experiment-from-to = From { $start } to { $end }

# plain: two times as the table has them
experiment-from-to-written = From { $start } to { $end }

## no claim: what the readings are and what was done to them

experiment-honesty-own = The results are those of the table, and no formula makes them. They tell of what was tested, in the way it was tested. Why they come out so is for the class to explain.
experiment-honesty-walk = The piece walks along what was changed, { $changed }, and not along time. How long a step sounds says nothing about how long anything took.
experiment-honesty-held = Every step has its own bars, and in them every sound stays with what was found there. Nothing is played between two steps, because nobody tested there.
experiment-honesty-listed = The piece goes through what was changed, { $changed }, in the order of the table. That order is the table's own, and nothing lies between one and the next.
experiment-honesty-unread = Where nothing was read, the sound of that group rests, and science.csv repeats the nearest reading. So it is with: { $quantities }.
experiment-honesty-between = Between two steps a straight line is played, though nobody tested there.
experiment-honesty-fair = A test is fair where only one thing was changed ({ $changed }) and everything else stayed the same; whether it did, only those who tested know.
experiment-honesty-fair-between = Before and after can be compared fairly where one thing alone happened in between and everything else stayed the same; whether it did, only those who tested know.
experiment-kept = The table says that this was kept the same: { $kept }.
experiment-honesty-groups = Compared are: { $groups }. One rule serves them all, so the same value is the same sound in every one.
experiment-honesty-repeats = Where something was tried more than once, the mean of the tries is printed. It is played as well, unless the scene lets the tries be heard one by one. How far the tries lay apart is a quantity of its own, the spread, and a scene may let it be heard.
experiment-honesty-cut = Every stretch begins and ends with a reading, and every figure that is told of what happens in it is a reading or a mean of repeats. Beside a sound, on cards and in the key, stands the average over the stretch instead. Where the readings rise, fall or stay is found by a rule; another rule finds other stretches.

## plain: advice on a table before it is played, and what to do

experiment-two-values = Two values of { $changed } have no shape: anything may lie between them, and beyond them.
experiment-measure-more = Measure at three more values at least, one of them in between; or tell the two apart as before and after.
experiment-chord = { $n } values make a chord rather than a tune: they are over before a pattern is heard.
experiment-play-together = Play them one after another, then all at once as a chord, and ask which note is which. Or measure at more steps in between.
experiment-too-many = { $n } sounds side by side are more than a class can tell apart by ear.
experiment-too-many-lost = { $n } groups are more than can be played: { $most } have a sound, and the others are only in the table.
experiment-join-or-choose = Join those that are alike, or keep up to { $most } that you want to compare, and let the others be read off a bar chart.
