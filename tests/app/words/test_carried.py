"""A text that goes through JSON to another program of ours can still be said in its language."""

import json

from app.words import in_language, told
from app.words.carried import texts_of, with_words
from geometry.said import joined, packed, said, unpacked

LAY = said("{0}: {1}", "Twill", joined(said("{0} m", "1.25"), "no price"))
WORDS = {"{0} m": "metri {0}", "no price": "senza prezzo"}


def through_json(payload):
    return json.loads(json.dumps(payload))


def test_a_text_keeps_its_words_and_its_figures() -> None:
    back = unpacked(through_json(packed(LAY)))
    assert back == LAY
    with in_language("it", WORDS.get):
        assert told(back) == "Twill: metri 1,25; senza prezzo"


def test_an_object_is_read_with_the_texts_it_was_written_with() -> None:
    payload = {"assumptions": [LAY, "no price"], "lays": ({"note": said("{0} m", 2)},), "1": 3, "2": None}
    back = with_words(through_json(payload), through_json(texts_of(payload)))
    assert back == through_json(payload)
    with in_language("it", WORDS.get):
        assert told(back["assumptions"][0]).endswith("metri 1,25; senza prezzo")
        assert told(back["lays"][0]["note"]) == "metri 2"


def test_a_name_that_is_no_text_stays_a_name() -> None:
    assert with_words({"name": "1.25 m", "keys": {"1.25 m": 1}}, {}) == {
        "name": "1.25 m",
        "keys": {"1.25 m": 1},
    }
    assert texts_of({"name": "Twill"}) == {}
