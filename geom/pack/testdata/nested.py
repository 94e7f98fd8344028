"""Measures nested sheets by GEOS (package python3-shapely). The file named holds one JSON object a line: {"name", "sheet",
"holes", "parts", "gap", "margin"}; rings are lists of [x, y], lengths mm. Says what is wrong, or how many sheets are right."""
import json
import sys

from shapely.geometry import Polygon

TOL = 1e-6 + 0.001  # arcs come as chords that are 0.0005 mm inside
right = 0
for line in open(sys.argv[1]):
    q = json.loads(line)
    sheet = Polygon(q["sheet"], q["holes"] or [])
    parts = [Polygon(p) for p in q["parts"]]
    wrong = []
    for i, p in enumerate(parts):
        if not p.is_valid:
            p = parts[i] = p.buffer(0)
        if p.difference(sheet).area > TOL * p.length:
            wrong.append("part %d leaves the sheet" % i)
        if p.distance(sheet.boundary) < q["margin"] - TOL:
            wrong.append("part %d stands %.6f from the edge, want %g" % (i, p.distance(sheet.boundary), q["margin"]))
    for i, p in enumerate(parts):
        for j in range(i):
            if p.distance(parts[j]) < q["gap"] - TOL or p.intersection(parts[j]).area > TOL * p.length:
                wrong.append("parts %d and %d stand %.6f apart, want %g" % (i, j, p.distance(parts[j]), q["gap"]))
    for w in wrong:
        print(q["name"] + ":", w)
    right += not wrong
print(right, "sheets are right")
