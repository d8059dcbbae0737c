"""From a scene and a class to a Lesson: computed, mapped to sound, arranged, checked. Writes nothing."""

from __future__ import annotations

from dataclasses import replace as replaced

from sonify.arrange import arrange, bars_held, playability, within_reach
from sonify.errors import SonifyError
from sonify.facts.authored import authored_findings, false_claims
from sonify.facts.cautions import caution_findings, needed
from sonify.facts.comparison import Comparison, comparison
from sonify.facts.evidence import Evidence
from sonify.facts.fitting import fitted_to_class, fitted_to_conditions, not_heard, not_so, of_missing_stages
from sonify.facts.tied import tied_to_music, tied_to_science, without
from sonify.facts.truth import true_controls, true_findings, true_score, true_timeline
from sonify.frozen import dataclass
from sonify.mapping import MappedRules, map_scene
from sonify.processes import process_of
from sonify.processes.experiment_advice import advice
from sonify.records.classroom import Classroom, with_sounds
from sonify.records.controls import Controls
from sonify.records.fact import fact, facts_in, wrong
from sonify.records.findings import Finding
from sonify.records.heard import HeardRule
from sonify.records.lesson import Lesson, Source
from sonify.records.played import played_db
from sonify.records.process import ProcessSpec
from sonify.records.scene import Scene
from sonify.records.score import Score
from sonify.records.timeline import Timeline
from sonify.science.sources import SOURCES
from sonify.sound.balance import played_levels
from sonify.study.names import ties_si
from sonify.study.reading import ClassLike, SceneLike, catalogue, load, load_class, of_other_readings
from sonify.study.simulation import simulate


def mapped(scene: Scene, timeline: Timeline) -> Controls:
    """The scene's rules at work on its science."""
    return map_scene(scene.sounding(), timeline, process_of(scene))[0]


def compared(scene: Scene, timeline: Timeline | None = None) -> Comparison:
    """What the changes for this run did to the science. timeline: the scene's own, where it is there already."""
    return comparison(scene.changes, simulate(scene.as_written()), timeline or simulate(scene))


