import io
import struct
import subprocess
import sys
import zipfile
import zlib

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from estimator.errors import EmptyPage, EstimatorError, SourceError, UnknownFormat
from estimator.intake.pictures import open_bytes, open_picture, page_count, page_count_of

WIDTH, HEIGHT = 120, 80


def drawn(mode="RGB"):
    """A dark corner top left on white paper, so that turns and inversions show."""
    pixels = np.full((HEIGHT, WIDTH), 255, np.uint8)
    pixels[:20, :30] = 0
    return Image.fromarray(pixels).convert(mode)


def saved(image, kind, **options):
    buffer = io.BytesIO()
    image.save(buffer, kind, **options)
    return buffer.getvalue()


def assert_upright(picture, width=WIDTH, height=HEIGHT):
    assert (picture.width_px, picture.height_px) == (width, height)
    assert picture.pixels[5, 5].max() < 30
    assert picture.pixels[-5, -5].min() > 225
    assert picture.pixels[-5, 5].min() > 225
    assert picture.pixels[5, -5].min() > 225


@pytest.mark.parametrize("kind", ["PNG", "JPEG", "TIFF", "WEBP", "GIF", "BMP"])
def test_every_kind_of_picture_opens_whatever_its_name_says(kind, tmp_path):
    path = tmp_path / "plan.txt"
    path.write_bytes(saved(drawn(), kind))
    picture = open_picture(path)
    assert_upright(picture)
    assert (picture.file, picture.page, picture.words) == ("plan.txt", 1, ())
    assert page_count(path) == 1


@pytest.mark.parametrize("mode", ["1", "L", "P", "LA", "RGB", "RGBA", "I;16"])
@pytest.mark.parametrize("kind", ["PNG", "TIFF"])
def test_every_mode_of_colour_becomes_rgb(mode, kind):
    if mode == "I;16":
        image = Image.fromarray(np.asarray(drawn("L")).astype(np.uint16) * 257)
    else:
        image = drawn(mode)
    assert_upright(open_bytes(saved(image, kind), "plan"))


def test_twelve_bits_in_sixteen_are_scaled_to_white():
    image = Image.fromarray(np.asarray(drawn("L")).astype(np.uint16) * 16)
    assert_upright(open_bytes(saved(image, "TIFF"), "plan.tif"))


def test_a_floating_point_tiff_is_scaled_to_white():
    image = Image.fromarray(np.asarray(drawn("L")).astype(np.float32) / 255)
    assert_upright(open_bytes(saved(image, "TIFF"), "plan.tif"))


@pytest.mark.parametrize("kind", ["JPEG", "TIFF"])
def test_cmyk_becomes_rgb(kind):
    assert_upright(open_bytes(saved(drawn("CMYK"), kind), "plan"))


def test_a_bilevel_tiff_of_a_fax_is_read():
    assert_upright(open_bytes(saved(drawn("1"), "TIFF", compression="group4"), "plan.tif"))


def test_transparent_parts_are_white_paper():
    image = Image.new("RGBA", (WIDTH, HEIGHT), (0, 0, 0, 0))
    image.paste((0, 0, 0, 255), (0, 0, 30, 20))
    assert_upright(open_bytes(saved(image, "PNG"), "plan.png"))


def test_a_transparent_colour_of_a_palette_is_white_paper():
    image = Image.new("P", (WIDTH, HEIGHT), 1)
    image.putpalette([0, 0, 0, 0, 0, 255])
    image.paste(0, (0, 0, 30, 20))
    assert_upright(open_bytes(saved(image, "PNG", transparency=1), "plan.png"))


@pytest.mark.parametrize("orientation", range(1, 9))
@pytest.mark.parametrize("kind", ["JPEG", "TIFF", "PNG", "WEBP"])
def test_a_photo_is_turned_upright(orientation, kind):
    # Exif 2.3, tag 274: how the upright picture was turned before it was stored.
    stored = {
        1: lambda a: a,
        2: lambda a: a[:, ::-1],
        3: lambda a: a[::-1, ::-1],
        4: lambda a: a[::-1],
        5: lambda a: a.T,
        6: lambda a: np.rot90(a, 1),
        7: lambda a: np.rot90(a, 2).T,
        8: lambda a: np.rot90(a, -1),
    }[orientation](np.asarray(drawn("L")))
    image = Image.fromarray(np.ascontiguousarray(stored)).convert("RGB")
    exif = Image.Exif()
    exif[274] = orientation
    picture = open_bytes(saved(image, kind, exif=exif), "photo.jpg")
    assert_upright(picture)
    assert (picture.source.width_px, picture.source.height_px) == (WIDTH, HEIGHT)


