"""Areas by GEOS (package python3-shapely) that jig blocks share with other things, for the boards in the file named, one JSON
object each line: {"Name", "Blocks", "Things", "Holes"}. Whatever shares more than 1e-4 mm² is printed. Lengths mm."""
import json
import sys

from shapely.geometry import Point, Polygon

for line in open(sys.argv[1]):
    q = json.loads(line)
    things = {k: Polygon(r) for k, r in q["Things"].items() if len(r) > 2}
    things.update({"hole %d" % i: Point(x, y).buffer(r, 256) for i, (x, y, r) in enumerate(q["Holes"] or [])})
    blocks = [Polygon(b) for b in q["Blocks"]]
    for i, b in enumerate(blocks):
        if not b.is_valid:
            print(q["Name"], "block", i, "is no simple ring")
        for k, t in things.items():
            a = b.intersection(t).area
            if a > 1e-4:
                print(q["Name"], "block", i, "and", k, a)
        for j in range(i):
            a = b.intersection(blocks[j]).area
            if a > 1e-4:
                print(q["Name"], "blocks", i, j, a)
print("looked at all")