def study(
    scene: SceneLike,
    classroom: ClassLike = None,
    *,
    seed: int = 0,
    scaffold: str = "full",
    timeline: Timeline | None = None,
    before: Scene | None = None,
) -> Lesson:
    """One scene for one class: computed, mapped to sound, arranged and checked. Writes nothing.

    timeline: the scene's own, where it is there already. before: the scene as its author wrote it, where conditions or
    rules were changed in its text since. Raises SonifyError for a seed below 0.
    """
    check_seed(seed)
    scene, classroom = load(scene), load_class(classroom)
    classroom = with_sounds(classroom, scene.sounds)
    process = process_of(scene)
    stages = [stage.name for stage in process.stages]
    timeline, untrue = true_timeline(timeline or simulate(scene))
    computed = Evidence(timeline=timeline, rules=scene.rules)
    own = {*scene.texts()} - {*(before or scene).texts()}
    shipped = of_other_readings(scene)
    if shipped is not None:
        own |= {*scene.texts()} - {*shipped.texts()}
    scene = tied_to_science(scene, dict(timeline.conditions), ties_si(process, scene), stages, computed)
    scene, doubtful = fitted_to_conditions(
        scene, before or scene.as_written(), stages, computed, own, readings=shipped is not None
    )
    made = arranged_for(scene, timeline, classroom, seed=seed, scaffold=scaffold)
    scene, controls, score, arranged, heard = made.scene, made.controls, made.score, made.findings, made.heard
    if scene.sounds:
        used = {row.id for row in score.instruments}
        score = replaced(score, sounds=tuple(sound for sound in scene.sounds if sound.id in used))
    played_by_all = scene
    scene = fitted_to_class(scene, score, controls)
    scene = replaced(scene, rules=tuple(rule for rule in scene.rules if not scene.set_aside(rule)))
    # the key tells of what is played
    retold = scene.parts != played_by_all.parts or scene.rules != played_by_all.rules
    score, unplayed = true_score(score, timeline, played_by_all.rules)
    score = replaced(score, levels=played_levels(score))
    if scaffold == "full":  # else the piece is not all there, and nobody knows yet
        loose = tied_to_music(scene, stages, Evidence(timeline=timeline, score=score, rules=scene.rules))
        played_by_all, score = without(played_by_all, score, loose)
        scene, _ = without(scene, score, loose)
        retold = retold or bool(loose)
    unused = [each for each in heard if _little_used(each)]  # by the stages that the author gave, not the class
    controls, heard = _as_played(scene, timeline, process, classroom, score, None if retold else made)
    playing = {"", *(plan.name for plan in scene.parts)}
    heard = (*(each for each in heard if not _little_used(each)), *(each for each in unused if each.part in playing))
    evidence = Evidence(timeline=timeline, score=score, rules=played_by_all.rules)
    controls, unmapped = true_controls(controls, evidence)
    lacking = needed(process, dict(timeline.conditions), scene.cautions)
    false = false_claims(scene, stages, evidence, whole=scaffold == "full")
    unheard = not_heard(played_by_all, score) if scaffold == "full" else ()
    missing = of_missing_stages(played_by_all, stages, score)
    scene = replaced(scene, remarks=(*scene.remarks, *not_so(played_by_all, false), *missing, *unheard))
    claimed = (*doubtful, *authored_findings(scene, false))
    return Lesson(
        scene=scene,
        process=process,
        timeline=timeline,
        controls=controls,
        classroom=classroom,
        score=score,
        findings=(
            *caution_findings(lacking),
            *untrue,
            *unplayed,
            *unmapped,
            *true_findings(
                (*_read_findings(scene), *claimed, *heard, *arranged, *playability(score, classroom)), evidence
            ),
        ),
        sources=sources_of(process),
        seed=seed,
        scaffold=scaffold,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Arranged:
    """A piece as a class plays it. scene: with its rules for pitch as far as the class's instruments go. findings: of
    the arrangement; heard: of what the ear can tell apart by the rules alone. once: what each rule was mapped to."""

    scene: Scene
    controls: Controls
    score: Score
    findings: tuple[Finding, ...]
    heard: tuple[Finding, ...]
    once: MappedRules


def arranged_for(
    scene: Scene, timeline: Timeline, classroom: Classroom, *, seed: int = 0, scaffold: str = "full"
) -> Arranged:
    """A scene mapped and arranged; once more by rules that are drawn in, where that wins notes that were held."""
    rows = catalogue().with_own(classroom.own)
    process, youngest = process_of(scene), classroom.youngest_age

    def made(of: Scene) -> Arranged:
        sounding = of.sounding()
        once: MappedRules = {}
        controls, heard = map_scene(sounding, timeline, process, youngest=youngest, once=once)
        score, findings = arrange(sounding, timeline, controls, classroom, rows, seed=seed, scaffold=scaffold)
        return Arranged(scene=of, controls=controls, score=score, findings=findings, heard=heard, once=once)

    first = made(scene)
    rules, drawn_in = within_reach(scene, first.score, first.findings)
    if not drawn_in:
        return first
    near = made(replaced(scene, rules=rules))
    if bars_held(near.findings) >= bars_held(first.findings):
        return first
    return replaced(near, findings=(*drawn_in, *near.findings))


def _as_played(
    scene: Scene,
    timeline: Timeline,
    process: ProcessSpec,
    classroom: Classroom,
    score: Score,
    mapped: Arranged | None,
) -> tuple[Controls, tuple[Finding, ...]]:
    """The rules mapped once more, those of dynamics judged by how loud the recording plays.

    mapped: what was mapped before the piece was arranged, while it still holds: it does for all rules but those.
    """
    ruled = [part for part in score.group_parts if "dynamics" in part.ruled]
    if mapped is not None and not ruled:
        return mapped.controls, mapped.heard
    names = {scene.plan_name(part.name) for part in ruled}
    played = {name: played_db(score, [part for part in ruled if scene.plan_name(part.name) == name]) for name in names}
    youngest = classroom.youngest_age
    once = mapped.once if mapped is not None else None
    return map_scene(scene, timeline, process, youngest=youngest, played=played, calm=score.gentle, once=once)


def _little_used(finding: Finding) -> bool:
    return any(each.message == "rule-little-used" for each in facts_in(finding.message))


def check_seed(seed: int) -> None:
    if seed < 0:
        raise SonifyError(wrong("error_files-seed-give-whole", seed=seed))


def _read_findings(scene: Scene) -> tuple[Finding, ...]:
    """What was noticed in the class's readings, and what was changed for this run."""
    noticed = scene.table.findings if scene.table is not None else ()
    advised = advice(scene.experiment) if scene.experiment is not None else ()
    changes = (
        Finding(
            kind="science",
            message=fact(
                "science-set-for-this-run",
                condition=change.name,
                after=change.after.text,
                known="yes" if change.before else "no",
                before=change.before.text if change.before else "",
            ),
            fix="",
            where=change.name,
            serious=False,
        )
        for change in scene.changes
    )
    gone = (
        Finding(
            kind="data",
            message=fact("play-own-sound-gone", name=sound.name, like=catalogue()[sound.like].called),
            fix=fact("play-own-sound-choose"),
            where=sound.file,
        )
        for sound in scene.sounds
        if not sound.pcm
    )
    return (*noticed, *advised, *changes, *gone, *_drawn_findings(scene))


def _drawn_findings(scene: Scene) -> tuple[Finding, ...]:
    """What nobody measured or computed."""
    if not scene.drawn:
        return ()
    told = fact("drawn-these", quantities=tuple(each.name for each in scene.drawn))
    return (Finding(kind="science", message=told, fix="", where="drawn", serious=False),)


def compose(scene: SceneLike, classroom: ClassLike = None, seed: int = 0, *, scaffold: str = "full") -> Score:
    """The Score of a scene for a class: what is played, and by whom."""
    return study(scene, classroom, seed=seed, scaffold=scaffold).score


def sources_of(process: ProcessSpec) -> tuple[Source, ...]:
    """The published sources a process rests on, for the teacher's sheet."""
    return tuple(SOURCES[key] for key in process.sources)


def check(scene: SceneLike, classroom: ClassLike = None, *, seed: int = 0) -> tuple[Finding, ...]:
    """Every finding on science, audibility and playability, and on loudness as measured in the rendered mix."""
    from sonify.recording import loudness_findings, rendered

    lesson = study(scene, classroom, seed=seed)
    with rendered(lesson.score) as rendering:
        return (*lesson.findings, *loudness_findings(rendering))


def listened(
    scene: SceneLike, classroom: ClassLike = None, *, seed: int = 0
) -> tuple[tuple[Finding, ...], tuple[HeardRule, ...]]:
    """`check`, and what an outsider hears in the recording: its findings besides, and a row for each rule and part."""
    from sonify.hearing import Recording, heard_findings, recovered, told_of
    from sonify.recording import loudness_findings, played

    lesson = study(scene, classroom, seed=seed)
    told = told_of(lesson)
    with played(lesson.score) as sound:
        recording = Recording(sound.mix, sound.stems, sound.rate_hz, sound.ears, sound.places)
        rows = recovered(told, recording)
        heard = heard_findings(told, rows, recording)
        return (*lesson.findings, *loudness_findings(sound.rendering), *heard), rows
