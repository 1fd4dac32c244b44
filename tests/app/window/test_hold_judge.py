"""The hold is judged beside the window; whatever happens there, nobody waits for ever."""

from __future__ import annotations

from app.style.file import load_style
from app.window.problems import ProblemWatch
from app.window.running import hold_judge
from app.window.running.hold_judge import HoldJudge
from tests.app.window.hands import SAMPLES


def test_an_unexpected_fault_in_the_judges_thread_ends_the_waiting_and_is_reported(
    qapp, qtbot, tmp_path, monkeypatch
) -> None:
    def broken(style, *, size=""):
        raise RuntimeError("a fault that nobody thought of")

    shown = []
    monkeypatch.setattr(hold_judge, "style_hold", broken)
    monkeypatch.setattr("app.window.problems.show_problem", shown.append)
    watch = ProblemWatch(tmp_path / "log.txt")
    watch.install()
    judge = HoldJudge(watch)
    try:
        with qtbot.waitSignal(judge.judged):
            judge.ask(load_style(SAMPLES["court"]))
        assert not judge.waiting
        assert judge.held is None and judge.refusal
        qtbot.waitUntil(lambda: bool(shown))
        assert "nobody thought of" in str(shown[0])
    finally:
        watch.remove()
