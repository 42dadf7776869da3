"""Likely causes: learned from cases at several levels, and ranked for what is seen on the bench.

CONTRACT. For a unit with levels from broad to narrow (all equipment, its class, its boards, its model):

* Prior: :func:`frequencies.backed_off` over the levels, from the vocabulary's base shares; causes met in the
  class share what :func:`frequencies.unseen_share` leaves. That share of the new is divided between what the vocabulary
  names but nobody met (B of the backed-off shares) and "not seen before", as B to 1.
* Rate of a symptom under a cause: the background (class over all equipment), then the cause's block, then the cause at
  each level whose counts differ from the level above, each shrunk by :func:`frequencies.shrunk`: by M of the symptom
  at the first level of a cause met in the class, by at least ``NARROWING`` elsewhere. "Not seen before" and
  causes that nobody met have the background (of their block).
* Reported: ln p, with p = min(0.98, rate / mention rate), times its weight. Stated absent: ln(1 - p). Not mentioned:
  ln(1 - mention rate · p). A mention rate of 1 is for data where everything was looked at.
* The sum of those, and of the evidence of tests, times the temperature, is added to ln(prior).
* Exact-pattern memory: with n cases of exactly these symptoms, shares are (n_c + K·share) / (n + K).
"""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Mapping, Sequence

from benchlore.answer.cases import Case, within
from benchlore.answer.frequencies import BACK_OFF, backed_off, concentration, shrunk, unseen_share
from benchlore.answer.hypotheses import NOT_SEEN_BEFORE, Hypothesis
from benchlore.answer.observed import Line, Observed, Ranked
from benchlore.answer.tallies import Count, Level, normalised, normalised_share, tally

SYMPTOM_MENTION = 0.8
"""Share of the symptoms there that a technician writes down (common practice, no source)."""
MOST_RATE = 0.98
LEAST_FOR_TEMPERATURE = 30
LEAST_PER_CAUSE = 10.0
"""Cases per cause from which exact patterns are remembered."""
NARROWING = 8.0
"""Least concentration of a block, of causes met in other classes alone, and of narrower levels, whose cases were
counted in the broader one already."""
_TEMPERATURES = tuple(round(0.4 + 0.05 * step, 2) for step in range(13))
_MEMORIES = (1.0, 2.0, 4.0, 8.0, 16.0, 32.0, 64.0, 128.0, 256.0)
_LEAST = 1e-6
_REST = "*"
"""Failure mode of what stands for all causes of a block that nobody met."""


