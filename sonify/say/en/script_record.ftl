## plain: what the scripts of the page of the class's own recording write

script_record-bar = { $bar } of { $bars }
script_record-jump = Go to bar { $bar }
script_record-recording = Recording: { $time }. Press Stop when the piece is over.
script_record-preparing = The recording is made ready to be sent.
script_record-sending = The recording is handed over.
script_record-waiting = Waiting for a phone.
script_record-measuring = Measuring: { $doing }.
script_record-found = { $takes ->
        [one] The piece is in this recording.
       *[other] The piece is in this recording { $takes } times. The best take is measured.
    }
script_record-not-found = The piece was not found.
script_record-from-to = From { $start } to { $end } of the recording.
script_record-clipped = The recording is overdriven: its loudest moments are cut off. Put the recorder further away.
script_record-answer = { $answer ->
        [yes] Yes
       *[no] No
    }: { $why }.
script_record-because = Cannot be told, because { $why }.
script_record-untold = { $count ->
        [one] One question cannot be answered from this recording
       *[other] { $count } questions cannot be answered from this recording
    }
script_record-tempo = { $value } ({ $low } to { $high })
script_record-play-ours = Play ours
script_record-play-piece = Play the piece
script_record-stop-playing = Stop playing
script_record-stopped = Stopped. Nothing was kept.
script_record-no-microphone = The browser gave no microphone. Allow it for this page, or choose a recording.
script_record-no-answer = sonify does not answer. Is its window still open?
script_record-too-large = This recording is larger than { $most } MB. Send a shorter one, or one of the sound alone.
script_record-described = The science and your beat over { $bars } bars. The table below says the same.
