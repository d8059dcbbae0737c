"""Whether what the scene's author claims holds in this very lesson. The sentences are the author's: they stay, and the
teacher's sheet says beside a false one that it is not so."""

from __future__ import annotations

from collections.abc import Collection

from sonify.facts.evidence import Evidence, NoEvidence
from sonify.facts.verdicts import VERDICTS
from sonify.kinds.readings import SCIENCE
from sonify.records.fact import Claim, Reading, fact
from sonify.records.findings import Finding
from sonify.records.scene import AuthoredClaim, Measure, Scene
from sonify.units import convert


def false_claims(
    scene: Scene, stages: Collection[str], evidence: Evidence, *, whole: bool = True
) -> tuple[AuthoredClaim, ...]:
    """The claims that do not hold. stages: all that the process may find.

    whole: nothing is left for pupils' own ideas; else the piece is not all there, and claims on it are not judged.
    """
    quantities = {quantity.name for quantity in evidence.timeline.quantities}
    known = (claim.known(quantities, stages) for claim in scene.claims)
    judged = (each for each in known if each is not None and (whole or each.how in SCIENCE))
    return tuple(each for each in judged if not holds(each, evidence))


def authored_findings(scene: Scene, false: Collection[AuthoredClaim]) -> tuple[Finding, ...]:
    """A problem for each claim that does not hold."""
    return tuple(_finding(scene, each) for each in false)


def holds(claim: AuthoredClaim, evidence: Evidence) -> bool:
    """Whether a claim holds. Of a stage that never came nothing is said, so nothing is false."""
    came = {stage.name for stage in evidence.timeline.stages}
    if not {name for name in (claim.stage, claim.than) if name} <= came:
        return True
    left, right = _reading(claim, claim.stage, evidence), None
    if claim.than:
        right = _reading(claim, claim.than, evidence)
    elif claim.beside_quantity:
        right = Reading(how=left.how, of=claim.beside_quantity, start=left.start, end=left.end)
    elif claim.value is not None:
        right = _fixed(claim, claim.value, evidence)
    try:
        return VERDICTS[claim.kind](Claim(kind=claim.kind, left=left, right=right), evidence)
    except NoEvidence:
        return False


def _reading(claim: AuthoredClaim, stage: str, evidence: Evidence) -> Reading:
    """The reading over a stage, or over the whole where no stage is named: in model seconds or in bars."""
    if claim.how in SCIENCE:
        start, end = evidence.stage_times(stage)
        return Reading(how=claim.how, of=claim.quantity, start=start, end=end)
    sections = [each for each in evidence.played.sections if stage in ("", each.name)]
    first, last = sections[0], sections[-1]
    return Reading(
        how=claim.how, of=claim.part, beside=claim.beside, start=float(first.bar), end=float(last.bar + last.bars)
    )


def _fixed(claim: AuthoredClaim, value: Measure, evidence: Evidence) -> Reading:
    """A figure in SI, made easier to keep by a hair: for the rounding of machine numbers."""
    quantity = next((each for each in evidence.timeline.quantities if each.name == claim.quantity), None)
    if quantity is None:
        raise NoEvidence(f"no quantity is called {claim.quantity}")
    level = float(convert(value.value, value.unit, quantity.si_unit))
    hair = 1e-9 * max(abs(level), evidence.swing(claim.quantity))
    return Reading(how="fixed", level=level - hair if claim.kind == "at least" else level + hair)


def _finding(scene: Scene, claim: AuthoredClaim) -> Finding:
    line = scene.origin.line(claim.key)
    where = fact("authored-line", file=scene.origin.file, line=str(line)) if line else scene.origin.file
    return Finding(
        kind="claim", message=fact("authored-false", claim=claim.text), fix=fact("authored-fix"), where=where
    )
