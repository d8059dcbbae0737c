# claims: figure
pulse-resting = At rest the pulse is { $pulse } a minute. In this stage the heart beats { $beats } times in { $lasts }.

# claims: figure, rises
pulse-quickening = The muscles ask for more blood, and in { $lasts } the pulse goes from { $from } to { $to } a minute.

# claims: figure
pulse-from-to = In { $lasts } the pulse goes from { $from } to { $to } a minute.

# claims: figure
pulse-near = For { $lasts } the pulse is close to { $pulse } a minute.

# claims: figure, steady
pulse-working = For { $lasts } the pulse stays near { $pulse } a minute: { $beats } heartbeats.

# claims: figure, same, falls
pulse-recovering = The exercise is over. In { $lasts } the pulse drops from { $from } to { $to } a minute.

# claims: figure, same
pulse-recovering-hardly = The exercise is over. For { $lasts } the pulse is still close to { $pulse } a minute.

# claims: figure, more, falls
pulse-settling = The nearer to rest, the slower it drops: in { $lasts } from { $from } to { $to } a minute.

# claims: figure, at most
pulse-rested = For the last { $lasts } the pulse stays near rest: { $pulse } a minute at the end.

# claims: figure
pulse-begins = The exercise begins, after { $after } of rest.

# claims: figure, same
pulse-ends = The exercise ends. The pulse is highest: { $pulse } a minute.

# claims: figure
pulse-count = Since the start the heart has beaten { $beats } times.

# claims: figure, at most
pulse-too-short-to-rise = { $exercise } of exercise are over before the pulse has begun to rise clearly

# claims: figure
pulse-too-short-to-quicken = { $exercise } of exercise are over when the pulse has only just begun to rise

# claims: figure
pulse-too-short-to-get-there = { $exercise } of exercise are too short for the pulse to get where it is going

# claims: figure
pulse-too-short-for-half = { $recovery } of rest are too short for half of the extra beats to go

# claims: figure
pulse-too-short-to-come-back = { $recovery } of rest are too short for the pulse to come back

## plain: what the process is about, its stages and its conditions

pulse-title = Pulse and exercise
pulse-summary = A heart at rest, in exercise and in recovery; the recovery is what the class measures.

pulse-stage-resting = The heart at rest
pulse-stage-quickening = The pulse quickens
pulse-stage-working = The heart works hard
pulse-stage-recovering = The pulse drops
pulse-stage-settling = The pulse drops more slowly
pulse-stage-rested = Nearly at rest again

pulse-seen-resting = until { $share } of the whole rise is done
pulse-seen-quickening = from then until { $share } of the whole rise is done
pulse-seen-working = from then until the exercise ends
pulse-seen-recovering = from the end of the exercise until half of the extra pulse is gone
pulse-seen-settling = from then until { $share } of the extra pulse is left
pulse-seen-rested = from then to the end

pulse-condition-resting_pulse = pulse at rest; left out, half way between the published means of boys and girls of 9 to 11
pulse-condition-exercise_pulse = pulse that this exercise leads to if it goes on; measure it
pulse-condition-rise_half_time = time until half of the rise is done; measure it
pulse-condition-recovery_half_time = time after exercise until half of the extra pulse is gone; measure it, no published figure is given
pulse-condition-rest = time sitting still at the start
pulse-condition-exercise = how long the exercise lasts
pulse-condition-recovery = time sitting still afterwards

pulse-quantity-pulse = how many times the heart beats in a minute
pulse-quantity-extra-pulse = how much faster the heart beats than at rest
pulse-quantity-time-between-beats = time from one heartbeat to the next
pulse-quantity-effort = nothing while sitting still, all of this exercise while moving
pulse-quantity-heartbeats = heartbeats counted since the start
pulse-whose = one pupil


## no claim: what the model is and leaves out, from its sources

pulse-honesty-published = Only the resting pulse is a published figure: UK children of 9 to 11 had 78.7 beats a minute (boys) and 82.2 (girls) on average, and healthy children lie well above and below. No pulse here says whether a child is well.
pulse-honesty-measure = How fast the pulse rises and falls differs from child to child, and no figure for children was found that could be printed here. The class measures it: the time until half of the extra beats are gone.
pulse-honesty-curves = The way up and the way down are single exponential curves. That describes gentle exercise fairly well and the hardest badly: after it the first drop is steeper and the rest takes longer.
pulse-honesty-smooth = A real pulse is never so smooth. It changes with every breath, with excitement, and with standing up.
pulse-honesty-beat = A tempo can be the pulse itself: where the key takes a beat of the bar for a heartbeat, the beat is not exaggerated. Every other sound is chosen.
