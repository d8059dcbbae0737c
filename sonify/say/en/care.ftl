## plain: cautions that every lesson needs, added to what the scene says

care-sound-same = Play recordings no louder than ordinary speech, and stop when anyone raises a voice, covers the ears or hears ringing.
care-sound-adds =
    The level at a pupil's ear depends on loudspeaker and room, and no file can limit it. { $instruments ->
        [yes] Keep beaters away from faces, and ears from drums, cymbals and sounding bars; give quiet breaks
       *[no] Give quiet breaks
    }, and ear defenders or a seat further off to those who want them.
care-heat-same = Kettles, steam, flames and hot liquids, should you show any, are for the teacher alone. Wipe up spills and keep electrical things dry.
care-heat-adds = Hot liquid can scald for up to half an hour: away from edges, out of reach, cooled before it is moved.
care-instruments = Instruments: two pupils carry a heavy xylophone. Beaters go down at the stop signal. Rain sticks and cymbals are put down, not dropped. Ask pupils with hearing aids beforehand what suits them.
care-bodies = Clap and pat softly: hands and thighs should not sting. Ask pupils with hearing aids beforehand what suits them.
care-both = { $same } { $adds }
