## no claim: what the process is, in a line

filtering-title = Muddy water
filtering-summary = Gravel, sand, silt and clay parted from water by a sieve, by standing, and by a filter that clogs.

## plain: what a scene may set

filtering-condition-water = water in the bucket
filtering-condition-gravel = gravel in it (2 to 20 mm)
filtering-condition-sand = sand in it (0.063 to 2 mm)
filtering-condition-silt = silt in it (0.002 to 0.063 mm)
filtering-condition-clay = clay in it (up to 0.002 mm)
filtering-condition-temperature = temperature of the water
filtering-condition-sieve_opening = width of the sieve's openings
filtering-condition-pouring_time = how long pouring through the sieve takes
filtering-condition-jar_depth = how deep the water stands in the jar
filtering-condition-standing_time = how long the jar stands before the water is poured off
filtering-condition-paper_pore = width of the filter paper's gaps
filtering-condition-paper_area = area of wet filter paper
filtering-condition-paper_flow = clean water that the paper lets through at first
filtering-condition-funnel_depth = how deep the water is kept in the funnel
filtering-condition-patience = how long the filter is given at most

## plain: what is computed

filtering-quantity-gravel-in-the-water = gravel that is still in the water
filtering-quantity-sand-in-the-water = sand that is still in the water
filtering-quantity-silt-in-the-water = silt that is still in the water
filtering-quantity-clay-in-the-water = clay that is still in the water
filtering-quantity-mud-in-the-water = everything that is still in a litre of the water
filtering-quantity-largest-grain-in-the-water = size of the largest grains that are still in the water
filtering-quantity-caught-by-the-sieve = grains that the sieve holds
filtering-quantity-on-the-bottom-of-the-jar = grains that have sunk to the bottom
filtering-quantity-caught-by-the-paper = grains that the filter paper holds
filtering-quantity-flow-through-the-paper = water that comes through the paper just now
filtering-quantity-water-to-be-filtered = water that has not come through the paper yet
filtering-quantity-filtered-water = water that has come through the paper

## no claim: what a stage is called; where it comes it is so

filtering-stage-sieving = The sieve holds big grains
filtering-stage-sand = The sand sinks
filtering-stage-silt = The silt sinks slowly
filtering-stage-dripping = Water drips through the paper
filtering-stage-clogging = Mud clogs the paper
filtering-stage-clear = Through, but not clean

## plain: how the stages are found

filtering-seen-sieving = grains are held while the water is poured
filtering-seen-sand = from the jar being put down until { $share } of its sand are still sinking
filtering-seen-silt = from then until the water is poured off
filtering-seen-dripping = from the pouring until the flow has fallen to half of what it was at first
filtering-seen-clogging = from then until the last drip
filtering-seen-clear = all water is through: we hold it to the light

## no claim: what the model leaves out, and general laws

filtering-honesty-1 = Filtered water is not drinking water. Clay, germs and whatever is dissolved go through paper. Nobody tastes it.
filtering-honesty-2 = Grains are taken as round quartz. Real grains are angular and flat, clay above all, and sink more slowly; in hard or salty water clay sticks together in flakes and sinks faster than here.
filtering-honesty-3 = Each kind has as much mass in every doubling of its size. Real mud has a mixture of its own.
filtering-honesty-4 = Grains sink each by itself, as in thin mud. In thick mud they hinder each other, and the water that they push up slows them all.
filtering-honesty-5 = Stokes' law holds for clay, silt and the finest sand only. For larger grains the speed follows from a measured drag law, which makes a grain of a millimetre about six times slower than Stokes' law would.
filtering-honesty-6 = The funnel is kept as full as it was, and stirred. When it runs empty the last water drips more slowly than here.
filtering-honesty-7 = The paper holds what is wider than its gaps and lets the rest through. A real paper also catches fine grains in its depth, and the mud on it catches finer and finer ones.
filtering-honesty-8 = The water that the wet mud keeps on sieve, bottom and paper is left out.

