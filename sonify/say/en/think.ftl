## plain: the dimensions of music that pupils write about, and what each means

think-tempo = Tempo
think-tempo-means = how fast or slow the beat is
think-pitch = Pitch
think-pitch-means = how high or low the notes are
think-dynamics = Dynamics
think-dynamics-means = how loud or soft the sound is
think-taps = How many taps
think-taps-means = few or many sounds
think-brightness = Brightness
think-brightness-means = a dark or a bright sound
think-timbre = Timbre
think-timbre-means = what kind of sound it is

## plain: how sentences about them may start

think-start-ours = Ours was
think-start-shows = This shows that
think-start-fits = Our sound fits because
think-start-like = It sounds like
think-end-shows = This shows that the
think-end-fits = Our sound fits because

## plain: two words to tick

think-fast = fast
think-slow = slow
think-high = high
think-low = low
think-loud = loud
think-soft = soft
think-many = many
think-few = few
think-bright = bright
think-dark = dark
think-ringing = ringing
think-short = short

## plain: words to compare with

think-more = more
think-less = less
think-warmer = warmer
think-colder = colder
think-bigger = bigger
think-smaller = smaller

## plain: questions to think about

think-backwards = What would you hear if we played the piece from the end to the start? What would it mean?
think-what-if = What if the { $quantity } were twice as big in “{ $stage }”? What would change in the music?
think-most-change = Where does the { $quantity } change most from one stage to the next? How do you hear it?
think-most-apart = Which two differ most in { $quantity }? How do you hear it?
think-fair = { $change } Why did we do that? Is it fair?
think-sentences = Write two sentences. Use three words from “Words to know”.
think-not-real = Our music is a model. Write one way in which it is not like the real thing.
think-same-beat = Ours was the same all through. Why is that fair?

## plain: where a table has nothing to tell

think-not-played = nobody plays it there
