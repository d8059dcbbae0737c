## no claim: what the process is, in a line

soaking-title = Which cloth drinks most?
soaking-summary = A fair test: strips of kitchen paper, towel and sponge cloth hang in water and drink, in millilitres.

## plain: the cloths

soaking-cloth-paper = kitchen paper
soaking-cloth-towel = cotton towel
soaking-cloth-sponge = sponge cloth

## plain: what a scene may set

soaking-condition-temperature = temperature of the water, the same for all
soaking-condition-strip_width = width of every strip
soaking-condition-strip_length = how much of every strip hangs above the water
soaking-condition-jar = water in every jar at the start
soaking-condition-test_time = how long the test lasts
soaking-condition-gap = width of the gaps in the { $cloth }
soaking-condition-winding = how many times longer than straight the water's way up the { $cloth } is, tight places included
soaking-condition-thickness = how thick the { $cloth } is when wet
soaking-condition-open = share of the { $cloth } that is gaps
soaking-condition-angle = angle at which water meets the fibres of the { $cloth }: 0° spreads by itself, at 90° nothing is drunk

## plain: what is computed

soaking-quantity-water = water that the { $cloth } has drunk so far
soaking-quantity-height = how high the { $cloth } is wet
soaking-quantity-rate = how fast the { $cloth } drinks just now
soaking-quantity-jar = water left in the jar under the { $cloth }
soaking-quantity-drinking-rate = how fast all three drink together just now
soaking-quantity-water-drunk = water that all three have drunk so far

## no claim: what a stage is called; where it comes it is so

soaking-stage-rushing = Water rushes in
soaking-stage-slowing = The water climbs more slowly
soaking-stage-parting = The first has drunk its fill
soaking-stage-settled = Hardly a drop more goes in

## plain: how the stages are found

soaking-seen-rushing = from the dip until half of all that will be drunk in the test is drunk
soaking-seen-slowing = until the first cloth has { $share } of what it can take
soaking-seen-parting = from then until the last cloth has { $share } of what it can take, or the test ends
soaking-seen-settled = from then to the end of the test

## no claim: what the model leaves out, and general laws

soaking-honesty-1 = The cloths are model cloths: the widths of their gaps, how much they wind, their thickness and open share are round figures of ours for one of each kind. Another towel can win. Only the class's own test says which of the school's cloths drinks most.
soaking-honesty-2 = A real cloth has gaps of many widths and fibres that swell when they get wet; here every cloth has one width and stays as it is.
soaking-honesty-3 = All three limits of real cloths are in it: full to the top, the weight of the water, an empty jar. Water that dries off on the way, or is sucked into the middle of the threads, is left out.
soaking-honesty-4 = The very first moment is left out too: for some thousandths of a second the water's own inertia holds it back.
soaking-honesty-5 = The test is fair because everything but the cloth is the same: width and length of the strips, the water, its temperature, the time.

# claims: figure
soaking-holds = the { $cloth } { $volume }

# claims: figure, at least
soaking-rushing = In the first { $lasts } the strips drink { $together } together, { $rate } a minute: { $each }.

# claims: figure, less, at least
soaking-slowing = The further the water has to climb, the more the narrow gaps hold it back: in these { $lasts } only { $rate } a minute go in. Now the cloths hold: { $each }.

# claims: figure, at least
soaking-slowing-plain = In these { $lasts } { $rate } a minute go in. Now the cloths hold: { $each }.

# claims: figure, less
soaking-parting = From { $from } on they stop one after another.

# claims: figure, at least
soaking-first-stops = After { $from } the first has all but stopped.

# claims: figure, at least
soaking-because-top = The { $cloth } is all but full: it is wet { $height } high and holds { $volume }.

# claims: figure, less
soaking-because-weight = The { $cloth } can hardly pull water any higher against its weight: it is wet { $height } high and holds { $volume }.

# claims: figure, at most
soaking-because-jar = The { $cloth } has all but emptied its jar and holds { $volume }.

# claims: figure, at most
soaking-settled = After { $after } hardly anything moves any more.

# claims: more, at least
soaking-most = The { $cloth } has drunk most: { $each }.

# claims: same, at least
soaking-no-winner = No cloth has drunk clearly more than all others: { $each }.

# claims: at most
soaking-stays-dry = Water does not wet the { $cloth }: it drinks nothing.

# claims: figure, at least
soaking-overtakes = The { $one } overtakes the { $other }: { $volume }.

## no claim: why a stage is not there; that it is not there is checked where stages are found

soaking-no-rushing = nothing is drunk at first
soaking-no-slowing = a cloth stops before half of all that is drunk has gone in
soaking-no-parting = no cloth has { $share } of what it can take before the test ends
soaking-no-parting-alike = all cloths that drink stop at the same moment

# claims: figure
soaking-no-settled = a cloth goes on drinking until the test ends after { $after }, or nearly so long
