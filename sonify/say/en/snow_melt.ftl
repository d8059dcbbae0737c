### Spring in a mountain valley.

# claims: figure
snow_melt-when = day { $day }, { $time }

# claims: figure
snow_melt-end-of-day = the end of day { $day }

# claims: figure, at most
snow_melt-waits = For { $lasts } the snow holds { $snow } of water and lets next to none go.

# claims: figure
snow_melt-cold-snow = It begins at { $cold } and must first be warmed to 0 °C.

# claims: figure, at most
snow_melt-cold-air = The air over the valley's floor is as cold as { $coldest }.

# claims: figure, at least
snow_melt-ground-feeds = Ground water alone feeds the stream, { $flow }.

# claims: figure
snow_melt-carries = The stream carries { $flow } at the end.

# claims: at most
snow_melt-dry = The bed of the stream is dry.

# claims: figure
snow_melt-melts = From { $from } to { $until } { $melted } of water melt from the snow.

# claims: figure, less
snow_melt-melts-and-freezes = From { $from } to { $until } { $melted } of water melt from the snow, and { $frozen } freeze again.

# claims: figure
snow_melt-swells = The stream swells from { $from } to { $to }.

# claims: figure
snow_melt-swells-late = The stream swells from { $from } to { $to }; it carries most at { $time }, { $late } after the Sun stood highest.

# claims: figure, more, rises
snow_melt-line-climbs = From { $from } on the valley's floor is bare, and the snow line climbs, by { $until } to { $line }.

# claims: figure
snow_melt-bare = From { $from } on some ground is bare; by { $until } snow lies on { $cover } of the valley.

# claims: figure, at least
snow_melt-every-afternoon = Every day the stream carries most after noon, up to { $most }; between, it sinks to as little as { $least }.

# claims: figure
snow_melt-between = The stream carries between { $least } and { $most }.

# claims: figure
snow_melt-patches = From { $from } on half of the valley or more is bare. The snow still holds { $before } of water then, and { $left } by { $until }.

# claims: figure, falls
snow_melt-patches-go = From { $from } on half of the valley or more is bare. The snow still holds { $before } of water then; by { $until } it is gone.

# claims: figure
snow_melt-warm = The air is as warm as { $warmest }.

# claims: figure, less
snow_melt-less-comes = Yet the stream carries less, on average { $before } in the first half of this time and { $after } in the second, for there is less snow to melt.

# claims: at most
snow_melt-all-gone = On { $at } the last snow is gone.

# claims: figure
snow_melt-runs-on = The stream is left with ground water, { $ground } to begin with, that comes out in springs: { $flow } at the end.

# claims: at most
snow_melt-no-ground-water = There is no ground water to feed the stream.

# claims: figure
snow_melt-account = In all { $left } of water have left the valley, and { $kept } are still in the ground.

# claims: figure, at most
snow_melt-account-dry = In all { $left } of water have left the valley, and none is in the ground.

## The moments

# claims: at least
snow_melt-first-runs = The first melt water runs out of the snow.

# claims: less, more
snow_melt-first-bare = The first bare ground shows, on the valley's floor.

# claims: less
snow_melt-first-bare-somewhere = The first bare ground shows.

# claims: figure
snow_melt-carries-most = The stream carries most, { $flow }.

# claims: at most
snow_melt-last-gone = The last snow is gone.

# claims: figure, at most, more
snow_melt-half-bare = Half of the valley is bare, up to { $line }.

# claims: at most
snow_melt-half-bare-somewhere = Half of the valley is bare.

# claims: figure
snow_melt-quickest = The snow melts quickest, { $rate }.

## Why a stage did not come

# claims: at least
snow_melt-no-frost = melt water runs out of the snow from the very start

# claims: figure, at most
snow_melt-no-melt = next to no melt water runs out of the snow in { $watched }; the air over the valley's floor is at { $warmest } at most

# claims: less
snow_melt-bare-before = some of the valley is bare before melt water runs out of the snow

# claims: figure
snow_melt-half-at-once = half of the valley and more is bare as soon as any of it is: snow is left on { $cover } of it

# claims: figure
snow_melt-snow-left = after { $watched } snow with { $left } of water still lies on { $cover } of the valley

# no claim: the moment that it holds carries its own
snow_melt-too-quick = the last snow goes too quickly for it, on { $gone }

## no claim: what the process is, in a line

snow_melt-title = Snow melts in the mountains
snow_melt-summary = Spring days and frosty nights in a mountain valley: snow, melt water, ground water and the stream.

## plain: what a scene may set