class CauseModel:
    """What cases teach about one kind of unit. Reading it changes nothing but caches."""

    def __init__(
        self,
        cases: Sequence[Case],
        levels: Sequence[Level],
        base: Mapping[Hypothesis, float],
        *,
        mention: float = SYMPTOM_MENTION,
        open_world: bool = True,
        tune: bool = True,
    ) -> None:
        """``levels`` run from broad to narrow; the second, if any, is the equipment class.

        ``base`` are shares of hypotheses before any case. ``open_world`` false leaves no room for "not seen before".
        ``tune`` fits temperature and memory by leaving out one case at a time.
        """
        self.levels = tuple(levels)
        self.mention = mention
        self._by_level = [within(cases, level.scopes) if level.scopes else list(cases) for level in self.levels]
        self._home = self._by_level[min(1, len(self._by_level) - 1)]
        self._home_name = self.levels[min(1, len(self.levels) - 1)].name
        self._tallies = [tally(found) for found in self._by_level]
        self._home_tally = self._tallies[min(1, len(self._tallies) - 1)]
        least = min(base.values(), default=1.0)
        known = {c for c, n in self._home_tally.by_cause.items() if n}
        self.base = dict(base) | {cause: least for cause in sorted(known) if cause not in base}
        total = sum(self.base.values()) or 1.0
        self.base = {cause: share / total for cause, share in self.base.items()}
        once = sum(n for n in self._home_tally.by_cause.values() if n <= 1)
        self.unseen = unseen_share(once, self._home_tally.entries) if open_world else 0.0
        self.causes: tuple[Hypothesis, ...] = (*self.base, *([NOT_SEEN_BEFORE] if open_world else []))
        self._prior = self._priors()
        self.symptoms = tuple(sorted(self._home_tally.by_symptom))
        self._blocks: defaultdict[str, Counter[str]] = defaultdict(Counter)
        self._block_entries: Counter[str] = Counter()
        for cause, counted in self._tallies[0].symptoms.items():
            self._blocks[cause.block].update(counted)
        for cause, n in self._tallies[0].described.items():
            self._block_entries[cause.block] += n
        self._background: dict[str, float] = {}
        self._concentration: dict[str, float] = {}
        self._rates: dict[tuple[Hypothesis, str], float] = {}
        self._cases_by_cause: dict[Hypothesis, list[Case]] | None = None
        self._silence: dict[Hypothesis, float] = {}
        self._known_logs: dict[tuple[Hypothesis, str], tuple[float, float, float]] = {}
        self.temperature = 1.0
        self.memory: float | None = None
        self._patterns: dict[frozenset[str], Counter[Hypothesis]] = {}
        if tune and len(self._home) >= LEAST_FOR_TEMPERATURE:
            self._tune()

    @property
    def entries(self) -> int:
        """Cases of the class."""
        return len(self._home)

    def _priors(self) -> dict[Hypothesis, float]:
        relevant = [sum(t.by_cause[c] for c in t.by_cause if c in self.base) for t in self._tallies]
        prior = {
            cause: backed_off(
                ((t.by_cause[cause], n) for t, n in zip(self._tallies, relevant, strict=True)), share
            )
            for cause, share in self.base.items()
        }
        total = sum(prior.values()) or 1.0
        prior = {cause: share / total for cause, share in prior.items()}
        if NOT_SEEN_BEFORE not in self.causes:
            return prior
        if not prior:
            return {NOT_SEEN_BEFORE: 1.0}
        met = {cause for cause in prior if self._home_tally.by_cause[cause]}
        named = math.fsum(share for cause, share in prior.items() if cause not in met)
        new = self.unseen if met else 1.0
        for cause in prior:
            share = (1 - new) / (1 - named) if cause in met else new / (1 + named)
            prior[cause] *= share
        prior[NOT_SEEN_BEFORE] = new / (1 + named)
        return prior

    def prior(self, cause: Hypothesis) -> float:
        """The share of a cause before anything is seen."""
        return self._prior[cause]

    def counts(self, cause: Hypothesis) -> list[Count]:
        """How often the cause was met at each level."""
        return [
            Count(level.name, counted.by_cause[cause], counted.entries)
            for level, counted in zip(self.levels, self._tallies, strict=True)
        ]

    def cases(self, cause: Hypothesis) -> list[Case]:
        """The cases of the class, or of its boards, with this cause."""
        if self._cases_by_cause is None:
            found = {id(case): case for level in self._by_level[1:] or self._by_level for case in level}
            by_cause: defaultdict[Hypothesis, list[Case]] = defaultdict(list)
            for case in found.values():
                by_cause[case.cause].append(case)
            self._cases_by_cause = dict(by_cause)
        return self._cases_by_cause.get(cause, [])

    def symptom_counts(self, cause: Hypothesis, symptom: str) -> tuple[Count, Count]:
        """How often the symptom was told with this cause, and with the other causes of the class."""
        home = self._home_tally
        broad = self._tallies[0]
        counted, name = (home, self._home_name) if home.described[cause] else (broad, self.levels[0].name)
        hits, entries = counted.symptoms.get(cause, Counter())[symptom], counted.described[cause]
        other_hits = home.by_symptom[symptom] - home.symptoms.get(cause, Counter())[symptom]
        others = Count(self._home_name, other_hits, home.described_all - home.described[cause])
        return Count(name, hits, entries), others

    def background(self, symptom: str) -> float:
        """The rate at which the symptom is told in the class, drawn towards that of all equipment."""
        if symptom not in self._background:
            broad = self._tallies[0]
            rate = (broad.by_symptom[symptom] + 0.5) / (broad.described_all + 1)
            if len(self._tallies) > 1:
                home = self._home_tally
                rate = shrunk(home.by_symptom[symptom], home.described_all, rate, BACK_OFF)
            self._background[symptom] = rate
        return self._background[symptom]

    def concentration(self, symptom: str) -> float:
        """M of the symptom, by the causes met in all equipment."""
        if symptom not in self._concentration:
            broad = self._tallies[0]
            groups = [
                (broad.symptoms[cause][symptom] if cause in broad.symptoms else 0.0, n)
                for cause, n in broad.described.items()
            ]
            self._concentration[symptom] = concentration(groups, self.background(symptom))
        return self._concentration[symptom]

    def rate(self, cause: Hypothesis, symptom: str) -> float:
        """The rate at which the symptom is told where this is the cause."""
        key = (cause, symptom)
        if key not in self._rates:
            self._rates[key] = self._rate(cause, symptom, None)
        return self._rates[key]

    def _rate(self, cause: Hypothesis, symptom: str, without: Case | None) -> float:
        rate = self.background(symptom)
        if cause == NOT_SEEN_BEFORE:
            return rate
        m = self.concentration(symptom)
        left, left_hit = (0.0, 0.0) if without is None else (without.weight, without.weight * (symptom in without.seen))
        broad = self._tallies[0]
        own = broad.described[cause] - left
        if cause.block and self._block_entries[cause.block] - left > own:
            hits, entries = self._blocks[cause.block][symptom] - left_hit, self._block_entries[cause.block] - left
            rate = shrunk(hits, entries, rate, max(m, NARROWING))
        last = (-1.0, -1.0)
        for counted in self._tallies:
            entries = counted.described[cause]
            if not entries:
                continue
            hits = counted.symptoms[cause][symptom] if cause in counted.symptoms else 0.0
            if (hits, entries) == last:
                continue
            is_first, is_elsewhere = last[1] < 0, not self._home_tally.described[cause]
            strength = m if is_first and not is_elsewhere else max(m, NARROWING)
            last = (hits, entries)
            rate = shrunk(max(0.0, hits - left_hit), max(0.0, entries - left), rate, strength)
        return rate

    def _there(self, rate: float) -> float:
        most = MOST_RATE if self.mention < 1 else 1 - _LEAST
        return max(_LEAST, min(most, rate / self.mention))

    def _silent(self, rate: float) -> float:
        return math.log(max(_LEAST, 1 - self.mention * self._there(rate)))

    def silence(self, cause: Hypothesis) -> float:
        """The log-likelihood of not having mentioned any symptom of the class."""
        if cause not in self._silence:
            twin = cause
            if cause != NOT_SEEN_BEFORE and not self._tallies[0].described[cause]:
                known = bool(self._block_entries[cause.block])
                twin = Hypothesis(cause.block, "", "") if known else NOT_SEEN_BEFORE
                if twin != cause and twin not in self._silence and not self._tallies[0].described[twin]:
                    self._silence[twin] = sum(self._silent(self._rate(twin, s, None)) for s in self.symptoms)
            if twin in self._silence:
                self._silence[cause] = self._silence[twin]
            else:
                self._silence[cause] = sum(self._silent(self._rate(cause, s, None)) for s in self.symptoms)
        return self._silence[cause]

    def lines(self, cause: Hypothesis, observed: Observed) -> list[Line]:
        """What each observation adds to the log-likelihood of a cause, before the temperature."""
        lines = []
        silent = self.silence(cause)
        for symptom, weight in observed.seen.items():
            rate = self.rate(cause, symptom)
            lines.append(Line("seen", symptom, weight * math.log(self._there(rate))))
            if symptom in self._home_tally.by_symptom:
                silent -= self._silent(rate)
        for symptom in sorted(observed.absent):
            rate = self.rate(cause, symptom)
            lines.append(Line("absent", symptom, math.log(1 - self._there(rate))))
            if symptom in self._home_tally.by_symptom:
                silent -= self._silent(rate)
        if self.mention < 1 and (observed.seen or observed.absent):
            lines.append(Line("silent", "", silent))
        lines += [Line("test", name, by_cause[cause]) for name, by_cause in observed.tests]
        return lines

    def log_likelihood(self, cause: Hypothesis, observed: Observed) -> float:
        """The sum of :meth:`lines`, without making them."""
        total, silent = 0.0, self.silence(cause)
        for symptom, weight in observed.seen.items():
            there, unsaid = self._logs(cause, symptom)[0::2]
            total += weight * there
            silent -= unsaid
        for symptom in observed.absent:
            not_there, unsaid = self._logs(cause, symptom)[1:]
            total += not_there
            silent -= unsaid
        if self.mention < 1 and (observed.seen or observed.absent):
            total += silent
        return total + sum(by_cause[cause] for _, by_cause in observed.tests)

    def _logs(self, cause: Hypothesis, symptom: str) -> tuple[float, float, float]:
        """Logarithms of a symptom being told, being stated absent, and not being mentioned (0 outside the class)."""
        key = (cause, symptom)
        if key not in self._known_logs:
            rate = self.rate(cause, symptom)
            there = self._there(rate)
            unsaid = self._silent(rate) if symptom in self._home_tally.by_symptom else 0.0
            self._known_logs[key] = (math.log(there), math.log(1 - there), unsaid)
        return self._known_logs[key]

    def rank(self, observed: Observed) -> list[Ranked]:
        """All causes, the likeliest first (equals in the order of their names); probabilities sum to 1."""
        shares = self._blend(self._posterior(observed, self.temperature), self._pattern(observed), None)
        return [
            Ranked(cause, share)
            for cause, share in sorted(shares.items(), key=lambda item: (-item[1], item[0]))
        ]

    def _posterior(self, observed: Observed, temperature: float) -> dict[Hypothesis, float]:
        return normalised(
            {
                cause: math.log(prior) + temperature * self.log_likelihood(cause, observed)
                for cause, prior in self._prior.items()
                if prior > 0
            }
        )

    def _pattern(self, observed: Observed) -> frozenset[str] | None:
        return frozenset(observed.seen) if not observed.tests else None

    def _blend(
        self, shares: dict[Hypothesis, float], pattern: frozenset[str] | None, left_out: Hypothesis | None
    ) -> dict[Hypothesis, float]:
        if self.memory is None or pattern is None:
            return shares
        counted = self._patterns.get(pattern)
        if not counted:
            return shares
        entries = float(sum(counted.values())) - (left_out is not None)
        return {
            cause: (counted[cause] - (cause == left_out) + self.memory * share) / (entries + self.memory)
            for cause, share in shares.items()
        }

    def remembered(self, observed: Observed) -> tuple[int, Counter[Hypothesis]]:
        """How many cases of the class showed exactly these symptoms, and their causes; none while none are kept."""
        pattern = self._pattern(observed)
        counted = self._patterns.get(pattern, Counter()) if self.memory is not None and pattern else Counter()
        return sum(counted.values()), counted

    def _tune(self) -> None:
        """Temperature, then memory: those under which each case is likeliest from all the others."""
        told = [case for case in self._home if case.has_symptoms and case.cause in self._prior]
        if not told:
            return
        priors = self._alike()
        scored = [self._left_out(case, priors) for case in told]
        self.temperature = min(
            _TEMPERATURES,
            key=lambda t: sum(
                -math.log(max(_LEAST, normalised_share(case.cause, logs, t)))
                for case, logs in zip(told, scored, strict=True)
            ),
        )
        met = sum(1 for n in self._home_tally.by_cause.values() if n)
        if len(told) / met < LEAST_PER_CAUSE:
            return
        for case in told:
            self._patterns.setdefault(case.seen, Counter())[case.cause] += 1
        shares = [
            normalised({c: prior + self.temperature * ll for c, (prior, ll) in logs.items()}) for logs in scored
        ]
        losses = {}
        for memory in _MEMORIES:
            self.memory = memory
            losses[memory] = sum(
                -math.log(max(_LEAST, self._blend(share, case.seen, case.cause)[case.cause]))
                for case, share in zip(told, shares, strict=True)
            )
        plain = sum(-math.log(max(_LEAST, s[c.cause])) for c, s in zip(told, shares, strict=True))
        best = min(losses, key=lambda memory: losses[memory])
        self.memory = best if losses[best] < plain else None

    def _alike(self) -> dict[Hypothesis, float]:
        """Priors, with causes that nobody met anywhere put together by block: their symptoms tell the same."""
        priors: dict[Hypothesis, float] = {}
        for cause, prior in self._prior.items():
            is_met = cause == NOT_SEEN_BEFORE or self._tallies[0].described[cause] or self._home_tally.by_cause[cause]
            key = cause if is_met else Hypothesis(cause.block, "", _REST)
            priors[key] = priors.get(key, 0.0) + prior
        return {cause: prior for cause, prior in priors.items() if prior > 0}

    def _own(self, case: Case, observed: Observed) -> float:
        """The log-likelihood of a case under its own cause, its own counts taken away."""
        own = 0.0
        for symptom in self.symptoms:
            rate = self._rate(case.cause, symptom, case)
            if symptom in observed.seen:
                own += math.log(self._there(rate))
            elif symptom in observed.absent:
                own += math.log(1 - self._there(rate))
            else:
                own += self._silent(rate)
        return own

    def _left_out(self, case: Case, priors: Mapping[Hypothesis, float]) -> dict[Hypothesis, tuple[float, float]]:
        """(ln prior, log-likelihood) by cause as if the case had not been written up.

        Only its own cause's counts change; the others' priors gain alike, and backgrounds hardly.
        """
        if self.mention < 1:
            observed = Observed(seen=dict.fromkeys(sorted(case.seen), 1.0), absent=case.absent)
        else:
            observed = Observed(dict.fromkeys(sorted(case.seen), 1.0), frozenset(self.symptoms) - case.seen)
        logs = {
            cause: (math.log(prior), self.log_likelihood(cause, observed))
            for cause, prior in priors.items()
        }
        own = self._own(case, observed)
        levels = [
            (t.by_cause[case.cause] - case.weight, t.entries - case.weight)
            if any(case is other for other in found)
            else (t.by_cause[case.cause], t.entries)
            for t, found in zip(self._tallies, self._by_level, strict=True)
        ]
        prior = backed_off(levels, self.base[case.cause])
        if self._home_tally.by_cause[case.cause] > case.weight or NOT_SEEN_BEFORE not in self.causes:
            prior *= self._prior[case.cause] / max(_LEAST, backed_off(
                [(t.by_cause[case.cause], t.entries) for t in self._tallies], self.base[case.cause]
            ))
        else:
            prior *= self.unseen
        logs[case.cause] = (math.log(max(_LEAST, prior)), own)
        return logs
