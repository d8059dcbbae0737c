## plain: what the cupboard lacks, what plays instead, and what to do

cupboard-empty = The cupboard is empty: the piece is for body percussion and voices.
cupboard-list-it = List what the music cupboard holds in the class file to use it.
cupboard-list-it-on-page = Tick what the music cupboard holds, in “Your class”, to use it.
cupboard-swap = { $given } instead of { $wanted }: { $reason }.
cupboard-change-sounds = Change the cupboard, or the part's list of sounds.
cupboard-has-no = the cupboard has no { $instrument }
cupboard-taken = group { $group } plays the { $instruments }, and two groups should not sound the same
cupboard-too-loud = the class needs no sudden loud sounds
cupboard-unsuited = { $instruments } do not suit a { $texture }
cupboard-one-sound = { $instruments } have one sound, and the part gets darker and brighter
cupboard-no-notes = { $instruments } have no notes, and this part follows a pitch
cupboard-too-few = the cupboard has { $have } of { $needed } that the group needs
cupboard-like-another = { $instruments } would sound too much like another group
cupboard-same = { $one } and { $other } both play { $first }: hard to tell apart by ear.
cupboard-alike = { $one } and { $other } play { $first } and { $second }, which sound alike: hard to tell apart by ear.
cupboard-compared = { $parts } are compared, so they play { $instruments }: only the notes differ.
cupboard-seat-compared = Seat the groups far apart, so that it can be heard which is which.
cupboard-seat-apart = Seat the two groups far apart, or add another kind of instrument to the cupboard.
