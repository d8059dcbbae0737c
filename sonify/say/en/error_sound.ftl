## plain: errors: what is wrong with a sound of pupils' own

error_sound-name = a sound file lies beside this one: its name alone, without a folder, with one of the endings { $endings }
error_sound-twice = there are two sounds called { $name }; give each its own name
error_sound-unplayed = no part plays { $name }; write it among the sounds of a part, the first of them
error_sound-name-taken = "{ $name }" is an instrument already; give the sound a name of its own, such as "our { $name }"
error_sound-like-pitched = it cannot be written as { $like }, which has notes; name an instrument without, such as "egg shaker" or "hand drum"
error_sound-in-file = { $file }: { $told }
error_sound-too-large = larger than { $most } MB; keep the part of it that is to be heard, at most 10 seconds
error_sound-too-long = longer than { $most } seconds; keep the part of it that is to be heard
error_sound-silent = there is no sound in it, or next to none; record it again, nearer to the microphone
error_sound-unreadable = it cannot be read as a sound; save it as WAV, FLAC, OGG or MP3
error_sound-format = it is no WAV, FLAC, OGG or MP3 file; save it as one of these
error_sound-odd = { $rate } samples a second in { $channels } channels; allowed: 8000 to 192000, in up to 8 channels
error_sound-wanted = a sound is its name and its file, and how it is written and played: texts of up to 200 letters
error_sound-no-part = no part is called { $part }
error_sound-other-file = another part has a sound called { $name }, from another file; give this one another name
