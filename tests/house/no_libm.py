"""no_libm.py BUILD_DIR: no object of src/ calls trigonometry, powers or logarithms of the C library, which differ by an
ulp between C libraries. First it proves on an object made for the purpose that it would see them.
"""

import pathlib
import re
import subprocess
import sys
import tempfile

NAMES = re.compile(
    r"^(?:a?sinh?|a?cosh?|a?tanh?|atan2|sincos|pow|exp|exp2|exp10|expm1|log|log2|log10|log1p|cbrt|hypot|tgamma|lgamma|"
    r"erfc?)[fl]?$"
)


def called(objects):
    """[(object, symbol)] of what these objects want from libm."""
    found = []
    for path in objects:
        listing = subprocess.run(["nm", "-u", str(path)], check=True, capture_output=True, text=True).stdout
        for line in listing.splitlines():
            symbol = line.split()[-1].split("@")[0]
            if NAMES.match(symbol):
                found.append((path.name, symbol))
    return found


def proves_itself():
    with tempfile.TemporaryDirectory() as folder:
        source = pathlib.Path(folder) / "planted.cpp"
        source.write_text("#include <cmath>\ndouble f(double x) { return std::atan2(std::sin(x), std::sqrt(x)); }\n")
        target = source.with_suffix(".o")
        subprocess.run(["c++", "-O2", "-c", str(source), "-o", str(target)], check=True)
        return sorted({symbol for _, symbol in called([target])}) == ["atan2", "sin"]


objects = sorted(pathlib.Path(sys.argv[1]).glob("src/CMakeFiles/lapwright_*.dir/**/*.o"))
if not proves_itself():
    sys.exit("the check does not see a planted call")
if not objects:
    sys.exit("no objects found")
bad = called(objects)
for name, symbol in bad:
    print(f"{name} calls {symbol}")
print(f"{len(objects)} objects, {len(bad)} calls")
sys.exit(1 if bad else 0)
