# claims: figure, greatest
cooling-level =
    Both start at { $start } and { $way ->
        [cools] cool
       *[warms] warm
    } fastest now, when they differ most from the room, { $room }: cup A by { $a } and cup B by { $b } a minute on average. The cups themselves take the first share of it.

# claims: figure
cooling-level-plain =
    Both start at { $start } and { $way ->
        [cools] cool
       *[warms] warm
    } towards the room, { $room }: cup A by { $a } and cup B by { $b } a minute on average.

# claims: figure, rises
cooling-apart = The wrapping tells: the gap grows from { $from } to { $to }; in the end cup A is at { $a }, cup B at { $b }.

# claims: figure, less, falls
cooling-closing =
    Cup { $front } has little left to { $way ->
        [cools] lose
       *[warms] gain
    } and slows down, so cup { $other } catches up: cup A is at { $a }, cup B at { $b }.

# claims: figure
cooling-halving = From then on cup { $cup } takes { $lasts } to come half of its way to the room.

# claims: figure, falls
cooling-home = Both come slowly to the room's { $room }, whatever they are wrapped in: after { $after } cup A is at { $a }, cup B at { $b }.

# claims: figure
cooling-half-way = Cup { $cup } is half way to the room: { $temperature }.

# claims: figure
cooling-never-apart = the cups are never more than { $widest } apart, too little for two thermometers to show

# no claim: why a stage is not there; that it is not there is checked where stages are found
cooling-too-short = the race is watched too short a time for it

# no claim: why a stage is not there; that it is not there is checked where stages are found
cooling-too-soon = it is over before the second reading
