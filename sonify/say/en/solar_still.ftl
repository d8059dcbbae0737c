### A covered basin of salt water in the sun.

# claims: figure
solar_still-dull = In the 24 hours from { $sunrise } on the salt water is between { $coldest } and { $warmest } warm. Never more than { $most } of water leave it: too little for mist or drops.

# claims: figure, at most
solar_still-dry = In the 24 hours from { $sunrise } on the salt water is between { $coldest } and { $warmest } warm, and none of it turns to vapour.

# claims: figure, rises, at least
solar_still-warming = From { $after } to { $until } the Sun, up to { $height } high, warms the salt water from { $from } to { $to }.

# claims: figure
solar_still-sun-up = From { $after } to { $until } the Sun is up to { $height } high, and the salt water is at { $warmth } in the end.

# claims: at most
solar_still-hardly-any = Hardly any vapour rises yet.

# claims: figure, less
solar_still-misting = From { $after } on water evaporates from the salt water ({ $brine }), and the vapour meets the cooler cover ({ $cover }) and condenses: { $drops } of tiny drops hang there by { $until }.

# claims: figure
solar_still-mist = From { $after } on vapour from the salt water condenses on the cover: { $drops } of tiny drops hang there by { $until }.

# claims: figure
solar_still-dripping = From { $after } to { $until } the drops run together and down into the cup, most of them at { $at }: { $most }, with the salt water at up to { $brine } and the cover at up to { $cover }. The cup holds { $cup } of fresh water.

# claims: falls
solar_still-sun-sinks = The Sun sinks.

# claims: figure, falls
solar_still-cools = From { $after } to { $until } the salt water cools from { $from } to { $to }; its stored warmth still brings { $drips }.

# claims: figure
solar_still-arrives = From { $after } to { $until } { $drips } of fresh water still arrive.

# claims: figure
solar_still-cup = By { $until } there are { $cup } of fresh water in the cup.

# claims: figure, same
solar_still-salt = All { $salt } of salt are still in the basin.

# claims: figure, same
solar_still-salt-crystals = All { $salt } of salt are still in the basin, { $crystals } of it as crystals.

# claims: figure, more
solar_still-saltier = What is left there is saltier: { $after } g of dissolved salt in a kilogram instead of { $before } g.

## The moments

# claims: figure
solar_still-noon = The Sun stands highest, at { $height }.

# claims: figure
solar_still-hottest = The salt water is hottest: { $warmth }.

# claims: at most
solar_still-sunset = The Sun sets.

# claims: figure
solar_still-first-drop = Drops run into the cup steadily for the first time: { $rate }.

# claims: more
solar_still-first-crystals = The water can dissolve no more salt: the first crystals form.

## Why a stage did not come

# claims: figure
solar_still-at-once = vapour rises from the very first minute, { $rate }

# claims: figure
solar_still-no-mist = with the Sun up to { $height } high and { $cloud } cloud, never more than { $most } of water leave the basin

# claims: figure, at most
solar_still-no-vapour = with the Sun up to { $height } high and { $cloud } cloud, no water leaves the basin

# claims: figure
solar_still-no-drops = with the Sun up to { $height } high and { $cloud } cloud, { $drops } of drops gather on the cover, too few to run down

# claims: figure
solar_still-not-halved = the dripping has not fallen to half by sunrise: { $rate }

# claims: figure
solar_still-drips-on = it still drips at sunrise, { $rate }

# claims: figure
solar_still-no-drop = next to no drop runs down: never more than { $most }

# claims: at most
solar_still-no-drop-at-all = no drop runs down at all

## no claim: what the process is, in a line

solar_still-title = Fresh water from salt water
solar_still-summary = A covered basin of sea water in the sun for a day: vapour, drops, fresh water, and the salt left behind.

## plain: what a scene may set

