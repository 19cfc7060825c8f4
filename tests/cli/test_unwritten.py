import pypdfium2
import pytest

from estimator.cli.main import main


@pytest.mark.parametrize(("name", "lines"), [("厨房", 0), ("रसोई", 1)])
def test_letters_that_papers_lack_are_told_once(tmp_path, monkeypatch, capsys, name, lines):
    monkeypatch.chdir(tmp_path)
    assert main(["sketch", f"{name} 3 x 4 m; Bath 2 x 2 m", "-o", "p.json"]) == 0
    assert main(["quote", "p.json", "--pdf", "q.pdf", "--worksheet", "w.pdf"]) == 0

    said = capsys.readouterr().out.splitlines()
    assert sum("Papers have no letters" in line for line in said) == lines
    document = pypdfium2.PdfDocument("q.pdf")
    assert (name in document[0].get_textpage().get_text_range()) is (lines == 0)
    document.close()
