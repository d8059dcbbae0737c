## plain: errors: what is wrong with a pattern of pupils' own in a scene file

error_pattern-box = { $stray } stands in a box. Allowed: x for a sound, - where it goes on, a full stop for silence, spaces between beats
error_pattern-no-boxes = no boxes; write x for a sound, - where it goes on and a full stop for silence, such as "x. xx x. x."
error_pattern-holds-nothing = { $text }: a - goes on from nothing; a sound begins with x, in every bar anew
error_pattern-how-many-boxes = { $boxes } boxes do not share out over a bar of { $metre }. Allowed: { $allowed }
error_pattern-no-sound = no sound in any box; put an x where one begins
error_pattern-how-many-notes =
    { $notes ->
        [one] one note
       *[other] { $notes } notes
    } for { $sounds ->
        [one] one sound
       *[other] { $sounds } sounds
    }; give one note for each x, or leave the line out
error_pattern-not-in-key = { $note } is not in { $scale }. Allowed: { $allowed }
error_pattern-two = { $part } has a pattern already, table { $first } of [[pattern]]; keep one of them
error_pattern-wanted = a pattern is its boxes, its notes where it has any, and a name: texts of up to 100 letters
