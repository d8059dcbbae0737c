## no claim: what the process is, in a line

dissolving-title = Salt in the jar
dissolving-summary = Salt dissolving in a jar of water: left alone, then stirred, until all is dissolved or the water is full.

## plain: what a scene may set

dissolving-condition-water = water in the jar
dissolving-condition-salt = salt that is put into it
dissolving-condition-grain = size of the grains of salt
dissolving-condition-temperature = temperature of the water
dissolving-condition-stirring = how fast the spoon goes round, turns a minute
dissolving-condition-stir_after = how long the jar is left alone before
dissolving-condition-watching = how long the jar is watched

## plain: what is computed

dissolving-quantity-undissolved-salt = salt that is still in grains
dissolving-quantity-dissolved-salt = salt that is dissolved in the water
dissolving-quantity-salt-low-in-the-jar = dissolved salt in the water between and just over the grains
dissolving-quantity-salt-higher-up = dissolved salt in the rest of the water
dissolving-quantity-dissolving-rate = salt that dissolves just now
dissolving-quantity-fullness = dissolved salt as a share of what the water can hold
dissolving-quantity-room-left = what the water could still take, as a share of what it can hold
dissolving-quantity-grain-size = how large a grain still is; 0 when none is left
dissolving-quantity-clinging-layer = thickness of the layer of water that clings to a grain
dissolving-quantity-salty-layer = how much more salt a kilogram of water holds at the bottom than above
dissolving-quantity-spoon = how fast the spoon goes round, in turns a minute

## no claim: what a stage is called; where it comes it is so

dissolving-stage-resting = The salt lies on the bottom
dissolving-stage-stirring = The spoon goes round
dissolving-stage-slowing = It dissolves more and more slowly
dissolving-stage-full = Hardly anything more dissolves

## plain: how the stages are found

dissolving-seen-resting = from the salt going in until stirring begins
dissolving-seen-stirring = from the first turn of the spoon until the rate has fallen to half of its greatest
dissolving-seen-slowing = from then until the rate has fallen to { $share } of its greatest, or no grain is left
dissolving-seen-full = from then to the end

## no claim: what the model leaves out, and general laws

dissolving-honesty-1 = Dissolved salt is not gone: the water tastes of it, weighs more by it, and leaves it behind when it evaporates.
dissolving-honesty-2 = Stirring and warmth change how fast salt dissolves, hardly how much. Hot water holds 9 % more salt than cold; of sugar it would hold twice as much and more.
dissolving-honesty-3 = The grains are taken as balls of one size. Real salt is a mixture of little cubes and broken bits.
dissolving-honesty-4 = How much water lies between the grains, and how fast it moves past them when the spoon goes round, are round figures of ours; the formulae between them are published.
dissolving-honesty-5 = Left alone, real salt water sinks and creeps in ways of its own. In the model the bottom fills up and then next to nothing happens; salt by itself would take weeks to spread through the jar.
dissolving-honesty-6 = Salt cools the water a little as it dissolves. The model leaves the temperature as it is.
dissolving-honesty-7 = Both parts of the salt, sodium and chloride, wander together, a little faster in warm water.

# claims: figure, less, at most
dissolving-resting = { $salt } of salt lie on the bottom. In { $lasts } only { $gone } dissolve: the water just over the grains fills up with salt, and a layer of { $layer } of water clings to every grain.

# claims: figure
dissolving-resting-plain = { $salt } of salt lie on the bottom. In { $lasts } { $gone } dissolve without anybody stirring.

# claims: figure, less
dissolving-fades = At first { $first } a minute go, in the end { $last }.

# claims: figure, less
dissolving-stirred = The spoon goes round { $turns } times a minute. It brings fresh water to the grains and makes the layer that clings to them thinner, { $layer }.

# claims: figure
dissolving-stirred-plain = The spoon goes round { $turns } times a minute.

# claims: figure
dissolving-stirring = Up to { $rate } a minute dissolve. After { $lasts } { $dissolved } are dissolved.

# claims: figure, falls
dissolving-slowing = There is less room left in the water, and the grains are smaller ({ $size }), with less surface: in { $lasts } the rate falls from { $first } to { $last } a minute.

# claims: figure
dissolving-slowing-plain = In { $lasts } the rate goes from { $first } to { $last } a minute.

# claims: figure
dissolving-so-full = The water has { $share } of all the salt that it can hold.

# claims: figure, more
dissolving-full = This water can hold { $most } of salt, no more. { $rest } would stay undissolved, however long you stir; in the end { $left } are in grains.

# claims: figure, at most, same
dissolving-all = All of the salt, { $dissolved }, is dissolved, and none of it is gone. The water could hold { $most }.

# claims: figure, at most
dissolving-hardly = Hardly any more dissolves: { $left } are still in grains, though the water could hold { $most }.

## no claim: what the class does, no finding

dissolving-goes-in = The salt goes into the water and sinks to the bottom.

# claims: more
dissolving-first-turn = The spoon begins to stir.

# claims: at least
dissolving-half = Half of the salt is dissolved.

# claims: at most
dissolving-last-grain = The last grains are dissolved.

# claims: figure, at most
dissolving-nearly-full = Hardly any more dissolves now, and { $left } of salt are in grains.

# claims: figure
dissolving-what-is-left = In the end { $left } of salt are left in grains.

# claims: at most
dissolving-no-resting = stirring begins at once

# claims: at most
dissolving-nobody = nobody stirs

# claims: at least
dissolving-too-late = stirring would begin only after the time watched, or at its very end

# claims: at most
dissolving-all-before = all of the salt is dissolved before stirring begins

## no claim: why a stage is not there; that it is not there is checked where stages are found

dissolving-no-slowing = the rate has not fallen to half when the time is over
dissolving-no-slowing-quick = from one reading to the next the rate falls to next to nothing
# claims: figure
dissolving-no-full = salt is still dissolving after { $after }
