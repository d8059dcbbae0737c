# claims: figure, rises
day_length-grows = From { $since } to { $until } the day grows from { $from } to { $to }, by at most { $fast } a day, and the noon Sun goes from { $low } to { $high }.

# claims: figure, falls
day_length-shrinks = From { $since } to { $until } the day shrinks from { $from } to { $to }, by at most { $fast } a day, and the noon Sun goes from { $low } to { $high }.

# claims: figure, same
day_length-shortest-day = { $date }: the shortest day, { $lasts }, the noon Sun { $high } high.

# claims: figure, same
day_length-longest-day = { $date }: the longest day, { $lasts }, the noon Sun { $high } high.

# claims: figure, same
day_length-fastest-growth = { $date }: the days grow fastest, by { $fast } a day.

# claims: figure, same
day_length-fastest-loss = { $date }: the days shrink fastest, by { $fast } a day.

## plain: what the process is about, its stages and its conditions

day_length-title = A year of sunlight
day_length-summary = How long the day is and how high the Sun climbs, from one shortest day to the next.

day_length-stage-light-returns = The light comes back
day_length-stage-long-days-grow = Long days grow longer
day_length-stage-days-shrink = Long days grow shorter
day_length-stage-darkness-grows = The nights take over

day_length-seen-light-returns = from the shortest day until the day is half way between shortest and longest
day_length-seen-long-days-grow = from then until the longest day
day_length-seen-days-shrink = from then until the day is half way again
day_length-seen-darkness-grows = from then until the next shortest day

day_length-condition-latitude = how far north the place lies; south of the equator is negative
day_length-condition-year = the year in which the shortest day is looked for, from its June on
day_length-condition-look_every = time from one reckoning of the Sun's place to the next: so much more than a day, so much later

day_length-quantity-day-length = time from sunrise to sunset
day_length-quantity-night-length = time from sunset to the next sunrise
day_length-quantity-noon-height = height of the Sun above the horizon when it is highest
day_length-quantity-height = height above the horizon at each reckoning; negative at night
day_length-quantity-above = the same while the Sun is up, nothing at night
day_length-quantity-shadow = length of the shadow of an upright metre stick at noon
day_length-quantity-sunrise = time of sunrise by the Sun's own clock, noon at 12
day_length-quantity-sunset = time of sunset by the Sun's own clock, noon at 12
day_length-quantity-change = how much longer each day is than the one before

## no claim: what the model is and leaves out, from its sources

day_length-honesty-arcs = The arcs are a way of reckoning: the Sun's place is worked out once in a little more than a day (25 hours in the usual setting), so that each time comes a little later in the day than the one before. Every height is the true height of the Sun at its moment, but of 365 arcs a year only a few are left, in the usual setting nearly fifteen. Between two moments the height is drawn as a straight line.
day_length-honesty-clock = Sunrise and sunset are by the Sun's own clock: noon is when it stands highest. A school clock differs by up to a quarter of an hour through the year, by the place within its time zone, and by an hour in summer time.
day_length-honesty-flat = The ground is taken as flat and the sky as clear. Hills, houses and clouds shorten the lit part of a real day.
day_length-honesty-axis = Days are longer in summer because the Earth's axis leans, not because the Earth is nearer to the Sun: it is nearest in early January.
day_length-honesty-good-to = The formulae are good to a few minutes of day length, which the bending of the light near the horizon alone can make on a real day, and to a hundredth of a degree in how far north the Sun stands.
