## plain: the page that leads to many packs

shelf-title = Lesson packs
shelf-counts =
    { $scenes ->
        [one] One scene
       *[other] { $scenes } scenes
    }, { $packs ->
        [one] one pack.
       *[other] { $packs } packs.
    } Open the page of a pack to hear and conduct it; read the teacher’s guide first.
shelf-by-year = By year
shelf-year = Year { $year }
shelf-topic = { $years }: { $topic }
shelf-ages = Ages { $youngest } to { $oldest }
shelf-stages = The stages, in order:
shelf-pack = For { $class }: Year { $year }, { $pupils } pupils
shelf-length = The piece lasts { $length }.
shelf-file = { $what }: { $scene }, for { $class }
shelf-page-html = classroom page
shelf-teacher-pdf = teacher’s guide
shelf-conductor-pdf = conductor
shelf-pupils-pdf = pupils’ sheets
shelf-poster-pdf = poster
shelf-soundscape-wav = recording
shelf-soundscape-mid = MIDI
shelf-score-musicxml = score for notation programs
