#!/bin/sh
# Makes the page's two font files from third_party/fonts (run it again when those change; needs fonttools and
# python3-brotli). The license reserves the family's name for unmodified files, so the subset takes another.
set -eu
cd "$(dirname "$0")"
characters="U+0020-007E,U+00A0-00FF,U+0131,U+0152,U+0153,U+0160,U+0161,U+017D,U+017E,U+0394,U+03B7,U+03BC,U+2009,U+200A"
characters="$characters,U+2013,U+2014,U+2018-201E,U+2022,U+2026,U+2032,U+2033,U+2190-2193,U+2212,U+2248,U+2260,U+2264,U+2265"
for weight in regular semibold; do
  pyftsubset "../../../third_party/fonts/sans-$weight.ttf" --unicodes="$characters" --no-hinting \
    --layout-features=kern,liga,tnum,mark,ccmp,locl --name-IDs=0,1,2,3,4,5,6,13,14 --output-file="$weight.ttf"
  /usr/bin/python3 - "$weight" <<'PYTHON'
import sys
from fontTools.ttLib import TTFont
weight = sys.argv[1]
font = TTFont(weight + ".ttf")
for record in list(font["name"].names):
    if record.nameID in (1, 3, 4):
        font["name"].setName("Shimwright Sans " + weight, record.nameID, *(record.platformID, record.platEncID, record.langID))
    if record.nameID == 6:
        font["name"].setName("ShimwrightSans-" + weight, 6, *(record.platformID, record.platEncID, record.langID))
font.flavor = "woff2"
font.save("sans-" + weight + ".woff2")
PYTHON
  rm "$weight.ttf"
done
