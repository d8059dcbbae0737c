## no claim: what the process is, in a line

melting-title = Melting in warm water
melting-summary = Ice, candle wax, butter or chocolate in a dish that stands in warm water, until it has melted.

## plain: what a scene may set

melting-condition-substance = what is in the dish
melting-condition-mass = how much of it
melting-condition-start_temperature = temperature at the start, of the dish too
melting-condition-bath_temperature = temperature of the warm water, which is kept
melting-condition-contact = heat that the warm water gives for each degree of difference
melting-condition-dish = heat that the dish takes for each degree

## plain: what is computed

melting-quantity-temperature = how warm it is
melting-quantity-share-melted = how much of what can melt is liquid
melting-quantity-heat-flow = heat a second that comes from the warm water
melting-quantity-power-melting = heat a second that melts it, and does not warm it
melting-quantity-gap-to-the-bath = how much warmer the warm water is
melting-quantity-heat-from-the-bath = heat that has come from the warm water since the start
melting-quantity-heat-that-warmed = heat that has warmed it since the start
melting-quantity-heat-that-melted = heat that has melted it since the start
melting-quantity-heat-in-the-dish = heat that has warmed the dish since the start

## no claim: what a stage is called; where it comes it is so

melting-stage-solid = Solid still
melting-stage-first-half = The first half melts
melting-stage-second-half = The second half melts
melting-stage-liquid = Liquid

## plain: how the stages are found

melting-seen-solid = less than a twentieth of what was solid has melted
melting-seen-first-half = from a twentieth to half of what was solid has melted
melting-seen-second-half = from half to all but a twentieth of what was solid has melted
melting-seen-liquid = less than a twentieth of what was solid is left

## no claim: what the model leaves out, and general laws

melting-honesty-1 = Ice is one substance and melts at one temperature, 0 °C: while it melts, the thermometer waits. Candle wax, butter and chocolate are mixtures. They melt bit by bit over a range of temperatures, so no thermometer waits for them.
melting-honesty-2 = The ranges are those of one typical sample: candle wax 48 to 60 °C (waxes are sold from about 46 to 68 °C), butter up to 37 °C, a bar of dark chocolate 20 to 36 °C and mostly near 33 °C. Yours will differ by some degrees.
melting-honesty-3 = The ends of the ranges and the heats are from printed tables; how the share melted rises in between is from memory, in the usual shape. The teacher's sources say which was read.
melting-honesty-4 = In its range a mixture takes heat for warming and for melting at once. Both are counted: melting takes 334 kilojoules a kilogram for ice, about 210 for wax, 66 for butter and 46 for chocolate.
melting-honesty-5 = All of it is taken to be equally warm. In a real dish the outside melts first, so stir; a thermometer in the middle lags behind.
melting-honesty-6 = Part of the fat in butter is liquid even in the fridge, which is why it can be spread. The share melted counts that part.
melting-honesty-7 = Going back is not the same way: melted chocolate and fats set at lower temperatures and in another form, dull and crumbly, unless they are cooled with care. Only warming is computed.
melting-honesty-8 = The particle picture of melting is enrichment at this age in England, where it belongs to key stage 3.

# claims: figure, more
melting-solid-warms = In { $lasts } the { $what } warms from { $from } to { $to } and takes { $heat } of heat. Hardly any of it melts yet.

# claims: figure
melting-solid-still = For { $lasts } the { $what } stays within a tenth of a degree of { $to }.

# claims: figure, more
melting-liquid-warms = In { $lasts } it warms on from { $from } to { $to } and takes { $heat } of heat. Hardly any solid { $what } is left.

# claims: figure
melting-liquid-still = For { $lasts } it stays within a tenth of a degree of { $to }. Hardly any solid { $what } is left.

# claims: figure, more
melting-melts = In { $lasts } the melted share of the { $what } grows from { $share_from } to { $share_to }, and it warms from { $from } to { $to } as it melts.

# claims: figure, more, steady
melting-melts-still = In { $lasts } the melted share of the { $what } grows from { $share_from } to { $share_to }, and all the time the thermometer waits at { $to }.

# claims: figure, at least
melting-begins = At { $at } the { $what } is seen to melt.

# claims: figure, at least
melting-hardly-solid = At { $at } hardly any solid { $what } is left.

# claims: figure
melting-too-cool = after { $after } it is at { $at }, and { $share } of it has melted
