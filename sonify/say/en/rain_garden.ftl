### A storm over a rain garden.

# claims: figure
rain_garden-first-drops = In the first { $lasts } { $rain } of rain fall. Roofs and paths only get wet and keep { $kept }; what falls on the garden soaks in, and its soil holds { $soil } of it.

# claims: figure
rain_garden-first-drops-alone = In the first { $lasts } { $rain } of rain fall on the garden, and its soil holds { $soil } of it. No roof and no path drains into it.

# claims: figure
rain_garden-drinking = After { $after } water runs off roofs and paths into the garden, up to { $most } with the rain. The thirsty soil drinks up to { $drinks }.

# claims: figure, rises, less
rain_garden-ponding = After { $after } more comes in, up to { $most }, than the soil can drink: the wetter it gets, the more slowly it drinks, { $first } at first and { $later } later. The pond grows to { $deep }.

# claims: figure, rises
rain_garden-ponding-plain = After { $after } more comes in, up to { $most }, than the soil can drink. The pond grows to { $deep }.

# claims: figure
rain_garden-stands = After { $after } water stands in the garden, { $deep } deep at the end.

# claims: figure
rain_garden-overflow = After { $after } the pond, { $deep } deep, runs over the hollow's lip: by { $until } after the first drop { $spilt } have gone into the street drain, up to { $most }.

# claims: figure, at most
rain_garden-no-hollow = There is no hollow. From { $after } to { $until } after the first drop, what the soil cannot drink at once runs into the street drain: { $spilt }, up to { $most }.

# claims: figure, falls
rain_garden-sinks = From { $after } to { $until } after the first drop the pond sinks from { $from } to { $to }.

# claims: figure, at most
rain_garden-sinks-away = From { $after } to { $until } after the first drop the pond, { $deep } deep, sinks away.

# claims: figure
rain_garden-stands-on = From { $after } to { $until } after the first drop water stands in the garden, { $deep } deep at the end.

# claims: figure
rain_garden-drinks = The soil drinks { $first } at first and { $later } at the end, and passes water on downwards.

# claims: figure, rises
rain_garden-ground-fills = The ground water grows from { $from } to { $to }.

# claims: figure, falls
rain_garden-ground-empties = The ground gives the brook more than it gets: its water shrinks from { $from } to { $to }.

# claims: figure
rain_garden-ground-water = The ground water goes from { $from } to { $to }.

# claims: figure, at most
rain_garden-gone = After { $after } no pond is left to be seen of the storm.

# claims: figure
rain_garden-brook = Under the garden its water seeps on and feeds the brook, which gets most { $fullest } after the first drop, { $flow }.

# claims: figure, rises
rain_garden-brook-grows = Under the garden its water seeps on and feeds the brook, which gets more and more, in the end { $flow }.

# claims: figure, falls
rain_garden-brook-falls = The brook gets most from the ground before the storm has soaked through, { $flow }, and less and less afterwards.

# claims: figure
rain_garden-brook-gets = The brook gets up to { $flow } from the ground.

# claims: figure, at most
rain_garden-brook-dry = No ground water reaches the brook.

# claims: figure
rain_garden-account = Of the { $came } that came into the garden { $spilt } went down the drain.

# claims: figure, at most
rain_garden-account-kept = Of the { $came } that came into the garden nothing went down the drain.

## The moments

# no claim: the run begins with it
rain_garden-first-drop = The first drops fall.

# claims: figure
rain_garden-heaviest = It rains hardest, { $rate }.

# claims: at least
rain_garden-puddle = The first puddle stands in the garden.

# claims: figure
rain_garden-deepest = The pond is deepest, { $depth }.

# claims: more
rain_garden-spills = Water runs over the lip for the first time.

# claims: figure
rain_garden-last-drops = The rain stops: { $rain } have fallen.

# claims: at most
rain_garden-pond-gone = The pond is gone.

# claims: figure
rain_garden-fullest = The brook gets most from the ground, { $flow }.

## Why a stage did not come

# claims: at most
rain_garden-no-roofs = there are no roofs or paths whose water could come

# claims: figure
rain_garden-only-wet = roofs and paths hardly more than get wet: never more than { $most } run off them

# claims: at most
rain_garden-all-wets = what falls on roofs and paths only wets them, and none runs off

# claims: figure
rain_garden-spills-at-once = water runs over the garden's edge from the first moment, up to { $most }

# claims: figure
rain_garden-pond-first = water stands in the garden, { $deep } deep, before any run-off arrives, so slowly does the soil drink

# claims: figure
rain_garden-spills-first = { $spilt } have run over the lip before any run-off arrives, so slowly does the soil drink

# claims: figure
rain_garden-runs-late = the run-off, { $run } at most, has no time of its own: a pond stands as it arrives, or the storm is over

# claims: figure, at most
rain_garden-too-flat = there is no hollow for a pond to grow in: { $spilt } run off into the drain

# claims: figure
rain_garden-too-shallow = the hollow, { $depth } deep, is too shallow for a pond to grow in: { $spilt } run over its lip

# claims: figure
rain_garden-fills-at-once = the hollow, { $depth } deep, fills too quickly for its pond to be seen growing: { $spilt } run over its lip

# claims: figure
rain_garden-brief-pond = the water, { $deep } deep at most, stands too short a time for it

# claims: figure
rain_garden-drinks-all = the soil drinks all that comes; never more than { $deep } stand in the garden

# claims: at most
rain_garden-drinks-at-once = the soil drinks at once all that comes, and no water stands in the garden

# claims: at most
rain_garden-nothing-stands = no water ever stands in the garden

# claims: figure
rain_garden-brief-spill = water runs over the lip, { $spilt } in all, for too short a time

