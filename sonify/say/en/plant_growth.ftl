# claims: figure, rises
plant_growth-slow = From day { $since } to day { $until } the plant grows from { $from } to { $to }. It grows a little faster every day: in the end { $pace }.

# claims: figure, greatest, rises
plant_growth-quick = Now it grows fastest, by up to { $most }: from day { $since } to day { $until } from { $from } to { $to }.

# claims: figure, rises
plant_growth-quick-alone = It grows by up to { $most }: from day { $since } to day { $until } from { $from } to { $to }.

# claims: figure, falls
plant_growth-slowing = From day { $since } to day { $until } it still grows, from { $from } to { $to }, but less and less: in the end { $pace }.

# claims: figure, falls
plant_growth-grown = From day { $since } to day { $until } it hardly grows any more, from { $from } to { $to }: in the end { $pace }. It is { $left } short of its full height.

# claims: figure
plant_growth-goes = From day { $since } to day { $until } it grows from { $from } to { $to }.

# claims: figure
plant_growth-stays = From day { $since } to day { $until } it is { $height } tall.

# claims: figure, same
plant_growth-fastest = Day { $day }: it grows fastest, by { $growth }. It is { $height } tall, which is { $share } of its full height.

# claims: figure
plant_growth-too-late = it is over before the first day: the plant grows fastest { $fastest } after it, and is watched for { $days }

# claims: figure
plant_growth-too-early = the plant is watched for { $days } and grows fastest after { $fastest }, so this does not come, or is over, while it is watched

## plain: what the process is about, its stages and its conditions

plant_growth-title = A plant grows
plant_growth-summary = How tall a plant is, day by day: slow at first, quickest in the middle, and then less and less.

plant_growth-stage-slow-start = A slow start
plant_growth-stage-quick-middle = The quick middle
plant_growth-stage-slowing-down = Slowing down
plant_growth-stage-nearly-grown = Nearly grown

plant_growth-seen-slow = from the first day until it grows by { $share } of its fastest
plant_growth-seen-quick = while it grows by { $share } of its fastest or more
plant_growth-seen-slowing = from then until it grows by { $share } of its fastest
plant_growth-seen-nearly-grown = from then on

plant_growth-condition-curve = how it grows: logistic is fastest at half of its full height, gompertz earlier, at 37 hundredths of it
plant_growth-condition-final_height = the height that it comes to
plant_growth-condition-rate = how steep its curve is: about four times the share of its full height that it grows in its fastest day
plant_growth-condition-fastest_day = days from the first reading to the fastest growth
plant_growth-condition-days = how many days it is watched

plant_growth-quantity-height = how tall it is
plant_growth-quantity-growth-a-day = how much it grows in a day
plant_growth-quantity-still-to-grow = how much is missing to its full height
plant_growth-quantity-share-of-full-height = how much of its full height it has
plant_growth-quantity-day = days since the first reading

## no claim: what the model is and leaves out

plant_growth-honesty-1 = The curve is a rule that fits, not a cause. It was fitted to sunflowers that were measured each week for twelve weeks in 1919 and misses their mean heights by three centimetres or so; other plants have other numbers, and yours have their own.
plant_growth-honesty-2 = Real plants grow in jerks, by night and day, sun and rain. A short cold spell, a dry week or a slug are not in the curve.
plant_growth-honesty-3 = The full height is what the curve comes to. A plant that is still growing does not tell it: fitted too early, the curve can be wrong by a lot.
plant_growth-honesty-4 = Only height is told. A plant also grows leaves and roots, flowers and seeds, and goes on with those when it has stopped growing taller.
