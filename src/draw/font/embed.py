"""Writes a C++ source that holds the bytes of the given files: embed.py OUT NAME=FILE ..."""
import sys


def main():
    out = sys.argv[1]
    parts = ["// Made by embed.py from the subset of the face; do not edit.\n#include \"font_data.h\"\n\n"
             "namespace lapwright::draw::font_data {\n"]
    for argument in sys.argv[2:]:
        name, path = argument.split("=", 1)
        with open(path, "rb") as file:
            data = file.read()
        parts.append(f"static constexpr unsigned char {name}_bytes[] = {{\n")
        for start in range(0, len(data), 24):
            parts.append("".join(f"{byte}," for byte in data[start:start + 24]) + "\n")
        parts.append(f"}};\nstd::span<const unsigned char> {name}() {{ return {name}_bytes; }}\n")
    parts.append("}  // namespace lapwright::draw::font_data\n")
    with open(out, "w", encoding="ascii") as file:
        file.write("".join(parts))


main()
