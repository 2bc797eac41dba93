"""Writes a text file as a C string: embed-text.py INPUT OUTPUT NAME."""

import sys

source, target, name = sys.argv[1:]
with open(source, encoding="utf-8") as text:
    lines = text.read().splitlines()
with open(target, "w", encoding="utf-8") as header:
    header.write(f"static const char {name}[] =\n")
    for line in lines:
        escaped = line.replace("\\", "\\\\").replace('"', '\\"')
        header.write(f'  "{escaped}\\n"\n')
    header.write("  ;\n")