snow_melt-condition-latitude = how far north of the equator the valley lies (south is negative)
snow_melt-condition-day = day of the year on which it begins, at midnight; 110 is 20 April
snow_melt-condition-days = how many days we watch
snow_melt-condition-valley_depth = height of the ridge above the valley's floor
snow_melt-condition-snow_low = water in the snow on the valley's floor
snow_melt-condition-snow_high = water in the snow on the ridge, where there is no less than on the floor
snow_melt-condition-snow_temperature = temperature of the snow when it begins
snow_melt-condition-snow_whiteness = share of the sunlight that the snow throws back: new snow 85 %, old 65 %, dirty 40 % (albedo)
snow_melt-condition-night_temperature = coldest air of the first night, on the valley's floor
snow_melt-condition-afternoon_temperature = warmest air of the first day, on the valley's floor
snow_melt-condition-warming = how much warmer each day is than the one before
snow_melt-condition-humidity = vapour in the air, as a share of the most that there can be at its temperature, on average
snow_melt-condition-wind = wind over the snow, 2 m up
snow_melt-condition-cloud = share of the sky that is covered
snow_melt-condition-ground_water = water in the ground that springs can still give
snow_melt-condition-ground_intake = how fast the ground lets water in
snow_melt-condition-ground_time = how long water stays in the ground
snow_melt-condition-area = area of the valley

## plain: what is computed

snow_melt-quantity-sun-height = height of the Sun above the horizon, negative at night
snow_melt-quantity-sunlight = sunlight that reaches level ground through any cloud
snow_melt-quantity-air-temperature = how warm the air is
snow_melt-quantity-heat-into-the-snow = heat that the snow takes up, negative where it loses heat
snow_melt-quantity-melt-rate = snow that turns into water
snow_melt-quantity-freezing-rate = melt water that freezes again in the snow
snow_melt-quantity-melt-water-running-out = water that leaves the snow from below
snow_melt-quantity-stream-flow = water that leaves the valley in the stream
snow_melt-quantity-flow-from-the-springs = water that comes out of the ground into the stream
snow_melt-quantity-snow-line = height above the valley's floor down to which snow lies
snow_melt-quantity-snow-cover = share of the valley where snow lies
snow_melt-quantity-snow = water in the snow as ice, as a layer over the valley
snow_melt-quantity-water-in-the-snow = melt water in the pores of the snow, as a layer over the valley
snow_melt-quantity-ground-water = water in the ground that springs can give, as a layer over the valley
snow_melt-quantity-water-in-the-stream = water on its way down the stream, as a layer over the valley
snow_melt-quantity-water-that-has-left = water that the stream has carried out of the valley so far
snow_melt-quantity-water-gone-into-the-air = snow that has dried off so far, less frost that has formed

## plain: how the stages are found

snow_melt-stage-first-melt = The first snow melts
snow_melt-stage-rushing = The stream rushes
snow_melt-stage-patches = Snow lies only high up
snow_melt-stage-frost = The snow waits in the frost
snow_melt-stage-springs = Ground water feeds the stream

snow_melt-seen-frost = less than { $limit } of melt water an hour runs out of the snow
snow_melt-seen-first-melt = melt water runs out of the snow, and snow still lies everywhere
snow_melt-seen-rushing = the valley's floor is bare, and snow lies on more than half of the valley
snow_melt-seen-patches = half of the valley or more is bare, and some snow is left
snow_melt-seen-springs = less than { $limit } of water is left in any of the valley's snow

## no claim: what the model leaves out, and general laws

snow_melt-honesty-1 = The heat that melts the snow is added up as published formulae give it: sunlight that the snow does not throw back, warmth between snow and sky, warmth and vapour that the wind brings or takes.
snow_melt-honesty-2 = Snow melts at 0 °C and stays there while it melts: the heat changes its state, not its temperature. It can melt in sunshine while the air is colder, and freeze at night while the air is warmer.
snow_melt-honesty-3 = At each height the snow is one layer, with one temperature and one whiteness. Real snow grows darker as it ages, and melts the faster for it.
snow_melt-honesty-4 = There are no trees, no shade of the mountains, no steep sunny slopes, no new snow and no rain in this spring.
snow_melt-honesty-5 = The air is as dense as at sea level and as well stirred as over grass. Over melting snow it is stiller, so the wind brings a little less warmth than is reckoned here.
snow_melt-honesty-6 = A snow surface that is not melting is taken to be as cold as the dew point of the air, a published rule for averages; in a clear calm night it can be several degrees colder.
snow_melt-honesty-7 = How fast the ground drinks and how long it keeps water are conditions of the scene; how long water takes through snow and stream are round figures of ours. Water that the roots drink is left out.
snow_melt-honesty-8 = What snow gives to the air without melting first (it dries away, like ice cubes that shrink in a freezer) is counted, and frost that forms on it is taken off.
snow_melt-honesty-9 = The valley's heights are given above its own floor, in bands of equal area. Times are by the Sun: at noon it stands highest.
