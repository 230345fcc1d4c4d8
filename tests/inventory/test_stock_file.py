"""The stock file, read without a database."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.stock_file import MOST_LINES, StockFileError, decode, read_stock_file, write_stock_file

PARTS, BINS = ["SB20", "SB26", "RL26-R"], ["C-14", "C-15", "D-05"]
HEAD = "part,bin,lot,quantity\n"


def read(text):
    return read_stock_file(text, parts=PARTS, bins=BINS)


def test_a_file_is_read_line_by_line():
    lines = read("part,name,bin,lot,quantity\nSB26,Side brace,C-14,P-304,44\n\nsb20,,c-15,unknown,0\n")
    assert [(line.number, line.part, line.bin, line.lot, line.quantity, line.wrong) for line in lines] == [
        (2, "SB26", "C-14", "P-304", 44, ""),
        (4, "SB20", "C-15", "unknown", 0, ""),
    ]


def test_columns_may_stand_in_any_order():
    line = read("Quantity, LOT ,bin,part\n44,P-304,C-14,SB26\n")[0]
    assert (line.part, line.quantity, line.wrong) == ("SB26", 44, "")


@pytest.mark.parametrize(
    ("row", "sentence"),
    [
        ("SB27,C-14,P-304,44", "Part SB27 is not here: SB26 is the nearest."),
        ("ZZZ,C-14,P-304,44", "Part ZZZ is not here: look it up in the list of parts."),
        (",C-14,P-304,44", "The part is missing: write its number."),
        ("SB26,C-144,P-304,44", "Bin C-144 is not here: C-14 is the nearest."),
        ("SB26,Z,P-304,44", "Bin Z is not here: look it up in the list of bins."),
        ("SB26,,P-304,44", "The bin is missing: write its code."),
        ("SB26,C-14,,44", "The lot is missing: write it as it stands on the tag, or say unknown."),
        ("SB26,C-14,P-304,", "The quantity is missing: write how many the bin holds, 0 for none."),
        ("SB26,C-14", "The lot is missing: write it as it stands on the tag, or say unknown."),
        ("SB26,C-14,P-304,4.5", "Quantity '4.5' is no whole number of pieces: write it like 44."),
        ("SB26,C-14,P-304,-4", "Quantity '-4' is no whole number of pieces: write it like 44."),
        ("SB26,C-14,P-304,٤٤", "Quantity '٤٤' is no whole number of pieces: write it like 44."),
        ("SB26,C-14,P-304,9999999", "Quantity 9,999,999 is more than 1,000,000: look whether a figure slipped in."),
    ],
)
def test_a_bad_line_says_what_would_do(row, sentence):
    lines = read(f"{HEAD}SB20,C-15,P-311,128\n{row}\n")
    assert [line.wrong for line in lines] == ["", sentence]
    assert lines[1].quantity is None


def test_one_place_named_twice_is_refused_at_the_second():
    lines = read(f"{HEAD}SB26,C-14,P-304,44\nSB26,C-14,p-304,40\n")
    assert [line.wrong for line in lines] == [
        "", "Line 2 already says what C-14 holds of SB26, lot P-304: leave one of the two out.",
    ]


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("", "The file is empty: its first line names the columns part, bin, lot, quantity."),
        (HEAD, "The file names its columns and nothing under them: add a line for each bin and lot."),
        ("part,bin,quantity\nSB26,C-14,4\n", "Column lot is missing: the first line names part, bin, lot, quantity."),
        ("part,bin,lots,quantity\n", "Column 'lots' is not known: lot is the nearest."),
        ("part,bin,lot,zebra\n", "Column 'zebra' is not known: the columns are part, name, bin, lot, quantity."),
        ("part;bin;lot;quantity\n", "The columns of the first line stand with no comma between them: save the file as CSV with commas."),
        ("part,part,bin,lot,quantity\n", "Column part stands twice in the first line: leave one of them out."),
        (f'{HEAD}SB26,"C-14,P-304,44\n', "Line 2 has a quotation mark that is not closed: mend it and choose the file again."),
        (HEAD + "SB26,C-14,P-304,4\n" * (MOST_LINES + 1), "The file has 5,001 lines: split it into files of 5,000 or fewer."),
    ],
)
def test_a_file_that_can_not_be_read_says_why(text, sentence):
    with pytest.raises(StockFileError) as refused:
        read(text)
    assert str(refused.value) == sentence


def test_bytes_are_read_with_and_without_a_mark():
    assert decode("\ufeffpart".encode()) == decode(b"part") == "part"


@pytest.mark.parametrize(
    ("content", "sentence"),
    [
        (b"part\xff", "The file is no UTF-8 text: save it as CSV UTF-8 and choose it again."),
        (b"PK\x03\x04\0\0", "The file is no text but something packed: save it as CSV UTF-8 and choose it again."),
    ],
)
def test_what_is_no_text_is_refused(content, sentence):
    with pytest.raises(StockFileError) as refused:
        decode(content)
    assert str(refused.value) == sentence


LOTS = st.text("C0417/.-", max_size=8).map(lambda text: f"L{text}")
ROWS = st.dictionaries(st.tuples(st.sampled_from(PARTS), st.sampled_from(BINS), LOTS), st.integers(0, 1_000_000), min_size=1)


@given(ROWS)
def test_what_is_written_is_read_again(stock):
    rows = [(part, 'Brace, "lower"', bin, lot, quantity) for (part, bin, lot), quantity in stock.items()]
    lines = read(write_stock_file(rows))
    assert {(line.part, line.bin, line.lot): line.quantity for line in lines} == stock
