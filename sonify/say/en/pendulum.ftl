# claims: figure
pendulum-first = A bob of { $mass } on { $length } of thread, let go at { $release }: one swing there and back takes { $period }. So it crosses the middle { $crossings } times a minute.

# claims: figure, more, same
pendulum-mass =
    Only the bob is changed, to a { $way ->
        [heavier] heavier
       *[lighter] lighter
    } one: { $now } and not { $before }. One swing takes just as long as before, { $period }.

# claims: figure, more
pendulum-release =
    Only the angle is changed, to a { $way ->
        [wider] wider
       *[narrower] narrower
    } swing: let go at { $now } and not at { $before }. One swing takes { $period }, where it took { $was }.

# claims: figure, more, same
pendulum-release-same =
    Only the angle is changed, to a { $way ->
        [wider] wider
       *[narrower] narrower
    } swing: let go at { $now } and not at { $before }. One swing takes as long as before, as near as can be timed: { $period }.

# claims: figure, more
pendulum-length =
    Only the thread is changed, to a { $way ->
        [longer] longer
       *[shorter] shorter
    } one: { $now } and not { $before }. One swing takes { $period }, where it took { $was }: { $times } times the length, { $slower } times the time.

# no claim: why a trial is not there; that it is not there is checked where stages are found
pendulum-unchanged = { $changed } is as in the first swing, or so close to it that nobody could tell them apart

## plain: what is changed in a trial, inside a sentence

pendulum-changed-mass = the bob
pendulum-changed-release = the angle at which it is let go
pendulum-changed-length = the thread

## plain: what the process is about, its stages and its conditions

pendulum-title = Pendulum and swing
pendulum-summary = One swing after another, with one thing changed each time: the mass, how far out it is let go, the length.

pendulum-stage-first-swing = The first swing
pendulum-stage-other-mass = Another bob
pendulum-stage-other-release = Let go at another angle
pendulum-stage-other-length = Another length

pendulum-seen-first-swing = as the conditions set it up
pendulum-seen-other-mass = the same with another mass, where it differs by more than a hundredth
pendulum-seen-other-release = the same, let go at another angle, where it differs by more than a hundredth
pendulum-seen-other-length = the same with another length, where it differs by more than a hundredth

pendulum-condition-length = length of the pendulum at first, from the hook to the middle of the bob
pendulum-condition-mass = mass of the bob at first
pendulum-condition-release = angle to the upright at which the bob is let go at first
pendulum-condition-other_mass = mass of the bob when only that is changed
pendulum-condition-other_release = angle at which it is let go when only that is changed
pendulum-condition-other_length = length when only that is changed
pendulum-condition-gravity = pull of gravity: 9.81 m/s² on the Earth, 1.62 m/s² on the Moon
pendulum-condition-watch = how long each swing is watched

pendulum-quantity-time-of-a-swing = time of one swing there and back
pendulum-quantity-crossing-rate = how often a minute the bob crosses the middle: twice in each swing there and back
pendulum-quantity-length = length from the hook to the middle of the bob
pendulum-quantity-mass = mass of the bob
pendulum-quantity-release-angle = angle to the upright at which the bob is let go
pendulum-quantity-height-of-release = how much higher than its lowest place the bob is let go
pendulum-quantity-speed-at-the-bottom = speed of the bob as it passes its lowest place

## no claim: what the model is and leaves out

pendulum-honesty-1 = The time of a swing is exact for a small heavy bob on a thin thread in still air, at any angle up to a right angle. The short formula of school books, 2π times the root of length over gravity, holds for small swings: at 10° it is 0.2 % short, at 30° 1.7 %, at 90° 18 %.
pendulum-honesty-2 = The air and the hook take a little from every swing, so a real pendulum swings less and less far. That hardly changes its time, and the model leaves it out.
pendulum-honesty-3 = A swing with a child on it is no thin thread with a small bob: its length reaches to the middle of the body, and whoever moves on it changes it. Taken as a pendulum it is right to about a tenth.
pendulum-honesty-4 = Each trial is watched equally long; in the piece each is as long as its stage.
