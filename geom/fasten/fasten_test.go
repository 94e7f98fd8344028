package fasten

import (
	"bytes"
	"encoding/json"
	"math"
	"reflect"
	"strings"
	"testing"

	"ribwright/geom"
	"ribwright/geom/finding"
	"ribwright/geom/outside"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// every is the ribs that hold what must be true of every pattern.
func every(t testing.TB) []testRib {
	t.Helper()
	if len(everyRib) == 0 {
		everyRib = append(randoms(t, 50),
			demo(t, "marsh-wren", "kind = \"staple\"\n"), demo(t, "marsh-wren", "kind = \"staple\"\nleg = 10\nangle = 20\n"),
			demo(t, "reed-bunting", "kind = \"staple\"\n"), demo(t, "reed-bunting", "kind = \"nail\"\n"))
	}
	return everyRib
}

// everyRib is laid out once; no test changes it.
var everyRib []testRib

func outlines(r *rib.Rib) map[string]geom.Ring {
	out := map[string]geom.Ring{}
	for _, c := range r.Caps {
		out[c.ID] = c.Outline
	}
	for _, k := range r.Blocks {
		out[k.ID] = k.Outline
	}
	for _, s := range r.Sticks {
		out[s.ID] = s.Outline
	}
	return out
}

// TestLegsStandClear looks round every leg in small steps: all that lies within the edge distance is wood of
// its member and under its plate, and clear of the pilot hole; nothing of the crown leaves the member.
func TestLegsStandClear(t *testing.T) {
	all, n := every(t), 0
	for _, one := range all {
		set, wood := one.doc.Fastener, outlines(one.r)
		for _, f := range one.p.All {
			n++
			g := one.r.Gussets[f.Gusset]
			plate, ring := geom.Ring(g.Outline.Flatten(geom.Flat)), wood[f.Member]
			for _, leg := range f.Legs {
				for k := range 30 {
					for _, share := range []float64{0.5, 1} {
						q := leg.Along(geom.Polar(float64(k)*math.Pi/15), share*set.Edge-0.01)
						if !plate.Holds(q) || !ring.Holds(q) {
							t.Fatalf("%s: a leg in %s at %s stands within %g mm of an edge", one.name, f.Member, g.ID, set.Edge)
						}
						if one.doc.Saw.Plates == "hole-saw" && g.Shape == rib.Round && q.Dist(g.Centre) < one.doc.Saw.Pilot/2 {
							t.Fatalf("%s: a leg in %s at %s stands at the pilot hole", one.name, f.Member, g.ID)
						}
					}
				}
			}
			for k := range 11 {
				if q := f.Legs[0].Lerp(f.Legs[len(f.Legs)-1], float64(k)/10); !ring.Holds(q) {
					t.Fatalf("%s: the crown in %s at %s leaves the wood", one.name, f.Member, g.ID)
				}
			}
			if set.Kind == "staple" && math.Abs(f.Legs[0].Dist(f.Legs[1])-set.Crown) > 1e-9 {
				t.Errorf("%s: legs %g mm apart, want %g", one.name, f.Legs[0].Dist(f.Legs[1]), set.Crown)
			}
		}
	}
	if n < 3000 {
		t.Errorf("only %d fasteners in %d ribs: the test tells too little", n, len(all))
	}
}

// TestApart holds the spacing, the distance from sawn ends of sticks, the legs of both faces apart, and that
// every member under a plate has a fastener or is told to have none.
func TestApart(t *testing.T) {
	for _, one := range every(t) {
		set, members := one.doc.Fastener, membersOf(one.r)
		for g, plate := range one.r.Gussets {
			for face := range plate.Faces {
				for _, m := range members {
					fs := one.p.in(g, face, m.id)
					bare := false
					for _, b := range one.p.Bare {
						bare = bare || b == Bare{g, face, m.id}
					}
					if want := plate.GlueMM2[m.id] > 0; want != (len(fs) > 0 || bare) || bare && len(fs) > 0 {
						t.Errorf("%s: %s at %s, under the plate %v: %d fasteners, told bare %v", one.name, m.id, plate.ID, want, len(fs), bare)
					}
					for i, f := range fs {
						for _, o := range fs[:i] {
							if d := f.At.Dist(o.At); d < set.Spacing-1e-9 {
								t.Errorf("%s: %s at %s: %g mm apart, want %g", one.name, m.id, plate.ID, d, set.Spacing)
							}
						}
						for _, leg := range f.Legs {
							for _, o := range one.p.in(g, 1-face, m.id) {
								for _, other := range o.Legs {
									if Meet(one.doc, m.width) && leg.Dist(other) < set.Edge-1e-9 {
										t.Errorf("%s: legs of both faces meet in %s at %s", one.name, m.id, plate.ID)
									}
								}
							}
						}
					}
				}
			}
		}
		for _, s := range one.r.Sticks {
			for _, f := range one.p.All {
				if f.Member != s.ID {
					continue
				}
				for _, leg := range f.Legs {
					for _, e := range s.Ends {
						for _, c := range e.Cuts {
							if d := geom.Distance(leg, []geom.Pt{c.A, c.B}, false); d < set.End-1e-9 {
								t.Errorf("%s: a leg %g mm from a sawn end of %s, want %g", one.name, d, s.ID, set.End)
							}
						}
					}
				}
			}
		}
	}
}

// TestAgainstGEOS asks GEOS, by way of Debian's python3-shapely, for the distances of all legs, and whether there was
// room for a nail where none is.
func TestAgainstGEOS(t *testing.T) {
	python := outside.Python(t, "shapely")
	type site struct {
		Name, Kind        string
		Wood, Plate       geom.Ring
		Legs              [][]geom.Pt
		Ends              [][2]geom.Pt
		Edge, End, Spoilt float64 // Spoilt: radius of the pilot hole
		Centre            geom.Pt
	}
	var in bytes.Buffer
	enc := json.NewEncoder(&in)
	for _, one := range every(t) {
		set, members := one.doc.Fastener, membersOf(one.r)
		for g, plate := range one.r.Gussets {
			for _, m := range members {
				if plate.GlueMM2[m.id] == 0 {
					continue
				}
				s := site{Name: one.name + ": " + m.id + " at " + plate.ID, Kind: set.Kind, Wood: m.ring, Plate: plate.Outline.Flatten(1e-3),
					Ends: m.ends, Edge: set.Edge, End: set.End, Centre: plate.Centre, Legs: [][]geom.Pt{}}
				if one.doc.Saw.Plates == "hole-saw" && plate.Shape == rib.Round {
					s.Spoilt = one.doc.Saw.Pilot / 2
				}
				for _, f := range one.p.in(g, 0, m.id) {
					s.Legs = append(s.Legs, f.Legs)
				}
				if err := enc.Encode(s); err != nil {
					t.Fatal(err)
				}
			}
		}
	}
	out := strings.TrimSpace(outside.Run(t, python, "testdata/room.py", outside.File(t, "sites.json", in.Bytes())))
	if lines := strings.Split(out, "\n"); lines[len(lines)-1] != "looked at all" || len(lines) > 1 {
		t.Errorf("GEOS does not agree:\n%s", out)
	}
}

// TestSymmetric holds that a rib which is its own mirror image has the same pattern on both caps.
func TestSymmetric(t *testing.T) {
	one, ok := layOut(t, "symmetric", `units = "mm"
section = { naca = "0015" }
rib = { chord = 1200 }
spar = [{ name = "a", at = "20%", width = 16 }, { name = "b", at = "60%", width = 12 }]
bay = [{ from = "a", to = "b", pattern = "uprights", panels = 3 }]
fastener = { kind = "staple", angle = 12 }
`)
	if !ok || len(one.p.All) == 0 {
		t.Fatal("no pattern")
	}
	for _, f := range one.p.All {
		found := false
		for _, o := range one.p.All {
			found = found || f.Face == o.Face && math.Hypot(f.At.X-o.At.X, f.At.Y+o.At.Y) < 0.3
		}
		if !found {
			t.Errorf("nothing mirrors the staple in %s at (%.1f, %.1f)", f.Member, f.At.X, f.At.Y)
		}
	}
}

// TestUnits holds that inches and millimetres give the same pattern.
func TestUnits(t *testing.T) {
	mm := demo(t, "marsh-wren", "kind = \"staple\"\ncrown = 6.35\nleg = 6.35\nwire = [1.27, 0.508]\nspacing = 19.05\nedge = 1.5875\nend = 4.7625\n")
	in := demo(t, "marsh-wren", "kind = \"staple\"\ncrown = \"1/4 in\"\nleg = \"1/4 in\"\nwire = [\"0.05 in\", \"0.020 in\"]\nspacing = \"3/4 in\"\nedge = \"1/16 in\"\nend = \"3/16 in\"\n")
	if !reflect.DeepEqual(mm.p.All, in.p.All) {
		t.Errorf("%d fasteners in millimetres, %d in inches", len(mm.p.All), len(in.p.All))
	}
}

// TestMass works masses out by hand: section × length × density.
func TestMass(t *testing.T) {
	for _, c := range []struct {
		f    ribfile.Fastener
		want float64
	}{
		{ribfile.Fastener{Kind: "staple", Crown: 5, Leg: 6, Wire: 1, Flat: 0.5, Material: "steel"}, 0.5 * 17 * 7.85e-3},
		{ribfile.Fastener{Kind: "staple", Crown: 10, Leg: 8, Wire: 0.8, Material: "brass"}, math.Pi * 0.16 * 26 * 8.5e-3},
		{ribfile.Fastener{Kind: "nail", Crown: 10, Leg: 12, Wire: 1, Material: "stainless"}, math.Pi / 4 * 12 * 7.9e-3},
		{ribfile.Fastener{Kind: "none", Leg: 12, Wire: 1, Material: "steel"}, 0},
	} {
		if got := MassG(c.f); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%+v: %g g, want %g", c.f, got, c.want)
		}
	}
	for _, m := range ribfile.Metals {
		if metals[m] < 7 || metals[m] > 9 {
			t.Errorf("%s: %g g/cm³", m, metals[m])
		}
	}
	// EN 1991-1-1, Table A.4 (from memory): steel 77.0 to 78.5 kN/m³, brass 83 to 85.
	if w := metals["steel"] * 9.80665; w < 76.9 || w > 78.5 {
		t.Errorf("steel weighs %g kN/m³", w)
	}
	if w := metals["brass"] * 9.80665; w < 83 || w > 85 {
		t.Errorf("brass weighs %g kN/m³", w)
	}
}