def test_an_animated_picture_gives_its_first_frame():
    frames = [drawn("L"), Image.new("L", (WIDTH, HEIGHT), 128)]
    for kind in ("GIF", "WEBP", "PNG"):
        data = saved(frames[0], kind, save_all=True, append_images=frames[1:])
        assert page_count_of(data, "plan") == 1
        assert_upright(open_bytes(data, "plan"))


def test_each_page_of_a_tiff_opens():
    data = saved(Image.new("L", (60, 60), 255), "TIFF", save_all=True, append_images=[drawn("L")])
    assert page_count_of(data, "plan.tif") == 2
    picture = open_bytes(data, "plan.tif", page=2)
    assert_upright(picture)
    assert picture.page == 2
    with pytest.raises(EmptyPage, match="page 1 is blank"):
        open_bytes(data, "plan.tif")
    with pytest.raises(SourceError, match="2 pages, and page 3"):
        open_bytes(data, "plan.tif", page=3)


@pytest.mark.parametrize(
    ("written", "read"),
    [((200, 200), 200.0), ((72, 72), None), ((96, 96), None), ((200, 100), None)],
)
def test_a_resolution_is_kept_unless_it_is_that_of_screens(written, read):
    dpi = open_bytes(saved(drawn(), "PNG", dpi=written), "plan.png").dpi
    assert dpi == (None if read is None else pytest.approx(read, rel=1e-4))


def zip_of(*parts):
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w") as archive:
        for part in parts:
            archive.writestr(part, "x" * 100)
    return buffer.getvalue()