# claims: figure
filtering-of-kind =
    { $mass } of the { $kind ->
        [gravel] gravel
        [sand] sand
       *[silt] silt
    }

# claims: figure
filtering-sieving = The sieve has openings of { $opening }. In { $lasts } of pouring it holds { $held }: { $parts }.

# claims: figure
filtering-sinks = A grain of { $size } sinks { $depth } in { $lasts }.

# claims: figure, at most
filtering-sand-down = The jar is put down, and after { $lasts } nearly all of { $sand } of sand lie on the bottom.

# claims: figure
filtering-sand-sinking = The jar is put down. When the water is poured off after { $lasts }, { $left } of { $sand } of sand are still in it.

# claims: figure
filtering-silt = Silt is finer and takes longer. It has { $lasts } to sink; when the water is poured off, { $left } of { $silt } of silt are still in it.

# claims: figure
filtering-clay = Clay is finer still: { $left } of { $clay } are in the water. The largest grains left in the water are { $size } of a millimetre.

# claims: figure
filtering-thousandths =
    { $number ->
        [1] 1 thousandth
       *[other] { $number } thousandths
    }

# claims: figure
filtering-drips-a-second = some { $drips } drips a second

# claims: figure
filtering-drip-every = a drip every { $lasts }

# claims: at least
filtering-trickle = a trickle too quick to count its drips

# claims: figure
filtering-dripping = At first { $flow } a minute come through the paper, { $drips }.

# claims: figure
filtering-caught = It holds all that is larger than its gaps of { $pore } of a millimetre: { $held } by { $after } after the pouring.

# claims: less
filtering-caught-little = Its gaps of { $pore } of a millimetre hold next to nothing of what is left in the water.

# claims: figure, falls
filtering-clogging = The mud on the paper is a filter too: with { $held } on it only { $flow } a minute come through, { $drips }, { $after } after the pouring.

# claims: figure
filtering-clogging-plain = With { $held } on the paper { $flow } a minute come through, { $drips }, { $after } after the pouring.

# claims: figure, more
filtering-above = { $rest } still stand above the paper.

# claims: figure
filtering-clear = { $through } are through. The sieve has { $sieve }, the bottom of the jar { $bottom }, the paper { $paper }.

# claims: figure, less
filtering-not-clean = { $silt } of fine silt and { $clay } of clay are in the water still: clearer, but not clean, and not to drink.

# claims: figure
filtering-not-clearer = { $silt } of silt and { $clay } of clay are in the water still, and it is not to drink.

# claims: less
filtering-hardly-a-grain = Hardly a grain is left in the water. Even so it is not to drink: germs and what is dissolved go through paper.

# claims: more
filtering-put-down = The jar is put down, and the grains begin to sink.

# claims: at most
filtering-put-down-clean = The jar is put down.

# claims: at most
filtering-sand-is-down = Nearly all of the sand lies on the bottom.

# claims: at most
filtering-first-drip = The first drip comes through the paper.

# claims: at most
filtering-half-as-fast = The paper lets through half as much as at first.

# claims: at most
filtering-last-drip = The last drip comes through the paper.

# claims: less
filtering-no-sieving = the sieve holds next to nothing: hardly a grain in the water is wider than its openings

# claims: less
filtering-no-sand = next to no sand gets into the jar

# claims: more
filtering-no-silt-sand = the sand is still sinking when the water is poured off

## no claim: why a stage is not there; that it is not there is checked where stages are found

filtering-no-silt = next to no silt sinks between the sand and the pouring off
filtering-no-dripping = no time is left to filter
filtering-no-clogging = the flow does not fall to half before all the water is through, or only with the last drips
filtering-no-clogging-yet = the flow has not fallen to half when the time is over
filtering-no-clogging-at-once = the paper is clogged almost at once

# claims: figure
filtering-no-clear = { $rest } still stand above the paper after { $after }
