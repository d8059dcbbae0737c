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

# claims: more
solar_still-first-drop = The first drop runs into the cup.

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
