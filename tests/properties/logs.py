"""Makes logs of a job as several devices would write them, offline and apart, from a seed.

Each device sees only what it has heard so far, so its `over`, strikes, countersigns and results rest on a
part of the log. Some name what they should not: wrong keys, others' entries, entries that never come.
"""

from collections.abc import Callable

from properties.asks import over, write_answer
from properties.job import NEVER, Job, Logged, new_job
from vectors import methods
from vectors.scene import MARA, OSKAR
from vectors.writers import Writer

LEAST_ENTRIES = 30
SETTING = ("hole_checked", "rivet_seated", "set_and_checked", "in_place")
TAKING_OUT = ("in_place", "mandrel_out", "head_off", "shank_out", "shank_out")
_BEGINS = ("heat:warm", "parts:ramp", "no_maxima:warm")
_HOT = (100, 110, 120, 130, 139, 141)
_READ = {"a": _HOT, "b": _HOT, "m": (100, 140, 150, 151), "n": (20, 60, 61)}
ACTS = ("soaked", "workable", "turn_down", "lift", "lift", "off", "cold", "cold", "abort", "remark")


def job_log(seed: int) -> list[Logged]:
    """The entries of one generated job, in the order they were written."""
    job = new_job(seed)
    job.writers[0].open()
    _pin(job)
    wanted = job.chance.randint(LEAST_ENTRIES, 55)
    for writer in job.writers:
        writer.note("begun here")
    while len(job.log) < wanted:
        _happen(job)
    return job.log


def _happen(job: Job) -> None:
    """One thing happens: a device hears, goes back to a backup, or writes."""
    writer = job.chance.choice(job.writers)
    luck = job.chance.random()
    if luck < 0.35:
        job.heard[writer.device] = job.chance.randint(job.heard[writer.device], len(job.log))
    elif luck < 0.37:
        writer.fork_back(job.chance.randint(1, min(3, len(writer.chain))))
    else:
        job.chance.choices(_DEEDS, _WEIGHTS)[0](job, writer)
    if not writer.chain:
        writer.note("begun again")


def _pin(job: Job) -> None:
    pinned = [job.chance.choice(family) for family in job.families if job.chance.random() < 0.9]
    if job.chance.random() < 0.1:
        pinned += job.chance.choice(job.families)
    digests = [methods.digest(name) for name in dict.fromkeys(pinned)]
    digests += ["f" * 64] if job.chance.random() < 0.05 else []
    office = job.writers[0]
    office.write("pin", {"methods": digests, "over": over(job, office, "pin", {})})


def _rivet(job: Job, writer: Writer) -> None:
    if not job.is_about("rivets", "setting"):
        return
    generation = job.chance.choice([0, 0, 0, 1, 1, 2])
    state = job.chance.choice(SETTING if generation and job.chance.random() < 0.7 else TAKING_OUT)
    writer.rivet(_position(job), state, generation, **job.envelope())


def _position(job: Job) -> str:
    listed = ["H1", "H2"] * job.is_about("rivets") + ["P1", "P2"] * job.is_about("setting")
    return job.chance.choice(listed * 5 + ["H9"])


def _mark(job: Job, writer: Writer) -> None:
    if not job.is_about("rivets", "setting"):
        return
    piece = job.chance.choice(["head", "mandrel", "shank"])
    losts = [e for e in job.seen(writer, "tally") if e["body"].get("mark") == "lost"]
    if losts and job.chance.random() < 0.6:
        lost = job.chance.choice(losts)
        at = lost["body"]["position"] if job.chance.random() < 0.9 else _position(job)
        writer.mark(at, "found", piece, lost["hash"])
        return
    mark = job.chance.choice(["lost", "lost", "damaged_hole"])
    writer.mark(_position(job), mark, piece if mark == "lost" else "", "", job.chance.choice([0, 1]))


def _heat(job: Job, writer: Writer) -> None:
    begins = [at for at in _BEGINS if job.is_about(at.partition(":")[0])]
    if not begins:
        return
    runs = [e for e in job.seen(writer, "heat") if e["body"]["act"] == "on"]
    if (not runs and job.chance.random() < 0.9) or job.chance.random() < 0.05:
        writer.heat_on(job.chance.choice(begins), "run")
        return
    run, run_ms = job.one_of(runs), job.chance.randint(0, 9) * 20_000
    if job.chance.random() < 0.5:
        act = job.chance.choice(ACTS)
        pad = job.chance.choice(["U1", "U2"]) if act in ("turn_down", "lift") else ""
        writer.act(run, act, run_ms, pad)
        return
    for sensor in job.chance.sample(["a", "b", "m", "n"], job.chance.choice([1, 2, 3, 4, 4])):
        points = [(run_ms + i * 20_000, job.chance.choice(_READ[sensor])) for i in range(4)]
        writer.heat_reading(run, sensor, *points)