solar_still-condition-latitude = how far north of the equator the island lies (south is negative)
solar_still-condition-day = day of the year, 1 is 1 January and 172 is 21 June
solar_still-condition-cloud = how much of the sky is covered
solar_still-condition-air_by_night = the coolest that the air gets in the night
solar_still-condition-air_by_day = the warmest that the air gets in the afternoon
solar_still-condition-humidity = vapour in the air outside, as a share of the most that there can be at its temperature
solar_still-condition-wind = wind over the cover
solar_still-condition-area = area of the basin
solar_still-condition-depth = how deep the salt water is at the start
solar_still-condition-saltiness = salt in the water at the start, as a share of its mass
solar_still-condition-insulation = heat that gets out through the bottom, to a square metre and a degree

## plain: what is computed

solar_still-quantity-sun-height = height of the Sun above the horizon, negative at night
solar_still-quantity-sunlight = sunlight on the cover
solar_still-quantity-air-temperature = the air outside
solar_still-quantity-brine-temperature = the salt water in the basin
solar_still-quantity-cover-temperature = the cover that the drops hang from
solar_still-quantity-evaporation-rate = water leaving the salt water as vapour; negative where it goes back
solar_still-quantity-dripping-rate = fresh water running down into the cup
solar_still-quantity-water-in-the-basin = water in the basin, without its salt
solar_still-quantity-drops-on-the-cover = condensed water that clings to the cover
solar_still-quantity-fresh-water = fresh water in the cup
solar_still-quantity-salt-in-the-basin = salt in the basin, dissolved or not
solar_still-quantity-dissolved-salt = salt dissolved in the water of the basin
solar_still-quantity-salt-crystals = salt that the water left can no longer hold
solar_still-quantity-saltiness = grams of dissolved salt in a kilogram of salt water
solar_still-quantity-heat-taken-in = sunlight that basin and cover have taken in since sunrise
solar_still-quantity-heat-given-off = heat given to air, sky and ground and with the fresh water, since sunrise
solar_still-quantity-heat-in-the-still = heat in basin and cover, counted from 0 °C

## plain: how the stages are found

solar_still-stage-misting = The cover mists over
solar_still-stage-dripping = Fresh water, drop by drop
solar_still-stage-night = The salt is still there
solar_still-stage-warming = The sun warms the salt water
solar_still-stage-evening = The drops grow fewer

solar_still-seen-warming = from sunrise until evaporation reaches { $share } of the day's greatest
solar_still-seen-misting = from then until the first drops run down
solar_still-seen-dripping = from the first running drops until, past its peak, the dripping has fallen to half
solar_still-seen-evening = from then until the dripping has fallen to { $share }
solar_still-seen-night = from then to the next sunrise

## no claim: what the model leaves out, and general laws

solar_still-honesty-1 = The salt is taken as common salt. Real sea salt is a mixture, whose chalk and gypsum come out long before the salt does.
solar_still-honesty-2 = The still is tight and its cover wet all over. Real ones leak vapour and let some drops fall back; they give 2 to 5 litres to a square metre on a clear day (common practice), and 30 to 45 % of the sunlight's heat goes into evaporation.
solar_still-honesty-3 = How much sunlight gets in, how many drops cling to the cover and how fast the rest runs down are round figures of ours; the formulae between them are published.
solar_still-honesty-4 = Dunkle's formulae were made for covers at a small slope and water near 50 °C. Early and late in the day they are used outside that.
solar_still-honesty-5 = Evaporation can go on at night as well, for as long as the brine is warmer than the cover. It does not need sunshine, only warm water and a cooler cover.
solar_still-honesty-6 = The day is one clear-weather curve with a share of cloud. No cloud comes and goes, and no rain falls.
solar_still-honesty-7 = What a class distils is for showing, not for drinking: the basin, the cover and the cup are not clean enough.
solar_still-honesty-8 = Times are by the Sun: at noon it stands highest. A litre of fresh water is taken as a kilogram.