@pytest.mark.parametrize(
    ("data", "what"),
    [
        (b"Kitchen 3 x 4 m", "a text file"),
        (b"k\xc3\xbcche " * 500, "a text file"),
        (b"<?xml version='1.0'?><svg xmlns='x'></svg>", "an SVG drawing"),
        (b"<!DOCTYPE html><p>", "a web page"),
        (b"  0\r\nSECTION\r\n  2\r\nHEADER", "a DXF drawing"),
        (b"AC1032\0\0", "a DWG drawing"),
        (zip_of("a.txt"), "a zip archive"),
        (zip_of("[Content_Types].xml", "word/document.xml"), "a word-processor document"),
        (zip_of("[Content_Types].xml", "xl/workbook.xml"), "a spreadsheet"),
        (b"\0\0\0\x18ftypheic\0\0\0\0mif1heic", "a HEIC photo"),
        (b"\0\0\0\x18ftypmp42", "a video"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", "an old office document"),
        (bytes(range(256)), "a file of an unknown kind"),
    ],
)
def test_another_kind_of_file_is_called_what_it_is(data, what):
    with pytest.raises(UnknownFormat, match=rf"plan\.png: it is {what}, .*; send .*PDF"):
        open_bytes(data, "plan.png")


def test_a_missing_an_empty_file_and_a_folder_are_refused(tmp_path):
    with pytest.raises(SourceError, match="no such file"):
        open_picture(tmp_path / "plan.png")
    with pytest.raises(SourceError, match="a folder"):
        open_picture(tmp_path)
    (tmp_path / "empty.pdf").touch()
    with pytest.raises(SourceError, match="file is empty"):
        open_picture(tmp_path / "empty.pdf")


@pytest.mark.parametrize("kind", ["PNG", "JPEG", "TIFF", "WEBP", "GIF", "BMP"])
def test_a_picture_cut_off_is_refused(kind):
    noise = np.random.default_rng(1).integers(0, 255, (HEIGHT, WIDTH, 3), np.uint8)
    data = saved(Image.fromarray(noise), kind)
    with pytest.raises(SourceError, match="damaged or cut off"):
        open_bytes(data[: len(data) // 2], "plan")


@given(st.data())
@settings(max_examples=150)
def test_a_damaged_file_is_read_or_refused_in_a_sentence(data):
    kind = data.draw(st.sampled_from(["PNG", "JPEG", "TIFF", "WEBP", "GIF", "BMP"]))
    whole = bytearray(saved(drawn(), kind))
    for _ in range(data.draw(st.integers(1, 8))):
        whole[data.draw(st.integers(0, len(whole) - 1))] = data.draw(st.integers(0, 255))
    try:
        picture = open_bytes(bytes(whole), "plan")
    except EstimatorError:
        return
    assert picture.pixels.dtype == np.uint8


def test_one_pixel_is_too_small():
    with pytest.raises(EmptyPage, match="1 x 1 pixels"):
        open_bytes(saved(Image.new("RGB", (1, 1)), "PNG"), "dot.png")


@pytest.mark.parametrize("colour", ["white", "black", "grey"])
def test_a_blank_picture_is_said_to_be_blank(colour):
    with pytest.raises(EmptyPage, match="blank"):
        open_bytes(saved(Image.new("RGB", (400, 300), colour), "PNG"), "blank.png")


def png(width, height, depth, colour_type, rows=b""):
    """A PNG by its specification (ISO/IEC 15948): signature, header, data, end."""

    def chunk(name, body):
        return (
            struct.pack(">I", len(body)) + name + body + struct.pack(">I", zlib.crc32(name + body))
        )

    header = struct.pack(">IIBBBBB", width, height, depth, colour_type, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + chunk(b"IDAT", rows) + chunk(b"IEND", b"")
    )


@pytest.mark.parametrize(
    ("width", "height"), [(20_000, 20_000), (60_000, 60_000), (2**31 - 1, 2**31 - 1)]
)
def test_a_picture_too_large_to_decode_is_refused_by_its_header(width, height):
    with pytest.raises(SourceError, match=f"{width:,} x {height:,} pixels, too large"):
        open_bytes(png(width, height, 8, 2), "bomb.png")


PEAK = """
import resource, sys
from pathlib import Path
from estimator.intake.pictures import open_picture
before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
picture = open_picture(Path(sys.argv[1]))
after = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
print(picture.width_px, picture.height_px, picture.dpi, (after - before) // 1024)
"""


def opened_apart(path):
    """Open a picture in a process of its own; return its size, dpi and the megabytes it took."""
    done = subprocess.run(
        [sys.executable, "-c", PEAK, str(path)],
        capture_output=True,
        text=True,
        check=True,
        timeout=60,
    )
    width, height, dpi, megabytes = done.stdout.split()
    return int(width), int(height), dpi, int(megabytes)


def test_a_grey_picture_of_20_000_squared_is_reduced_within_bounded_memory(tmp_path):
    side = 20_000
    packer = zlib.compressobj(1)
    row = b"\0" + b"\xff" * 200 + b"\0" * 200 + b"\xff" * (side // 8 - 400)
    rows = b"".join(packer.compress(row) for _ in range(side)) + packer.flush()
    path = tmp_path / "large.png"
    path.write_bytes(png(side, side, 1, 0, rows))
    width, height, _, megabytes = opened_apart(path)
    assert (width, height) == (4000, 4000)
    assert megabytes < 700


def test_a_large_jpeg_is_decoded_at_reduced_size(tmp_path):
    path = tmp_path / "large.jpg"
    image = Image.new("L", (9000, 9000), 255)
    image.paste(0, (0, 0, 900, 900))
    image.save(path, dpi=(600, 600))
    width, height, dpi, megabytes = opened_apart(path)
    assert (width, height) == (4500, 4500)
    assert float(dpi) == 300
    assert megabytes < 300


def test_a_scan_of_a_whole_sheet_in_black_and_white_is_read(tmp_path):
    path = tmp_path / "A1 at 400 dpi.tif"
    image = Image.new("1", (9354, 13244), 1)
    image.paste(0, (0, 0, 900, 900))
    image.save(path, compression="group4", dpi=(400, 400))
    width, height, dpi, megabytes = opened_apart(path)
    assert (width, height) == (3118, 4415)
    assert float(dpi) == pytest.approx(400 / 3)
    assert megabytes < 300


def test_a_large_jpeg_in_several_scans_is_refused_by_its_header():
    data = saved(drawn("L"), "JPEG", progressive=True)
    at = data.index(b"\xff\xc2") + 5  # height and width follow the frame's length and precision
    data = data[:at] + struct.pack(">HH", 20_000, 20_000) + data[at + 4 :]
    with pytest.raises(SourceError, match="20,000 x 20,000 pixels, too large"):
        open_bytes(data, "large.jpg")