# claims: figure
rain_garden-to-the-lip = the pond comes to the lip of the hollow, { $depth } up, and no further

# claims: figure, less
rain_garden-not-full = the pond is { $deep } deep at most, and the hollow holds { $depth }

# claims: figure
rain_garden-no-pond = no pond stands that could sink: never more than { $deep } of water

# claims: figure
rain_garden-not-yet = the pond, { $deep } deep, has not begun to sink after { $watched }

# claims: figure
rain_garden-gone-at-once = the pond, { $deep } deep at most, is gone as soon as it sinks

# claims: figure
rain_garden-still-stands = { $deep } of water still stand in the garden after { $watched }

# claims: figure, more
rain_garden-rains-on = it still rains after { $watched }

# claims: figure
rain_garden-still-runs = water still runs off roofs and paths after { $watched }

## no claim: what the process is, in a line

rain_garden-title = A rain garden in a storm
rain_garden-summary = A storm on roofs and paths, a planted hollow that takes their water, and the ground that keeps it.

## plain: what a scene may set

rain_garden-condition-rain = rain of the whole storm
rain_garden-condition-storm_length = how long it rains
rain_garden-condition-storm_peak = share of the storm after which it rains hardest
rain_garden-condition-watched = how long we watch, from the first drop
rain_garden-condition-roof_area = roofs that drain into the garden
rain_garden-condition-path_area = paths and yard that drain into the garden
rain_garden-condition-path_curve = how little the paths let in, as a curve number: 98 asphalt, 89 gravel on heavy soil, 61 grass
rain_garden-condition-garden_area = area of the rain garden
rain_garden-condition-garden_depth = depth of its hollow below the lip
rain_garden-condition-soil_conductivity = how fast wet soil lets water through: sand 118, sandy loam 11, clay 0.3 mm/h
rain_garden-condition-soil_suction = how strongly dry soil sucks, as a height of water
rain_garden-condition-soil_pores = share of the soil that water can fill
rain_garden-condition-soil_wetness = share of the pores that is full before the storm
rain_garden-condition-soil_depth = depth of the soil above the ground water
rain_garden-condition-soil_time = how long water stays in the soil
rain_garden-condition-ground_time = how long ground water stays
rain_garden-condition-ground_water = ground water under the garden at the start, as a layer

## plain: what is computed

rain_garden-quantity-rain-rate = how hard it rains
rain_garden-quantity-rain-so-far = rain since the first drop
rain_garden-quantity-run-off = water from roofs and paths that runs into the garden
rain_garden-quantity-water-coming-in = run-off, and the rain on the garden itself
rain_garden-quantity-pond-depth = how deep the water stands in the hollow
rain_garden-quantity-soaking-rate = how fast the garden's soil drinks
rain_garden-quantity-overflow = water that runs over the lip into the street drain
rain_garden-quantity-seeping-down = water that passes from the soil to the ground water
rain_garden-quantity-flow-to-the-brook = ground water that comes out in the brook
rain_garden-quantity-rain-still-to-fall = rain that has yet to fall on roofs, paths and garden
rain_garden-quantity-water-on-roofs-and-paths = rain that roofs and paths keep, and that dries off later
rain_garden-quantity-water-on-its-way = run-off in gutters, pipes and along paths
rain_garden-quantity-water-in-the-pond = water that stands in the hollow
rain_garden-quantity-water-in-the-soil = water of this storm in the soil
rain_garden-quantity-ground-water = water under the garden that the brook can still get
rain_garden-quantity-water-in-the-brook = ground water that has come out into the brook so far
rain_garden-quantity-water-down-the-drain = water that has spilt into the street drain so far

## plain: how the stages are found

rain_garden-stage-first-drops = The first drops wet everything
rain_garden-stage-ponding = A pond grows
rain_garden-stage-overflow = The pond spills over
rain_garden-stage-ground = Ground water feeds the brook
rain_garden-stage-drinking = The soil drinks it all
rain_garden-stage-sinking = The pond sinks away

rain_garden-seen-first-drops = it rains, and less than a tenth of a litre a minute runs off roofs and paths into the garden
rain_garden-seen-drinking = run-off arrives, and less than { $puddle } of water stand in the hollow
rain_garden-seen-ponding = more arrives than the soil can drink, and the pond stays below the hollow's lip
rain_garden-seen-overflow = water runs over the hollow's lip
rain_garden-seen-sinking = nothing spills any more, and { $puddle } of water or more stand in the hollow
rain_garden-seen-ground = the rain is over, nothing arrives, and no pond is left

## no claim: what the model leaves out, and general laws

rain_garden-honesty-1 = The storm has one peak and grows and dies away evenly, a shape that engineers use for design. Real storms come in bursts.
rain_garden-honesty-2 = What runs off roofs and paths is reckoned with curve numbers from an American table, as a pattern and not as a design value; roofs are given the number 98 of that table.
rain_garden-honesty-3 = The soil is the same all through, and water sinks into it with a sharp wet front. Real soil has roots and worm-holes that let the first water run down quickly.
rain_garden-honesty-4 = Two things pull water into the soil: its own suction, as in kitchen paper, and the weight of the pond. The longer the way through wet soil, the less of both arrives at the wet front, so the soil drinks ever more slowly.
rain_garden-honesty-5 = How long water stays in soil and ground are conditions of the scene, each let go in proportion to what there is. Real ground water also comes from and goes to other places.
rain_garden-honesty-6 = Plants drink from the garden and water dries from its surface; over a day and a half that is a few millimetres, and the model leaves it out. The water that roofs and paths keep dries off later.
rain_garden-honesty-7 = A rain garden is planned for its own soil and place. These figures are a lesson, not a plan.
