"""What people read in a file of JSON, told by the names of its fields."""
import json


def texts_of(node, read_by_people, maps, no_words=()):
    """The texts of fields called so, of lists of steps, and of fields whose every value is read by people (`maps`)."""
    if isinstance(node, list):
        for item in node:
            yield from texts_of(item, read_by_people, maps, no_words)
    elif isinstance(node, dict):
        for name, value in node.items():
            if name in no_words:
                continue
            if name in read_by_people and isinstance(value, str):
                yield value
            elif name in maps and isinstance(value, dict):
                yield from (text for text in value.values() if isinstance(text, str))
            elif name == "steps" and all(isinstance(item, str) for item in value):
                yield from value
            else:
                yield from texts_of(value, read_by_people, maps, no_words)


def marked(texts):
    """A source that xgettext understands, a line a text."""
    return "".join(f"OHMWRIGHT_TEXT({json.dumps(text, ensure_ascii=False)})\n" for text in texts)
