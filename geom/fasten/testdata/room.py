# Reads places of fasteners, one JSON object a line, and prints where a leg stands too near to an edge, an end or a hole,
# and where a nail would find room though none was placed.
import json
import sys

from shapely.geometry import LineString, MultiLineString, Point, Polygon

SLACK = 2e-3  # mm: chords for arcs
for line in open(sys.argv[1]):
    s = json.loads(line)
    wood, plate = Polygon(s["Wood"]), Polygon(s["Plate"])
    ends, centre = MultiLineString(s["Ends"] or []), Point(s["Centre"])
    for legs in s["Legs"]:
        for p in map(Point, legs):
            if not wood.contains(p) or not plate.contains(p):
                print(s["Name"], "a leg beside the wood or the plate", p)
            if min(wood.exterior.distance(p), plate.exterior.distance(p)) < s["Edge"] - SLACK:
                print(s["Name"], "a leg near an edge", p)
            if not ends.is_empty and ends.distance(p) < s["End"] - SLACK:
                print(s["Name"], "a leg near a sawn end", p)
            if s["Spoilt"] and centre.distance(p) < s["Spoilt"] + s["Edge"] - SLACK:
                print(s["Name"], "a leg near the pilot hole", p)
        if len(legs) > 1 and LineString(legs).distance(wood.exterior) < s["Edge"] - SLACK:
            print(s["Name"], "a crown near an edge", legs)
    if s["Kind"] == "nail" and not s["Legs"]:
        room = wood.buffer(-s["Edge"], 64).intersection(plate.buffer(-s["Edge"], 64))
        room = room.difference(ends.buffer(s["End"], 64))
        if s["Spoilt"]:
            room = room.difference(centre.buffer(s["Spoilt"] + s["Edge"], 64))
        if room.area > 1:
            print(s["Name"], "has room for a nail: %.2f mm2" % room.area)
print("looked at all")
