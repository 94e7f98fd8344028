"""Areas by GEOS (package python3-shapely) under webs, for the ribs in the file named, one JSON object each line:
{"Name", "Outline", "Holes", "Members", "Areas", "Area"}. Prints the worst relative difference from the areas given of a
member, and of the whole web, which is what lies over members and what lies free. Lengths mm."""
import json
import sys

from shapely.geometry import Polygon
from shapely.ops import unary_union

member = whole = 0.0
for line in open(sys.argv[1]):
    q = json.loads(line)
    web = Polygon(q["Outline"])
    for h in q["Holes"] or []:
        web = web.difference(Polygon(h))
    parts = {k: Polygon(r) for k, r in q["Members"].items() if len(r) > 2}
    for k, p in parts.items():
        want = p.intersection(web).area
        got = q["Areas"].get(k, 0.0)
        if abs(got - want) > 1e-6 * max(want, 1):
            print(q["Name"], k, got, want)
        member = max(member, abs(got - want) / max(want, 1))
    free = web.difference(unary_union(list(parts.values()))).area
    total = free + sum(q["Areas"].values())
    for got in (q["Area"], total):
        if abs(got - web.area) > 1e-6 * web.area:
            print(q["Name"], "web", got, web.area)
        whole = max(whole, abs(got - web.area) / web.area)
print("%.0e %.0e" % (member, whole))
