# claims: figure, falls
shadow-shrinks = From { $since } to { $until } the shadow shrinks from { $from } to { $to }, and the Sun climbs from { $low } to { $high }.

# claims: figure, falls, less
shadow-shrinks-slowly = From { $since } to { $until } the shadow shrinks more slowly, from { $from } to { $to }. The Sun climbs from { $low } to { $high }.

# claims: figure, rises
shadow-grows = From { $since } to { $until } the shadow grows from { $from } to { $to }, and the Sun sinks from { $low } to { $high }.

# claims: figure, rises, less
shadow-grows-slowly = From { $since } to { $until } the shadow grows again, slowly, from { $from } to { $to }. The Sun sinks from { $low } to { $high }.

# claims: figure, same
shadow-shortest = The shortest shadow, { $long }, with the Sun at its highest, { $high }.

# claims: figure, same, at most
shadow-none = There is next to no shadow. The Sun is at its highest, { $high }, straight above.

# claims: figure, at least
shadow-after-twelve = That is { $by } after twelve by the clock.

# claims: figure, at least
shadow-before-twelve = That is { $by } before twelve by the clock.

# claims: at most
shadow-at-twelve = On this day and at this place that is at twelve by the clock, to the minute.

# claims: figure, more
shadow-twelve = Twelve by the clock: the shadow is { $long } long. At its shortest it is { $shortest }.

# claims: figure, at most
shadow-twelve-alike = Twelve by the clock: the shadow is { $long } long, and a tape measure finds it no longer than the shortest.

# claims: figure, same
shadow-as-long = The shadow is as long as the stick, { $stick }. The Sun is { $high } high, half of a right angle.

# claims: figure, same
shadow-as-long-again = Once more the shadow is as long as the stick, { $stick }, and the Sun is { $high } high.

## plain: what the process is about, its stages and its conditions

shadow-title = The shadow of a stick
shadow-summary = The shadow of an upright stick through one day: how long it is, which way it points, and how high the Sun is seen.

shadow-stage-shrinking-fast = The shadow shrinks fast
shadow-stage-shrinking-slowly = The shadow shrinks slowly
shadow-stage-growing-slowly = The shadow grows slowly
shadow-stage-growing-fast = The shadow grows fast

shadow-seen-shrinking-fast = from the first look until the Sun is half-way up from there to its highest
shadow-seen-shrinking-slowly = from then until the shadow is shortest
shadow-seen-growing-slowly = from then until the Sun has come half-way down
shadow-seen-growing-fast = from then until the last look

shadow-condition-latitude = how far north the place lies; south of the equator is negative
shadow-condition-longitude = how far east of Greenwich the place lies; west of it is negative
shadow-condition-clock = how many hours the clock there is ahead of universal time: 0 in a British winter, 1 in summer time; behind is negative
shadow-condition-year = the year
shadow-condition-month = the month, 1 for January
shadow-condition-day = the day of the month
shadow-condition-stick = how high the stick stands
shadow-condition-lowest_sun = height of the Sun at the first and the last look: lower down the shadow is longer than a playground

shadow-quantity-shadow = length of the stick's shadow
shadow-quantity-height-of-the-Sun = height above the horizon at which the Sun is seen
shadow-quantity-pace-of-the-shadow = how much the shadow's length changes in a minute, shrinking or growing
shadow-quantity-tip-to-the-east = how far east of the stick the tip of the shadow lies; west is negative
shadow-quantity-tip-to-the-north = how far north of the stick the tip of the shadow lies; south is negative

## no claim: what the model is and leaves out

shadow-honesty-1 = The ground is level, the stick is upright and the sky is clear. A slope, a leaning stick or a house in the way makes other shadows.
shadow-honesty-2 = The Sun is half a degree wide, so a shadow has a soft edge: its tip can be marked to a centimetre or so, no better. The length told is to the middle of that edge.
shadow-honesty-3 = The air lifts the Sun a little to the eye. That is in the figures, for ordinary air: a tenth of a degree at 10°, and less when the Sun is higher.
shadow-honesty-4 = The Sun's place is good to two hundredths of a degree and the time of the shortest shadow to half a minute or so. No class can mark that: unless the Sun is straight above, the shadow's length hardly changes for a quarter of an hour around its shortest.
shadow-honesty-5 = Why it is not at twelve: clocks keep one time for a wide stretch of land, summer time puts them on by an hour, and the Sun itself runs up to a quarter of an hour ahead or behind through the year.
shadow-honesty-6 = Where one stage ends and the next begins is our own choice: half-way up the Sun's climb, at its highest, and half-way down.
