"""A season's jobs run side by side; what is finished is not done again, whoever dies."""

import json
import os
import signal
import subprocess
import sys
import threading
from concurrent.futures import ThreadPoolExecutor, wait
from pathlib import Path

import pytest

from app.__main__ import main
from app.errors import UsageError
from app.plan.season import STAMP, SeasonJob, run_season
from nesting.files import lay_file
from nesting.verify import verify_document
from tests.app.killed_program import run_and_kill
from tests.app.plan.season_jobs import STYLES, tasks

ROOT = Path(__file__).parents[3]


def check(out_dir, keys):
    for key in keys:
        assert json.loads((out_dir / key / STAMP).read_text())["status"] == 0
        assert verify_document(lay_file.read(out_dir / key / "result" / "lay.json")).ok


def test_each_job_leaves_a_judged_lay_and_is_not_done_again(tmp_path):
    told = []
    first = run_season(tasks()[:2], tmp_path, workers=2)
    check(tmp_path, first)
    before = (tmp_path / "court-900" / STAMP).stat().st_mtime_ns
    again = run_season(tasks()[:2], tmp_path, workers=2, tell=told.append)
    assert told == ["2 done before, 0 to do"]
    assert again["court-900"].payload == first["court-900"].payload
    assert (tmp_path / "court-900" / STAMP).stat().st_mtime_ns == before


def test_a_changed_style_is_done_again(tmp_path):
    run_season(tasks()[:1], tmp_path)
    told = []
    run_season(tasks("1.5")[:1], tmp_path, tell=told.append)
    assert told[-1] == "court-900: done"


def test_a_job_that_fails_says_why_and_the_others_go_on(tmp_path):
    bad = SeasonJob("bad", ("lay", "x.style.json", "--pairs", "37:1"), {"x.style.json": b"{"})
    results = run_season([bad, tasks()[0]], tmp_path, workers=2)
    assert results["bad"].status == 2
    assert "x.style.json" in results["bad"].messages
    check(tmp_path, ["court-900"])


def test_two_jobs_of_one_name_are_refused(tmp_path):
    with pytest.raises(UsageError, match="court-900"):
        run_season([tasks()[0], tasks()[0]], tmp_path)


def test_lay_takes_many_styles_with_the_orders_beside_them(tmp_path, capsys):
    words = [*map(str, STYLES[:1]), "--pairs", "37:1", "--widths", "1000,1200", "--seconds", "1"]
    assert main(["lay", *words, "-o", str(tmp_path), "--json"]) == 0
    jobs = json.loads(capsys.readouterr().out)["jobs"]
    assert [job["job"] for job in jobs] == ["court-1000", "court-1200"]
    check(tmp_path, [job["job"] for job in jobs])


@pytest.mark.slow
def test_a_killed_season_goes_on_where_it_was(tmp_path):
    words = ["lay", str(STYLES[0]), "--pairs", "37:1", "--jobs", "2"]
    words += ["--widths", "900,1000", "--seconds", "1", "-o", str(tmp_path)]
    for done in (0, 1):
        assert run_and_kill(words, tmp_path, done) == -signal.SIGKILL
        stamped = {path.parent.name for path in tmp_path.glob(f"[!.]*/{STAMP}")}
        assert len(stamped) == done
        check(tmp_path, stamped)
    assert main(words) == 0
    check(tmp_path, ["court-900", "court-1000"])


SEASON = """
import signal
import sys
from pathlib import Path

signal.signal(signal.SIGINT, signal.default_int_handler)  # a shell's background job begins deaf to Ctrl-C

sys.path.insert(0, sys.argv[2])
from app.plan.season import run_season
from season_jobs import tasks

def tell(text):
    print(text, flush=True)

try:  # a short job, and one that no machine ends before somebody stops it
    run_season([tasks()[0], tasks("6000")[1]], Path(sys.argv[1]), workers=1, tell=tell)
except KeyboardInterrupt:
    sys.exit(1)
"""


def stopped_season(out_dir, word):
    """Run the season, stop it with Ctrl-C once it has said ``word``; returns its status and all it said."""
    environment = os.environ | {"PYTHONPATH": str(ROOT)}
    words = [sys.executable, "-c", SEASON, str(out_dir), str(Path(__file__).parent)]
    season = subprocess.Popen(
        words, env=environment, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True
    )
    assert season.stdout is not None
    said = ""
    for line in season.stdout:
        said += line
        if word in line:
            break
    season.send_signal(signal.SIGINT)
    said += season.stdout.read()
    return season.wait(), said


@pytest.mark.slow
def test_ctrl_c_ends_a_season_at_once_and_the_next_goes_on(tmp_path):
    status, said = stopped_season(tmp_path, "court-900: done")
    assert status == 1 and "Traceback" not in said
    check(tmp_path, ["court-900"])
    assert not (tmp_path / "court-1000").exists(), "a lay cut short does not count as done"
    status, said = stopped_season(tmp_path, "1 done before, 1 to do")
    assert status == 1 and "court-900: done" not in said
    check(tmp_path, ["court-900"])


def test_ctrl_c_while_jobs_are_handed_out_ends_those_begun(tmp_path, monkeypatch):
    """The job would run for hours: the season waits for its end, so it must have been ended."""

    class Interrupted(ThreadPoolExecutor):
        def submit(self, *words, **more):
            super().submit(*words, **more)
            raise KeyboardInterrupt

    monkeypatch.setattr("app.plan.season.ThreadPoolExecutor", Interrupted)
    with pytest.raises(KeyboardInterrupt):
        run_season([tasks("6000")[1]], tmp_path)
    assert not list(tmp_path.glob("court-1000*"))


def test_ctrl_c_is_heard_between_the_steps_of_a_season_and_never_inside_its_pool(tmp_path, monkeypatch):
    """Raised inside, it leaves locks held; come just before a wait without an end, it is not heard at all."""
    broke_in, ends = [], []

    def interrupted_wait(futures, timeout=None, return_when=""):
        ends.append(timeout)
        if len(ends) == 1:
            try:
                signal.raise_signal(signal.SIGINT)
            except KeyboardInterrupt:
                broke_in.append(True)
        return wait(futures, timeout, return_when)

    monkeypatch.setattr("app.plan.season.wait", interrupted_wait)
    with pytest.raises(KeyboardInterrupt):
        run_season([tasks("6000")[1]], tmp_path)
    assert not broke_in and None not in ends
    assert not list(tmp_path.glob("court-1000*"))


@pytest.mark.slow
def test_a_cluster_that_loses_a_worker_loses_no_job(tmp_path):
    distributed = pytest.importorskip("distributed")
    with distributed.LocalCluster(
        n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None
    ) as cluster:
        pids = [worker.process.pid for worker in cluster.workers.values()]
        killer = threading.Timer(2.0, os.kill, (pids[0], signal.SIGKILL))
        killer.start()
        results = run_season(tasks("2"), tmp_path, cluster=cluster.scheduler_address)
        killer.join()
    assert {result.status for result in results.values()} == {0}
    check(tmp_path, results)
