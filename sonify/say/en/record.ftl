## plain: the page of the class's own recording: headings, labels, buttons, instructions

record-our-recording = Our recording
record-heading = Did we play the science?
record-policy = Children’s voices are personal data: follow your school’s policy before you record. The recording stays on this computer, is deleted once it is measured, and no pupil is named.
record-needs-javascript = This page needs JavaScript, and it is switched off here. The command “sonify listen” does the same in a terminal.
record-bring = Bring a recording of the class
record-choose = Choose a recording
record-drop = or drop it here: a phone’s recording, WAV, MP3, FLAC, OGG, or a film with its sound
record-microphone = Record here
record-microphone-told = With this computer’s microphone, as it is: nothing in it is filtered or levelled. Put the computer where the conductor stands.
record-level = How loud it is
record-phone = Wait for a phone
record-phone-told = Press this. Then, on the phone, open
record-stop = Stop
record-listen-both = Listen to both
record-from-bar = From bar
record-play-ours = Play ours
record-play-piece = Play the piece
record-gone = The recording came from elsewhere and is deleted: to hear it again, play it on the phone.
record-stages = Stage by stage
record-written = Written, beats a minute
record-yours = Yours, beats a minute
record-kept = Measured with simulated classes only, never yet with a real one: trust your ears, too.
record-arriving = the recording is on its way

## plain: the page that a phone shows

record-send-title = Send a recording
record-send-told = Choose the recording of the class. It goes to the teacher’s computer, where it is measured and deleted.
record-send = Send it
record-send-file = Recording
record-sent = It has arrived. Look at the teacher’s screen.
record-sending = It is being sent.
record-send-silent = The teacher’s computer does not answer. Is the phone in the same network?
