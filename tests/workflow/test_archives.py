from pathlib import Path

import pytest

from estimator.cli.main import main
from estimator.errors import DocumentError, SourceError
from estimator.store.values import Client
from estimator.workflow.archives import export_to, import_from
from estimator.workflow.storing import store as user_store


@pytest.fixture(autouse=True)
def own_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    monkeypatch.delenv("DATABASE_URL", raising=False)


def test_the_commands_carry_everything_from_one_folder_to_another(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
):
    kept = user_store().clients.save(Client(name="Larkfield health"), after=0)
    archive = tmp_path / "all.zip"
    assert main(["export", str(archive)]) == 0
    assert "estimator.db" in capsys.readouterr().out

    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "elsewhere"))
    assert main(["import", str(archive)]) == 0
    assert capsys.readouterr().out == "New: 1 client.\n"
    assert user_store().clients.find() == (kept,)
    assert main(["import", str(archive)]) == 0
    assert capsys.readouterr().out == "Nothing was new.\n"


def test_what_is_no_archive_is_one_sentence(tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    (tmp_path / "note.zip").write_text("remember the milk")
    assert main(["import", str(tmp_path / "note.zip")]) == 2
    said = capsys.readouterr().err
    assert said == "note.zip: the archive was damaged (it cannot be unpacked); export it anew.\n"


def test_files_that_cannot_be_opened_or_written_are_one_sentence(tmp_path: Path):
    with pytest.raises(SourceError, match="cannot be opened"):
        import_from(user_store(), tmp_path / "nothing.zip")
    with pytest.raises(DocumentError, match="cannot be written"):
        export_to(user_store(), tmp_path / "nowhere" / "all.zip")


def test_an_export_that_fails_leaves_the_last_one_whole(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    archive = tmp_path / "all.zip"
    export_to(user_store(), archive)
    before = archive.read_bytes()

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("estimator.workflow.archives.write_archive", full)
    with pytest.raises(DocumentError, match="No space left"):
        export_to(user_store(), archive)
    assert archive.read_bytes() == before
    assert list(tmp_path.glob(".all*")) == []