// TestFind holds what is told, and when.
func TestFind(t *testing.T) {
	for _, c := range []struct{ keys, want string }{
		{"kind = \"none\"\nmaterial = \"steel\"\nleg = 20\n", ""},
		{"kind = \"nail\"\nleg = 13.5\nend = 1\nedge = 0.7\nwire = 0.5\n", ""},
		{"kind = \"nail\"\nleg = 13.6\nend = 1\nedge = 0.7\nwire = 0.5\n", "warning fastener-through"},
		{"kind = \"nail\"\nend = 1\nedge = 0.7\nmaterial = \"steel\"\nwire = 0.5\n", "note fastener-rust"},
		{"kind = \"nail\"\nend = 1\nedge = 0.7\nmaterial = \"steel\"\nafter = \"pulled\"\nwire = 0.5\n", ""},
		{"kind = \"staple\"\ncrown = 16\n", "note fastener-no-room"},
	} {
		one := demo(t, "marsh-wren", c.keys)
		got := ""
		for _, f := range Find(one.p, one.r, one.doc) {
			got = strings.TrimSpace(got + " " + f.Severity.String() + " " + f.Code)
			if f.Message == "" || f.Fix == "" || f.Key == "" || f.Severity == finding.Error {
				t.Errorf("%+v", f)
			}
		}
		if got != c.want {
			t.Errorf("%q: got %q, want %q", c.keys, got, c.want)
		}
	}
	if one := demo(t, "marsh-wren", "kind = \"none\"\n"); len(one.p.All)+len(one.p.Bare) > 0 {
		t.Error("fasteners where none are wanted")
	}
}

func BenchmarkOf(b *testing.B) {
	one := demo(b, "marsh-wren", "kind = \"staple\"\n")
	for b.Loop() {
		Of(one.r, one.doc)
	}
}
