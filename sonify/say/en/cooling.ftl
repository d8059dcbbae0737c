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

## plain: what the process is about, its stages, conditions and quantities

cooling-title = Two cups cooling
cooling-summary = Two cups of the same drink, one wrapped better, race towards the temperature of the room.
cooling-stage-level = Neck and neck
cooling-stage-apart = Drawing apart
cooling-stage-closing = Catching up
cooling-stage-home = Home to the room
cooling-seen-level = the gap between the cups is less than half of what it becomes at its widest
cooling-seen-apart = the gap is past half and still growing
cooling-seen-closing = the gap shrinks, down to half of its widest
cooling-seen-home = the gap has shrunk to less than half of its widest

cooling-condition-drink = mass of drink in each cup
cooling-condition-start_temperature = temperature of the drink as it is poured
cooling-condition-room_temperature = temperature of room and cups
cooling-condition-wrap_a = thickness of the wrapping of cup A; 0 for none
cooling-condition-wrap_a_conductivity = how well the wrapping of cup A conducts heat
cooling-condition-wrap_b = thickness of the wrapping of cup B; 0 for none
cooling-condition-wrap_b_conductivity = how well the wrapping of cup B conducts heat
cooling-condition-cup_heat = heat that each cup takes for each degree
cooling-condition-contact = heat that passes from drink to cup for each degree
cooling-condition-wall_area = area of each cup's wall and floor
cooling-condition-top_loss = heat that leaves each drink through its top for each degree
cooling-condition-air_film = heat that air and room take from a square metre
cooling-condition-duration = how long the cups are watched

cooling-cup-temperature = how warm the drink in cup { $cup } is
cooling-cup-molecules = mean speed of the drink's molecules at that temperature, by kinetic theory
cooling-cup-warmth = what is left of the difference from the room that it started with
cooling-cup-wall = how warm the cup itself is
cooling-cup-loss = heat a second that the room takes; negative where it gives
cooling-cup-heat = heat that the room has taken since the start
cooling-cup-newton = what Newton's law alone would have, from the same start at the rate of the late hours
cooling-quantity-pace-of-the-race = how fast the two drinks' temperatures change, on average
cooling-quantity-gap = difference in temperature between the two drinks, in degrees

## no claim: what the model is and leaves out

cooling-honesty-1 = Newton's law of cooling, that something loses heat in proportion to how much warmer than the room it is, is a good rule and not an exact one. 222 readings of a real mug miss the best single exponential by 1.5 °C on average and by 9 °C at the start (mosaicData, CoolingWater); with two exponentials they fit to 0.2 °C.
cooling-honesty-2 = Here, too, each cup needs two: the drink first warms its cup, and only then do both go down together. What one exponential alone would have is among the quantities, for comparison.
cooling-honesty-3 = A hot drink without a lid loses much of its heat by evaporation, which grows faster than Newton's law has it. The lids are on in this race.
cooling-honesty-4 = The wrapping is reckoned as if it were flat and dry, with a film of still air outside. Wet wool, gaps and draughts make it worse; the figures for materials are round ones.
cooling-honesty-5 = Wrapping does not make anything warm. It slows heat down, both ways: the same sleeve keeps a cold drink cold.
cooling-honesty-6 = Nothing called cold comes in. Heat goes out, until cup and room are equally warm.
cooling-honesty-7 = Both cups end at the temperature of the room. A wrapping only decides when.
cooling-honesty-8 = Molecule speeds are those of kinetic theory; the particle picture is enrichment at this age in England.