def _words(job: Job, writer: Writer) -> None:
    name, step = job.chance.choice(job.steps())
    at = job.chance.choice([f"{name}:{step['id']}", ""])
    about = job.some_of(job.seen(writer))
    match job.chance.randint(0, 6):
        case 0:
            writer.note("a remark", at, about)
        case 1:
            writer.deviation(at, about, passes_hold=job.chance.random() < 0.8)
        case 2:
            job.chance.choice([writer.clock_stepped, lambda: writer.heard(NEVER)])()
        case 3:
            writer.photo(sha256=job.chance.choice("abc") * 64)
        case 4:
            writer.deviation(at, job.some_of(job.seen(writer, "lot", "reading")))
        case _:
            _hold_by_deviation(job, writer)


def _look(job: Job, writer: Writer) -> None:
    """Looks at a condition, of a method or of none, or puts a step off."""
    if job.chance.random() < 0.4:
        name, step = job.chance.choice(job.steps())
        writer.later(f"{name}:{step['id']}", **job.envelope())
        return
    condition = job.chance.choice(["braced", "braced", "locked", "pads_hot", "nowhere"])
    replaced = over(job, writer, "condition", {"condition": condition})
    writer.condition(condition, job.chance.random() < 0.6, replaced, **job.envelope())


def _hold_by_deviation(job: Job, writer: Writer) -> None:
    if not job.is_about("hold"):
        return
    deviations = job.seen(writer, "deviation")
    if not deviations:
        writer.deviation("hold:judge", passes_hold=True)
        return
    writer.countersign("hold:judge", "", job.some_of(deviations), **job.envelope())


def _strike(job: Job, writer: Writer) -> None:
    own = [e for e in job.seen(writer) if e["by"] == writer.by]
    among = own if job.chance.random() < 0.8 else job.seen(writer)
    writer.strike(job.one_of(among))


def _office(job: Job, anybody: Writer) -> None:
    """What the office does, now and then done by a phone that should not."""
    writer = job.writers[0] if job.chance.random() < 0.93 else anybody
    answers = job.seen(writer, "tick", "text", "choice", "reading", "result", "photo", "lot")
    deeds: list[Callable[[], object]] = [
        lambda: writer.aside(*job.some_of(job.log)),
        lambda: writer.aside(*job.some_of(job.log), code="role"),
        lambda: writer.admit(*job.some_of(job.log)),
        lambda: writer.admit(*job.some_of(_set_aside(job))),
        lambda: writer.send_back(*job.some_of(answers)),
        lambda: writer.assign(job.chance.choice([MARA, OSKAR]), job.chance.random() < 0.6),
        lambda: writer.place("bay", over(job, writer, "place", {})),
        lambda: job.chance.choice([writer.close, writer.reopen])(over=over(job, writer, "close", {})),
        lambda: _accept(job, writer),
        lambda: _accept(job, writer),
        lambda: _pin(job),
        writer.file,
        lambda: writer.write("weather", {"rain": True}),
    ]
    job.chance.choice(deeds)()


def _set_aside(job: Job) -> list[Logged]:
    named = {named for entry in job.log if entry["kind"] == "aside" for named in entry["body"]["hashes"]}
    return [entry for entry in job.log if entry["hash"] in named]


def _accept(job: Job, writer: Writer) -> None:
    """Accepts what may well be a finding."""
    clocks = [(e["device"], str(e["seq"]), e["hash"]) for e in job.log if e["kind"] == "clock"]
    if clocks and job.chance.random() < 0.5:
        device, seq, clock = job.chance.choice(clocks)
        writer.accept("clock_changed", [device, seq], [clock])
        return
    readings = [e for e in job.log if e["kind"] == "reading" and e["body"].get("ask")]
    if readings:
        chosen = job.chance.choice(readings)
        at = [chosen["body"][key] for key in ("method", "step", "ask", "point")]
        writer.accept("outside_limits", [part for part in at if part], [chosen["hash"]])


_DEEDS = (write_answer, _rivet, _mark, _heat, _words, _look, _strike, _office)
_WEIGHTS = (40, 14, 8, 16, 12, 8, 8, 14)
