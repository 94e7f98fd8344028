"""Areas by GEOS (package python3-shapely) for the cases in the file named, one JSON object each line:
{"op", "a", "b", "c", "r", "d"}; one area a line comes back. Rings are lists of [x, y], lengths mm."""
import json
import sys

from shapely.geometry import Point, Polygon

MITRE = 2
for line in open(sys.argv[1]):
    q = json.loads(line)
    a = Polygon(q["a"])
    if not a.is_valid:
        raise SystemExit("not a simple ring: " + line)
    if q["op"] == "common":
        g = a.intersection(Polygon(q["b"]))
    elif q["op"] == "union":
        g = a.union(Polygon(q["b"]))
    elif q["op"] == "disc":
        g = a.intersection(Point(q["c"]).buffer(q["r"], 512))
    elif q["op"] == "mitre":
        g = a.buffer(q["d"], join_style=MITRE, mitre_limit=1e9)
    elif q["op"] == "round":
        g = a.buffer(q["d"], 256)
    else:
        raise SystemExit("what is " + q["op"])
    print(repr(g.area))
