### One day of water over a harbour town.

# claims: figure, rises, at least
water_cycle-sun-warms = From { $after } to { $until } the Sun, up to { $height } high, warms the shallows from { $from } to { $to }.

# claims: figure, rises
water_cycle-warms = From { $after } to { $until } the shallows warm from { $from } to { $to }.

# claims: figure
water_cycle-shallows = From { $after } to { $until } the shallows grow as warm as { $most }.

# claims: figure, less
water_cycle-deep-sea = The deep sea changes less and is then at { $deep }.

# claims: figure
water_cycle-leaves = From { $after } to { $until } { $depth } of water leave the sea as vapour that no one can see, at up to { $rate }; the shallows are at up to { $warmest }.

# claims: figure
water_cycle-leaves-and-returns = From { $after } to { $until } water leaves the sea as vapour that no one can see, at up to { $rate }, with the shallows at up to { $warmest }; in all, more comes back as dew.

# claims: figure
water_cycle-whole-day = The whole day takes { $day }: { $spread } if it were spread over sea and land together.

# claims: figure
water_cycle-fog = From { $after } on vapour in the damp air (relative humidity up to { $wet }) becomes tiny drops of liquid water: fog and low cloud, from { $base } above the sea up. At the end the water on its journey is at { $water }.

# claims: figure, at least
water_cycle-cloud = From { $after } on the air that climbs the hill cools to its dew point at { $base }, and vapour becomes tiny drops of liquid water: a cloud. At the end the water on its journey is at { $water } there.

# claims: figure
water_cycle-cloud-forms = From { $after } on vapour becomes tiny drops of liquid water: a cloud, from about { $base } up. At the end the water on its journey is at { $water }.

# claims: figure
water_cycle-falls = From { $after } on drops fall, of { $drop } and { $speed } when the rain is heaviest ({ $rate } at { $at }).

# claims: figure
water_cycle-day-brings = The day brings { $rain } to town and hill: { $spread } if it were spread over sea and land together.

# claims: figure
water_cycle-fallen = By { $after } { $share } of the day's rain has fallen; ground and river carry it home.

# claims: figure
water_cycle-comes-home = { $back } of it are back in the sea by { $until }, and { $waiting } are still on their way.

## The moments

# claims: figure
water_cycle-noon = The Sun stands highest, at { $height }.

# claims: at most
water_cycle-no-sunrise = It is noon, and the Sun does not rise today.

# claims: at most
water_cycle-sunset = The Sun sets.

# claims: figure
water_cycle-first-cloud =
    { $kind ->
        [fog] Fog can be seen for the first time, from { $base } above the sea up.
       *[cloud] Cloud can be seen for the first time, at { $base }.
    }

# claims: figure
water_cycle-first-rain = Rain can be felt for the first time, { $rate }.

# claims: figure
water_cycle-heaviest = The rain is heaviest, { $rate }.

## Why a stage did not come

# claims: figure
water_cycle-cloud-too-soon = cloud or fog forms at { $at }, before the Sun can warm the water

# claims: figure
water_cycle-evaporates-first = evaporation is under way before the shallows have warmed; they grow { $rise } warmer in all

# claims: at most
water_cycle-no-sun = the Sun hardly rises, if at all, and cannot warm the shallows

# claims: figure, at most
water_cycle-hardly-warmer = with the Sun up to { $height } high, the shallows grow no warmer

# claims: figure
water_cycle-little-warmer = with the Sun up to { $height } high, the shallows grow only { $rise } warmer

# claims: figure
water_cycle-dew = more vapour turns to dew on the cold water than leaves it, { $dew } on average

# claims: figure
water_cycle-little-evaporates = next to no water evaporates in time, { $depth } over the whole day

# claims: figure
water_cycle-little-evaporates-before = next to no water evaporates in time, { $depth } before the first cloud

# claims: figure
water_cycle-thin-cloud = the cloud that forms is next to none: it never holds more than { $water } of water

# claims: figure
water_cycle-just-below = cloud would form at { $base }, and the air just fails to climb past that

# claims: figure, at most
water_cycle-not-lifted = cloud would form at { $base }, but nothing lifts the air

# claims: figure, at most
water_cycle-hill-too-low = cloud would form at { $base }, but the hill lifts the air by { $lifted } only

# claims: figure, at most
water_cycle-air-too-low = cloud would form at { $base }, but the air climbs to { $lifted } only

# claims: figure
water_cycle-rain-too-late = the rain, up to { $rate }, comes only as the day ends

# claims: figure
water_cycle-drizzle = the cloud holds { $water } of water at most, too little for more than a drizzle of { $rate }

# claims: figure, at most
water_cycle-no-rain = the cloud holds { $water } of water at most, too little for its drops to merge into rain

# claims: figure
water_cycle-rains-late = the rain begins only at { $at } and has not fallen by the end of the day

# claims: at most
water_cycle-no-cloud-no-rain = no cloud forms that could rain

# claims: at most
water_cycle-no-rain-no-river = no rain falls, so there is none to collect

# claims: figure
water_cycle-little-rain = so little rain falls, { $rain }, that there is next to none to collect

## no claim: advice; the process has tried it before it is told

water_cycle-set-for-cloud = Set { $condition } = { $value }: the cloud then forms, though rain may need more of the same.

## no claim: what the process is, in a line

