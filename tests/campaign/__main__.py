"""Run campaigns and print their figures: python -m tests.campaign [NAME...] [--seed N] [--share 0.1]."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable

from tests.campaign import (
    batch,
    claims,
    cluster,
    ledgers,
    listen,
    looks,
    made,
    own,
    places,
    printed,
    random_kills,
    recordings,
    shelf,
    soak,
    sounds,
    spreadsheets,
    stories,
    swap,
    sweep,
    words,
)
from tests.campaign.tally import Tally

#: What runs one, given the tally, the share of the whole, and the seed.
Campaign = Callable[[Tally, float, int], None]
CAMPAIGNS: dict[str, Campaign] = {
    "kills": lambda tally, share, seed: swap.kills(tally, every=round(1 / share)),
    "failures": lambda tally, share, seed: swap.failures(tally, every=round(1 / share)),
    "scene-files": lambda tally, share, seed: swap.new_files(tally, every=round(1 / share)),
    "random-makes": lambda tally, share, seed: random_kills.makes(tally, round(100 * share), seed),
    "random-scene-files": lambda tally, share, seed: random_kills.scene_files(tally, round(50 * share), seed),
    "failing-makes": lambda tally, share, seed: random_kills.failing(tally, round(60 * share), seed),
    "batch": lambda tally, share, seed: batch.stubbed(tally, round(50 * share), seed),
    "batch-packs": lambda tally, share, seed: batch.packs(tally, round(20 * share), seed),
    "cluster": lambda tally, share, seed: cluster.campaign(tally, round(48 * share), seed),
    "ledgers": lambda tally, share, seed: ledgers.campaign(tally, round(10_000 * share), seed),
    "places": lambda tally, share, seed: places.campaign(tally, share, seed),
    "score": lambda tally, share, seed: sweep.to_the_score(tally, round(1_500 * share), seed),
    "stories": lambda tally, share, seed: stories.stories(tally, round(300 * share), seed),
    "claims": lambda tally, share, seed: claims.claims(tally, round(30 * share), seed),
    "own": lambda tally, share, seed: own.own(tally, round(400 * share), seed, printed=4),
    "looks": lambda tally, share, seed: looks.sheets(tally, round(1 / share), seed),
    "printed": lambda tally, share, seed: printed.sheets(tally, round(1 / share), seed),
    "words": lambda tally, share, seed: words.sheets(tally, every=round(1 / share)),
    "spreadsheets": lambda tally, share, seed: spreadsheets.campaign(tally, round(2_000 * share), seed),
    "listen": lambda tally, share, seed: listen.performances(tally, round(200 * share), seed),
    "recordings": lambda tally, share, seed: recordings.spoilt(tally, round(1_000 * share), seed),
    "whole-recordings": lambda tally, share, seed: recordings.whole(tally, seed),
    "made": lambda tally, share, seed: made.campaign(tally, round(200 * share), seed),
    "sounds": lambda tally, share, seed: sounds.campaign(tally, round(200 * share), seed),
    "shelf": lambda tally, share, seed: shelf.campaign(tally, round(1_000 * share), seed, every=round(1 / share)),
    "requests": lambda tally, share, seed: soak.mixed(tally, round(3_000 * share), seed),
    "soak": lambda tally, share, seed: soak.soak(tally, 20 * share, 30, seed),
    "sheets": lambda tally, share, seed: sweep.to_the_sheets(tally, round(60 * share), seed),
}


def main() -> int:
    parser = argparse.ArgumentParser(prog="python -m tests.campaign", description=__doc__)
    parser.add_argument("names", nargs="*", metavar="NAME", help=f"one or more of: {', '.join(CAMPAIGNS)}")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--share", type=float, default=1.0, help="a part of the whole, such as 0.1")
    parser.add_argument("--minutes", type=float, help="how long the soak takes, in place of its share of 20")
    parser.add_argument("--browsers", type=int, default=30, help="of the soak")
    asked = parser.parse_args()
    if unknown := set(asked.names) - set(CAMPAIGNS):
        parser.error(f"there is no campaign {', '.join(sorted(unknown))}; there are {', '.join(CAMPAIGNS)}")
    minutes = 20 * asked.share if asked.minutes is None else asked.minutes

    def soak_as_asked(tally: Tally, share: float, seed: int) -> None:
        soak.soak(tally, minutes, asked.browsers, seed)

    runs: dict[str, Campaign] = {**CAMPAIGNS, "soak": soak_as_asked}
    good = True
    for name in asked.names or CAMPAIGNS:
        tally = Tally()
        runs[name](tally, asked.share, asked.seed)
        print(f"{name}, seed {asked.seed}\n{tally.report()}\n", flush=True)
        good &= tally.good
    return 0 if good else 1


if __name__ == "__main__":
    sys.exit(main())
