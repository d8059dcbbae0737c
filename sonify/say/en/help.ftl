## plain: what a command does

help-sonify = Turn a science process into a soundscape that your class can play.
help-command-scenes = List the ready-made scenes.
help-command-show = Show the science, the key from science to sound, and the arrangement; with --set, what that changes.
help-command-check = Check the science, what the ear can tell apart, what the class can play, and how loud it is.
help-command-make =
    Make the lesson pack: recording, MIDI, score, sheets and classroom page in one folder.

    Several scenes, or --classes, make many packs: each goes to SCENE/CLASS below --out, and index.html there leads to all.
    Stopped at any moment, the same command goes on. The exit status is 2 where one of them could not be made.
help-command-redeal = Deal a pack out again on the day: pupils absent, an instrument broken. Says what to write on which card.
help-command-listen =
    Measure a recording of your class against its pack; nothing of it is kept.

    Follow your school’s policy before you record pupils.
help-command-play =
    Play the piece, with the conductor's cues in the terminal.

    Keys: space pauses and goes on, n is the next stage, b the stage before, r this stage again, q stops.
help-command-sounds = List every instrument and background; with --out, record them all in turn, to listen to.
help-command-new = Write NAME.toml: a commented scene file of your own that already makes a pack, of any process.
help-command-measure = Make a scene of your own table: FILE.toml beside FILE, and say what was understood and what was guessed.
help-command-serve = Open the classroom page in the browser: plan, hear, conduct and print. Ctrl-C stops it.

## plain: what an argument or an option is

help-argument-scene = A ready-made scene's name, or a scene file.
help-argument-scenes = A ready-made scene's name, or a scene file; several make several packs.
help-argument-pack = The folder of a pack.
help-argument-recording = WAV, FLAC, OGG or MP3; with the extra “listen” also M4A, WebM and videos.
help-option-out-listen = A new folder for a sheet to print, a table and JSON. The recording is not copied there.
help-option-absent = How many are absent: 3, or "2 in group 4". May be repeated.
help-option-broken = What is broken: triangle, or "2 triangles". May be repeated.
help-option-class-of-pack = The class file that the pack was made with; left out, the well-stocked class.
help-option-scene-of-pack = The scene file, where the pack was made from one of your own.
help-option-out-redeal = A new folder for today's cards, to print them anew.
help-option-class = Your class file; left out, a well-stocked class.
help-option-classes = A folder of class files: a pack for each of them.
help-option-all-scenes = Every ready-made scene.
help-option-scheduler = Have several packs made by the workers of the dask scheduler at this address, such as tcp://192.168.1.5:8786 (needs pip install "sonify[cluster]").
help-option-seed = Another number scatters the taps differently.
help-option-set = Set a condition of the scene for this run. May be repeated.
help-option-json = Print for machines.
help-option-all = Everything, not only what fits a screen.
help-option-version = Print the version and stop.
help-option-heard = Also listen to the recording, and judge what can be told from it.
help-option-out = The pack's folder; left out, the scene's name, here. Of several packs, the folder they lie in.
help-option-scaffold = How much pupils are given: everything, a part, or an open frame.
help-option-replace = Overwrite files of the pack that were changed by hand; keep added ones.
help-option-audio = Also as flac, ogg, mp3 or wav24. May be repeated.
help-option-without = Also a recording without this group, to play against. May be repeated.
help-option-click = Also a recording with a click on every beat.
help-option-no-stems = Leave out the recordings of single groups: a pack a tenth the size.
help-option-for-keyboard = Also MIDI files that play unpitched parts on keys of a keyboard.
help-option-no-count-in = Let the groups' MIDI files begin at bar 1, without the count-in.
help-option-paper = The paper of every sheet.
help-option-large-print = Every sheet at 18 points and up, not the pupils' sheets alone.
help-option-also = Also print: chart, words, words-help, thinking, listening or pictures. May be repeated.
help-option-note-names = Letters under the notes of the score, for beginners.
help-option-out-2 = Record them, one after the other, with a marker at each.
help-argument-name = The new scene's name.
help-option-process = Its science; left out, a day of the water cycle.
help-argument-file = A table of your own: a CSV, an .xlsx or .ods spreadsheet, a log.
help-option-changed = What you changed, by the heading of its column.
help-option-measured = What you measured; once for each. Or a name for it.
help-option-repeats = A column that is a repeat; once for each.
help-option-groups = The column of words that you compare, or each column compared.
help-option-title = The title of the scene.
help-option-sheet = The sheet or the table, where the file has several.
help-option-model = Lays your readings beside what a model says: pendulum, fall, sound-level, plant-growth or shadow.
help-option-port = Another port; 0 takes any free one.
help-option-share = Let other machines of your network in, with a code that is printed.
help-option-no-browser = Do not open the browser.