water_cycle-title = The water cycle
water_cycle-summary = One day of water over a harbour town: sun, evaporation, cloud over the hill, rain, and the river home.

## plain: what a scene may set

water_cycle-condition-latitude = how far north of the equator the harbour lies (south is negative)
water_cycle-condition-day = day of the year, 1 is 1 January and 172 is 21 June
water_cycle-condition-sea_temperature = temperature of the sea at dawn
water_cycle-condition-humidity = vapour in the air at dawn, as a share of the most that there can be at its temperature
water_cycle-condition-wind = wind from the sea towards the hill, 10 m above the water
water_cycle-condition-hill_height = height of the hill behind the town, which lifts the air
water_cycle-condition-air_temperature = temperature of the air at dawn

## plain: what is computed

water_cycle-quantity-sun-height = height of the Sun above the horizon, negative at night
water_cycle-quantity-sunlight = sunlight that reaches the ground through any cloud
water_cycle-quantity-sea-temperature = the sea, stirred ten metres deep
water_cycle-quantity-shallows-temperature = ankle-deep water by the shore
water_cycle-quantity-air-temperature = the air near the ground
water_cycle-quantity-relative-humidity = vapour near the ground, as a share of the most that there can be at its temperature
water_cycle-quantity-evaporation-rate = water leaving the surface of sea and shallows; negative where dew falls
water_cycle-quantity-water-vapour = vapour in the air, as a layer of water over the whole column
water_cycle-quantity-cloud-base = height at which rising air would begin to form cloud
water_cycle-quantity-height-the-air-climbs = how high wind and warmed ground carry the air up the hill
water_cycle-quantity-condensation-rate = vapour becoming cloud drops, over the whole column
water_cycle-quantity-cloud-water = liquid water in cloud drops, over the whole column
water_cycle-quantity-rain-rate = rain on town and hill
water_cycle-quantity-drop-size = diameter above which half the rain's water falls; 0 while none falls
water_cycle-quantity-drop-fall-speed = speed at which such a drop falls; 0 while none falls
water_cycle-quantity-river-flow = water the river brings to the sea, as a layer over town and hill
water_cycle-quantity-water-in-the-sea = the stirred upper ten metres of sea, over the whole column
water_cycle-quantity-water-in-the-shallows = the ankle-deep water, over the whole column
water_cycle-quantity-falling-rain = rain on its way down, over the whole column
water_cycle-quantity-water-in-the-hillside = today's rain that has soaked into the ground, over the column
water_cycle-quantity-water-in-the-river = today's rain that is in the river, over the whole column
water_cycle-quantity-height-of-the-water = how high the water is: 0 at sea, up as vapour, down as rain
water_cycle-quantity-journey-temperature = how warm the water is, wherever it is
water_cycle-quantity-mean-molecule-speed = mean speed of its molecules, at that temperature

## plain: how the stages are found


water_cycle-stage-evaporation = Water evaporates
water_cycle-stage-collection = The river brings the water back
water_cycle-stage-warming = The sun warms the shallows
water_cycle-stage-condensation = Vapour condenses into cloud
water_cycle-stage-precipitation = Rain falls

water_cycle-seen-warming = the shallows grow warmer, by at least { $limit } before any cloud forms
water_cycle-seen-evaporation = the evaporation rate has climbed half way from its lowest of the morning to its highest before cloud
water_cycle-seen-condensation = cloud drops hold at least { $limit } of water
water_cycle-seen-precipitation = rain of at least { $limit } reaches the land
water_cycle-seen-collection = nine tenths of the day's rain have fallen

## no claim: what the model leaves out, and general laws

water_cycle-honesty-1 = Clouds form without hills too: wherever air rises, over warm ground or where warm air glides over cold air.
water_cycle-honesty-2 = Evaporation does not stop while it rains, and it did not start with the sun: only its rate changes.
water_cycle-honesty-3 = Plants and damp ground send up much of the vapour over land (transpiration); this model leaves them out and counts only what sea and shallows give.
water_cycle-honesty-4 = Condensation gives out the heat that evaporation took. The model lets it warm the rising air, so that a cloud cools more slowly with height than dry air does, but not the air over the town.
water_cycle-honesty-5 = Real water stays in the air for days, about 8.9 on the world's average (van der Ent and Tuinenburg 2017), and comes down far from where it rose; here one column of air keeps its water, and a day is enough.
water_cycle-honesty-6 = It is one column of air and one day: no weather comes in from elsewhere, no front passes, and nothing freezes.
water_cycle-honesty-7 = The temperature of the water on its journey is a story line through the model, not the path of one molecule: it is the model's own temperature of the sea, the shallows, the vapour, the cloud, the rain and the river in turn.
water_cycle-honesty-8 = At one temperature the molecules of vapour have the same mean speed as those of liquid water. A gas is not faster because it is a gas: its molecules are further apart and free.
water_cycle-honesty-9 = How deep the tide, the night's layered air and the shallows are, and how fast hillside and river let water go, are round figures of ours; the formulae between them are published.
water_cycle-honesty-10 = Rates are given where they happen (evaporation over the water, rain and river over town and hill), stores as layers over the whole column; so 1 mm of rain on the land is { $land } of the column's water.
water_cycle-honesty-11 = Times are by the Sun: at noon it stands highest.
water_cycle-honesty-12 = That warm air can hold more vapour is a picture. Air does not hold vapour: warmth decides how much of it there can be before as much condenses as evaporates.
