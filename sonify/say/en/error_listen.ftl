## plain: what is wrong, said to the person who can mend it

error_listen-not-a-score = the pack's score.json is not one that sonify wrote. Make the pack again
error_listen-no-score = { $pack } has no score.json. Give the folder of a lesson pack that sonify made
error_listen-no-file = there is no file { $file }
error_listen-empty = { $file } is empty
error_listen-unreadable = { $file } is not a recording that can be read. Use WAV, FLAC, OGG, MP3, M4A, WebM or a video
error_listen-needs-av = { $file } is not WAV, FLAC, OGG or MP3. For a phone's M4A, for WebM and for videos one more library is needed: pip install "sonify[listen]"
error_listen-no-sound = { $file } has no sound in it
error_listen-odd = { $file } has { $rate } samples a second in { $channels } channels; { $low } to { $high } samples a second and at most 64 channels are read
error_listen-too-long = { $file } is longer than { $hours } hours. Cut out the part in which the class plays
error_listen-long-piece = this piece has { $bars } bars in { $minutes } minutes; recordings of pieces of up to { $most } minutes are measured
error_listen-other-pack = { $pack }: its pack.json and science.csv are not as sonify wrote them. Make the pack again
