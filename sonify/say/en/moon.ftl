# claims: figure, rises
moon-grows = From { $since } to { $until } the lit part grows from { $from } to { $to } of the disc. At the start it changes by { $first } hundredths a day, at the end by { $last }.

# claims: figure, falls
moon-shrinks = From { $since } to { $until } the lit part shrinks from { $from } to { $to } of the disc. At the start it changes by { $first } hundredths a day, at the end by { $last }.

# claims: figure, same
moon-new-moon = { $date }: new moon. The lit side is turned away from us.

# claims: figure
moon-a-quarter-of-the-way = { $date }: a quarter of the days from new moon to full moon are over, and only { $lit } of the disc is lit.

# claims: figure
moon-half-lit-growing = { $date }: half moon, { $age } old, with { $lit } of the disc lit. It is half-way from new moon to full moon.

# claims: figure, same
moon-full-moon = { $date }: full moon, { $age } old. It stands opposite the Sun.

# claims: figure
moon-half-lit-shrinking = { $date }: half moon again, { $age } old, with { $lit } of the disc lit.

# claims: figure, same
moon-new-moon-again = { $date }: new moon again, after { $age }.

## plain: what the process is about, its stages and its conditions

moon-title = The Moon's month
moon-summary = From new moon to new moon: how much of the Moon is lit, and how far it has gone round from the Sun.

moon-stage-crescent-grows = The crescent grows
moon-stage-grows-to-full = From half moon to full moon
moon-stage-shrinks-from-full = From full moon to half moon
moon-stage-crescent-shrinks = The crescent shrinks

moon-seen-crescent-grows = from new moon until half of the disc is lit
moon-seen-grows-to-full = from then until the lit part is greatest
moon-seen-shrinks-from-full = from then until half of the disc is lit again
moon-seen-crescent-shrinks = from then until the next new moon

moon-condition-year = the year of the new moon
moon-condition-month = the calendar month in which the new moon is looked for, from its first day on

moon-quantity-lit-part = how much of the Moon's disc is lit
moon-quantity-dark-part = how much of the Moon's disc is dark
moon-quantity-pace-of-the-light = how much the lit part changes in a day, growing or shrinking
moon-quantity-way-round = how far the Moon has gone round from the Sun: 0° at new moon, 180° at full moon
moon-quantity-hours-behind-the-Sun = how many hours after the Sun it crosses the south
moon-quantity-age-of-the-Moon = days since new moon

## no claim: what the model is and leaves out

moon-honesty-1 = The formulae are the short ones of an astronomer's handbook: new, half and full moon come within an hour, and the lit part is right to half a hundredth of the disc. Dates are by universal time; where you live the Moon's moment may fall on the day before or after.
moon-honesty-2 = The Moon's way is tilted by 5° to the Sun's. That is left out here, and it is why there is no eclipse at most new and full moons.
moon-honesty-3 = Half-way in angle is half lit. The days are not quite even, because the Moon goes faster on the nearer side of its oval way: half moon comes up to a day before or after the middle of the days.
moon-honesty-4 = How bright moonlight is does not follow the lit part: a full moon is about ten times as bright as a half moon (from memory, not verified).
