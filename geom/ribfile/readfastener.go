package ribfile

// Fastener is [fastener]: what clamps the plates while the glue sets.
type Fastener struct {
	Kind     string  // "none", "staple" or "nail"
	Crown    float64 // of a staple, between the middles of its legs
	Leg      float64 // from under the crown or the head to the point
	Wire     float64 // diameter of round wire, width of flat wire
	Flat     float64 // thickness of flat wire; 0: the wire is round
	Material string
	Angle    float64 // of a staple's crown to the grain, degrees: 0 lies along the member
	Spacing  float64 // the least between two in one member under one plate
	Edge     float64 // the least from a leg to an edge of plate or member
	End      float64 // the least from a leg to a sawn end
	After    string  // what becomes of it when the glue has cured: "left" or "pulled"
	Box      int     // pieces in a box
	Price    float64 // of a box; 0: not given
}

// Metals are what fasteners are made of.
var Metals = []string{"stainless", "steel", "galvanized", "brass", "bronze"}

// Defaults of fasteners: a light staple of flat wire (common practice, no source).
const (
	defaultFastener  = "none"
	defaultCrown     = 3 * MMPerInch / 16
	defaultLeg       = MMPerInch / 4
	defaultWire      = 0.05 * MMPerInch
	defaultWireFlat  = 0.02 * MMPerInch
	defaultApart     = 3 * MMPerInch / 4
	defaultEdge      = MMPerInch / 16
	defaultEnd       = 3 * MMPerInch / 16
	defaultMetal     = "stainless"
	defaultAfter     = "left"
	defaultBox       = 1000
	defaultLegPlates = 3 // as many plates a leg is long at least where it is left out
)

func (r *reader) fastener(t tab) {
	f, plate := &r.doc.Fastener, r.doc.Gusset.Thickness
	f.Kind = t.choice("kind", defaultFastener, "none", "staple", "nail")
	f.Crown, _ = t.length("crown", defaultCrown, limit{min: 1.5, max: 40})
	f.Leg, _ = t.length("leg", max(defaultLeg, defaultLegPlates*plate), limit{min: plate, above: true, max: 80})
	f.Wire, f.Flat = r.wire(t)
	f.Material = t.choice("material", defaultMetal, Metals...)
	f.Angle = t.number("angle", 0, 0, 90, false, "degrees")
	f.Spacing, _ = t.length("spacing", max(defaultApart, 2*f.Crown), limit{min: f.Crown, above: true, max: 500})
	f.Edge, _ = t.length("edge", max(defaultEdge, f.Wire), limit{min: f.Wire / 2, max: 50})
	f.End, _ = t.length("end", max(defaultEnd, f.Edge), limit{min: f.Wire / 2, max: 200})
	f.After = t.choice("after", defaultAfter, "left", "pulled")
	f.Box = t.whole("box", defaultBox, 1, 100000, "pieces")
	f.Price = t.number("price", 0, 0, 1e6, false, "")
	if f.Kind != "nail" {
		return
	}
	for _, key := range []string{"crown", "angle"} {
		if v := t.get(key); v != nil {
			r.tell(CodeFastenerKey, v.key, v.at, say(v.key)+" belongs to a staple, and the plates are nailed.", "Take the key out, or write kind = \"staple\".")
		}
	}
}

// wire reads the diameter of round wire, or width and thickness of flat wire.
func (r *reader) wire(t tab) (width, flat float64) {
	lim := limit{min: 0.1, max: 5}
	v := t.get("wire")
	switch {
	case v == nil:
		return defaultWire, defaultWireFlat
	case v.kind != listKind:
		width, ok := t.length("wire", defaultWire, lim)
		if !ok {
			return defaultWire, defaultWireFlat
		}
		return width, 0
	case len(v.items) != 2:
		t.wrongType(v, "a diameter, or width and thickness of flat wire", `"0.03 in" or ["0.05 in", "0.02 in"]`)
		return defaultWire, defaultWireFlat
	}
	var got [2]float64
	for i, item := range v.items {
		mm, ok := t.quantity(item)
		if !ok || !t.within(item, mm, lim) {
			return defaultWire, defaultWireFlat
		}
		got[i] = mm
	}
	return max(got[0], got[1]), min(got[0], got[1])
}
