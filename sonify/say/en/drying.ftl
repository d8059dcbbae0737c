## no claim: what the process is, in a line

drying-title = A puddle dries
drying-summary = A puddle on the playground goes into the air, faster in sun, wind and dry air.

## plain: what a scene may set

drying-condition-depth = depth of the puddle in the middle, right after the rain
drying-condition-width = how wide the puddle is from edge to edge
drying-condition-water_temperature = temperature of the puddle right after the rain
drying-condition-air_temperature = temperature of the air
drying-condition-humidity = vapour in the air, as a share of the most that there can be at its temperature
drying-condition-wind = wind two metres above the ground
drying-condition-sunlight = sunlight on the ground; 0 in the shade

## plain: what is computed

drying-quantity-puddle-temperature = how warm water and wet tarmac are; once dry, as they were last
drying-quantity-mean-molecule-speed = mean speed of the puddle's molecules at that temperature, by kinetic theory
drying-quantity-water-left = water in the puddle; a kilogram is a litre
drying-quantity-water-in-the-air = water that has left the puddle as vapour; below nothing while more has come as dew
drying-quantity-puddle-area = ground that the water covers
drying-quantity-puddle-depth = depth of the water at its deepest
drying-quantity-evaporation-rate = water that leaves each wet spot; negative where dew falls
drying-quantity-water-leaving = water that leaves the whole puddle, minute by minute; negative where dew falls
drying-quantity-pull-of-the-air = vapour pressure at the wet surface less that of the air
drying-quantity-heat-from-the-sun = sunlight that the puddle has taken in since the start
drying-quantity-heat-spent-on-evaporation = heat that it took to turn the water into vapour

## no claim: what a stage is called; where it comes it is so

drying-stage-warming = The puddle warms
drying-stage-drying = The edge creeps in
drying-stage-patches = The last of it
drying-stage-dry = Dry

## plain: how the stages are found

drying-seen-warming = the evaporation from each wet spot is still below nine tenths of its fastest
drying-seen-drying = evaporation is nearly as fast as it gets, and more than a quarter of the water is left
drying-seen-patches = less than a quarter of the water is left
drying-seen-dry = no water is left

## no claim: what the model leaves out, and general laws

drying-honesty-1 = The weather stands still: one sun, one wind, one temperature until the ground is dry. A real playground has clouds, shade that wanders, evening and night.
drying-honesty-2 = Water evaporates at any temperature; nothing boils here. Warm water, dry air and wind make it faster.
drying-honesty-3 = It goes the other way, too: where the air is damp and the puddle cold, vapour condenses into it as dew. Then the sheets say so.
drying-honesty-4 = The wind formula was made for ponds and whole days (after Dunne, in Ponce 1989). Small puddles dry somewhat faster, because dry air comes in from all sides. Its still-air part keeps some drying going without wind.
drying-honesty-5 = The hollow is round and shaped like the bowl of a spoon, and nothing seeps into the ground or runs off. On grass or gravel most of a puddle would soak away.
drying-honesty-6 = Water and the top three centimetres of tarmac are taken to be equally warm; how much heat that layer holds, how much sun is reflected and half a sky of cloud are round figures of ours.
drying-honesty-7 = Evaporating takes heat. In the shade a puddle in dry air is colder than the air, as a wet hand is in the wind.
drying-honesty-8 = Water vapour is a gas and cannot be seen. The mist over a road after a summer shower is tiny drops, not vapour.
drying-honesty-9 = Molecule speeds are those of kinetic theory; the particle picture is enrichment at this age in England.

# claims: figure, rises
drying-warming =
    In { $lasts } { $by ->
        [sun] sun and air
       *[air] the air
    } { $by ->
        [sun] warm
       *[air] warms
    } the puddle from { $from } to { $to }, and the evaporation grows from { $slow } to { $fast } an hour.

# claims: figure
drying-warming-plain = For { $lasts } it evaporates at less than nine tenths of its fastest: { $slow } an hour at first, { $fast } an hour at the end.

# claims: figure, less
drying-dew = The air is so damp and the puddle so cold that vapour from the air condenses into the puddle at first, as dew: { $dew } of it.

# claims: figure, rises
drying-dew-warming = Dew gives off heat, and in { $lasts } the puddle warms from { $from } to { $to }. In the end it evaporates: { $fast } an hour.

# claims: figure, more
drying-leaves = In { $lasts } { $gone } leave as vapour.

# claims: figure, steady, more
drying-warmer = The water stays near { $at }, { $apart } warmer than the air: as much heat goes out, with the vapour and otherwise, as comes in.

# claims: figure, steady, less
drying-colder = The water stays near { $at }, { $apart } colder than the air, for the vapour takes heat along: as much heat goes out as comes in.

# claims: figure, more
drying-ends-warmer = In the end the water is at { $at }, { $apart } warmer than the air.

# claims: figure, less
drying-ends-colder = In the end the water is at { $at }, { $apart } colder than the air: the vapour takes heat along.

# claims: figure
drying-ends = In the end the water is at { $at }.

# claims: figure, falls
drying-edge = The puddle draws in from { $from } to { $to }.

# claims: figure, at most
drying-quarter = Less than a quarter is left, { $left }.

# claims: figure, steady, falls
drying-thinner = Each wet spot dries as fast as before, { $rate } an hour, but there is less and less of it, so ever less water leaves: { $from } a minute at first, { $to } a minute at last.

# claims: figure, falls
drying-thins = There is less and less of it, so ever less water leaves: { $from } a minute at first, { $to } a minute at last.

# claims: figure, at most, same
drying-dry = After { $after } the ground is dry. All { $gone } are in the air now, as water vapour that no one can see: none of it is lost.

# claims: at most
drying-half-water = Half of the water has gone.

# claims: at most
drying-half-area = The puddle covers half of the ground that it covered at first.

# claims: at most
drying-last = The last of the water has gone.

# claims: less
drying-dew-falls = Vapour from the damp air condenses into the cold puddle: dew.

# claims: at least
drying-begins = The puddle is warm enough now: it begins to evaporate.

# claims: at least
drying-no-warming = from the start it evaporates nearly as fast as it ever will

# claims: first
drying-no-drying = three quarters of the water have gone before it evaporates at its fastest

# claims: figure
drying-still-wet = after { $after } there are still { $left }
