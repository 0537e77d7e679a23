"""Fills in a form with a program that is not ours.

    fill_form.py pypdf|poppler FORM FILLED [--tick NAME]... < lines of NAME<tab>TEXT

NAME is the field's name in the file.  pypdf writes the file anew; poppler is a viewer's library,
draws what is typed, and adds to the file as viewers do.
"""

import pathlib
import sys


def with_pypdf(form, filled, texts, ticks):
    from pypdf import PdfReader, PdfWriter

    writer = PdfWriter()
    writer.clone_document_from_reader(PdfReader(form))
    values = dict(texts) | {name: "/Yes" for name in ticks}
    for page in writer.pages:
        writer.update_page_form_field_values(page, values)
    with open(filled, "wb") as out:
        writer.write(out)


def with_poppler(form, filled, texts, ticks):
    import gi

    gi.require_version("Poppler", "0.18")
    from gi.repository import Poppler

    document = Poppler.Document.new_from_file(pathlib.Path(form).resolve().as_uri(), None)
    found = set()
    for number in range(document.get_n_pages()):
        page = document.get_page(number)
        for mapping in page.get_form_field_mapping():
            name = mapping.field.get_name()
            if name in texts:
                mapping.field.text_set_text(texts[name])
                found.add(name)
            if name in ticks:
                mapping.field.button_set_state(True)
                found.add(name)
    missing = (set(texts) | set(ticks)) - found
    if missing:
        sys.exit(f"no such fields: {sorted(missing)}")
    document.save(pathlib.Path(filled).resolve().as_uri())


def main():
    program, form, filled, *rest = sys.argv[1:]
    ticks = [name for option, name in zip(rest[::2], rest[1::2]) if option == "--tick"]
    texts = dict(line.rstrip("\n").split("\t", 1) for line in sys.stdin)
    {"pypdf": with_pypdf, "poppler": with_poppler}[program](form, filled, texts, ticks)


if __name__ == "__main__":
    main()
